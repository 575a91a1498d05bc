"""The step from the outside circumference to the mid-wall material point and back."""

import numpy as np
import pytest
from laws import LAWS

from stretchform.forming import criterion, membrane
from stretchform.forming.criterion import Shape
from stretchform.forming.surface import mid_from_outside, outside_from_mid

GROWTHS = np.array([0.0, 1e-4, 0.02, 0.05, 0.30])


@pytest.mark.parametrize("shape", list(Shape))
@pytest.mark.parametrize("axial", [-0.03, 0.0, 0.02])
@pytest.mark.parametrize("ratio", [3.0, 10.0, 200.0])
def test_outside_growth_leads_to_the_middle_and_back(shape, axial, ratio):
    middle = mid_from_outside(shape, ratio, 1.0, GROWTHS, axial)
    back = outside_from_mid(shape, ratio, 1.0, middle, axial)
    np.testing.assert_allclose(back, GROWTHS, rtol=1e-12, atol=1e-15)  # rounding of 1 + growth


def test_row_C8_a_tape_sees_less_than_the_material_at_mid_wall():
    # inner radius 150, wall 3; five digits printed, so half of the last one
    outside = outside_from_mid(Shape.CLOSED, 151.5, 3.0, 0.05)
    assert 100.0 * outside == pytest.approx(4.9047, abs=0.00006)


def test_five_per_cent_in_the_middle_of_a_usual_wall_is_4_971_outside():
    outside = outside_from_mid(Shape.CLOSED, 500.0, 3.0, 0.05)
    assert 100.0 * outside == pytest.approx(4.971, abs=0.0006)  # computed, four digits given


def test_the_change_of_the_mean_of_both_radii_is_another_thing_than_the_material_point():
    # the likely mistake: (a + b)/2 grown by 5 % is 4.904 % outside, not 4.9047 %
    grown_sum = 1.05 * (150.0 + 153.0)
    grown_wall = (153.0**2 - 150.0**2) / grown_sum  # area kept: b² − a² = (b + a)(b − a)
    b = 0.5 * (grown_sum + grown_wall)
    of_mean = 100.0 * (b / 153.0 - 1.0)
    assert of_mean == pytest.approx(4.904, abs=0.0006)
    material = 100.0 * outside_from_mid(Shape.CLOSED, 151.5, 3.0, 0.05)
    assert material - of_mean > 0.0002  # the two differ by more than the tolerance above


@pytest.mark.parametrize("shape", [Shape.CLOSED, Shape.SPHERE])
def test_the_volume_of_the_outer_half_of_the_wall_is_kept(shape):
    power = 3 if shape is Shape.SPHERE else 2
    outside = outside_from_mid(shape, 20.0, 1.0, 0.08)
    before = 20.5**power - 20.0**power
    after = (20.5 * (1.0 + outside)) ** power - (20.0 * 1.08) ** power
    assert after == pytest.approx(before, rel=1e-12)


def test_an_open_cylinder_that_shortens_keeps_a_thicker_outer_half():
    # volume per length before = volume per grown length × exp(axial strain)
    axial = -0.5 * np.log(1.05)
    outside = outside_from_mid(Shape.OPEN, 20.0, 1.0, 0.05, axial)
    after = ((20.5 * (1.0 + outside)) ** 2 - (20.0 * 1.05) ** 2) * np.exp(axial)
    assert after == pytest.approx(20.5**2 - 20.0**2, rel=1e-12)


def test_a_thin_wall_grows_alike_inside_and_outside():
    outside = outside_from_mid(Shape.CLOSED, 1.0, 1e-6, 0.05)
    assert outside == pytest.approx(0.05, rel=1e-5)  # differs by wall/(2 radius)·(1 − 1/1.05²)


def test_wall_released_agrees_with_the_outer_half_of_a_thin_wall():
    """The membrane's wall and the material map are two routes to the same thickness."""
    radius, wall, middle = 0.5, 0.001, 0.05
    outside = outside_from_mid(Shape.CLOSED, radius, wall, middle)
    half = (radius + wall / 2.0) * (1.0 + outside) - radius * (1.0 + middle)
    state = criterion.mises(Shape.CLOSED)
    strain = membrane.strain_of_released(middle, state)
    grown = membrane.grown(radius, wall, strain, LAWS["S"], state, membrane.RIGID)
    # the outer half thins a little more than the mean: wall/(4 radius) = 5e-4 at most
    assert 2.0 * half == pytest.approx(grown.wall_released, rel=5e-4)
