"""What stands in and on the tank of a job file: stations, plates, openings."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import pi

from stretchform import units
from stretchform.files.job_mistakes import Mistakes, written
from stretchform.files.job_steels import Steels
from stretchform.files.job_tables import ArmTable, OpeningTable, PlateTable, StationTable
from stretchform.files.job_tank import like_text
from stretchform.files.toml_lines import Path
from stretchform.planning.tank import (
    Arm,
    ArmKind,
    Course,
    Hand,
    Opening,
    Plate,
    PlateHole,
    Station,
)

LARGEST = "largest"  # as a target's station: wherever the growth is largest
_ENDS = ("head.bottom", "head.top")


@dataclass(frozen=True, slots=True)
class Shell:
    """The courses between the tangent lines, with the straight flanges of the heads."""

    courses: Sequence[Course]
    start: float = 0.0  # height of the first course above the lower tangent line
    top_flange: float = 0.0

    @property
    def length(self) -> float:
        """From tangent line to tangent line."""
        courses = sum(float(course.length) for course in self.courses)
        return self.start + courses + self.top_flange


def refuse_twins(group: str, names: Sequence[str | None], mistakes: Mistakes) -> None:
    """Two of a kind with one name cannot be told apart."""
    seen: set[str] = set()
    for index, name in enumerate(names):
        if name is not None and name in seen:
            free = next(f"{name} {n}" for n in range(2, 999) if f"{name} {n}" not in names)
            problem = f"a second {group} of this name"
            mistakes.add((group, index, "name"), problem, units.line("", free))
        seen.add(name or "")


def stations(
    tables: Sequence[StationTable | None], shell: Shell, mistakes: Mistakes
) -> list[Station]:
    """The stations of the file, or one at mid-length of each course, named after it."""
    refuse_twins("station", [t.name if t else None for t in tables], mistakes)
    if not tables:
        return _middles(shell)
    made = []
    for index, table in enumerate(tables):
        if table is None:
            continue
        path = ("station", index)
        if table.name == LARGEST:
            problem = "this word stands for the largest growth in [target]"
            mistakes.add((*path, "name"), problem, '"middle"')
        if _inside(table.height, (*path, "height"), shell, mistakes):
            name = _course_at(table.height, shell).name
            made.append(Station(table.name, table.height, name))
    return made


def _middles(shell: Shell) -> list[Station]:
    made, bottom = [], shell.start
    for course in shell.courses:
        made.append(Station(course.name, bottom + 0.5 * float(course.length), course.name))
        bottom += float(course.length)
    return made


def _course_at(height: float, shell: Shell) -> Course:
    top = shell.start
    for course in shell.courses:
        top += float(course.length)
        if height < top:
            return course
    return shell.courses[-1]


def _inside(
    height: float, path: Path, shell: Shell, mistakes: Mistakes, what: str = ""
) -> bool:
    """Whether a height lies between the tangent lines; if not, it is added as a mistake."""
    if height <= shell.length:
        return True
    problem = f"{what}above the shell, which is {units.write(shell.length, 'mm', 1)} long"
    mistakes.add(path, problem, like_text(mistakes.text(path), 0.5 * shell.length))
    return False


def plates(
    tables: Sequence[PlateTable | None],
    shell: Shell,
    steels: Steels,
    mistakes: Mistakes,
) -> list[Plate]:
    """The rows of plates, each at its heights above the lower tangent line."""
    refuse_twins("plate", [t.name if t else None for t in tables], mistakes)
    made = [
        _plate(table, ("plate", index), shell, steels, mistakes)
        for index, table in enumerate(tables)
        if table is not None
    ]
    return [plate for plate in made if plate is not None]


def _plate(
    table: PlateTable,
    path: Path,
    shell: Shell,
    steels: Steels,
    mistakes: Mistakes,
) -> Plate | None:
    before = len(mistakes.found)
    heights = _heights(table, path, shell, mistakes)
    if heights and _inside(heights[0], (*path, "first"), shell, mistakes):
        key = "count" if table.count > 1 else "first"
        _refuse_top(heights, (*path, key), shell, table, mistakes)
    _refuse_widths(table, path, shell, mistakes)
    steel = None
    if table.steel is not None:
        steel = steels.get(table.steel, table.certificate, (*path, "steel"))
    elif table.certificate is not None:
        fix = 'steel = "1.4307"'
        mistakes.add_line((*path, "certificate"), "a certificate without a steel", fix)
    arm = _arm(table.arm, (*path, "arm"), table, mistakes) if table.arm else None
    _refuse_relieved(table, path, mistakes)
    holes = _holes(table, path, shell, mistakes)
    if len(mistakes.found) > before:
        return None
    return Plate(
        table.name,
        heights,
        table.thickness,
        table.ring_width,
        table.tabs,
        table.tab_clearance,
        table.tab_length,
        arm,
        steel,
        table.span,
        table.relieved,
        table.annealed,
        table.notches,
        holes,
    )


def _refuse_relieved(table: PlateTable, path: Path, mistakes: Mistakes) -> None:
    """No more tabs can have an arm than there are, and without an arm none has one."""
    if table.relieved is None:
        return
    if table.arm is None:
        fix = f"# relieved = {table.relieved}"
        mistakes.add_line((*path, "relieved"), "a plate without arms relieves no tab", fix)
    elif table.relieved > table.tabs:
        problem = f"more than the plate's {table.tabs} tabs"
        mistakes.add((*path, "relieved"), problem, str(table.tabs))


def _holes(
    table: PlateTable, path: Path, shell: Shell, mistakes: Mistakes
) -> tuple[PlateHole, ...]:
    """Holes of the plate; each has to lie inside its rim."""
    rim = _bore(shell) - table.tab_clearance
    made = []
    for index, hole in enumerate(table.hole):
        if hole.from_centre + 0.5 * hole.diameter >= rim:
            place = (*path, "hole", index, "from_centre")
            cure = like_text(mistakes.text(place), 0.5 * rim)
            problem = f"outside the plate, whose radius is {units.write(rim, 'mm', 1)}"
            mistakes.add(place, problem, cure)
        made.append(PlateHole(hole.diameter, hole.from_centre, hole.angle))
    return tuple(made)


def _bore(shell: Shell) -> float:
    """Inside radius of the smallest course."""
    return min(float(course.radius) - 0.5 * float(course.wall) for course in shell.courses)


def _heights(
    table: PlateTable, path: Path, shell: Shell, mistakes: Mistakes
) -> tuple[float, ...]:
    if table.count > 1 and table.pitch is None:
        problem = f"pitch is missing for {table.count} plates"
        mistakes.add_line(path, problem, 'pitch = "125 mm"')
        return ()
    pitch = table.pitch or 0.0
    if table.count > 1 and pitch <= table.thickness:
        place = (*path, "pitch")
        cure = like_text(mistakes.text(place), 20.0 * table.thickness)
        mistakes.add(place, "not larger than the plate's thickness", cure)
        return ()
    return tuple(table.first + number * pitch for number in range(table.count))


def _refuse_top(
    heights: tuple[float, ...],
    path: Path,
    shell: Shell,
    table: PlateTable,
    mistakes: Mistakes,
) -> None:
    length = shell.length
    if len(heights) > 1 and heights[-1] > length:
        fitting = sum(height <= length for height in heights)
        problem = (
            f"plate {len(heights)} would stand at {units.write(heights[-1], 'mm', 1)}, "
            f"above the shell, which is {units.write(length, 'mm', 1)} long"
        )
        mistakes.add(path, problem, str(fitting))


def _refuse_widths(table: PlateTable, path: Path, shell: Shell, mistakes: Mistakes) -> None:
    """Ring, gap and tabs have to fit into the smallest course."""
    inside = _bore(shell)
    size = f"inside radius of the tank, {units.write(inside, 'mm', 1)}"
    for key, share in (("ring_width", 1.0), ("tab_clearance", 0.25)):
        value = getattr(table, key)
        if value is not None and value >= share * inside:
            part = "" if share == 1.0 else f"{share:g} of "
            cure = like_text(mistakes.text((*path, key)), 0.1 * share * inside)
            mistakes.add((*path, key), f"not smaller than {part}the {size}", cure)
    if table.tabs * table.tab_length >= 2.0 * pi * inside:
        cure = like_text(mistakes.text((*path, "tab_length")), 0.02)
        problem = f"{table.tabs} tabs of this length do not fit on the circumference"
        mistakes.add((*path, "tab_length"), problem, cure)


def _arm(table: ArmTable, path: Path, plate: PlateTable, mistakes: Mistakes) -> Arm:
    kind = ArmKind(table.kind)
    if plate.ring_width is not None and table.depth >= plate.ring_width:
        place = (*path, "depth")
        cure = like_text(mistakes.text(place), 0.1 * plate.ring_width)
        mistakes.add(place, "not smaller than the ring's width", cure)
    if kind is ArmKind.FOLDED and table.limbs is None:
        mistakes.add_line(path, "limbs is missing for a folded arm", "arm.limbs = 2")
    if kind is not ArmKind.FOLDED and table.limbs is not None:
        problem = f"a {kind.value} arm has no limbs"
        mistakes.add_line((*path, "limbs"), problem, f"# arm.limbs = {table.limbs}")
    limbs = table.limbs or 1
    return Arm(kind, table.depth, table.length, limbs, table.straight, Hand(table.hand))


def openings(
    tables: Sequence[OpeningTable | None], shell: Shell, mistakes: Mistakes
) -> list[Opening]:
    """Ports, pads and lugs; one in a course has a height, one in a head has none."""
    refuse_twins("opening", [t.name if t else None for t in tables], mistakes)
    made = [
        _opening(table, ("opening", index), shell, mistakes)
        for index, table in enumerate(tables)
        if table is not None
    ]
    return [opening for opening in made if opening is not None]


def _opening(
    table: OpeningTable, path: Path, shell: Shell, mistakes: Mistakes
) -> Opening | None:
    before = len(mistakes.found)
    spans = _spans(shell)
    known = [*spans, *_ENDS]
    if table.place not in known:
        from difflib import get_close_matches

        near = get_close_matches(table.place, known, n=1, cutoff=0.0)[0]
        problem = f"no such place (known: {', '.join(known)})"
        mistakes.add((*path, "in"), problem, units.line("", near))
        return None
    if table.place in _ENDS and table.height is not None:
        fix = f"# height = {written(mistakes.text((*path, 'height')))}"
        mistakes.add_line((*path, "height"), "an opening in a head has no height", fix)
    if table.place in spans:
        low, high = spans[table.place]
        sample = f'"{units.write(0.5 * (low + high), "mm", 0)}"'
        if table.height is None:
            mistakes.add_line(path, "height is missing", f"height = {sample}")
        elif not low <= table.height <= high:
            problem = f"not in {written(table.place)}, which spans {_span(low, high)}"
            mistakes.add((*path, "height"), problem, sample)
    inside = _bore(shell)
    if table.bore >= inside:
        cure = like_text(mistakes.text((*path, "bore")), 0.1 * inside)
        mistakes.add((*path, "bore"), "not smaller than the inside radius of the tank", cure)
    if len(mistakes.found) > before:
        return None
    return Opening(table.name, table.place, table.bore, table.height)


def _span(low: float, high: float) -> str:
    return f"{units.write(low, 'mm', 0)} to {units.write(high, 'mm', 0)}"


def _spans(shell: Shell) -> dict[str, tuple[float, float]]:
    spans, bottom = {}, shell.start
    for course in shell.courses:
        spans[course.name] = (bottom, bottom + float(course.length))
        bottom += float(course.length)
    return spans
