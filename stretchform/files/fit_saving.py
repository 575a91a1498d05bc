"""A fit as it would be loaded, and its three files: all of them or none."""

from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np

from stretchform.errors import InputError
from stretchform.files.coupon_fit import FitResult, TrialResult, fit_coupons, fit_trial_file
from stretchform.files.fit_options import FitTexts, coupon_options, trial_options
from stretchform.files.judged import load_judged
from stretchform.files.minima import load_minima
from stretchform.files.steel_writer import SteelText, coupon_steel, trial_steel
from stretchform.files.steels import list_steels, load_steel
from stretchform.planning.trial import points_before_factors, triangular_median
from stretchform.si import Array
from stretchform.steel.grade import Certificate, Steel
from stretchform.steel.minima import certificate_findings, minima_of
from stretchform.steel.tensile import Finding


@dataclass(frozen=True, slots=True)
class Fitted:
    """A fit, the text of its files, and the steel that these files give when loaded."""

    result: FitResult | TrialResult
    name: str
    text: SteelText
    steel: Steel
    findings: tuple[Finding, ...]  # its strengths beside the standards' minima of its grade


def read_fit(
    paths: tuple[Path, ...], texts: FitTexts, trial: bool, paper: Certificate | None
) -> FitResult | TrialResult:
    """The fit of files with what a person says about them; a trial is one file.

    Raises InputError or InputErrors for files and options, NoSolution where no law fits.
    """
    if not trial:
        return fit_coupons(paths, coupon_options(texts))
    if len(paths) != 1:
        fix = 'stretchform fit --trial readings.csv --like 1.4307 --wall "2.0 mm"'
        raise InputError("stretchform fit", f"a trial is one file, not {len(paths)}", fix)
    return fit_trial_file(paths[0], trial_options(texts, paper))


def fitted(result: FitResult | TrialResult, name: str, title: str) -> Fitted:
    """The fit with its steel, loaded from files as a job would load it.

    Raises InputError for a name that is not one word.
    """
    if isinstance(result, FitResult):
        text = coupon_steel(result, name, title)
    else:
        text = trial_steel(result, name, title)
    with TemporaryDirectory() as folder:
        path = save_steel(text, Path(folder), name)
        steel = load_steel(str(path), None, f"steel {name}", load_judged())
    return Fitted(result, name, text, steel, _findings(result))


def points(found: Fitted) -> tuple[Array, Array]:
    """What was measured, as plastic strain and true stress (Pa) beside the steel's curve.

    Groups of readings of the tests; readings of a trial as its curve sees them.
    """
    result = found.result
    if isinstance(result, FitResult):
        groups = result.pooled.fit.points
        return groups.strain, groups.stress
    judged, fit = load_judged(), result.fit
    c = judged.criterion
    likely = triangular_median(c.low.value, c.likely.value, c.high.value)
    strain = np.asarray(likely * np.log1p(fit.shape.strain))
    stress = np.asarray(points_before_factors(fit, judged, strain))
    return strain, stress / (1.0 + fit.residuals)


def _findings(result: FitResult | TrialResult) -> tuple[Finding, ...]:
    """What is odd in the measured strengths of coupons beside the minima of their grade."""
    if not isinstance(result, FitResult):
        return ()
    pooled = result.pooled
    if pooled.proof_02 is None or pooled.tensile is None:
        return ()
    like = result.options.like
    cards = [card for card in list_steels() if like in (card.key, *card.names)]
    names = (cards[0].key, cards[0].key.split()[0], *cards[0].names)
    measured = Certificate(pooled.proof_02, pooled.tensile, pooled.proof_10)
    found = certificate_findings(measured, minima_of(names, load_minima()))
    return tuple(finding for finding in found if finding.code != "repeats_minimum")


def place_of(output: Path) -> tuple[Path, str]:
    """Folder and name of a steel file to write. Raises InputError for another kind of file."""
    if output.suffix.lower() != ".toml":
        raise InputError(str(output), "a steel file ends in .toml", f"{output.stem}.toml")
    if output.is_dir() or not output.parent.is_dir():
        raise InputError(str(output), "its folder does not exist", output.name)
    return output.parent, output.stem


def save_steel(text: SteelText, folder: Path, name: str, replace: bool = False) -> Path:
    """Write the three files, first beside and then in their place; the path of the steel file.

    Raises InputError where one is there already and `replace` is false, or none can be written.
    """
    targets = {
        folder / f"{name}-points.csv": text.points,
        folder / f"{name}-fit.json": text.fit,
        folder / f"{name}.toml": text.steel,
    }
    there = [path for path in targets if path.exists()]
    if there and not replace:
        raise InputError(
            str(there[0]), "there is such a file already", "--replace, or a new name"
        )
    beside = {path: path.with_name(path.name + ".part") for path in targets}
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for path, content in targets.items():
            beside[path].write_text(content, encoding="utf-8", newline="\n")
        for path, part in beside.items():
            part.replace(path)
    except OSError as error:
        for part in beside.values():
            part.unlink(missing_ok=True)
        reason = error.strerror or str(error)
        raise InputError(str(folder), f"cannot be written: {reason}", f"{name}.toml") from error
    return folder / f"{name}.toml"
