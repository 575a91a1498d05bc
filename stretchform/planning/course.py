"""The course of forming of a whole tank, and how to read growth and pressure from it."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stretchform.forming import shell
from stretchform.si import Array, Growth, Pascal


@dataclass(frozen=True, slots=True)
class Course:
    """The course of forming of every draw; N draws, G steps of largest growth, P points."""

    pressure: Array  # (N, G), gauge at the top of the tank
    loaded: Array  # (N, G, P), growth of the outside circumference under pressure
    released: Array  # (N, G, P)
    gain: Array  # (N, G), volume gained under pressure over the volume before
    peak: Array  # (N,), step of the highest pressure
    reached: Array  # (N,), False: the shells end before the maximum
    central: shell.Trace  # the fine shell of the medians, up to about the target


def growth_at(course: Course, pressure: Pascal) -> tuple[Array, Array]:
    """Growth under pressure and released at pressures (M,) or (N, M), (N, M, P) each.

    NaN above a draw's maximum.

    Source: own-derivation, straight lines between the steps up to the maximum.
    Checked: tests/verification/test_whole_surrogate.py (against directly solved draws).
    """
    below, part = _place(course, np.asarray(pressure, dtype=np.float64))
    rows, last = np.arange(len(course.pressure))[:, None], course.pressure.shape[1] - 1

    def between(values: Array) -> Array:
        start, end = values[rows, below], values[rows, np.minimum(below + 1, last)]
        return np.asarray(start + part[..., None] * (end - start))

    return between(course.loaded), between(course.released)


def gain_at(course: Course, pressure: Pascal) -> Array:
    """Volume gained under pressure over the volume before, (N, M); NaN above the maximum.

    Source: own-derivation, straight lines between the steps up to the maximum.
    Checked: tests/verification/test_whole_surrogate.py (against directly solved draws).
    """
    below, part = _place(course, np.asarray(pressure, dtype=np.float64))
    rows, last = np.arange(len(course.pressure))[:, None], course.pressure.shape[1] - 1
    start = course.gain[rows, below]
    end = course.gain[rows, np.minimum(below + 1, last)]
    return np.asarray(start + part * (end - start))


def pressure_at(course: Course, growth: Growth, point: int, under_pressure: bool) -> Array:
    """Pressure at which a point first reaches a growth, (N,) each; NaN where it never does.

    Source: own-derivation, straight lines between the steps up to the maximum.
    Checked: tests/verification/test_whole_surrogate.py (inverse of growth_at).
    """
    values = (course.loaded if under_pressure else course.released)[:, :, point]
    answer = np.full(len(values), np.nan)
    asked = np.broadcast_to(np.asarray(growth, dtype=np.float64), (len(values),))
    for row, (rising, pressure, peak, wanted) in enumerate(
        zip(values, course.pressure, course.peak, asked, strict=True)
    ):
        climbed = np.maximum.accumulate(rising[: peak + 1])
        if climbed[-1] >= wanted:
            first = int(np.searchsorted(climbed, wanted))
            low, high = climbed[max(first - 1, 0)], climbed[first]
            part = 1.0 if high <= low else (wanted - low) / (high - low)
            start = pressure[max(first - 1, 0)]
            answer[row] = start + part * (pressure[first] - start)
    return answer


def _place(course: Course, pressure: Array) -> tuple[NDArray[np.intp], Array]:
    """Step below each pressure and the part of the way to the next; NaN above the maximum."""
    wanted = np.broadcast_to(pressure, (len(course.pressure), np.shape(pressure)[-1]))
    below = np.empty(wanted.shape, dtype=np.intp)
    part = np.empty(wanted.shape)
    for row, (steps, peak) in enumerate(zip(course.pressure, course.peak, strict=True)):
        climbed = np.maximum.accumulate(steps[: peak + 1])
        place = np.clip(
            np.searchsorted(climbed, wanted[row], side="right") - 1, 0, max(peak - 1, 0)
        )
        low, high = climbed[place], climbed[np.minimum(place + 1, peak)]
        with np.errstate(divide="ignore", invalid="ignore"):
            share = np.where(high > low, (wanted[row] - low) / (high - low), 0.0)
        below[row] = place
        part[row] = np.where(wanted[row] > climbed[-1], np.nan, share)
    return below, part
