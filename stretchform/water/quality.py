"""Is this water fit to stand in an austenitic tank: chloride and temperature.

Chloride pits stainless steel where it dries or creeps into gaps, so the limits go with
draining and drying on the same day. All bands between published figures are judged.
"""

from enum import StrEnum

import numpy as np

from stretchform.si import Celsius, Ratio
from stretchform.sources import Datum, How

SOURCES = ("api-650-s", "nidi-11003", "own-judgement")

CHLORIDE_LOW = Datum(50e-6, None, "api-650-s", "Annex S, test water", How.MEMORY)  # kg/kg
CHLORIDE_304 = Datum(200e-6, None, "nidi-11003", "304: rare below 100 to 200 ppm", How.SEEN)
CHLORIDE_316 = Datum(500e-6, None, "own-judgement", "half of 1000 ppm for 316", How.JUDGED)
COLD, COOL, WARM, HOT = 7.0, 10.0, 35.0, 40.0  # °C, judged
COOL_FOR_TRANSFORMING = 15.0  # °C, judged: below, lean grades harden by martensite


class Chloride(StrEnum):
    """What a chloride reading asks for."""

    LOW = "low"
    RAISED = "raised"  # drain the same day, rinse with demineralised water, dry
    HIGH = "high"  # not with this water
    UNKNOWN = "unknown"  # ask for a reading: tap water may exceed the low band


class Warmth(StrEnum):
    """How the temperature of the water stands to what is usual."""

    FREEZING = "freezing"  # danger of ice, drift turns its sign
    COOL = "cool"
    USUAL = "usual"
    WARM = "warm"
    HOT = "hot"


def chloride(content: Ratio | None, molybdenum: bool) -> Chloride:
    """Band of a chloride content (mass fraction); `molybdenum` for 1.44xx, 316 and the like.

        low <= 50 ppm < raised <= 200 ppm (304) or 500 ppm (316) < high

    Source: api-650-s, Annex S (from memory), nidi-11003, crevice attack (seen as cited).
    Checked: tests/unit/water/test_water_quality.py (each side of each limit).
    Raises nothing.
    """
    if content is None:
        return Chloride.UNKNOWN
    highest = CHLORIDE_316 if molybdenum else CHLORIDE_304
    if content > highest.value:
        return Chloride.HIGH
    return Chloride.RAISED if content > CHLORIDE_LOW.value else Chloride.LOW


def warmth(temperature: Celsius) -> Warmth:
    """Band of a water temperature.

        freezing < 7 <= cool < 10 <= usual <= 35 < warm <= 40 < hot, degC

    Source: own-judgement, freezing, drift near 7 degC and the flow curve's temperature.
    Checked: tests/unit/water/test_water_quality.py (each side of each limit).
    Raises nothing.
    """
    if temperature < COLD:
        return Warmth.FREEZING
    if temperature < COOL:
        return Warmth.COOL
    limits = np.array([WARM, HOT])
    return (Warmth.USUAL, Warmth.WARM, Warmth.HOT)[int(np.sum(temperature > limits))]
