"""Certificates beside the minima of the standards."""

import pytest

from stretchform.errors import DataError
from stretchform.files.minima import load_minima
from stretchform.sources import How
from stretchform.steel.grade import Certificate
from stretchform.steel.minima import (
    certificate_findings,
    minima_of,
    refuse_minimum_only,
    repeats_minimum,
)

MPA = 1e6
ROWS = minima_of(("1.4307", "304L"), load_minima())


def certificate(proof, tensile, middle=None, **kwargs):
    middle = None if middle is None else middle * MPA
    return Certificate(proof * MPA, tensile * MPA, proof_10=middle, **kwargs)


def codes(*args, **kwargs):
    return {
        finding.code for finding in certificate_findings(certificate(*args, **kwargs), ROWS)
    }


def test_a_usual_certificate_raises_nothing():
    assert codes(295, 650, 325, elongation=0.52) == set()


@pytest.mark.parametrize(
    ("args", "code"),
    [
        ((160, 600), "below_minimum_proof_02"),
        ((290, 470), "below_minimum_tensile"),
        ((230, 600, 235), "below_minimum_proof_10"),
        ((295, 720), "above_maximum_tensile"),
        ((390, 690), "perhaps_tempered"),
        ((220, 520, 250), "repeats_minimum"),
        ((170, 485), "repeats_minimum"),
    ],
)
def test_an_odd_certificate_is_named(args, code):
    assert code in codes(*args)


def test_low_elongation_is_named():
    assert "below_minimum_elongation" in codes(295, 650, elongation=0.30)


@pytest.mark.parametrize(
    "paper", [certificate(220, 520, 250), certificate(295, 650, minimum_only=True)]
)
def test_minima_are_refused_as_the_basis_of_a_forecast(paper):
    assert repeats_minimum(paper, ROWS)
    with pytest.raises(DataError, match="minima of the standard"):
        refuse_minimum_only(paper, ROWS, "job.toml: certificate")


def test_a_measured_certificate_is_not_refused():
    refuse_minimum_only(certificate(221, 655), ROWS, "job.toml: certificate")
    assert not repeats_minimum(certificate(220, 655), ROWS)  # one equal value may be chance


def test_a_grade_without_rows_says_so():
    assert certificate_findings(certificate(295, 650), ())[0].code == "no_minimum_known"


def test_rows_from_memory_are_said_to_be():
    rows = minima_of(("1.4541", "321"), load_minima())
    assert all(row.strengths_how is How.MEMORY for row in rows)
    found = certificate_findings(certificate(250, 570), rows)
    assert found[0].code == "minimum_from_memory"


@pytest.mark.parametrize(
    ("grade", "product", "proof", "tensile"),
    [
        ("1.4307", "cold rolled strip to 8 mm", 220, 520),
        ("1.4318", "hot rolled plate to 75 mm", 330, 630),
        ("S30403", "flat", 170, 485),
        ("S30153", "flat", 240, 550),
    ],
)
def test_seen_minima_stand_in_the_table(grade, product, proof, tensile):
    rows = [r for r in load_minima() if r.grade == grade and r.product == product]
    assert (rows[0].proof_02, rows[0].tensile) == (proof * MPA, tensile * MPA)
    assert rows[0].strengths_how is How.SEEN


def test_typical_sheet_is_stronger_than_its_minimum():
    # seen typical values over minima: 295/220, 300/240, 360/350
    ratios = []
    for names, proof in ((("1.4307",), 295), (("1.4404",), 300), (("1.4318",), 360)):
        rows = minima_of(names, load_minima())
        ratios.append(proof * MPA / max(row.proof_02 for row in rows))
    assert ratios == pytest.approx([1.34, 1.25, 1.03], abs=0.006)
