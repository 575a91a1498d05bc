"""From the outside circumference, which a tape measures, to the mid-wall point and back.

The wall keeps its volume while it grows, so the material that was mid-wall before forming moves
to a radius that follows from the outside radius alone (and from the change of length, if any).
"""

import numpy as np

from stretchform.forming.criterion import Shape
from stretchform.si import Growth, Metre, Strain

SOURCES = ("own-derivation",)


def mid_from_outside(
    shape: Shape, radius: Metre, wall: Metre, growth: Growth, axial_strain: Strain = 0.0
) -> Growth:
    """Growth of the mid-wall material circle from that of the outside circumference.

        cylinder: r² = b² − (b0² − r0²) exp(−axial strain);  sphere: r³ = b³ − (b0³ − r0³)

    `radius` (mid-wall) and `wall` are before forming, b0 = r0 + t0/2, b = b0 (1 + growth).

    Source: own-derivation, constant volume of the wall.
    Checked: tests/verification/test_surface.py (round trip; C8 corrected).
    """
    power = 3 if shape is Shape.SPHERE else 2
    outside = radius + 0.5 * wall
    shell = (outside**power - radius**power) * _shortening(shape, axial_strain)
    grown = (outside * (1.0 + growth)) ** power - shell
    return np.power(grown, 1.0 / power) / radius - 1.0


def outside_from_mid(
    shape: Shape, radius: Metre, wall: Metre, growth: Growth, axial_strain: Strain = 0.0
) -> Growth:
    """Growth of the outside circumference from that of the mid-wall material circle.

        cylinder: b² = r² + (b0² − r0²) exp(−axial strain);  sphere: b³ = r³ + (b0³ − r0³)

    `radius` (mid-wall) and `wall` are before forming.

    Source: own-derivation, constant volume of the wall.
    Checked: tests/verification/test_surface.py (round trip; C8 corrected).
    """
    power = 3 if shape is Shape.SPHERE else 2
    outside = radius + 0.5 * wall
    shell = (outside**power - radius**power) * _shortening(shape, axial_strain)
    grown = (radius * (1.0 + growth)) ** power + shell
    return np.power(grown, 1.0 / power) / outside - 1.0


def _shortening(shape: Shape, axial_strain: Strain) -> Strain:
    return 1.0 if shape is Shape.SPHERE else np.exp(np.negative(axial_strain))
