"""The whole tank as a layered shell of revolution: growth, heads and maximum pressure."""

from stretchform.forming.membrane import Elastic
from stretchform.forming.shell.build import Material, Support, Weight
from stretchform.forming.shell.material import WithCriterion
from stretchform.forming.shell.mesh import COARSE, FINE, PLAN, Fineness
from stretchform.forming.shell.results import Trace, at_pressure
from stretchform.forming.shell.solve import Target, maximum_pressure, solve

__all__ = [
    "COARSE",
    "FINE",
    "PLAN",
    "Elastic",
    "Fineness",
    "Material",
    "Support",
    "Target",
    "Trace",
    "Weight",
    "WithCriterion",
    "at_pressure",
    "maximum_pressure",
    "solve",
]
