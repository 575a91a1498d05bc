"""The thin wall in closed form against independent computed references and its own limits.

Reference growth is of the mid-wall radius, as our functions take it. Everything in SI here.
"""

import csv
from pathlib import Path

import numpy as np
import pytest
from laws import LAWS, MM, MPA

from stretchform.errors import NoSolution
from stretchform.forming import criterion, membrane, surface
from stretchform.forming.criterion import Shape
from stretchform.forming.membrane import RIGID, Elastic
from stretchform.steel.curve import Hollomon, Scaled, Swift, Table

DATA = Path(__file__).parent / "data"
SHAPES = {"cyl": Shape.CLOSED, "sph": Shape.SPHERE, "open": Shape.OPEN}
STEEL = Elastic(193_000.0 * MPA, 0.29)
EXACT = 1e-9  # the references hold 13 digits; 1e-9 leaves room for their last steps
AT_MAXIMUM = 1e-8  # strains at the maximum hold 11 digits there, where the pressure is flat


def rows(name):
    lines = (DATA / name).read_text(encoding="utf-8").splitlines()
    table = list(csv.DictReader(line for line in lines if not line.startswith("#")))
    return [pytest.param(row, id=row["name"]) for row in table]


def number(row, column):
    return float(row[column])


def case(row):
    """Radius, wall, curve, state and elasticity of one reference row."""
    elastic = Elastic(float(row.get("E", 193_000.0)) * MPA, float(row.get("nu", 0.29)))
    state = criterion.mises(SHAPES[row["geo"]])
    return number(row, "r0") * MM, number(row, "t0") * MM, LAWS[row["mat"]], state, elastic


@pytest.mark.parametrize("row", rows("closed_form.csv"))
def test_every_column_under_pressure_and_released_matches_the_reference(row):
    radius, wall, curve, state, elastic = case(row)
    strain = membrane.strain_of_released(number(row, "e_rel"), state)
    grown = membrane.grown(radius, wall, strain, curve, state, elastic)
    ours = {
        "ep": strain,
        "sig": grown.flow_stress / MPA,
        "sh": grown.hoop_stress / MPA,
        "p": grown.pressure / MPA,
        "eh": grown.hoop_strain,
        "ez": grown.axial_strain,
        "et": grown.wall_strain,
        "r": radius * np.exp(grown.hoop_strain) / MM,
        "t": grown.wall_under_pressure / MM,
        "t_rel": grown.wall_released / MM,
        "e_load": grown.growth_under_pressure,
        "e_rel": grown.growth_released,
    }
    for column, value in ours.items():
        expected = number(row, column)
        # abs: ez of R1 stands for zero; rounding of the strain itself leaves some 1e-17
        assert value == pytest.approx(expected, rel=EXACT, abs=1e-16), column


@pytest.mark.parametrize("row", rows("closed_form.csv"))
def test_maximum_pressure_and_the_strains_there_match_the_reference(row):
    radius, wall, curve, state, elastic = case(row)
    top = membrane.maximum(radius, wall, curve, state, elastic)
    there = membrane.grown(radius, wall, top.strain, curve, state, elastic)
    assert bool(top.reached)
    assert top.pressure / MPA == pytest.approx(number(row, "pmax"), rel=AT_MAXIMUM)
    assert top.strain == pytest.approx(number(row, "ep_pmax"), rel=AT_MAXIMUM)
    assert there.hoop_strain == pytest.approx(number(row, "eh_pmax"), rel=AT_MAXIMUM)
    assert there.growth_released == pytest.approx(number(row, "e_rel_pmax"), rel=AT_MAXIMUM)


@pytest.mark.parametrize("row", rows("closed_form.csv"))
def test_the_reference_is_met_from_the_growth_that_a_tape_measures_outside(row):
    radius, wall, curve, state, elastic = case(row)
    middle = number(row, "e_rel")
    shape = SHAPES[row["geo"]]
    axial = state.axial_strain * number(row, "ep")
    outside = surface.outside_from_mid(shape, radius, wall, middle, axial)
    back = surface.mid_from_outside(shape, radius, wall, outside, axial)
    strain = membrane.strain_of_released(back, state)
    ours = membrane.pressure(radius, wall, strain, curve, state, elastic) / MPA
    assert outside < middle  # the outer skin grows less than the middle of the wall
    assert ours == pytest.approx(number(row, "p"), rel=EXACT)


@pytest.mark.parametrize("row", rows("inverse.csv"))
def test_inverse_from_pressure_or_from_growth_under_pressure_matches_the_reference(row):
    radius, wall, curve, state, elastic = case(row)
    if row["given"] == "p":
        pressure = number(row, "p") * MPA
        strain = membrane.strain_at_pressure(pressure, radius, wall, curve, state, elastic)
    else:
        growth = number(row, "e_load")
        strain = membrane.strain_of_loaded(growth, curve, state, elastic)
    grown = membrane.grown(radius, wall, strain, curve, state, elastic)
    assert strain == pytest.approx(number(row, "ep"), rel=EXACT)
    assert grown.pressure / MPA == pytest.approx(number(row, "p"), rel=EXACT)
    assert grown.growth_released == pytest.approx(number(row, "e_rel"), rel=EXACT)
    assert grown.growth_under_pressure == pytest.approx(number(row, "e_load"), rel=EXACT)
    if row["t_rel"]:
        assert grown.wall_released / MM == pytest.approx(number(row, "t_rel"), rel=EXACT)


@pytest.mark.parametrize("shape", list(Shape))
@pytest.mark.parametrize("law", ["H", "S", "V", "VL", "T"])
def test_pressure_and_growth_under_pressure_lead_back_to_the_strain(law, shape):
    state, curve = criterion.mises(shape), LAWS[law]
    top = membrane.maximum(0.4, 0.002, curve, state, STEEL)
    strain = np.linspace(0.02, 0.85, 40) * float(top.strain)
    grown = membrane.grown(0.4, 0.002, strain, curve, state, STEEL)
    from_pressure = membrane.strain_at_pressure(grown.pressure, 0.4, 0.002, curve, state, STEEL)
    from_growth = membrane.strain_of_loaded(grown.growth_under_pressure, curve, state, STEEL)
    # 1e-12: the slope of ln p is above 0.2 up to 0.85 of the maximum, so rounding (1e-16)
    # grows at most some 1e3 times on the way back
    np.testing.assert_allclose(from_pressure, strain, rtol=1e-12)
    np.testing.assert_allclose(from_growth, strain, rtol=1e-12)


@pytest.mark.parametrize("shape", list(Shape))
@pytest.mark.parametrize("law", ["H", "S", "V", "VL", "M2"])
def test_slope_of_the_logarithm_is_the_derivative_of_the_pressure(law, shape):
    state, curve = criterion.mises(shape), LAWS[law]
    strain, step = np.linspace(0.01, 0.4, 30), 1e-6

    def logarithm(x):
        return np.log(membrane.pressure(0.4, 0.002, x, curve, state, STEEL))

    difference = (logarithm(strain + step) - logarithm(strain - step)) / (2.0 * step)
    ours = membrane.slope_of_logarithm(strain, curve, state, STEEL)
    # rounding 1e-16·15/1e-6 and curvature step²·s'''/6 (at most 1e6 s): below 2e-7 together
    np.testing.assert_allclose(ours, difference, rtol=1e-6, atol=1e-6)


@pytest.mark.parametrize("shape", list(Shape))
def test_elastic_branch_joins_the_plastic_one_at_first_yield(shape):
    state, curve = criterion.mises(shape), LAWS["S"]
    at_yield = membrane.grown(0.5, 0.003, 0.0, curve, state, STEEL)
    elastic = membrane.elastic_growth(at_yield.pressure, 0.5, 0.003, state, STEEL)
    # four rounds of a contraction by some 1e-3 leave 1e-12 of the growth
    assert elastic == pytest.approx(at_yield.growth_under_pressure, rel=1e-11)


@pytest.mark.parametrize(
    ("shape", "stiffness"),
    [(Shape.CLOSED, 1.0 - 0.29 / 2.0), (Shape.SPHERE, 0.5 * (1.0 - 0.29)), (Shape.OPEN, 1.0)],
)
def test_elastic_growth_at_small_pressure_is_that_of_the_thin_wall_formula(shape, stiffness):
    pressure = 1.0e3  # Pa: strains of 1e-6, so second-order parts are below 1e-5 of the growth
    ours = membrane.elastic_growth(pressure, 0.5, 0.003, criterion.mises(shape), STEEL)
    small = pressure * 0.5 / (0.003 * STEEL.youngs_modulus) * stiffness
    assert ours == pytest.approx(small, rel=1e-5)


@pytest.mark.parametrize("shape", list(Shape))
@pytest.mark.parametrize("law", ["H", "S", "V", "VL", "T", "M2"])
def test_inverse_holds_from_the_first_yield_to_the_last_millionth_below_the_maximum(law, shape):
    state, curve = criterion.mises(shape), LAWS[law]
    first = float(membrane.pressure(0.4, 0.002, 0.0, curve, state, STEEL))
    top = membrane.maximum(0.4, 0.002, curve, state, STEEL)
    ends = np.array([1e-9, 1e-6, 1e-3, 0.5, 0.99, 1.0 - 1e-3, 1.0 - 1e-6, 1.0 - 1e-9])
    pressures = first + ends * (float(top.pressure) - first)
    strain = membrane.strain_at_pressure(pressures, 0.4, 0.002, curve, state, STEEL)
    back = membrane.pressure(0.4, 0.002, strain, curve, state, STEEL)
    np.testing.assert_allclose(back, pressures, rtol=1e-13)  # rounding of ln p, about 16 of it
    assert np.all(np.diff(strain) > 0.0)
    assert np.all(strain < float(top.strain))


def test_the_inverse_at_the_maximum_itself_is_the_strain_there():
    state, curve = criterion.mises(Shape.CLOSED), LAWS["S"]
    top = membrane.maximum(0.4, 0.002, curve, state, STEEL)
    strain = membrane.strain_at_pressure(top.pressure, 0.4, 0.002, curve, state, STEEL, top)
    # a flat maximum: rounding of 1e-16 in ln p moves the strain by its root, 1e-8 of it
    assert strain == pytest.approx(float(top.strain), rel=1e-6)


def test_below_first_yield_there_is_no_plastic_strain_and_above_the_maximum_none_is_known():
    state, curve = criterion.mises(Shape.CLOSED), LAWS["S"]
    first = membrane.pressure(0.5, 0.003, 0.0, curve, state, STEEL)
    top = membrane.maximum(0.5, 0.003, curve, state, STEEL)
    pressures = np.array([0.0, 0.5 * first, 0.999 * first, 1.001 * float(top.pressure)])
    strain = membrane.strain_at_pressure(pressures, 0.5, 0.003, curve, state, STEEL)
    assert np.array_equal(strain[:3], np.zeros(3))
    assert np.isnan(strain[3])


def test_a_growth_that_is_still_elastic_has_no_plastic_strain():
    state, curve = criterion.mises(Shape.CLOSED), LAWS["S"]
    at_yield = membrane.grown(0.5, 0.003, 0.0, curve, state, STEEL).growth_under_pressure
    growth = np.array([0.1, 0.5, 0.9]) * at_yield
    strain = membrane.strain_of_loaded(growth, curve, state, STEEL)
    np.testing.assert_allclose(strain, 0.0, atol=1e-15)  # bisection stops at 1e-17


@pytest.mark.parametrize("shape", list(Shape))
def test_maximum_may_sit_on_a_kink_of_a_table(shape):
    # the slope of ln p changes sign at the corner 0.08: steep before, nearly flat after
    corner = Table(np.array([0.0, 0.08, 0.30]), np.array([250.0, 450.0, 455.0]) * MPA)
    state = criterion.mises(shape)
    top = membrane.maximum(0.5, 0.003, corner, state, STEEL)
    dense = membrane.pressure(0.5, 0.003, np.linspace(0, 0.3, 30_001), corner, state, STEEL)
    assert top.strain == pytest.approx(0.08, rel=1e-12)  # 60 halvings of a cell of the grid
    assert top.pressure == pytest.approx(np.max(dense), rel=1e-12)  # 0.08 is a dense point


def test_the_higher_of_two_maxima_of_a_table_is_found():
    # flat stretch from 0.05 to 0.10 makes a first, lower maximum; the last line a higher one
    points = np.array([0.0, 0.05, 0.10, 0.30, 0.50])
    stress = np.array([250.0, 400.0, 405.0, 800.0, 810.0]) * MPA
    state, table = criterion.mises(Shape.CLOSED), Table(points, stress)
    top = membrane.maximum(0.5, 0.003, table, state, STEEL)
    assert top.strain == pytest.approx(0.30, rel=1e-12)
    first = membrane.pressure(0.5, 0.003, 0.05, table, state, STEEL)
    after = membrane.pressure(0.5, 0.003, 0.08, table, state, STEEL)
    assert first > after  # there are indeed two maxima
    assert top.pressure > first


def test_a_spike_of_a_table_narrower_than_any_grid_is_still_found():
    # the pressure at the spike, 470·exp(−0.136) = 410, beats the later smooth top near 400
    points = np.array([0.0, 0.078, 0.0785, 0.079, 0.20, 0.30])
    stress = np.array([250.0, 400.0, 470.0, 400.0, 566.0, 566.0]) * MPA
    state, table = criterion.mises(Shape.CLOSED), Table(points, stress)
    top = membrane.maximum(0.5, 0.003, table, state, RIGID)
    assert top.strain == pytest.approx(0.0785, rel=1e-12)


def test_a_curve_that_ends_just_behind_the_maximum_still_reaches_it():
    whole = LAWS["S"]
    known = membrane.maximum(0.5, 0.003, whole, criterion.mises(Shape.CLOSED), STEEL)
    short = Swift(1400.0 * MPA, 0.04, 0.55, strain_limit=float(known.strain) + 2e-4)
    top = membrane.maximum(0.5, 0.003, short, criterion.mises(Shape.CLOSED), STEEL)
    assert bool(top.reached)
    assert top.strain == pytest.approx(float(known.strain), rel=AT_MAXIMUM)


def test_a_curve_that_ends_before_the_maximum_says_so():
    short = Swift(1400.0 * MPA, 0.04, 0.55, strain_limit=0.10)
    top = membrane.maximum(0.5, 0.003, short, criterion.mises(Shape.CLOSED), STEEL)
    assert not bool(top.reached)
    assert top.strain == pytest.approx(0.10, rel=1e-15)


def test_draws_times_strains_broadcast_to_what_single_numbers_give():
    exponent = np.array([0.35, 0.45, 0.55])[:, None]
    strength = np.array([1200.0, 1275.0, 1350.0])[:, None] * MPA
    factor = np.array([1.03, 1.10, 1.17])[:, None]
    wall = np.array([0.0028, 0.003, 0.0032])[:, None]
    strain = np.linspace(0.03, 0.12, 5)
    state = criterion.general(Shape.CLOSED, factor)
    many = Hollomon(strength, exponent)
    pressure = membrane.pressure(0.5, wall, strain, many, state, STEEL)
    top = membrane.maximum(0.5, wall, many, state, STEEL)
    back = membrane.strain_at_pressure(pressure, 0.5, wall, many, state, STEEL, top)
    assert pressure.shape == back.shape == (3, 5)
    assert top.pressure.shape == top.strain.shape == (3, 1)
    np.testing.assert_allclose(back, np.broadcast_to(strain, (3, 5)), rtol=1e-11)
    for draw in range(3):
        one = Hollomon(float(strength[draw, 0]), float(exponent[draw, 0]))
        alone = criterion.general(Shape.CLOSED, float(factor[draw, 0]))
        thickness = float(wall[draw, 0])
        for place, x in enumerate(strain):
            single = membrane.pressure(0.5, thickness, float(x), one, alone, STEEL)
            assert pressure[draw, place] == pytest.approx(single, rel=1e-15)  # same arithmetic
        single_top = membrane.maximum(0.5, thickness, one, alone, STEEL)
        assert top.pressure[draw, 0] == pytest.approx(single_top.pressure, rel=1e-14)
        # the maximum is flat: its strain is known to the rounding of the slope's sign
        assert top.strain[draw, 0] == pytest.approx(single_top.strain, rel=1e-12)


def test_scaled_draws_of_a_table_keep_its_kinks_in_the_search():
    strength = np.array([0.9, 1.0, 1.1])[:, None]
    corner = Table(np.array([0.0, 0.08, 0.30]), np.array([250.0, 450.0, 455.0]) * MPA)
    state = criterion.mises(Shape.CLOSED)
    top = membrane.maximum(0.5, 0.003, Scaled(corner, strength), state, STEEL)
    np.testing.assert_allclose(top.strain, np.full((3, 1), 0.08), rtol=1e-12)


def test_a_strain_beyond_either_end_of_the_curve_is_refused():
    curve = Hollomon(1275.0 * MPA, 0.45, strain_start=0.03, strain_limit=0.3)
    membrane.require_in_range(np.array([0.03, 0.3]), curve, "course lower")
    with pytest.raises(NoSolution, match=r"ends at 30\.0 %"):
        membrane.require_in_range(np.array([0.1, 0.31]), curve, "course lower")
    with pytest.raises(NoSolution, match=r"holds only above 3\.0 %"):
        membrane.require_in_range(np.array([0.02, 0.1]), curve, "course lower")


@pytest.mark.parametrize(("shape", "dimensions"), [(Shape.CLOSED, 2), (Shape.SPHERE, 3)])
@pytest.mark.parametrize("law", ["M1", "M2", "M3", "M4"])
def test_work_of_the_pressure_is_the_plastic_work_of_the_wall(law, shape, dimensions):
    """∫ p dV over the growth of the mid-wall volume equals the wall's volume times ∫ s dx."""
    state, curve = criterion.mises(shape), LAWS[law]
    limit = float(membrane.strain_of_released(0.05, state))
    root, weights = np.polynomial.legendre.leggauss(40)
    x = limit * ((root + 1.0) / 2.0) ** 2  # squared: tames the root-like start of M1 and M2
    dx = weights * limit * (root + 1.0) / 2.0
    pressure = membrane.pressure(0.6, 0.003, x, curve, state, RIGID)
    radius = 0.6 * np.exp(state.hoop_strain * x)
    area = 2.0 * np.pi * radius * 2.0 if dimensions == 2 else 4.0 * np.pi * radius**2
    of_pressure = np.sum(pressure * area * radius * state.hoop_strain * dx)
    metal = (2.0 * np.pi * 0.6 * 2.0 if dimensions == 2 else 4.0 * np.pi * 0.6**2) * 0.003
    of_wall = metal * np.sum(curve.stress(x) * dx)
    assert of_pressure == pytest.approx(of_wall, rel=1e-12)  # equal term by term, rounding only
    if law == "M2" and shape is Shape.CLOSED:
        # C36: computed reference, five digits; the tank is 2 m long
        assert of_wall / 1e3 == pytest.approx(424.83, rel=1e-4)
