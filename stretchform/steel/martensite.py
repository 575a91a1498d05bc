"""Does this sheet turn to martensite while it is stretched in water of this temperature?

Md30 is the temperature at which half of the austenite has turned after 30 % strain. Where it
lies well below the water's, the curve of a slow test in a warm room holds in the tank too.
Where it does not, hardening depends on the water, and the curve must be measured there.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from stretchform.errors import InputError
from stretchform.si import Celsius, MassPerCent, Ratio, Strain

SOURCES = ("angel-1954", "nohara-1977", "olson-cohen-1975", "own-judgement")

SAFE_DISTANCE = 20.0  # K between Md30 and the water: judged, cautious
_GRAIN_SIZE = 8.0  # ASTM number; Nohara's reference
_NEEDED = ("C", "Cr", "Ni")
_TRANSFORMING = {
    "301": ("1.4310", "301", "301L", "S30100", "S30103"),
    "301LN": ("1.4318", "301LN", "S30153"),
    "201": ("1.4372", "1.4371", "201", "201L", "202", "S20100", "S20103", "S20200"),
}
_LEAN_304 = ("1.4301", "1.4307", "304", "304L", "S30400", "S30403")
_COLD_WATER = 15.0  # degC: below it a 304 without an analysis is not covered


@dataclass(frozen=True, slots=True)
class Kinetics:
    """Constants of the Olson-Cohen law at one temperature."""

    temperature: Celsius
    shear_bands: Ratio  # alpha
    nucleation: Ratio  # beta
    exponent: Ratio = 4.5


OLSON_COHEN_304 = (Kinetics(-188.0, 12.9, 2.0), Kinetics(22.0, 3.55, 0.30))


@dataclass(frozen=True, slots=True)
class Transformation:
    """What the analysis and the water say together."""

    angel: Celsius | None
    nohara: Celsius | None
    distance: Celsius | None  # water less Md30 after Nohara
    covered: bool  # the curve of a test in a warm room may be used
    codes: tuple[str, ...]


def md30_angel(analysis: Mapping[str, MassPerCent]) -> Celsius:
    """Md30 after Angel from an analysis in mass per cent; an element not given counts as zero.

        413 - 462 (C + N) - 9.2 Si - 8.1 Mn - 13.7 Cr - 9.5 Ni - 18.5 Mo

    Source: angel-1954, regression as quoted in an encyclopedia.
    Checked: tests/verification/test_steel_check_values.py
    Raises InputError where C, Cr or Ni is missing.
    """
    _refuse_incomplete(analysis)
    a = {element: analysis.get(element, 0.0) for element in ("C", "N", "Si", "Mn", "Mo")}
    carbon = 462.0 * (a["C"] + a["N"])
    rest = 9.2 * a["Si"] + 8.1 * a["Mn"] + 13.7 * analysis["Cr"] + 9.5 * analysis["Ni"]
    return 413.0 - carbon - rest - 18.5 * a["Mo"]


def md30_nohara(
    analysis: Mapping[str, MassPerCent], grain_size_number: Ratio = _GRAIN_SIZE
) -> Celsius:
    """Md30 after Nohara, with nickel and copper weighed alike and the ASTM grain size number.

        551 - 462 (C + N) - 9.2 Si - 8.1 Mn - 13.7 Cr - 29 (Ni + Cu) - 18.5 Mo - 68 Nb
            - 1.42 (G - 8)

    Source: nohara-1977, regression as quoted in an encyclopedia.
    Checked: tests/verification/test_steel_check_values.py
    Raises InputError where C, Cr or Ni is missing.
    """
    _refuse_incomplete(analysis)
    names = ("C", "N", "Si", "Mn", "Mo", "Cu", "Nb")
    a = {element: analysis.get(element, 0.0) for element in names}
    carbon = 462.0 * (a["C"] + a["N"])
    rest = 9.2 * a["Si"] + 8.1 * a["Mn"] + 13.7 * analysis["Cr"]
    nickel = 29.0 * (analysis["Ni"] + a["Cu"])
    grain = 1.42 * (grain_size_number - 8.0)
    return 551.0 - carbon - rest - nickel - 18.5 * a["Mo"] - 68.0 * a["Nb"] - grain


def martensite(strain: Strain, kinetics: Kinetics) -> Ratio:
    """Share of strain-induced martensite after a plastic strain.

        f = 1 - exp(-beta (1 - exp(-alpha x))^n)

    Source: olson-cohen-1975, figure 2 for 304, constants as quoted.
    Checked: tests/verification/test_steel_check_values.py
    """
    bands = -np.expm1(-np.multiply(kinetics.shear_bands, strain))
    return np.asarray(-np.expm1(-kinetics.nucleation * np.power(bands, kinetics.exponent)))


def transformation(
    names: tuple[str, ...], analysis: Mapping[str, MassPerCent], water: Celsius
) -> Transformation:
    """Whether the curve of a warm, slow test may be used in this water, and the warnings.

        covered where water - Md30 (Nohara) >= 20 K and the grade is not one that transforms;
        without an analysis 304 and 304L are covered from 15 degC upwards

    Nohara decides because it weighs nickel and copper as stable grades such as 316L need it; an
    Angel value nearer than 20 K is said (angel_near_water). `names` are all names of the steel.

    Source: own-judgement, distance of 20 K and cold water of 15 degC.
    Checked: tests/unit/steel/test_martensite_warnings.py
    """
    family = _family(names)
    codes = [f"transforms_{family}"] if family else []
    known = all(element in analysis for element in _NEEDED)
    angel = md30_angel(analysis) if known else None
    nohara = md30_nohara(analysis) if known else None
    distance = None
    if angel is not None and nohara is not None:
        distance = water - nohara
        if distance < SAFE_DISTANCE:
            codes.append("md30_near_water")
        elif water - angel < SAFE_DISTANCE:
            codes.append("angel_near_water")
        if "N" not in analysis:
            codes.append("nitrogen_not_given")
    else:
        codes.append("analysis_missing")
        if _is_lean(names) and water < _COLD_WATER:
            codes.append("cold_water_304")
    alarming = {"md30_near_water", "cold_water_304"} & set(codes)
    covered = not family and not alarming
    return Transformation(angel, nohara, distance, covered, tuple(codes))


def _family(names: tuple[str, ...]) -> str | None:
    own = {name.upper().removeprefix("AISI ").removeprefix("EN ").strip() for name in names}
    for family, spellings in _TRANSFORMING.items():
        if own & set(spellings):
            return family
    return None


def _is_lean(names: tuple[str, ...]) -> bool:
    return bool({name.upper() for name in names} & set(_LEAN_304))


def _refuse_incomplete(analysis: Mapping[str, MassPerCent]) -> None:
    missing = [element for element in _NEEDED if element not in analysis]
    if missing:
        raise InputError(
            "analysis",
            f"without {', '.join(missing)} no Md30 can be computed",
            "analysis = { C = 0.02, Si = 0.5, Mn = 1.5, Cr = 18.1, Ni = 8.1, N = 0.07 }",
        )
