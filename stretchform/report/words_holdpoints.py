"""Words for hold points: what must be true before the next step begins; a "no" means stop."""

from collections.abc import Mapping
from dataclasses import dataclass

from stretchform.planning.holdpoints import HoldPoint
from stretchform.report import words_numbers as numbers
from stretchform.si import Number

APPROACH = (
    "Who may come near: up to the pressure of the leak look, and only before the wall has ever "
    "yielded, one named person for a short look. From then on nobody, until both gauges read "
    "zero and the vent is open. Backing off steadies a reading; it makes nothing safe."
)
SIGNED = 'Each point is signed with name, time and readings. A "no" at any of them means stop.'


@dataclass(frozen=True, slots=True)
class Words:
    """One hold point: its title, what must be true, what to do if it is not, its source."""

    title: str
    must: str
    otherwise: str
    source: str
    tells_pressure: bool = False  # its numbers would give a withheld pressure away


WORDS: Mapping[str, Words] = {
    "permission": Words(
        "Leave on file",
        "Authority, insurer or inspection body and a licensed engineer have agreed in writing; "
        "drawing, certificates and weld inspection are complete.",
        "Do not fill the tank.",
        "hse-gs4",
    ),
    "danger": Words(
        "Risk assessment",
        "The energies of this plan are known to all; barrier and closed-off room stand; one "
        "person is in charge, everybody may stop the work; first aid knows about injected water.",
        "Do not fill the tank.",
        "hse-gs4",
    ),
    "means": Words(
        "Pump, valve and gauges",
        "Two gauges in calibration; relief valve tested today{relief}; strokes or meter checked "
        "against a bucket; the drum holds {drum} and no more; fittings and hoses rated above the "
        "relief pressure and tied down; stop, bleed and vent tried from outside.",
        "Put it right first.",
        "hse-gs4",
        tells_pressure=True,
    ),
    "place": Words(
        "Place and cameras",
        "Floor and supports bear the filled tank; the way of a full spill is free; vents and "
        "drain are open; one camera square to each tape at its overlap with a clock in the "
        "picture, another on the gauges. A lost picture means stop.",
        "Put it right first.",
        "own-judgement",
    ),
    "zero_readings": Words(
        "Readings at zero",
        "Circumference of every station on its marked line, by two people; wall; temperatures; "
        "gaps of the plates inside.",
        "Read again until both people agree.",
        "own-judgement",
    ),
    "water": Words(
        "Water",
        "Chloride and temperature are read; filled from below; water within 5 K of the wall, "
        "then two hours of rest with the vents open.",
        "Wait, or change the water.",
        "own-judgement",
    ),
    "first_strokes": Words(
        "First strokes: air",
        "Water against pressure, read at four pressures or more up to {pressure}, tells at most "
        "{air} of air.",
        "Empty, vent, fill again.",
        "own-derivation",
        tells_pressure=True,
    ),
    "leak_look": Words(
        "Leak look",
        "At {pressure}, before anything has yielded, one person has looked at seams and "
        "fittings, from the side and never with the hand.",
        "Release to zero, repair, begin again with the readings at zero.",
        "own-judgement",
        tells_pressure=True,
    ),
    "all_out": Words(
        "Everybody out",
        "All people are counted behind the barrier; from here on nobody goes in until both "
        "gauges read zero and the vent is open.",
        "Do not pump.",
        "hse-gs4",
    ),
    "elastic_line": Words(
        "Elastic line",
        "From the leak look to the step after it each 0.1 MPa takes {compliance} of water, "
        "within {off}; later the heads begin to yield and it takes more.",
        "Air, a leak or another wall: release and find out.",
        "own-derivation",
    ),
    "each_step": Words(
        "Each step",
        "Pressure, water, every station, temperature and time are written down; growth of one "
        "step at most {growth} (more: go on by quarter steps); stations differ by no more than "
        "{apart} beyond the forecast; water so far below {water}; no noise, no bulge, no leak; "
        "plates still have room.",
        "Stop for good: release slowly.",
        "own-judgement",
        tells_pressure=True,
    ),
    "target": Words(
        "Target reached",
        "No more pressure: lost pressure is made up by single counted strokes; held for {hold} "
        "or more until growth of the last half hour is below 0.1 % an hour; then shut off; "
        "read by camera.",
        "Go on holding; a rate that no longer falls means release.",
        "common-practice",
    ),
    "release": Words(
        "Release",
        "Slowly to zero; about {water} come back and are measured; vent open; both gauges zero. "
        "Only then may anybody go near.",
        "Wait outside.",
        "own-judgement",
        tells_pressure=True,
    ),
    "formed": Words(
        "Formed tank",
        "Circumferences at zero, wall, all seams and tab welds looked at and tested for cracks, "
        "plates.",
        "No second pressing before a licensed engineer has seen it.",
        "own-judgement",
    ),
    "drain": Words(
        "Drain and dry",
        "Vent open and uncovered first, then the drain; rinsed with clean water, dried the same "
        "day, corners at the plates too.",
        "Do not leave water standing.",
        "own-judgement",
    ),
    "record": Words(
        "Record",
        "Readings and deviations are signed; then come the proof and leak tests of the rules "
        "that hold for this tank.",
        "The tank is not in use until they are.",
        "own-judgement",
    ),
}


def must(point: HoldPoint, inches: bool = False, withheld: bool = False) -> str:
    """What must be true, with the numbers of the job; dashes where a pressure is withheld."""
    words = WORDS[point.code]
    hidden = withheld and words.tells_pressure
    shown = {
        name: numbers.NOTHING if hidden else _number(point.code, name, value, inches)
        for name, value in point.numbers.items()
    }
    if point.code == "means":
        relief = shown.get("relief")
        shown["relief"] = f" and set to {relief}" if relief and not hidden else ""
    return words.must.format(**shown)


def _number(code: str, name: str, value: Number, inches: bool) -> str:
    if name in ("pressure", "relief"):
        return numbers.pressure(value, inches)
    if name == "compliance":
        return numbers.litres(0.1e6 * value)
    if name in ("air", "water", "drum"):
        return numbers.litres(value)
    if name == "hold":
        return numbers.minutes(value)
    if name == "off":
        return numbers.percent(value, 0)
    return numbers.points(value)
