"""A long cylinder under pressure and a constant axial force besides.

Thin wall, von Mises, mid-wall radius, end force p pi r^2 plus an extra force F, tension
positive. The stress ratio changes on the way, so the two plastic strains are followed by a
small differential equation. Elastic strains are logarithmic; stresses are Cauchy.
"""

from dataclasses import dataclass

import numpy as np

from stretchform.errors import InputError, NoSolution
from stretchform.forming.membrane import Elastic
from stretchform.si import Array, Growth, Metre, Newton, Pascal, Strain
from stretchform.steel.curve import Curve

SOURCES = ("own-derivation",)
_START = 1e-11  # plastic strain at the first point: keeps power laws off zero


@dataclass(frozen=True, slots=True)
class Cylinder:
    """A long cylinder before forming and its elastic constants."""

    radius: Metre  # mid-wall
    wall: Metre
    elastic: Elastic


@dataclass(frozen=True, slots=True)
class AxialState:
    """Cylinder at one equivalent plastic strain; strains are logarithmic."""

    plastic_strain: Strain
    plastic_hoop: Strain
    plastic_axial: Strain
    hoop_stress: Pascal
    axial_stress: Pascal
    pressure: Pascal
    hoop_strain: Strain  # under pressure
    axial_strain: Strain
    radius: Metre
    wall: Metre
    released_wall: Metre


def at_growth(cylinder: Cylinder, force: Newton, growth: Growth, curve: Curve) -> AxialState:
    """State whose released growth of the mid-wall radius is `growth`.

        d(eph)/dx = (sh - sz/2)/s, d(epz)/dx = (sz - sh/2)/s, up to eph = ln(1 + growth)
        s^2 = sh^2 - sh sz + sz^2, sz = p r/(2 t) + F/(2 pi r t), p = sh t/r

    Source: own-derivation, J2 flow with the end force p pi r^2 + F.
    Checked: tests/verification/test_axial_force.py (ten digits).
    Raises InputError for a growth that is not positive, NoSolution where the axial force
    alone makes the wall flow or the growth needs more strain than the curve covers.
    """
    wanted = float(np.log1p(growth))
    if not wanted > 0.0:
        raise InputError("growth", f"{growth:.3g} is not a growth", "growth = 0.05")
    _check_force(cylinder, float(force), curve)
    path = _path(cylinder, float(force), curve, wanted)
    if path is None:
        raise NoSolution(
            "cylinder",
            f"a growth of {growth:.2%} beside an axial force of {force:.4g} N needs more "
            f"strain than the curve covers ({curve.strain_limit:.3g})",
            "a smaller growth or a smaller axial force",
        )
    strain, plastic = path
    return _state(cylinder, float(force), curve, strain, plastic)


def _path(
    cylinder: Cylinder, force: float, curve: Curve, wanted: float
) -> tuple[float, Array] | None:
    """Equivalent plastic strain and both plastic strains where the hoop reaches `wanted`."""
    from scipy.integrate import solve_ivp

    def rate(strain: float, plastic: Array) -> Array:
        hoop, axial = _stresses(cylinder, force, curve, strain, plastic)
        flow = float(curve.stress(strain))
        return np.array([hoop - axial / 2.0, axial - hoop / 2.0]) / flow

    def reached(strain: float, plastic: Array) -> float:
        return float(plastic[0] - wanted)

    reached.terminal = True  # type: ignore[attr-defined]
    start = _start(cylinder, force, curve)
    answer = solve_ivp(
        rate,
        (start, float(curve.strain_limit)),
        start * np.sign(force) * np.array([-0.5, 1.0]) if start > _START else np.zeros(2),
        method="DOP853",
        rtol=1e-12,
        atol=1e-14,
        events=reached,
        max_step=float(curve.strain_limit) / 50.0,
    )
    if answer.status != 1 or answer.t_events is None or answer.y_events is None:
        return None
    return float(answer.t_events[0][0]), np.asarray(answer.y_events[0][0])


def _start(cylinder: Cylinder, force: float, curve: Curve) -> float:
    """Plastic strain that the axial force alone makes in a curve that starts at nothing."""
    alone = abs(force) / _area0(cylinder)
    if alone <= float(curve.stress(_START)):
        return _START
    from scipy.optimize import brentq

    def missing(strain: float) -> float:
        return float(curve.stress(strain)) - 1.0001 * alone

    return float(brentq(missing, _START, 2e-3, xtol=1e-15))


def _stresses(
    cylinder: Cylinder, force: float, curve: Curve, strain: float, plastic: Array
) -> tuple[float, float]:
    """Hoop and axial stress: s^2 = 3/4 sh^2 + (F/A)^2 with sz = sh/2 + F/A.

    The area depends on the stresses through the elastic strains only, so that putting the
    stresses back converges by three digits a turn.
    """
    flow = float(curve.stress(strain))
    hoop, extra = 2.0 * flow / np.sqrt(3.0), force / _area0(cylinder)
    for _ in range(30):
        extra = force / _area(cylinder, plastic, hoop, hoop / 2.0 + extra)
        new = float(np.sqrt(max(4.0 / 3.0 * (flow * flow - extra * extra), 0.0)))
        done = abs(new - hoop) <= 1e-15 * flow
        hoop = new
        if done:
            break
    return hoop, hoop / 2.0 + extra


def _area0(cylinder: Cylinder) -> float:
    return float(2.0 * np.pi * cylinder.radius * cylinder.wall)


def _area(cylinder: Cylinder, plastic: Array, hoop: float, axial: float) -> float:
    """Area of the wall's ring, 2 pi r t, under the stresses."""
    modulus, poisson = (
        float(cylinder.elastic.youngs_modulus),
        float(cylinder.elastic.poisson_ratio),
    )
    hoop_strain = plastic[0] + (hoop - poisson * axial) / modulus
    thinning = -plastic[0] - plastic[1] - poisson * (hoop + axial) / modulus
    return float(_area0(cylinder) * np.exp(hoop_strain + thinning))


def _check_force(cylinder: Cylinder, force: float, curve: Curve) -> None:
    """The force alone must leave the wall elastic at the start of its curve."""
    start = float(curve.stress(2e-3))
    if 1.001 * abs(force) / _area0(cylinder) >= start:
        raise NoSolution(
            "cylinder",
            f"the axial force of {force:.4g} N alone makes the wall flow "
            f"({abs(force) / _area0(cylinder) / 1e6:.4g} of {start / 1e6:.4g} MPa)",
            f"axial_force = {0.5 * start * _area0(cylinder):.3g}",
        )


def _state(
    cylinder: Cylinder, force: float, curve: Curve, strain: float, plastic: Array
) -> AxialState:
    hoop, axial = _stresses(cylinder, force, curve, strain, plastic)
    modulus, poisson = (
        float(cylinder.elastic.youngs_modulus),
        float(cylinder.elastic.poisson_ratio),
    )
    hoop_strain = float(plastic[0]) + (hoop - poisson * axial) / modulus
    axial_strain = float(plastic[1]) + (axial - poisson * hoop) / modulus
    through = -float(plastic[0] + plastic[1])
    radius = cylinder.radius * np.exp(hoop_strain)
    wall = cylinder.wall * np.exp(through - poisson * (hoop + axial) / modulus)
    return AxialState(
        strain,
        float(plastic[0]),
        float(plastic[1]),
        hoop,
        axial,
        hoop * wall / radius,
        hoop_strain,
        axial_strain,
        radius,
        wall,
        cylinder.wall * np.exp(through),
    )
