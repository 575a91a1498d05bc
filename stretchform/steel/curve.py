"""Flow-stress laws: true (Cauchy) stress against von Mises equivalent plastic log strain.

Every law has `stress(strain)` and `slope(strain)`, both for floats and arrays. Parameters may
be arrays too, one per draw, shaped so that they broadcast against the strain. `strain_start`
and `strain_limit` say where the law may be trusted; a forecast refuses what lies outside.
"""

from dataclasses import dataclass
from typing import Protocol

import numpy as np

from stretchform.si import Array, Pascal, Ratio, Strain

SOURCES = ("own-derivation",)


class Curve(Protocol):
    """A flow-stress law with its range of validity."""

    @property
    def strain_start(self) -> float: ...
    @property
    def strain_limit(self) -> float: ...

    def stress(self, strain: Strain) -> Pascal:
        """Flow stress at an equivalent plastic strain."""
        ...

    def slope(self, strain: Strain) -> Pascal:
        """Derivative of the flow stress with respect to the equivalent plastic strain."""
        ...


@dataclass(frozen=True, slots=True)
class Hollomon:
    """Power law through zero: K x^n. It has no yield stress: unfit below some 3 % strain."""

    strength_coefficient: Pascal
    hardening_exponent: Ratio
    strain_start: float = 0.0
    strain_limit: float = 1.0

    def stress(self, strain: Strain) -> Pascal:
        return self.strength_coefficient * np.power(strain, self.hardening_exponent)

    def slope(self, strain: Strain) -> Pascal:
        with np.errstate(divide="ignore"):
            power = np.power(strain, np.subtract(self.hardening_exponent, 1.0))
        return self.strength_coefficient * self.hardening_exponent * power


@dataclass(frozen=True, slots=True)
class Ludwik:
    """Power law on a yield stress: s0 + K x^n."""

    yield_stress: Pascal
    strength_coefficient: Pascal
    hardening_exponent: Ratio
    strain_start: float = 0.0
    strain_limit: float = 1.0

    def stress(self, strain: Strain) -> Pascal:
        power = np.power(strain, self.hardening_exponent)
        return self.yield_stress + self.strength_coefficient * power

    def slope(self, strain: Strain) -> Pascal:
        with np.errstate(divide="ignore"):
            power = np.power(strain, np.subtract(self.hardening_exponent, 1.0))
        return self.strength_coefficient * self.hardening_exponent * power


@dataclass(frozen=True, slots=True)
class Swift:
    """Power law with a prestrain: K (x0 + x)^n."""

    strength_coefficient: Pascal
    prestrain: Strain
    hardening_exponent: Ratio
    strain_start: float = 0.0
    strain_limit: float = 1.0

    def stress(self, strain: Strain) -> Pascal:
        return self.strength_coefficient * np.power(
            np.add(self.prestrain, strain), self.hardening_exponent
        )

    def slope(self, strain: Strain) -> Pascal:
        total = np.add(self.prestrain, strain)
        return self.hardening_exponent * self.stress(strain) / total


@dataclass(frozen=True, slots=True)
class Voce:
    """Saturating law with a linear rest: s0 + Q (1 - exp(-b x)) + H x; H = 0 is Voce's own."""

    yield_stress: Pascal
    saturation: Pascal
    rate: Ratio
    linear: Pascal = 0.0
    strain_start: float = 0.0
    strain_limit: float = 1.0

    def stress(self, strain: Strain) -> Pascal:
        decay = np.exp(np.multiply(np.negative(self.rate), strain))
        return self.yield_stress + self.saturation * (1.0 - decay) + self.linear * strain

    def slope(self, strain: Strain) -> Pascal:
        decay = np.exp(np.multiply(np.negative(self.rate), strain))
        return self.saturation * self.rate * decay + self.linear


@dataclass(frozen=True, slots=True)
class Ludwigson:
    """Power law with a short transient: K1 x^n1 + exp(k2 + n2 x), k2 = ln(pascals)."""

    strength_coefficient: Pascal
    hardening_exponent: Ratio
    transient_logarithm: Ratio
    transient_exponent: Ratio
    strain_start: float = 0.0
    strain_limit: float = 1.0

    def stress(self, strain: Strain) -> Pascal:
        power = np.power(strain, self.hardening_exponent)
        return self.strength_coefficient * power + self._transient(strain)

    def slope(self, strain: Strain) -> Pascal:
        with np.errstate(divide="ignore"):
            power = np.power(strain, np.subtract(self.hardening_exponent, 1.0))
        rising = self.strength_coefficient * self.hardening_exponent * power
        return rising + self.transient_exponent * self._transient(strain)

    def _transient(self, strain: Strain) -> Pascal:
        exponent = np.multiply(self.transient_exponent, strain)
        return np.asarray(np.exp(self.transient_logarithm + exponent), dtype=np.float64)


@dataclass(frozen=True, slots=True)
class Table:
    """Straight lines between points; the last line is carried on beyond the last point."""

    strains: Array
    stresses: Array
    strain_start: float = 0.0

    @property
    def strain_limit(self) -> float:
        return float(self.strains[-1])

    def stress(self, strain: Strain) -> Pascal:
        segment = self._segment(strain)
        start = self.stresses[segment]
        return start + self._slopes()[segment] * (strain - self.strains[segment])

    def slope(self, strain: Strain) -> Pascal:
        return self._slopes()[self._segment(strain)]

    def _slopes(self) -> Array:
        return np.asarray(np.diff(self.stresses) / np.diff(self.strains), dtype=np.float64)

    def _segment(self, strain: Strain) -> "np.ndarray[tuple[int, ...], np.dtype[np.intp]]":
        place = np.searchsorted(self.strains, strain, side="right") - 1
        return np.clip(place, 0, len(self.strains) - 2)


@dataclass(frozen=True, slots=True)
class Scaled:
    """Another curve made stronger and steeper: f s(x) (s(x) / s(pivot))^(h - 1).

    At the pivot strain only the strength factor f acts; the logarithmic slope is h times that
    of the base everywhere, so the two factors are independent where the tank is formed.
    """

    base: Curve
    strength: Ratio
    steepness: Ratio = 1.0
    pivot: float = 0.05

    @property
    def strain_start(self) -> float:
        return self.base.strain_start

    @property
    def strain_limit(self) -> float:
        return self.base.strain_limit

    def stress(self, strain: Strain) -> Pascal:
        pivot = self.base.stress(self.pivot)
        relative = np.asarray(self.base.stress(strain), dtype=np.float64) / pivot
        return self.strength * pivot * np.power(relative, self.steepness)

    def slope(self, strain: Strain) -> Pascal:
        stress = np.asarray(self.base.stress(strain), dtype=np.float64)
        relative = stress / self.base.stress(self.pivot)
        with np.errstate(divide="ignore"):
            power = np.power(relative, np.subtract(self.steepness, 1.0))
        return self.strength * self.steepness * power * self.base.slope(strain)


def kinks(curve: Curve) -> Array:
    """Strains where the slope of a curve jumps; a maximum of pressure may sit on one.

    Source: own-derivation, the points of a table.
    Checked: tests/unit/steel/test_curve.py (tables, also below a scaling).
    """
    if isinstance(curve, Scaled):
        return kinks(curve.base)
    return curve.strains if isinstance(curve, Table) else np.empty(0)
