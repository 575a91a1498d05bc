"""The tank of a job file: courses and heads, and what their sizes must be to each other."""

from collections.abc import Sequence
from itertools import pairwise
from math import pi

from stretchform import units
from stretchform.files.job_mistakes import Mistakes, written
from stretchform.files.job_steels import Steels
from stretchform.files.job_tables import CourseTable, HeadTable
from stretchform.files.toml_lines import Path
from stretchform.planning.tank import Course, Head, HeadShape, Weld
from stretchform.si import Metre
from stretchform.steel.grade import Steel
from stretchform.units.mistakes import split

SIZES = ("inside_diameter", "outside_diameter", "outside_circumference")
_RADIUS = (0.02, 5.0)  # m: the range that the formulas and their checks cover
_SLENDER = (5.0, 2000.0)  # radius over wall
_STEP = 1.25  # largest ratio of the radii of two courses that are welded together


def courses(
    tables: Sequence[CourseTable | None], steels: Steels, mistakes: Mistakes
) -> list[Course | None]:
    """The courses from bottom to top; None for each that has a mistake."""
    made = [
        None if table is None else _course(table, ("course", index), steels, mistakes)
        for index, table in enumerate(tables)
    ]
    for index, (below, above) in enumerate(pairwise(made), start=1):
        if below is not None and above is not None:
            _refuse_step(below, above, ("course", index), mistakes)
    return made


def _course(
    table: CourseTable, path: Path, steels: Steels, mistakes: Mistakes
) -> Course | None:
    radius = _radius(table, path, mistakes)
    steel = steels.get(table.steel, table.certificate, (*path, "steel"))
    if table.wall_tolerance > 0.25 * table.wall:
        quarter = like_text(mistakes.text((*path, "wall_tolerance")), 0.05 * table.wall)
        mistakes.add((*path, "wall_tolerance"), "more than a quarter of the wall", quarter)
    if radius is None or steel is None:
        return None
    weld = _weld(table, path, mistakes)
    return Course(
        table.name, table.length, radius, table.wall, table.wall_tolerance, steel, weld
    )


def _weld(table: CourseTable, path: Path, mistakes: Mistakes) -> Weld | None:
    """The seam; an undercut that leaves less than half of it is a slip or a hole."""
    seam = table.weld
    if seam is None:
        return None
    left = min(table.wall, seam.thickness or table.wall) - (seam.undercut or 0.0)
    if left < 0.5 * table.wall:
        key = "undercut" if seam.undercut else "thickness"
        cure = (
            '"0.1 mm"'
            if seam.undercut
            else like_text(mistakes.text((*path, "wall")), 0.95 * table.wall)
        )
        problem = "less than half of the wall is left in the seam"
        mistakes.add((*path, "weld", key), problem, cure)
    return Weld(seam.filler, seam.elongation, seam.undercut, seam.thickness)


def _radius(table: CourseTable, path: Path, mistakes: Mistakes) -> float | None:
    """Mid-wall radius from the one size that is given."""
    given = [size for size in SIZES if getattr(table, size) is not None]
    if len(given) != 1:
        problem = f"one size is needed, {len(given)} are given"
        if given:
            mistakes.add_line((*path, given[1]), problem, f"# {given[1]}")
        elif not mistakes.is_like(path):  # else it is missing, and told, there
            problem += f": {', '.join(SIZES)}"
            mistakes.add_line(path, problem, 'inside_diameter = "640 mm"')
        return None
    value: float = getattr(table, given[0])
    radius = {
        "inside_diameter": 0.5 * (value + table.wall),
        "outside_diameter": 0.5 * (value - table.wall),
        "outside_circumference": 0.5 * (value / pi - table.wall),
    }[given[0]]
    return _in_range(radius, table.wall, (*path, given[0]), mistakes)


def _in_range(radius: float, wall: float, path: Path, mistakes: Mistakes) -> float | None:
    low, high = _RADIUS
    if not low <= radius <= high:
        problem = f"a mid-wall radius of {units.write(radius, 'mm', 1)}; 20 mm to 5 m are known"
        mistakes.add(path, problem, '"640 mm"')
        return None
    low, high = _SLENDER
    if not low <= radius / wall <= high:
        problem = f"radius over wall is {radius / wall:.3g}; {low:g} to {high:g} are known"
        place = (*path[:-1], "wall")
        mistakes.add(place, problem, like_text(mistakes.text(place), radius / 200.0))
        return None
    return radius


def _refuse_step(below: Course, above: Course, path: Path, mistakes: Mistakes) -> None:
    """Courses are welded edge to edge: a large step is a slip in one of the sizes."""
    ratio = float(above.radius / below.radius)
    if 1.0 / _STEP <= ratio <= _STEP:
        return
    slip = slip_of(ratio)
    problem = f"{ratio:.2f} times the radius of {units.shown(below.name)} below it{slip}"
    size = next((s for s in SIZES if mistakes.text((*path, s))), "inside_diameter")
    value = {
        "inside_diameter": 2.0 * below.radius - above.wall,
        "outside_diameter": 2.0 * below.radius + above.wall,
        "outside_circumference": pi * (2.0 * below.radius + above.wall),
    }[size]
    mistakes.add((*path, size), problem, like_text(mistakes.text((*path, size)), value))


def slip_of(ratio: float) -> str:
    """The likely slip behind a ratio of two sizes that should be nearly the same."""
    slips = {
        0.5: "a radius for a diameter",
        2.0: "a radius for a diameter",
        pi: "a circumference for a diameter",
        1.0 / pi: "a circumference for a diameter",
        25.4: "inches for millimetres",
        1.0 / 25.4: "inches for millimetres",
    }
    near = min(slips, key=lambda known: abs(ratio / known - 1.0))
    return f": {slips[near]}?" if abs(ratio / near - 1.0) < 0.15 else ""


def like_text(text: str, value: Metre) -> str:
    """An SI length as TOML text in the unit of the user's own text."""
    unit = split(text)[1] if text else "mm"
    unit = {'"': "in", "″": "in", "'": "ft", "′": "ft"}.get(unit, unit)
    return f'"{float(f"{units.convert(value, unit):.4g}"):.10g} {unit}"'


def head(
    table: HeadTable | None,
    where: str,
    neighbour: tuple[CourseTable | None, Course | None],
    steels: Steels,
    mistakes: Mistakes,
) -> Head | None:
    """The head at one end; its steel is that of the course it is welded to unless it says so."""
    course_table, course = neighbour
    path = ("head", where)
    if table is None:
        return None
    shape = HeadShape(table.shape)
    before = len(mistakes.found)
    inherited = mistakes.inherited((*path, "shape"))  # then all of it is told there
    if table.wall is None and shape is not HeadShape.TIED and not inherited:
        sample = units.write(course.wall, "mm", 1) if course else "2.0 mm"
        cure = f'wall = "{sample}"'
        mistakes.add_line(path, "wall is missing", cure)
    if not inherited:
        _refuse_radii(table, shape, path, mistakes)
    if course is None or course_table is None:
        return None
    steel = _head_steel(table, path, course_table, course, steels)
    if shape is HeadShape.TORISPHERE:
        _refuse_torisphere(table, course, path, mistakes)
    _refuse_sizes(table, course, path, mistakes)
    if steel is None or len(mistakes.found) > before:
        return None
    return Head(
        shape,
        course.wall if table.wall is None else table.wall,
        table.straight_flange,
        steel,
        table.crown_radius,
        table.knuckle_radius,
    )


def _head_steel(
    table: HeadTable, path: Path, course_table: CourseTable, course: Course, steels: Steels
) -> Steel | None:
    if table.steel is None and table.certificate is None:
        return course.steel
    name = table.steel or course_table.steel
    place = (*path, "steel" if table.steel else "certificate")
    return steels.get(name, table.certificate, place)


def _refuse_radii(table: HeadTable, shape: HeadShape, path: Path, mistakes: Mistakes) -> None:
    """A torisphere needs both radii, no other head has any."""
    for key, sample in (("crown_radius", "640 mm"), ("knuckle_radius", "64 mm")):
        given = getattr(table, key) is not None
        if shape is HeadShape.TORISPHERE and not given:
            mistakes.add_line(path, f"{key} is missing", f'{key} = "{sample}"')
        elif shape is not HeadShape.TORISPHERE and given:
            fix = f"# {key} = {written(mistakes.text((*path, key)))}"
            mistakes.add_line((*path, key), f"{shape.value} has no {key}", fix)


def _refuse_torisphere(
    table: HeadTable, course: Course, path: Path, mistakes: Mistakes
) -> None:
    """knuckle radius <= inside radius of the tank <= crown radius, all of the inside."""
    inside = course.radius - 0.5 * course.wall
    crown, knuckle = table.crown_radius, table.knuckle_radius
    size = f"inside radius of the tank, {units.write(inside, 'mm', 1)}"
    if knuckle is not None and knuckle > inside:
        place = (*path, "knuckle_radius")
        cure = like_text(mistakes.text(place), 0.2 * inside)
        mistakes.add(place, f"larger than the {size}", cure)
    if crown is not None and crown < inside * (1.0 - 1e-6):
        place = (*path, "crown_radius")
        cure = like_text(mistakes.text(place), 2.0 * inside)
        mistakes.add(place, f"smaller than the {size}", cure)
    if crown is not None and crown > 8.0 * inside:
        place = (*path, "crown_radius")
        cure = like_text(mistakes.text(place), 2.0 * inside)
        mistakes.add(place, f"more than 8 times the {size}: a flat end", cure)


def _refuse_sizes(table: HeadTable, course: Course, path: Path, mistakes: Mistakes) -> None:
    if table.straight_flange > course.length:
        place = (*path, "straight_flange")
        cure = like_text(mistakes.text(place), min(0.025, 0.1 * course.length))
        mistakes.add(place, "longer than the course it is welded to", cure)
    if table.wall is not None and not 0.3 <= table.wall / course.wall <= 4.0:
        place = (*path, "wall")
        problem = (
            f"{table.wall / course.wall:.2g} times the wall of the shell; 0.3 to 4 are known"
        )
        mistakes.add(place, problem, like_text(mistakes.text(place), course.wall))
