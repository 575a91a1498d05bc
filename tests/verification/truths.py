"""Synthetic tanks: truths for the coverage campaigns, followed by code of their own.

One closed course of mid-wall radius r and wall t. At a mid-wall hoop strain h the pressure is
C f s(C h) t/r exp(−2 h − e), f: speed and warmth, e: elastic thinning C (1 + nu) s/E. The growth
that a tape shows is that of the outside circumference, the section of the wall being kept.
"""

from dataclasses import dataclass

import numpy as np
import planning_jobs as jobs

from stretchform.planning import sample

GRID = np.linspace(1e-5, 0.30, 1500)  # hoop strains
Z95 = 1.6448536269514722
WEIGHT = 9789.0  # N/m³, water at 20 °C


@dataclass(frozen=True)
class Truths:
    """What each tank does: reading of the gauge, tape growth, both (tanks, GRID)."""

    reading: np.ndarray
    growth: np.ndarray

    def readings_at(self, growth):
        """Reading at which the tape shows a growth; NaN where the pressure falls before."""
        found = np.full(len(self.reading), np.nan)
        for row, (reading, grown) in enumerate(zip(self.reading, self.growth, strict=True)):
            peak = int(np.argmax(reading))
            if grown[peak] >= growth:
                found[row] = np.interp(growth, grown[: peak + 1], reading[: peak + 1])
        return found

    def growths_at(self, reading):
        """Growth at a reading; infinite past the maximum, nothing before the wall yields."""
        found = np.full(len(self.reading), np.inf)
        for row, (rising, grown) in enumerate(zip(self.reading, self.growth, strict=True)):
            peak = int(np.argmax(rising))
            if reading <= rising[peak]:
                found[row] = np.interp(reading, rising[: peak + 1], grown[: peak + 1], left=0.0)
        return found


def flow_of(curve, strain):
    """Flow stress; beyond the curve's end it stays on its last value."""
    return np.asarray(curve.stress(np.minimum(strain, curve.strain_limit)))


def follow(job, flow, factor, wall, diameter=1.0, gauge=0.0, tape=0.0, springback=1.08):
    """Truths of one-course tanks; every argument but the job is a column (tanks, 1).

    `flow` gives the flow stress at equivalent strains (tanks, GRID), factors included.
    """
    course = job.tank.courses[0]
    radius = course.radius * diameter
    stress = flow(factor * GRID)
    modulus = course.steel.youngs_modulus.value / springback
    thinning = np.exp(-2.0 * GRID - factor * 1.3 * stress / modulus)
    pressure = factor * stress * wall / radius * thinning
    head = WEIGHT * (job.tank.edges[-1] - job.tank.edges[0] + 0.025 + 0.16)
    outer = radius + 0.5 * wall
    section = outer**2 - radius**2
    grown = np.sqrt((radius * np.exp(GRID)) ** 2 + section) / outer - 1.0
    return Truths(pressure - head + gauge, grown + tape)


def declared(job, count, random):
    """Tanks drawn from the spreads that the plan declares, by a generator of our own."""
    judged, course = jobs.JUDGED, job.tank.courses[0]

    def column(values):
        return np.asarray(values)[:, None]

    def normal():
        return column(random.normal(size=count))

    def two_sided(band):
        z = normal() / Z95
        low, middle, high = (getattr(band, name).value for name in ("low", "likely", "high"))
        return middle + np.where(z < 0.0, (middle - low) * z, (high - middle) * z)

    def triangle(band):
        ends = [getattr(band, name).value for name in ("low", "likely", "high")]
        return column(random.triangular(*ends, count))

    strength = np.exp(np.log1p(course.steel.strength_half_width) / Z95 * normal())
    slope = np.exp(np.log1p(course.steel.steepness_half_width) / Z95 * normal())
    warmth = 1.0 - judged.softening.value * judged.water_tolerance.value / Z95 * normal()
    rate = two_sided(judged.rate)
    curve = course.steel.curve
    pivot = curve.stress(np.float64(0.05))

    def flow(strain):
        relative = flow_of(curve, strain) / pivot
        return rate * warmth * strength * pivot * relative**slope

    gauge = 0.0
    if job.gauge is not None:
        limit = job.gauge.accuracy_class / 100.0 * job.gauge.range
        gauge = column(random.uniform(-limit, limit, count))
    return follow(
        job,
        flow,
        triangle(judged.criterion),
        course.wall + course.wall_tolerance / Z95 * normal(),
        1.0 + judged.diameter_tolerance.value / Z95 * normal(),
        gauge,
        sample.tape_uncertainty(job) * normal(),
        triangle(judged.springback),
    )


def outside(job, curves, count, random):
    """Tanks that the plan knows nothing of: other laws, yield rules, speeds and uneven walls.

    Hosford 6 to 12 or Hill's r of 0.85 to 1.0; rate exponents m of 0.005 to 0.02 from a tensile
    test at 2.5e-4 to 1e-3 per second to a hold at 0.1 % an hour; a wall that varies round the
    girth by up to 1.5 %, five strips under one force.
    """
    course = job.tank.courses[0]
    pick = random.integers(len(curves), size=count)
    hosford = random.uniform(6.0, 12.0, count)
    of_hosford = (2.0 / (1.0 + 2.0 * 0.5**hosford)) ** (1.0 / hosford)
    r = random.uniform(0.85, 1.0, count)
    of_hill = 1.0 / np.sqrt(1.25 - r / (1.0 + r))
    factor = np.where(random.random(count) < 0.5, of_hosford, of_hill)[:, None]
    m = random.uniform(0.005, 0.02, count)
    test = np.exp(random.uniform(np.log(2.5e-4), np.log(1e-3), count))
    speed = ((0.001 / 3600.0) / test) ** m
    uneven = random.uniform(0.0, 0.015, count)
    wall = course.wall + course.wall_tolerance / Z95 * random.normal(size=count)
    readings, growths = [], []
    for row in range(count):
        reading, grown = _uneven(
            job, curves[pick[row]], factor[row, 0], speed[row], wall[row], uneven[row]
        )
        readings.append(reading)
        growths.append(grown)
    return Truths(np.stack(readings), np.stack(growths))


def _uneven(job, curve, factor, speed, wall, uneven):
    """Reading and growth of a girth whose wall swings round: each strip bears the same force."""
    course = job.tank.courses[0]
    stress = factor * speed * flow_of(curve, factor * GRID)
    force = stress * np.exp(-GRID)  # for each metre of wall
    top = int(np.argmax(force))
    strips = wall * (1.0 + uneven * np.cos(np.pi * (np.arange(5) + 0.5) / 5.0))
    # the thinnest strip leads; the others lag behind at the same force
    common = force[: top + 1] * np.min(strips)
    strains = [np.interp(common / one, force[: top + 1], GRID[: top + 1]) for one in strips]
    mean = np.mean(np.exp(strains), axis=0)
    radius, outer = course.radius, course.radius + 0.5 * wall
    pressure = common / (radius * mean)
    head = WEIGHT * (job.tank.edges[-1] - job.tank.edges[0] + 0.025 + 0.16)
    grown = np.sqrt((radius * mean) ** 2 + outer**2 - radius**2) / outer - 1.0
    pad = len(GRID) - len(pressure)
    falling = pressure[-1] * (1.0 - 0.001 * np.arange(1, pad + 1) / max(pad, 1))
    rest = grown[-1] + 0.01 * np.arange(1, pad + 1) / max(pad, 1)
    return np.concatenate([pressure, falling]) - head, np.concatenate([grown, rest])
