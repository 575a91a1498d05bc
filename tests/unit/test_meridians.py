"""The meridian handed to the whole-tank solver; the tank is invented."""

import planning_jobs as jobs
import pytest

from stretchform.planning import size
from stretchform.planning.meridians import meridian_of
from stretchform.planning.tank import HeadShape
from stretchform.shape import meridian

KINDS = [HeadShape.HEMISPHERE, HeadShape.ELLIPSOID, HeadShape.TORISPHERE]


@pytest.mark.parametrize("kind", KINDS)
def test_length_and_volume_are_those_of_the_tank(kind):
    tank = jobs.tank(bottom=jobs.head(kind), top=jobs.head(kind))
    made = meridian_of(tank)
    assert made.tangent_heights == pytest.approx((0.0, float(tank.length)), rel=1e-12)
    # mid-wall against inside volume: a shell of half a wall, 0.3 % of the radius, three ways
    assert meridian.area_and_volume(made)[1] == pytest.approx(size.volume(tank), rel=0.012)


def test_inside_radii_of_a_torisphere_become_mid_wall():
    head = jobs.head(HeadShape.TORISPHERE, crown_radius=0.6, knuckle_radius=0.08)
    made = meridian_of(jobs.tank(bottom=head, top=head))
    assert made.lower.crown_radius == pytest.approx(0.6 + 0.5 * 2.5e-3)
    assert made.lower.knuckle_radius == pytest.approx(0.08 + 0.5 * 2.5e-3)


def test_a_tied_end_has_no_dish():
    tank = jobs.tank(bottom=jobs.head(HeadShape.TIED), top=jobs.head(HeadShape.TIED))
    assert meridian_of(tank).lower.form is meridian.Form.TIED
