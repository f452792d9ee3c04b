"""The body of a fruit: how wide it is at each height, and where a place on its face lies."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import cos, pi, sin

from twayblade.knowledge.pieces.fruit import Fruit
from twayblade.writing.drawing.lines import between
from twayblade.writing.drawing.pen import Point
from twayblade.writing.drawing.sketch import units

WIDTH, HEIGHT = 150, 200
MIDDLE = 70.0
FOOT = 187.0
LONGEST = 118.0
"""Length of the longest fruit in units: above it there is room for long styles."""

_PROFILES: dict[str, tuple[float, ...]] = {
    "long": (0.02, 0.045, 0.08, 0.115, 0.13, 0.133, 0.125, 0.1, 0.066, 0.044, 0.028),
    "cylinder": (0.07, 0.12, 0.155, 0.175, 0.182, 0.183, 0.182, 0.178, 0.172, 0.165, 0.158),
    "narrow-egg": (0.025, 0.085, 0.135, 0.174, 0.182, 0.168, 0.142, 0.105, 0.073, 0.052, 0.03),
    "egg": (0.03, 0.14, 0.24, 0.318, 0.348, 0.34, 0.302, 0.235, 0.158, 0.095, 0.03),
    "flat-oval": (0.03, 0.115, 0.205, 0.297, 0.35, 0.372, 0.363, 0.312, 0.232, 0.15, 0.05),
    "twisted": (0.1, 0.17, 0.26, 0.36, 0.42, 0.43, 0.4, 0.33, 0.235, 0.16, 0.08),
    "berry": (0.04, 0.175, 0.275, 0.37, 0.42, 0.43, 0.415, 0.36, 0.265, 0.17, 0.05),
    "grain": (0.02, 0.05, 0.085, 0.132, 0.165, 0.18, 0.172, 0.135, 0.085, 0.05, 0.02),
    "oval": (0.02, 0.095, 0.155, 0.216, 0.25, 0.26, 0.25, 0.214, 0.155, 0.095, 0.02),
}
"""Half the width as a share of the length, at the heights below."""
_HEIGHTS = (0.0, 0.028, 0.085, 0.2, 0.35, 0.5, 0.65, 0.8, 0.915, 0.972, 1.0)
_NECK = 0.17
"""The share of the length that a beak takes."""
_NECK_WIDTH = 0.042
_TWIST, _PARTS = 1.5, 8
"""A twisted fruit: how far its parts wind from foot to tip, in radians, and how many there are."""


@dataclass(frozen=True)
class Body:
    """A fruit's body. Heights are shares of its length, from foot (0) to tip (1); what lies aside is a share of half its width there."""

    length: float
    profile: str
    has_beak: bool
    is_known: bool
    """Whether anything is said of its shape."""

    def half(self, up: float) -> float:
        """Half its width at a height, in units."""
        table = list(zip(_HEIGHTS, _PROFILES[self.profile], strict=True))
        if not self.has_beak:
            return between(table, up) * self.length
        body = between(table, up / (1 - _NECK)) if up < 1 - _NECK else 0.0
        return max(body, _NECK_WIDTH if up > 0.6 else 0.0) * self.length

    def at(self, up: float, aside: float = 0.0) -> Point:
        """A point on the face."""
        return complex(MIDDLE + aside * self.half(up), FOOT - up * self.length)

    def side(self, aside: float, wave: Callable[[float], float] = lambda up: 0.0) -> list[Point]:
        """Points up a line that keeps its share of the width, from foot to tip; wave: what is added to half the width, in units."""
        heights: tuple[float, ...] = _HEIGHTS if not self.has_beak else (*_HEIGHTS[:6], 0.64, 0.74, 0.795, 0.84, 0.92, 1.0)
        if self.profile == "twisted":
            heights = tuple(n / 16 for n in range(17))
        turn = 1 if aside > 0 else -1
        return [self.at(up, aside) + turn * wave(up) for up in heights]

    @property
    def small(self) -> float:
        """How large it is drawn against the largest, so that what stands on it keeps its size to it."""
        return self.length / LONGEST


def scale_of(fruit: Fruit) -> float | None:
    """Units for one millimetre."""
    return units(fruit.length, fruit.frame, LONGEST)


def body_of(fruit: Fruit) -> Body:
    """The body. Where no outline is said the kind of fruit gives a usual one; without either it is an oval of dashes."""
    scale = scale_of(fruit)
    length = float(fruit.length) * scale if fruit.length and scale else LONGEST
    of_kind = {"berry": "berry", "capsule": "cylinder", "grain": "grain"}.get(fruit.make or "")
    profile = fruit.outline or of_kind or "oval"
    if fruit.make == "berry" and fruit.outline == "egg":
        profile = "berry"
    return Body(length, profile, fruit.beak == "short", bool(fruit.outline or of_kind))


def seam(body: Body, part: int) -> list[Point]:
    """A furrow between two parts of a twisted fruit, as far as it is seen from the front."""
    points = []
    for step in range(13):
        up = 0.02 + 0.95 * step / 12
        angle = 2 * pi * part / _PARTS - pi + _TWIST * up
        if abs((angle + pi) % (2 * pi) - pi) < 0.45 * pi:
            points.append(body.at(up, 0.98 * sin(angle)))
    return points


def bulge(body: Body, right: bool) -> Callable[[float], float]:
    """How the edge of a twisted fruit is drawn in where a furrow reaches it, in units."""

    def wave(up: float) -> float:
        angle = (pi / 2 if right else -pi / 2) + pi - _TWIST * up
        return -0.016 * body.length * (0.5 + 0.5 * cos(_PARTS * angle)) ** 3

    return wave


def parts() -> range:
    """The furrows of a twisted fruit."""
    return range(_PARTS)
