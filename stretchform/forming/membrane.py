"""A thin wall that grows uniformly under inner pressure: cylinder or sphere, closed form.

Thin wall, Cauchy stress, log strain, isotropic hardening, Hooke's elasticity on top of the
plastic strain, pressure on the current mid-wall radius. The stress ratio is fixed, so
everything follows from one number: the equivalent plastic strain x. Unloading is elastic; ends
do not hold the wall.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from stretchform.errors import NoSolution
from stretchform.forming.criterion import State
from stretchform.si import Array, Growth, Metre, Pascal, Ratio, Strain
from stretchform.steel.curve import Curve, kinks

SOURCES = ("own-derivation",)
_RIGID = 1.0e30
_START = 0.3  # of the bracket, where the search for a strain begins
_ROUNDING_OF_LOGARITHM = 1.0e-14  # ln of a stress in pascals is about 20
_Residual = Callable[[Array], tuple[Array, Array]]  # value and derivative


@dataclass(frozen=True, slots=True)
class Elastic:
    """Hooke's law of the wall; a softer unloading is put into the modulus."""

    youngs_modulus: Pascal
    poisson_ratio: Ratio


RIGID = Elastic(_RIGID, 0.3)


@dataclass(frozen=True, slots=True)
class Maximum:
    """Where pressure stops rising with growth."""

    strain: Array  # equivalent plastic
    pressure: Array
    reached: Array  # bool: False where the curve ends before the maximum


@dataclass(frozen=True, slots=True)
class Grown:
    """The wall at one equivalent plastic strain; log strains, growth of the mid-wall."""

    strain: Strain
    flow_stress: Pascal
    hoop_stress: Pascal
    pressure: Pascal
    hoop_strain: Strain  # under pressure, elastic part included
    axial_strain: Strain
    wall_strain: Strain
    growth_under_pressure: Growth
    growth_released: Growth
    wall_under_pressure: Metre
    wall_released: Metre


def pressure(
    radius: Metre,
    wall: Metre,
    strain: Strain,
    curve: Curve,
    state: State,
    elastic: Elastic,
) -> Pascal:
    """Pressure under which the wall flows at an equivalent plastic strain x.

        p = k a s(x) (t0/r0) exp(−(2 b_h + b_z) x − a (1 + nu) s/E)

    `radius` (mid-wall) and `wall` are those before forming; k, a, b_h, b_z of the state.

    Source: own-derivation, balance of the wall on its grown radius and thinned wall.
    Checked: tests/verification/test_membrane.py (closed_form.csv to 1e-9).
    """
    stress = curve.stress(strain)
    thinning = np.multiply(-(2.0 * state.hoop_strain + state.axial_strain), strain)
    elastic_part = state.hoop_stress * (1.0 + elastic.poisson_ratio) / elastic.youngs_modulus
    shrink = np.exp(thinning - elastic_part * stress)
    return state.pressure_factor * state.hoop_stress * wall / radius * stress * shrink


def grown(
    radius: Metre,
    wall: Metre,
    strain: Strain,
    curve: Curve,
    state: State,
    elastic: Elastic,
) -> Grown:
    """Everything about the wall at an equivalent plastic strain x.

        hoop strain = b_h x + (h − nu z)/E,  wall strain = −(b_h + b_z) x − nu (h + z)/E

    `radius` and `wall` are before forming; released: the elastic parts are gone.

    Source: own-derivation, Hooke's law added to the plastic strain.
    Checked: tests/verification/test_membrane.py (closed_form.csv to 1e-9).
    """
    stress = curve.stress(strain)
    hoop, axial = state.hoop_stress * stress, state.axial_stress * stress
    e, nu = elastic.youngs_modulus, elastic.poisson_ratio
    plastic_wall = -(state.hoop_strain + state.axial_strain) * strain
    hoop_strain = state.hoop_strain * strain + (hoop - nu * axial) / e
    wall_strain = plastic_wall - nu * (hoop + axial) / e
    return Grown(
        strain=strain,
        flow_stress=stress,
        hoop_stress=hoop,
        pressure=pressure(radius, wall, strain, curve, state, elastic),
        hoop_strain=hoop_strain,
        axial_strain=state.axial_strain * strain + (axial - nu * hoop) / e,
        wall_strain=wall_strain,
        growth_under_pressure=np.expm1(hoop_strain),
        growth_released=np.expm1(state.hoop_strain * strain),
        wall_under_pressure=wall * np.exp(wall_strain),
        wall_released=wall * np.exp(plastic_wall),
    )


def strain_of_released(growth: Growth, state: State) -> Strain:
    """Equivalent plastic strain of a mid-wall growth that stays after release.

        x = ln(1 + g) / b_h

    Source: own-derivation, plastic hoop strain only.
    Checked: tests/verification/test_membrane.py (closed_form.csv to 1e-9).
    """
    return np.log1p(growth) / state.hoop_strain


def strain_of_loaded(growth: Growth, curve: Curve, state: State, elastic: Elastic) -> Strain:
    """Equivalent plastic strain of a mid-wall growth under pressure; 0 where still elastic.

        b_h x + c s(x) = ln(1 + g),  c = (a_h − nu a_z)/E

    Source: own-derivation, solved by safeguarded Newton steps.
    Checked: tests/verification/test_membrane.py (rows I5, I7; round trip).
    """
    compliance = (state.hoop_stress - elastic.poisson_ratio * state.axial_stress) / (
        elastic.youngs_modulus
    )
    target = np.log1p(np.asarray(growth, dtype=np.float64))
    high = np.asarray(target / state.hoop_strain, dtype=np.float64)

    def residual(strain: Array) -> tuple[Array, Array]:
        value = state.hoop_strain * strain + compliance * curve.stress(strain) - target
        return np.asarray(value), np.asarray(
            state.hoop_strain + compliance * curve.slope(strain)
        )

    return _solve(residual, np.zeros_like(high), high)


def slope_of_logarithm(strain: Strain, curve: Curve, state: State, elastic: Elastic) -> Ratio:
    """Derivative of ln(pressure) with respect to the equivalent plastic strain.

        s'/s − a (1 + nu) s'/E − (2 b_h + b_z)

    It falls to zero at the maximum pressure. Divide by b_h for the slope against hoop strain.

    Source: own-derivation, derivative of the pressure above.
    Checked: tests/verification/test_membrane.py (finite difference; C11, C34).
    """
    stress, slope = curve.stress(strain), curve.slope(strain)
    softening = state.hoop_stress * (1.0 + elastic.poisson_ratio) / elastic.youngs_modulus
    return slope * (1.0 / stress - softening) - (2.0 * state.hoop_strain + state.axial_strain)


def maximum(
    radius: Metre, wall: Metre, curve: Curve, state: State, elastic: Elastic
) -> Maximum:
    """Maximum pressure: where the slope of ln(pressure) changes sign, on a kink too.

    Found on a grid that holds every kink of the curve, then by bisection of the slope's sign.
    Where the curve ends first, its last strain is given and `reached` is False.

    Source: own-derivation, plastic instability.
    Checked: tests/verification/test_membrane.py (closed_form.csv pmax to 1e-8; C9 to C12, C34).
    """
    grid = _grid(curve)
    values = np.log(np.asarray(pressure(1.0, 1.0, grid, curve, state, elastic)))
    best = np.argmax(values, axis=-1)
    low = grid[np.maximum(best - 1, 0)]
    high = grid[np.minimum(best + 1, len(grid) - 1)]
    shape = (*values.shape[:-1], 1) if values.ndim > 1 else ()
    low, high = np.reshape(low, shape), np.reshape(high, shape)
    falling = slope_of_logarithm(grid[-1], curve, state, elastic) < 0.0
    reached = np.reshape(best < len(grid) - 1, shape) | falling
    for _ in range(60):
        middle = 0.5 * (low + high)
        rising = slope_of_logarithm(middle, curve, state, elastic) > 0.0
        low, high = np.where(rising, middle, low), np.where(rising, high, middle)
    strain = np.where(reached, 0.5 * (low + high), grid[-1])
    top = np.asarray(pressure(radius, wall, strain, curve, state, elastic))
    return Maximum(strain, top, np.broadcast_to(reached, top.shape))


def strain_at_pressure(
    pressure_inside: Pascal,
    radius: Metre,
    wall: Metre,
    curve: Curve,
    state: State,
    elastic: Elastic,
    top: Maximum | None = None,
) -> Strain:
    """Equivalent plastic strain at a pressure, on the rising branch; NaN above the maximum.

    0 below first yield. `top`, from `maximum` for the same wall, saves finding it again.

    Source: own-derivation, inverse of `pressure` by safeguarded Newton steps in ln p.
    Checked: tests/verification/test_membrane.py (rows I1 to I3; round trip to 1e-12).
    """
    peak = top if top is not None else maximum(radius, wall, curve, state, elastic)
    wanted = np.asarray(pressure_inside, dtype=np.float64)
    yield_pressure = pressure(radius, wall, np.float64(0.0), curve, state, elastic)
    inside = (wanted > yield_pressure) & (wanted <= peak.pressure)
    factor = state.pressure_factor * state.hoop_stress * wall / radius
    high = np.broadcast_to(peak.strain, np.broadcast_shapes(wanted.shape, peak.strain.shape))
    known = pressure(radius, wall, _START * peak.strain, curve, state, elastic)
    logarithm = np.log(np.where(inside, wanted, known) / factor)  # others: solved at once
    softening = state.hoop_stress * (1.0 + elastic.poisson_ratio) / elastic.youngs_modulus
    thinning = 2.0 * state.hoop_strain + state.axial_strain

    def residual(strain: Array) -> tuple[Array, Array]:
        stress, slope = curve.stress(strain), curve.slope(strain)
        value = np.log(stress) - thinning * strain - softening * stress - logarithm
        return np.asarray(value), np.asarray(slope * (1.0 / stress - softening) - thinning)

    strain = _solve(residual, np.zeros_like(logarithm), high, noise=_ROUNDING_OF_LOGARITHM)
    return np.where(wanted <= peak.pressure, np.where(inside, strain, 0.0), np.nan)


def elastic_growth(
    pressure_inside: Pascal, radius: Metre, wall: Metre, state: State, elastic: Elastic
) -> Growth:
    """Mid-wall growth under a pressure below first yield.

        g = exp((1 − nu z/h) h / E) − 1 with h = p r / (k t), on the starting size

    Source: own-derivation, Hooke's law of the thin wall.
    Checked: tests/verification/test_membrane.py (joins the plastic branch at first yield).
    """
    hoop = pressure_inside * radius / (state.pressure_factor * wall)
    for _ in range(4):  # the wall thins and widens a little: a contraction by some 1e-3 a round
        shrink = np.exp(-hoop * (1.0 + elastic.poisson_ratio) / elastic.youngs_modulus)
        hoop = pressure_inside * radius / (state.pressure_factor * wall * shrink)
    ratio = state.axial_stress / state.hoop_stress
    return np.expm1(hoop * (1.0 - elastic.poisson_ratio * ratio) / elastic.youngs_modulus)


def require_in_range(strain: Strain, curve: Curve, where: str) -> None:
    """Refuse a strain outside the range of the curve.

    Source: own-derivation, range of each curve.
    Checked: tests/verification/test_membrane.py (both ends refused).
    Raises NoSolution when the strain lies outside.
    """
    lowest, highest = float(np.nanmin(strain)), float(np.nanmax(strain))
    if highest > curve.strain_limit * (1.0 + 1e-12):
        raise NoSolution(
            where,
            f"it needs the steel's curve up to {100 * highest:.1f} % plastic strain, but the "
            f"curve ends at {100 * curve.strain_limit:.1f} %",
            "a smaller growth, or a curve measured further",
        )
    if lowest < curve.strain_start * (1.0 - 1e-12):
        raise NoSolution(
            where,
            f"it needs the steel's curve at {100 * lowest:.1f} % plastic strain, but the curve "
            f"holds only above {100 * curve.strain_start:.1f} %",
            "a larger growth, or a curve with a yield stress (a certificate, a coupon)",
        )


def _grid(curve: Curve) -> Array:
    start, limit = max(curve.strain_start, 1e-7), curve.strain_limit
    smooth = start + (limit - start) * np.linspace(0.0, 1.0, 241) ** 2
    corners = kinks(curve)
    corners = corners[(corners > start) & (corners < limit)]
    return np.unique(np.concatenate([smooth, corners]))


def _solve(residual: _Residual, low: Array, high: Array, noise: Ratio = 0.0) -> Array:
    """Root of a rising function between low and high, by Newton steps held inside a bracket.

    A value within `noise`, its own rounding, counts as zero.
    """
    low, high = np.array(low, dtype=np.float64), np.array(high, dtype=np.float64)
    strain = np.asarray(_START * high)
    for _ in range(100):
        with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
            value, slope = residual(strain)
            proposal = _newton(strain, value / slope)
        above = value > 0.0
        high, low = np.where(above, strain, high), np.where(above, low, strain)
        inside = (proposal >= low) & (proposal <= high)
        new = np.where(inside, proposal, 0.5 * (low + high))
        moved = np.abs(new - strain)
        strain = new
        if np.all((moved <= 1e-17 + 1e-12 * strain) | (np.abs(value) <= noise)):
            break
    return np.asarray(strain)


def _newton(strain: Array, step: Array) -> Array:
    """A Newton step; a long one downwards in ln(strain), where power laws are straight."""
    long = step > 0.5 * strain
    plain = strain - step
    if not np.any(long):
        return plain
    return np.where(long, strain * np.exp(-step / strain), plain)
