"""The plan as one self-contained HTML file, in the order in which a person must read it.

Tables and sentences are those of the screen; pictures stand between them. What a block caution
withholds on the screen is withheld here too.
"""

from collections.abc import Mapping
from dataclasses import replace

from stretchform import __version__
from stretchform.planning.plan import MODEL, Plan
from stretchform.report import (
    chart,
    html,
    terminal,
    terminal_ends,
    terminal_plates,
    terminal_pressure,
    terminal_stations,
    terminal_steps,
    words_basis,
    words_page,
    words_steps,
)
from stretchform.report.chart_picture import Picture
from stretchform.report.html import Part, Section
from stretchform.report.tables import Lines
from stretchform.si import Array
from stretchform.sources import Source
from stretchform.steel.grade import Steel

Points = Mapping[str, tuple[Array, Array]]  # plastic strain and true stress by steel


def page(
    plan: Plan,
    bibliography: Mapping[str, Source],
    inches: bool = False,
    points: Points | None = None,
) -> str:
    """The whole page as text. `points` are measured points of steels, by their key."""
    return html.render(
        "page.html",
        title=terminal.title(plan).title,
        invented=words_basis.EXAMPLE if plan.job.example else "",
        fingerprint=plan.fingerprint,
        page_word=words_page.PAGE,
        narrow=words_page.NARROW,
        danger=terminal.danger(plan, inches),
        head=_head(plan),
        sections=[
            one for one in _sections(plan, bibliography, inches, points or {}) if one.parts
        ],
        foot=words_page.foot(plan, __version__, MODEL),
    )


def _head(plan: Plan) -> Lines:
    """Name, note and fingerprint; that it is invented stands above on every page."""
    title = terminal.title(plan)
    kept = tuple(line for line in title.lines if line != words_basis.EXAMPLE)
    return Lines(title.title, kept)


def _sections(
    plan: Plan, bibliography: Mapping[str, Source], inches: bool, points: Points
) -> list[Section]:
    shown = not plan.withheld_by
    pressures: list[Part] = list(terminal_pressure.blocks(plan, inches)) if shown else []
    work: list[Part] = list(terminal_steps.blocks(plan, inches)) if shown else []
    validity, rests, way, sources = terminal.basis(plan, bibliography)
    return [
        _section(
            "cautions",
            *terminal.withheld(plan, inches),
            *terminal.accepted(plan, inches),
            *terminal.cautions(plan, inches),
        ),
        _section("pressure", *pressures),
        _section("tank", chart.tank(plan, inches), *terminal_stations.blocks(plan, inches)),
        _section("growth", chart.growth(plan, inches)),
        _section("profile", chart.profile(plan, inches)),
        _section("steel", *_steels(plan, points), rests, way),
        _section("steps", *work),
        _section("plates", *_plates(plan, inches)),
        _section("heads", *terminal_ends.blocks(plan, inches)),
        _section("water", terminal_steps.water(plan, inches), chart.energy(plan)),
        _section("holdpoints", terminal_steps.hold_points(plan, inches)),
        _section("drivers", *_drivers(plan)),
        _section("validity", validity),
        _section("sources", sources, Lines("", words_page.HOWS)),
    ]


def _section(name: str, *parts: Part) -> Section:
    return Section(name, words_page.SECTIONS[name], parts)


def _steels(plan: Plan, points: Points) -> list[Picture]:
    """One picture for each different steel of the shell, with names that do not clash."""
    found: list[Steel] = []
    for course in plan.job.tank.courses:
        if course.steel not in found:
            found.append(course.steel)
    pictures = [chart.steel(steel, points.get(steel.key)) for steel in found]
    return [
        replace(picture, name=f"steel-{number}") for number, picture in enumerate(pictures, 1)
    ]


def _plates(plan: Plan, inches: bool) -> list[Part]:
    if not plan.plates:
        return []
    return [
        terminal_plates.overview(plan, inches),
        *terminal_plates.details(plan, None, inches, heights=False),
    ]


def _drivers(plan: Plan) -> list[Part]:
    shares = [
        (words_steps.unknown(item), item.of_growth)
        for item in plan.drivers
        if item.of_growth >= terminal_steps.LEAST_SHARE
    ]
    return [chart.drivers(shares), *terminal_steps.drivers(plan)]
