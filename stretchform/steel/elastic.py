"""The elastic line of a tensile record: how stiff the start is, and where strain zero lies.

The first points of a test are bent (toe), shifted (slack) or missing. A straight piece is looked
for between a tenth and eight tenths of the proof stress; it is joined with what is known of
the modulus of austenitic steel, so that a short or noisy piece cannot tilt the line. A line
much softer than steel means that the grips moved: their give is taken off with the line.
"""

from dataclasses import dataclass

import numpy as np

from stretchform.si import Array, Pascal, Ratio, Strain

SOURCES = ("own-derivation",)

_LOWS = (0.1, 0.2, 0.3, 0.4, 0.5)  # of the rough proof stress
_HIGHS = (0.5, 0.6, 0.7, 0.8)
_FEWEST = 6  # points of a window
_NARROWEST = 0.2  # of the rough proof stress
_KNEE = 0.03  # what toe and rounded knee may tilt a window without showing
_SOFTEST = 0.85  # of the known modulus: below it the grips moved
_STIFFEST = 1.25


@dataclass(frozen=True, slots=True)
class ElasticLine:
    """The straight start of a record, on engineering stress and strain."""

    slope: Pascal  # what takes the elastic strain off this record
    slope_std: Pascal
    modulus: Pascal  # of the steel itself
    origin: Strain  # recorded strain at zero stress
    pivot: Pascal  # stress in the middle of the piece: there slope and place are independent
    pivot_std: Strain  # standard error of the strain at the pivot
    points: int  # that carry the line; 0: none found
    assumed: bool  # the modulus is the known one, the record did not tell
    grips: bool  # the extension holds the give of the machine


@dataclass(frozen=True, slots=True)
class _Piece:
    compliance: float
    compliance_std: float
    stress: float
    strain: float
    strain_std: float
    curvature: float
    points: int


def elastic_line(
    strain: Array, stress: Array, proof: Pascal, modulus: Pascal, modulus_std: Pascal
) -> ElasticLine:
    """Elastic line of the rising part of a record, strain regressed on stress.

        strain = origin + stress / slope

    The window with the least variance plus squared curvature is taken; its slope and the known
    modulus are averaged with the inverse of their variances unless the slope is below 0.85 or
    above 1.25 of the known one. `proof` is a rough proof stress that scales the windows.

    Source: own-derivation, weighted mean of a regression and a prior.
    Checked: tests/unit/steel/test_fit_tensile.py
    """
    scale, known, known_std = float(proof), float(modulus), float(modulus_std)
    pieces = [
        piece
        for low in _LOWS
        for high in _HIGHS
        if high - low >= _NARROWEST - 1e-9
        and (piece := _piece(strain, stress, low * scale, high * scale)) is not None
    ]
    if not pieces:
        return _assumed(strain, stress, scale, known, known_std)
    best = min(pieces, key=_badness)
    return _joined(best, known, known_std)


def _piece(strain: Array, stress: Array, low: float, high: float) -> _Piece | None:
    above = np.flatnonzero(stress > high)
    rising = slice(0, int(above[0]) if len(above) else len(stress))
    inside = (stress[rising] >= low) & (stress[rising] <= high)
    x, y = stress[rising][inside], strain[rising][inside]
    if len(x) < _FEWEST or np.ptp(x) < 0.5 * (high - low):
        return None
    centre, span = float(np.mean(x)), 0.5 * (high - low)
    u = (x - centre) / span
    (c0, c1), covariance = _least_squares(np.column_stack([np.ones_like(u), u]), y)
    bend, _ = _least_squares(np.column_stack([np.ones_like(u), u, u * u]), y)
    return _Piece(
        compliance=float(c1) / span,
        compliance_std=float(np.sqrt(covariance[1, 1])) / span,
        stress=centre,
        strain=float(c0),
        strain_std=float(np.sqrt(covariance[0, 0])),
        curvature=float(bend[2]) / span,
        points=len(x),
    )


def _least_squares(matrix: Array, y: Array) -> tuple[Array, Array]:
    inverse = np.linalg.pinv(matrix.T @ matrix)
    solution = inverse @ matrix.T @ y
    freedom = max(len(y) - matrix.shape[1], 1)
    variance = float(np.sum((y - matrix @ solution) ** 2)) / freedom
    return solution, inverse * variance


def _badness(piece: _Piece) -> float:
    if piece.compliance <= 0.0:
        return np.inf
    return (piece.compliance_std**2 + piece.curvature**2) / piece.compliance**2


def _joined(piece: _Piece, modulus: float, modulus_std: float) -> ElasticLine:
    measured = 1.0 / piece.compliance if piece.compliance > 0.0 else np.inf
    relative = float(np.hypot(np.sqrt(_badness(piece)), _KNEE))
    soft = measured < modulus * (_SOFTEST - 2.0 * min(relative, 0.2))
    stiff = measured > modulus * (_STIFFEST + 2.0 * min(relative, 0.2))
    if soft:
        slope, std = measured, measured * relative
    elif stiff or not np.isfinite(measured):
        slope, std = modulus, modulus_std
    else:
        own, known = (measured * max(relative, 1e-4)) ** -2, modulus_std**-2
        slope, std = (own * measured + known * modulus) / (own + known), (own + known) ** -0.5
    return ElasticLine(
        slope=slope,
        slope_std=std,
        modulus=modulus if soft else slope,
        origin=piece.strain - piece.stress / slope,
        pivot=piece.stress,
        pivot_std=piece.strain_std,
        points=piece.points,
        assumed=bool(soft or stiff),
        grips=bool(soft),
    )


def _assumed(
    strain: Array, stress: Array, proof: float, modulus: float, modulus_std: float
) -> ElasticLine:
    """No straight piece: the known modulus; zero from the few points below half the proof."""
    top = int(np.argmax(stress))
    low = np.flatnonzero((stress[:top] < 0.6 * proof) & (stress[:top] > 0.15 * proof))
    origin, std = 0.0, 0.5e-4
    if len(low):
        starts = strain[low] - stress[low] / modulus
        origin = float(np.mean(starts))
        std = float(np.std(starts) / np.sqrt(len(low))) + 0.5e-4
    return ElasticLine(modulus, modulus_std, modulus, origin, 0.0, std, 0, True, False)


def share_of_modulus(line: ElasticLine) -> Ratio:
    """Slope of the recorded line over the modulus of the steel; 1 where the grips are stiff.

        share = slope / modulus

    Source: own-derivation, definition.
    Checked: tests/unit/steel/test_fit_tensile.py
    """
    return line.slope / line.modulus
