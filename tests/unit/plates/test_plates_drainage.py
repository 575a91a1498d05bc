"""Air that stays under plates and notches that let it out."""

from math import pi

import numpy as np
import pytest

from stretchform.plates import drainage


def test_film_of_air_is_about_five_millimetres():
    assert drainage.film() == pytest.approx(5.4e-3, abs=0.1e-3)
    assert drainage.film(contact=pi / 2) < drainage.film()


def test_a_notch_is_wider_than_the_film_and_a_narrow_gap_is_not():
    assert drainage.LEAST_NOTCH > drainage.film() > 3e-3


def test_sixteen_plates_keep_sixteen_films():
    assert drainage.air_kept(0.12, 16) == pytest.approx(16 * drainage.air_kept(0.12))
    assert drainage.air_kept(0.12) == pytest.approx(0.12 * drainage.film())


def test_air_between_rings_of_a_lying_tank():
    assert drainage.air_in_segment(0.35, 0.0, 0.1) == pytest.approx(0.1 * pi * 0.35**2 / 2)
    assert drainage.air_in_segment(0.35, 0.35, 0.1) == pytest.approx(0.0, abs=1e-12)
    heights = np.linspace(0.29, 0.35, 100001)
    chords = 2 * np.sqrt(np.maximum(0.35**2 - heights**2, 0.0))
    assert drainage.air_in_segment(0.35, 0.29, 0.1) == pytest.approx(
        0.1 * np.trapezoid(chords, heights),
        rel=1e-5,  # quadrature at the rim
    )


@pytest.mark.parametrize(
    ("attitude", "tilt", "level"),
    [
        ("standing", 0.0, True),
        ("hanging", 0.0, True),
        ("standing", 0.1, False),
        ("lying", 0.0, False),
    ],
)
def test_a_level_plate_keeps_its_film_whatever_its_notches(attitude, tilt, level):
    found = drainage.notches(attitude, 0.12, tilt)
    assert found.level is level
    assert (found.film > 0.0) is level
    assert found.radius >= 10e-3
    assert abs(found.drain_angle - found.vent_angle) == pytest.approx(pi)
