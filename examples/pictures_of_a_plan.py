"""Draws the pictures of an invented example: in a script to files, in a notebook by themselves.

    python examples/pictures_of_a_plan.py FOLDER

In a notebook the last line of a cell, such as `chart.growth(plan)`, shows the picture.
"""

import sys
from pathlib import Path

from stretchform import actions
from stretchform.report import chart

plan = actions.plan(Path(__file__).with_name("survey-boat-deck-tank.toml"))
folder = Path(sys.argv[1] if len(sys.argv) > 1 else ".")
for picture in (chart.tank(plan), chart.growth(plan), chart.profile(plan), chart.energy(plan)):
    actions.save_picture(picture, folder / f"invented-{picture.name}.svg")
