"""Petals from above, and the markings that stand for their colours."""

from __future__ import annotations

from cmath import rect
from collections.abc import Callable
from dataclasses import dataclass
from math import pi, tan

from twayblade.writing.drawing.lines import between
from twayblade.writing.drawing.pen import Pen, Point, Weight

UP = -pi / 2

_ROUNDED = ((0.0, 0.07), (0.15, 0.19), (0.35, 0.35), (0.55, 0.45), (0.75, 0.48), (0.88, 0.41), (0.96, 0.25), (1.0, 0.1))
"""Half the width of a petal from its foot to its tip, as shares of its length."""
_STRAP = ((0.0, 0.18), (0.2, 0.34), (0.5, 0.46), (0.8, 0.47), (0.93, 0.43), (1.0, 0.33))
"""The same of the strap of a ray floret."""
_SLENDER = 4.5
"""Half the width in units below which a petal is drawn with fewer and lighter strokes."""


@dataclass(frozen=True)
class Petal:
    """A petal seen from above: where it stands, and how wide it is. Angles in radians, clockwise from the right."""

    centre: Point
    angle: float
    foot: float
    """Distance of its foot from the centre of the flower, in units."""
    length: float
    half: Callable[[float], float]
    """Half its width in units at a share of its length."""

    def at(self, along: float, aside: float = 0.0) -> Point:
        """A point on it: along from foot (0) to tip (1), aside from the left edge (-1) to the right (1)."""
        return self.centre + rect(1, self.angle) * complex(self.foot + along * self.length, aside * self.half(along))


def ring(number: int, centre: Point, foot: float, length: float, strap: bool = False) -> list[Petal]:
    """Petals round a centre, the first upwards, each in its own sector so that none hides another."""
    shape = _STRAP if strap else _ROUNDED
    sector = tan(pi / number) * 0.84 if number > 2 else 9.0

    def half(along: float) -> float:
        room = sector * (foot + along * length) * (between(shape, along) / between(shape, 0.75) if along > 0.75 else 1)
        return min(between(shape, along) * length, room)

    return [Petal(centre, UP + 2 * pi * n / number, foot, length, half) for n in range(number)]


def draw_petal(pen: Pen, petal: Petal) -> None:
    """Its outline, rounded at the tip."""
    slender = petal.half(0.7) < _SLENDER
    steps = (0.0, 0.5, 0.9) if slender else (0.0, 0.18, 0.4, 0.6, 0.78, 0.9)
    near = () if slender else (0.75,)
    right = [petal.at(s, 1) for s in steps] + [petal.at(0.98, a) for a in near]
    left = [petal.at(0.98, -a) for a in near] + [petal.at(s, -1) for s in reversed(steps)]
    pen.outline([*right, petal.at(1.0), *left], weight=Weight.INNER if slender else Weight.OUTLINE)


def draw_strap(pen: Pen, petal: Petal) -> None:
    """The outline of a ray floret: a strap with three blunt teeth."""
    if petal.half(0.7) < 3 * _SLENDER:
        sides = [[petal.at(s, a) for s in steps] for a, steps in ((1, (0.0, 0.5, 0.97)), (-1, (0.97, 0.5, 0.0)))]
        pen.outline(
            sides[0],
            [petal.at(0.97, 1), petal.at(1.0, 0.5), petal.at(0.97)],
            [petal.at(0.97), petal.at(1.0, -0.5), petal.at(0.97, -1)],
            sides[1],
            weight=Weight.INNER,
        )
        return
    right = [petal.at(s, 1) for s in (0.0, 0.2, 0.5, 0.8, 0.95)]
    left = [petal.at(s, -1) for s in (0.95, 0.8, 0.5, 0.2, 0.0)]
    teeth = [
        [petal.at(0.95, 1), petal.at(1.0, 0.8), petal.at(0.95, 0.36)],
        [petal.at(0.95, 0.36), petal.at(1.0, 0.0), petal.at(0.95, -0.36)],
        [petal.at(0.95, -0.36), petal.at(1.0, -0.8), petal.at(0.95, -1)],
    ]
    pen.outline(right, *teeth, left)


def mark(pen: Pen, tint: str, petal: Petal) -> None:
    """The marking of a colour on a petal.

    White has none, cream few dots and yellow many, pink dashes along the petal, purple lines along it, green lines across it.
    """
    wide = petal.half(0.7)
    if tint in ("cream", "yellow"):
        _dots(pen, petal, 11.5 if tint == "cream" else 6.2)
    elif tint == "pink":
        rows, columns = max(2, round(petal.length / 13)), max(1, round(wide / 4.6))
        for row in range(rows):
            for n in range(columns - row % 2 if columns > 1 else 1):
                start = 0.16 + 0.7 * (row + 0.2) / rows
                aside = _aside(n, columns - row % 2 if columns > 1 else 1, 0.72)
                pen.corner([petal.at(start, aside), petal.at(start + 0.32 / rows, aside)], Weight.INNER)
    elif tint == "purple":
        lines = max(1, round(wide / 2.6))
        for n in range(lines):
            aside = _aside(n, lines, 0.8)
            start = 0.14 if n % 2 == 0 else 0.3
            end = 0.93 - 0.12 * abs(aside) - pen.between(0, 0.04)
            way = [petal.at(start, aside), petal.at((start + end) / 2, aside), petal.at(end, aside)]
            if wide > 2.5 * _SLENDER:
                pen.curve(way, Weight.FINE, steady=True)
            else:
                pen.corner(way[::2], Weight.FINE)
    elif tint == "green":
        is_wide = wide > 3 * _SLENDER
        lines = max(2, round(petal.length / (7.8 if is_wide else 10)))
        for n in range(lines):
            along = 0.16 + 0.74 * (n + 0.5) / lines
            reach = 0.8 - pen.between(0, 0.08)
            if is_wide:
                pen.curve([petal.at(along - 0.02, -reach), petal.at(along + 0.02, 0), petal.at(along - 0.02, reach)], Weight.FINE, steady=True)
            else:
                pen.corner([petal.at(along, -reach), petal.at(along, reach)], Weight.FINE)


def _aside(n: int, number: int, reach: float) -> float:
    return reach * (2 * n / (number - 1) - 1) if number > 1 else 0.0


def _dots(pen: Pen, petal: Petal, apart: float) -> None:
    rows = max(1, round(0.72 * petal.length / (apart if petal.half(0.7) > _SLENDER else 2.4 * apart)))
    for row in range(rows):
        along = 0.18 + 0.72 * (row + 0.5) / rows
        number = max(1, round(2 * petal.half(along) * 0.8 / apart))
        for n in range(number):
            pen.stipple(pen.near(petal.at(along, _aside(n, number, 0.66)), 0.5), Weight.OUTLINE)
