"""Small flowers and small umbels as they are seen from the side and a little from above."""

from __future__ import annotations

from cmath import rect
from math import cos, pi, sin, sqrt

from twayblade.writing.drawing.pen import Fill, Pen, Point, Weight


def draw_floret(pen: Pen, centre: Point, radius: float, flat: float = 0.6, petals: int = 5, weight: Weight = Weight.FINE) -> None:
    """A floret as one closed line of lobes. flat: its height against its width."""
    turn = pen.between(0, 2 * pi / petals)
    notches = []
    for n in range(petals):
        angle = turn + 2 * pi * n / petals
        notches.append(centre + 0.5 * radius * complex(cos(angle), flat * sin(angle)))
    pen.bows(notches, 0.62, weight, Fill.PAPER, closed=True)


def draw_cap(pen: Pen, foot: Point, radius: float, lobes: int, lean: float = 0.0, weight: Weight = Weight.FINE) -> None:
    """A small umbel from some steps away: its stalks from the end of the ray, and a cap in which the florets run together.

    lobes: how many there are along the edge of the cap. lean: how far it is turned to the right, from -1 to 1.
    """
    centre = cap_centre(foot, radius, lean)
    tilt = rect(1, 0.42 * lean)
    edge = [centre + 0.9 * radius * tilt * complex(cos(a), 0.42 * sin(a)) for a in (2 * pi * (n + 0.5) / lobes for n in range(lobes))]
    if lobes > 5:
        for share in (-0.86, -0.45, 0.0, 0.45, 0.86) if lobes > 8 else (-0.8, 0.0, 0.8):
            place = centre + radius * tilt * complex(0.88 * share, 0.34 * sqrt(1 - share * share))
            pen.bows([foot, place], -0.14 * share, weight, Fill.PAPER)
    pen.bows(edge, 0.4, weight, Fill.PAPER, closed=True)
    if lobes > 7:
        turns = (0.35 + 2.45 * n / 4 for n in range(5))
        pen.bows([centre + radius * tilt * complex(0.55 * cos(a), 0.2 * sin(a) - 0.06) for a in turns], 0.45, weight, Fill.PAPER)


def cap_centre(foot: Point, radius: float, lean: float) -> Point:
    """The middle of the cap of a small umbel that stands on the end of a ray."""
    return foot + radius * complex(0.42 * lean, -0.95)
