"""A steel as the job uses it: a curve, how sure it is, and where its numbers come from."""

from dataclasses import dataclass, field
from enum import StrEnum

from stretchform.si import Array, MassPerCent, Pascal, Ratio
from stretchform.sources import Datum
from stretchform.steel.curve import Curve
from stretchform.steel.tensile import Finding


class Basis(StrEnum):
    """What the curve rests on; it sets the spread in materials/forming.toml."""

    COUPON = "coupon"  # own tensile test of this coil
    TRIAL = "trial"  # own trial cylinder of this coil
    CERTIFICATE = "certificate"  # certificate of this coil
    TYPICAL = "typical"  # typical values, or a grade that transforms
    TEXTBOOK = "textbook"  # a handbook pair: a cross-check, never a forecast to pump by


@dataclass(frozen=True, slots=True)
class Certificate:
    """What the mill certificate of a coil says; proof strengths are engineering stresses."""

    proof_02: Pascal
    tensile: Pascal
    proof_10: Pascal | None = None
    elongation: Ratio | None = None
    minimum_only: bool = False  # the numbers are the standard's minima, not this coil's
    analysis: dict[str, MassPerCent] = field(default_factory=dict)  # "C": 0.02, ...


@dataclass(frozen=True, slots=True)
class TrialJoint:
    """What a trial cylinder says of its coil: three numbers that are bound to each other."""

    strength: Ratio
    steepness: Ratio
    criterion: Ratio
    covariance: Array = field(compare=False)  # of ln strength, steepness, criterion


@dataclass(frozen=True, slots=True)
class Steel:
    """A steel resolved for one job: everything below `planning` needs no file any more."""

    key: str  # EN number or the name of the user's own steel file: "1.4307"
    names: tuple[str, ...]  # other names: "304L", "S30403"
    title: str
    basis: Basis
    curve: Curve
    strength_half_width: Ratio  # 5 to 95 % half-width of the flow stress, as a fraction
    steepness_half_width: Ratio  # the same of the logarithmic hardening slope
    youngs_modulus: Datum
    poisson_ratio: Datum
    density: Datum
    thermal_expansion: Datum
    proof_02: Pascal  # before forming, of the curve used
    tensile: Pascal
    data: tuple[tuple[str, Datum], ...]  # every number behind it, by name, for the sources list
    transforms: bool = False  # can form martensite in cold water
    invented: bool = False
    notes: tuple[str, ...] = ()  # caution codes that this steel always brings
    certificate: Certificate | None = None  # the job's own paper, used for the curve or not
    findings: tuple[Finding, ...] = ()  # what is odd in it beside the standards' minima
    joint: TrialJoint | None = None  # of a trial cylinder
