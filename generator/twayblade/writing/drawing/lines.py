"""Lines that several pieces need: points on circles, dashes, what lies between the values of a table."""

from __future__ import annotations

from cmath import rect
from collections.abc import Callable, Sequence
from itertools import pairwise
from math import pi

from twayblade.writing.drawing.pen import Pen, Point, Weight


def circle(centre: Point, radius: float, points: int = 12, turn: float = 0.0) -> list[Point]:
    """Points on a circle, clockwise from the right; turn: further on, in radians."""
    return [centre + rect(radius, turn + 2 * pi * n / points) for n in range(points)]


def dashed(pen: Pen, path: Callable[[float], Point], number: int, weight: Weight = Weight.FINE, filled: float = 0.55) -> None:
    """A line of dashes: an edge that is there but of which nothing is said. path: from a share of the way to its point."""
    for n in range(number):
        pen.corner([path(n / number), path((n + filled / 2) / number), path((n + filled) / number)], weight)


def broken(pen: Pen, points: Sequence[Point], dash: float = 4.0, gap: float = 3.6) -> None:
    """The same along points, with dashes and gaps so many units long, whatever the length of the line."""
    walked, on, start = 0.0, True, points[0]
    for a, b in pairwise(points):
        step = abs(b - a)
        done = 0.0
        while walked + step - done >= (dash if on else gap):
            done += (dash if on else gap) - walked
            here = a + (b - a) * done / step
            if on:
                pen.corner([start, here], Weight.INNER)
            walked, on, start = 0.0, not on, here
        walked += step - done


def between(table: Sequence[tuple[float, float]], at: float) -> float:
    """The value at a place, between those of a table of (place, value) in order, by straight lines; beyond its ends the nearest."""
    if at <= table[0][0]:
        return table[0][1]
    for (a, low), (b, high) in pairwise(table):
        if at <= b:
            return low + (high - low) * (at - a) / (b - a)
    return table[-1][1]
