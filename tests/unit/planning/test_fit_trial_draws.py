"""Joint draws of a trial give its pressures and its own narrow spread back."""

import json

import numpy as np
import pytest
from test_fit_trial import CYLINDER, ELASTIC, JUDGED, STEEL, readings

from stretchform.errors import DataError
from stretchform.files.trial_record import read_trial_joint
from stretchform.forming import membrane
from stretchform.forming.criterion import Shape, general
from stretchform.forming.surface import mid_from_outside
from stretchform.planning.trial import fit_trial, points_before_factors, trial_pressure
from stretchform.planning.trial_draws import (
    TrialJoint,
    criteria,
    factors_given_criterion,
    forecast_factors,
)
from stretchform.steel.curve import Scaled, Table

NORMALS = np.random.default_rng(4).normal(size=(4000, 3))


def pressures(fit, growth):
    """Pressures of all draws on the curve that the steel file would hold."""
    strain = np.linspace(0.002**0.5, 0.15**0.5, 400) ** 2
    curve = Table(strain, points_before_factors(fit, JUDGED, strain))
    joint = TrialJoint(fit.strength, fit.steepness, fit.criterion, fit.covariance)
    factors = forecast_factors(joint, curve, JUDGED, NORMALS)
    scaled = Scaled(curve, factors.strength, factors.steepness)
    state = general(Shape.CLOSED, factors.criterion)
    radius = CYLINDER.radius
    mid = mid_from_outside(Shape.CLOSED, radius, CYLINDER.wall, growth)
    mid = np.full(len(NORMALS), mid)
    at = membrane.strain_of_loaded(mid, scaled, state, ELASTIC)
    return membrane.pressure(radius, CYLINDER.wall, at, scaled, state, ELASTIC)


@pytest.mark.parametrize("growth", [0.02, 0.05])
@pytest.mark.parametrize("strength", [0.85, 0.95])
def test_joint_draws_give_the_pressure_and_spread_of_the_trial(growth, strength):
    fit = fit_trial(CYLINDER, readings(strength=strength, top=0.05), STEEL, JUDGED)
    mean, std = trial_pressure(fit, growth)
    drawn = pressures(fit, growth)
    assert np.median(drawn) == pytest.approx(
        mean[0], rel=5e-3
    )  # curve carried over to first order
    # away from 5 % the draws know one slope only, not the whole shape: wider, never 2 points
    assert np.std(drawn) / mean[0] < std[0] / mean[0] + 0.02


def test_draws_taken_apart_would_be_far_wider():
    fit = fit_trial(CYLINDER, readings(top=0.05), STEEL, JUDGED)
    together = np.std(pressures(fit, 0.05)) / np.mean(pressures(fit, 0.05))
    apart = np.sqrt(fit.covariance[0, 0] + fit.covariance[2, 2] / fit.criterion**2)
    assert together < 0.6 * apart


def written(folder, **changes):
    fit = fit_trial(CYLINDER, readings(), STEEL, JUDGED)
    report = {
        "kind": "trial",
        "strength": fit.strength,
        "steepness": fit.steepness,
        "criterion": fit.criterion,
        "covariance": fit.covariance.tolist(),
        **changes,
    }
    (folder / "own-fit.json").write_text(json.dumps(report))
    return fit, folder / "own.toml"


def test_the_joint_result_is_read_from_beside_the_steel_file(tmp_path):
    fit, steel = written(tmp_path)
    joint = read_trial_joint(steel)
    assert joint.strength == fit.strength
    np.testing.assert_array_equal(joint.covariance, fit.covariance)
    assert read_trial_joint(tmp_path / "another.toml") is None


@pytest.mark.parametrize(
    "changes",
    [
        {"kind": "coupon"},
        {"strength": None},
        {"strength": 30.0},
        {"criterion": "1.1"},
        {"covariance": [[1.0, 0.0], [0.0, 1.0]]},
        {"covariance": [[1.0, 5.0, 0.0], [5.0, 1.0, 0.0], [0.0, 0.0, 1.0]]},
        {"covariance": [[1.0, 5.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]]},
        {"covariance": "none"},
    ],
)
def test_a_damaged_fit_file_is_refused(tmp_path, changes):
    _, steel = written(tmp_path, **changes)
    with pytest.raises(DataError, match=r"own-fit\.json"):
        read_trial_joint(steel)
    (tmp_path / "own-fit.json").write_text("{")
    with pytest.raises(DataError, match="damaged"):
        read_trial_joint(steel)


def test_given_their_criterion_the_draws_are_those_of_the_joint():
    fit = fit_trial(CYLINDER, readings(top=0.05), STEEL, JUDGED)
    joint = TrialJoint(fit.strength, fit.steepness, fit.criterion, fit.covariance)
    curve = STEEL.curve
    together = forecast_factors(joint, curve, JUDGED, NORMALS)
    drawn = criteria(joint, NORMALS[:, 2])
    given = factors_given_criterion(joint, curve, JUDGED, drawn, NORMALS[:, :2])
    assert drawn.min() >= 1.0 and drawn.max() <= 1.2
    np.testing.assert_allclose(given.criterion, drawn, rtol=1e-9)
    for name in ("strength", "steepness"):
        first, second = (np.log(getattr(one, name)) for one in (together, given))
        # 4000 draws: a standard deviation is known to 1.1 %, a correlation to 0.016
        assert np.std(second) == pytest.approx(np.std(first), rel=0.04)
        likeness = [
            np.corrcoef(values, of)[0, 1]
            for values, of in ((first, together.criterion), (second, drawn))
        ]
        assert likeness[1] == pytest.approx(likeness[0], abs=0.05)
