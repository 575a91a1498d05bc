"""Against NIST cryogenic properties of 304 and 304L: Young's modulus and contraction.

Seen: the coefficients, as quoted in a public file. Derived: the numbers, computed from them by
another program. Not derived: the length change must vanish at 293 K, the two ranges of the
modulus must meet at 57 K, and two separate fits, 304 and 304L, must agree; each would fail for
one wrong digit or sign.
"""

import numpy as np
import pytest

from stretchform.errors import NoSolution
from stretchform.steel.properties import contraction_304, contraction_304l, modulus_304

GPA = 1e9


@pytest.mark.parametrize(
    ("kelvin", "expected"), [(293.0, 199.5336), (200.0, 207.15), (77.0, 214.4081)]
)
def test_modulus_catches_a_wrong_range_or_celsius(kelvin, expected):
    ours = modulus_304(kelvin) / GPA
    digit = 1e-4 if kelvin != 200.0 else 1e-2
    assert ours == pytest.approx(expected, abs=0.6 * digit)  # half a unit of the last digit


def test_both_ranges_of_the_modulus_meet_at_57_kelvin():
    below, above = modulus_304(np.array([57.0 - 1e-9, 57.0]))
    assert below == pytest.approx(above, rel=3e-4)  # two fits of one curve, 0.04 of 214 GPa


@pytest.mark.parametrize(
    ("kelvin", "per_cent"),
    [(77.0, -0.27989), (90.0, -0.26994), (111.7, -0.24994), (200.0, -0.13911)],
)
def test_contraction_of_304_catches_a_wrong_reference_temperature(kelvin, per_cent):
    ours = 100 * contraction_304(kelvin)
    assert ours == pytest.approx(per_cent, abs=6e-6)  # half a unit of the last digit


@pytest.mark.parametrize(("kelvin", "per_cent"), [(77.0, -0.27989), (200.0, -0.1392)])
def test_contraction_of_304l_catches_a_wrong_reference_temperature(kelvin, per_cent):
    ours = 100 * contraction_304l(kelvin)
    digit = 1e-5 if kelvin < 100 else 1e-4
    assert ours == pytest.approx(per_cent, abs=0.6 * digit)  # half a unit of the last digit


@pytest.mark.parametrize("fit", [contraction_304, contraction_304l])
def test_length_is_unchanged_at_293_kelvin(fit):
    assert fit(293.0) == pytest.approx(0.0, abs=1e-5)  # 0.4 % of the change down to 77 K


def test_304_and_304l_contract_alike():
    kelvin = np.linspace(25.0, 290.0, 54)
    difference = contraction_304(kelvin) - contraction_304l(kelvin)
    assert np.max(np.abs(difference)) < 1.0e-5  # the same crystal, 0.3 % of the whole change


@pytest.mark.parametrize(
    ("fit", "kelvin"),
    [
        (modulus_304, 300.0),
        (modulus_304, 4.0),
        (contraction_304, 20.0),
        (contraction_304l, 310.0),
    ],
)
def test_temperatures_outside_the_fit_are_refused(fit, kelvin):
    with pytest.raises(NoSolution, match="the fit holds from"):
        fit(kelvin)
