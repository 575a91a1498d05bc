"""Slots: which rule governs, and the balance behind the ligament."""

import pytest

from stretchform.plates import slots

MM = 1e-3


@pytest.mark.parametrize(
    ("thickness", "radius", "width"),
    [(5 * MM, 0.2, 5 * MM), (1 * MM, 0.1, 2 * MM), (1.5 * MM, 0.5, 3 * MM)],
)
def test_slot_width_is_governed_by_plate_floor_or_thermal_return(thickness, radius, width):
    assert slots.width(thickness, radius) == pytest.approx(width, rel=1e-12)


def test_end_radius_is_half_the_depth_but_three_millimetres_at_least():
    assert slots.end_radius(10 * MM) == pytest.approx(5 * MM)
    assert slots.end_radius(5 * MM) == pytest.approx(3 * MM)


def test_sharp_slot_end_raises_the_strain_by_half():
    assert slots.sharpened(0.1, 10 * MM, 2 * MM) == pytest.approx(0.15)
    assert slots.sharpened(0.1, 10 * MM, 5 * MM) == pytest.approx(0.10)


def test_lengths_of_slots():
    assert slots.length_single(95 * MM, 30 * MM) == pytest.approx(125 * MM)
    assert slots.length_bridge(95 * MM, 30 * MM) == pytest.approx(220 * MM)
    assert slots.length_sliding(8 * MM, 20 * MM, 0.5 * MM) == pytest.approx(31 * MM)


def test_overlap_and_margin():
    assert slots.overlap(1.5 * MM) == pytest.approx(5 * MM)
    assert slots.overlap(4 * MM) == pytest.approx(8 * MM)
    assert slots.margin(10 * MM, 5 * MM) == pytest.approx(20 * MM)
    assert slots.margin(4 * MM, 3 * MM) == pytest.approx(9 * MM)


def test_ligament_of_a_single_arm_carries_its_moment():
    depth = slots.ligament_single(18.0, 6 * MM, 1.5 * MM, 222e6)
    assert 6 * 18.0 / (1.5 * MM * depth**2) == pytest.approx(222e6)
    assert depth == pytest.approx(18 * MM, abs=0.1 * MM)  # known to a millimetre


def test_ligament_of_a_bridge_balances_eccentric_tension():
    tension, depth, gap, thickness, proof = 4110.0, 10 * MM, 3 * MM, 1.5 * MM, 230e6
    c = float(slots.ligament_bridge(tension, depth, gap, thickness, proof))
    if c > 6 * depth:
        arm = c / 2 + gap + depth / 2
        stress = 6 * tension * arm / (thickness * c**2) + tension / (thickness * c)
        assert stress == pytest.approx(proof)
    assert c >= 6 * depth


def test_soft_plate_needs_more_ligament_than_the_floor():
    c = float(slots.ligament_bridge(4110.0, 6 * MM, 3 * MM, 1.5 * MM, 180e6))
    arm = c / 2 + 6 * MM
    assert c > 36 * MM
    stress = 6 * 4110.0 * arm / (1.5 * MM * c**2) + 4110.0 / (1.5 * MM * c)
    assert stress == pytest.approx(180e6)
