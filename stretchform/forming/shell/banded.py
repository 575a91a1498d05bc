"""Banded systems of many draws, solved as one long band by LAPACK.

Draws do not couple, so their matrices stand one after another on the same band.
"""

import numpy as np
from numpy.lib.stride_tricks import as_strided
from numpy.typing import NDArray

from stretchform.si import Array

SOURCES = ("own-derivation",)
_BAND = 5  # below and above the diagonal
_ROWS = 3 * _BAND + 1  # of LAPACK's band store, with room for pivots


def solve(
    tangent: Array, right: Array, fixed: NDArray[np.intp]
) -> tuple[Array, NDArray[np.bool_]]:
    """Solve the assembled systems; returns (draws, unknowns, columns) and which are sound.

    `tangent` is (draws, elements, 6, 6), `right` (draws, unknowns, columns); the moves
    `fixed` stay zero. A draw whose matrix is singular or not finite comes back unsound.

    Source: own-derivation, draws on one band; LAPACK's dgbsv does the elimination.
    Checked: tests/unit/forming/test_shell_element.py (dense solution).
    """
    from scipy.linalg.lapack import dgbsv

    draws, unknowns, columns = right.shape
    sound = np.isfinite(np.einsum("beij->b", tangent))
    sound &= np.all(np.isfinite(right), axis=(1, 2))
    store = np.zeros((draws, unknowns, _ROWS))
    _assemble(store, tangent)
    _fix(store, fixed)
    right = right.copy()
    right[:, fixed] = 0.0
    while True:
        work = _masked(store, sound) if not np.all(sound) else store.copy()
        rhs = np.where(sound[:, None, None], right, 0.0).reshape(-1, columns)
        _, _, x, info = dgbsv(
            _BAND, _BAND, work.reshape(-1, _ROWS).T, np.asfortranarray(rhs), True, True
        )
        if info <= 0:
            return np.asarray(x).reshape(draws, unknowns, columns), sound
        sound[(info - 1) // unknowns] = False


def _assemble(store: Array, tangent: Array) -> None:
    """Add element matrices into the band; neighbours overlap, so odd and even apart."""
    draws, elements = tangent.shape[:2]
    item = store.itemsize
    view = as_strided(
        store.reshape(-1)[2 * _BAND :],
        shape=(draws, elements, 6, 6),
        strides=(store.strides[0], 3 * store.strides[1], item, store.strides[1] - item),
    )
    view[:, 0::2] += tangent[:, 0::2]
    view[:, 1::2] += tangent[:, 1::2]


def _fix(store: Array, fixed: NDArray[np.intp]) -> None:
    """Rows and columns of moves that stay zero: one on the diagonal, nothing beside it."""
    unknowns = store.shape[1]
    for row in fixed:
        store[:, row, :] = 0.0
        for column in range(max(row - _BAND, 0), min(row + _BAND + 1, unknowns)):
            store[:, column, 2 * _BAND + row - column] = 0.0
        store[:, row, 2 * _BAND] = 1.0


def _masked(store: Array, sound: NDArray[np.bool_]) -> Array:
    masked = store.copy()
    masked[~sound] = 0.0
    masked[~sound, :, 2 * _BAND] = 1.0
    return masked
