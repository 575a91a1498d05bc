"""Every rule of the cautions on both sides of its limit."""

import ast
import inspect
from dataclasses import replace

import planning_jobs as jobs
import pytest

from stretchform.planning import caution_means, caution_steel, cautions
from stretchform.planning.cautions import NEVER_LIFTED, Facts, Level, Means
from stretchform.planning.job import Gauge, Model, Supply, Water
from stretchform.planning.tank import Attitude, Opening, Weld
from stretchform.steel.grade import Basis

CALM = Facts(  # invented: nothing in it is worth a caution
    forming_high=3.0e6,
    forming_likely=2.7e6,
    maximum_low=4.0e6,
    share_of_pressure=0.8,
    share_of_growth=0.3,
    no_answer=0.0,
    maximum_within_curve=True,
    survives_tresca=True,
    growth_limit=0.06,
    growth_over_relief=0.05,
    stress_over_flow={"forming pressure": 1.05},
    whole=False,
    short=False,
    wrinkling={},
    ahead={},
    near_head=(),
    plates_near_head=(),
    plates_failing=(),
    thinnest=160.0,
)
PUMP = Supply(
    "hand pump", maximum_pressure=6e6, relief_pressure=3.2e6, metered=0.05, remote_bleed=True
)
MOTOR = replace(PUMP, kind="motor pump", low_level_stop=True)
MOLYBDENUM = jobs.course(steel=jobs.steel("1.4404"))
FINE_GAUGE = Gauge(6e6, 0.6, 0.0)
ALWAYS = {"ends_not_computed", "no_measured_tank"}


def found(facts=None, accepted=None, courses=None, **fields):
    kept = {
        "supply": PUMP,
        "gauge": FINE_GAUGE,
        "second_gauge": FINE_GAUGE,
        "accepted": accepted or {},
    }
    if courses is not None:
        kept["courses"] = courses
    job = jobs.job(**{**kept, **fields})
    return job, cautions.judge(job, replace(CALM, **(facts or {})))


def levels(**case):
    return {caution.code: caution.level for caution in found(**case)[1]}


def course(**fields):
    return jobs.course(steel=replace(jobs.steel(), **fields))


def test_a_calm_job_has_only_what_always_holds():
    assert set(levels()) == ALWAYS


RULES = [
    # code, level, just over the limit, just within it
    ("target_beyond_maximum", Level.BLOCK, {"no_answer": 0.051}, {"no_answer": 0.05}),
    ("share_of_growth_high", Level.BLOCK, {"share_of_growth": 0.61}, {"share_of_growth": 0.6}),
    ("share_of_growth", Level.CARE, {"share_of_growth": 0.41}, {"share_of_growth": 0.4}),
    ("share_of_pressure", Level.CARE, {"share_of_pressure": 0.91}, {"share_of_pressure": 0.9}),
    ("tresca", Level.CARE, {"survives_tresca": False}, {"survives_tresca": True}),
    ("curve_ends", Level.CARE, {"maximum_within_curve": False}, {}),
    ("relief_above_maximum", Level.BLOCK, {"maximum_low": 3.19e6}, {"maximum_low": 3.2e6}),
    ("relief_growth", Level.CARE, {"growth_over_relief": 0.061}, {"growth_over_relief": 0.06}),
    ("relief_growth", Level.CARE, {"growth_over_relief": float("inf")}, {}),
    ("relief_below_forming", Level.CARE, {"forming_high": 3.21e6}, {"forming_high": 3.2e6}),
    *(
        (code, level, {"means": Means(**{key: over})}, {"means": Means(**{key: within})})
        for code, level, key, over, within in (
            ("relief_capacity", Level.BLOCK, "relief_share", 1.0, 1.01),
            ("trapped_air", Level.CARE, "air_limit", 0.0019, 0.002),
            ("trapped_air_high", Level.BLOCK, "air_as_water", 0.002, 0.0021),
            ("shut_vent", Level.CARE, "collapse", 101_000.0, 102_000.0),
            ("drum_too_large", Level.CARE, "water_ceiling", 0.0499, 0.05),
        )
    ),
    (
        "pump_fast",
        Level.CARE,
        {"means": Means(reaction_growth=0.0011, reaction_allowed=0.001)},
        {"means": Means(reaction_growth=0.001, reaction_allowed=0.001)},
    ),
    (
        "plates_trap_air",
        Level.CARE,
        {"means": Means(air_under_plates=0.0021, air_limit=0.002)},
        {"means": Means(air_under_plates=0.002, air_limit=0.002)},
    ),
    ("short_cylinder", Level.CARE, {"short": True}, {"short": True, "whole": True}),
    ("ends_not_computed", Level.NOTE, {"whole": False}, {"whole": True}),
    ("wrinkling", Level.CARE, {"wrinkling": {"top head": 0.8}}, {}),
    ("course_ahead", Level.CARE, {"ahead": {"lower": 0.012}}, {}),
    ("station_near_head", Level.CARE, {"near_head": ("end",)}, {}),
    ("plate_near_head", Level.CARE, {"plates_near_head": ("ring",)}, {}),
    ("plate_fails", Level.CARE, {"plates_failing": ("ring",)}, {}),
    ("thick_wall", Level.CARE, {"thinnest": 9.9}, {"thinnest": 10.0}),
    (
        "stated_pressure",
        Level.CARE,
        {"stress_over_flow": {"relief pressure": 1.51}},
        {"stress_over_flow": {"relief pressure": 1.5}},
    ),
    (
        "stated_pressure",
        Level.CARE,
        {"stress_over_flow": {"relief pressure": 0.69}},
        {"stress_over_flow": {"relief pressure": 0.7}},
    ),
]


@pytest.mark.parametrize(("code", "level", "over", "within"), RULES)
def test_a_rule_on_the_forecast_speaks_only_beyond_its_limit(code, level, over, within):
    assert levels(facts=over).get(code) is level
    assert code not in levels(facts=within)


JOB_RULES = [
    ("no_vent", Level.BLOCK, {"supply": replace(PUMP, vent=False)}, {}),
    ("no_relief", Level.BLOCK, {"supply": replace(PUMP, relief_pressure=None)}, {}),
    ("supply_not_stated", Level.CARE, {"supply": Supply()}, {}),
    ("gas", Level.BLOCK, {"supply": replace(PUMP, kind="nitrogen bottle")}, {}),
    ("brittle_fittings", Level.BLOCK, {"supply": replace(PUMP, brittle_fittings=True)}, {}),
    ("no_remote_bleed", Level.CARE, {"supply": replace(PUMP, remote_bleed=None)}, {}),
    ("no_metered_water", Level.CARE, {"supply": replace(PUMP, metered=None)}, {}),
    ("motor_pump", Level.NOTE, {"supply": MOTOR}, {}),
    ("air_driven_pump", Level.CARE, {"supply": replace(MOTOR, kind="air-driven pump")}, {}),
    (
        "no_low_level_stop",
        Level.CARE,
        {"supply": replace(MOTOR, low_level_stop=False)},
        {"supply": MOTOR},
    ),
    (
        "relief_flow_not_stated",
        Level.CARE,
        {"supply": MOTOR},
        {"supply": MOTOR, "facts": {"means": Means(relief_share=2.0)}},
    ),
    ("one_gauge", Level.CARE, {"second_gauge": None}, {}),
    (
        "gauge_range",
        Level.CARE,
        {"second_gauge": Gauge(20e6, 0.6, 0.0)},
        {"second_gauge": Gauge(6e6, 0.6, 0.0)},
    ),
    (
        "chloride_high",
        Level.BLOCK,
        {"water": Water(chloride=501e-6), "courses": [MOLYBDENUM]},
        {"water": Water(chloride=500e-6), "courses": [MOLYBDENUM]},
    ),
    ("cold_water", Level.BLOCK, {"water": Water(6.9, 0.0)}, {"water": Water(7.0, 0.0)}),
    ("warm_water", Level.CARE, {"water": Water(35.1, 0.0)}, {"water": Water(35.0, 0.0)}),
    ("chloride_not_stated", Level.NOTE, {"water": Water()}, {"water": Water(chloride=0.0)}),
    (
        "chloride",
        Level.CARE,
        {"water": Water(chloride=51e-6)},
        {"water": Water(chloride=50e-6)},
    ),
    (
        "chloride_high",
        Level.BLOCK,
        {"water": Water(chloride=201e-6)},
        {"water": Water(chloride=200e-6)},
    ),
    ("gauge_not_stated", Level.CARE, {"gauge": None}, {}),
    (
        "gauge_range",
        Level.CARE,
        {"gauge": Gauge(4.0e6, 0.6, 0.0)},
        {"gauge": Gauge(4.1e6, 0.6, 0)},
    ),
    (
        "gauge_range",
        Level.CARE,
        {"gauge": Gauge(11e6, 0.6, 0.0)},
        {"gauge": Gauge(10.7e6, 0.6, 0)},
    ),
    (
        "gauge_class",
        Level.CARE,
        {"gauge": Gauge(6e6, 1.0, 0.0)},
        {"gauge": Gauge(6e6, 0.6, 0.0)},
    ),
    ("lying", Level.CARE, {"attitude": Attitude.LYING}, {"attitude": Attitude.HANGING}),
    ("openings", Level.CARE, {"openings": (Opening("port", "head.top", 0.04, None),)}, {}),
    ("criterion_fixed", Level.CARE, {"model": Model(criterion="mises")}, {}),
    ("no_spread", Level.CARE, {"model": Model(spread=False)}, {}),
    ("weld_not_stated", Level.NOTE, {"courses": [jobs.course(weld=None)]}, {}),
    ("textbook_steel", Level.BLOCK, {"courses": [course(basis=Basis.TEXTBOOK)]}, {}),
    ("typical_values", Level.CARE, {"courses": [course(basis=Basis.TYPICAL)]}, {}),
    ("minimum_only", Level.BLOCK, {"courses": [course(notes=("minimum_only",))]}, {}),
    (
        "certificate_not_used",
        Level.CARE,
        {"courses": [course(notes=("certificate_not_used",))]},
        {},
    ),
    (
        "invented_steel",
        Level.BLOCK,
        {"courses": [course(invented=True)], "example": False},
        {"courses": [course(invented=True)], "example": True},
    ),
    (
        "transforms",
        Level.CARE,
        {"courses": [course(transforms=True)], "water": Water(15.0, 0.0)},
        {},
    ),
    (
        "transforms",
        Level.BLOCK,
        {"courses": [course(transforms=True)], "water": Water(14.9, 0.0)},
        {"water": Water(14.9, 0.0)},
    ),
]


@pytest.mark.parametrize(("code", "level", "over", "within"), JOB_RULES)
def test_a_rule_on_the_job_speaks_only_beyond_its_limit(code, level, over, within):
    assert levels(**over).get(code) is level
    assert code not in levels(**within)


def test_a_weaker_certificate_in_one_course_of_the_same_steel_is_not_lost():
    """Two courses of one grade, only the first with minimum values: the block stays."""
    poor = course(notes=("minimum_only",))
    assert levels(courses=[poor, jobs.course("upper")])["minimum_only"] is Level.BLOCK
    assert levels(courses=[jobs.course(), replace(poor, name="upper")])["minimum_only"]


def test_only_one_of_the_two_shares_of_growth_is_named():
    both = levels(facts={"share_of_growth": 0.7})
    assert "share_of_growth_high" in both and "share_of_growth" not in both


def test_blocks_come_first_and_notes_last():
    order = [Level.BLOCK, Level.CARE, Level.NOTE]
    mixed = found(facts={"short": True}, supply=replace(PUMP, vent=False))[1]
    ranks = [order.index(caution.level) for caution in mixed]
    assert ranks == sorted(ranks) and {0, 1, 2} == set(ranks)


@pytest.mark.parametrize("code", ["cold_water", "share_of_growth_high"])
def test_an_accepted_block_is_lifted(code):
    case = {"facts": {"share_of_growth": 0.7}, "water": Water(3.0, 0.0)}
    assert code in cautions.withheld_by(*found(**case))
    accepted = {code: "trial forming agreed, foreman, 2025-01-01"}
    job, still = found(**case, accepted=accepted)
    assert code not in cautions.withheld_by(job, still)
    assert code in {caution.code for caution in still}  # it is still shown


NEVER = {
    "no_vent": {"supply": replace(PUMP, vent=False)},
    "no_relief": {"supply": replace(PUMP, relief_pressure=None)},
    "relief_above_maximum": {"facts": {"maximum_low": 3.0e6}},
    "target_beyond_maximum": {"facts": {"no_answer": 0.5}},
    "minimum_only": {"courses": [course(notes=("minimum_only",))]},
    "invented_steel": {"courses": [course(invented=True)], "example": False},
    "weld_without_filler": {"courses": [jobs.course(weld=Weld("none", 0.35))]},
}


@pytest.mark.parametrize("code", list(NEVER))
def test_some_blocks_are_never_lifted(code):
    job, still = found(**NEVER[code], accepted={code: "reason, role, date"})
    assert cautions.withheld_by(job, still) == (code,)


def test_gas_is_refused_by_the_reader_and_never_lifted_here():
    assert NEVER_LIFTED - {"gas"} == set(NEVER)


def test_a_care_withholds_nothing():
    assert cautions.withheld_by(*found(facts={"short": True})) == ()


def test_the_list_of_codes_is_that_of_the_rules():
    from test_caution_steel import CASES as STEEL_CASES

    rules = [
        node
        for module in (cautions, caution_means, caution_steel)
        for node in ast.parse(inspect.getsource(module)).body
        if isinstance(node, ast.FunctionDef)
    ]
    words = {
        node.value
        for rule in rules
        for node in ast.walk(rule)
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }
    raised = words & cautions.CODES
    assert raised == cautions.CODES
    calls = [node for rule in rules for node in ast.walk(rule) if isinstance(node, ast.Call)]
    first = {ast.unparse(call.args[0]) for call in calls if ast.unparse(call.func) == "Caution"}
    named = {word.strip("'") for word in first if word.startswith("'")}
    assert named <= cautions.CODES and len(named) > 25
    tested = {rule[0] for rule in RULES + JOB_RULES} | ALWAYS | set(STEEL_CASES)
    assert raised == tested
