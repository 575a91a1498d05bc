"""Every code that a fit or a check can hand back has its sentence, and no sentence is idle."""

import re
from pathlib import Path

import pytest

import stretchform
from stretchform.planning.cautions import CODES
from stretchform.report import words_fit
from stretchform.steel.gained import NOT_GAINED
from stretchform.steel.martensite import _TRANSFORMING
from stretchform.steel.tensile import Finding

ROOT = Path(stretchform.__file__).parent


def literals(pattern, *modules):
    text = "\n".join((ROOT / module).read_text(encoding="utf-8") for module in modules)
    return set(re.findall(pattern, text))


def keys_of_tests(module):
    """Codes of the tables 'tests = {"code": condition ...}' of a module."""
    text = (ROOT / module).read_text(encoding="utf-8")
    tables = re.findall(r"tests = \{(.*?)\n    \}", text, re.DOTALL)
    return {
        code for table in tables for code in re.findall(r'^\s+"(\w+)":', table, re.MULTILINE)
    }


def test_every_finding_has_a_sentence_and_no_sentence_is_idle():
    codes = literals(r'Finding\(\s*"(\w+)"', "steel/tensile.py", "steel/minima.py")
    codes |= {f"below_minimum_{n}" for n in ("proof_02", "proof_10", "tensile", "elongation")}
    assert codes == set(words_fit.FINDINGS)


def test_every_repair_has_a_sentence():
    codes = literals(r'Repair\(\s*"(\w+)"', "files/coupon.py", "files/coupon_table.py")
    assert codes == set(words_fit.REPAIRS)


@pytest.mark.parametrize(
    ("module", "words"),
    [
        ("planning/trial.py", words_fit.TRIAL),
        ("steel/fit.py", words_fit.LAWS),
    ],
)
def test_every_code_of_a_check_has_a_sentence(module, words):
    assert keys_of_tests(module) == set(words)


def test_every_code_of_seams_and_martensite_is_a_caution_or_has_words():
    seams = keys_of_tests("steel/gained.py")
    shown = {
        code.removeprefix("weld_").replace("not_stated", "weld_not_described") for code in CODES
    }
    assert seams <= CODES | shown
    codes = literals(r'append\("(\w+)"\)', "steel/martensite.py")
    assert codes - {"analysis_missing"} <= CODES  # that one is said among what a plan rests on
    assert {f"transforms_{family}" for family in _TRANSFORMING} == set(words_fit.FAMILIES)


def test_what_is_not_gained_has_words():
    assert set(NOT_GAINED) == set(words_fit.NOT_GAINED)


@pytest.mark.parametrize(
    ("found", "sentence"),
    [
        (Finding("no_elastic_part", {"modulus": 196e9}), "196 GPa"),
        (Finding("starts_after_proof", {"strain": 0.0065}), "0.65 % plastic"),
        (Finding("proof_given", {"proof_02": 245e6}), "245 MPa"),
        (Finding("spikes_dropped", {"count": 3.0}), "3 readings"),
        (
            Finding("below_minimum_tensile", {"value": 470e6, "minimum": 485e6}),
            "470 MPa is below the least of its standards, 485 MPa",
        ),
        (
            Finding("below_minimum_elongation", {"value": 0.30, "minimum": 0.40}),
            "30",
        ),
    ],
)
def test_a_finding_shows_its_numbers_with_units(found, sentence):
    assert sentence in words_fit.finding(found)


def test_a_repair_shows_its_detail():
    assert "Windows-1252" in words_fit.repair("encoding", "Windows-1252")
