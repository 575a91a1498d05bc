"""A job file to start from: every key that is needed, and the ones most often added."""

from pathlib import Path

from stretchform.errors import InputError

STARTER = """\
# A forming job. Every quantity is text with its unit: "2.0 mm", "12 bar"; inches and psi too.
# All sizes are as built, before forming. All numbers below are invented: replace each of them.

[job]
name = "Starter tank"
note = "invented example, to be replaced"
example = true  # invented numbers; delete this line once all of them are your own

[target]  # one of: growth, outside_diameter, inside_diameter, outside_circumference,
growth = "5 %"  # gained_yield_strength; released, unless under_pressure = true
at = "largest"  # or the name of a station

[tank]
attitude = "standing"  # while it is formed: standing, hanging or lying

[[course]]  # bottom to top
name = "shell"
length = "1800 mm"
inside_diameter = "600 mm"  # or outside_diameter, or outside_circumference
wall = "2.0 mm"  # mean of the readings
wall_tolerance = "0.05 mm"  # half the spread of the readings
steel = "1.4307"  # stretchform steels lists them
certificate = { proof_02 = "295 MPa", proof_10 = "325 MPa", tensile = "650 MPa" }
weld = { filler = "308L" }

[head.bottom]
shape = "ellipsoid 2:1"  # or hemisphere, torisphere (with its two radii), tied
wall = "2.5 mm"
straight_flange = "25 mm"

[head.top]
like = "bottom"

[[station]]  # where the tape goes round; left out: the middle of each course
name = "middle"
height = "900 mm"  # above the lower tangent line

# [[plate]]  # a row of plates inside
# name = "ring"
# count = 3
# first = "600 mm"
# pitch = "300 mm"
# thickness = "1.5 mm"
# ring_width = "60 mm"
# tabs = 3
# tab_clearance = "3 mm"
# tab_length = "20 mm"
# arm = { kind = "single", depth = "7 mm" }

[water]
temperature = "15 °C"
chloride = "40 mg/l"

[supply]
kind = "hand pump"  # or motor pump, air-driven pump; never gas
maximum_pressure = "60 bar"
relief_pressure = "28 bar"
metered_volume = "40 l"  # content of the drum that the pump draws from
# stroke = "13 ml"
# remote_bleed = true  # stop, bleed and vent are worked from outside

[gauge]
range = "60 bar"
class = "0.6 %"  # of the range
height = "1.0 m"  # above the lower tangent line

[tape]
kind = "plain"  # or diameter
resolution = "0.5 mm"
thickness = "0.2 mm"
"""


def starter() -> str:
    """The text of the starter job; it can be read and planned as it stands."""
    return STARTER


def write_starter(path: Path) -> None:
    """Write the starter job; an existing file is never touched.

    Raises InputError where something of this name exists or nothing can be written there.
    """
    try:
        with path.open("x", encoding="utf-8") as stream:
            stream.write(STARTER)
    except FileExistsError as error:
        other = path.with_name(f"{path.stem}-2{path.suffix or '.toml'}")
        problem = "there is something of this name already; it is left alone"
        raise InputError(str(path), problem, f"stretchform new {other}") from error
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        fix = "stretchform new tank.toml"
        raise InputError(str(path), f"cannot be written: {reason}", fix) from error
