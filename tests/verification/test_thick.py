"""The exact thick-wall integral against computed references, and the thin wall against it."""

import csv
from pathlib import Path

import numpy as np
import pytest
from laws import LAWS, MM, MPA
from scipy.integrate import quad

from stretchform.forming import criterion, membrane, surface, thick
from stretchform.forming.criterion import Shape
from stretchform.forming.membrane import RIGID
from stretchform.steel.curve import Voce

DATA = Path(__file__).parent / "data"
SHAPES = {"cyl": Shape.CLOSED, "sph": Shape.SPHERE}


def rows(name):
    lines = (DATA / name).read_text(encoding="utf-8").splitlines()
    table = list(csv.DictReader(line for line in lines if not line.startswith("#")))
    return [pytest.param(row, id=" ".join(list(row.values())[:4])) for row in table]


def thin(shape, radius, wall, middle_growth, curve):
    state = criterion.mises(shape)
    strain = membrane.strain_of_released(middle_growth, state)
    return membrane.pressure(radius, wall, strain, curve, state, RIGID)


@pytest.mark.parametrize("row", rows("thick_wall.csv"))
def test_exact_pressure_matches_the_reference(row):
    growth, curve = float(row["growth"]), LAWS[row["mat"]]
    ours = thick.pressure(SHAPES[row["geo"]], float(row["ratio"]), 1.0, growth, curve)
    # the references hold 13 digits; nine Gauss points are exact to rounding at these ratios
    assert ours / MPA == pytest.approx(float(row["pressure"]), rel=1e-9)


@pytest.mark.parametrize("row", rows("thin_wall_error.csv"))
def test_thin_wall_error_with_and_without_the_mid_wall_point_is_the_known_one(row):
    shape, curve = SHAPES[row["geo"]], LAWS[row["mat"]]
    ratio, outside = float(row["ratio"]), float(row["growth"])
    exact = thick.pressure(shape, ratio, 1.0, outside, curve)
    middle = surface.mid_from_outside(shape, ratio, 1.0, outside)
    mapped = 100.0 * (thin(shape, ratio, 1.0, middle, curve) / exact - 1.0)
    naive = 100.0 * (thin(shape, ratio, 1.0, outside, curve) / exact - 1.0)
    # 0.0006: the table is rounded to 0.001
    assert mapped == pytest.approx(float(row["mapped"]), abs=0.0006)
    assert naive == pytest.approx(float(row["naive"]), abs=0.0006)


@pytest.mark.parametrize("shape", [Shape.CLOSED, Shape.SPHERE])
def test_thin_wall_error_falls_with_the_square_of_wall_over_radius(shape):
    def error(ratio):
        exact = thick.pressure(shape, ratio, 1.0, 0.05, LAWS["S"])
        middle = surface.mid_from_outside(shape, ratio, 1.0, 0.05)
        return abs(thin(shape, ratio, 1.0, middle, LAWS["S"]) / exact - 1.0)

    order = np.log(error(20.0) / error(80.0)) / np.log(4.0)
    assert order == pytest.approx(2.0, abs=0.05)  # next term: some per cent of the first at 20


@pytest.mark.parametrize(
    ("shape", "power", "factor"), [(Shape.CLOSED, 2, 2.0 / 3.0**0.5), (Shape.SPHERE, 3, 2.0)]
)
def test_gauss_points_agree_with_adaptive_integration_over_the_radius(shape, power, factor):
    radius, wall, growth, curve = 0.05, 0.01, 0.05, LAWS["S"]
    inner, outer = radius - wall / 2.0, radius + wall / 2.0
    shift = (outer * (1.0 + growth)) ** power - outer**power

    def integrand(now):
        before = (now**power - shift) ** (1.0 / power)
        return factor * float(curve.stress(factor * np.log(now / before))) / now

    start = (inner**power + shift) ** (1.0 / power)
    expected, _ = quad(integrand, start, outer * (1.0 + growth), epsabs=0.0, epsrel=1e-12)
    ours = thick.pressure(shape, radius, wall, growth, curve)
    assert ours == pytest.approx(expected, rel=1e-11)  # quad's own tolerance is 1e-12
    five = thick.pressure(shape, radius, wall, growth, curve, points=5)
    assert five == pytest.approx(ours, rel=1e-10)  # five points are good to 2e-12 at ratio 5


def test_a_constant_flow_stress_gives_the_full_plastic_tube():
    # C Y ln(b/a) on the grown radii, the classical limit; rounding only
    flat = Voce(300.0 * MPA, 0.0, 1.0)
    inner, outer = 0.05, 0.10
    ours = thick.pressure(Shape.CLOSED, 0.075, 0.05, 0.0, flat)
    full = thick.tube_pressure(inner, outer, outer, 300.0 * MPA / np.sqrt(3.0))
    assert ours == pytest.approx(2.0 / np.sqrt(3.0) * 300.0 * MPA * np.log(2.0), rel=1e-13)
    assert ours == pytest.approx(full, rel=1e-13)


def test_tresca_factor_is_the_integral_with_c_one():
    low = thick.pressure(Shape.CLOSED, 0.3, 0.02, 0.05, LAWS["H"], factor=1.0)
    high = thick.pressure(Shape.CLOSED, 0.3, 0.02, 0.05, LAWS["H"])
    # a power law gives C^(1 + n) exactly, at every radius
    assert low / high == pytest.approx((np.sqrt(3.0) / 2.0) ** 1.45, rel=1e-13)


def test_arrays_broadcast_over_walls_and_growths():
    walls = np.array([1.0, 2.0, 3.0])[:, None] * MM
    growths = np.array([0.02, 0.05])
    many = thick.pressure(Shape.CLOSED, 30.0 * MM, walls, growths, LAWS["S"])
    assert many.shape == (3, 2)
    one = thick.pressure(Shape.CLOSED, 30.0 * MM, 2.0 * MM, 0.05, LAWS["S"])
    assert many[1, 1] == pytest.approx(one, rel=1e-14)  # the order of summation may differ


def test_an_open_cylinder_and_a_front_outside_the_wall_are_refused():
    with pytest.raises(ValueError, match="closed cylinders and spheres"):
        thick.pressure(Shape.OPEN, 0.1, 0.01, 0.05, LAWS["S"])
    with pytest.raises(ValueError, match="inside the wall"):
        thick.tube_pressure(0.05, 0.10, 0.11, 225.0 * MPA)
