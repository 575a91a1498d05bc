"""The flow-stress laws as a least-squares fit sees them: parameters, starts, curves.

Stresses are counted in units of a reference stress here, so that every parameter is of the
order of one to a hundred. The starting values come from a grid over the parameters that enter
in a bent way; those that enter in a straight way are solved for each grid point.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import product

import numpy as np

from stretchform.si import Array, Pascal, Strain
from stretchform.steel.curve import Curve, Hollomon, Ludwigson, Ludwik, Swift, Voce

SOURCES = ("own-derivation",)


@dataclass(frozen=True, slots=True)
class Law:
    """One law: its curve class, its parameters, and how a fit begins."""

    name: str
    curve: type
    parameters: tuple[str, ...]
    stresses: tuple[str, ...]  # parameters that scale with stress
    logarithm: str | None  # a parameter that is the logarithm of a stress
    model: Callable[[Array, Array], Array]
    grid: Callable[[], Iterator[tuple[float, ...]]]
    start: Callable[[Array, Array, tuple[float, ...]], Array]
    lowest: tuple[float, ...]
    highest: tuple[float, ...]


def curve_of(
    law: Law, parameters: Array, reference: Pascal, strain_start: Strain, strain_limit: Strain
) -> Curve:
    """The curve of fitted parameters, back in pascals.

        stress parameters times reference; the logarithm plus ln(reference)

    Source: own-derivation, change of units.
    Checked: tests/unit/steel/test_fit_laws.py
    """
    named = dict(zip(law.parameters, parameters.tolist(), strict=True))
    for key in law.stresses:
        named[key] *= float(reference)
    if law.logarithm:
        named[law.logarithm] += float(np.log(reference))
    curve: Curve = law.curve(**named, strain_start=strain_start, strain_limit=strain_limit)
    return curve


def _linear(columns: list[Array], y: Array) -> Array:
    """Relative least squares: every residual is a share of the measured stress."""
    matrix = np.column_stack(columns) / y[:, None]
    solution, *_ = np.linalg.lstsq(matrix, np.ones_like(y), rcond=None)
    return np.asarray(solution, dtype=np.float64)


def _hollomon(x: Array, p: Array) -> Array:
    return np.asarray(p[0] * x ** p[1], dtype=np.float64)


def _start_hollomon(x: Array, y: Array, bent: tuple[float, ...]) -> Array:
    slope, level = np.polyfit(np.log(x), np.log(y), 1)
    return np.array([np.exp(level), slope])


def _ludwik(x: Array, p: Array) -> Array:
    return np.asarray(p[0] + p[1] * x ** p[2], dtype=np.float64)


def _start_ludwik(x: Array, y: Array, bent: tuple[float, ...]) -> Array:
    (n,) = bent
    s0, k = _linear([np.ones_like(x), x**n], y)
    return np.array([s0, k, n])


def _swift(x: Array, p: Array) -> Array:
    return np.asarray(p[0] * (p[1] + x) ** p[2], dtype=np.float64)


def _start_swift(x: Array, y: Array, bent: tuple[float, ...]) -> Array:
    (x0,) = bent
    slope, level = np.polyfit(np.log(x0 + x), np.log(y), 1)
    return np.array([np.exp(level), x0, slope])


def _voce(x: Array, p: Array) -> Array:
    return np.asarray(p[0] + p[1] * -np.expm1(-p[2] * x), dtype=np.float64)


def _start_voce(x: Array, y: Array, bent: tuple[float, ...]) -> Array:
    (b,) = bent
    s0, q = _linear([np.ones_like(x), -np.expm1(-b * x)], y)
    return np.array([s0, q, b])


def _voce_linear(x: Array, p: Array) -> Array:
    return np.asarray(p[0] + p[1] * -np.expm1(-p[2] * x) + p[3] * x, dtype=np.float64)


def _start_voce_linear(x: Array, y: Array, bent: tuple[float, ...]) -> Array:
    (b,) = bent
    s0, q, h = _linear([np.ones_like(x), -np.expm1(-b * x), x], y)
    return np.array([s0, q, b, h])


def _ludwigson(x: Array, p: Array) -> Array:
    return np.asarray(p[0] * x ** p[1] + np.exp(p[2] + p[3] * x), dtype=np.float64)


def _start_ludwigson(x: Array, y: Array, bent: tuple[float, ...]) -> Array:
    n1, n2 = bent
    k1, k2 = _linear([x**n1, np.exp(n2 * x)], y)
    return np.array([k1, n1, np.log(max(k2, 1e-3)), n2])


_BIG = 1e3
LAWS = (
    Law(
        "hollomon",
        Hollomon,
        ("strength_coefficient", "hardening_exponent"),
        ("strength_coefficient",),
        None,
        _hollomon,
        lambda: iter([()]),
        _start_hollomon,
        (1e-3, 1e-3),
        (_BIG, 1.5),
    ),
    Law(
        "ludwik",
        Ludwik,
        ("yield_stress", "strength_coefficient", "hardening_exponent"),
        ("yield_stress", "strength_coefficient"),
        None,
        _ludwik,
        lambda: product((0.3, 0.45, 0.6, 0.75, 0.9)),
        _start_ludwik,
        (0.0, 1e-3, 0.02),
        (_BIG, _BIG, 1.5),
    ),
    Law(
        "swift",
        Swift,
        ("strength_coefficient", "prestrain", "hardening_exponent"),
        ("strength_coefficient",),
        None,
        _swift,
        lambda: product((0.002, 0.01, 0.03, 0.06, 0.12)),
        _start_swift,
        (1e-3, 1e-6, 1e-3),
        (_BIG, 2.0, 3.0),
    ),
    Law(
        "voce",
        Voce,
        ("yield_stress", "saturation", "rate"),
        ("yield_stress", "saturation"),
        None,
        _voce,
        lambda: product((0.8, 2.0, 5.0, 12.0, 30.0)),
        _start_voce,
        (0.0, 1e-3, 0.05),
        (_BIG, 100.0, 500.0),
    ),
    Law(
        "voce linear",
        Voce,
        ("yield_stress", "saturation", "rate", "linear"),
        ("yield_stress", "saturation", "linear"),
        None,
        _voce_linear,
        lambda: product((2.0, 5.0, 12.0, 30.0, 80.0)),
        _start_voce_linear,
        (0.0, 1e-4, 0.5, 0.0),
        (_BIG, 50.0, 800.0, 100.0),
    ),
    Law(
        "ludwigson",
        Ludwigson,
        (
            "strength_coefficient",
            "hardening_exponent",
            "transient_logarithm",
            "transient_exponent",
        ),
        ("strength_coefficient",),
        "transient_logarithm",
        _ludwigson,
        lambda: product((0.25, 0.35, 0.45, 0.6), (-5.0, -18.0, -60.0)),
        _start_ludwigson,
        (1e-3, 0.02, -12.0, -400.0),
        (_BIG, 1.5, 3.0, -0.1),
    ),
)


def law_named(name: str) -> Law:
    """A law by its name.

        exact name out of LAWS

    Source: own-derivation, list of the laws fitted.
    Checked: tests/unit/steel/test_fit_laws.py
    Raises KeyError for a name that is not in LAWS.
    """
    return {law.name: law for law in LAWS}[name]
