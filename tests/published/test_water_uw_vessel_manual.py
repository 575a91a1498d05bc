"""Against the University of Washington manual of a pressure test vessel, table 3 (seen).

Printed: compressibility of water at 20 °C and 0 psi, 3.17e-6 per psi. Would fail for the
isentropic stiffness (0.7 % higher) or a compressibility of the wrong pressure.
"""

import pytest

from stretchform.water import properties

PSI = 6894.757  # Pa


def test_stiffness_at_20_degrees_matches_the_printed_compressibility():
    ours = PSI / properties.isothermal_stiffness(20.0, 0.0)
    # half a unit of the last printed digit is 0.16 %, their water and ours differ by 0.1 %
    assert ours == pytest.approx(3.17e-6, rel=0.003)
