"""The job as it was understood, for the JSON of its plan: SI units."""

from typing import Any

from stretchform.planning.job import Job
from stretchform.planning.tank import Course, Head, Plate


def as_data(job: Job) -> dict[str, Any]:
    """What the user wrote, after all units were converted."""
    tank = job.tank
    return {
        "name": job.name,
        "note": job.note,
        "invented_example": job.example,
        "attitude": tank.attitude.value,
        "courses": [_course(course) for course in tank.courses],
        "heads": {"bottom": _head(tank.bottom), "top": _head(tank.top)},
        "plates": [_plate(plate) for plate in tank.plates],
        "water": {
            "temperature": job.water.temperature,
            "chloride": job.water.chloride,
            "air": job.water.air,
        },
        "supply": {
            "kind": job.supply.kind,
            "relief_pressure": job.supply.relief_pressure,
            "vent": job.supply.vent,
        },
        "model": {
            "criterion": job.model.criterion,
            "spread": job.model.spread,
            "seed": job.model.seed,
        },
    }


def _course(course: Course) -> dict[str, Any]:
    return {
        "name": course.name,
        "length": course.length,
        "radius": course.radius,
        "wall": course.wall,
        "wall_tolerance": course.wall_tolerance,
        "steel": course.steel.key,
        "basis": course.steel.basis.value,
        "yield_before": course.steel.proof_02,
        "tensile": course.steel.tensile,
    }


def _head(head: Head) -> dict[str, Any]:
    return {
        "shape": head.shape.value,
        "wall": head.wall,
        "straight_flange": head.straight_flange,
        "steel": head.steel.key,
    }


def _plate(plate: Plate) -> dict[str, Any]:
    return {"name": plate.name, "heights": list(plate.heights), "thickness": plate.thickness}
