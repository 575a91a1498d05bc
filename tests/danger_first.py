"""What every output of a plan must say before its first pressure, energy or distance."""

import json
import re

NEEDED = (
    "can let loose",
    "water ",
    "wall ",
    "trapped air",
    "gas instead of water",
    "skin",
    "Nobody near",
    "nobody in line",
    "Water only",
    "no gas cushion",
    "pressure-equipment law",
    "insurer",
    "licensed engineer",
)
NEEDED_WITHHELD = (
    "energy that can kill",
    "filled with gas",
    "because its pressure is withheld",
    "Nobody near",
    "nobody in line",
    "Water only",
    "no gas cushion",
    "pressure-equipment law",
    "insurer",
    "licensed engineer",
)
_CODES = re.compile(r"\x1b\[[0-9;?]*[A-Za-z]")
_FRAME = re.compile(r"[═║╔╗╚╝─━│╭╮╰╯]+|={5,}")
_QUANTITY = re.compile(r"\d\s*(MPa|bar|psi|kJ|MJ|J|kN|mm|m|in)\b")


def unstyled(text):
    """The words of a screen alone: no codes of a terminal, no frames, single blanks."""
    return " ".join(_FRAME.sub(" ", _CODES.sub("", text)).split())


def faults_of_screen(text, withheld=False):
    """What is missing before the name of the plan, or stands where it must not."""
    words = unstyled(text)
    before, mark, _ = words.partition("Plan: ")
    if not mark:
        return ["the plan has no name, so its beginning cannot be found"]
    first = before.find("DANGER")
    needed = NEEDED_WITHHELD if withheld else NEEDED
    faults = [f"missing: {item}" for item in needed if item not in before]
    if first != 0:
        faults.append("the block is not the first thing")
    if _QUANTITY.search(before[: max(first, 0)]):
        faults.append("a quantity stands before the block")
    return faults


def faults_of_json(text, withheld=False):
    """The same for the JSON of a plan."""
    data = json.loads(text)
    keys = list(data)
    if keys[:3] != ["format", "version", "danger"]:
        return [f"the first keys are {keys[:3]}"]
    said = " ".join(data["danger"]["statements"])
    needed = NEEDED_WITHHELD if withheld else NEEDED
    return [f"missing: {item}" for item in needed if item not in said]
