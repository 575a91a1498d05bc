"""Against EN 837-1:1996, Table 11 (seen): class = limit of error in per cent of the span.

Would fail for a class taken in per cent of the reading.
"""

import numpy as np
import pytest

from stretchform.errors import InputError
from stretchform.water import supply


def test_class_one_gauge_of_four_megapascals():
    # printed digits
    assert supply.gauge_limit(4e6, 1.0) / 1e6 == pytest.approx(0.04, rel=1e-12)
    assert supply.gauge_uncertainty(4e6, 1.0) / 1e6 == pytest.approx(0.0231, abs=6e-5)
    assert supply.gauge_uncertainty(4e6, 0.25) / 1e6 == pytest.approx(0.0058, abs=6e-5)


@pytest.mark.parametrize(("span", "accuracy_class"), [(0.0, 1.0), (4e6, 0.0), (4e6, np.nan)])
def test_a_gauge_without_range_or_class_is_refused(span, accuracy_class):
    with pytest.raises(InputError):
        supply.gauge_limit(span, accuracy_class)


def test_what_a_class_one_gauge_is_worth_in_growth():
    # slope of the invented power-law tank at 5 %: dp/de = p (n/e - 2), growth = exp(e) - 1
    strain, pressure = np.log(1.05), 2.00932e6
    per_pascal = 1.0 / (pressure * (0.45 / strain - 2.0))
    limit = supply.gauge_limit(4e6, 1.0)
    # printed digits: 0.28 points of hoop strain are 0.29 points of growth
    assert supply.worth_in_growth(limit, per_pascal) * 100 == pytest.approx(0.28, abs=6e-3)
    grown = supply.worth_in_growth(limit, 1.05 * per_pascal)
    assert grown * 100 == pytest.approx(0.29, abs=6e-3)


def test_range_over_pressure():
    assert supply.range_share(4e6, 2e6) == 2.0
