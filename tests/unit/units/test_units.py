"""Reading and writing quantities: what is taken, what is refused, and with which cure."""

import json
import subprocess
import sys

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stretchform import units
from stretchform.errors import InputError, StretchformError
from stretchform.units.spellings import DIMENSIONS

# Values in SI: exact by definition of the unit (inch 25.4 mm, pound-force 4.4482216152605 N,
# US gallon 231 cubic inches, standard gravity 9.80665 m/s2), so only rounding is allowed.
TAKEN = [
    ("2.0 mm", "length", 2.0e-3),
    ("2mm", "length", 2.0e-3),
    ("  2.0   mm ", "length", 2.0e-3),
    ("2\u00a0mm", "length", 2.0e-3),
    (".080 in", "length", 0.080 * 25.4e-3),
    ('25.2 "', "length", 25.2 * 25.4e-3),
    ("79 thou", "length", 79 * 25.4e-6),
    ("6 ft", "length", 6 * 0.3048),
    ("1e-3 m", "length", 1.0e-3),
    ("-0.4 m", "length", -0.4),
    ("12 bar", "pressure", 12e5),
    ("12 bar(g)", "pressure", 12e5),
    ("12 barg", "pressure", 12e5),
    ("300 N/mm2", "pressure", 300e6),
    ("300 N/mm²", "pressure", 300e6),
    ("300 MPa", "pressure", 300e6),
    ("195 GPa", "pressure", 195e9),
    ("100 psi", "pressure", 100 * 4.4482216152605 / 0.0254**2),
    ("100 psig", "pressure", 100 * 4.4482216152605 / 0.0254**2),
    ("43.5 ksi", "pressure", 43500 * 4.4482216152605 / 0.0254**2),
    ("20 °C", "temperature", 20.0),
    ("20 degC", "temperature", 20.0),
    ("68 °F", "temperature", 20.0),
    ("293.15 K", "temperature", 20.0),
    ("0 °C", "temperature", 0.0),
    ("5 %", "growth", 0.05),
    ("5 per cent", "growth", 0.05),
    ("1 point", "growth", 0.01),
    ("85 %", "ratio", 0.85),
    ("40 l", "volume", 0.040),
    ("12 US gal", "volume", 12 * 231 * 0.0254**3),
    ("2 l/min", "flow", 2e-3 / 60),
    ("7.9 g/cm3", "density", 7900.0),
    ("16 µm/m/K", "expansion", 16e-6),
    ("16 μm/m/K", "expansion", 16e-6),
    ("9 ppm/°F", "expansion", 16.2e-6),
    ("2 kN", "force", 2000.0),
    ("10 lbf", "force", 44.482216152605),
    ("250 g", "mass", 0.250),
    ("30 min", "time", 1800.0),
    ("180 °", "angle", np.pi),
    ("1 g", "acceleration", 9.80665),
    ("50 mg/l", "concentration", 50e-6),
    ("50 ppm", "concentration", 50e-6),
    ("1 ft lbf", "energy", 0.3048 * 4.4482216152605),
]
REFUSED = [
    ("2,0 mm", "length", "decimal comma", "2.0 mm"),
    ("3,5bar", "pressure", "decimal comma", "3.5 bar"),
    ("2, mm", "length", "decimal comma", "2 mm"),
    ("1,200 mm", "length", "thousands: then 1200", "1.200 mm"),
    ("1.200,5 mm", "length", "thousands set apart", "1200.5 mm"),
    ("1,200.5 mm", "length", "thousands set apart", "1200.5 mm"),
    ("1 200 mm", "length", "thousands set apart", "1200 mm"),
    ("2 000,5 mm", "length", "thousands set apart", "2000.5 mm"),
    ("1'200 mm", "length", "thousands set apart", "1200 mm"),
    ("1_200 mm", "length", "thousands set apart", "1200 mm"),
    ("1.2.3 mm", "length", "more than one decimal mark", "2.0 mm"),
    ("1 1/2 in", "length", "a fraction", "1.5 in"),
    ("1-1/2 in", "length", "a fraction", "1.5 in"),
    ('11/16"', "length", "a fraction", "0.6875 in"),
    ("1½ in", "length", "a fraction", "1.5 in"),
    ("¾ in", "length", "a fraction", "0.75 in"),
    ("2.0 ± 0.1 mm", "length", "two numbers", "2.0 mm"),
    ("2.0-2.2 mm", "length", "two numbers", "2.0 mm"),
    ("2.0 mm to 2.2 mm", "length", "two numbers", "2.0 mm"),
    ("~2 mm", "length", "one number is meant", "2 mm"),
    ("3", "length", "no unit", "3 mm"),
    ("12", "pressure", "no unit", "12 bar"),
    ("0.05", "growth", "as a fraction this is 5 %", "5 %"),
    ("5", "growth", "no unit", "5 %"),
    ("", "length", "nothing written", "2.0 mm"),
    ("   ", "length", "nothing written", "2.0 mm"),
    ("mm", "length", "not a number", "2.0 mm"),
    ("two mm", "length", "not a number", "2.0 mm"),
    ("٢ mm", "length", "not a number", "2.0 mm"),
    ("2 bar", "length", "bar is a pressure, not a length", "2 mm"),
    ("5 lb", "force", "lb is a mass, not a force", "5 N"),
    ("20 mPa", "pressure", "mPa is a millipascal", "20 MPa"),
    ("20 MPA", "pressure", "unknown unit 'MPA'", "20 MPa"),
    ("20 bara", "pressure", "absolute", "20 bar"),
    ("20 psia", "pressure", "absolute", "20 psi"),
    ("2 furlong", "length", "unknown unit 'furlong'", "2 mm"),
    ("20 C", "temperature", "C is a charge", "20 °C"),
    ("68 F", "temperature", "F is a capacitance", "68 °F"),
    ("2 gal", "volume", "not the same everywhere", "2 US gal"),
    ("nan mm", "length", "not a finite number", "2.0 mm"),
    ("-inf bar", "pressure", "not a finite number", "12.0 bar"),
    ("1e999 mm", "length", "absurdly large", "2.0 mm"),
    ("1e200 mm", "length", "absurdly large", "2.0 mm"),
    ("1e-200 mm", "length", "absurdly small", "2.0 mm"),
    ("-300 °C", "temperature", "absolute zero", "20 °C"),
    ("−2 mm", "length", "a dash for a minus sign", "-2 mm"),
    ("2 mm" + " " * 100 + "x", "length", "characters", "2.0 mm"),
]


@pytest.mark.parametrize(("text", "dimension", "value"), TAKEN)
def test_a_number_with_a_known_unit_is_read_as_si(text, dimension, value):
    # 1e-12: two roundings of a double and pint's own factor; 1e-12 absolute for 0 °C
    assert units.read(text, dimension) == pytest.approx(value, rel=1e-12, abs=1e-12)


@pytest.mark.parametrize(("text", "dimension", "problem", "cure"), REFUSED)
def test_a_doubtful_text_is_refused_with_a_text_that_can_be_read(
    text, dimension, problem, cure
):
    with pytest.raises(InputError, match=r"try: ") as caught:
        units.read(text, dimension)
    assert problem in caught.value.problem
    assert caught.value.fix == f'"{cure}"'
    assert np.isfinite(units.read(cure, dimension))


def test_place_and_key_stand_in_the_message():
    with pytest.raises(InputError) as caught:
        units.read("2,0 mm", "length", 'tank.toml:7: [[course]] "lower", wall', "wall")
    assert str(caught.value) == (
        'tank.toml:7: [[course]] "lower", wall = "2,0 mm": decimal comma\n'
        '  try: wall = "2.0 mm"'
    )


def test_what_cannot_be_printed_is_not_sent_to_the_terminal():
    with pytest.raises(InputError) as caught:
        units.read("2 \x1b[31mmm", "length")
    assert "\x1b" not in str(caught.value)


@given(st.text(max_size=100), st.sampled_from(sorted(DIMENSIONS)))
def test_any_text_is_a_number_or_refused_with_a_text_that_can_be_read(text, dimension):
    try:
        assert np.isfinite(units.read(text, dimension))
    except StretchformError as error:
        assert isinstance(error, InputError)
        assert np.isfinite(units.read(json.loads(error.fix), dimension))


@given(
    st.floats(1e-3, 1e3),
    st.sampled_from([(d, u) for d, kind in DIMENSIONS.items() for u in kind.spellings]),
)
def test_every_spelling_is_read_and_converted_back(number, pair):
    dimension, unit = pair
    text = f"{number!r} {unit}"
    kind = DIMENSIONS[dimension]
    try:
        value = units.read(text, dimension)
    except InputError as error:
        assert "absurdly" in error.problem
        return
    shared = [d for d in DIMENSIONS if unit in DIMENSIONS[d].spellings]
    if dimension == ("mass" if "mass" in shared else shared[0]):
        # 1e-12 of the number; a temperature loses digits on its offset of 460 degrees
        assert units.convert(value, unit) == pytest.approx(number, rel=1e-12, abs=1e-9)
    assert kind.lowest <= abs(value) <= kind.highest or dimension == "temperature"


@pytest.mark.parametrize(
    ("arguments", "text"),
    [
        ((1.23e6, "bar", 1), "12.3 bar"),
        ((1.23e6, "bar", 1, "psi"), "12.3 bar (178 psi)"),
        ((2.0e-3, "mm", 2, "in"), "2.00 mm (0.0787 in)"),
        ((0.05, "%", 2), "5.00 %"),
        ((20.0, "°C", 1, "°F"), "20.0 °C (68.0 °F)"),
        ((-1e-12, "mm", 1), "0.0 mm"),
        ((float("nan"), "bar", 1), "–"),
        ((float("inf"), "bar", 1), "–"),
    ],
)
def test_a_quantity_is_written_with_its_unit_and_a_second_one(arguments, text):
    assert units.write(*arguments) == text


def test_arrays_are_converted_element_by_element():
    # 1e-15: one division of doubles
    assert units.convert(np.array([1e5, 2e5]), "bar") == pytest.approx([1.0, 2.0], rel=1e-15)


def test_a_unit_nobody_knows_cannot_be_written():
    with pytest.raises(ValueError, match="furlong"):
        units.write(1.0, "furlong")


def test_the_unit_registry_is_not_loaded_before_it_is_needed():
    code = "import sys, stretchform.units; assert 'pint' not in sys.modules"
    subprocess.run([sys.executable, "-c", code], check=True)
