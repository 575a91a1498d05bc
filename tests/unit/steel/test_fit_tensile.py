"""Elastic line, proof strengths, highest force and true curve of tensile records."""

import numpy as np
import pytest

from stretchform.errors import InputError
from stretchform.steel.curve import Swift
from stretchform.steel.elastic import elastic_line, share_of_modulus
from stretchform.steel.tensile import (
    Record,
    engineering_from_true,
    evaluate,
    smoothed,
    true_from_engineering,
)

LAW = Swift(1400e6, 0.05, 0.55)
MODULUS = 196e9


def ideal(count=4000, give=0.0, offset=0.0, stop=None):
    """A noiseless test of LAW; `give` is machine extension per stress, `offset` slack."""
    plastic = np.concatenate([[0.0], np.geomspace(1e-7, 0.58, 20000)])
    true = LAW.stress(plastic)
    total = np.concatenate([[0.0], plastic + true / MODULUS])
    strain, stress = engineering_from_true(total, np.concatenate([[0.0], true]))
    grid = np.concatenate([np.linspace(0, 0.01, count // 4), np.linspace(0.0101, 0.72, count)])
    load = np.interp(grid, strain, stress)
    kept = slice(None) if stop is None else grid < stop
    return Record("ideal", (grid + give * load + offset)[kept], load[kept])


def codes(tensile):
    return [finding.code for finding in tensile.findings]


def test_true_and_engineering_values_are_each_other_s_inverse():
    strain, stress = np.array([0.0, 0.1, 0.5]), np.array([0.0, 4e8, 6e8])
    back = engineering_from_true(*true_from_engineering(strain, stress))
    np.testing.assert_allclose(back, [strain, stress], rtol=1e-14, atol=1e-16)


def test_an_ideal_record_gives_its_numbers_back():
    tensile = evaluate(ideal())
    assert tensile.line.slope == pytest.approx(MODULUS, rel=0.01)  # joined with what is known
    proof = LAW.stress(0.002)  # true; engineering: less 0.33 %
    assert tensile.proof_02 == pytest.approx(proof * np.exp(-0.0033), rel=2e-3)
    uniform = 0.55 - 0.05
    total = uniform + LAW.stress(uniform) / MODULUS
    assert tensile.tensile == pytest.approx(LAW.stress(uniform) * np.exp(-total), rel=1e-3)
    # 2 %: the top of the curve is flat
    assert np.log1p(tensile.uniform_elongation) == pytest.approx(uniform, rel=0.02)


def test_the_true_curve_is_the_law():
    tensile = evaluate(ideal())
    inside = (tensile.plastic_strain > 0.005) & (tensile.plastic_strain < 0.45)
    ours, law = tensile.true_stress[inside], LAW.stress(tensile.plastic_strain[inside])
    # a modulus 1 % off shifts the strain by 3e-5, times the slope of 5 GPa
    np.testing.assert_allclose(ours, law, rtol=1e-3)


def test_a_true_record_gives_the_same_as_an_engineering_one():
    record = ideal(stop=0.4)
    strain, stress = true_from_engineering(record.strain, record.stress)
    first, second = evaluate(record), evaluate(Record("true", strain, stress, true=True))
    np.testing.assert_allclose(first.true_stress, second.true_stress, rtol=1e-5)  # one reading
    assert first.proof_02 == pytest.approx(second.proof_02, rel=1e-5)


def test_slack_moves_the_origin_and_nothing_else():
    plain, moved = evaluate(ideal()), evaluate(ideal(offset=0.006))
    assert moved.line.origin - plain.line.origin == pytest.approx(
        0.006, abs=1e-6
    )  # windows move by a reading
    assert moved.proof_02 == pytest.approx(plain.proof_02, rel=1e-5)
    assert "origin_shifted" in codes(moved)


def test_the_give_of_the_machine_is_taken_off_with_the_line():
    tensile = evaluate(ideal(give=4.0 / MODULUS))
    assert "grips_moved" in codes(tensile)
    assert share_of_modulus(tensile.line) == pytest.approx(0.2, rel=0.02)
    inside = (tensile.plastic_strain > 0.02) & (tensile.plastic_strain < 0.4)
    law = LAW.stress(tensile.plastic_strain[inside])
    np.testing.assert_allclose(tensile.true_stress[inside], law, rtol=5e-3)


def test_a_record_without_elastic_part_says_so():
    record = ideal()
    late = record.strain > 0.008
    tensile = evaluate(Record("late", record.strain[late], record.stress[late]))
    assert tensile.proof_02 is None
    assert tensile.line.points == 0
    assert {"no_elastic_part", "starts_after_proof"} <= set(codes(tensile))


def test_a_given_proof_strength_becomes_the_first_point():
    record = ideal()
    late = record.strain > 0.008
    given = Record("late", record.strain[late], record.stress[late], proof_02=270e6)
    tensile = evaluate(given)
    assert tensile.proof_02 == 270e6
    assert tensile.plastic_strain[0] == pytest.approx(0.002, abs=2e-5)
    assert "proof_given" in codes(tensile)


def test_a_record_that_stops_early_has_no_tensile_strength():
    tensile = evaluate(ideal(stop=0.2))
    assert tensile.tensile is None
    assert "ends_before_necking" in codes(tensile)
    assert tensile.plastic_strain[-1] == pytest.approx(np.log1p(0.2), abs=0.01)


def test_the_true_curve_is_cut_where_necking_begins():
    record = ideal()
    neck = np.linspace(0.0, 0.08, 200)[1:]
    strain = np.concatenate([record.strain, record.strain[-1] + neck])
    stress = np.concatenate([record.stress, record.stress[-1] * (1.0 - 30 * neck**2)])
    tensile = evaluate(Record("necked", strain, stress))
    assert "cut_at_necking" in codes(tensile)
    assert tensile.plastic_strain[-1] < 0.51


@pytest.mark.parametrize(
    ("strain", "stress", "match"),
    [
        (np.linspace(0, 0.3, 3), np.linspace(0, 6e8, 3), "3 points"),
        (np.linspace(0, 0.3, 99), np.linspace(0, 6e6, 99), "unit of stress"),
        (np.linspace(0, 0.3, 99), np.linspace(0, 6e10, 99), "unit of stress"),
        (np.linspace(0, 30.0, 99), np.linspace(0, 6e8, 99), "unit of strain"),
        (np.linspace(0, 0.003, 99), np.linspace(0, 6e8, 99), "unit of strain"),
        (np.linspace(0, 0.04, 99), np.linspace(0, 6e8, 99), "plastic points"),
    ],
    ids=["few points", "ksi as MPa", "too strong", "per cent as fraction", "short", "a spring"],
)
def test_a_record_that_is_no_such_test_is_refused(strain, stress, match):
    with pytest.raises(InputError) as caught:
        evaluate(Record("bad", strain, stress))
    assert match in caught.value.problem + caught.value.fix


def test_smoothing_leaves_a_straight_line_alone():
    strain = np.linspace(0.0, 0.2, 2000)
    np.testing.assert_allclose(smoothed(strain, 3e9 * strain), 3e9 * strain, atol=1.0)
    few = np.linspace(0.0, 0.2, 15)
    assert smoothed(few, few) is few


def test_the_modulus_known_before_is_used_where_the_piece_is_too_stiff():
    strain, stress = np.linspace(0, 1e-3, 100), np.linspace(0, 300e6, 100)
    line = elastic_line(strain, stress, 240e6, MODULUS, 4e9)
    assert line.assumed
    assert line.slope == MODULUS


def test_single_spikes_are_left_out_and_counted():
    record = ideal()
    stress = record.stress.copy()
    stress[[900, 2000, 3000]] *= [1.5, 0.2, 3.0]
    tensile = evaluate(Record("spiked", record.strain, stress))
    assert tensile.findings[0].code == "spikes_dropped"
    assert tensile.findings[0].numbers == {"count": 3.0}
    assert tensile.tensile == pytest.approx(evaluate(record).tensile, rel=1e-4)


def test_a_record_full_of_spikes_is_refused():
    record = ideal()
    stress = record.stress * np.where(np.arange(len(record.stress)) % 7 == 0, 0.3, 1.0)
    with pytest.raises(InputError, match="jump from their neighbours"):
        evaluate(Record("spiked", record.strain, stress))


def test_a_true_stress_that_does_not_rise_is_refused():
    strain = np.linspace(0.0, 0.3, 400)
    stress = np.where(strain < 0.02, 500e6, 500e6 - 800e6 * strain)
    stress = np.minimum(stress, 196e9 * strain)
    with pytest.raises(InputError) as caught:
        evaluate(Record("falling", strain, stress, true=True))
    assert "rise" in caught.value.problem or "plastic points" in caught.value.problem
