"""Against the depth rules of DIN 28011 and DIN 28013 (from memory, not counted as seen).

Rules: 0.1935 Da - 0.455 s and 0.255 Da - 0.635 s, both by the OUTSIDE diameter. The test
would fail for crown and knuckle taken from the inside diameter.
"""

import pytest

from stretchform.shape import heads


@pytest.mark.parametrize(
    ("crown", "knuckle", "of_diameter", "of_wall"),
    [(1.0, 0.1, 0.1935, 0.455), (0.8, 0.154, 0.255, 0.635)],
)
@pytest.mark.parametrize("wall_share", [0.003, 0.01, 0.03])
def test_depth_follows_the_rule(crown, knuckle, of_diameter, of_wall, wall_share):
    outside = 0.7
    dish = heads.torisphere_by_outside(outside, wall_share * outside, crown, knuckle)
    rule = (of_diameter - of_wall * wall_share) * outside
    # the rules round three digits of the diameter and draw one line through a slight curve
    assert dish.depth == pytest.approx(rule, abs=1.0e-3 * outside)


def test_the_inside_definition_would_miss_the_rule():
    outside, wall = 0.7, 0.021
    dish = heads.torisphere_by_inside(outside - 2 * wall, 1.0, 0.1)
    assert abs(dish.depth - (0.1935 * outside - 0.455 * wall)) > 1.0e-3 * outside
