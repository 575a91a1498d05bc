"""Rows C19 and C20: what a thinner or weaker course does at the pressure of its neighbour.

Kind: computed on 25 Nov 2026 with independent code from formulas that handbooks hold (known
from memory); they verify our equations. Steels M1 and M2 stand in laws.py; mid-wall radius
600 mm, wall 3 mm, closed ends, von Mises, no elasticity, growth of the mid-wall circle.
"""

import pytest
from laws import LAWS, MM

from stretchform.forming import criterion, membrane
from stretchform.forming.criterion import Shape
from stretchform.forming.membrane import RIGID
from stretchform.steel.curve import Scaled

RADIUS, WALL = 600.0 * MM, 3.0 * MM
CLOSED = criterion.mises(Shape.CLOSED)
PRINTED = 5e-6 + 1e-7  # printed to 0.001 %, and the solver's own tolerance


def growth_beside(law, wall=1.0, strength=1.0):
    """Growth of a changed course at the pressure that grows its neighbour by 5 %."""
    strain = membrane.strain_of_released(0.05, CLOSED)
    at = membrane.pressure(RADIUS, WALL, strain, LAWS[law], CLOSED, RIGID)
    curve = Scaled(LAWS[law], strength, 1.0)
    top = membrane.maximum(RADIUS, wall * WALL, curve, CLOSED, RIGID)
    found = membrane.strain_at_pressure(at, RADIUS, wall * WALL, curve, CLOSED, RIGID, top)
    grown = membrane.grown(RADIUS, wall * WALL, found, curve, CLOSED, RIGID)
    return float(grown.growth_released)


@pytest.mark.parametrize(("law", "growth"), [("M1", 0.05149), ("M2", 0.05377)])
def test_C19_a_course_one_per_cent_thinner(law, growth):
    assert growth_beside(law, wall=0.99) == pytest.approx(growth, abs=PRINTED)


@pytest.mark.parametrize(("law", "growth"), [("M1", 0.05825), ("M2", 0.07317)])
def test_C20_a_course_five_per_cent_weaker(law, growth):
    assert growth_beside(law, strength=0.95) == pytest.approx(growth, abs=PRINTED)
