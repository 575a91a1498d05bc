"""Names for SI quantities: the unit of every argument and result stands in the signature.

All are plain aliases of a float or an array of floats, so they cost nothing at run time.
Functions accept both and broadcast as numpy does.
"""

from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Number: TypeAlias = float | NDArray[np.float64]
    Array: TypeAlias = NDArray[np.float64]
    Flags: TypeAlias = NDArray[np.bool_]
else:
    Number = float
    Array = object
    Flags = object

Metre: TypeAlias = Number
SquareMetre: TypeAlias = Number
CubicMetre: TypeAlias = Number
Pascal: TypeAlias = Number
Newton: TypeAlias = Number
NewtonMetre: TypeAlias = Number
Joule: TypeAlias = Number
JoulePerCubicMetre: TypeAlias = Number
JoulePerKilogramKelvin: TypeAlias = Number
Kilogram: TypeAlias = Number
KilogramPerCubicMetre: TypeAlias = Number
Second: TypeAlias = Number
PerSecond: TypeAlias = Number
Hertz: TypeAlias = Number
Radian: TypeAlias = Number
MetrePerSecond: TypeAlias = Number
MetrePerSecondSquared: TypeAlias = Number
CubicMetrePerPascal: TypeAlias = Number
PascalPerCubicMetre: TypeAlias = Number
CubicMetrePerSecond: TypeAlias = Number
PascalPerSecond: TypeAlias = Number
PascalPerKelvin: TypeAlias = Number
PerKelvin: TypeAlias = Number
PerPascal: TypeAlias = Number
KelvinPerSecond: TypeAlias = Number
Celsius: TypeAlias = Number
Kelvin: TypeAlias = Number
Strain: TypeAlias = Number  # a fraction: true (logarithmic) strain unless the text says growth
Growth: TypeAlias = Number  # a fraction: engineering change of a circumference
Ratio: TypeAlias = Number  # a pure number
MassPerCent: TypeAlias = Number  # of an analysis, in per cent by mass

STANDARD_GRAVITY = 9.80665  # m/s², exact by definition
STANDARD_ATMOSPHERE = 101_325.0  # Pa, exact by definition
