"""Invented tensile tests with a known answer: laws of ours and of others, noise, toe, slack."""

from dataclasses import dataclass

import numpy as np

from stretchform.steel.curve import Ludwigson, Ludwik, Swift, Voce
from stretchform.steel.tensile import Record

SECTION = 20e-3 * 2e-3
GAUGE_LENGTH = 50e-3
MPA = 1e6


@dataclass(frozen=True)
class TwoVoce:
    """Two saturating terms and a root term: none of the fitted laws can be this one."""

    yield_stress: float
    first: float
    second: float
    root: float

    def stress(self, strain):
        fast = self.first * -np.expm1(-25.0 * strain)
        slow = self.second * -np.expm1(-2.2 * strain)
        return self.yield_stress + fast + slow + self.root * np.sqrt(strain)


@dataclass(frozen=True)
class Coupon:
    record: Record
    truth: object
    proof_02: float
    tensile: float
    uniform: float  # true plastic strain at the highest force


def truth(rng, kind):
    scale = rng.uniform(0.9, 1.25)
    if kind == "ludwigson":
        n = rng.uniform(0.42, 0.52)
        return Ludwigson(1390e6 * scale, n, np.log(178e6 * scale), -rng.uniform(12, 25))
    if kind == "ludwik":
        return Ludwik(250e6 * scale, 1250e6 * scale, rng.uniform(0.68, 0.8))
    if kind == "swift":
        return Swift(1420e6 * scale, rng.uniform(0.04, 0.07), rng.uniform(0.52, 0.6))
    if kind == "voce linear":
        return Voce(260e6 * scale, 110e6 * scale, rng.uniform(12, 22), 1330e6 * scale)
    share = rng.uniform(0.8, 1.2)
    return TwoVoce(215e6 * scale, 70e6 * share * scale, 900e6 * scale, 170e6 * scale)


KINDS = ("ludwigson", "ludwik", "swift", "voce linear", "two voce")


def coupon(seed, force_gain=0.0, extension_gain=0.0):
    """One invented test; the gains are standard deviations of a constant error."""
    rng = np.random.default_rng([2026, seed])
    law = truth(rng, KINDS[seed % len(KINDS)])
    modulus = rng.normal(196e9, 3e9)
    e, s, uniform = _engineering(law, modulus)
    strain = _drive(rng, float(e[-1]))
    stress = np.interp(strain, e, s)
    extension = strain + rng.uniform(0.0, 1e-3) * -np.expm1(-stress / 25e6)
    slack = rng.uniform(0.0, 0.3e-3) / GAUGE_LENGTH
    lead = np.arange(0.0, slack, float(np.median(np.diff(strain))))
    extension = np.concatenate([lead, slack + extension])
    stress = np.concatenate([np.zeros_like(lead), stress])
    noisy_force = _noise(rng, stress, 0.003, 0.0005 * rng.uniform(1.2, 3.0) * s.max())
    noisy_extension = _noise(rng, extension, 0.002, 1.5e-6 / GAUGE_LENGTH)
    record = Record(
        f"invented {seed}",
        noisy_extension * (1.0 + rng.normal(0.0, 1.0) * extension_gain),
        noisy_force * (1.0 + rng.normal(0.0, 1.0) * force_gain),
    )
    proof = float(np.interp(0.002, e - s / modulus, s))
    return Coupon(record, law, proof, float(s.max()), uniform)


def _engineering(law, modulus):
    plastic = np.concatenate([[0.0], np.geomspace(1e-7, 0.9, 6000)])
    true = law.stress(plastic)
    total = plastic + true / modulus
    e, s = np.expm1(total), true * np.exp(-total)
    peak = int(np.argmax(s))
    neck = np.linspace(0.0, 0.06, 60)[1:]
    e = np.concatenate([[0.0], e[: peak + 1], e[peak] + neck])
    s = np.concatenate([[0.0], s[: peak + 1], s[peak] * (1.0 - 60.0 * neck**2)])
    return e, s, float(plastic[peak])


def _drive(rng, last):
    """Slow to 1.5 % strain, then faster, at 20 to 200 readings a second."""
    readings = np.exp(rng.uniform(np.log(20.0), np.log(200.0)))
    slow, fast = rng.uniform(2.5e-4, 1e-3), rng.uniform(3e-3, 8e-3)
    first = np.arange(0.0, 0.015, slow / readings)
    return np.concatenate([first, np.arange(0.015, last, fast / readings)])


def _noise(rng, values, share, constant):
    count = len(values)
    return values * (1.0 + share * rng.normal(size=count)) + constant * rng.normal(size=count)
