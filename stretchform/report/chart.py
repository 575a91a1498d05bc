"""All pictures by name: `chart.growth(plan).svg` is SVG text, `.png` bytes; notebooks show them."""

from stretchform.report.chart_bars import drivers as drivers
from stretchform.report.chart_bars import energy as energy
from stretchform.report.chart_compare import comparison as comparison
from stretchform.report.chart_growth import growth as growth
from stretchform.report.chart_picture import Picture as Picture
from stretchform.report.chart_profile import profile as profile
from stretchform.report.chart_steel import MOST as MOST
from stretchform.report.chart_steel import steel as steel
from stretchform.report.chart_steel import steels as steels
from stretchform.report.chart_tank import tank as tank
