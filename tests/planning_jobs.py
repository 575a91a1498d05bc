"""Jobs built in code for the tests of planning: every tank here is invented.

The steels are the shipped ones, with the certificate of an invented coil where one is asked for.
`job()` is a standing tank of two courses; every keyword replaces one field of it.
"""

from dataclasses import replace
from functools import cache

from stretchform.files.judged import load_judged
from stretchform.files.steels import load_steel
from stretchform.planning import build, forecast
from stretchform.planning.job import (
    Job,
    Limits,
    Model,
    Supply,
    Tape,
    Target,
    TargetKind,
    Water,
)
from stretchform.planning.tank import (
    Arm,
    ArmKind,
    Attitude,
    Course,
    Head,
    HeadShape,
    Plate,
    Station,
    Tank,
    Weld,
)
from stretchform.sources import Datum, How
from stretchform.steel.grade import Certificate

MPA, MM = 1e6, 1e-3
JUDGED = load_judged()
COIL = Certificate(295 * MPA, 650 * MPA, 325 * MPA, elongation=0.52)  # invented
WEAK_COIL = Certificate(275 * MPA, 620 * MPA, 305 * MPA, elongation=0.55)  # invented


@cache
def _steel(name, values):
    certificate = Certificate(*values) if values else None
    return load_steel(name, certificate, "tests", JUDGED)


def steel(name="1.4307", certificate=COIL):
    """A shipped steel, with the certificate of a coil or (None) its typical values."""
    if certificate is None:
        return _steel(name, None)
    values = (certificate.proof_02, certificate.tensile, certificate.proof_10)
    return _steel(name, values)


def course(name="lower", length=1.5, radius=0.321, wall=2 * MM, tolerance=0.05 * MM, **fields):
    kept = {"steel": steel(), "weld": Weld("308L", 0.35)}
    return Course(name, length, radius, wall, tolerance, **{**kept, **fields})


def head(shape=HeadShape.ELLIPSOID, wall=2.5 * MM, flange=25 * MM, **fields):
    return Head(shape, wall, flange, **{"steel": steel(), **fields})


def plate(name="ring", heights=(1.0, 1.7), **fields):
    kept = {
        "thickness": 1.5 * MM,
        "ring_width": 60 * MM,
        "tabs": 3,
        "tab_clearance": 1 * MM,
        "tab_length": 20 * MM,
        "arm": Arm(ArmKind.SINGLE, 7 * MM, None),
        "steel": None,
    }
    return Plate(name, heights, **{**kept, **fields})


def tank(courses=None, stations=None, **fields):
    courses = (course(), course("upper")) if courses is None else tuple(courses)
    kept = {"attitude": Attitude.STANDING, "bottom": head(), "top": head()}
    if stations is None:
        edges = Tank(courses=courses, stations=(), **{**kept, **fields}).edges
        stations = tuple(
            Station(f"middle of {one.name}", 0.5 * (low + high), one.name)
            for one, low, high in zip(courses, edges, edges[1:], strict=False)
        )
    return Tank(courses=courses, stations=tuple(stations), **{**kept, **fields})


def growth(value=0.05, under_pressure=False, station="largest"):
    return Target(TargetKind.GROWTH, value, under_pressure, station)


LIMITS = Limits(
    share_of_pressure=JUDGED.share_of_pressure.value,
    share_of_growth_care=JUDGED.share_of_growth_care.value,
    share_of_growth_block=JUDGED.share_of_growth_block.value,
)
PUMP = Supply("hand pump", maximum_pressure=10 * MPA, relief_pressure=2.75 * MPA)


def job(**fields):
    """An invented job; `courses`, `stations` and other fields of Tank go into its tank."""
    parts = {name: fields.pop(name) for name in list(fields) if name in Tank.__slots__}
    kept = {
        "name": "invented tank",
        "note": "invented for a test",
        "target": growth(),
        "tank": tank(**parts),
        "water": Water(chloride=20e-6),
        "supply": PUMP,
        "gauge": None,
        "tape": Tape(),
        "limits": LIMITS,
        "model": Model(),
        "example": True,
    }
    return Job(**{**kept, **fields})


def one_course(**fields):
    """A job whose tank has a single course of 3 m."""
    return job(courses=[course(length=3.0)], **fields)


def without_spread(**fields):
    """Medians only: one draw."""
    return job(model=Model(spread=False), **fields)


def judged_with(**values):
    """The judged factors with the low, likely and high of some ranges replaced; invented."""
    changed = {}
    for name, value in values.items():
        old = getattr(JUDGED, name)
        if isinstance(value, tuple):
            trio = zip(("low", "likely", "high"), value, strict=True)
            changed[name] = replace(old, **{part: invented(number) for part, number in trio})
        else:
            changed[name] = invented(value)
    return replace(JUDGED, **changed)


def invented(value):
    return Datum(value, None, "invented", "this test", How.INVENTED)


def closed(job, judged=JUDGED):
    """The forecast of the quick closed form: each course alone, in some hundredths of a second."""
    return forecast.forecast(job, judged, quick=True)


def plan(job, judged=JUDGED):
    """The whole plan on the quick closed form."""
    return build.build(job, judged, quick=True)
