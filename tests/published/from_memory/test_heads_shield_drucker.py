"""Against Shield and Drucker 1961 (FROM MEMORY, not read): limit pressure of a torisphere."""

import pytest

from stretchform.forming.heads import Torisphere, limit_pressure

ROWS = [
    (Torisphere(1.2, 1.2, 0.12, 3e-3), 240e6, 0.41676e6),
    (Torisphere(1.0, 1.0, 0.10, 5e-3), 250e6, 1.08650e6),
]


@pytest.mark.parametrize(("head", "strength", "printed"), ROWS)
def test_limit_pressure(head, strength, printed):
    # computed by an independent program from the remembered formula, five digits
    assert limit_pressure(head, strength) == pytest.approx(printed, rel=1e-4)
