"""Words for what a plan holds for and what it rests on."""

from collections.abc import Mapping

from stretchform.planning.plan import Plan
from stretchform.planning.tank import Attitude, HeadShape
from stretchform.report import words_conditions
from stretchform.report import words_numbers as numbers
from stretchform.sources import Source
from stretchform.steel.grade import Basis, Steel

LIKELY = (
    "Low, likely and high are the 5, 50 and 95 % of the forecast's own spread. Likely means: the "
    "curve of the steel, times a rate factor, through a factor for the yield rule. Both factors "
    "are judged, not measured."
)
EXAMPLE = "INVENTED EXAMPLE: these numbers describe no real tank. Never pump by them."
BASES = {
    Basis.COUPON: "own tensile test of this coil",
    Basis.TRIAL: "own trial cylinder of this coil",
    Basis.CERTIFICATE: "certificate of this coil",
    Basis.TYPICAL: "typical values of the grade",
    Basis.TEXTBOOK: "textbook pair, a cross-check only",
}


def job_name(plan: Plan) -> str:
    """The name of the job, and first that it is invented where it is."""
    return f"invented: {plan.job.name}" if plan.job.example else plan.job.name


def validity(plan: Plan) -> tuple[str, ...]:
    """Where the forecast holds; outside of it the numbers mean nothing."""
    lines = [
        _shell(plan),
        "forming pressure: gauge pressure at the top of the tank at the end of a hold "
        "(growth below 0.1 % an hour), water standing still",
        "growth: change of the outside circumference, away from seams, ports and heads",
        "gained yield strength: hoop direction, sheet away from welds, at the forming "
        f"temperature of {numbers.temperature(plan.water.temperature)} only",
        "sheet that is equal all round and annealed before; no dent, undercut or crack",
    ]
    if plan.job.tank.attitude is Attitude.LYING:
        lines.append("lying tank: bending on its supports is not computed")
    if not plan.maximum_within_curve:
        lines.append("maximum pressure: only as far as the steel's curve goes, a lower bound")
    return tuple(lines)


def _shell(plan: Plan) -> str:
    if plan.whole:
        return (
            "shell: the whole tank with its heads, thin walls, equal all round; wrinkles, seams "
            "and openings are not computed"
        )
    tied = plan.job.tank.bottom.shape is HeadShape.TIED
    ends = "held from outside" if tied else "closed and free to move"
    return (
        f"shell: each course a long thin cylinder, ends {ends}; heads and their hold on the shell "
        "are not computed"
    )


def curves(plan: Plan) -> tuple[str, ...]:
    """What the curve of each course rests on, with its spread."""
    return tuple(
        f"{course.name}: {course.steel.key} {course.steel.title}, {BASES[course.steel.basis]}, "
        f"strength within {numbers.percent(known.half_width, 0)}; "
        f"{words_conditions.martensite(known.martensite)}"
        for course, known in zip(plan.job.tank.courses, plan.basis.courses, strict=True)
    )


def sources(plan: Plan, bibliography: Mapping[str, Source]) -> list[dict[str, str]]:
    """Every source behind the numbers of the plan, with the ways its numbers reached us."""
    ways: dict[str, set[str]] = {"own-judgement": {"judged"}, "own-derivation": {"derived"}}
    for steel in _steels(plan):
        for _, datum in steel.data:
            ways.setdefault(datum.source, set()).add(datum.how.value)
    return [
        {
            "key": key,
            "title": bibliography[key].title if key in bibliography else "",
            "how": ", ".join(sorted(hows)),
        }
        for key, hows in ways.items()
    ]


def basis_name(steel: Steel) -> str:
    """What a steel's curve rests on, in words."""
    return BASES[steel.basis]


def _steels(plan: Plan) -> list[Steel]:
    tank = plan.job.tank
    found = [course.steel for course in tank.courses] + [tank.bottom.steel, tank.top.steel]
    found += [plate.steel for plate in tank.plates if plate.steel is not None]
    return found
