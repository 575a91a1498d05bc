"""The danger stands first on every output of a plan, and taking it away is noticed."""

import danger_first
import pytest
import report_plans

from stretchform.report import plan_json, tables, terminal, terminal_rich, words_danger
from stretchform.report.tables import Lines

PLANS = {
    "shown": report_plans.shown,
    "accepted": report_plans.accepted,
    "withheld": report_plans.withheld,
    "overstretched": report_plans.overstretched,
    "quick": report_plans.quick,
}
STATEMENTS = 6  # energy, gas instead, what it throws, nobody near, water only, who decides


def plain(plan, inches=False):
    return tables.plain(terminal.plan_blocks(plan, report_plans.SOURCES, inches), 80)


def drawn(plan, inches=False):
    return terminal_rich.paint(terminal.plan_blocks(plan, report_plans.SOURCES, inches), 80)


def faults(plan):
    """Of all three outputs together."""
    withheld = bool(plan.withheld_by)
    return {
        "plain": danger_first.faults_of_screen(plain(plan), withheld),
        "drawn": danger_first.faults_of_screen(drawn(plan), withheld),
        "JSON": danger_first.faults_of_json(
            plan_json.dumps(plan, report_plans.SOURCES), withheld
        ),
    }


@pytest.mark.parametrize("name", list(PLANS))
def test_the_danger_stands_first_on_every_output(name):
    assert faults(PLANS[name]()) == {"plain": [], "drawn": [], "JSON": []}


def test_a_block_taken_off_the_screen_is_noticed(monkeypatch):
    monkeypatch.setattr(terminal, "danger", lambda plan, inches=False: Lines("", ()))
    found = faults(report_plans.shown())
    assert found["plain"]
    assert found["drawn"]


def test_a_block_taken_out_of_the_words_is_noticed_everywhere(monkeypatch):
    monkeypatch.setattr(words_danger, "statements", lambda plan, inches=False: ())
    assert all(faults(report_plans.shown()).values())


def test_a_block_moved_to_the_end_is_noticed(monkeypatch):
    original = terminal.plan_blocks

    def last(plan, sources, inches=False):
        first, *others = original(plan, sources, inches)
        return [*others, first]

    monkeypatch.setattr(terminal, "plan_blocks", last)
    assert faults(report_plans.shown())["plain"]


@pytest.mark.parametrize("left_out", range(STATEMENTS))
def test_each_sentence_of_the_block_is_missed(monkeypatch, left_out):
    original = words_danger.statements

    def fewer(plan, inches=False):
        said = original(plan, inches)
        assert len(said) == STATEMENTS
        return said[:left_out] + said[left_out + 1 :]

    monkeypatch.setattr(words_danger, "statements", fewer)
    assert all(faults(report_plans.shown()).values())


def test_the_energies_of_the_block_are_those_of_the_plan():
    stored = report_plans.shown().hazard.stored
    said = words_danger.statements(report_plans.shown())[0]
    from stretchform.report import words_numbers as numbers

    for value in (stored.recoverable, stored.water, stored.wall, stored.air):
        assert numbers.energy(value) in said
    parts = stored.water + stored.wall + stored.air
    assert stored.recoverable == pytest.approx(parts, rel=1e-12)  # a sum: rounding only


def test_no_output_gives_a_distance_to_stand_at():
    for make in PLANS.values():
        text = plain(make()).lower()
        for word in ("safe distance of", "stand back", "metres away", "stay outside"):
            assert word not in text
