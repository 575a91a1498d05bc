"""Against Galletly 1986 (FROM MEMORY; only the abstract was seen): knuckle buckling."""

import pytest

from stretchform.forming.heads import Torisphere, allowable, buckling_estimate

HEAD = Torisphere(1.2, 1.2, 0.12, 3e-3)


def test_collapse_estimate_of_a_thin_head():
    # computed by an independent program from the remembered formula, four digits
    assert buckling_estimate(HEAD, 240e6, of_collapse=True) == pytest.approx(0.5386e6, rel=1e-3)


def test_the_allowable_is_two_thirds_of_the_collapse_estimate_and_near_the_european_rule():
    ours = buckling_estimate(HEAD, 240e6, of_collapse=False)
    assert ours * 1.5 == pytest.approx(buckling_estimate(HEAD, 240e6, of_collapse=True))
    # two remembered rules of one origin: they differ in the size they take and by rounding
    assert ours == pytest.approx(
        float(allowable(HEAD, 240e6, 160e6).knuckle_buckling), rel=0.02
    )
