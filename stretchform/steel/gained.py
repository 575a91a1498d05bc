"""What the stretched wall can bear, what stretching does not give, and what its seams allow.

The flow stress reached is an upper estimate of the new proof strength: a test pulls another
way and its yield is rounded. Only sheet away from welds, pulled along the hoop, at the
temperature of forming is meant. A seam must stretch with the sheet and a thin seam stretches
more than the sheet.
"""

from dataclasses import dataclass

import numpy as np

from stretchform.errors import InputError, NoSolution
from stretchform.si import Growth, Metre, Pascal, Ratio, Strain
from stretchform.steel.curve import Curve

SOURCES = ("own-derivation", "own-judgement", "common-practice")

NOT_GAINED = ("compression", "other_temperature", "welds", "axial_direction", "tempered_sheet")
ELONGATION_PER_TARGET = 3.0  # common practice, no source
SEAM_YIELDS = 0.05  # a long seam begins to yield at 5 to 8 %
SEAM_WEAKER = 0.10  # from 10 to 15 % the seam may be the weaker part
_NO_FILLER = ("", "none", "no", "autogenous", "without", "no filler", "0")
_FILLERS = ("308", "309", "316", "347", "318", "19 9", "19 12 3", "20 10 3", "16 8 2", "385")


@dataclass(frozen=True, slots=True)
class GainedYield:
    """Uniaxial 0.2 % proof strength after stretching, hoop direction, away from welds."""

    low: Pascal
    likely: Pascal
    high: Pascal


@dataclass(frozen=True, slots=True)
class WeldCheck:
    """What a course's seam line says."""

    needed: Ratio  # elongation that the procedure test should show
    shown: Ratio | None
    codes: tuple[str, ...]  # empty: nothing to say

    @property
    def passes(self) -> bool:
        """The elongation shown is enough."""
        return self.shown is not None and bool(self.shown >= self.needed)


def gained_yield(flow_stress: Pascal, factors: tuple[Ratio, Ratio, Ratio]) -> GainedYield:
    """Proof strength after stretching from the flow stress reached.

        low, likely, high = (0.88, 0.95, 1.00) times the flow stress, on the new section

    `factors` come from materials/forming.toml.

    Source: own-judgement, materials/forming.toml, gained.
    Checked: tests/unit/steel/test_gained.py
    """
    low, likely, high = (np.multiply(factor, flow_stress) for factor in factors)
    return GainedYield(low, likely, high)


def gained_from_pressure(
    pressure: Pascal,
    radius: Metre,
    wall: Metre,
    highest_criterion: Ratio,
    factors: tuple[Ratio, Ratio, Ratio],
) -> GainedYield:
    """Proof strength after stretching from the pressure that was read, the cautious way.

        hoop stress = p r / t; uniaxial = hoop / C with the highest credible C; then as above

    `radius` (mid-wall) and `wall` are those under that pressure.

    Source: own-derivation, balance of the wall; own-judgement, highest C.
    Checked: tests/unit/steel/test_gained.py
    """
    return gained_yield(pressure * radius / wall / highest_criterion, factors)


def groove_strain(
    curve: Curve, hoop_strain: Strain, share_left: Ratio, criterion: Ratio = 1.0
) -> Strain:
    """Hoop log strain in an undercut or thin seam that runs along the tank.

        f s(C e_g) exp(-e_g) = s(C e) exp(-e),  f = 1 - depth / wall

    The groove carries the same hoop force as the sheet beside it, and does not shrink
    lengthwise. Maximum pressure falls by the factor f.

    Source: own-derivation, equal hoop force in plane strain.
    Checked: tests/verification/test_gained_groove.py
    Raises NoSolution where the groove would neck before the sheet reaches its strain,
    InputError for a share not between 0 and 1.
    """
    if not 0.0 < float(share_left) <= 1.0:
        raise InputError(
            "groove",
            f"a share of {float(share_left):.3g} of the wall is left",
            "depth below the wall: 0.1 mm of 2.0 mm leaves 0.95",
        )
    wanted = _hoop_force(curve, float(hoop_strain), criterion) / float(share_left)
    low = float(hoop_strain)
    grid = np.linspace(low, max(curve.strain_limit / float(criterion), low * 1.01), 2001)
    forces = np.asarray(_hoop_force(curve, grid, criterion))
    passed = np.flatnonzero(forces >= wanted * (1.0 - 1e-13))
    if not len(passed):
        raise NoSolution(
            "groove",
            "the seam would neck before the sheet reaches its growth",
            "a shallower undercut, a dressed seam or a smaller target",
        )
    return _between(curve, criterion, wanted, grid, int(passed[0]))


def _between(curve: Curve, criterion: Ratio, wanted: Pascal, grid: Strain, place: int) -> float:
    values = np.atleast_1d(grid)
    low, high = float(values[max(place - 1, 0)]), float(values[place])
    for _ in range(60):
        middle = 0.5 * (low + high)
        if _hoop_force(curve, middle, criterion) < wanted:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


def _hoop_force(curve: Curve, hoop_strain: Strain, criterion: Ratio) -> Pascal:
    return curve.stress(np.multiply(criterion, hoop_strain)) * np.exp(np.negative(hoop_strain))


def weld_check(
    filler: str | None, elongation: Ratio | None, target: Growth, tempered: bool = False
) -> WeldCheck:
    """Whether a seam may be stretched to the target.

        elongation of the procedure test >= 3 target

    Codes: weld_not_described, elongation_not_given, elongation_short, long_seam_yields (from
    5 % growth), seam_may_be_weaker (from 10 %), filler_unknown.

    Source: common-practice, factor three; own-judgement, growths at which seams yield.
    Checked: tests/unit/steel/test_gained.py
    Raises InputError for a seam without filler and for temper-rolled sheet.
    """
    if tempered:
        raise InputError(
            "weld",
            "temper-rolled sheet softens beside the seam and would stretch there alone",
            "annealed sheet (2B, 2D, 1D)",
        )
    if filler is not None and without_filler(filler):
        raise InputError(
            "weld",
            "a seam without filler may be thin and soft: it would stretch alone",
            'weld = { filler = "308L", elongation = "35 %" }',
        )
    needed = ELONGATION_PER_TARGET * target
    tests = {
        "weld_not_described": filler is None,
        "filler_unknown": filler is not None and not _known_filler(filler),
        "elongation_not_given": filler is not None and elongation is None,
        "elongation_short": elongation is not None and bool(elongation < needed),
        "long_seam_yields": bool(target >= SEAM_YIELDS),
        "seam_may_be_weaker": bool(target >= SEAM_WEAKER),
    }
    return WeldCheck(needed, elongation, tuple(code for code, holds in tests.items() if holds))


def without_filler(filler: str) -> bool:
    """Whether a filler's text says that there is none.

        none, no, autogenous and the like, or nothing written

    Source: own-judgement, words in use.
    Checked: tests/unit/steel/test_gained.py
    """
    return filler.strip().lower() in _NO_FILLER


def _known_filler(filler: str) -> bool:
    plain = filler.upper().replace("ER", "").replace("E", "").strip()
    return any(plain.startswith(known) for known in _FILLERS)
