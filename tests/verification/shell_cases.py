"""Tanks that the tests of the whole-tank shell share; all invented, sizes in metres."""

import csv
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from laws import LAWS, MM

from stretchform.forming.membrane import Elastic
from stretchform.forming.shell import Material, Support, Weight
from stretchform.shape.meridian import Course, Form, Head, tank
from stretchform.steel.curve import Scaled

ELASTIC = Elastic(193e9, 0.29)
DATA = Path(__file__).parent / "data" / "shell_whole_tank.csv"


@dataclass(frozen=True)
class Case:
    """One computed reference tank: its shape and the values along it."""

    name: str
    tank: object
    radius: float
    law: str
    mid_growth: float
    row: dict
    heights: np.ndarray
    columns: dict


def head(kind, radius, wall, crown=None, knuckle=None, flange=0.0):
    """Head by its word; crown and knuckle are shares of the mid-wall diameter."""
    form = Form(kind)
    if form is Form.TORISPHERE:
        return Head(form, wall, flange, 2.0 * radius * crown, 2.0 * radius * knuckle)
    return Head(form, wall, flange)


def simple(radius, wall, length, kind="ellipsoid 2:1", head_wall=None, **shape):
    """One course between two equal heads."""
    end = head(kind, radius, wall if head_wall is None else head_wall, **shape)
    return tank(end, (Course("shell", length, radius, wall),), end)


def one_steel(meridian, curve, draws=1, wall_factor=1.0, elastic=ELASTIC):
    return Material((curve,) * meridian.parts, elastic, draws, wall_factor)


def reference_cases():
    """All tanks of the computed reference."""
    with DATA.open() as lines:
        rows = list(csv.DictReader(line for line in lines if not line.startswith("#")))
    cases = []
    for name in dict.fromkeys(row["name"] for row in rows):
        mine = [row for row in rows if row["name"] == name]
        first = mine[0]
        radius, half = float(first["a"]) * MM, float(first["Lc"]) * MM
        shape = {}
        if first["crown"]:
            shape = {"crown": float(first["crown"]), "knuckle": float(first["knuckle"])}
        meridian = simple(
            radius,
            float(first["tc"]) * MM,
            2.0 * half,
            first["head"],
            float(first["th"]) * MM,
            **shape,
        )
        columns = {
            key: np.array([float(row[key]) / 100.0 for row in mine])
            for key in ("growth", "released", "solid_growth")
        }
        heights = 2.0 * half - radius * np.array([float(row["x"]) for row in mine])
        cases.append(
            Case(
                name,
                meridian,
                radius,
                first["law"],
                float(first["mid_growth"]),
                first,
                heights,
                columns,
            )
        )
    return cases


def random_tank(seed):
    """A tank of the campaign: meridian, material, target growth, weight."""
    rng = np.random.default_rng(seed)
    radius = np.exp(rng.uniform(np.log(0.1), np.log(1.5)))
    wall = radius / np.exp(rng.uniform(np.log(40), np.log(600)))
    length = 2.0 * radius * np.exp(rng.uniform(np.log(0.3), np.log(6.0)))
    base = LAWS[("H", "S", "V", "VL", "T")[rng.integers(5)]]
    count = int(rng.integers(1, 6))
    shares = rng.uniform(0.5, 1.5, count)
    courses, curves = [], []
    for number, share in enumerate(shares / shares.sum()):
        size = radius * (1.0 + rng.uniform(-0.001, 0.001))
        thick = wall * (1.0 + rng.uniform(-0.075, 0.075))
        courses.append(Course(f"course {number + 1}", length * share, size, thick))
        curves.append(Scaled(base, 1.0 + rng.uniform(-0.075, 0.075)))
    ends = [_random_head(rng, radius, wall, courses[place].length) for place in (0, -1)]
    if rng.random() < 0.35:  # symmetric: solved by its half when it carries no weight
        courses, curves = [Course("shell", length, radius, wall)], [base]
        ends = [_random_head(rng, radius, wall, length)] * 2
    target = rng.uniform(0.01, 0.10)
    support = list(Support)[rng.integers(3)]
    meridian = tank(ends[0], tuple(courses), ends[1])
    return meridian, Material((base, *curves, base), ELASTIC), target, Weight(support)


def _random_head(rng, radius, wall, length):
    kind = list(Form)[rng.integers(3)]
    thick = wall * rng.uniform(0.6, 2.0)
    flange = min(float(rng.choice([0.0, 0.03, 0.1])) * radius, 0.8 * length)
    crown, knuckle = rng.uniform(0.8, 1.0), rng.uniform(0.06, 0.2)
    return head(str(kind), radius, thick, crown, knuckle, flange)
