"""A job as it was understood, as blocks for the screen."""

from math import degrees, pi

from stretchform.planning.job import Job, TargetKind
from stretchform.planning.tank import Course, Hand, Head, Plate
from stretchform.report import words_basis
from stretchform.report import words_numbers as numbers
from stretchform.report.tables import Block, Column, Lines, Table
from stretchform.si import Metre

_FULL_TURN = 2.0 * pi - 1e-9


def summary(job: Job, inches: bool = False) -> list[Block]:
    """What the program has read, so that a slip of the pen is seen before any pumping."""
    lines = [words_basis.EXAMPLE] if job.example else []
    lines += [f"note: {job.note}"] if job.note else []
    lines += [f"target: {_target(job, inches)}", f"tank: {job.tank.attitude.value}"]
    return [
        Lines(f"Understood: {job.name}", tuple(lines)),
        _courses(job, inches),
        Lines("The rest", tuple(_rest(job, inches))),
        Lines("No mistake was found in the file", ("next: stretchform plan",)),
    ]


def _target(job: Job, inches: bool) -> str:
    target = job.target
    state = "under pressure" if target.under_pressure else "released"
    if target.kind is TargetKind.GROWTH:
        value = numbers.percent(target.value)
    elif target.kind is TargetKind.GAINED_YIELD_STRENGTH:
        value = numbers.stress(target.value, inches)
    else:
        value = numbers.circumference(target.value, inches)
    return f"{target.kind.value.replace('_', ' ')} {value}, {state}, at: {target.station}"


def _courses(job: Job, inches: bool) -> Table:
    columns = (
        Column("course", right=False),
        Column("length"),
        Column("mid-wall\nradius"),
        Column("wall"),
        Column("steel", right=False),
        Column("yield,\ntensile"),
        Column("rests on", right=False),
    )
    rows = tuple(_course(course, inches) for course in job.tank.courses)
    return Table("Courses, bottom to top, before forming", columns, rows)


def _course(course: Course, inches: bool) -> tuple[str, ...]:
    steel = course.steel
    return (
        course.name,
        numbers.stacked_units(numbers.circumference(course.length, inches)),
        numbers.stacked_units(numbers.size(course.radius, inches)),
        numbers.stacked_units(numbers.size(course.wall, inches)),
        steel.key,
        f"{numbers.stress(steel.proof_02)}\n{numbers.stress(steel.tensile)}",
        words_basis.basis_name(steel),
    )


def _rest(job: Job, inches: bool) -> list[str]:
    water, tank = job.water, job.tank
    chloride = "not stated" if water.chloride is None else numbers.milligrams(water.chloride)
    lines = [
        f"- bottom: {_head(tank.bottom, inches)}",
        f"- top: {_head(tank.top, inches)}",
        *(f"- plates: {_plate(plate, inches)}" for plate in tank.plates),
        *(f"- opening: {item.name}, in {item.place}" for item in tank.openings),
        "- stations: " + ", ".join(_at(s.name, s.height, inches) for s in tank.stations),
        f"- water: {numbers.temperature(water.temperature, inches)}, chloride {chloride}, air "
        f"{numbers.percent(water.air)} of the volume",
        f"- supply: {_supply(job, inches)}",
        f"- gauge: {_gauge(job, inches)}",
        f"- tape: {job.tape.kind}, reads to {numbers.size(job.tape.resolution, inches)}, "
        f"{numbers.size(job.tape.thickness, inches)} thick",
    ]
    return lines + [f"- accepted {code}: {why}" for code, why in job.accepted.items()]


def _head(head: Head, inches: bool) -> str:
    return f"{head.shape.value}, wall {numbers.size(head.wall, inches)}, {head.steel.key}"


def _plate(plate: Plate, inches: bool) -> str:
    arm = plate.arm.kind.value if plate.arm else "no"
    return (
        f"{plate.name}, {len(plate.heights)} of {numbers.size(plate.thickness, inches)}, "
        f"{plate.tabs} tabs, {arm} arm{_more(plate)}"
    )


def _more(plate: Plate) -> str:
    """What is not as usual about a plate."""
    said = []
    if plate.arm is not None and plate.arm.hand is not Hand.CLOCKWISE:
        said.append(f"{plate.arm.hand.value} hand")
    if plate.span < _FULL_TURN:
        said.append(f"segment of {degrees(plate.span):.0f}°")
    if plate.relieved is not None:
        said.append(f"{plate.relieved} of {plate.tabs} tabs relieved")
    if not plate.annealed:
        said.append("not annealed")
    if plate.holes:
        said.append(f"holes: {len(plate.holes)}")
    return "".join(f", {one}" for one in said)


def _at(name: str, height: Metre, inches: bool) -> str:
    return f"{name} at {numbers.circumference(height, inches)}"


def _supply(job: Job, inches: bool) -> str:
    supply = job.supply
    if supply.kind is None:
        return "not stated"
    relief = "no relief valve"
    if supply.relief_pressure is not None:
        relief = f"relief at {numbers.pressure(supply.relief_pressure, inches)}"
    return f"{supply.kind}, {relief}, {'vented' if supply.vent else 'NO vent'}"


def _gauge(job: Job, inches: bool) -> str:
    gauge = job.gauge
    if gauge is None:
        return "not stated"
    return (
        f"to {numbers.pressure(gauge.range, inches)}, class {float(gauge.accuracy_class):g}, "
        f"{numbers.circumference(gauge.height, inches)} above the lower tangent line"
    )
