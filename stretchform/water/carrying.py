"""The three ways in which a thin wall carries pressure, for its energy and its swelling."""

from enum import StrEnum


class Wall(StrEnum):
    """How the wall carries the pressure."""

    CLOSED = "closed"  # cylinder whose ends pull on the wall
    TIED = "tied"  # cylinder whose ends are held from outside
    SPHERE = "sphere"
