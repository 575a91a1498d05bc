"""Strength of arms and plate against loads out of their plane, and buckling of an arm.

Weight, air caught under the plate and the flow of filling act along the tank's axis. Thin arms
carry little of it, and least while they yield in their own plane: a ledge or a stop takes it.
"""

import numpy as np

from stretchform.si import (
    STANDARD_GRAVITY,
    KilogramPerCubicMetre,
    Metre,
    MetrePerSecond,
    Newton,
    NewtonMetre,
    Pascal,
    Ratio,
    SquareMetre,
)

SOURCES = ("own-derivation", "timoshenko-stability")

HANDLING_FACTOR = 2.0  # judged: on the weight while the tank is moved
AIR_FILM = 5e-3  # under a level plate; see `drainage.film`
WATER = 1000.0  # kg/m³
_PLATE_DRAG = 2.0  # judged: flat plate across the flow


def buckling_moment(
    depth: Metre, length: Metre, thickness: Metre, youngs_modulus: Pascal
) -> NewtonMetre:
    """Root moment at which an arm tips out of its plane.

        M = 2.3 pi / l sqrt(E I G J),  I = b t^3/12, J = b t^3/3, G = E/2.6

    Source: timoshenko-stability, strip with a linear moment (from memory).
    Checked: tests/unit/plates/test_plates_strength.py (52 N m of the invented example).
    Raises nothing.
    """
    cube = np.multiply(depth, np.power(thickness, 3))
    product = (
        np.multiply(youngs_modulus, cube / 12.0) * np.divide(youngs_modulus, 2.6) * cube / 3.0
    )
    return np.asarray(2.3 * np.pi / length * np.sqrt(product), dtype=np.float64)


def carried(
    depth: Metre, length: Metre, thickness: Metre, flow_stress: Pascal, in_plane: Ratio = 0.0
) -> Newton:
    """Load out of the plane that one guided arm carries.

        2 Mp' / l (1 - in_plane),   Mp' = S b t^2 / 4

    `in_plane` is the share of the plastic moment that the arm's own bending takes.

    Source: own-derivation, (M/Mp) + (M'/Mp') at most 1.
    Checked: tests/unit/plates/test_plates_strength.py (34 to 47 N of the invented example).
    Raises nothing.
    """
    plastic = np.multiply(flow_stress, depth) * np.square(thickness) / 4.0
    left = np.maximum(np.subtract(1.0, in_plane), 0.0)
    return np.asarray(2.0 * plastic / length * left, dtype=np.float64)


def plate_area(radius: Metre, clearance: Metre, ring_width: Metre | None) -> SquareMetre:
    """Area of a ring, or of a full plate where there is no ring width.

        pi ((R - c)^2 - (R - c - w)^2)

    Source: own-derivation, geometry.
    Checked: tests/unit/plates/test_plates_strength.py (ring and full plate).
    Raises nothing.
    """
    outer = np.subtract(radius, clearance)
    inner = 0.0 if ring_width is None else np.maximum(outer - ring_width, 0.0)
    return np.pi * (np.square(outer) - np.square(inner))


def weight(area: SquareMetre, thickness: Metre, density: KilogramPerCubicMetre) -> Newton:
    """Weight of a plate in air.

        area * thickness * density * g

    Source: own-derivation, definition.
    Checked: tests/unit/plates/test_plates_strength.py (by hand).
    Raises nothing.
    """
    return np.multiply(area, thickness) * density * STANDARD_GRAVITY


def air_lift(area: SquareMetre, film: Metre = AIR_FILM) -> Newton:
    """Lift of the air caught under a level plate in water.

        area * film * density of water * g

    Source: own-derivation, buoyancy.
    Checked: tests/unit/plates/test_plates_strength.py (by hand).
    Raises nothing.
    """
    return np.multiply(area, film) * WATER * STANDARD_GRAVITY


def fill_flow(
    area: SquareMetre, rise: MetrePerSecond, open_share: Ratio | None = None
) -> Newton:
    """Force of the water that rises past a plate while the tank is filled.

        ring: 2.0 * 0.5 rho v^2 A;   full plate: 0.5 rho (v / (0.6 open))^2 A

    `rise` is the speed of the level, `open_share` the open area over the plate's area.

    Source: own-derivation, drag of a plate and loss of a hole, judged coefficients.
    Checked: tests/unit/plates/test_plates_strength.py (ring and full plate).
    Raises nothing.
    """
    pressure = 0.5 * WATER * np.square(rise)
    if open_share is None:
        return np.asarray(_PLATE_DRAG * pressure * area, dtype=np.float64)
    hole = np.square(np.multiply(0.6, open_share))
    return np.asarray(pressure / hole * area, dtype=np.float64)
