"""The measured points that stand behind the curve of a steel file."""

from stretchform.files import data
from stretchform.files.curves import read_points
from stretchform.files.steels import SteelCard
from stretchform.si import Array


def read_steel_points(card: SteelCard) -> tuple[Array, Array] | None:
    """Plastic true strain and true stress (Pa) of the points a steel file names; else None.

    Raises DataError for a list of points that cannot be read.
    """
    written = data.read_record(card.file).get("curve")
    if not isinstance(written, dict) or "points" not in written:
        return None
    place = f"{card.file.name}: [curve]"
    strains, stresses = read_points(card.file.parent / data.text(written, "points", place))
    return strains - stresses / card.physical["youngs_modulus"].value, stresses
