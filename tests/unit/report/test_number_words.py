"""Numbers for people: digits, units, and the second unit in brackets."""

import pytest

from stretchform.report import words_numbers as numbers


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        (numbers.pressure(2.0134e6), "2.013 MPa (20.13 bar)"),
        (numbers.pressure(2.0134e6, inches=True), "2.013 MPa (292.0 psi)"),
        (numbers.pressure(0.0871e6), "0.087 MPa (0.87 bar)"),
        (numbers.pressure(float("nan")), "–"),
        (numbers.stress(412.4e6), "412 MPa"),
        (numbers.circumference(2.09338), "2093.4 mm"),
        (numbers.circumference(1.7374, inches=True), "1737.4 mm (68.402 in)"),
        (numbers.size(1.953e-3), "1.95 mm"),
        (numbers.energy(1927.0), "1.93 kJ"),
        (numbers.energy(1.034e6), "1.03 MJ"),
        (numbers.energy(507.2), "507 J"),
        (numbers.force(565.4e3), "565 kN"),
        (numbers.force(276.2), "276 N"),
        (numbers.temperature(18.0, inches=True), "18 °C (64 °F)"),
        (numbers.percent(0.05), "5.00 %"),
        (numbers.percent(0.801, 0), "80 %"),
        (numbers.chance(0.001), "< 1 %"),
        (numbers.chance(0.354), "35 %"),
        (numbers.chance(0.999), "> 99 %"),
        (numbers.points(0.0028), "0.28 points"),
        (numbers.number(0.0319), "0.0319"),
        (numbers.number(0.95), "0.950"),
        (numbers.number(430.0), "430"),
        (numbers.milligrams(50e-6), "50 mg/l"),
        (numbers.bare("2.013 MPa (20.13 bar)"), "2.013 (20.13)"),
        (numbers.bare("412 MPa"), "412"),
        (numbers.stacked("1737.4 mm (68.402 in)"), "1737.4\n(68.402)"),
    ],
)
def test_a_quantity_is_written(written, expected):
    assert written == expected
