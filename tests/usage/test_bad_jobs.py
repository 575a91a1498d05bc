"""Wrong job files: each is refused with its line, what is wrong, and a line that works.

Every case changes one good job. Where the cure is a line of its own it is put in the place of
the wrong one, or behind it where something was missing, and the job must then be read.
"""

from pathlib import Path

import pytest
from bad_jobs import CASES, GOOD, NOTHING, REPLACE, Case

from stretchform.errors import InputError, InputErrors, NoSolution, StretchformError
from stretchform.files.job import job_from_text, read_job


def _refused(text: str) -> StretchformError:
    with pytest.raises(StretchformError) as caught:
        job_from_text(text, Path("tank.toml"))
    return caught.value


def _edited(case: Case) -> tuple[str, int]:
    """The wrong job and the number of the line that has to be named."""
    assert case.old in GOOD
    text = GOOD.replace(case.old, case.new, 1)
    marked = case.at or case.new.split("\n")[0]
    start = 0 if case.at else GOOD.index(case.old)
    return text, text[: text.index(marked, start)].count("\n") + 1


def test_the_job_that_all_cases_change_is_read():
    assert job_from_text(GOOD, Path("tank.toml")).name == "Bench tank"


def test_there_are_at_least_sixty_wrong_files():
    assert len(CASES) >= 60


@pytest.mark.parametrize("name", list(CASES))
def test_a_wrong_job_is_refused_with_its_line_and_a_line_that_works(name):
    case = CASES[name]
    text, line = _edited(case)
    error = _refused(text)
    assert type(error) is case.error, str(error)
    assert error.exit_code == (3 if case.error is NoSolution else 2)
    assert case.fragment in str(error)
    assert f"tank.toml:{line}:" in str(error)
    assert "\n  try: " in str(error)
    if case.cure != NOTHING:
        _assert_cured(text, line, error.fix, case.cure)


def _assert_cured(text: str, line: int, fix: str, cure: str) -> None:
    """The proposed line works: put in place, the whole job is read."""
    rows = text.split("\n")
    new = [row.strip() for row in fix.split("\n")]
    inline = "." in new[0].split("=")[0] and rows[line - 1].startswith("certificate")
    if inline:  # certificate.proof_02 = "..." belongs into the braces of its line
        key, value = new[0].removeprefix("certificate.").split(" = ")
        before, _, after = rows[line - 1].partition(f"{key} = ")
        rest = after[after.index('"', 1) + 1 :]
        new = [f"{before}{key} = {value}{rest}"]
    rows[line - 1 : line] = new if cure == REPLACE else [rows[line - 1], *new]
    assert job_from_text("\n".join(rows), Path("tank.toml")).example


def test_all_mistakes_of_one_file_are_told_together_in_the_order_of_their_lines():
    text = (
        GOOD.replace('growth = "4 %"', 'growth = "0.04"')
        .replace('"2.0 mm"', '"2,0 mm"')
        .replace('"1.4307"', '"1.4037"')
        .replace("count = 3", 'count = "3"')
        .replace('"hand pump"', '"nitrogen"')
        .replace("[gauge]", "[gage]")
    )
    error = _refused(text)
    assert isinstance(error, InputErrors)
    assert error.exit_code == 2
    lines = [int(one.where.split(":")[1]) for one in error.errors]
    assert lines == sorted(lines)
    fragments = ("is 4 %", "decimal comma", "bare number", "gas is refused", "unknown table")
    for fragment in fragments:
        assert sum(fragment in one.problem for one in error.errors) == 1


def test_a_mistake_that_another_course_takes_over_is_told_once():
    error = _refused(GOOD.replace('"288 MPa"', '"288 mPa"'))
    assert type(error) is InputError
    assert '[[course]] "lower", certificate.proof_02 = "288 mPa"' in error.where


@pytest.mark.parametrize(
    ("content", "fragment"),
    [
        (b"", "an empty job file"),
        (b"  \n\t\n", "an empty job file"),
        (GOOD.encode("utf-16"), "UTF-16"),
        (GOOD.encode("cp1252"), "not UTF-8 text: byte 0xb0"),
        (b"\x00\x01\x02\x03", "UTF-16"),
        (b"[job]\nname = \x07", "control character (U+0007)"),
        (b"#" * 1_000_001, "too large"),
        (b"a = " + b"[" * 5000, "tank.toml"),
    ],
)
def test_a_file_that_is_no_job_at_all_is_refused(tmp_path, content, fragment):
    path = tmp_path / "tank.toml"
    path.write_bytes(content)
    with pytest.raises(InputError) as caught:
        read_job(path)
    assert fragment in str(caught.value)
    assert "\n  try: " in str(caught.value)
    assert caught.value.exit_code == 2


def test_a_folder_is_refused_and_a_file_in_it_is_proposed(tmp_path):
    with pytest.raises(InputError, match="a folder where a job file is meant"):
        read_job(tmp_path)


def test_a_missing_file_is_refused_and_the_nearest_name_is_proposed(tmp_path):
    (tmp_path / "deck-tank.toml").write_text(GOOD, encoding="utf-8")
    with pytest.raises(InputError, match="no such job file") as caught:
        read_job(tmp_path / "decktank.toml")
    assert caught.value.fix.endswith("deck-tank.toml")


def test_a_byte_order_mark_and_the_line_ends_of_another_system_are_read(tmp_path):
    path = tmp_path / "tank.toml"
    path.write_bytes(b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").encode())
    assert read_job(path).name == "Bench tank"
