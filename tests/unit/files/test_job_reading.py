"""What a job file becomes: SI numbers, mid-wall radii, inherited courses, defaults."""

import dataclasses
import re
import sys
from math import pi
from pathlib import Path

import pytest

from stretchform.errors import InputError
from stretchform.files.job import job_from_text, read_job
from stretchform.files.judged import load_judged
from stretchform.files.starter import starter, write_starter
from stretchform.planning.job import TargetKind
from stretchform.planning.tank import ArmKind, Attitude, HeadShape

EXAMPLES = Path(__file__).parents[3] / "examples"
ROUNDING = 1e-15  # relative: one or two operations on doubles
TEXT = """\
[job]
name = "Bench tank"
[target]
growth = "5 %"
[tank]
attitude = "hanging"
[[course]]
name = "lower"
length = "900 mm"
inside_diameter = "640 mm"
wall = "2.0 mm"
wall_tolerance = "0.05 mm"
steel = "1.4307"
certificate = { proof_02 = "288 MPa", proof_10 = "322 MPa", tensile = "641 MPa" }
weld = { filler = "308L", elongation = "35 %" }
[[course]]
name = "upper"
like = "lower"
length = "1100 mm"
[head.bottom]
shape = "ellipsoid 2:1"
wall = "2.5 mm"
[head.top]
shape = "tied"
"""


def _job(text: str = TEXT):
    return job_from_text(text, Path("tank.toml"))


def test_the_first_example_is_read_as_written():
    job = read_job(EXAMPLES / "survey-boat-deck-tank.toml")
    lower, upper = job.tank.courses
    assert job.example
    assert "invented" in job.note
    assert job.target.kind is TargetKind.GROWTH
    assert job.target.value == pytest.approx(0.04, rel=ROUNDING)
    assert job.tank.attitude is Attitude.STANDING
    assert lower.radius == pytest.approx(0.321, rel=ROUNDING)
    assert (lower.length, upper.length) == pytest.approx((0.9, 1.1), rel=ROUNDING)
    assert upper.steel is lower.steel
    assert upper.weld == lower.weld
    assert lower.steel.proof_02 == pytest.approx(288e6, rel=ROUNDING)
    assert [station.course for station in job.tank.stations] == ["lower", "upper", "upper"]
    (plate,) = job.tank.plates
    assert plate.heights == pytest.approx([0.1 + 0.2 * index for index in range(10)], rel=1e-14)
    assert plate.arm is not None
    assert plate.arm.kind is ArmKind.SINGLE
    assert plate.arm.length is None
    assert job.gauge is not None
    assert job.gauge.accuracy_class == pytest.approx(0.6, rel=ROUNDING)
    assert job.supply.stroke == pytest.approx(13e-6, rel=1e-14)


def test_the_second_example_in_inches_and_psi_is_read_as_si():
    job = read_job(EXAMPLES / "rain-cistern.toml")
    (shell,) = job.tank.courses
    wall = 0.078 * 0.0254
    # 1e-13: some operations on doubles and pint's factors
    assert shell.wall == pytest.approx(wall, rel=1e-13)
    assert shell.radius == pytest.approx((68.4 * 0.0254 / pi - wall) / 2, rel=1e-13)
    assert shell.steel.key == "1.4404"
    assert job.target.value == pytest.approx(71.0 * 0.0254, rel=1e-13)
    assert job.water.temperature == pytest.approx((64 - 32) / 1.8, rel=1e-12)
    assert job.water.chloride == pytest.approx(20e-6, rel=1e-13)
    assert job.tape.expansion == pytest.approx(6.4e-6 * 1.8, rel=1e-13)
    assert job.tank.top == job.tank.bottom


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.toml")), ids=lambda path: path.name)
def test_every_example_says_that_it_is_invented(path):
    job = read_job(path)
    assert job.example
    assert "invented" in job.note
    assert path.read_text(encoding="utf-8").startswith("# Invented example")


def test_the_middle_of_each_example_is_free_of_its_heads():
    for path in EXAMPLES.glob("*.toml"):
        tank = read_job(path).tank
        widest = max(course.radius for course in tank.courses)
        assert tank.length / 2 > 1.2 * widest


@pytest.mark.parametrize(
    ("size", "radius"),
    [
        ('inside_diameter = "640 mm"', 0.321),
        ('outside_diameter = "644 mm"', 0.321),
        (f'outside_circumference = "{644 * pi!r} mm"', 0.321),
        ('inside_diameter = "25 in"', (25 * 0.0254 + 0.002) / 2),
    ],
)
def test_each_way_to_give_the_size_leads_to_the_middle_of_the_wall(size, radius):
    job = _job(TEXT.replace('inside_diameter = "640 mm"', size))
    # 1e-14: a product and a quotient with pi
    assert job.tank.courses[0].radius == pytest.approx(radius, rel=1e-14)


def test_without_stations_each_course_has_one_at_its_middle():
    stations = _job().tank.stations
    assert [(s.name, s.course) for s in stations] == [("lower", "lower"), ("upper", "upper")]
    assert [s.height for s in stations] == pytest.approx([0.45, 1.45], rel=ROUNDING)


def test_a_head_without_a_steel_has_that_of_the_course_it_is_welded_to():
    tank = _job().tank
    assert tank.bottom.steel is tank.courses[0].steel
    assert tank.top.steel is tank.courses[-1].steel
    assert tank.top.shape is HeadShape.TIED
    assert tank.top.wall == tank.courses[-1].wall


def test_a_head_may_have_its_own_steel():
    job = _job(TEXT.replace('wall = "2.5 mm"', 'wall = "2.5 mm"\nsteel = "316L"'))
    assert job.tank.bottom.steel.key == "1.4404"


def test_a_course_of_another_steel_does_not_take_over_the_certificate():
    other = 'like = "lower"\nsteel = "1.4404"'
    lower, upper = _job(TEXT.replace('like = "lower"', other)).tank.courses
    assert upper.steel.proof_02 != lower.steel.proof_02
    assert upper.weld is None
    assert upper.wall == lower.wall


def test_a_course_with_its_own_size_does_not_take_over_the_other_size():
    other = 'like = "lower"\noutside_diameter = "646 mm"'
    upper = _job(TEXT.replace('like = "lower"', other)).tank.courses[1]
    assert upper.radius == pytest.approx(0.322, rel=ROUNDING)


def test_like_may_be_passed_on():
    more = '[[course]]\nname = "third"\nlike = "upper"\n[head.bottom]'
    third = _job(TEXT.replace("[head.bottom]", more)).tank.courses[2]
    assert (third.length, third.wall) == (1.1, 0.002)


def test_the_analysis_of_a_certificate_is_kept_in_per_cent_by_mass():
    from stretchform.files.job_steels import certificate
    from stretchform.files.job_tables import CertificateTable

    written = {"proof_02": "288 MPa", "tensile": "641 MPa", "analysis": {"C": "0.021 %"}}
    made = certificate(CertificateTable.model_validate(written))
    assert made is not None
    assert made.analysis == pytest.approx({"C": 0.021}, rel=ROUNDING)
    assert made.proof_10 is None


def test_limits_not_written_are_the_judged_ones():
    limits, judged = _job().limits, load_judged()
    assert limits.share_of_pressure == judged.share_of_pressure.value
    assert limits.share_of_growth_block == judged.share_of_growth_block.value
    assert limits.growth is None


def test_a_limit_may_be_tightened():
    job = _job(TEXT + '[limits]\nshare_of_growth_care = "30 %"\ngrowth = "5.5 %"\n')
    assert job.limits.share_of_growth_care == pytest.approx(0.30, rel=ROUNDING)
    assert job.limits.growth == pytest.approx(0.055, rel=ROUNDING)


def test_the_model_and_the_seed_are_read():
    job = _job(TEXT + '[model]\ncriterion = "hill 0.9"\nspread = "none"\nseed = 7\n')
    assert (job.model.criterion, job.model.spread, job.model.seed) == ("hill 0.9", False, 7)


def test_an_accepted_caution_keeps_its_reason():
    reason = "cellar at 8 °C and steady, workshop lead, 2026-03-02"
    job = _job(TEXT + f'[accepted]\ncold_water = "{reason}"\n')
    assert job.accepted == {"cold_water": reason}


def test_no_vent_is_data_and_no_mistake():
    assert not _job(TEXT + "[supply]\nvent = false\n").supply.vent


def test_contents_and_a_second_gauge_are_read():
    gauge = 'range = "60 bar"\nclass = "0.6 %"\nheight = "1 m"\n'
    contents = (
        '[contents]\nliquid_density = "1.0 kg/l"\nlevel = "1.2 m"\nacceleration = "1 g"\n'
    )
    job = _job(f"{TEXT}[gauge]\n{gauge}[gauge.second]\n{gauge}{contents}")
    assert job.second_gauge == job.gauge
    assert job.contents is not None
    assert job.contents.liquid_density == pytest.approx(1000.0, rel=ROUNDING)


def test_a_steel_of_ones_own_is_found_beside_the_job(tmp_path):
    shipped = Path(__file__).parents[3] / "materials" / "1.4307.toml"
    (tmp_path / "coil.toml").write_bytes(shipped.read_bytes())
    path = tmp_path / "tank.toml"
    path.write_text(TEXT.replace('steel = "1.4307"', 'steel = "coil.toml"'), encoding="utf-8")
    assert read_job(path).tank.courses[0].steel.title


def test_the_same_text_gives_the_same_job():
    assert dataclasses.asdict(_job()).keys() == dataclasses.asdict(_job()).keys()
    assert _job() == _job()


def test_the_starter_is_a_job_and_is_never_written_over_a_file(tmp_path):
    path = tmp_path / "tank.toml"
    write_starter(path)
    assert read_job(path).example
    assert path.read_text(encoding="utf-8") == starter()
    path.write_text("mine", encoding="utf-8")
    with pytest.raises(InputError, match="left alone"):
        write_starter(path)
    assert path.read_text(encoding="utf-8") == "mine"


def test_the_starter_in_a_folder_that_is_not_there_is_refused(tmp_path):
    with pytest.raises(InputError, match="cannot be written"):
        write_starter(tmp_path / "none" / "tank.toml")


def test_the_plates_of_the_starter_can_be_read_when_their_marks_are_taken_off():
    lines = [
        line.removeprefix("# ")
        if line.startswith("# ") and ("=" in line or "[[" in line)
        else line
        for line in starter().split("\n")
    ]
    assert _job("\n".join(lines)).tank.plates[0].heights == pytest.approx([0.6, 0.9, 1.2])


def test_importing_the_reader_loads_neither_pydantic_nor_pint():
    import subprocess

    code = (
        "import sys, stretchform.files.job, stretchform.files.starter;"
        "assert not {'pydantic', 'pint', 'scipy', 'pandas'} & set(sys.modules)"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


def _numbers(value, path=""):
    """Every float of a job by its path."""
    if dataclasses.is_dataclass(value):
        value = {field.name: getattr(value, field.name) for field in dataclasses.fields(value)}
    if isinstance(value, dict | tuple):
        members = value.items() if isinstance(value, dict) else enumerate(value)
        for key, member in members:
            yield from _numbers(member, f"{path}.{key}")
    elif isinstance(value, float):
        yield path, value


def _in_inches_and_psi(text):
    """The same job with every millimetre, metre, megapascal, bar and degree written anew."""
    lengths = {"mm": 25.4, "m": 0.0254}
    pressures = {"MPa": 4.4482216152605 / 25.4**2, "bar": 44.482216152605 / 25.4**2}
    for unit, factor in lengths.items():
        text = re.sub(
            rf'"([0-9.]+) {unit}"', lambda m, f=factor: f'"{float(m[1]) / f!r} in"', text
        )
    for unit, factor in pressures.items():
        text = re.sub(
            rf'"([0-9.]+) {unit}"', lambda m, f=factor: f'"{float(m[1]) / f!r} psi"', text
        )
    return re.sub(r'"([0-9.]+) °C"', lambda m: f'"{1.8 * float(m[1]) + 32.0!r} °F"', text)


def test_a_job_in_inches_and_psi_is_the_same_job():
    text = (EXAMPLES / "survey-boat-deck-tank.toml").read_text(encoding="utf-8")
    ours, theirs = _in_inches_and_psi(text), text
    assert ours.count(' in"') > 15
    assert ours.count(' psi"') > 5
    found, expected = dict(_numbers(_job(ours))), dict(_numbers(_job(theirs)))
    assert found.keys() == expected.keys()
    for path, value in expected.items():
        # 1e-12: a few roundings of doubles on the way to inches and back, and pint's factors
        assert found[path] == pytest.approx(value, rel=1e-12), path
