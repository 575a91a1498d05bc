"""Writes invented tensile records in many dialects."""

import numpy as np

from stretchform.steel.curve import Swift
from stretchform.steel.tensile import engineering_from_true

LAW = Swift(1400e6, 0.05, 0.55)
MODULUS = 196e9
SECTION = 40e-6  # 20 mm by 2 mm
GAUGE = 50e-3


def rows(count=400):
    """Engineering strain (fraction) and stress (MPa) of a whole invented test."""
    plastic = np.concatenate([[0.0], np.geomspace(1e-6, 0.52, 8000)])
    true = np.concatenate([[0.0], LAW.stress(plastic)])
    total = np.concatenate([[0.0], plastic + LAW.stress(plastic) / MODULUS])
    strain, stress = engineering_from_true(total, true)
    low = np.linspace(0.0, 0.008, count // 4)
    grid = np.concatenate([low, np.linspace(0.0085, 0.69, count)])
    return grid, np.interp(grid, strain, stress) / 1e6


def text(columns, header, separator=",", decimal=".", units=None, before=(), digits=6):
    lines = [*before, separator.join(header)]
    if units:
        lines.append(separator.join(units))
    for row in zip(*columns, strict=True):
        cells = [f"{value:.{digits}f}".replace(".", decimal) for value in row]
        lines.append(separator.join(cells))
    return "\n".join(lines) + "\n"


def plain(**kwargs):
    strain, stress = rows()
    header = ["Engineering strain (%)", "Engineering stress (MPa)"]
    return text([100 * strain, stress], header, **kwargs)
