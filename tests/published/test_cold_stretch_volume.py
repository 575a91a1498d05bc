"""Against cold-stretching-slides: diameter up to 7 per cent, volume 14 per cent.

Source: cold-stretching-slides, both figures read, whole numbers, for practice by the American
code. Frame: a long vessel, so heads are left out and its length is taken as kept.
Counts: our closed cylinder at 7 % must give 14 % with the length it predicts, not assumes.
Would fail for: a sphere's cube (22.5 %), the open cylinder's shortening (10.7 %), or twice the
true strain (13.5 %, which would just round to 14 and is told apart by the second test).
"""

import numpy as np
import pytest
from laws import LAWS

from stretchform.forming import criterion, membrane
from stretchform.forming.criterion import Shape
from stretchform.forming.membrane import Elastic

STEEL = Elastic(195e9, 0.29)


def volume_growth(shape, growth, released=True):
    state = criterion.mises(shape)
    strain = membrane.strain_of_released(growth, state)
    grown = membrane.grown(0.6, 0.003, strain, LAWS["S"], state, STEEL)
    if released:
        return (1.0 + growth) ** 2 * np.exp(state.axial_strain * strain) - 1.0
    return np.exp(2.0 * grown.hoop_strain + grown.axial_strain) - 1.0


def test_seven_per_cent_on_the_diameter_is_fourteen_in_volume():
    ours = 100.0 * volume_growth(Shape.CLOSED, 0.07)
    assert ours == pytest.approx(14.0, abs=0.5)  # a whole number


def test_an_open_cylinder_would_miss_the_stated_volume():
    assert abs(100.0 * volume_growth(Shape.OPEN, 0.07) - 14.0) > 3.0


def test_the_exact_square_is_met_by_the_computed_length():
    assert volume_growth(Shape.CLOSED, 0.07) == pytest.approx(1.07**2 - 1.0, rel=1e-13)


def test_under_pressure_the_springback_adds_half_a_point_of_volume():
    more = volume_growth(Shape.CLOSED, 0.07, released=False) - volume_growth(Shape.CLOSED, 0.07)
    # twice a springback of 0.18 to 0.27 % and a length of some 0.05 %, times 1.14
    assert 0.004 < more < 0.0075
