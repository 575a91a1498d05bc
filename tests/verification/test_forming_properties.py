"""What must hold for any wall and steel, whatever the numbers (hypothesis searches for a case).

Growth here is that of the outside circumference, as a tape measures it.
"""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from laws import LAWS

from stretchform.forming import criterion, membrane, surface, thick
from stretchform.forming.criterion import Shape
from stretchform.forming.membrane import Elastic
from stretchform.steel.curve import Scaled

STEEL = Elastic(193e9, 0.29)
shapes = st.sampled_from(list(Shape))
laws = st.sampled_from(["H", "S", "V", "VL", "T", "M2", "M3", "M4"])
radii = st.floats(0.02, 5.0)
slenderness = st.floats(10.0, 1000.0)  # radius over wall, where the thin wall stands alone
growths = st.floats(0.003, 0.15)
scales = st.floats(1e-3, 1e3)
shares = st.floats(0.5, 0.999)
quick = settings(max_examples=60, deadline=None)  # 60 cases of some ms keep the suite short


def needed(shape, radius, wall, growth, curve):
    """Pressure for a released growth of the outside circumference."""
    state = criterion.mises(shape)
    strain_first = membrane.strain_of_released(growth, state)
    middle = surface.mid_from_outside(
        shape, radius, wall, growth, state.axial_strain * strain_first
    )
    strain = membrane.strain_of_released(middle, state)
    return float(membrane.pressure(radius, wall, strain, curve, state, STEEL))


@quick
@given(shapes, laws, radii, slenderness, growths, scales)
def test_all_lengths_times_a_number_leave_the_pressure(shape, law, radius, ratio, growth, k):
    curve, wall = LAWS[law], radius / ratio
    plain = needed(shape, radius, wall, growth, curve)
    scaled = needed(shape, k * radius, k * wall, growth, curve)
    assert scaled == pytest.approx(plain, rel=1e-11)  # rounding of b² − r², times the slope


@quick
@given(shapes, laws, radii, slenderness, growths, shares)
def test_a_thinner_wall_never_needs_more(shape, law, radius, ratio, growth, share):
    curve, wall = LAWS[law], radius / ratio
    outside = radius + wall / 2.0  # the tape's circle stays; the sheet gets thinner inwards
    thinner = share * wall
    plain = needed(shape, radius, wall, growth, curve)
    assert needed(shape, outside - thinner / 2.0, thinner, growth, curve) < plain
    assert needed(shape, radius, thinner, growth, curve) < plain


@quick
@given(shapes, laws, radii, slenderness, growths, shares)
def test_a_weaker_steel_never_needs_more(shape, law, radius, ratio, growth, share):
    wall = radius / ratio
    plain = needed(shape, radius, wall, growth, LAWS[law])
    assert needed(shape, radius, wall, growth, Scaled(LAWS[law], share)) < plain


@quick
@given(shapes, laws, slenderness, shares)
def test_a_thinner_or_weaker_wall_never_has_a_higher_maximum(shape, law, ratio, share):
    state, wall = criterion.mises(shape), 0.5 / ratio
    plain = float(membrane.maximum(0.5, wall, LAWS[law], state, STEEL).pressure)
    thinner = membrane.maximum(0.5, share * wall, LAWS[law], state, STEEL)
    weaker = membrane.maximum(0.5, wall, Scaled(LAWS[law], share), state, STEEL)
    assert float(thinner.pressure) < plain
    assert float(weaker.pressure) < plain


@quick
@given(shapes, laws, slenderness, st.floats(0.05, 0.95), shares)
def test_at_one_pressure_a_thinner_or_weaker_wall_grows_more(shape, law, ratio, part, share):
    state, wall = criterion.mises(shape), 0.5 / ratio
    curve = LAWS[law]
    first = float(membrane.pressure(0.5, wall, 0.0, curve, state, STEEL))
    top = float(membrane.maximum(0.5, wall, curve, state, STEEL).pressure)
    pressure = first + part * (top - first)
    plain = membrane.strain_at_pressure(pressure, 0.5, wall, curve, state, STEEL)
    for other_wall, other in ((share * wall, curve), (wall, Scaled(curve, share))):
        strain = membrane.strain_at_pressure(pressure, 0.5, other_wall, other, state, STEEL)
        assert np.isnan(strain) or strain > plain  # NaN: beyond its own maximum


@quick
@given(shapes, laws, slenderness, st.floats(0.05, 0.95), scales)
def test_all_lengths_times_a_number_leave_the_growth(shape, law, ratio, part, k):
    state, wall, curve = criterion.mises(shape), 0.5 / ratio, LAWS[law]
    top = float(membrane.maximum(0.5, wall, curve, state, STEEL).pressure)
    pressure = part * top
    plain = membrane.strain_at_pressure(pressure, 0.5, wall, curve, state, STEEL)
    scaled = membrane.strain_at_pressure(pressure, k * 0.5, k * wall, curve, state, STEEL)
    # below 0.95 of the maximum the slope of ln p is above 0.1: rounding grows 1e3 times
    assert scaled == pytest.approx(plain, rel=1e-11, abs=1e-14)


@quick
@given(
    st.sampled_from([Shape.CLOSED, Shape.SPHERE]), laws, st.floats(1.0, 9.9), growths, scales
)
def test_the_thick_wall_keeps_its_pressure_too(shape, law, ratio, growth, k):
    curve = LAWS[law]
    plain = float(thick.pressure(shape, ratio, 1.0, growth, curve))
    scaled = float(thick.pressure(shape, k * ratio, k, growth, curve))
    assert scaled == pytest.approx(plain, rel=1e-11)  # rounding of r^k − shift
    weaker = float(thick.pressure(shape, ratio, 1.0, growth, Scaled(curve, 0.9)))
    assert weaker == pytest.approx(0.9 * plain, rel=1e-12)  # the integral is linear in s


@quick
@given(laws, slenderness, growths, st.floats(1.0, 1.17), st.floats(1e-3, 0.1))
def test_a_higher_criterion_factor_never_needs_less(law, ratio, growth, factor, more):
    low, high = (criterion.general(Shape.CLOSED, c) for c in (factor, factor + more))
    below, above = (
        float(
            membrane.pressure(
                1.0, 1.0 / ratio, np.log1p(growth) / s.hoop_strain, LAWS[law], s, STEEL
            )
        )
        for s in (low, high)
    )
    assert above > below
