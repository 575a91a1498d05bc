"""Words for plates: what must not be built, and what no check here looks at."""

from math import degrees

from stretchform.planning.plan import PlatePlan
from stretchform.plates.case import PlateResult
from stretchform.plates.checks import Check
from stretchform.report import words_numbers as numbers
from stretchform.si import Number

AGAINST_PRESSURE = ("restraint of the wall", "dent of the wall")  # checks that would tell it
METHODS = {
    "formula": "closed formulas",
    "beam": "beam that yields, at large movement",
}

REFUSED = {
    "unrelieved-tabs": "a plate with more than one welded tab needs an arm behind each of them: "
    "the plate holds the wall back and tears its welds",
    "arms-of-mixed-hand": "arms that point both ways hold each other like a bridge: let all arms "
    "of a plate point the same way",
    "concentric-bridge": "a bridge that follows the rim tears above about 1 % of growth: use "
    "straight arms, square to the radius at their tab",
    "arm-necks": "the arm stretches until it thins and tears: make it longer or less deep, or add "
    "limbs",
    "bridge-in-cold-worked-plate": "a bridge must stretch along its length: use annealed plate",
}
CURES = {
    "unrelieved-tabs": 'arm = { kind = "single", depth = "7 mm" }  # behind every tab',
    "arms-of-mixed-hand": 'arm.hand = "clockwise"',
    "concentric-bridge": 'arm.straight = true  # or kind = "single"',
    "arm-necks": 'arm.length = "120 mm"  # longer, or leave the length out',
    "bridge-in-cold-worked-plate": 'annealed = true  # with annealed sheet; or kind = "single"',
    "ligament": "a wider ring_width, or arms less deep",
    "growth of the tab weld": 'tab_length = "15 mm"',
    "length of the tab weld": 'tab_length = "15 mm"',
}
NO_ROOM = "no room for a vent notch and a drain notch opposite it: fewer tabs or shorter arms"
UNCHECKED = {
    "arm-fatigue": "fatigue of the arms in use",
    "weld-quality": "quality of the tab welds",
    "crevices": "corrosion in the gaps at the tabs",
    "oxygen-compatibility": "whether the gaps suit oxygen service",
    "martensite-contraction": "shrinkage of transformed steel in deep cold",
}


def why_not(result: PlateResult) -> str:
    """Why a plate must not be cut: the refusal or the failing checks, with the force."""
    force = f"the force of one tab on the wall would be {numbers.force(result.force)}"
    if result.refused:
        return "; ".join([*(refused(code) for code in result.refused), force])
    failing = [
        f"{check.name} fails ({amount(check, check.value)}, allowed {sign(check)} "
        f"{amount(check, check.limit)})"
        for check in result.checks
        if check.result == "fails"
    ]
    return "; ".join([*failing, force])


def cure(result: PlateResult) -> str:
    """What to change in the job file so that the plate may be cut."""
    for code in result.refused:
        if code in CURES:
            return CURES[code]
    return CURES.get(result.governs or "", 'arm = { kind = "single", depth = "6 mm" }')


def sign(check: Check) -> str:
    """Which way a limit holds."""
    return ">=" if check.at_least else "<="


def amount(check: Check, value: Number, inches: bool = False) -> str:
    """A value of a check with its unit."""
    if check.unit_kind == "metre":
        return numbers.size(value, inches)
    if check.unit_kind == "strain":
        return numbers.percent(value, 1)
    if check.unit_kind == "newton":
        return numbers.force(value)
    if check.unit_kind == "pascal":
        return numbers.stress(value, inches)
    unit = {"newton_metre": " N m", "kilogram": " kg", "radian": " rad"}.get(
        check.unit_kind, ""
    )
    return numbers.number(value) + unit


def beside_formula(formula: PlateResult, found: PlateResult) -> list[str]:
    """What the closed formulas say of an arm that the beam has solved."""
    if found.method == "formula" or found.arm_length == 0.0:
        return []
    strain, force = numbers.percent(formula.root_strain, 1), numbers.force(formula.force)
    return [f"the closed formulas give: root strain {strain}, force of one tab {force}"]


def notches(plate: PlatePlan) -> list[str]:
    """Vent and drain notch of a plate, and the air that stays under it."""
    found = plate.notches
    if found is None:
        return []
    if found.vent is None or found.drain is None:
        return [f"notches: {NO_ROOM}"]
    lines = [
        f"notches: radius {numbers.size(found.radius)}, vent {degrees(found.vent):.0f}° and drain "
        f"{degrees(found.drain):.0f}° clockwise from the first tab; weld it in with the vent high"
    ]
    if found.level:
        lines.append(
            f"level while it is filled: up to {numbers.litres(found.film)} of air stay under it, "
            "notches or not, unless the tank is tilted"
        )
    return lines


def verdict(result: PlateResult) -> str:
    """REFUSED, FAILS, care or ok, and the check that governs."""
    if result.refused:
        return f"REFUSED: {result.refused[0].replace('-', ' ')}"
    worst = {check.result for check in result.checks}
    word = "FAILS" if "fails" in worst else "care" if "care" in worst else "ok"
    return f"{word}; governs: {result.governs}" if result.governs else word


def refused(code: str) -> str:
    """The sentence for a refusal; the code itself where none is known."""
    return REFUSED.get(code, code.replace("-", " "))


def unchecked(codes: tuple[str, ...]) -> str:
    """One sentence with everything that is not looked at."""
    return ", ".join(UNCHECKED.get(code, code.replace("-", " ")) for code in codes)
