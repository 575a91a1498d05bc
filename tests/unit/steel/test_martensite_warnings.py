"""Warnings for grades that transform and for cold water."""

import pytest

from stretchform.errors import InputError
from stretchform.steel.martensite import md30_angel, md30_nohara, transformation

A304 = {"C": 0.05, "N": 0.05, "Si": 0.5, "Mn": 1.5, "Cr": 18.2, "Ni": 8.1, "Mo": 0.2, "Cu": 0.3}
LEAN = {"C": 0.02, "N": 0.04, "Si": 0.4, "Mn": 1.2, "Cr": 17.6, "Ni": 8.0, "Mo": 0.0, "Cu": 0.0}
A316L = {
    "C": 0.02,
    "N": 0.05,
    "Si": 0.5,
    "Mn": 1.3,
    "Cr": 17.2,
    "Ni": 10.1,
    "Mo": 2.1,
    "Cu": 0.3,
}


@pytest.mark.parametrize(
    ("names", "code"),
    [
        (("1.4310", "301"), "transforms_301"),
        (("1.4318", "301LN"), "transforms_301LN"),
        (("1.4372", "201"), "transforms_201"),
    ],
)
def test_a_grade_that_transforms_is_never_covered(names, code):
    found = transformation(names, A316L, 20.0)  # not even with a stable analysis on paper
    assert code in found.codes
    assert not found.covered


def test_a_stable_analysis_is_covered_in_all_water():
    for water in (5.0, 20.0, 40.0):
        found = transformation(("1.4404", "316L"), A316L, water)
        assert found.covered
        assert "md30_near_water" not in found.codes


def test_a_304_is_covered_in_warm_water_and_not_in_cold():
    warm = transformation(("1.4301", "304"), LEAN, 40.0)
    cold = transformation(("1.4301", "304"), LEAN, 6.0)
    assert warm.distance - cold.distance == pytest.approx(34.0)
    assert "md30_near_water" in cold.codes
    assert not cold.covered


def test_the_distance_is_taken_from_nohara_and_a_warmer_angel_is_said():
    found = transformation(("1.4301",), A304, 20.0)
    assert found.distance == pytest.approx(20.0 - found.nohara)
    assert found.codes == ("angel_near_water",)
    assert found.covered


@pytest.mark.parametrize(("water", "covered"), [(8.0, False), (20.0, True)])
def test_a_304_without_an_analysis_is_not_covered_in_cold_water(water, covered):
    found = transformation(("1.4307", "304L"), {}, water)
    assert "analysis_missing" in found.codes
    assert found.covered is covered


def test_nitrogen_left_out_is_said():
    without = {k: v for k, v in A316L.items() if k != "N"}
    assert "nitrogen_not_given" in transformation(("1.4404",), without, 20.0).codes


@pytest.mark.parametrize("missing", ["C", "Cr", "Ni"])
@pytest.mark.parametrize("md30", [md30_angel, md30_nohara])
def test_an_analysis_without_a_main_element_is_refused(md30, missing):
    with pytest.raises(InputError, match=missing):
        md30({k: v for k, v in A304.items() if k != missing})
