"""Bands of chloride and temperature, each side of each limit."""

import pytest

from stretchform.water import quality


@pytest.mark.parametrize(
    ("content", "molybdenum", "band"),
    [
        (None, False, "unknown"),
        (50e-6, False, "low"),
        (51e-6, False, "raised"),
        (200e-6, False, "raised"),
        (201e-6, False, "high"),
        (201e-6, True, "raised"),
        (501e-6, True, "high"),
    ],
)
def test_chloride_band(content, molybdenum, band):
    assert quality.chloride(content, molybdenum).value == band


@pytest.mark.parametrize(
    ("temperature", "band"),
    [
        (6.9, "freezing"),
        (7.0, "cool"),
        (9.9, "cool"),
        (10.0, "usual"),
        (35.0, "usual"),
        (35.1, "warm"),
        (40.0, "warm"),
        (40.1, "hot"),
    ],
)
def test_temperature_band(temperature, band):
    assert quality.warmth(temperature).value == band
