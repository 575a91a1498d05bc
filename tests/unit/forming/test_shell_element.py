"""Elements, loads and the banded solution: every derivative against differences."""

import numpy as np
import pytest
from laws import LAWS

from stretchform.forming.membrane import Elastic
from stretchform.forming.shell import PLAN, Material, Support, Weight
from stretchform.forming.shell.banded import solve
from stretchform.forming.shell.build import ready
from stretchform.forming.shell.element import curvature_of, inner, motion
from stretchform.forming.shell.loads import by_pressure, by_weight, stiffness, volume
from stretchform.forming.shell.state import unformed
from stretchform.shape.meridian import Course, Form, Head, tank

DRAWS = 2


@pytest.fixture(scope="module", params=["dished", "tied"])
def shell(request):
    end = Head(Form.ELLIPSOID, 4e-3) if request.param == "dished" else Head(Form.TIED, 3e-3)
    end = Head(Form.TIED, 3e-3, slides=True) if request.param == "tied" else end
    other = Head(Form.TORISPHERE, 3e-3, 0.02, 1.0, 0.1)
    meridian = tank(end, (Course("shell", 1.0, 0.5, 3e-3),), other)
    material = Material((LAWS["S"],) * 3, Elastic(193e9, 0.29), DRAWS)
    return ready(meridian, material, Weight(Support.STANDING), PLAN)


def moved(shell):
    """A smooth shape of some four per cent growth, flowing everywhere."""
    grid = shell.mesh
    z = grid.height / shell.scale
    moves = np.zeros((DRAWS, len(z), 3))
    moves[..., 0] = 0.04 * np.sin(1.0 + z) * grid.radius / shell.scale
    moves[..., 1] = 0.01 * z + 0.005 * z**2
    moves[..., 2] = 0.02 * np.cos(z)
    moves[1] *= 1.3
    return moves


def assembled(local, count):
    whole = np.zeros((DRAWS, count, 3))
    whole[:, :-1] += local[..., :3]
    whole[:, 1:] += local[..., 3:]
    return whole


def applied(tangent, change):
    pair = np.concatenate([change[:, :-1], change[:, 1:]], axis=-1)
    return assembled(np.einsum("beij,bej->bei", tangent, pair), change.shape[1])


def differences(function, moves, change):
    return (function(moves + change) - function(moves - change)) / 2.0


@pytest.fixture(scope="module")
def change(shell):
    size = (DRAWS, len(shell.mesh.radius), 3)
    return 1e-8 * np.random.default_rng(5).normal(size=size)


def test_inner_tangent_agrees_with_differences(shell, change):
    flow = unformed(shell.problem).flow
    guess = np.zeros_like(flow.sum)
    parts, moves = shell.problem.elements, moved(shell)

    def force(at):
        return assembled(inner(parts, at, flow, guess).force, at.shape[1])

    slope = differences(force, moves, change)
    ours = applied(inner(parts, moves, flow, guess).tangent, change)
    # round-off 1e-16 over a step of 1e-8, and second-order terms
    assert np.max(np.abs(ours - slope)) < 2e-6 * np.max(np.abs(slope))


def test_motion_gradient_and_curvature_agree_with_differences(shell, change):
    parts, moves = shell.problem.elements, moved(shell)
    forces = np.random.default_rng(6).normal(size=(5, DRAWS, len(parts.length)))
    apart, mean = change[:, 1:] - change[:, :-1], (change[:, 1:] + change[:, :-1]) / 2.0
    rate = apart / parts.length[:, None]
    local = np.stack([mean[..., 0], rate[..., 0], rate[..., 1], mean[..., 2], rate[..., 2]])
    slope = differences(lambda at: motion(parts, at).strains, moves, change)
    here = motion(parts, moves)
    ours = np.einsum("ijbe,jbe->ibe", here.gradient, local)
    assert np.max(np.abs(ours - slope)) < 1e-6 * np.max(np.abs(slope))

    def pulled(at):
        return np.einsum("ibe,ijbe->jbe", forces, motion(parts, at).gradient)

    second = np.einsum("ijbe,jbe->ibe", curvature_of(parts, here, forces), local)
    slope = differences(pulled, moves, change)
    assert np.max(np.abs(second - slope)) < 1e-5 * np.max(np.abs(slope))


def test_pressure_forces_follow_the_volume_and_their_stiffness_too(shell, change):
    loads, moves = shell.problem.loads, moved(shell)
    enclosed, gradient = volume(loads, moves)
    slope = differences(lambda at: volume(loads, at)[0], moves, change)
    assert np.sum(gradient * change, axis=(1, 2)) == pytest.approx(slope, rel=1e-5)
    assert np.all(enclosed > shell.problem.volume)
    pressure = np.array([1e-5, 2e-5])

    def force(at):
        unit = by_pressure(loads, at, volume(loads, at)[1])
        outer = pressure[:, None, None] * unit
        return outer + by_weight(loads, at, volume(loads, at)[1])

    slope = differences(force, moves, change)
    ours = -applied(stiffness(loads, moves, pressure), change)
    # the tangent leaves out how the water pressure changes with the wall's height (1 %)
    assert np.max(np.abs(ours - slope)) < 2e-2 * np.max(np.abs(slope))


def test_water_and_metal_hang_their_whole_weight_on_the_shell(shell):
    loads, moves = shell.problem.loads, moved(shell)
    down = by_weight(loads, moves, volume(loads, moves)[1])[..., 1].sum(axis=1)
    metal = loads.metal.sum(axis=1)
    liquid = loads.water * volume(loads, moves)[0]
    if loads.tied[0]:  # the tied end carries the water that stands on it
        radius = loads.radius[0] + moves[:, 0, 0]
        depth = loads.surface - (loads.height[0] + moves[:, 0, 1])
        liquid = liquid - loads.water * depth * np.pi * radius**2
    assert -down == pytest.approx(metal + liquid, rel=1e-9)  # sum of equal and opposite terms


def test_the_band_solves_what_a_dense_matrix_solves(shell):
    rng = np.random.default_rng(7)
    count = len(shell.problem.elements.length)
    tangent = rng.normal(size=(DRAWS, count, 6, 6)) + 8.0 * np.eye(6)
    right = rng.normal(size=(DRAWS, 3 * count + 3, 2))
    fixed = np.array([0, 2, 17])
    x, sound = solve(tangent, right, fixed)
    dense = np.zeros((DRAWS, 3 * count + 3, 3 * count + 3))
    for element in range(count):
        place = slice(3 * element, 3 * element + 6)
        dense[:, place, place] += tangent[:, element]
    dense[:, fixed], dense[:, :, fixed] = 0.0, 0.0
    dense[:, fixed, fixed] = 1.0
    right[:, fixed] = 0.0
    assert sound.all()
    assert x == pytest.approx(np.linalg.solve(dense, right), rel=1e-8, abs=1e-10)


def test_a_spoilt_draw_does_not_spoil_its_neighbour(shell):
    rng = np.random.default_rng(8)
    count = len(shell.problem.elements.length)
    tangent = rng.normal(size=(DRAWS, count, 6, 6)) + 8.0 * np.eye(6)
    right = rng.normal(size=(DRAWS, 3 * count + 3, 2))
    clean, _ = solve(tangent, right, np.array([0]))
    spoilt = tangent.copy()
    spoilt[0, 3, 2, 2] = np.nan
    x, sound = solve(spoilt, right, np.array([0]))
    assert list(sound) == [False, True]
    assert np.array_equal(x[1], clean[1])
