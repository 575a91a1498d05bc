"""Return mapping and curve tables: exact laws, consistent tangent, yield surface."""

import numpy as np
import pytest
from laws import LAWS

from stretchform.forming.shell.material import Flow, WithCriterion, tabulated, update
from stretchform.steel.curve import Scaled

MODULUS, POISSON = 193e9, 0.29


def table_of(law, draws=1):
    return tabulated([law], draws, MODULUS)


@pytest.mark.parametrize("name", ["H", "S", "V", "VL", "M2", "M3", "M4"])
def test_tabulated_curves_keep_the_law_to_one_part_in_a_million(name):
    table = table_of(LAWS[name])
    strain = np.geomspace(2e-4, 0.9, 400)  # below, the table rounds the root of the law
    base = np.zeros(strain.shape, dtype=np.intp)
    stress, slope = table.stress(base, strain)
    assert stress * MODULUS == pytest.approx(LAWS[name].stress(strain), rel=1e-6)
    assert slope * MODULUS == pytest.approx(LAWS[name].slope(strain), rel=2e-3)


def test_tabulated_points_keep_the_table_to_a_thousandth_at_its_kinks():
    strain = np.linspace(1e-3, 0.39, 2000)
    stress, _ = table_of(LAWS["T"]).stress(np.zeros(strain.shape, dtype=np.intp), strain)
    assert stress * MODULUS == pytest.approx(LAWS["T"].stress(strain), rel=1e-3)  # kinks round


def test_draws_of_a_curve_have_their_own_rows():
    factor = np.array([0.9, 1.0, 1.2])
    table = tabulated([Scaled(LAWS["S"], factor)], 3, MODULUS)
    base = table.base(np.array([0]), np.arange(3))
    stress, _ = table.stress(base, np.full((3, 1), 0.05))
    assert stress[:, 0] * MODULUS == pytest.approx(factor * LAWS["S"].stress(0.05), rel=1e-6)


def test_a_curve_with_a_criterion_carries_its_factor_in_a_closed_cylinder():
    factor, hoop = 1.13, 0.04
    curve = WithCriterion(LAWS["S"], factor)
    mises = 2.0 / np.sqrt(3.0)
    carried = mises * curve.stress(mises * hoop)
    assert carried == pytest.approx(factor * LAWS["S"].stress(factor * hoop), rel=1e-12)
    step = 1e-6
    slope = (curve.stress(0.04 + step) - curve.stress(0.04 - step)) / (2.0 * step)
    assert curve.slope(0.04) == pytest.approx(slope, rel=1e-7)  # truncation of the difference


def evaluated(total, apart, flow, table):
    return update(
        table, np.zeros((1, 1), np.intp), POISSON, (total, apart), flow, np.zeros_like(total)
    )


def start(count, table):
    nothing = np.zeros((count, 1, 1))
    stress, _ = table.stress(np.zeros((1, 1), np.intp), nothing)
    return Flow(nothing, nothing, nothing, np.array(stress))


def test_flowing_points_lie_on_the_yield_surface_and_keep_the_volume():
    table = table_of(LAWS["S"])
    rng = np.random.default_rng(3)
    total, apart = rng.uniform(-0.08, 0.08, (2, 200, 1, 1))
    answer = evaluated(total, apart, start(200, table), table)
    flowed = answer.step[:, 0, 0] > 0.0
    assert np.mean(flowed) > 0.9
    equivalent = 0.5 * np.sqrt(answer.sum**2 + 3.0 * answer.difference**2)
    ratio = (equivalent / answer.flow.yield_stress)[flowed]
    assert ratio == pytest.approx(1.0, abs=1e-9)  # tolerance of the inner Newton steps
    elastic = total - answer.flow.sum
    assert answer.sum == pytest.approx(elastic / (1.0 - POISSON), rel=1e-9, abs=1e-14)


def test_tangents_agree_with_differences():
    table = table_of(LAWS["V"])
    rng = np.random.default_rng(4)
    total, apart = rng.uniform(-0.05, 0.05, (2, 100, 1, 1))
    flow = start(100, table)
    here = evaluated(total, apart, flow, table)
    h = 1e-7
    for place, moved in enumerate(((h, 0.0), (0.0, h))):
        up = evaluated(total + moved[0], apart + moved[1], flow, table)
        down = evaluated(total - moved[0], apart - moved[1], flow, table)
        slope = (up.sum - down.sum) / (2.0 * h), (up.difference - down.difference) / (2.0 * h)
        # 1e-6: difference of a smooth function; two points may straddle the yield surface
        close = [
            np.abs(slope[0] - here.tangent[place]) < 1e-5,
            np.abs(slope[1] - here.tangent[place + 1]) < 1e-5,
        ]
        assert np.mean(close) > 0.98


def test_uniaxial_tension_follows_the_curve():
    table, law = table_of(LAWS["S"]), LAWS["S"]
    stress, plastic = law.stress(0.05), 0.05
    axial = plastic + stress / MODULUS
    across = -plastic / 2.0 - POISSON * stress / MODULUS
    answer = evaluated(
        np.full((1, 1, 1), axial + across), np.full((1, 1, 1), axial - across), start(1, table),
        table,
    )  # fmt: skip
    pulled = 0.5 * (answer.sum + answer.difference)[0, 0, 0]
    free = 0.5 * (answer.sum - answer.difference)[0, 0, 0]
    assert pulled * MODULUS == pytest.approx(stress, rel=1e-6)  # the table
    assert free * MODULUS == pytest.approx(0.0, abs=1e-6 * stress)
