"""Range and shape of the water properties."""

import numpy as np
import pytest

from stretchform.errors import InputError
from stretchform.water import properties


@pytest.mark.parametrize(
    ("temperature", "pressure"),
    [(0.9, 0.0), (45.1, 0.0), (20.0, -1.0), (20.0, 20.1e6), (np.array([20.0, 50.0]), 0.0)],
)
def test_water_outside_the_fit_is_refused(temperature, pressure):
    with pytest.raises(InputError):
        properties.density(temperature, pressure)


@pytest.mark.parametrize(("temperature", "pressure"), [(1.0, 0.0), (45.0, 20e6)])
def test_both_ends_of_the_range_are_accepted(temperature, pressure):
    properties.check_range(temperature, pressure)
    assert 980.0 < properties.density(temperature, pressure) < 1020.0


def test_a_draw_without_an_answer_stays_undefined():
    found = properties.density(np.array([20.0, np.nan]), 1e6)
    assert np.isfinite(found[0]) and np.isnan(found[1])


def test_temperature_and_pressure_broadcast():
    found = properties.density(np.array([[5.0], [20.0]]), np.array([0.0, 1e6, 2e6]))
    assert found.shape == (2, 3)
    assert found[1, 2] == properties.density(20.0, 2e6)
