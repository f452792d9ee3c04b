"""The rays of a compound umbel in perspective: seen from the side and a little from above."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from twayblade.writing.drawing.bract import bow_through
from twayblade.writing.drawing.pen import Point

FOOT = 110 + 142j
"""Where all rays meet, in a drawing of the whole umbel."""
SEAT = 4.2
"""Half the width of the foot."""
HALF = 82.0
"""From the middle to the outermost tip of a ray."""
HEIGHT = 58.0
"""Height above the foot of the tips on the rim."""
RISE, _DEPTH = 38.0, 12.0
"""How far the tips in the middle stand above those on the rim, and those in front below."""
_GOLDEN = (sqrt(5) - 1) / 2


@dataclass(frozen=True)
class Ray:
    """A ray: its foot, middle and tip, how far to the right its tip stands (-1 to 1), how far out (0 to 1) and how far in front (-1 to 1)."""

    spine: tuple[Point, Point, Point]
    lean: float
    out: float
    front: float

    @property
    def tip(self) -> Point:
        """Where its small umbel stands."""
        return self.spine[2]


def spread_rays(number: int, foot: Point = FOOT, scale: float = 1.0) -> list[Ray]:
    """Rays from left to right, evenly spread, so that none hides another; by turns in front and behind."""
    rays = []
    for n in range(number):
        aside = (2 * n + 1) / number - 1 if number > 1 else 0.0
        aside *= 1 - 0.1 * aside * aside if number > 2 else 0.7
        deep = 2 * ((n * _GOLDEN + 0.2) % 1) - 1
        front = deep * sqrt(1 - aside * aside) * 0.95
        out = min(1.0, sqrt(aside * aside + front * front))
        tip = foot + scale * complex(HALF * aside, -HEIGHT - RISE * (1 - out**2) + _DEPTH * front)
        start = foot + scale * complex(SEAT * aside, 1.6 * front + 0.4)
        middle = (start + tip) / 2 + complex(0.035 * (tip - start).real, 0.05 * abs((tip - start).real))
        rays.append(Ray((start, middle, tip), aside, out, front))
    return rays


def bow_of(ray: Ray) -> float:
    """How far the middle of a ray stands off to its left, as a share of its length."""
    return bow_through(*ray.spine)
