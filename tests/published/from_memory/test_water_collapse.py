"""Against the short-cylinder formula of Windenburg and Trilling, 1934 (from memory: guards
our coding of it, not counted as a published check). The sizes are those of the invented
reference tank, as built and as formed by 5 %.
"""

import pytest

from stretchform.errors import InputError
from stretchform.water import collapse


def test_collapse_of_the_tank_as_built():
    ours = collapse.collapse_pressure(0.6, 1.5e-3, 1.2, 200e9, 0.3, knock_down=1.0)
    assert ours / 1e3 == pytest.approx(82.1, abs=0.06)  # printed digits


def test_collapse_of_the_tank_as_formed_and_its_knock_down():
    ours = collapse.collapse_pressure(0.63, 1.5e-3 / 1.05, 1.2, 200e9, 0.3, knock_down=1.0)
    assert ours / 1e3 == pytest.approx(67.5, abs=0.06)  # printed digits
    careful = collapse.collapse_pressure(0.63, 1.5e-3 / 1.05, 1.2, 200e9, 0.3)
    assert careful == pytest.approx(0.75 * ours, rel=1e-12)  # factor
    assert collapse.stands_vacuum(careful) < 1.0


def test_a_small_thick_tank_stands_a_vacuum():
    ours = collapse.collapse_pressure(0.2, 2e-3, 0.6, 200e9, 0.3)
    assert collapse.stands_vacuum(ours) > 1.0


@pytest.mark.parametrize("length", [0.0, 0.01, -1.0])
def test_a_shell_too_short_for_the_formula_is_refused(length):
    with pytest.raises(InputError):
        collapse.collapse_pressure(0.6, 1.5e-3, length, 200e9, 0.3)
