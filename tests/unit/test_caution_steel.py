"""Rules on the certificate, the water and the seams, on both sides of their limits."""

from dataclasses import replace

import planning_jobs as jobs
import pytest
from test_cautions import levels

from stretchform.files.steels import load_steel
from stretchform.planning.cautions import Level
from stretchform.planning.job import Water
from stretchform.planning.tank import Weld
from stretchform.steel.grade import Basis, Certificate

MPA = 1e6
# invented analyses; Md30 after Nohara 28 K and -11 K, so 20 degC is too near and far enough
LEAN = {"C": 0.02, "N": 0.03, "Si": 0.4, "Mn": 1.2, "Cr": 18.0, "Ni": 8.0, "Mo": 0.1}
RICH = {**LEAN, "N": 0.06, "Ni": 8.7, "Cu": 0.3}
MOLYBDENUM = {**LEAN, "N": 0.05, "Cr": 17.2, "Ni": 10.1, "Mo": 2.1, "Cu": 0.3}  # Angel: -5 degC


def coil(name="1.4307", proof=295.0, tensile=650.0, **fields):
    paper = Certificate(proof * MPA, tensile * MPA, **fields)
    return load_steel(name, paper, "tests", jobs.JUDGED)


def of(steel, celsius=20.0):
    return {"courses": [jobs.course(steel=steel)], "water": Water(celsius, 20e-6)}


def seam(growth=0.04, **fields):
    weld = replace(Weld("308L", 0.35), **fields)
    return {"courses": [jobs.course(weld=weld)], "facts": {"target_growth": growth}}


def grooved(growth, **fields):
    case = seam(growth, **fields)
    case["facts"]["criterion"] = 1.12
    return case


CASES = {
    # code: level, just over the limit, just within it
    "certificate_below_minimum": (
        Level.CARE,
        of(coil(proof=169.0, tensile=600.0)),
        of(coil(proof=201.0, tensile=600.0)),
    ),
    "certificate_above_maximum": (
        Level.CARE,
        of(coil(tensile=720.0)),
        of(coil(tensile=690.0)),
    ),
    "perhaps_tempered": (
        Level.BLOCK,
        of(coil(proof=380.0, tensile=690.0)),
        of(coil(proof=370.0, tensile=690.0)),
    ),
    "water_shift": (
        Level.NOTE,
        {"water": Water(12.0, 20e-6)},
        {"water": Water(20.0, 20e-6)},
    ),
    "md30_near_water": (Level.CARE, of(coil(analysis=LEAN)), of(coil(analysis=RICH))),
    "angel_near_water": (
        Level.NOTE,
        of(coil("1.4404", analysis=MOLYBDENUM), 10.0),
        of(coil("1.4404", analysis=MOLYBDENUM), 20.0),
    ),
    "nitrogen_not_given": (
        Level.NOTE,
        of(coil(analysis={k: v for k, v in RICH.items() if k != "N"})),
        of(coil(analysis=RICH)),
    ),
    "cold_water_304": (Level.CARE, of(coil(), 14.9), of(coil(), 15.0)),
    "weld_without_filler": (Level.BLOCK, seam(filler="none"), seam()),
    "weld_filler_unknown": (Level.NOTE, seam(filler="mild steel"), seam(filler="ER316LSi")),
    "weld_elongation_not_given": (Level.NOTE, seam(elongation=None), seam()),
    "weld_elongation_short": (Level.CARE, seam(elongation=0.119), seam(elongation=0.12)),
    "weld_elongation_below_target": (
        Level.BLOCK,
        seam(elongation=0.04),
        seam(elongation=0.041),
    ),
    "long_seam_yields": (Level.NOTE, seam(0.05), seam(0.049)),
    "seam_may_be_weaker": (Level.CARE, seam(0.10), seam(0.099)),
    "seam_groove": (Level.CARE, grooved(0.04, undercut=0.1e-3), grooved(0.04, undercut=0.0)),
    "seam_necks": (Level.BLOCK, grooved(0.12, thickness=1.2e-3), grooved(0.04, undercut=1e-4)),
}


@pytest.mark.parametrize("code", list(CASES))
def test_a_rule_on_the_steel_or_its_seams_speaks_only_beyond_its_limit(code):
    level, over, within = CASES[code]
    assert levels(**over).get(code) is level
    assert code not in levels(**within)


def test_a_trial_steel_is_not_warned_of_the_water_it_was_formed_in():
    trial = replace(coil(analysis=LEAN), basis=Basis.TRIAL)
    assert "md30_near_water" not in levels(**of(trial))
    assert "water_shift" not in levels(**of(trial, 10.0))


def test_a_certificate_that_repeats_the_minima_is_a_block_that_stays():
    steel = coil(proof=220.0, tensile=520.0)
    assert "minimum_only" in steel.notes
    assert levels(**of(steel))["minimum_only"] is Level.BLOCK


def test_two_coils_of_one_name_are_both_looked_at():
    courses = [jobs.course(steel=coil()), jobs.course("upper", steel=coil(tensile=720.0))]
    assert levels(courses=courses)["certificate_above_maximum"] is Level.CARE
