"""Yield criteria: ratios to von Mises, equal plastic work, normality, and the spoken names."""

import numpy as np
import pytest
from laws import LAWS, MPA

from stretchform.forming import criterion, membrane
from stretchform.forming.criterion import MISES_FACTOR, Shape, State
from stretchform.forming.membrane import RIGID

HOOP = 0.05  # hoop log strain at which the table below compares; law H, rigid-plastic
DIGITS = 1e-9  # computed references of an independent prototype, 12 digits printed

# hoop stress and plastic strains per flow stress and strain, p·radius/wall in MPa, to Mises
CLOSED = [
    ("mises", 1.15470053838, 0.866025403784, 0.0, 369.14570737, 1.0),
    ("hill 0.8", 1.11417202906, 0.866578244826, 0.061898446059, 354.817422187, 0.96118529),
    ("hill 0.9", 1.13496061307, 0.86615415208, 0.0298673845545, 362.185791535, 0.98114588),
    ("hill 1.1", 1.17347738808, 0.866138072152, -0.0279399378114, 375.732040454, 1.0178421),
    ("hill 1.3", 1.20843595623, 0.866921446863, -0.0788110406239, 387.903820556, 1.0508149),
    ("hosford 8", 1.08944743792, 0.917896508996, 0.0, 339.286318419, 0.91911219),
    ("tresca", 1.0, 1.0, 0.0, 299.652039901, 0.81174461),
]
EVERY = ["mises", "tresca", "hosford 2", "hosford 6", "hosford 8", "hill 0.7", "hill 1.4"]


def pressure(state, curve=LAWS["H"], hoop=HOOP):
    return membrane.pressure(1.0, 1.0, hoop / state.hoop_strain, curve, state, RIGID)


def equivalent(name, hoop, axial):
    """The criteria written out once more, as functions of both stresses."""
    word, _, value = name.partition(" ")
    if word == "tresca":
        return max(abs(hoop), abs(axial), abs(hoop - axial))
    if word == "hosford":
        a = float(value)
        return ((abs(hoop) ** a + abs(axial) ** a + abs(hoop - axial) ** a) / 2.0) ** (1.0 / a)
    r = float(value) if word == "hill" else 1.0
    return np.sqrt(hoop**2 - 2.0 * r / (1.0 + r) * hoop * axial + axial**2)


@pytest.mark.parametrize(("name", "stress", "hoop", "axial", "product", "ratio"), CLOSED)
def test_closed_cylinder_matches_the_reference(name, stress, hoop, axial, product, ratio):
    state = criterion.named(name, Shape.CLOSED)
    ours = pressure(state)
    assert state.hoop_stress == pytest.approx(stress, rel=DIGITS)
    assert state.axial_stress == pytest.approx(stress / 2.0, rel=DIGITS)
    assert state.hoop_strain == pytest.approx(hoop, rel=DIGITS)
    assert state.axial_strain == pytest.approx(axial, rel=DIGITS, abs=1e-15)  # zero exactly
    assert ours / MPA == pytest.approx(product, rel=DIGITS)
    to_mises = ours / pressure(criterion.mises(Shape.CLOSED))
    assert to_mises == pytest.approx(ratio, rel=6e-8)  # eight digits printed


@pytest.mark.parametrize("name", ["mises", "tresca", "hosford 8"])
def test_isotropic_criteria_agree_in_a_sphere(name):
    ours = pressure(criterion.named(name, Shape.SPHERE)) / MPA
    assert ours == pytest.approx(778.746321352, rel=DIGITS)


@pytest.mark.parametrize(("r_value", "ratio"), [(0.8, 0.92645818), (1.3, 1.1066389)])
def test_hill_in_a_sphere_matches_the_reference(r_value, ratio):
    ours = pressure(criterion.hill(Shape.SPHERE, r_value))
    to_mises = ours / pressure(criterion.mises(Shape.SPHERE))
    assert to_mises == pytest.approx(ratio, rel=6e-8)  # eight digits printed


@pytest.mark.parametrize("name", [*EVERY[:5], "hill 0.8", "hill 1.3"])
def test_every_criterion_agrees_in_an_open_cylinder_within_half_a_per_cent(name):
    plain = pressure(criterion.mises(Shape.OPEN)) / MPA
    ours = pressure(criterion.named(name, Shape.OPEN)) / MPA
    assert plain == pytest.approx(307.237767406, rel=DIGITS)
    assert ours == pytest.approx(plain, rel=0.005)  # only the axial strain differs: the bound


@pytest.mark.parametrize("exponent", [0.1, 0.3, 0.45])
def test_tresca_needs_root_three_halves_to_the_power_of_one_plus_n_of_mises(exponent):
    curve = type(LAWS["H"])(1275.0 * MPA, exponent)
    ratio = pressure(criterion.tresca(Shape.CLOSED), curve) / pressure(
        criterion.mises(Shape.CLOSED), curve
    )
    assert ratio == pytest.approx((np.sqrt(3.0) / 2.0) ** (1.0 + exponent), rel=1e-13)


@pytest.mark.parametrize("shape", list(Shape))
@pytest.mark.parametrize("name", [*EVERY, "C 1.03", "C 1.17"])
def test_plastic_work_per_flow_stress_is_one(name, shape):
    state = criterion.named(name, shape)
    work = state.hoop_stress * state.hoop_strain + state.axial_stress * state.axial_strain
    assert work == pytest.approx(1.0, rel=1e-14)  # rounding of a few products


@pytest.mark.parametrize("shape", list(Shape))
@pytest.mark.parametrize("name", EVERY)
def test_stresses_lie_on_the_criterion(name, shape):
    state = criterion.named(name, shape)
    assert equivalent(name, state.hoop_stress, state.axial_stress) == pytest.approx(
        1.0, rel=1e-13
    )


@pytest.mark.parametrize("shape", list(Shape))
@pytest.mark.parametrize("name", [name for name in EVERY if name != "tresca"])
def test_plastic_strains_stand_normal_on_the_criterion(name, shape):
    state, step = criterion.named(name, shape), 1e-6
    h, z = float(state.hoop_stress), float(state.axial_stress)
    along_hoop = (equivalent(name, h + step, z) - equivalent(name, h - step, z)) / (2 * step)
    along_axial = (equivalent(name, h, z + step) - equivalent(name, h, z - step)) / (2 * step)
    # 1e-8: rounding 1e-16/1e-6 and curvature 1e-12·a³ of the difference quotient
    assert state.hoop_strain == pytest.approx(along_hoop, abs=1e-8)
    assert state.axial_strain == pytest.approx(along_axial, abs=1e-8)


@pytest.mark.parametrize("shape", list(Shape))
def test_general_factor_reaches_mises_and_tresca_at_their_own(shape):
    judged = criterion.general(shape, MISES_FACTOR)
    plain = criterion.mises(shape)
    for part in State.__slots__:
        assert getattr(judged, part) == pytest.approx(getattr(plain, part), abs=1e-15)
    if shape is Shape.CLOSED:
        assert pressure(criterion.general(shape, 1.0)) == pressure(criterion.tresca(shape))


def test_judged_factor_acts_inside_the_curve_and_not_on_the_pressure_alone():
    # p = C s(C e): a power law gives C^(1 + n); C alone would be the likely mistake
    ratio = pressure(criterion.general(Shape.CLOSED, 1.03)) / pressure(
        criterion.mises(Shape.CLOSED)
    )
    assert ratio == pytest.approx((1.03 / MISES_FACTOR) ** 1.45, rel=1e-13)


def test_draws_of_the_factor_broadcast():
    factor = np.array([1.03, 1.13, 1.17])
    many = pressure(criterion.general(Shape.CLOSED, factor))
    one = [float(pressure(criterion.general(Shape.CLOSED, c))) for c in (1.03, 1.13, 1.17)]
    assert many.shape == (3,)
    np.testing.assert_allclose(many, one, rtol=1e-15)


@pytest.mark.parametrize(
    ("text", "factor"),
    [
        ("mises", 2.0 / np.sqrt(3.0)),
        (" mises ", 2.0 / np.sqrt(3.0)),
        ("tresca", 1.0),
        ("hosford 8", 1.08944743792),
        ("hill 0.9", 1.13496061307),
        ("C 1.13", 1.13),
    ],
)
def test_a_spoken_name_finds_its_criterion(text, factor):
    state = criterion.named(text, Shape.CLOSED)
    assert state.hoop_stress == pytest.approx(factor, rel=DIGITS)


@pytest.mark.parametrize(
    "text",
    ["", "Mises", "mises 2", "tresca 1", "hosford", "hosford eight", "hosford 1.5", "hill",
     "hill 0.1", "hill nan", "hill 5", "C", "C 0.5", "C 2", "c 1.1", "voce 3"],
)  # fmt: skip
def test_a_name_that_is_not_known_finds_none(text):
    assert criterion.named(text, Shape.CLOSED) is None
