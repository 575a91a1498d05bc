"""Sentences for what a fit assumed, mended or found odd; one for each code."""

from collections.abc import Mapping

from stretchform.report import words_numbers
from stretchform.steel.tensile import Finding

_MPA, _GPA, _PERCENT = "MPa", "GPa", "%"

FINDINGS: Mapping[str, str] = {
    "no_elastic_part": "No straight start in the record: Young's modulus is assumed, {modulus}.",
    "modulus_assumed": "The straight start is too stiff for steel: {modulus} is assumed instead.",
    "grips_moved": "The start is softer than steel ({slope}): the machine gave way; its give is "
    "taken off with the measured line.",
    "origin_shifted": "Strain is counted from {strain} of the record, where the straight start "
    "meets zero stress (slack or toe).",
    "starts_after_proof": "The record starts at {strain} plastic strain, after Rp0.2: that "
    "strength is not measured here.",
    "proof_given": "Rp0.2 = {proof_02} is taken as given.",
    "cut_at_necking": "The curve ends at {strain} strain, at the highest force; necking follows.",
    "ends_before_necking": "The record ends at {strain} plastic strain, before the highest "
    "force: Rm is carried on by the law.",
    "spikes_dropped": "{count} readings that jump from their neighbours are left out.",
    "no_minimum_known": "No standard minimum of this grade stands in the table.",
    "minimum_from_memory": "The minima of this grade are from memory: check the standard.",
    "below_minimum_proof_02": "Rp0.2 = {value} is below the least of its standards, {minimum}.",
    "below_minimum_proof_10": "Rp1.0 = {value} is below the least of its standards, {minimum}.",
    "below_minimum_tensile": "Rm = {value} is below the least of its standards, {minimum}.",
    "below_minimum_elongation": "Elongation {value} is below the least of its standards, "
    "{minimum}.",
    "above_maximum_tensile": "Rm = {value} is above the highest of its standards, {maximum}.",
    "perhaps_tempered": "Rp0.2 = {value} is far above the minimum {minimum}: perhaps the sheet "
    "is temper-rolled, and then it must not be formed so.",
    "repeats_minimum": "The certificate repeats the minima of a standard: it says nothing of "
    "this coil.",
}
REPAIRS: Mapping[str, str] = {
    "encoding": "The file is read as {detail}.",
    "separator": "Columns are separated by: {detail}.",
    "sheet": "The sheet read is: {detail}.",
    "lines_above": "Skipped: {detail}.",
    "decimal_comma": "Decimal commas in column: {detail}.",
    "rows_dropped": "Rows without two numbers are left out: {detail}.",
    "load_sign_turned": "The sign of the load is turned: {detail}.",
    "stretch_sign_turned": "The sign of the stretch is turned: {detail}.",
    "order_turned": "The order of the readings is turned: {detail}.",
    "tail_cut": "Cut off at the end: {detail}.",
    "loops_cut": "Cut out: {detail}.",
}
TRIAL: Mapping[str, str] = {
    "strength_far_from_known": "The cylinder is far stronger or weaker than its steel was known "
    "to be: check wall, gauge and certificate.",
    "steepness_far_from_known": "Its hardening is far from that of its steel: check the small "
    "readings, or another steel is in it.",
    "readings_scatter": "The readings scatter by more than 1 %: gauge, tape or holds.",
    "short_of_half_a_target": "The largest growth is below 2 %: a forecast at 5 % leans on what "
    "was known before.",
}
LAWS: Mapping[str, str] = {
    "misses_start": "misses the start of the range",
    "misses_end": "misses the end of the range",
    "misses": "misses by more than 2 %",
    "falls": "falls somewhere",
    "bends_up": "bends upwards at the end",
}
FAMILIES: Mapping[str, str] = {
    "transforms_301": "301 turns to martensite while it is stretched",
    "transforms_301LN": "301LN turns to martensite while it is stretched",
    "transforms_201": "201 and 202 may turn to martensite while they are stretched",
}
NOT_GAINED: Mapping[str, str] = {
    "compression": "strength against compression along the hoop or the axis",
    "other_temperature": "strength at another temperature",
    "welds": "strength of the welds and beside them",
    "axial_direction": "strength along the axis, which was not measured",
    "tempered_sheet": "anything on temper-rolled sheet",
}
_UNITS = {
    "modulus": (1e9, _GPA, 0),
    "slope": (1e9, _GPA, 0),
    "strain": (0.01, _PERCENT, 2),
    "proof_02": (1e6, _MPA, 0),
}


def not_gained() -> tuple[str, ...]:
    """What stretching does not give, one line each."""
    return tuple(f"- {text}" for text in NOT_GAINED.values())


def finding(found: Finding) -> str:
    """The sentence of a finding with its numbers."""
    shown = {name: _shown(name, value, found.code) for name, value in found.numbers.items()}
    return FINDINGS[found.code].format(**shown)


def repair(code: str, detail: str) -> str:
    """The sentence of a repair."""
    return REPAIRS[code].format(detail=detail)


def _shown(name: str, value: float, code: str) -> str:
    if name == "count":
        return f"{value:.0f}"
    if code == "below_minimum_elongation":
        return words_numbers.percent(value)
    scale, unit, digits = _UNITS.get(name, (1e6, _MPA, 0))
    return f"{value / scale:.{digits}f} {unit}"
