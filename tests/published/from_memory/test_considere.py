"""Considère's maximum of load for laws other than a power law: NOT counted as published.

Source: considere-1885, named from memory; the criterion s' = s was derived again. The counted
check of it stands in test_callister_304.py, where the pair was read.
Would fail for: a maximum sought in true stress, a slope per engineering strain, and sqrt(3) or
3/2 (the tank's criteria) taken for the one of the tensile test.
"""

import numpy as np
import pytest
from laws import LAWS, MPA

from stretchform.forming import criterion, membrane
from stretchform.forming.criterion import Shape
from stretchform.forming.membrane import RIGID
from stretchform.steel.curve import Hollomon, Swift, Voce
from stretchform.steel.properties import tensile_strength, uniform_strain

CLOSED_FORMS = [
    (Hollomon(1275.0 * MPA, 0.45), 0.45),  # n
    (Swift(1320.0 * MPA, 0.02, 0.40), 0.38),  # n − x0
    (Swift(1400.0 * MPA, 0.04, 0.55), 0.51),
    # 1000 − 750 exp(−4x): 3000 exp(−4x) = 1000 − 750 exp(−4x), so exp(4x) = 3.75
    (Voce(250.0 * MPA, 750.0 * MPA, 4.0), np.log(3.75) / 4.0),
]


@pytest.mark.parametrize(("curve", "strain"), CLOSED_FORMS)
def test_uniform_strain_has_its_closed_form(curve, strain):
    assert uniform_strain(curve) == pytest.approx(strain, rel=1e-9)  # bisection to rounding


@pytest.mark.parametrize(("curve", "strain"), CLOSED_FORMS)
def test_tensile_strength_is_the_highest_engineering_stress(curve, strain):
    dense = np.linspace(0.5, 1.5, 20_001) * strain
    highest = np.max(curve.stress(dense) * np.exp(-dense))
    # the dense points miss the maximum by (strain/4e4)² at most
    assert tensile_strength(curve) == pytest.approx(highest, rel=1e-8)


def test_tensile_strength_of_the_saturating_law_is_the_computed_one():
    ours = tensile_strength(LAWS["M4"]) / MPA
    assert ours == pytest.approx(574.887, abs=6e-4)  # printed to 0.001


@pytest.mark.parametrize(
    ("shape", "critical"),
    [(Shape.CLOSED, np.sqrt(3.0)), (Shape.SPHERE, 1.5), (Shape.OPEN, 1.5)],
)
@pytest.mark.parametrize("law", ["M2", "M3", "M4"])
def test_tanks_reach_their_maximum_earlier_than_the_tensile_test(law, shape, critical):
    curve = LAWS[law]
    top = membrane.maximum(0.6, 0.003, curve, criterion.mises(shape), RIGID)
    strain = float(top.strain)
    # slope of ln s at the maximum; bisection leaves rounding of the strain times s''/s'
    assert curve.slope(strain) / curve.stress(strain) == pytest.approx(critical, rel=1e-10)
    assert strain < uniform_strain(curve)
