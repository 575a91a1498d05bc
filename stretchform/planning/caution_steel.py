"""Rules on the steel's paper, its water and its seams."""

from collections.abc import Callable, Iterator

import numpy as np

from stretchform.errors import NoSolution
from stretchform.planning import conditions
from stretchform.planning.caution import Caution, Facts, Level, Rule
from stretchform.planning.job import Job
from stretchform.planning.tank import Course
from stretchform.si import Growth, Ratio
from stretchform.steel import gained
from stretchform.steel.grade import Basis, Steel

SOURCES = ("common-practice", "own-derivation", "own-judgement")

_WORTH_SAYING = 0.005  # shift of the flow stress by the water, or half of its band
_VALUES = {  # codes of the findings
    "below_minimum_proof_02": "Rp0.2",
    "below_minimum_proof_10": "Rp1.0",
    "below_minimum_tensile": "Rm",
    "below_minimum_elongation": "elongation",
}


def _paper(job: Job, facts: Facts) -> Iterator[Caution]:
    """The certificate beside the standards' minima of its grade."""
    for steel in _distinct(job):
        for finding in steel.findings:
            numbers = finding.numbers
            if finding.code in _VALUES:
                share = {"share": numbers["value"] / numbers["minimum"]}
                names = (steel.key, _VALUES[finding.code])
                yield Caution("certificate_below_minimum", Level.CARE, share, names)
            elif finding.code == "above_maximum_tensile":
                share = {"share": numbers["value"] / numbers["maximum"]}
                yield Caution("certificate_above_maximum", Level.CARE, share, (steel.key,))
            elif finding.code == "perhaps_tempered":
                share = {"share": numbers["value"] / numbers["minimum"]}
                yield Caution("perhaps_tempered", Level.BLOCK, share, (steel.key,))


def _distinct(job: Job) -> list[Steel]:
    """Every steel of the shell once; two coils of one key are two."""
    found: list[Steel] = []
    for course in job.tank.courses:
        if not any(course.steel is known for known in found):
            found.append(course.steel)
    return found


def _water(job: Job, facts: Facts) -> Iterator[Caution]:
    """What the temperature of the water does to the flow stress of a stable steel."""
    water = float(job.water.temperature)
    effect = conditions.tank_effect(job)
    likely, half = float(effect.likely), float(effect.high / effect.likely - 1.0)
    if max(abs(likely - 1.0), half) >= _WORTH_SAYING:
        numbers = {"shift": likely - 1.0, "half": half, "temperature": water}
        yield Caution("water_shift", Level.NOTE, numbers)


def _martensite(job: Job, facts: Facts) -> Iterator[Caution]:
    """Does the analysis let this steel turn to martensite in this water."""
    levels = {
        "md30_near_water": Level.CARE,
        "angel_near_water": Level.NOTE,
        "nitrogen_not_given": Level.NOTE,
        "cold_water_304": Level.CARE,
    }
    water, said = float(job.water.temperature), set()
    for steel in _distinct(job):
        if steel.basis is Basis.TRIAL or steel.transforms:
            continue  # the trial was formed in the water; the grade is warned of already
        found = conditions.verdict(steel, water)
        for code, level in levels.items():
            if code in found.codes and (code, steel.key) not in said:
                said.add((code, steel.key))
                numbers = {"temperature": water}
                if found.nohara is not None and found.angel is not None:
                    numbers["nohara"] = float(found.nohara)
                    numbers["angel"] = float(found.angel)
                yield Caution(code, level, numbers, (steel.key,))


def _seams(job: Job, facts: Facts) -> Iterator[Caution]:
    """The seams of each course beside the growth that they must bear."""
    target = float(facts.target_growth)
    courses = [course for course in job.tank.courses if course.weld is not None]
    yield from _seams_at(courses, target)
    bare = _names(courses, lambda course: gained.without_filler(_filler(course)))
    if bare:
        yield Caution("weld_without_filler", Level.BLOCK, names=bare)
    filled = [course for course in courses if course.name not in bare]
    checks = {
        course.name: gained.weld_check(_filler(course), _elongation(course), target)
        for course in filled
    }
    unsaid = {
        "weld_filler_unknown": "filler_unknown",
        "weld_elongation_not_given": "elongation_not_given",
    }
    for code, finding in unsaid.items():
        names = tuple(name for name, check in checks.items() if finding in check.codes)
        if names:
            yield Caution(code, Level.NOTE, names=names)
    for name, check in checks.items():
        if "elongation_short" in check.codes and check.shown is not None:
            numbers = {"shown": float(check.shown), "needed": float(check.needed)}
            short = float(check.shown) <= target
            code = "weld_elongation_below_target" if short else "weld_elongation_short"
            yield Caution(code, Level.BLOCK if short else Level.CARE, numbers, (name,))


def _seams_at(courses: list[Course], target: Growth) -> Iterator[Caution]:
    """What the growth alone says of every seam."""
    growth = {"growth": float(target)}
    if courses and target >= gained.SEAM_WEAKER:
        yield Caution("seam_may_be_weaker", Level.CARE, growth)
    elif courses and target >= gained.SEAM_YIELDS:
        yield Caution("long_seam_yields", Level.NOTE, growth)


def _grooves(job: Job, facts: Facts) -> Iterator[Caution]:
    """Undercut or thin seams: how much further they stretch than the sheet."""
    growth = float(facts.target_growth)
    for course in job.tank.courses:
        left = float(_share_left(course))
        if left >= 1.0 or growth <= 0.0:
            continue
        numbers = {"left": left, "sheet": growth}
        try:
            strain = gained.groove_strain(
                course.steel.curve, float(np.log1p(growth)), left, facts.criterion
            )
        except NoSolution:
            yield Caution("seam_necks", Level.BLOCK, numbers, (course.name,))
            continue
        numbers["groove"] = float(np.expm1(strain))
        yield Caution("seam_groove", Level.CARE, numbers, (course.name,))


def _share_left(course: Course) -> Ratio:
    """Wall that is left in the thinnest place of the seam; never more than the sheet's."""
    if course.weld is None:
        return 1.0
    thinnest = course.wall if course.weld.thickness is None else course.weld.thickness
    return float(min(thinnest, course.wall) - (course.weld.undercut or 0.0)) / float(
        course.wall
    )


def _filler(course: Course) -> str:
    return "" if course.weld is None else course.weld.filler


def _elongation(course: Course) -> Ratio | None:
    return None if course.weld is None else course.weld.elongation


def _names(courses: list[Course], holds: Callable[[Course], bool]) -> tuple[str, ...]:
    return tuple(course.name for course in courses if holds(course))


RULES: tuple[Rule, ...] = (_paper, _water, _martensite, _seams, _grooves)
