"""Random edits of a coupon file end in a curve or in an InputError, never in anything else."""

import numpy as np
import pytest
from fit_files import plain
from laws import campaign_size

from stretchform.errors import InputError, NoSolution
from stretchform.files.coupon import read_coupon
from stretchform.files.coupon_columns import CouponOptions
from stretchform.steel.fit import fit_tensile
from stretchform.steel.tensile import evaluate

PIECES = [
    ";",
    ",",
    ".",
    "\t",
    "-",
    "e9",
    "nan",
    "%",
    "MPa",
    "true ",
    "\n",
    "\ufeff",
    "1e308",
    "  ",
]


def edited(text, rng):
    for _ in range(rng.integers(1, 6)):
        start = int(rng.integers(0, len(text)))
        end = min(len(text), start + int(rng.choice([0, 1, 5, 200, 4000])))
        kind = rng.integers(4)
        piece = PIECES[int(rng.integers(len(PIECES)))]
        middle = ["", piece, text[start:end] * 2, text[start:end][::-1]][kind]
        text = text[:start] + middle + text[end:]
        if not text:
            return ""
    return text


def outcome(path, text):
    path.write_text(text, encoding="utf-8")
    try:
        fit = fit_tensile(evaluate(read_coupon(path, CouponOptions(kind="engineering")).record))
    except (InputError, NoSolution) as error:
        assert error.where and error.problem and error.fix
        return "refused"
    assert np.isfinite(fit.chosen.curve.stress(0.05))
    return "read"


def run(path, count, seed):
    source = plain()
    sources = (source, source.replace(",", ";").replace(".", ","))
    rng = np.random.default_rng(seed)
    return [outcome(path, edited(sources[i % 2], rng)) for i in range(count)]


def test_sixty_random_edits_end_in_words(tmp_path):
    found = run(tmp_path / "edited.csv", 60, 1)
    assert set(found) == {"read", "refused"}


@pytest.mark.campaign
def test_many_random_edits_end_in_words(tmp_path):
    assert set(run(tmp_path / "edited.csv", campaign_size(5000), 2)) == {"read", "refused"}
