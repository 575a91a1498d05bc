"""The small design over the unknowns, and the parabolas that lead from it to every draw."""

import numpy as np
import planning_jobs as jobs
import pytest

from stretchform.planning import design, sample

WEAK = jobs.steel(certificate=jobs.WEAK_COIL)


def draws(**fields):
    return sample.draw(jobs.job(**fields), jobs.JUDGED)


def test_the_rate_moves_into_the_strength():
    before = draws()
    after = design.with_rate(before)
    assert np.all(after.rate == 1.0)
    assert np.array_equal(after.strength, before.strength * before.rate[:, None])
    assert np.array_equal(after.wall, before.wall)


def test_courses_of_one_coil_share_an_unknown_and_others_have_their_own():
    names = [(item.name, item.columns) for item in design.unknowns(draws())]
    both = (0, 1)
    assert names == [
        ("criterion", ()),
        ("strength", both),
        ("steepness", both),
        ("wall", both),
    ]
    pair = [jobs.course(), jobs.course("upper", steel=WEAK)]
    apart = [(item.name, item.columns) for item in design.unknowns(draws(courses=pair))]
    assert ("strength", (0,)) in apart and ("strength", (1,)) in apart
    assert len(apart) == 7


def test_without_spread_there_is_nothing_unknown():
    job = jobs.without_spread()
    assert design.unknowns(sample.draw(job, jobs.JUDGED)) == []


def test_each_row_moves_one_unknown_to_its_5_or_95_per_cent():
    found = draws()
    every = design.unknowns(found)
    made = design.rows(found, every)
    assert made.count == 1 + 2 * len(every)
    assert np.array_equal(made.strength[0], np.median(found.strength, axis=0))
    for number, unknown in enumerate(every):
        for row, share in ((1 + 2 * number, 0.05), (2 + 2 * number, 0.95)):
            column = np.asarray(getattr(made, unknown.name))
            expected = np.quantile(unknown.values, share)
            assert np.all(column[row] == expected)
            for other in every:
                if other.name != unknown.name:
                    still = np.asarray(getattr(made, other.name))
                    assert np.array_equal(still[row], still[0])


def test_the_first_row_holds_the_medians_alone():
    found = draws()
    one = design.first(design.rows(found, design.unknowns(found)))
    assert one.count == 1
    assert one.rate[0] == np.median(found.rate)


def within_reach(found, every):
    """Draws whose every unknown lies within the reach of its parabola."""
    kept = np.ones(found.count, dtype=bool)
    for unknown in every:
        low, middle, high = unknown.levels
        kept &= unknown.values >= middle - 1.6 * (middle - low)
        kept &= unknown.values <= middle + 1.6 * (high - middle)
    return kept


def summed(given):
    """A sum of parabolas, one an unknown, as two quantities of each draw."""
    one = 2.0 * given.criterion**2 - given.criterion + 3.0 * given.strength[:, 0] ** 2
    two = given.steepness[:, 0] - 4e5 * given.wall[:, 0] ** 2 + 5.0
    return np.stack([one, two], axis=-1)


def test_a_sum_of_parabolas_comes_back_exactly():
    found = draws()
    every = design.unknowns(found)
    quantity = summed(design.rows(found, every))
    spread = design.spread(quantity, every, found.count)
    kept = within_reach(found, every)
    assert np.mean(kept) > 0.9
    # only rounding: the weights of a parabola are exact
    assert spread[kept] == pytest.approx(summed(found)[kept], rel=1e-12)


def test_a_draw_far_outside_is_held_at_the_reach_of_its_parabola():
    found = draws()
    every = design.unknowns(found)
    quantity = summed(design.rows(found, every))
    spread = design.spread(quantity, every, found.count)
    assert not np.all(within_reach(found, every))
    assert spread[:, 0].max() < summed(found)[:, 0].max()


def test_without_unknowns_the_one_row_stands_for_all():
    quantity = np.array([[1.0, 2.0]])
    assert np.array_equal(design.spread(quantity, [], 3), np.repeat(quantity, 3, axis=0))
