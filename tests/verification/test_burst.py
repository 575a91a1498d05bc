"""Burst theories against rows C9 to C12 and C29 and against our own maximum pressures.

The formulas are known from memory, so nothing here counts as a published check; what is tested
is that two routes meet: a formula on the tensile strength, and our maximum of a power law.
"""

import numpy as np
import pytest
from laws import LAWS, MPA

from stretchform.forming import burst, criterion, membrane
from stretchform.forming.criterion import Shape
from stretchform.forming.membrane import RIGID
from stretchform.steel.curve import Hollomon

PRINTED = 1e-5  # factors are printed to five decimals near one: half of the last, twice over
EXPONENTS = [0.1, 0.2, 0.3, 0.45]
C12 = {
    "mises": [1.09298, 1.03456, 0.97927, 0.90181],
    "tresca": [0.93303, 0.87055, 0.81225, 0.73204],
    "zhu-leis": [1.01272, 0.95197, 0.89486, 0.81556],
    "svensson": [1.06371, 0.98665, 0.91893, 0.82954],
    "sphere": [1.92053, 1.84422, 1.77093, 1.66644],
}


def tensile(curve):
    """Engineering tensile strength of a power law, at a uniform strain of n."""
    n = curve.hardening_exponent
    return curve.strength_coefficient * (n / np.e) ** n


def highest(state, curve, radius=0.6, wall=0.003):
    return float(membrane.maximum(radius, wall, curve, state, RIGID).pressure)


def factor(pressure, curve, radius=0.6, wall=0.003):
    return pressure * radius / (tensile(curve) * wall)


@pytest.mark.parametrize(("place", "exponent"), list(enumerate(EXPONENTS)))
def test_row_C12_burst_factors_of_five_theories(place, exponent):
    curve = Hollomon(1275.0 * MPA, exponent)
    strength = tensile(curve)
    outer = 0.6 * np.exp(0.003 / 0.6)  # so that ln W = wall / radius, as the row has it
    ours = {
        "mises": highest(criterion.mises(Shape.CLOSED), curve),
        "tresca": highest(criterion.tresca(Shape.CLOSED), curve),
        "zhu-leis": burst.zhu_leis(0.6, 0.003, strength, exponent),
        "svensson": burst.svensson(0.6, outer, strength, exponent),
        "sphere": highest(criterion.mises(Shape.SPHERE), curve),
    }
    for theory, pressure in ours.items():
        printed = C12[theory][place]
        assert factor(pressure, curve) == pytest.approx(printed, abs=PRINTED), theory


def test_rows_C9_and_C10_burst_of_the_handbook_steel():
    curve, radius, wall = LAWS["M1"], 0.6, 0.003
    top = membrane.maximum(radius, wall, curve, criterion.mises(Shape.CLOSED), RIGID)
    hoop = float(top.strain) * np.sqrt(3.0) / 2.0
    half = 1e-5  # six digits printed: half of the last is below 1e-5 of each value
    assert tensile(curve) / MPA == pytest.approx(567.575, rel=half)
    assert hoop == pytest.approx(0.225, rel=1e-9)  # n/2 exactly
    assert 100.0 * np.expm1(hoop) == pytest.approx(25.23, abs=0.006)
    assert float(top.pressure) / MPA == pytest.approx(2.55924, rel=half)
    tresca = highest(criterion.tresca(Shape.CLOSED), curve)
    assert tresca / MPA == pytest.approx(2.07745, rel=half)
    mean = burst.zhu_leis(radius, wall, tensile(curve), 0.45)
    assert mean / MPA == pytest.approx(2.31445, rel=half)
    sphere = highest(criterion.mises(Shape.SPHERE), curve)
    assert sphere / MPA == pytest.approx(4.72914, rel=half)
    opened = highest(criterion.mises(Shape.OPEN), curve)
    assert opened / MPA == pytest.approx(2.36457, rel=half)


@pytest.mark.parametrize(
    ("ratio", "equivalent", "hoop"),
    [
        (0.0, 0.66667, 0.66667),
        (0.25, 0.60093, 0.58333),
        (0.5, 0.57735, 0.5),
        (0.75, 0.60093, 0.41667),
        (1.0, 0.66667, 0.33333),
    ],
)
def test_row_C11_critical_strain_by_stress_ratio(ratio, equivalent, hoop):
    scale = 1.0 / np.sqrt(1.0 - ratio + ratio**2)
    state = criterion.State(
        hoop_stress=scale,
        axial_stress=ratio * scale,
        hoop_strain=scale * (1.0 - ratio / 2.0),
        axial_strain=scale * (ratio - 0.5),
        pressure_factor=1.0,
    )
    top = membrane.maximum(0.6, 0.003, LAWS["M1"], state, RIGID)
    strain = float(top.strain)
    assert strain / 0.45 == pytest.approx(equivalent, abs=PRINTED)
    assert state.hoop_strain * strain / 0.45 == pytest.approx(hoop, abs=PRINTED)


@pytest.mark.parametrize("exponent", np.linspace(0.05, 0.5, 10))
def test_average_shear_stress_lies_between_our_tresca_and_our_mises(exponent):
    # a mistake in the mean diameter (D for radius) or in the exponent would leave this band
    curve = Hollomon(1000.0 * MPA, float(exponent))
    low = highest(criterion.tresca(Shape.CLOSED), curve)
    high = highest(criterion.mises(Shape.CLOSED), curve)
    mean = burst.zhu_leis(0.6, 0.003, tensile(curve), exponent)
    assert low < mean < high
    assert 0.45 < (mean - low) / (high - low) < 0.55  # C is the mean; the power bends it a bit


def test_the_general_factor_at_its_mean_gives_the_average_shear_stress_exactly():
    factor_mean = 0.5 * (1.0 + 2.0 / np.sqrt(3.0))
    curve = LAWS["M1"]
    ours = highest(criterion.general(Shape.CLOSED, factor_mean), curve)
    theory = burst.zhu_leis(0.6, 0.003, tensile(curve), 0.45)
    assert ours == pytest.approx(theory, rel=1e-12)  # the same optimum by another route


def test_svensson_lies_three_to_eight_per_cent_below_our_mises_for_thin_walls():
    for exponent in EXPONENTS:
        curve = Hollomon(1275.0 * MPA, exponent)
        theory = burst.svensson(0.5985, 0.6015, tensile(curve), exponent)
        ours = highest(criterion.mises(Shape.CLOSED), curve)
        # 2.6 to 8.1 %: the range of C12 itself
        assert 0.918 < theory / ours < 0.975


def test_row_C29_faupel():
    ours = burst.faupel(1.0, 2.0, 450.0 * MPA, 600.0 * MPA) / MPA
    assert ours == pytest.approx(450.21, rel=2e-5)  # five digits printed


def test_burst_theories_take_arrays():
    exponents = np.array([0.2, 0.3])
    assert burst.zhu_leis(0.6, 0.003, 600.0 * MPA, exponents).shape == (2,)
    assert burst.svensson(0.6, 0.603, 600.0 * MPA, exponents).shape == (2,)
    assert np.shape(burst.faupel(1.0, np.array([1.5, 2.0]), 450.0 * MPA, 600.0 * MPA)) == (2,)
