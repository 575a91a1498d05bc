"""A number without value, source, where and how is refused, in every shipped file."""

import copy
import tomllib

import pytest

from stretchform.errors import DataError
from stretchform.files import data
from stretchform.files.judged import load_judged, read_judged
from stretchform.files.steels import read_steel_card
from stretchform.sources import How

MATERIALS = data.data_dir()
STEELS = sorted(
    path.name
    for path in MATERIALS.glob("*.toml")
    if path.name not in ("sources.toml", "forming.toml")
)
GOOD = {"value": "195 GPa", "source": "invented", "where": "this test", "how": "invented"}


def records(tree, path=()):
    """Paths of every record (a table with a value) in a file."""
    if "value" in tree:
        yield path
        return
    for key, branch in tree.items():
        if isinstance(branch, dict):
            yield from records(branch, (*path, key))


def written(tree, path=()):
    """TOML text of nested tables of texts, numbers, lists and flags."""
    lines = [f"[{'.'.join(path)}]"] if path else []
    lines += [f"{k} = {as_toml(v)}" for k, v in tree.items() if not isinstance(v, dict)]
    parts = [written(v, (*path, k)) for k, v in tree.items() if isinstance(v, dict)]
    return "\n".join(["\n".join(lines), *parts])


def as_toml(value):
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, list):
        return "[" + ", ".join(as_toml(v) for v in value) + "]"
    return f'"{value}"' if isinstance(value, str) else repr(value)


def tree_of(name):
    return tomllib.loads((MATERIALS / name).read_text(encoding="utf-8"))


def reader(name):
    return read_judged if name == "forming.toml" else read_steel_card


CASES = [
    (name, path, key)
    for name in [*STEELS, "forming.toml"]
    for path in records(tree_of(name))
    for key in ("value", "source", "where", "how")
]


@pytest.mark.parametrize(("name", "path", "key"), CASES)
def test_a_record_stripped_of_any_of_its_four_lines_is_refused(tmp_path, name, path, key):
    tree = copy.deepcopy(tree_of(name))
    branch = tree
    for step in path:
        branch = branch[step]
    del branch[key]
    spoiled = tmp_path / name
    spoiled.write_text(written(tree), encoding="utf-8")
    with pytest.raises(DataError) as caught:
        reader(name)(spoiled)
    assert path[-1] in caught.value.where and name in caught.value.where
    assert key in caught.value.problem
    assert key in caught.value.fix


@pytest.mark.parametrize("name", [*STEELS, "forming.toml"])
def test_the_writer_of_this_test_alone_spoils_nothing(tmp_path, name):
    untouched = tmp_path / name
    untouched.write_text(written(tree_of(name)), encoding="utf-8")
    for points in MATERIALS.glob("*.csv"):
        (tmp_path / points.name).write_bytes(points.read_bytes())
    assert reader(name)(untouched) == reader(name)(MATERIALS / name)


@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({"source": "no-such-book"}, "no-such-book"),
        ({"source": ""}, "source"),
        ({"where": "  "}, "where"),
        ({"how": "guessed"}, "guessed"),
        ({"value": 195}, "no unit"),
        ({"value": "195"}, ""),
        ({"value": "195,0 GPa"}, "comma"),
        ({"value": "195 kg/m3"}, ""),
        ({"std": "-5 GPa"}, "std"),
        ({"stdev": "5 GPa"}, "stdev"),
    ],
)
def test_a_spoiled_record_is_refused_at_its_place(change, word):
    with pytest.raises(DataError) as caught:
        data.datum({**GOOD, **change}, "youngs_modulus", "pressure", "demo.toml")
    assert "demo.toml: [youngs_modulus]" in caught.value.where
    assert word in str(caught.value)
    assert caught.value.fix


def test_a_good_record_becomes_a_number_in_si_with_its_source():
    found = data.datum({**GOOD, "std": "5 GPa"}, "youngs_modulus", "pressure", "demo.toml")
    assert (found.value, found.std) == (195e9, 5e9)
    assert (found.source, found.where, found.how) == ("invented", "this test", How.INVENTED)


@pytest.mark.parametrize("value", ["0.3", True, float("nan"), float("inf"), None, [0.3]])
def test_a_pure_number_must_be_a_bare_finite_number(value):
    with pytest.raises(DataError):
        data.datum({**GOOD, "value": value}, "poisson_ratio", data.NUMBER, "demo.toml")


def test_a_misspelt_source_gets_the_one_that_is_meant():
    with pytest.raises(DataError, match='did you mean "callister"'):
        data.datum({**GOOD, "source": "calister"}, "x", "pressure", "demo.toml")


@pytest.mark.parametrize("line", ["title", "place", "licence"])
def test_a_source_without_title_place_or_licence_is_refused(tmp_path, line):
    lines = {"title": "T", "place": "P", "licence": "L"}
    del lines[line]
    spoiled = tmp_path / "sources.toml"
    spoiled.write_text(written({"book": lines}), encoding="utf-8")
    with pytest.raises(DataError, match=line):
        data.read_bibliography(spoiled)


@pytest.mark.parametrize("content", [b"[a\nvalue=", b"\xff\xfe\x00", b"a = 1\na = 2"])
def test_a_file_that_is_no_toml_is_refused_by_name(tmp_path, content):
    spoiled = tmp_path / "demo.toml"
    spoiled.write_bytes(content)
    with pytest.raises(DataError, match=r"demo\.toml"):
        data.read_record(spoiled)


def test_a_directory_is_refused_as_a_file(tmp_path):
    with pytest.raises(DataError):
        data.read_record(tmp_path)


def test_every_source_that_a_record_names_stands_in_the_bibliography():
    known = data.bibliography()
    for name in [*STEELS, "forming.toml"]:
        tree = tree_of(name)
        for path in records(tree):
            branch = tree
            for step in path:
                branch = branch[step]
            assert branch["source"] in known


def test_the_judged_factors_are_those_the_plan_explains():
    judged = load_judged()
    ranges = {
        name: tuple(
            getattr(getattr(judged, name), end).value for end in ("low", "likely", "high")
        )
        for name in ("criterion", "rate", "springback", "gained")
    }
    assert ranges == {
        "criterion": (1.03, 1.13, 1.17),
        "rate": (0.90, 0.95, 0.99),
        "springback": (1.0, 1.08, 1.2),
        "gained": (0.88, 0.95, 1.00),
    }
    shares = (judged.spread_coupon, judged.spread_certificate, judged.spread_typical)
    # per cent to fraction: one rounding
    assert [s.value for s in shares] == pytest.approx([0.04, 0.10, 0.15], rel=1e-15)
    steps = (judged.growth_allowance.value, judged.step_growth.value)
    assert steps == pytest.approx((0.01, 0.005), rel=1e-15)
    assert judged.share_of_pressure.how is How.JUDGED


def test_a_range_that_does_not_rise_is_refused(tmp_path):
    tree = tree_of("forming.toml")
    tree["rate"]["low"]["value"] = 1.1
    spoiled = tmp_path / "forming.toml"
    spoiled.write_text(written(tree), encoding="utf-8")
    with pytest.raises(DataError, match="do not rise"):
        read_judged(spoiled)


def test_the_licence_notice_of_the_data_set_is_shipped_beside_its_points():
    notice = (MATERIALS / "316L-true-curve.LICENSE.txt").read_text(encoding="utf-8")
    assert "mahshadlotfinia/Stress316L" in notice
    assert "The above copyright notice and this permission notice shall be included" in notice
