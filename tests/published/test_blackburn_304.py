"""Against Blackburn's tensile equations for 304: stresses in psi, temperature in kelvin.

Seen: the equations, in an open code. Derived: the numbers at 20 degC, computed from them by
another program and rounded to 0.1 MPa.
"""

import numpy as np
import pytest

from stretchform.errors import NoSolution
from stretchform.steel.properties import blackburn_304

MPA = 1e6


@pytest.mark.parametrize(
    ("strain", "expected"), [(0.002, 195.1), (0.01, 238.0), (0.02, 263.4), (0.05, 305.6)]
)
def test_stress_at_20_degrees_catches_celsius_taken_for_kelvin(strain, expected):
    ours = blackburn_304(293.15).stress(strain) / MPA
    assert ours == pytest.approx(expected, abs=0.06)  # half a unit of the last digit


def test_stress_falls_by_six_hundredths_of_a_per_cent_for_a_kelvin():
    """Catches a temperature coefficient with the wrong sign, or fahrenheit."""
    cold, warm = (blackburn_304(celsius + 273.15).stress(0.05) for celsius in (5.0, 40.0))
    ours = 100 * (warm / cold - 1) / 35.0
    assert ours == pytest.approx(-0.06, abs=0.005)  # half a unit of the only digit


def test_celsius_is_refused_as_out_of_range():
    with pytest.raises(NoSolution, match="273 to 1089 K"):
        blackburn_304(20.0)


def test_arrays_of_temperature_broadcast():
    temperatures = np.array([293.15, 313.15])
    both = np.asarray(blackburn_304(temperatures).stress(0.02))
    single = [float(blackburn_304(t).stress(0.02)) for t in temperatures]
    assert both == pytest.approx(single, rel=1e-14)  # the same arithmetic
