"""Pictures of steels: one curve with its points, range and spread, or several side by side."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from stretchform.report import chart_look as look
from stretchform.report import words_basis
from stretchform.report import words_numbers as numbers
from stretchform.report.chart_picture import Picture
from stretchform.steel.certificate import true_proof
from stretchform.steel.grade import Basis, Steel
from stretchform.steel.properties import uniform_strain
from stretchform.steel.spread import stress_band

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from stretchform.si import Array

MOST = len(look.SERIES)  # curves that one picture can still tell apart
_ACROSS = "plastic strain (true), %"
_UPWARD = "flow stress (true), MPa"
_POINTS = 240


def steel(
    shown: Steel, points: "tuple[Array, Array] | None" = None, named: str = "measured points"
) -> Picture:
    """The curve of a steel over its range, its band, and what it rests on.

    `points` are measured plastic strains and true stresses (Pa), `named` what they are.
    """
    title = f"{shown.key}{', invented' if shown.invented else ''}: flow stress"
    with look.drawing("steel"):
        figure = look.sheet()
        axes = look.frame(figure, _ACROSS, _UPWARD)
        look.heading(figure, f"{title} - {words_basis.basis_name(shown)}")
        strains = _strains(shown)
        low, high = stress_band(
            shown.curve, shown.strength_half_width, shown.steepness_half_width, strains
        )
        _limits(axes, shown, float(high[-1]), points)
        look.band(axes, 100.0 * strains, low / 1e6, high / 1e6)
        look.line(axes, 100.0 * strains, _stress(shown, strains), look.LIKELY)
        _measured(axes, points, named)
        _certificate(axes, shown)
        _range(axes, shown)
        _band_label(axes, shown, strains, high / 1e6)
    return Picture("steel", title, _description(shown, points, named), figure)


def _strains(shown: Steel) -> "Array":
    """Points that crowd where the curve bends, from its start to its limit.

    Never quite zero: a power law has no stress there.
    """
    start, limit = max(shown.curve.strain_start, 1e-5), shown.curve.strain_limit
    return start + (limit - start) * np.linspace(0.0, 1.0, _POINTS) ** 2


def _stress(shown: Steel, strains: "Array") -> "Array":
    return np.asarray(shown.curve.stress(strains), dtype=np.float64) / 1e6


def _limits(
    axes: "Axes", shown: Steel, stress: float, points: "tuple[Array, Array] | None"
) -> None:
    """Room for the range, the band and every measured point."""
    strain = shown.curve.strain_limit
    if points is not None:
        strain = max(strain, float(np.max(points[0])))
        stress = max(stress, float(np.max(points[1])))
    axes.set_xlim(0.0, 106.0 * strain)
    axes.set_ylim(0.0, 1.1e-6 * stress)


def _measured(axes: "Axes", points: "tuple[Array, Array] | None", named: str) -> None:
    if points is None:
        return
    strains, stresses = 100.0 * points[0], points[1] / 1e6
    look.dots(axes, strains, stresses)
    place = int(np.searchsorted(strains, 0.3 * strains[-1]))
    look.label(
        axes,
        (float(strains[place]), float(stresses[place])),
        f"{len(strains)} {named}",
        (14.0, -34.0),
        upright="top",
        lead=True,
    )


def _certificate(axes: "Axes", shown: Steel) -> None:
    """The strengths that the curve had to meet, as true values."""
    for name, strain, stress, text in _given(shown):
        look.mark(axes, 100.0 * strain, stress / 1e6)
        if not text:
            continue
        place = (100.0 * strain, stress / 1e6)
        if name == "tensile":
            look.label(axes, place, text, (-10.0, -48.0), "right", upright="top", lead=True)
        else:
            look.label(axes, place, text, (14.0, -18.0), "left", upright="top", lead=True)


def _given(shown: Steel) -> list[tuple[str, float, float, str]]:
    """Name, plastic strain, true stress and words of the strengths behind the curve."""
    data = {name.rpartition(".")[2]: datum for name, datum in shown.data if "certif" in name}
    modulus = shown.youngs_modulus.value
    found = []
    for name, offset, word in (("proof_02", 0.002, "Rp0.2"), ("proof_10", 0.010, "Rp1.0")):
        if name in data:
            strain, stress = true_proof(data[name].value, offset, modulus)
            text = f"{word} {numbers.stress(data[name].value)}"
            found.append((name, float(strain), float(stress), text))
    if len(found) == 2:  # they stand too near each other for two labels
        (first, *point, text), (_, *second, more) = found
        found = [
            (first, point[0], point[1], ""),
            ("both", second[0], second[1], f"{text}, {more}"),
        ]
    if "tensile" in data:
        found.append(_tensile(shown, data["tensile"].value))
    return found


def _tensile(shown: Steel, tensile: float) -> tuple[str, float, float, str]:
    """Where the tensile strength stands as true stress: at the end of even stretching."""
    strain = min(float(uniform_strain(shown.curve)), shown.curve.strain_limit)
    text = f"Rm {numbers.stress(tensile)}, as true stress"
    return "tensile", strain, tensile * float(np.exp(strain)), text


def _range(axes: "Axes", shown: Steel) -> None:
    """Where the curve may be used."""
    start, limit = 100.0 * shown.curve.strain_start, 100.0 * shown.curve.strain_limit
    look.upright(axes, limit, look.LIMIT)
    top = axes.get_ylim()[1]
    text = f"used up to {limit:.0f} %"
    if start > 0.0:
        look.upright(axes, start, look.LIMIT)
        text = f"used from {start:.1f} to {limit:.0f} %"
    look.label(axes, (limit, 0.04 * top), text, (-4.0, 0.0), "right")


def _band_label(axes: "Axes", shown: Steel, strains: "Array", high: "Array") -> None:
    place = int(np.searchsorted(strains, 0.45 * strains[-1]))
    width = numbers.percent(shown.strength_half_width, 0)
    text = f"band: 5 to 95 %,\nstrength within {width}"
    at = (100.0 * float(strains[place]), float(high[place]))
    look.label(axes, at, text, (-8.0, 3.0), "right", upright="bottom")


def _description(shown: Steel, points: "tuple[Array, Array] | None", named: str) -> str:
    wanted = [x for x in (0.02, 0.05, 0.10, 0.20) if x <= shown.curve.strain_limit]
    steps = ", ".join(
        f"{numbers.stress(float(shown.curve.stress(x)))} at {numbers.percent(x, 0)}"
        for x in wanted
        if x >= shown.curve.strain_start
    )
    count = "" if points is None else f" {len(points[0])} {named} are marked."
    return (
        f"Flow stress of {shown.key} rises with plastic strain: {steps}. Rests on: "
        f"{words_basis.basis_name(shown)}.{count}"
    )


def steels(shown: Sequence[Steel]) -> Picture:
    """The curves of up to six steels, each named at its end."""
    title = "Flow stress of " + ", ".join(item.key for item in shown)
    with look.drawing("steels"):
        figure = look.sheet()
        axes = look.frame(figure, _ACROSS, _UPWARD, (17.0, 14.0, 47.0, 9.0))
        look.heading(figure, "Flow stress, side by side")
        limit = min(0.40, max(item.curve.strain_limit for item in shown))
        ends = [_drawn(axes, item, index, limit) for index, item in enumerate(shown)]
        axes.set_xlim(0.0, 100.0 * limit)
        axes.set_ylim(0.0, 1.08 * max(end[1] for end in ends))
        look.end_labels(axes, ends, 7.2)
    return Picture("steels", title, " ".join(map(_one_line, shown)), figure)


def _drawn(
    axes: "Axes", item: Steel, index: int, limit: float
) -> tuple[float, float, str, look.Stroke]:
    strains = _strains(item)
    strains = np.append(strains[strains < limit], min(limit, item.curve.strain_limit))
    stresses, stroke = _stress(item, strains), look.SERIES[index]
    look.line(axes, 100.0 * strains, stresses, stroke)
    text = f"{item.key}\n{_SHORT[item.basis]}"
    return 100.0 * float(strains[-1]), float(stresses[-1]), text, stroke


_SHORT = {
    Basis.COUPON: "own tensile test",
    Basis.TRIAL: "own trial cylinder",
    Basis.CERTIFICATE: "certificate",
    Basis.TYPICAL: "typical values",
    Basis.TEXTBOOK: "textbook pair",
}


def _one_line(item: Steel) -> str:
    at = min(0.10, item.curve.strain_limit)
    stress = numbers.stress(float(item.curve.stress(at)))
    return f"{item.key}: {stress} at {numbers.percent(at, 0)} plastic strain."
