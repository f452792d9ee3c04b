"""Figures and the letters of units as single strokes, so that a drawing needs no font."""

from __future__ import annotations

from twayblade.writing.drawing.pen import Pen, Point, Weight

_WIDTH = 0.6
"""Width of a sign, as a share of its height."""

_SIGNS: dict[str, tuple[tuple[Point, ...], ...]] = {
    "0": ((0.3 + 0j, 0.03 + 0.5j, 0.3 + 1j, 0.57 + 0.5j, 0.3 + 0j),),
    "1": ((0.12 + 0.22j, 0.35 + 0j), (0.35 + 0j, 0.35 + 1j)),
    "2": ((0.04 + 0.25j, 0.3 + 0j, 0.55 + 0.28j, 0.3 + 0.65j, 0.04 + 1j), (0.04 + 1j, 0.57 + 1j)),
    "3": ((0.06 + 0.1j, 0.34 + 0j, 0.53 + 0.24j, 0.24 + 0.46j), (0.24 + 0.46j, 0.57 + 0.72j, 0.3 + 1j, 0.03 + 0.86j)),
    "4": ((0.42 + 1j, 0.42 + 0j), (0.42 + 0j, 0.03 + 0.7j), (0.03 + 0.7j, 0.58 + 0.7j)),
    "5": ((0.52 + 0j, 0.12 + 0j), (0.12 + 0j, 0.08 + 0.42j), (0.08 + 0.42j, 0.38 + 0.38j, 0.56 + 0.68j, 0.32 + 1j, 0.03 + 0.9j)),
    "6": ((0.5 + 0.04j, 0.12 + 0.42j, 0.06 + 0.76j, 0.3 + 1j, 0.55 + 0.72j, 0.32 + 0.46j, 0.07 + 0.7j),),
    "7": ((0.03 + 0j, 0.57 + 0j), (0.57 + 0j, 0.22 + 1j)),
    "8": ((0.3 + 0.46j, 0.07 + 0.22j, 0.3 + 0j, 0.53 + 0.22j, 0.3 + 0.46j, 0.03 + 0.74j, 0.3 + 1j, 0.57 + 0.74j, 0.3 + 0.46j),),
    "9": ((0.53 + 0.3j, 0.28 + 0.54j, 0.05 + 0.28j, 0.3 + 0j, 0.54 + 0.24j, 0.48 + 0.6j, 0.12 + 0.98j),),
    ".": ((0.25 + 0.94j, 0.3 + 1j),),
    "c": ((0.55 + 0.5j, 0.3 + 0.36j, 0.06 + 0.68j, 0.3 + 1j, 0.55 + 0.88j),),
    "m": (
        (0.02 + 1j, 0.02 + 0.4j),
        (0.02 + 0.6j, 0.18 + 0.38j, 0.31 + 0.56j, 0.31 + 1j),
        (0.31 + 0.6j, 0.47 + 0.38j, 0.6 + 0.56j, 0.6 + 1j),
    ),
    "k": ((0.1 + 0j, 0.1 + 1j), (0.5 + 0.4j, 0.1 + 0.74j), (0.26 + 0.62j, 0.54 + 1j)),
    "N": ((0.04 + 1j, 0.04 + 0j), (0.04 + 0j, 0.56 + 1j), (0.56 + 1j, 0.56 + 0j)),
    " ": (),
}


def width_of(text: str, height: float) -> float:
    """How wide a text is, in units."""
    return len(text) * height * (_WIDTH + 0.22) - height * 0.22


def write(pen: Pen, text: str, at: Point, height: float, weight: Weight = Weight.INNER) -> None:
    """Write figures and units with their upper left corner at a point."""
    for place, sign in enumerate(text):
        corner = at + place * height * (_WIDTH + 0.22)
        for stroke in _SIGNS[sign]:
            points = [corner + p * height for p in stroke]
            if len(points) == 2:
                pen.corner(points, weight)
            else:
                pen.curve(points, weight, steady=True)
