"""Reading settled states: growth at stations, walls, surface strains, heads, work."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stretchform.forming.shell.build import Ready, folded
from stretchform.forming.shell.element import inner
from stretchform.forming.shell.material import Flow
from stretchform.forming.shell.mesh import positions
from stretchform.forming.shell.results import Head, Outline, Wall, Work
from stretchform.forming.shell.state import Rows, flow_rows
from stretchform.shape.meridian import Form
from stretchform.si import Array, Metre

SOURCES = ("own-derivation",)


_AT_ONCE = 1000  # states looked at together: keeps the memory of a large batch small


@dataclass(slots=True)
class Seen:
    """Strains of the sections, and stresses of the layers over Young's modulus."""

    strains: Array  # (5, states, elements)
    sum: Array  # (layers, states, elements), meridian + hoop
    difference: Array


@dataclass(slots=True)
class States:
    """Settled states in one row each, with what an elastic look at them gives."""

    draw: Rows
    pressure: Array
    volume: Array
    moves: Array
    flow: Flow
    seen: Seen


def examined(
    ready: Ready, draw: Rows, pressure: Array, volume: Array, moves: Array, flow: Flow
) -> States:
    """States with their stresses: an evaluation without further flow.

    Source: own-derivation, evaluation of the settled state.
    Checked: tests/unit/forming/test_shell_report.py.
    """
    pieces = []
    for first in range(0, len(draw), _AT_ONCE):
        rows = np.arange(first, min(first + _AT_ONCE, len(draw)))
        parts = ready.problem.elements.chosen(draw[rows])
        some = flow_rows(flow, rows)
        look = inner(parts, moves[rows], some, np.zeros_like(some.strain))
        pieces.append((look.strains, look.answer.sum, look.answer.difference))
    strains, total, apart = (np.concatenate(row, axis=1) for row in zip(*pieces, strict=True))
    return States(draw, pressure, volume, moves, flow, Seen(strains, total, apart))


def midwall_growth(ready: Ready, moves: Array, heights: Metre) -> Array:
    """Growth of the mid-wall radius at heights, (states, stations).

    Source: own-derivation, interpolation.
    Checked: tests/unit/forming/test_shell_report.py.
    """
    nodes, weights = positions(ready.mesh, folded(ready, heights))
    growth = moves[:, nodes, 0] / ready.problem.loads.radius[nodes]
    return np.asarray(np.sum(growth * weights, axis=2), dtype=np.float64)


def walls(ready: Ready, states: States) -> Array:
    """Wall of the elements, (states, elements): plastic flow keeps the volume of metal.

    t = t0 exp(-(plastic strains) - nu/E (sum of stresses)), means through the wall

    Source: own-derivation, plastic flow keeps the volume.
    Checked: tests/unit/forming/test_shell_report.py.
    """
    mean = _mean(ready, states.flow.sum)
    poisson = ready.problem.elements.poisson
    stress = _mean(ready, states.seen.sum)
    return np.asarray(ready.wall[states.draw] * np.exp(-mean - poisson * stress))


def at_heights(ready: Ready, values: Array, heights: Metre) -> Array:
    """Element values at heights on the shell, never across a change of part.

    Source: own-derivation, interpolation.
    Checked: tests/unit/forming/test_shell_report.py.
    """
    wanted = folded(ready, heights)
    low, high = ready.meridian.tangent_heights
    inside = np.clip(wanted, low, high)
    edges, part = ready.mesh.height, ready.mesh.part
    here = np.clip(np.searchsorted(edges, inside, side="right") - 1, 0, len(part) - 1)
    middle = 0.5 * (edges[1:] + edges[:-1])
    answer = np.empty((len(values), len(wanted)))
    for column, (height, element) in enumerate(zip(inside, here, strict=True)):
        same = np.flatnonzero(part == part[element])
        x = middle[same]
        first = int(np.clip(np.searchsorted(x, height) - 1, 0, max(len(x) - 2, 0)))
        second = min(first + 1, len(x) - 1)
        span = x[second] - x[first]
        share = float(np.clip((height - x[first]) / span, -0.5, 1.5)) if span > 0.0 else 0.0
        low_value, high_value = values[:, same[first]], values[:, same[second]]
        answer[:, column] = low_value + share * (high_value - low_value)
    return answer


def outside_growth(ready: Ready, midwall: Array, wall: Array, draw: Rows, at: Metre) -> Array:
    """Growth of the outside circumference from mid-wall growth and wall at stations.

    Source: own-derivation, geometry.
    Checked: tests/unit/forming/test_shell_report.py.
    """
    radius = at_heights(ready, ready.mesh.middle[None], at)
    before = at_heights(ready, ready.wall, at)[draw]
    return np.asarray((radius * (1.0 + midwall) + wall / 2.0) / (radius + before / 2.0) - 1.0)


def _mean(ready: Ready, layered: Array) -> Array:
    """Mean through the wall."""
    weights = np.polynomial.legendre.leggauss(ready.problem.elements.layers)[1]
    return np.asarray(np.tensordot(0.5 * weights, layered, axes=(0, 0)), dtype=np.float64)


def _surface(ready: Ready, layered: Array, side: float) -> Array:
    """Value at a surface (inside +1, outside -1) by the polynomial through the layers."""
    places = np.polynomial.legendre.leggauss(ready.problem.elements.layers)[0]
    weights = np.array(
        [
            np.prod((side - np.delete(places, i)) / (places[i] - np.delete(places, i)))
            for i in range(len(places))
        ]
    )
    return np.asarray(np.tensordot(weights, layered, axes=(0, 0)), dtype=np.float64)


def along(ready: Ready, states: States, released: States) -> Wall:
    """The last states along the wall.

    Source: own-derivation, means and surfaces of the layers.
    Checked: tests/unit/forming/test_shell_report.py.
    """
    modulus = float(ready.material.elastic.youngs_modulus)
    e = states.seen.strains
    half = 0.5 * ready.wall[states.draw] / ready.scale
    total, apart = states.seen.sum, states.seen.difference
    hoop, meridian = 0.5 * (total - apart) * modulus, 0.5 * (total + apart) * modulus
    height = ready.mesh.height
    return Wall(
        height=0.5 * (height[1:] + height[:-1]),
        radius=ready.mesh.middle,
        part=ready.mesh.part,
        growth=np.expm1(e[1]),
        released_growth=np.expm1(released.seen.strains[1]),
        wall=walls(ready, states),
        released_wall=walls(ready, released),
        hoop_stress=_mean(ready, hoop),
        meridian_stress=_mean(ready, meridian),
        hoop_strain_inside=e[1] + half * e[3],
        hoop_strain_outside=e[1] - half * e[3],
        meridian_strain_inside=e[0] + half * e[2],
        meridian_strain_outside=e[0] - half * e[2],
        hoop_stress_inside=_surface(ready, hoop, 1.0),
        hoop_stress_outside=_surface(ready, hoop, -1.0),
        meridian_stress_inside=_surface(ready, meridian, 1.0),
        meridian_stress_outside=_surface(ready, meridian, -1.0),
        plastic_strain=_mean(ready, states.flow.strain),
        plastic_strain_largest=np.max(states.flow.strain, axis=0),
    )


def outline(ready: Ready, states: States, released: States) -> Outline:
    """Shapes of the meridian before, under pressure and released.

    Source: own-derivation, moves of the nodes.
    Checked: tests/unit/forming/test_shell_report.py.
    """
    scale, grid = ready.scale, ready.mesh
    return Outline(
        radius=grid.radius,
        height=grid.height,
        radius_under_pressure=grid.radius + scale * states.moves[..., 0],
        height_under_pressure=grid.height + scale * states.moves[..., 1],
        radius_released=grid.radius + scale * released.moves[..., 0],
        height_released=grid.height + scale * released.moves[..., 1],
    )


def head(ready: Ready, history: States, last: States, released: States, upper: bool) -> Head:
    """What one head did on the way and at the end, for every draw.

    Source: own-derivation, extremes over the history.
    Checked: tests/unit/forming/test_shell_report.py.
    """
    draws = ready.material.draws
    mirrored = ready.halved and not upper
    chosen = upper or mirrored
    form = (ready.meridian.upper if chosen else ready.meridian.lower).form
    mine = _dish(ready, chosen)
    if form == Form.TIED or not mine.any():
        nothing = np.full(draws, np.nan)
        return Head(nothing, nothing, nothing, nothing, nothing, nothing)
    modulus = float(ready.material.elastic.youngs_modulus)
    pressure = history.pressure * modulus
    answer = history.seen
    hoop = 0.5 * (answer.sum - answer.difference)[:, :, mine] * modulus
    lowest = np.min(_mean(ready, hoop), axis=1)
    lowest_hoop, lowest_at = np.full(draws, np.nan), np.full(draws, np.nan)
    first = np.full(draws, np.nan)
    equivalent = 0.5 * np.sqrt(answer.sum**2 + 3.0 * answer.difference**2)
    used = equivalent / history.flow.yield_stress
    surface = _used(ready, history, used, mine)
    for draw in range(draws):
        rows = np.flatnonzero(history.draw == draw)
        if not rows.size:
            continue
        at = rows[np.argmin(lowest[rows])]
        lowest_hoop[draw], lowest_at[draw] = lowest[at], pressure[at]
        first[draw] = _first_yield(pressure[rows], surface[rows])
    strain = np.max(last.flow.strain[:, :, mine], axis=(0, 2))
    return Head(
        first,
        _depth_change(ready, last, chosen),
        _depth_change(ready, released, chosen),
        lowest_hoop,
        lowest_at,
        strain,
    )


def _dish(ready: Ready, upper: bool) -> NDArray[np.bool_]:
    """Elements of one dish, without its straight flange."""
    height = ready.mesh.height
    low, high = ready.meridian.tangent_heights
    middle = 0.5 * (height[1:] + height[:-1])
    return np.asarray(middle > high if upper else middle < low)


def _used(ready: Ready, history: States, used: Array, mine: NDArray[np.bool_]) -> Array:
    """Largest share of the yield stress in a head; above one where it has flowed."""
    flowed = np.max(history.flow.strain[:, :, mine], axis=(0, 2)) > 0.0
    share = np.max(used[:, :, mine], axis=(0, 2))
    return np.where(flowed, np.inf, share)


def _first_yield(pressure: Array, used: Array) -> float:
    """Pressure at which the used share of the yield stress reaches one."""
    flowed = np.flatnonzero(np.isinf(used))
    if not flowed.size:
        return float("nan")
    first = int(flowed[0])
    if first == 0:
        return float(pressure[0])
    last_used, last_pressure = used[first - 1], pressure[first - 1]
    if first >= 2:
        rate = (pressure[first - 1] - pressure[first - 2]) / (used[first - 1] - used[first - 2])
    else:
        rate = last_pressure / last_used
    guess = last_pressure + rate * (1.0 - last_used)
    return float(min(max(guess, last_pressure), pressure[first]))


def _depth_change(ready: Ready, states: States, upper: bool) -> Array:
    shell = np.flatnonzero(ready.mesh.shell)
    pole, rim = (-1, shell[-1]) if upper else (0, shell[0])
    change = states.moves[:, pole, 1] - states.moves[:, rim, 1]
    return np.asarray(ready.scale * (change if upper else -change), dtype=np.float64)


def work(ready: Ready, history: States, last: States) -> Work:
    """Energy balance of the last states, joules.

    outer: trapezoids of pressure over volume, and weights; stored: half stress times
    elastic strain; plastic: area under the curve up to each layer's plastic strain

    Source: own-derivation, work of forces.
    Checked: tests/unit/forming/test_shell_report.py.
    """
    modulus, scale = float(ready.material.elastic.youngs_modulus), ready.scale
    unit = modulus * scale**3 * (2.0 if ready.halved else 1.0)
    problem = ready.problem
    parts, poisson = problem.elements, problem.elements.poisson
    weights = np.polynomial.legendre.leggauss(parts.layers)[1][:, None, None]
    metal = 2.0 * np.pi * parts.middle * parts.length * 0.5 * parts.wall[last.draw] * weights
    answer = last.seen
    growth = np.exp((1.0 - 2.0 * poisson) * answer.sum)
    elastic = answer.sum**2 * (1.0 - poisson) + answer.difference**2 * (1.0 + poisson)
    stored = np.sum(0.25 * elastic * metal * growth, axis=(0, 2))
    spent = np.sum(_plastic_density(ready, last) * metal * growth, axis=(0, 2))
    outer = np.zeros(ready.material.draws)
    for draw in range(ready.material.draws):
        rows = np.flatnonzero(history.draw == draw)
        pressure = np.concatenate(([0.0], history.pressure[rows]))
        change = np.concatenate(([0.0], history.volume[rows])) * problem.volume
        outer[draw] = np.trapezoid(pressure, change)
    outer = outer + _weight_work(ready, last)
    return Work(outer * unit, stored * unit, spent * unit)


def _plastic_density(ready: Ready, last: States) -> Array:
    """Area under the curve from nothing to each plastic strain (eight Gauss points)."""
    parts = ready.problem.elements
    places, weights = np.polynomial.legendre.leggauss(8)
    base = np.broadcast_to(parts.base[last.draw], last.flow.strain.shape)
    root = np.sqrt(last.flow.strain)  # substitution x = u^2 tames a steep start
    area = np.zeros_like(root)
    for place, weight in zip(places, weights, strict=True):
        u = 0.5 * root * (1.0 + place)
        stress, _ = parts.table.stress(base, u * u)
        area += 0.5 * root * weight * 2.0 * u * stress
    return area


def _weight_work(ready: Ready, last: States) -> Array:
    from stretchform.forming.shell.loads import by_weight, volume

    loads = ready.problem.loads.chosen(last.draw)
    half = 0.5 * last.moves
    force = by_weight(loads, half, volume(loads, half)[1])
    return np.asarray(np.sum(force * last.moves, axis=(1, 2)), dtype=np.float64)
