"""How the wall's two stresses and strains relate to those of a tensile test.

While a closed cylinder, a sphere or an open cylinder grows uniformly, hoop and axial stress
keep their ratio, so one set of four numbers ties them to the flow stress s and the equivalent
plastic strain x. `C` (hoop over flow stress at equal plastic work) is the judged factor of a
closed cylinder.
"""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from stretchform.si import Ratio

SOURCES = ("own-derivation",)


class Shape(StrEnum):
    """A wall that grows uniformly under pressure."""

    CLOSED = "closed cylinder"  # its ends push on the wall
    SPHERE = "sphere"
    OPEN = "open cylinder"  # its ends are held from outside: no axial stress


@dataclass(frozen=True, slots=True)
class State:
    """Stresses per flow stress, plastic strains per equivalent plastic strain.

    Equal plastic work ties them: hoop_stress·hoop_strain + axial_stress·axial_strain = 1.
    """

    hoop_stress: Ratio
    axial_stress: Ratio
    hoop_strain: Ratio
    axial_strain: Ratio
    pressure_factor: Ratio  # p = pressure_factor · hoop stress · wall / radius


_AXIAL_PER_HOOP = {Shape.CLOSED: 0.5, Shape.SPHERE: 1.0, Shape.OPEN: 0.0}
_PRESSURE_FACTOR = {Shape.CLOSED: 1.0, Shape.SPHERE: 2.0, Shape.OPEN: 1.0}
MISES_FACTOR = 2.0 / np.sqrt(3.0)  # C of von Mises in a closed cylinder


def hill(shape: Shape, r_value: Ratio) -> State:
    """State of Hill's planar-isotropic criterion of 1948.

        s² = h² − 2r/(1+r) h z + z²

    h, z: hoop and axial stress; r: width strain over thickness strain of a tensile test, 1 =
    Mises.

    Source: own-derivation, associated flow of the stated criterion.
    Checked: tests/verification/test_criterion.py (ratios to Mises, equal work).
    """
    ratio = _AXIAL_PER_HOOP[shape]
    coupling = np.asarray(r_value) / (1.0 + np.asarray(r_value))
    hoop = 1.0 / np.sqrt(1.0 - 2.0 * coupling * ratio + ratio**2)
    axial = ratio * hoop
    factor = _PRESSURE_FACTOR[shape]
    return State(hoop, axial, hoop - coupling * axial, axial - coupling * hoop, factor)


def mises(shape: Shape) -> State:
    """State of the von Mises criterion: Hill's with r = 1.

        s² = h² − h z + z²

    Source: own-derivation, associated flow.
    Checked: tests/verification/test_criterion.py (equal work, axial strain zero when closed).
    """
    return hill(shape, 1.0)


def tresca(shape: Shape) -> State:
    """State of Tresca's criterion; it serves as the survival check.

        s = largest of |h|, |z|, |h − z|

    In the open cylinder, on a corner of the criterion, the isotropic strain ratio is taken.

    Source: own-derivation, equal plastic work on the sides of the hexagon.
    Checked: tests/verification/test_criterion.py (ratio (sqrt3/2)^(1+n) to Mises).
    """
    axial = _AXIAL_PER_HOOP[shape]
    strains = {Shape.CLOSED: (1.0, 0.0), Shape.SPHERE: (0.5, 0.5), Shape.OPEN: (1.0, -0.5)}
    return State(1.0, axial, *strains[shape], _PRESSURE_FACTOR[shape])


def hosford(shape: Shape, exponent: Ratio) -> State:
    """State of Hosford's isotropic criterion.

        2 s^a = |h|^a + |z|^a + |h − z|^a

    Valid for exponents a from 2 (Mises) upwards; 6 to 12 are used for metals.

    Source: own-derivation, associated flow of the stated criterion.
    Checked: tests/verification/test_criterion.py (ratio to Mises, equal work).
    """
    ratio = _AXIAL_PER_HOOP[shape]
    a = np.asarray(exponent, dtype=np.float64)
    hoop = (2.0 / (1.0 + ratio**a + (1.0 - ratio) ** a)) ** (1.0 / a)
    axial, difference = ratio * hoop, (1.0 - ratio) * hoop
    hoop_strain = 0.5 * (hoop ** (a - 1.0) + difference ** (a - 1.0))
    axial_strain = 0.5 * (axial ** (a - 1.0) - difference ** (a - 1.0))
    return State(hoop, axial, hoop_strain, axial_strain, _PRESSURE_FACTOR[shape])


def general(shape: Shape, factor: Ratio) -> State:
    """State of the judged factor C of a closed cylinder: hoop stress C s at hoop strain x / C.

    C runs from 1 (Tresca) to 2/sqrt(3) (Mises) and a little above. Sphere and open cylinder
    do not depend on it: for them the von Mises state is returned.

    Source: own-derivation, equal plastic work without axial strain.
    Checked: tests/verification/test_criterion.py (equals Mises and Tresca at their C).
    """
    if shape is not Shape.CLOSED:
        return mises(shape)
    c = np.asarray(factor, dtype=np.float64)
    return State(c, c / 2.0, 1.0 / c, 0.0 * c, 1.0)


def named(text: str, shape: Shape) -> State | None:
    """State for "mises", "tresca", "hosford A", "hill R" or "C F"; None for anything else.

    Source: own-derivation, names of the criteria above.
    Checked: tests/verification/test_criterion.py (every spelling).
    """
    word, _, number = text.strip().partition(" ")
    plain = {"mises": mises, "tresca": tresca}
    if word in plain and not number:
        return plain[word](shape)
    with_number = {"hosford": (hosford, 2.0, 100.0), "hill": (hill, 0.3, 3.0)}
    with_number["C"] = (general, 0.9, 1.3)
    if word not in with_number:
        return None
    function, lowest, highest = with_number[word]
    try:
        value = float(number)
    except ValueError:
        return None
    return function(shape, value) if lowest <= value <= highest else None
