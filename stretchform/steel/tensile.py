"""A tensile record read as the standard reads it: proof strengths, tensile strength, true curve.

Engineering stress is force over the first section, engineering strain is extension over the
gauge length. The true curve ends where necking begins, at the highest force. Nothing is
guessed: what had to be assumed or mended comes back as a finding.
"""

from dataclasses import dataclass, field

import numpy as np

from stretchform.errors import InputError
from stretchform.si import Array, Pascal, Ratio, Strain
from stretchform.steel.elastic import ElasticLine, elastic_line

SOURCES = ("iso-6892-1", "own-derivation")

_FEWEST_POINTS = 10
_LOWEST_TENSILE, _HIGHEST_TENSILE = 350e6, 2200e6
_LEAST_STRAIN = 0.03
_LARGEST_STRAIN = 1.5
_SPIKE, _MOST_SPIKES = 0.10, 0.01
_ROUGH_PROOF = 0.4  # of the tensile strength; it only scales the windows
_MODULUS, _MODULUS_STD = 196e9, 4e9


@dataclass(frozen=True, slots=True)
class Finding:
    """Something that was assumed, mended or is odd; report words it."""

    code: str
    numbers: dict[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Record:
    """One tensile test in the order of its readings, as fractions and pascals."""

    name: str
    strain: Array
    stress: Array
    true: bool = False  # true stress and true strain; else engineering
    proof_02: Pascal | None = None  # given by the user where the record starts too late


@dataclass(frozen=True, slots=True)
class Tensile:
    """What a record says."""

    name: str
    line: ElasticLine
    proof_02: Pascal | None
    proof_10: Pascal | None
    tensile: Pascal | None  # None: the record ends before the highest force
    uniform_elongation: Ratio | None  # engineering, at the highest force
    plastic_strain: Array  # true, from the first plastic point to the start of necking
    true_stress: Array
    findings: tuple[Finding, ...]


def true_from_engineering(strain: Strain, stress: Pascal) -> tuple[Strain, Pascal]:
    """True strain and stress from engineering ones, up to the start of necking.

        e = ln(1 + strain), s = stress (1 + strain)

    Source: iso-6892-1, definitions; constant volume.
    Checked: tests/unit/steel/test_fit_tensile.py
    """
    return np.log1p(strain), np.multiply(stress, np.add(1.0, strain))


def engineering_from_true(strain: Strain, stress: Pascal) -> tuple[Strain, Pascal]:
    """Engineering strain and stress from true ones, up to the start of necking.

        strain = exp(e) - 1, stress = s exp(-e)

    Source: iso-6892-1, definitions; constant volume.
    Checked: tests/unit/steel/test_fit_tensile.py
    """
    return np.expm1(strain), np.multiply(stress, np.exp(np.negative(strain)))


def evaluate(
    record: Record, modulus: Pascal = _MODULUS, modulus_std: Pascal = _MODULUS_STD
) -> Tensile:
    """Elastic line, Rp0.2, Rp1.0, Rm, uniform elongation and the true curve of a record.

        plastic strain = ln(1 + e) - s (1 + e) / E,  e = strain - origin - s/slope + s/E

    `modulus` is what is known of the steel before the test; it is used alone, and said so,
    where the record has no straight start.

    Source: iso-6892-1, clauses on proof strength, tensile strength and Ag.
    Checked: tests/unit/steel/test_fit_tensile.py
    Raises InputError for a record that cannot be a tensile test of such a steel.
    """
    strain, stress = _engineering(record)
    strain, stress, spikes = _without_spikes(record.name, strain, stress)
    _plausible(record.name, strain, stress)
    top = _Top.of(strain, stress)
    line = elastic_line(strain, stress, _ROUGH_PROOF * top.stress, modulus, modulus_std)
    offset = strain - line.origin - stress / line.slope  # plastic, engineering
    rising = slice(0, top.index + 1)
    proof_02 = _proof(offset[rising], stress[rising], 0.002)
    plastic, true = _true_curve(strain[rising], stress[rising], line)
    _enough(record.name, plastic, true)
    if proof_02 is None and record.proof_02 is not None:
        plastic, true = _with_proof(plastic, true, float(record.proof_02), line)
    return Tensile(
        name=record.name,
        line=line,
        proof_02=record.proof_02 if proof_02 is None else proof_02,
        proof_10=_proof(offset[rising], stress[rising], 0.010),
        tensile=top.stress if top.reached else None,
        uniform_elongation=top.strain - line.origin if top.reached else None,
        plastic_strain=plastic,
        true_stress=true,
        findings=(*spikes, *_findings(record, line, proof_02, top, plastic)),
    )


@dataclass(frozen=True, slots=True)
class _Top:
    """The highest force: on a smooth curve through the noise."""

    stress: float
    strain: float
    index: int  # last reading that still counts
    reached: bool

    @staticmethod
    def of(strain: Array, stress: Array) -> "_Top":
        smooth = smoothed(strain, stress)
        peak = int(np.argmax(smooth))
        near = np.flatnonzero(smooth >= 0.98 * smooth[peak])
        near = near[np.abs(near - peak) <= _connected(near, peak)]
        height, place = float(smooth[peak]), float(strain[peak])
        if len(near) >= 8 and np.ptp(strain[near]) > 0.0:
            height, place = _vertex(strain[near], stress[near], height, place)
        fall = 1.0 - float(np.min(smooth[peak:])) / height
        room = float(np.max(strain)) - place
        reached = room > 0.02 * place or fall > 0.01
        last = int(np.flatnonzero(strain <= place)[-1]) if reached else len(strain) - 1
        return _Top(height, place, last, bool(reached))


def _connected(near: "np.ndarray[tuple[int, ...], np.dtype[np.intp]]", peak: int) -> int:
    """Half-length, in readings, of the unbroken run of `near` round the peak."""
    before = near[near < peak]
    after = near[near > peak]
    return max(len(before), len(after), 1)


def _vertex(x: Array, y: Array, height: float, place: float) -> tuple[float, float]:
    centre, span = float(np.mean(x)), float(np.ptp(x)) / 2.0
    u = (x - centre) / span
    polynomial = np.polynomial.Polynomial.fit(u, y, 3, domain=[-1.0, 1.0])
    grid = np.linspace(float(u.min()), float(u.max()), 401)
    values = polynomial(grid)
    best = int(np.argmax(values))
    if not 0.97 * height < values[best] < 1.03 * height:
        return height, place
    return float(values[best]), centre + span * float(grid[best])


def smoothed(strain: Array, stress: Array, width: Strain = 0.004) -> Array:
    """Moving mean of the stress over some 0.4 % strain; untouched where points are few.

        mean of 2 k + 1 neighbouring readings, k such that they span `width`

    Source: own-derivation, running mean.
    Checked: tests/unit/steel/test_fit_tensile.py
    """
    span = float(np.ptp(strain))
    half = int(min(len(strain) * width / span / 2.0, len(strain) // 20)) if span else 0
    if half < 1:
        return stress
    total = np.concatenate([[0.0], np.cumsum(stress)])
    place = np.arange(len(stress))
    reach = np.minimum(np.minimum(half, place), len(stress) - 1 - place)
    mean = (total[place + reach + 1] - total[place - reach]) / (2 * reach + 1)
    return np.asarray(mean, dtype=np.float64)


def _engineering(record: Record) -> tuple[Array, Array]:
    if not record.true:
        return record.strain, record.stress
    strain, stress = engineering_from_true(record.strain, record.stress)
    return np.asarray(strain, dtype=np.float64), np.asarray(stress, dtype=np.float64)


def _without_spikes(
    name: str, strain: Array, stress: Array
) -> tuple[Array, Array, tuple[Finding, ...]]:
    """Single readings far from the five round them are left out, and counted."""
    if len(stress) < 60:
        return strain, stress, ()
    windows = np.lib.stride_tricks.sliding_window_view(np.pad(stress, 2, mode="edge"), 5)
    middle = np.median(windows, axis=1)
    usual = float(np.median(np.abs(middle)))
    spike = np.abs(stress - middle) > _SPIKE * np.maximum(np.abs(middle), usual)
    count = int(np.count_nonzero(spike))
    if count > _MOST_SPIKES * len(stress) + 2:
        raise InputError(
            name,
            f"{count} of {len(stress)} stresses jump from their neighbours",
            "export the readings again, one test in its order",
        )
    found = (Finding("spikes_dropped", {"count": float(count)}),) if count else ()
    return strain[~spike], stress[~spike], found


def _plausible(name: str, strain: Array, stress: Array) -> None:
    if len(strain) < _FEWEST_POINTS:
        raise InputError(
            name,
            f"{len(strain)} points; a fit needs at least {_FEWEST_POINTS}",
            "export the whole record, or use a certificate: "
            'proof_02 = "295 MPa", tensile = "650 MPa"',
        )
    highest, longest = float(np.max(stress)), float(np.max(strain))
    if not _LEAST_STRAIN <= longest - max(float(np.min(strain)), 0.0) <= _LARGEST_STRAIN:
        raise InputError(
            name,
            f"strain runs to {100 * longest:.4g} %; a usable test reaches 3 to 150 %",
            "check the unit of strain (%, mm/mm, mm with a gauge length) and the columns",
        )
    if not _LOWEST_TENSILE <= highest <= _HIGHEST_TENSILE:
        raise InputError(
            name,
            f"highest stress {highest / 1e6:.4g} MPa; annealed austenitic sheet lies between "
            f"{_LOWEST_TENSILE / 1e6:.0f} and {_HIGHEST_TENSILE / 1e6:.0f} MPa",
            "check the unit of stress or force (MPa, ksi, N, kN) and the section",
        )


def _proof(offset: Array, stress: Array, at: float) -> float | None:
    """Stress where the plastic offset is passed: a short straight line through the noise."""
    if float(np.min(offset)) > at or float(np.max(offset)) < at:
        return None
    for reach in (0.2, 0.3, 0.5):
        near = np.abs(offset - at) <= reach * at
        if np.count_nonzero(near) >= 12 and np.ptp(offset[near]) > reach * at:
            line = np.polynomial.Polynomial.fit(offset[near] - at, stress[near], 1)
            return float(line(0.0))
    passed = int(np.argmax(offset >= at))
    if passed == 0:
        return None
    x0, x1 = float(offset[passed - 1]), float(offset[passed])
    share = (at - x0) / (x1 - x0) if x1 > x0 else 1.0
    return float(stress[passed - 1] + share * (stress[passed] - stress[passed - 1]))


def _true_curve(strain: Array, stress: Array, line: ElasticLine) -> tuple[Array, Array]:
    own = strain - line.origin - stress / line.slope + stress / line.modulus
    total, true = true_from_engineering(own, stress)
    plastic = np.asarray(total - true / line.modulus, dtype=np.float64)
    kept = plastic > 0.001
    return plastic[kept], np.asarray(true, dtype=np.float64)[kept]


def _enough(name: str, plastic: Array, true: Array) -> None:
    if len(plastic) >= 8 and float(np.max(plastic)) >= 0.015:
        _rising(name, plastic, true)
        return
    reached = float(np.max(plastic)) if len(plastic) else 0.0
    raise InputError(
        name,
        f"{len(plastic)} plastic points up to {100 * reached:.3g} % plastic strain; "
        "a fit needs 8 of them and 1.5 %",
        "export the record up to the highest force",
    )


def _rising(name: str, plastic: Array, true: Array) -> None:
    """Four parts of the strain range: the mean true stress rises from each to the next."""
    edges = np.linspace(float(np.min(plastic)), float(np.max(plastic)), 5)[1:-1]
    part = np.searchsorted(edges, plastic)
    means = [float(np.mean(true[part == i])) for i in range(4) if np.any(part == i)]
    if len(means) < 4 or np.any(np.diff(means) <= 0.0) or float(np.min(true)) <= 0.0:
        raise InputError(
            name,
            "the true stress does not rise with the strain",
            "one test in the order of its readings; check the columns and the kind of stress",
        )


def _with_proof(
    plastic: Array, true: Array, proof: float, line: ElasticLine
) -> tuple[Array, Array]:
    """The true curve with the given proof strength as its first point."""
    growth = 0.002 + proof / float(line.modulus)
    stress = proof * (1.0 + growth)
    strain = float(np.log1p(growth)) - stress / float(line.modulus)
    return np.concatenate([[strain], plastic]), np.concatenate([[stress], true])


def _findings(
    record: Record, line: ElasticLine, proof: float | None, top: _Top, plastic: Array
) -> tuple[Finding, ...]:
    found: list[Finding] = []
    if line.points == 0:
        found.append(Finding("no_elastic_part", {"modulus": float(line.modulus)}))
    elif line.grips:
        found.append(Finding("grips_moved", {"slope": float(line.slope)}))
    elif line.assumed:
        found.append(Finding("modulus_assumed", {"modulus": float(line.modulus)}))
    if abs(float(line.origin)) > 2e-4:
        found.append(Finding("origin_shifted", {"strain": float(line.origin)}))
    if proof is None:
        first = float(plastic[0 if record.proof_02 is None else 1])
        found.append(Finding("starts_after_proof", {"strain": first}))
    if proof is None and record.proof_02 is not None:
        found.append(Finding("proof_given", {"proof_02": float(record.proof_02)}))
    if top.reached:
        found.append(Finding("cut_at_necking", {"strain": top.strain - float(line.origin)}))
    else:
        found.append(Finding("ends_before_necking", {"strain": float(plastic[-1])}))
    return tuple(found)
