"""The list of spellings: every unit a user may write, by kind of quantity, with pint's name."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Dimension:
    """A kind of quantity: its spellings, each with pint's own name, and where sense ends."""

    article: str  # "a length"
    base: str  # SI unit in pint's own words
    usual: str  # the unit to propose where none is written
    lowest: float  # SI: smallest magnitude that is not zero
    highest: float
    spellings: dict[str, str]


_PRESSURES = {
    "bar": "bar",
    "bar(g)": "bar",
    "barg": "bar",
    "mbar": "millibar",
    "Pa": "pascal",
    "kPa": "kilopascal",
    "MPa": "megapascal",
    "GPa": "gigapascal",
    "N/mm2": "newton / millimeter ** 2",
    "N/mm²": "newton / millimeter ** 2",
    "N/mm^2": "newton / millimeter ** 2",
    "kgf/cm2": "kilogram_force / centimeter ** 2",
    "kgf/cm²": "kilogram_force / centimeter ** 2",
    "psi": "force_pound / inch ** 2",
    "psig": "force_pound / inch ** 2",
    "psi(g)": "force_pound / inch ** 2",
    "ksi": "kiloforce_pound / inch ** 2",
}
_LENGTHS = {
    "mm": "millimeter",
    "cm": "centimeter",
    "m": "meter",
    "µm": "micrometer",
    "um": "micrometer",
    "in": "inch",
    "in.": "inch",
    "inch": "inch",
    "inches": "inch",
    '"': "inch",
    "″": "inch",
    "thou": "thou",
    "mil": "thou",
    "mils": "thou",
    "ft": "foot",
    "foot": "foot",
    "feet": "foot",
    "'": "foot",
    "′": "foot",
}
_TEMPERATURES = {
    "°C": "degree_Celsius",
    "degC": "degree_Celsius",
    "deg C": "degree_Celsius",
    "℃": "degree_Celsius",
    "°F": "degree_Fahrenheit",
    "degF": "degree_Fahrenheit",
    "deg F": "degree_Fahrenheit",
    "℉": "degree_Fahrenheit",
    "K": "kelvin",
}
_PERCENTS = {"%": "percent", "per cent": "percent", "percent": "percent"}
_POINTS = {"points": "percent", "point": "percent", "percentage points": "percent"}
_VOLUMES = {
    "l": "liter",
    "L": "liter",
    "litre": "liter",
    "litres": "liter",
    "liter": "liter",
    "liters": "liter",
    "ml": "milliliter",
    "mL": "milliliter",
    "cc": "milliliter",
    "mm3": "millimeter ** 3",
    "mm³": "millimeter ** 3",
    "cm3": "centimeter ** 3",
    "cm³": "centimeter ** 3",
    "m3": "meter ** 3",
    "m³": "meter ** 3",
    "in3": "inch ** 3",
    "in³": "inch ** 3",
    "cu in": "inch ** 3",
    "ft3": "foot ** 3",
    "ft³": "foot ** 3",
    "cu ft": "foot ** 3",
    "US gal": "US_liquid_gallon",
    "imp gal": "imperial_gallon",
}
_FLOWS = {
    f"{volume}/{time}": f"{_VOLUMES[volume]} / {pint_time}"
    for volume in ("l", "L", "ml", "mL", "cm3", "cm³", "in3", "in³", "m3", "m³", "US gal")
    for time, pint_time in (("s", "second"), ("min", "minute"), ("h", "hour"))
}
_DENSITIES = {
    "kg/m3": "kilogram / meter ** 3",
    "kg/m³": "kilogram / meter ** 3",
    "g/cm3": "gram / centimeter ** 3",
    "g/cm³": "gram / centimeter ** 3",
    "g/l": "gram / liter",
    "kg/l": "kilogram / liter",
    "kg/L": "kilogram / liter",
    "lb/in3": "pound / inch ** 3",
    "lb/in³": "pound / inch ** 3",
    "lb/ft3": "pound / foot ** 3",
    "lb/ft³": "pound / foot ** 3",
}
_EXPANSIONS = {
    "1/K": "1 / kelvin",
    "/K": "1 / kelvin",
    "µm/m/K": "micrometer / meter / kelvin",
    "um/m/K": "micrometer / meter / kelvin",
    "µm/(m K)": "micrometer / meter / kelvin",
    "µm/(m·K)": "micrometer / meter / kelvin",
    "ppm/K": "ppm / kelvin",
    "ppm/°C": "ppm / kelvin",
    "µm/m/°C": "micrometer / meter / kelvin",
    "1/°F": "1 / delta_degree_Fahrenheit",
    "ppm/°F": "ppm / delta_degree_Fahrenheit",
    "µin/in/°F": "ppm / delta_degree_Fahrenheit",
}
_FORCES = {"N": "newton", "kN": "kilonewton", "lbf": "force_pound", "kgf": "kilogram_force"}
_MASSES = {"kg": "kilogram", "g": "gram", "t": "metric_ton", "lb": "pound", "oz": "ounce"}
_TIMES = {
    "s": "second",
    "min": "minute",
    "minutes": "minute",
    "h": "hour",
    "hours": "hour",
    "d": "day",
}
_ANGLES = {"°": "degree", "deg": "degree", "degrees": "degree", "rad": "radian"}
_ACCELERATIONS = {
    "m/s2": "meter / second ** 2",
    "m/s²": "meter / second ** 2",
    "g": "standard_gravity",
    "ft/s2": "foot / second ** 2",
    "ft/s²": "foot / second ** 2",
}
_CONCENTRATIONS = {  # a mass fraction; a litre of these waters is a kilogram
    "mg/l": "milligram / kilogram",
    "mg/L": "milligram / kilogram",
    "g/m3": "milligram / kilogram",
    "g/m³": "milligram / kilogram",
    "mg/kg": "milligram / kilogram",
    "ppm": "ppm",
    "%": "percent",
}
_ENERGIES = {"J": "joule", "kJ": "kilojoule", "MJ": "megajoule", "ft lbf": "foot * force_pound"}

DIMENSIONS = {
    "pressure": Dimension("a pressure", "pascal", "bar", 1e-3, 1e12, _PRESSURES),
    "length": Dimension("a length", "meter", "mm", 1e-8, 1e3, _LENGTHS),
    "temperature": Dimension(
        "a temperature", "degree_Celsius", "°C", 1e-9, 2000.0, _TEMPERATURES
    ),
    "ratio": Dimension("a share", "", "%", 1e-9, 100.0, _PERCENTS),
    "growth": Dimension("a growth", "", "%", 1e-7, 10.0, _PERCENTS | _POINTS),
    "volume": Dimension("a volume", "meter ** 3", "l", 1e-12, 1e5, _VOLUMES),
    "flow": Dimension("a flow", "meter ** 3 / second", "l/min", 1e-12, 1e2, _FLOWS),
    "density": Dimension("a density", "kilogram / meter ** 3", "kg/m3", 1e-2, 3e4, _DENSITIES),
    "expansion": Dimension(
        "a thermal expansion", "1 / kelvin", "µm/m/K", 1e-9, 1e-2, _EXPANSIONS
    ),
    "force": Dimension("a force", "newton", "N", 1e-6, 1e10, _FORCES),
    "mass": Dimension("a mass", "kilogram", "kg", 1e-6, 1e7, _MASSES),
    "time": Dimension("a time", "second", "min", 1e-6, 1e8, _TIMES),
    "angle": Dimension("an angle", "radian", "°", 1e-9, 100.0, _ANGLES),
    "acceleration": Dimension(
        "an acceleration", "meter / second ** 2", "g", 1e-6, 1e5, _ACCELERATIONS
    ),
    "concentration": Dimension("a concentration", "", "mg/l", 1e-12, 1.0, _CONCENTRATIONS),
    "energy": Dimension("an energy", "joule", "J", 1e-9, 1e12, _ENERGIES),
}
