"""The fit of a trial cylinder as blocks for the screen."""

import numpy as np

from stretchform.planning.trial import TrialFit, trial_pressure
from stretchform.report import words_basis, words_fit
from stretchform.report import words_numbers as numbers
from stretchform.report.tables import Block, Column, Lines, Table
from stretchform.report.terminal_fit import INVENTED
from stretchform.steel.grade import Steel

_GROWTHS = (0.01, 0.02, 0.03, 0.04, 0.05, 0.06, 0.08)
_QUANTILE_95 = 1.6449


def blocks(
    file: str,
    repairs: tuple[tuple[str, str], ...],
    fit: TrialFit,
    before: Steel,
    after: Steel,
) -> list[Block]:
    """Everything about a trial cylinder; `before` is its steel as it was known."""
    return [
        _title(file, fit, before, after),
        _found(fit),
        Lines("What was mended or found odd", tuple(_said(file, repairs, fit))),
        _pressures(fit),
        Lines("How good this basis is", tuple(_worth(fit, before))),
    ]


def _title(file: str, fit: TrialFit, before: Steel, after: Steel) -> Lines:
    lines = [INVENTED] if after.invented else []
    left = f", {fit.left_out} below 0.3 % growth left out" if fit.left_out else ""
    lines += [
        f"trial cylinder {file}: {fit.used} readings used{left}",
        f"largest growth read: {numbers.percent(fit.largest_growth)} under pressure",
        f"known before: {before.key}, {words_basis.basis_name(before)}",
    ]
    return Lines(f"Fit: {after.key}", tuple(lines))


def _found(fit: TrialFit) -> Table:
    stds, strength = np.sqrt(np.diag(fit.covariance)), float(fit.strength)
    likeness = fit.covariance[0, 2] / (stds[0] * stds[2])
    rows = (
        _row("strength, times the known curve at 5 %", strength, strength * stds[0]),
        _row("steepness, times its logarithmic slope", float(fit.steepness), stds[1]),
        _row("C: hoop over uniaxial flow stress", float(fit.criterion), stds[2]),
    )
    columns = (Column("found", right=False), Column("likely"), Column("standard\nuncertainty"))
    notes = (
        "The slowness of forming is in the strength: it was read at the end of holds.",
        f"Strength and C are bound to each other (correlation {likeness:+.2f}): pressure tells "
        "their product. A forecast draws all three together.",
    )
    return Table("Strength, slope and yield rule together", columns, rows, notes)


def _row(name: str, value: float, std: float) -> tuple[str, ...]:
    return name, f"{value:.3f}", f"{std:.3f}"


def _said(file: str, repairs: tuple[tuple[str, str], ...], fit: TrialFit) -> list[str]:
    lines = [f"- {file}: {words_fit.repair(*repair)}" for repair in repairs]
    lines += [f"- {words_fit.TRIAL[code]}" for code in fit.findings]
    worst = float(np.max(np.abs(fit.residuals)))
    lines.append(f"- Readings lie within {numbers.percent(worst)} of the fit.")
    return lines


def _pressures(fit: TrialFit) -> Table:
    growths = np.array(_GROWTHS)
    mean, std = trial_pressure(fit, growths)
    rows = tuple(
        (
            numbers.percent(growth, 0),
            *(
                numbers.bare(numbers.pressure(likely + turn * _QUANTILE_95 * spread))
                for turn in (-1.0, 0.0, 1.0)
            ),
            "read" if growth <= fit.largest_growth else "foretold",
        )
        for growth, likely, spread in zip(_GROWTHS, np.ravel(mean), np.ravel(std), strict=True)
    )
    columns = (
        Column("growth under\npressure"),
        *(Column(head) for head in ("low (5 %)", "likely", "high (95 %)")),
        Column("", right=False),
    )
    return Table("Pressure of this cylinder, far from its ends, MPa (bar)", columns, rows)


def _worth(fit: TrialFit, before: Steel) -> list[str]:
    mean, std = trial_pressure(fit, 0.05)
    half = _QUANTILE_95 * float(np.ravel(std)[0] / np.ravel(mean)[0])
    return [
        f"- The pressure at 5 % growth is known within {numbers.percent(half, 1)} (5 to 95 %). "
        f"The curve known before was good for {numbers.percent(before.strength_half_width, 0)} "
        "of strength alone.",
        "- It is the best basis there is: same coil, same slowness, both directions pulled.",
        "- It holds for this coil and for water of the temperature that was in the cylinder; "
        "the wall, gauge and tape of the trial are in it with their errors.",
    ]
