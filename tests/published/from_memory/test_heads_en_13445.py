"""Against EN 13445-3 7.5.3 and 7.5.4 (FROM MEMORY, not read): allowable pressures of heads.

Expected values computed by an independent program from the same remembered formulas: they
show that we compute what we say, not that the standard says it.
"""

import pytest

from stretchform.errors import InputError
from stretchform.forming.heads import (
    Torisphere,
    allowable,
    equivalent_torisphere,
    shape_factor,
)

DI, PROOF, DESIGN = 1.2, 240e6, 160e6
THIN = Torisphere(DI, 1.2, 0.12, 3e-3)
THICK = Torisphere(DI, 1.2, 0.12, 6e-3)
ELLIPSOID = equivalent_torisphere(DI, 3e-3)
ROWS = [
    (THIN, 1.0727, 0.7990e6, 0.3925e6, 0.3587e6),
    (THICK, 0.9499, 1.5960e6, 0.8865e6, 1.0146e6),
    (ELLIPSOID, 0.6855, 0.8877e6, 0.6668e6, 0.6287e6),
]


@pytest.mark.parametrize("row", ROWS)
def test_pressures_of_three_heads(row):
    head, beta, crown, knuckle, buckling = row
    result = allowable(head, PROOF, DESIGN)
    # four digits were kept
    assert shape_factor(head) == pytest.approx(beta, rel=1e-3)
    assert result.crown == pytest.approx(crown, rel=1e-3)
    assert result.knuckle_yield == pytest.approx(knuckle, rel=1e-3)
    assert result.knuckle_buckling == pytest.approx(buckling, rel=1e-3)


def test_the_ellipsoid_is_judged_as_a_flat_torisphere():
    assert pytest.approx(0.9 * DI) == ELLIPSOID.crown_radius
    assert pytest.approx(0.17 * DI) == ELLIPSOID.knuckle_radius


def test_a_cold_spun_head_is_allowed_sixty_per_cent_more_against_buckling():
    plain, spun = (allowable(THIN, PROOF, DESIGN, spun) for spun in (False, True))
    assert spun.knuckle_buckling == pytest.approx(1.6 * plain.knuckle_buckling)
    assert spun.knuckle_yield == plain.knuckle_yield


@pytest.mark.parametrize(
    ("head", "inside"),
    [
        (THIN, True),
        (Torisphere(DI, 1.2, 0.05, 3e-3), False),  # knuckle below 0.06 Di
        (Torisphere(DI, 1.3, 0.12, 3e-3), False),  # crown above the outside diameter
        (Torisphere(DI, 1.2, 0.12, 1e-3), False),  # wall below a thousandth
        (Torisphere(DI, 1.2, 0.12, 0.1), False),  # knuckle below twice the wall
    ],
)
def test_heads_outside_the_limits_of_the_rule_are_marked(head, inside):
    assert bool(allowable(head, PROOF, DESIGN).in_range) is inside


def test_a_head_without_size_is_refused():
    with pytest.raises(InputError, match="must be positive"):
        allowable(Torisphere(DI, 1.2, 0.0, 3e-3), PROOF, DESIGN)
