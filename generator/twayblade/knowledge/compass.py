"""The sixteen winds of the compass and their directions in degrees, clockwise from north."""

from __future__ import annotations

COMPASS = (
    "north",
    "north-north-east",
    "north-east",
    "east-north-east",
    "east",
    "east-south-east",
    "south-east",
    "south-south-east",
    "south",
    "south-south-west",
    "south-west",
    "west-south-west",
    "west",
    "west-north-west",
    "north-west",
    "north-north-west",
)
_STEP = 360 / len(COMPASS)


def wind(degrees: float) -> str:
    """The wind nearest to a direction."""
    return COMPASS[round(degrees / _STEP) % len(COMPASS)]


def degrees_of(name: str) -> float:
    """The direction of a wind. Raises ValueError with a clause."""
    if name not in COMPASS:
        raise ValueError(f"no direction `{name}`; expected one of the sixteen winds, as in south or east-south-east")
    return COMPASS.index(name) * _STEP


def angle_between(first: float, second: float) -> float:
    """Degrees from one direction to another by the shorter way, 0 to 180."""
    apart = abs(first - second) % 360
    return min(apart, 360 - apart)
