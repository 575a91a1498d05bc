"""From a fit to a steel file and back; a file stripped of a source or a status is refused."""

import json
import re

import numpy as np
import pytest
from fit_files import LAW, plain

from stretchform.errors import DataError, InputError
from stretchform.files.coupon_columns import CouponOptions
from stretchform.files.coupon_fit import FitOptions, TrialOptions, fit_coupons, fit_trial_file
from stretchform.files.curves import read_points
from stretchform.files.fit_saving import save_steel
from stretchform.files.judged import load_judged
from stretchform.files.steel_writer import coupon_steel, trial_steel
from stretchform.files.steels import load_steel
from stretchform.forming import membrane
from stretchform.forming.criterion import Shape, general
from stretchform.planning.trial import trial_pressure, triangular_median
from stretchform.sources import How
from stretchform.steel.curve import Scaled, Swift
from stretchform.steel.grade import Basis, Certificate

JUDGED = load_judged()


def made(folder, **kwargs):
    path = folder / "invented coupon.csv"
    path.write_text(plain())
    return fit_coupons((path,), FitOptions(like="1.4307", invented=True, **kwargs))


@pytest.fixture
def written(tmp_path):
    result = made(tmp_path)
    path = save_steel(coupon_steel(result, "coil-1", "Invented coil"), tmp_path, "coil-1")
    return result, path


def test_a_fit_comes_back_as_the_same_curve(written):
    result, path = written
    steel = load_steel(str(path), None, "job.toml", JUDGED)
    strain = np.array([0.01, 0.05, 0.10, 0.30])
    # nine digits are written
    np.testing.assert_allclose(
        steel.curve.stress(strain), result.pooled.fit.chosen.curve.stress(strain), rtol=1e-7
    )
    np.testing.assert_allclose(steel.curve.stress(strain), LAW.stress(strain), rtol=4e-3)
    assert steel.basis is Basis.COUPON
    assert steel.strength_half_width == JUDGED.spread_coupon.value
    assert steel.invented
    assert steel.proof_02 == pytest.approx(result.pooled.proof_02, rel=1e-5)
    assert steel.tensile == pytest.approx(result.pooled.tensile, rel=1e-5)


def test_every_number_of_the_file_has_source_place_and_status(written):
    _, path = written
    steel = load_steel(str(path), None, "job.toml", JUDGED)
    own = {name: datum for name, datum in steel.data if name.startswith("curve.")}
    assert {d.how for n, d in own.items() if n != "curve.strain_start"} == {How.INVENTED}
    assert all("invented coupon.csv" in d.where for n, d in own.items() if "start" not in n)
    parameters = [d for n, d in own.items() if "strain_" not in n]
    assert all(datum.std is not None and datum.std >= 0.0 for datum in parameters)


@pytest.mark.parametrize("line", ["source", "where", "how"])
def test_a_file_stripped_of_any_such_line_is_refused(written, line):
    _, path = written
    text = path.read_text()
    places = [m.span() for m in re.finditer(rf"(?m)^{line} = .*\n", text)]
    assert len(places) >= 9
    for start, end in places:
        stripped = path.with_name("stripped.toml")
        stripped.write_text(text[:start] + text[end:])
        with pytest.raises(DataError, match=f"{line} is missing"):
            load_steel(str(stripped), None, "job.toml", JUDGED)


def test_the_measured_points_stand_beside_it(written):
    _, path = written
    strain, stress = read_points(path.with_name("coil-1-points.csv"))
    assert len(strain) > 100
    inside = strain > 0.02
    law = LAW.stress(strain[inside] - stress[inside] / 196e9)
    np.testing.assert_allclose(stress[inside], law, rtol=4e-3)  # as the reading of the record


def test_the_fit_file_holds_every_law_and_what_was_assumed(written):
    _, path = written
    report = json.loads(path.with_name("coil-1-fit.json").read_text())
    assert {law["law"] for law in report["laws"]} >= {"ludwik", "swift", "voce", "ludwigson"}
    assert report["laws"][0]["covariance"]
    codes = [code for code, _ in report["coupons"][0]["findings"]]
    assert "cut_at_necking" in codes


def test_scatter_between_coupons_widens_the_file_s_spread(tmp_path):
    paths = []
    for number, factor in enumerate((0.95, 1.0, 1.05)):
        path = tmp_path / f"coupon-{number}.csv"
        lines = plain().splitlines()
        rows = [line.split(",") for line in lines[1:]]
        scaled = [f"{a},{float(b) * factor:.6f}" for a, b in rows]
        path.write_text("\n".join([lines[0], *scaled]) + "\n")
        paths.append(path)
    result = fit_coupons(tuple(paths), FitOptions(invented=True))
    path = save_steel(coupon_steel(result, "coil-3", "Invented"), tmp_path, "coil-3")
    steel = load_steel(str(path), None, "job.toml", JUDGED)
    # 1.645 times 5 % times sqrt(4/3), and the fit's own error
    assert steel.strength_half_width == pytest.approx(0.097, abs=0.004)


def test_nothing_is_overwritten_unasked(written, tmp_path):
    result, path = written
    text = coupon_steel(result, "coil-1", "Another")
    with pytest.raises(InputError, match="already"):
        save_steel(text, tmp_path, "coil-1")
    save_steel(text, tmp_path, "coil-1", replace=True)
    assert "Another" in path.read_text()
    assert not list(tmp_path.glob("*.new"))


@pytest.mark.parametrize("name", ["", "a/b", "../x", "coil 1", "Spüle"])
def test_a_name_that_is_no_file_name_is_refused(name, tmp_path):
    with pytest.raises(InputError):
        coupon_steel(made(tmp_path), name, "x")


def test_an_unknown_like_is_refused(tmp_path):
    path = tmp_path / "coupon.csv"
    path.write_text(plain())
    result = fit_coupons((path,), FitOptions(like="1.9999"))
    with pytest.raises(InputError, match="no such steel"):
        coupon_steel(result, "coil-1", "x")


def test_a_title_with_quotes_and_line_breaks_stays_one_text(tmp_path):
    text = coupon_steel(made(tmp_path), "coil-1", 'a "good" coil\nhow = "seen"')
    path = save_steel(text, tmp_path, "coil-1")
    steel = load_steel(str(path), None, "job.toml", JUDGED)
    assert steel.title.startswith('a "good" coil')


WALL, AROUND = 2.0e-3, 1.884
TRUTH = Scaled(Swift(1420e6, 0.06, 0.56), 0.95)


def trial_file(folder, header="Pressure (bar);Circumference (mm)"):
    radius = AROUND / (2 * np.pi) - WALL / 2
    state = general(Shape.CLOSED, 1.12)
    strain = np.linspace(0.004, 0.03, 12)
    grown = membrane.grown(radius, WALL, strain, TRUTH, state, membrane.Elastic(195e9, 0.3))
    around = AROUND * (1.0 + np.asarray(grown.growth_under_pressure))
    lines = [
        f"{p / 1e5:.3f};{c * 1e3:.2f}" for p, c in zip(grown.pressure, around, strict=True)
    ]
    path = folder / "trial.csv"
    path.write_text("\n".join([header, f"0;{AROUND * 1e3:.1f}", *lines]) + "\n")
    return path


def options(**kwargs):
    paper = Certificate(proof_02=270e6, tensile=640e6)
    return TrialOptions(None, WALL, "1.4307", paper, **kwargs)


def test_a_trial_cylinder_comes_back_as_a_steel_that_foretells_its_pressure(tmp_path):
    result = fit_trial_file(trial_file(tmp_path), options(invented=True))
    path = save_steel(trial_steel(result, "trial-1", "Invented trial"), tmp_path, "trial-1")
    steel = load_steel(str(path), None, "job.toml", JUDGED)
    assert steel.basis is Basis.TRIAL
    c = JUDGED.criterion
    likely = triangular_median(c.low.value, c.likely.value, c.high.value)
    curve = Scaled(steel.curve, JUDGED.rate.likely.value)
    elastic = membrane.Elastic(steel.youngs_modulus.value, steel.poisson_ratio.value)
    state, radius = general(Shape.CLOSED, likely), result.fit.cylinder.radius
    for growth in (0.01, 0.02, 0.05):
        strain = membrane.strain_of_loaded(growth, curve, state, elastic)
        ours = membrane.pressure(radius, WALL, strain, curve, state, elastic)
        expected, _ = trial_pressure(result.fit, growth)
        # law laid through the trial's points 0.3 %; outside taken as mid-wall growth 0.2 %
        assert ours == pytest.approx(float(expected[0]), rel=6e-3)
    report = json.loads(path.with_name("trial-1-fit.json").read_text())
    assert report["rate_included"] is True
    assert np.array(report["covariance"]).shape == (3, 3)


@pytest.mark.parametrize(
    ("header", "problem"),
    [
        ("Pressure;Circumference (mm)", "no unit of pressure"),
        ("Pressure (bar);Umfang (MPa)", "is a pressure"),
        ("Pressure (bar);Diameter (mm)", "0 columns are named circumference"),
        ("a;b", "0 columns are named pressure"),
    ],
)
def test_a_trial_file_that_is_not_clear_is_refused(tmp_path, header, problem):
    with pytest.raises(InputError, match=problem):
        fit_trial_file(trial_file(tmp_path, header), options())


def test_a_trial_without_its_first_circumference_is_refused(tmp_path):
    path = trial_file(tmp_path)
    lines = path.read_text().splitlines()
    path.write_text("\n".join([lines[0], *lines[2:]]))
    with pytest.raises(InputError, match="zero pressure"):
        fit_trial_file(path, options())


def test_a_coupon_option_reaches_the_reader(tmp_path):
    path = tmp_path / "coupon.csv"
    path.write_text(plain().replace("Engineering ", "", 2))
    with pytest.raises(InputError, match="engineering or true"):
        fit_coupons((path,), FitOptions())
    told = FitOptions(coupon=CouponOptions(kind="engineering"))
    assert fit_coupons((path,), told).pooled.count == 1
