"""Words of the printed page, the job card and their pictures."""

from stretchform.planning.plan import Plan

NO_PROFILE = (
    "Computed course by course, without the heads: there is no growth along the shell and no "
    "outline to draw. Plan without --quick to have them."
)
PAGE = "page"
NARROW = "On a narrow screen wide tables and pictures can be moved sideways."
SECTIONS = {
    "cautions": "Energy and cautions",
    "pressure": "Pressure, and what it rests on",
    "tank": "The tank before and after",
    "growth": "Pressure against growth",
    "profile": "Growth along the shell",
    "steel": "Steel",
    "steps": "Steps",
    "plates": "Plates",
    "heads": "Heads and openings",
    "water": "Water, and where the energy stands",
    "holdpoints": "Points to be signed",
    "drivers": "Where the spread comes from",
    "validity": "What is assumed, and where it holds",
    "sources": "Sources",
}
HOWS = (
    "How a number was obtained: seen = read in the source itself; measured = from a coupon or a "
    "tank; derived = computed from other numbers; memory = remembered, not checked; practice = "
    "common practice, no source; judged = own judgement; invented = for examples only.",
)


COMPARED = {
    "growths": "Growth, measured beside the forecast",
    "results": "What came out",
    "meaning": "What it means",
}


def foot(plan: Plan, version: str, model: int) -> tuple[str, ...]:
    """The last lines of the page: what made it, and the mark by which it is known again."""
    return (
        f"Fingerprint: {plan.fingerprint} (job, steels and model {model}; any change of them "
        "gives another).",
        f"stretchform {version}. A help for planning, not leave to pump.",
    )


class Card:
    """Words of the job card."""

    TITLE = "Job card"
    WITHHELD = "No job card is made of a withheld plan. Do not pump."
    STOP = "STOP for good, release slowly and find out why, when"
    STOP_ABOVE = "Stop above, outside circumference under pressure at 20 °C"
    TARGET_AT = "Target: raise no more when the outside circumference under pressure reads"
    STOP_MANY = "The stop value of each station stands with its steps"
    DAY = (
        "Date",
        "Place",
        "Tank no.",
        "Person in charge",
        "Pump",
        "Readings",
        "First aid, phone",
    )
    FINGERPRINT = "Plan with the fingerprint"
    PLAN = "What the plan expects"
    TARGET = "Outside circumference at the target, likely"
    TARGET_HEADS = ("station", "before", "under pressure", "released")
    BEFORE = "Before the wall yields"
    STEPS = "Steps"
    SET = "expected"
    READ = "read"
    TAPE = "tape"
    YES, NO = "yes", "no"
    ZERO = "Readings at zero, before filling"
    ZERO_HEADS = ("station", "expected", "first person", "second person", "wall, read")
    STEP = "Step"
    YIELDS = "the wall may yield: nobody comes near until both gauges read zero"
    STEP_HEADS = (
        "set",
        "gauge shows",
        "hold at least",
        "over target",
        "water in, likely",
    )
    STEP_READ = (
        "gauge 1",
        "gauge 2",
        "water in",
        "water and wall, °C",
        "begun, ended",
        "signed",
    )
    TAPE_HEADS = (
        "station",
        "low",
        "likely",
        "high",
        "go on below",
        "stop above",
        "on arrival",
        "30 min before\nthe end",
        "at the end",
    )
    LAST = "last step"
    RELEASED = "Readings at zero, after release"
    RELEASED_HEADS = ("station", "low", "likely", "high", "read", "wall, read", "signed")
    POINT_HEADS = ("no.", "must be true", "yes / no", "readings", "name, time")
    POINT_IF_NOT = "If not:"
    CLOSING = "Closing list"
    REMARKS = "Remarks and everything that was different"
    SIGNED = ("Person in charge", "Date, time")
    UNIT, UNIT_INCHES = "mm", "mm (in)"
