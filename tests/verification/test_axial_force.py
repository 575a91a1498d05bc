"""A cylinder under a constant axial force against computed references of ten digits."""

import csv
from pathlib import Path

import pytest
from laws import LAWS, MM, MPA

from stretchform.errors import InputError, NoSolution
from stretchform.forming.axial import Cylinder, at_growth
from stretchform.forming.membrane import Elastic

DATA = Path(__file__).parent / "data" / "axial_force.csv"
ELASTIC = Elastic(193e9, 0.29)
CYLINDER = Cylinder(0.5, 3e-3, ELASTIC)


def rows():
    with DATA.open() as lines:
        return list(csv.DictReader(line for line in lines if not line.startswith("#")))


@pytest.mark.parametrize("row", rows(), ids=lambda row: row["name"])
def test_state_agrees_with_the_reference(row):
    cylinder = Cylinder(float(row["r0"]) * MM, float(row["t0"]) * MM, ELASTIC)
    state = at_growth(cylinder, float(row["F"]), float(row["e_rel"]), LAWS[row["law"]])
    pairs = {
        "ep": state.plastic_strain,
        "eph": state.plastic_hoop,
        "sh": state.hoop_stress / MPA,
        "sz": state.axial_stress / MPA,
        "p": state.pressure / MPA,
        "r": state.radius / MM,
        "t": state.wall / MM,
        "eh": state.hoop_strain,
        "ez": state.axial_strain,
        "t_rel": state.released_wall / MM,
    }
    for key, value in pairs.items():
        assert value == pytest.approx(float(row[key]), rel=1e-6), key  # ten digits given
    assert state.plastic_axial == pytest.approx(float(row["epz"]), abs=1e-9)


def test_a_law_without_yield_stress_takes_the_force_first():
    state = at_growth(CYLINDER, 2e5, 0.05, LAWS["H"])
    free = at_growth(CYLINDER, 0.0, 0.05, LAWS["H"])
    assert state.plastic_axial > 0.0
    assert state.pressure > free.pressure


def test_a_force_that_makes_the_wall_flow_alone_is_refused():
    with pytest.raises(NoSolution, match="alone makes the wall flow"):
        at_growth(CYLINDER, 4e6, 0.05, LAWS["S"])


def test_a_growth_beyond_the_curve_is_refused():
    with pytest.raises(NoSolution, match="more strain than the curve covers"):
        at_growth(CYLINDER, 1e5, 0.6, LAWS["T"])


def test_a_growth_that_is_none_is_refused():
    with pytest.raises(InputError, match="not a growth"):
        at_growth(CYLINDER, 0.0, 0.0, LAWS["S"])
