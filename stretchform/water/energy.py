"""Energy that a tank full of water could let loose, and what does not come back.

Water and wall spring back; trapped air expands; the work of stretching the wall is spent as
heat. Air is counted by the larger of two named formulas because they differ three-fold. The
figures are upper bounds for what a break can move, never a reason to stand nearer: no
distance is computed here.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from stretchform.errors import NoSolution
from stretchform.si import (
    Celsius,
    CubicMetre,
    Joule,
    JoulePerCubicMetre,
    Kilogram,
    Metre,
    Pascal,
    Ratio,
    Strain,
)
from stretchform.sources import Datum, How
from stretchform.steel.curve import Curve
from stretchform.water import air, properties
from stretchform.water.carrying import Wall as Wall

SOURCES = ("asme-pcc-2", "crowl-explosions", "iapws-95", "own-derivation")

_PCC2 = "Article 501, Appendix II, equation II-3 (2008 pages)"
_PCC2_US = "Article 501, Appendix II, equation II-5: 1,488,617 ft-lb/lb (2008 pages)"
TNT_PCC2 = Datum(4_266_920.0, None, "asme-pcc-2", _PCC2, How.SEEN)  # J/kg, leads
TNT_OTHERS = (  # a tenth apart: why a label in TNT is no measure
    Datum(4_449_600.0, None, "asme-pcc-2", _PCC2_US, How.SEEN),
    Datum(4.184e6, None, "common-practice", "convention", How.MEMORY),
    Datum(4.62e6, None, "ucb-gas-energy", "conversion on the page", How.SEEN),
    Datum(4.636e6, None, "llnl-pressure-safety", "1,551,000 ft-lb/lb", How.SEEN),
)


@dataclass(frozen=True, slots=True)
class StoredEnergy:
    """What one filled tank holds at one pressure; `method` names the leading air formula."""

    water: Joule
    wall: Joule
    air: Joule
    recoverable: Joule  # water + wall + air
    plastic_work: Joule  # spent as heat: it does not come back
    gas_instead: Joule  # the same tank full of gas
    ratio_gas: Ratio  # gas_instead over water + wall
    method: str


def stored(
    pressure: Pascal,
    volume: CubicMetre,
    temperature: Celsius,
    radius: Metre,
    wall: Metre,
    shell_metal: CubicMetre,
    head_metal: CubicMetre,
    youngs_modulus: Pascal,
    poisson_ratio: Ratio,
    air_volume: CubicMetre,
    plastic_work: Joule = 0.0,
    carried: Wall = Wall.CLOSED,
) -> StoredEnergy:
    """Everything a filled tank holds at a gauge pressure, each part by its cautious formula.

        recoverable = water + wall + air

    `volume`, `radius`, `wall` are those under pressure; of several courses give radius and
    wall of the one with the largest radius/wall. `air_volume` is the trapped air as filled,
    at one atmosphere.

    Source: own-derivation, sum of the parts below.
    Checked: tests/verification/test_water_rows.py (reference tank),
    tests/unit/water/test_water_energy.py (more air, pressure or metal never holds less).
    Raises InputError outside 1 to 45 degC or 0 to 20 MPa, or for a negative size.
    """
    air.need_size(volume, shell_metal, head_metal, air_volume)
    in_water = water(volume, temperature, pressure)
    density = wall_density(pressure, radius, wall, youngs_modulus, poisson_ratio, carried)
    shell = density * shell_metal
    heads = density * head_factor(poisson_ratio, carried) * head_metal
    in_air = air.cautious(air_volume, pressure)
    gas = air.gas_instead(volume, pressure)
    springs = in_water + shell + heads
    return StoredEnergy(
        water=in_water,
        wall=shell + heads,
        air=in_air,
        recoverable=springs + in_air,
        plastic_work=plastic_work,
        gas_instead=gas,
        ratio_gas=_share(gas, springs),
        method=air.leading(pressure).value,
    )


def water(volume: CubicMetre, temperature: Celsius, pressure: Pascal) -> Joule:
    """Energy in the water: the larger of slow and sudden release.

        U = integral of p dV over the release, about V p^2 / (2 K)

    `volume` is that under pressure.

    Source: iapws-95, through the fitted stiffness.
    Checked: tests/verification/test_water_rows.py (reference tank).
    Raises InputError outside 1 to 45 degC or 0 to 20 MPa.
    """
    slow = water_isothermal(volume, temperature, pressure)
    return np.maximum(slow, water_isentropic(volume, temperature, pressure))


def water_isothermal(volume: CubicMetre, temperature: Celsius, pressure: Pascal) -> Joule:
    """Energy in the water when it is let out at constant temperature.

        U = V integral of p' (rho(p)/rho(p')) / K_T(p') dp' from 0 to p

    Source: iapws-95, through the fitted stiffness.
    Checked: tests/verification/test_water_energy_states.py (CoolProp's states).
    Raises InputError outside 1 to 45 degC or 0 to 20 MPa.
    """
    return _release(volume, temperature, pressure, properties.isothermal_stiffness)


def water_isentropic(volume: CubicMetre, temperature: Celsius, pressure: Pascal) -> Joule:
    """Energy in the water when it is let out at once; its cooling (0.3 K at most) is neglected.

        U = V integral of p' (rho(p)/rho(p')) / K_S(p') dp' from 0 to p

    Source: iapws-95, through the fitted stiffness.
    Checked: tests/verification/test_water_energy_states.py (CoolProp's states).
    Raises InputError outside 1 to 45 degC or 0 to 20 MPa.
    """
    return _release(volume, temperature, pressure, properties.isentropic_stiffness)


def wall_density(
    pressure: Pascal,
    radius: Metre,
    wall: Metre,
    youngs_modulus: Pascal,
    poisson_ratio: Ratio,
    carried: Wall = Wall.CLOSED,
) -> JoulePerCubicMetre:
    """Elastic energy in each cubic metre of shell metal, radius and wall under pressure.

        u = (p R / t)^2 / (2 E) * f;  f = 5/4 - nu closed, 1 tied, (1 - nu)/2 sphere

    Source: own-derivation, Hooke's law with the membrane stresses.
    Checked: tests/verification/test_water_rows.py (reference tank),
    tests/verification/test_water_work.py (half of p dV).
    Raises nothing.
    """
    factor = {
        Wall.CLOSED: np.subtract(1.25, poisson_ratio),
        Wall.TIED: np.ones_like(poisson_ratio),
        Wall.SPHERE: np.subtract(1.0, poisson_ratio) / 2.0,
    }[carried]
    hoop = np.multiply(pressure, radius) / wall
    return np.square(hoop) / (2.0 * np.asarray(youngs_modulus)) * factor


def head_factor(poisson_ratio: Ratio, carried: Wall = Wall.CLOSED) -> Ratio:
    """Largest elastic energy of head metal over that of the shell, both at one flow stress.

        2 (1 - nu) / w;  w = (4/3)(5/4 - nu) closed shell, 1 tied, 2 (1 - nu) sphere

    A crown pulled alike both ways stores most at a given Mises stress, so no head of the same
    steel can store more, whatever its shape, once the shell flows.

    Source: own-derivation, Mises stress of the shell against equal biaxial tension.
    Checked: tests/verification/test_water_work.py (membrane energy of a 2:1 ellipsoid).
    Raises nothing.
    """
    crown = 2.0 * np.subtract(1.0, poisson_ratio)
    shell = {
        Wall.CLOSED: 4.0 / 3.0 * np.subtract(1.25, poisson_ratio),
        Wall.TIED: np.ones_like(crown),
        Wall.SPHERE: crown,
    }[carried]
    return crown / shell


def air_as_water(
    temperature: Celsius, pressure: Pascal, way: air.AirWay | None = None, springs: Ratio = 1.0
) -> Ratio:
    """Trapped air, as a share of the tank at one atmosphere, that holds as much as the water.

        x = springs u_water / u_air; `springs` = (water + wall)/water to compare with both

    Without a `way` the cautious air formula is used.

    Source: own-derivation, ratio of two energies.
    Checked: tests/verification/test_water_rows.py (reference tank).
    Raises InputError outside 1 to 45 degC or 0 to 20 MPa.
    """
    in_air = air.cautious(1.0, pressure) if way is None else air.stored(1.0, pressure, way)
    return _share(springs * water_isothermal(1.0, temperature, pressure), in_air)


def air_limit(temperature: Celsius, pressure: Pascal) -> Ratio:
    """Trapped air accepted at the first strokes, as a share of the tank at one atmosphere.

        min(0.2 %, half of the share that holds as much as the water, cautious formula)

    `pressure` is the highest that is planned, not that of the first strokes.

    Source: own-derivation, judged: air must never double the energy that water alone holds.
    Checked: tests/verification/test_water_rows.py (0.15 % at 2 MPa, 0.05 % at 1 MPa).
    Raises InputError outside 1 to 45 degC or 0 to 20 MPa.
    """
    return np.fmin(0.002, 0.5 * air_as_water(temperature, pressure))


def tnt(energy: Joule, constant: Datum = TNT_PCC2) -> Kilogram:
    """Mass of explosive of equal energy: a label that people know, not a measure of effect.

        m = E / constant; published constants differ by a tenth and more, so print which

    Source: asme-pcc-2, Article 501, equation II-3 (seen).
    Checked: tests/published/test_water_pcc2.py (reference tank).
    Raises nothing.
    """
    return np.divide(energy, constant.value)


def plastic_work(metal: CubicMetre, curve: Curve, strain: Strain) -> Joule:
    """Work spent on stretching a volume of metal; it turns into heat and never comes back.

        W = V integral of S dx from 0 to the equivalent plastic strain

    Source: own-derivation, definition of flow stress.
    Checked: tests/verification/test_water_work.py (equal to the work of the pressure).
    Raises NoSolution beyond the last strain that the curve supports.
    """
    if np.any(np.greater(strain, curve.strain_limit)):
        raise NoSolution(
            "plastic work",
            f"strain {np.nanmax(strain):.3f} lies beyond the curve's end, "
            f"{curve.strain_limit:.3f}",
            "a smaller target growth, or a coupon pulled further",
        )
    nodes, weights = np.polynomial.legendre.leggauss(48)
    total = np.zeros(np.broadcast(strain, curve.stress(strain)).shape)
    for node, weight in zip((nodes + 1.0) / 2.0, weights / 2.0, strict=True):
        # x = strain u^3 smooths the steep start of a power law
        total = total + weight * 3.0 * node**2 * curve.stress(np.multiply(strain, node**3))
    return np.multiply(metal, strain) * total


def _release(
    volume: CubicMetre,
    temperature: Celsius,
    pressure: Pascal,
    stiffness: Callable[[Celsius, Pascal], Pascal],
) -> Joule:
    nodes, weights = np.polynomial.legendre.leggauss(4)
    top = np.asarray(pressure, dtype=np.float64)
    squeezed = properties.density(temperature, top)
    total = np.zeros(np.broadcast(temperature, top).shape)
    for node, weight in zip((nodes + 1.0) / 2.0, weights / 2.0, strict=True):
        now = top * node
        swollen = squeezed / properties.density(temperature, now)
        total = total + weight * node * swollen / stiffness(temperature, now)
    return volume * np.square(top) * total


def _share(part: Joule, whole: Joule) -> Ratio:
    above, below = np.broadcast_arrays(part, whole)
    out = np.full(below.shape, np.nan)
    return np.asarray(np.divide(above, below, out=out, where=below > 0.0))[()]
