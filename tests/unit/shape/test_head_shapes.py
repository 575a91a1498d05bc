"""Centres, flanges, limits and refusals of the heads."""

import numpy as np
import pytest

from stretchform.errors import InputError
from stretchform.shape import heads

R = 0.35


def revolved(x, z):
    """Volume, area and centres of a fine polygon turned about its axis."""
    dz, arc = np.diff(z), np.hypot(np.diff(x), np.diff(z))
    middle, height = (x[1:] + x[:-1]) / 2, (z[1:] + z[:-1]) / 2
    slices, bands = np.pi * middle**2 * dz, 2 * np.pi * middle * arc
    return (
        slices.sum(),
        bands.sum(),
        (slices @ height) / slices.sum(),
        (bands @ height) / bands.sum(),
    )


def outline(dish, crown, knuckle):
    ring, joint = R - knuckle, np.arcsin((R - knuckle) / (crown - knuckle))
    turn = np.linspace(np.pi / 2, joint, 20_001)
    cap = np.linspace(joint, 0.0, 20_001)
    x = np.concatenate([ring + knuckle * np.sin(turn), crown * np.sin(cap)])
    top = crown * np.cos(cap) - (crown - dish.depth)
    return x, np.concatenate([knuckle * np.cos(turn), top])


@pytest.mark.parametrize(("crown", "knuckle"), [(0.7, 0.07), (0.56, 0.1078), (0.4, 0.3)])
def test_torisphere_equals_its_outline_turned_about_the_axis(crown, knuckle):
    dish = heads.torisphere(R, crown, knuckle)
    ours = (dish.volume, dish.area, dish.volume_centre, dish.area_centre)
    # second-order error of 20,000 straight pieces
    assert ours == pytest.approx(revolved(*outline(dish, crown, knuckle)), rel=1e-7)


@pytest.mark.parametrize("depth", [R / 2, 0.9 * R])
def test_ellipsoid_equals_its_outline_turned_about_the_axis(depth):
    angle = np.linspace(np.pi / 2, 0.0, 40_001)
    dish = heads.ellipsoid(R, depth)
    ours = (dish.volume, dish.area, dish.volume_centre, dish.area_centre)
    expected = revolved(R * np.sin(angle), depth * np.cos(angle))
    # second-order error of 40,000 straight pieces
    assert ours == pytest.approx(expected, rel=1e-7)


def test_centre_of_a_two_to_one_head_as_used_in_the_shop():
    # computed independently: 98.62 mm above the tangent line of a 700 mm head
    assert heads.ellipsoid(0.35, 0.175).area_centre * 1e3 == pytest.approx(98.62, abs=0.006)


def test_a_torisphere_of_one_radius_is_a_hemisphere():
    round_head, sphere = heads.torisphere(R, R, R), heads.hemisphere(R)
    for name in ("depth", "volume", "area", "volume_centre", "area_centre"):
        # rounding of closed forms
        assert getattr(round_head, name) == pytest.approx(getattr(sphere, name), rel=1e-12)


def test_a_flat_end_on_a_flange_is_a_short_cylinder():
    dish = heads.with_flange(heads.flat(R), 0.1)
    assert dish.volume == pytest.approx(np.pi * R**2 * 0.1, rel=1e-14)  # rounding
    assert dish.area == pytest.approx(np.pi * R**2 + 2 * np.pi * R * 0.1, rel=1e-14)
    assert dish.volume_centre == pytest.approx(0.05, rel=1e-14)  # rounding
    assert dish.depth == 0.1


def test_a_flange_moves_the_centre_of_a_hemisphere_by_its_moments():
    dish = heads.with_flange(heads.hemisphere(R), R)
    assert dish.area_centre == pytest.approx(R, rel=1e-14)  # halves weigh the same: R/2, 3R/2


def test_a_flat_end_without_a_flange_encloses_nothing():
    dish = heads.with_flange(heads.flat(R), 0.0)
    assert dish.volume == 0.0
    assert dish.area == pytest.approx(np.pi * R**2, rel=1e-14)  # rounding


def test_arrays_give_the_same_as_one_by_one():
    radii = np.array([0.25, 0.35])
    many = heads.torisphere(radii, 2 * radii, 0.2 * radii)
    one = heads.torisphere(0.35, 0.7, 0.07)
    assert many.volume[1] == pytest.approx(one.volume, rel=1e-14)  # rounding
    assert heads.hemisphere(radii).area[1] == heads.hemisphere(0.35).area


@pytest.mark.parametrize(
    "make",
    [
        lambda: heads.hemisphere(0.0),
        lambda: heads.hemisphere(float("nan")),
        lambda: heads.ellipsoid(0.35, 0.36),
        lambda: heads.ellipsoid(0.35, -0.1),
        lambda: heads.torisphere(0.35, 0.3, 0.07),
        lambda: heads.torisphere(0.35, 0.7, 0.36),
        lambda: heads.torisphere(0.35, 0.7, 0.0),
        lambda: heads.flat(-0.1),
        lambda: heads.with_flange(heads.flat(0.35), -0.01),
    ],
)
def test_impossible_heads_are_refused(make):
    with pytest.raises(InputError):
        make()
