"""The elastic shell against classical solutions, and perfectly plastic heads at their limit.

Pressures are so small (or Young's modulus so large) that the shape does not change: the
classical formulas are linear.
"""

import numpy as np
import pytest
from shell_cases import one_steel, simple

from stretchform.forming import heads
from stretchform.forming.membrane import Elastic
from stretchform.forming.shell import Fineness, Target, solve
from stretchform.shape.meridian import Course, Form, Head, tank
from stretchform.steel.curve import Swift, Voce

STEEL = Swift(1400e6, 0.04, 0.55)
ELASTIC = Elastic(193e9, 0.3)
RADIUS, WALL = 1.0, 1.0 / 2000.0
DECAY = (3.0 * (1.0 - 0.3**2)) ** 0.25 / np.sqrt(RADIUS * WALL)
PRESSURE = 1e-7 * ELASTIC.youngs_modulus * WALL / RADIUS
MESH = Fineness(smallest=0.05, growth=0.06, tolerance=1e-11)  # tiny loads


def loaded(meridian):
    material = one_steel(meridian, STEEL, elastic=ELASTIC)
    trace = solve(meridian, material, Target(pressure=PRESSURE), [1.0], fineness=MESH)
    assert np.max(trace.along.plastic_strain_largest) == 0.0
    return trace.along


def test_the_joint_of_cylinder_and_hemisphere_bends_as_the_edge_solution_says():
    along = loaded(simple(RADIUS, WALL, 4.0 * RADIUS, "hemisphere"))
    unit = PRESSURE * RADIUS / WALL
    x = np.linspace(0.0, 6.0, 4001)
    # cylinder side: w = 1 - (1/4) exp(-x) cos x, moment p exp(-x) sin x / (8 b^2)
    membrane = 1.0 - 0.25 * np.exp(-x) * np.cos(x)
    bending = 6.0 / (8.0 * DECAY**2 * WALL * RADIUS) * np.exp(-x) * np.sin(x)
    outside = membrane + 0.3 * bending
    assert np.max(along.hoop_stress) / unit == pytest.approx(np.max(membrane), rel=1e-3)
    axial = np.max(np.abs(along.meridian_stress_outside - along.meridian_stress_inside)) / 2.0
    assert axial / unit == pytest.approx(np.max(bending), rel=0.01)  # wall/radius, mesh
    assert np.max(along.hoop_stress_outside) / unit == pytest.approx(np.max(outside), rel=0.01)


def test_a_clamped_edge_bends_as_the_edge_solution_says():
    ends = Head(Form.TIED, WALL)
    along = loaded(tank(ends, (Course("shell", 2.0, RADIUS, WALL),), ends))
    away = 2.0 - along.height
    near = away * DECAY < 1.0
    fibre = (along.meridian_stress_inside - along.meridian_stress_outside)[0] / 2.0
    moment = fibre * WALL**2 / 6.0
    x = DECAY * away
    classical = PRESSURE / (2.0 * DECAY**2) * np.exp(-x) * (np.cos(x) - np.sin(x))
    # 1 %, of the moment at the edge: it passes through zero at x = pi / 4
    scale = PRESSURE / (2.0 * DECAY**2)
    assert np.sum(near) > 10
    assert moment[near] == pytest.approx(classical[near], abs=0.01 * scale)


def test_the_edge_effect_of_a_clamped_edge_has_the_classical_length():
    ends = Head(Form.TIED, WALL)
    along = loaded(tank(ends, (Course("shell", 2.0, RADIUS, WALL),), ends))
    away = (2.0 - along.height)[::-1]
    fibre = (along.meridian_stress_inside - along.meridian_stress_outside)[0][::-1]
    first, second = np.flatnonzero(np.diff(np.sign(fibre)))[:2]

    def crossing(k):
        share = fibre[k] / (fibre[k] - fibre[k + 1])
        return away[k] + share * (away[k + 1] - away[k])

    half_wave = heads.edge_lengths(RADIUS, WALL, 0.3)[1]
    assert crossing(second) - crossing(first) == pytest.approx(half_wave, rel=0.01)  # mesh


@pytest.mark.parametrize(
    ("thin", "knuckle"),
    [(0.004, 0.06), (0.004, 0.10), (0.008, 0.10), (0.010, 0.15), (0.020, 0.10)],
)
def test_limit_pressure_of_a_torisphere_lies_above_shield_and_drucker(thin, knuckle):
    """Perfectly plastic and Mises against Tresca: 1.08 to 1.25 of the printed formula."""
    strength, diameter = 240e6, 1.0
    meridian = simple(0.5, thin, 1.0, "torisphere", thin, crown=1.0, knuckle=knuckle)
    stiff = Elastic(193e12, 0.3)
    material = one_steel(meridian, Voce(strength, 0.0, 1.0), elastic=stiff)
    target = Target(volume=2e-4)
    trace = solve(meridian, material, target, [0.5], fineness=Fineness(step=3e-6))
    pressure = trace.pressure[0]
    head = heads.Torisphere(diameter, diameter, knuckle * diameter, thin * diameter)
    ratio = pressure[-1] / float(heads.limit_pressure(head, strength))
    assert 1.08 < ratio < 1.25
    half = np.searchsorted(trace.volume[0], 0.5 * trace.volume[0, -1])
    assert pressure[half] > 0.98 * pressure[-1]  # a plateau: the limit, not the hardening
