"""What pushes on the shell: pressure that follows the wall, water weight, metal weight.

Pressure works through the enclosed volume, so its tangent is exact and symmetric; a tied
flat end carries its own share, so there the end force is taken off the rim.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stretchform.si import Array

SOURCES = ("own-derivation",)
_THIRD = np.pi / 3.0


@dataclass(slots=True)
class Loads:
    """Weights and end conditions, in lengths over the radius and stresses over Young's."""

    radius: Array  # nodes, before forming
    height: Array
    water: float  # density * gravity
    surface: float  # height where the gauge pressure is counted: the top of the tank
    metal: Array  # (draws, nodes): weight of the wall at the nodes
    tied: tuple[bool, bool]  # lower, upper end

    def chosen(self, rows: NDArray[np.intp]) -> "Loads":
        from dataclasses import replace

        return replace(self, metal=self.metal[rows])


def volume(loads: Loads, moves: Array) -> tuple[Array, Array]:
    """Enclosed volume and its gradient with the nodal moves.

        V = sum pi/3 (ri^2 + ri rj + rj^2) (zj - zi)

    Source: own-derivation, sum of cone frusta.
    Checked: tests/unit/forming/test_shell_element.py (finite differences).
    """
    r = loads.radius + moves[..., 0]
    z = loads.height + moves[..., 1]
    i, j, rise = r[:, :-1], r[:, 1:], z[:, 1:] - z[:, :-1]
    square = _THIRD * (i * i + i * j + j * j)
    gradient = np.zeros_like(moves)
    gradient[:, :-1, 0] += _THIRD * (2.0 * i + j) * rise
    gradient[:, 1:, 0] += _THIRD * (i + 2.0 * j) * rise
    gradient[:, :-1, 1] -= square
    gradient[:, 1:, 1] += square
    return np.sum(square * rise, axis=1), gradient


def by_pressure(loads: Loads, moves: Array, gradient: Array) -> Array:
    """Nodal forces of a unit pressure: the volume gradient less what tied ends carry.

    Source: own-derivation, virtual work of pressure on the curved wall alone.
    Checked: tests/unit/forming/test_shell_element.py (by_pressure; open-ended cylinder).
    """
    lower, upper = loads.tied
    if not (lower or upper):
        return gradient
    force = gradient.copy()
    if lower:
        force[:, 0, 1] += np.pi * (loads.radius[0] + moves[:, 0, 0]) ** 2
    if upper:
        force[:, -1, 1] -= np.pi * (loads.radius[-1] + moves[:, -1, 0]) ** 2
    return force


def by_weight(loads: Loads, moves: Array, gradient: Array) -> Array:
    """Nodal forces of the water's own weight (pressure below its surface) and of the metal.

        water: d/dq of rho g (zs V - int z pi r^2 dz); metal: straight down

    Source: own-derivation, potential of a liquid at rest.
    Checked: tests/unit/forming/test_shell_element.py (by_weight: sum of forces).
    """
    force = np.zeros_like(moves)
    force[..., 1] -= loads.metal
    if loads.water == 0.0:
        return force
    r = loads.radius + moves[..., 0]
    z = loads.height + moves[..., 1]
    i, j, low = r[:, :-1], r[:, 1:], z[:, :-1]
    rise = z[:, 1:] - low
    square = i * i + i * j + j * j
    tilted = i * i + 2.0 * i * j + 3.0 * j * j
    moment = np.zeros_like(moves)
    moment[:, :-1, 0] += np.pi * rise * (low * (2.0 * i + j) / 3.0 + rise * (i + j) / 6.0)
    moment[:, 1:, 0] += np.pi * rise * (low * (i + 2 * j) / 3.0 + rise * (i + 3.0 * j) / 6.0)
    centre = np.pi * (low * square / 3.0 + rise * tilted / 12.0)
    end = np.pi * rise * tilted / 12.0
    moment[:, 1:, 1] += centre + end
    moment[:, :-1, 1] += -centre + np.pi * rise * square / 3.0 - end
    force += loads.water * (loads.surface * gradient - moment)
    lower, upper = loads.tied
    if lower:
        below = loads.water * (loads.surface - z[:, 0])
        force[:, 0, 1] += below * np.pi * r[:, 0] ** 2
    if upper:
        below = loads.water * (loads.surface - z[:, -1])
        force[:, -1, 1] -= below * np.pi * r[:, -1] ** 2
    return force


def stiffness(loads: Loads, moves: Array, pressure: Array) -> Array:
    """Minus the derivative of the pressure forces, (draws, elements, 6, 6).

    Each element takes the pressure at its middle; that the water pressure changes as the
    wall sinks is left out of the tangent (not of the forces).

    Source: own-derivation, second derivatives of the enclosed volume.
    Checked: tests/unit/forming/test_shell_element.py (finite differences).
    """
    r = loads.radius + moves[..., 0]
    z = loads.height + moves[..., 1]
    i, j, rise = r[:, :-1], r[:, 1:], z[:, 1:] - z[:, :-1]
    local = pressure[:, None] * np.ones_like(rise)
    if loads.water:
        local = local + loads.water * (loads.surface - 0.5 * (z[:, 1:] + z[:, :-1]))
    local = -_THIRD * local
    k = np.zeros((6, 6, *rise.shape))
    k[0, 0] = k[3, 3] = 2.0 * rise * local
    k[0, 3] = k[3, 0] = rise * local
    first, last = (2.0 * i + j) * local, (i + 2.0 * j) * local
    k[0, 1] = k[1, 0] = -first
    k[0, 4] = k[4, 0] = first
    k[3, 1] = k[1, 3] = -last
    k[3, 4] = k[4, 3] = last
    lower, upper = loads.tied
    if lower:
        k[1, 0, :, 0] -= 2.0 * np.pi * pressure * r[:, 0]
    if upper:
        k[4, 3, :, -1] += 2.0 * np.pi * pressure * r[:, -1]
    return k.transpose(2, 3, 0, 1)
