"""Invented trial cylinders with a known answer, half of them outside what the fit assumes."""

from dataclasses import dataclass

import numpy as np
from fit_synthetic import TwoVoce

from stretchform.forming import membrane
from stretchform.forming.criterion import Shape, general, hill, hosford
from stretchform.forming.membrane import Elastic
from stretchform.forming.surface import outside_from_mid
from stretchform.planning.trial import TrialCylinder, TrialReadings
from stretchform.sources import Datum, How
from stretchform.steel.certificate import curve_from_certificate
from stretchform.steel.curve import Ludwigson, Ludwik, Scaled, Swift, Table
from stretchform.steel.grade import Basis, Certificate, Steel
from stretchform.steel.properties import proof_strength, tensile_strength


@dataclass(frozen=True)
class Trial:
    cylinder: TrialCylinder
    readings: TrialReadings
    steel: Steel
    pressure_at_5: float
    ours: bool


def datum(value):
    return Datum(value, None, "invented", "synthetic trial", How.INVENTED)


def steel(certificate):
    curve = curve_from_certificate(certificate, 195e9).curve
    return Steel(
        key="invented",
        names=(),
        title="invented",
        basis=Basis.CERTIFICATE,
        curve=curve,
        strength_half_width=0.10,
        steepness_half_width=0.10,
        youngs_modulus=datum(195e9),
        poisson_ratio=datum(0.3),
        density=datum(7900.0),
        thermal_expansion=datum(16e-6),
        proof_02=certificate.proof_02,
        tensile=certificate.tensile,
        data=(),
        invented=True,
    )


def _table(law):
    x = np.concatenate([np.linspace(0.0, 0.02, 400), np.linspace(0.0201, 0.6, 2000)])
    return Table(x, np.asarray(law.stress(x)))


def _law(rng, ours):
    scale = rng.uniform(0.9, 1.2)
    if ours:  # the family of the certificate curve itself
        return Ludwik(255e6 * scale, 1270e6 * scale, rng.uniform(0.68, 0.78))
    pick = rng.integers(3)
    if pick == 0:
        n = rng.uniform(0.42, 0.5)
        return Ludwigson(1390e6 * scale, n, np.log(178e6 * scale), -rng.uniform(14, 22))
    if pick == 1:
        return Swift(1420e6 * scale, rng.uniform(0.04, 0.07), rng.uniform(0.52, 0.6))
    return _table(TwoVoce(215e6 * scale, 70e6 * scale, 900e6 * scale, 170e6 * scale))


def _state(rng, ours):
    if ours:
        return general(Shape.CLOSED, rng.triangular(1.03, 1.13, 1.17))
    if rng.random() < 0.5:
        return hosford(Shape.CLOSED, rng.uniform(5.0, 10.0))
    return hill(Shape.CLOSED, rng.uniform(0.75, 1.1))


def trial(seed):
    rng = np.random.default_rng([408, seed])
    ours = seed % 2 == 0
    law, state = _law(rng, ours), _state(rng, ours)
    elastic = Elastic(rng.normal(196e9, 3e9), 0.3)
    slow = Scaled(law, rng.uniform(0.90, 0.99))
    wall = rng.uniform(1.0, 3.0) * 1e-3
    radius = rng.uniform(80.0, 180.0) * wall
    strain = np.linspace(1e-4, 0.08, 3000)
    grown = membrane.grown(radius, wall, strain, slow, state, elastic)
    outside = outside_from_mid(
        Shape.CLOSED, radius, wall, grown.growth_under_pressure, grown.axial_strain
    )
    around = 2.0 * np.pi * (radius + 0.5 * wall)
    targets = np.arange(rng.uniform(0.002, 0.005), 0.02501, rng.uniform(0.0015, 0.0035))
    pressures = np.interp(targets, outside, grown.pressure)
    gauge_std = 0.003 * float(pressures.max())
    read = pressures + rng.normal(size=len(targets)) * gauge_std
    tape = around * (1.0 + targets) + rng.normal(size=len(targets)) * 0.3e-3
    certificate = Certificate(
        proof_02=float(proof_strength(law, 196e9)) * rng.normal(1.0, 0.02),
        tensile=float(tensile_strength(law)) * rng.normal(1.0, 0.015),
    )
    return Trial(
        TrialCylinder(around + rng.normal() * 0.3e-3, wall),
        TrialReadings(read, np.round(tape / 0.5e-3) * 0.5e-3, gauge_std, 0.35e-3),
        steel(certificate),
        float(np.interp(0.05, outside, grown.pressure)),
        ours,
    )
