"""When does growth run away: gas in the supply, air, and patches fed by the rest of the tank.

Metered water holds a whole tank steady far beyond its maximum pressure, but not a small soft
patch: the rest of the tank feeds it. These figures carry cautions; they are no limits to
work up to.
"""

import numpy as np

from stretchform.si import (
    CubicMetre,
    Pascal,
    PascalPerCubicMetre,
    PerPascal,
    Ratio,
    Strain,
)

SOURCES = ("own-derivation",)


def pressure_per_volume(
    pressure: Pascal, strain: Strain, local_exponent: Ratio, volume: CubicMetre
) -> PascalPerCubicMetre:
    """Slope of pressure over volume of a flowing cylinder; negative beyond the maximum.

        dp/dV = p (n/e - 2)/(2 V); n = d ln stress/d ln strain at the strain e, volume now

    Source: own-derivation, hoop balance with axial strain zero.
    Checked: tests/verification/test_water_runaway.py (reference tank, finite difference).
    Raises nothing.
    """
    fall = np.divide(local_exponent, strain) - 2.0
    return np.multiply(pressure, fall) / (2.0 * np.asarray(volume))


def softest_patch(pressure: Pascal, water_stiffness: Pascal, wall_swelling: PerPascal) -> Ratio:
    """Share of the tank below which a patch runs away though the water is metered.

        s = p (1/K_T + swelling): what the rest of the tank can feed it, worst case

    Order of magnitude only: a caution, never a limit.

    Source: own-derivation, softening p per patch volume against the feed of the rest.
    Checked: tests/verification/test_water_runaway.py (reference tank).
    Raises nothing.
    """
    return np.multiply(pressure, 1.0 / np.asarray(water_stiffness) + wall_swelling)


def gas_fed_limit(local_exponent: Ratio, gas_over_tank: Ratio) -> Strain:
    """Hoop strain at which a tank fed by a closed gas volume runs away.

        e = n (1 + s)/(2 s), s = gas volume over the tank's volume now; n/2 without end of gas

    Shown beside the refusal of gas: more gas, earlier loss, and its energy stays regardless.

    Source: own-derivation, maximum of p (V + V_gas).
    Checked: tests/verification/test_water_runaway.py (reference tank, numerical maximum).
    Raises nothing.
    """
    return local_exponent * np.add(1.0, gas_over_tank) / (2.0 * np.asarray(gas_over_tank))
