"""Against Directive 2014/32/EU, Annex X, Table 1 (seen in UK SI 2016/1153, schedule 1I).

Would fail for a length that is not rounded up to whole metres, or for classes exchanged.
"""

import pytest

from stretchform.errors import InputError
from stretchform.water import tape


@pytest.mark.parametrize(
    ("length", "accuracy_class", "millimetres"),
    [
        (1.9, "I", 0.3),
        (1.9, "II", 0.7),
        (2.0, "I", 0.3),
        (2.001, "II", 0.9),
        (3.7888, "II", 1.1),
    ],
)
def test_permissible_error_of_a_tape(length, accuracy_class, millimetres):
    ours = tape.permissible_error(length, accuracy_class) * 1e3
    assert ours == pytest.approx(millimetres, abs=1e-9)  # exact in the table


def test_permissible_error_and_the_rate_limit_of_a_large_tank():
    circumference = 3.7888
    share = tape.permissible_error(circumference, "II") / circumference
    assert share == pytest.approx(0.00029, abs=6e-6)  # printed digits
    # 0.1 % per hour over half an hour
    moved = tape.change_in_hold(circumference, 1e-3 / 3600, 1800.0)
    assert moved * 1e3 == pytest.approx(1.89, abs=6e-3)  # printed digits


def test_an_unknown_class_is_refused():
    with pytest.raises(InputError):
        tape.permissible_error(2.0, "IV")
