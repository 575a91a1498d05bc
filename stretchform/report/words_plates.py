"""Words for plates: what must not be built, and what no check here looks at."""

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
UNCHECKED = {
    "arm-fatigue": "fatigue of the arms in use",
    "weld-quality": "quality of the tab welds",
    "crevices": "corrosion in the gaps at the tabs",
    "oxygen-compatibility": "whether the gaps suit oxygen service",
    "martensite-contraction": "shrinkage of transformed steel in deep cold",
}


def refused(code: str) -> str:
    """The sentence for a refusal; the code itself where none is known."""
    return REFUSED.get(code, code.replace("-", " "))


def unchecked(codes: tuple[str, ...]) -> str:
    """One sentence with everything that is not looked at."""
    return ", ".join(UNCHECKED.get(code, code.replace("-", " ")) for code in codes)
