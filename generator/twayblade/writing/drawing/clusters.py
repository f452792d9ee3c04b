"""How flowers are gathered: each kind of cluster as it is seen from some steps away, on top of its stem."""

from __future__ import annotations

from cmath import rect
from collections.abc import Callable
from math import cos, pi, sin

from twayblade.writing.drawing.bract import along
from twayblade.writing.drawing.florets import draw_cap, draw_floret
from twayblade.writing.drawing.pen import Fill, Pen, Point, Weight
from twayblade.writing.drawing.rays import bow_of, spread_rays


def _axis(pen: Pen, foot: Point, top: Point, slender: float = 1.0) -> None:
    """The stem drawn on beyond its end, ever thinner. slender: how wide it is in the middle against what is usual."""
    half = (foot + top) / 2
    right = [foot + 2j + 2.4, half + 1.3 * slender, top + 0.5 * slender]
    pen.curve([2 * top.real - p.real + p.imag * 1j for p in right] + right[::-1], Weight.INNER, Fill.PAPER)


def draw_umbel(pen: Pen, foot: Point) -> None:
    """Rays from one point, each with a small umbel."""
    rays = spread_rays(11, foot, 0.8)
    for ray in rays:
        pen.bows([ray.spine[0], ray.tip], bow_of(ray))
    for ray in sorted(rays, key=lambda r: r.tip.imag):
        with pen.together():
            draw_cap(pen, ray.tip, 12.5 * pen.between(0.93, 1.07), 8, ray.lean)


def draw_panicle(pen: Pen, foot: Point) -> None:
    """Branches from different points, branching again; the side branches overtop the middle; froth at all ends."""
    top = foot - 46j
    _axis(pen, foot, top, 0.5)
    froth: list[tuple[Point, float]] = [(top - 4j, 5.5), (top + 6 + 4j, 4.5), (top - 6 + 5j, 4.5)]
    for down, aside, up in ((34, -40, -28), (20, 42, -46), (6, -29, -68), (-4, 23, -84), (-16, -11, -94), (-26, 9, -64)):
        side = 1 if aside > 0 else -1
        start, end = foot + complex((2.2 if down > 0 else 0.8) * side, down), foot + complex(aside, up)
        middle = (start + end) / 2 + complex(aside * 0.12, 5)
        pen.curve([start, middle, end], Weight.FINE)
        for share, turn, length in ((0.5, 0.9, 15.0), (0.6, -0.6, 14.0), (0.7, 0.9, 13.0), (0.8, -0.8, 12.0), (0.9, 0.9, 9.0)):
            root = along((start, middle, end), share)[0]
            tip = root + rect(length, -pi / 2 + side * (0.3 + turn))
            pen.bows([root, tip], 0.1 * side, Weight.FINE)
            froth += [(tip, pen.between(4.6, 6.8))]
        froth += [(end, pen.between(6.0, 7.5))]
    for place, radius in sorted(froth, key=lambda f: f[0].imag):
        _froth(pen, place, radius)
    for place, radius in froth:
        pen.stipple(place + rect(radius * pen.between(1.2, 1.9), pen.between(-pi, pi)), Weight.FINE)


def _froth(pen: Pen, place: Point, radius: float) -> None:
    """A clump of flowers too small to be told apart."""
    angles = [2 * pi * (n + pen.between(-0.25, 0.25)) / 7 for n in range(7)]
    pen.bows([place + radius * pen.between(0.75, 1.12) * complex(cos(a), 0.85 * sin(a)) for a in angles], 0.5, Weight.FINE, Fill.PAPER, closed=True)


def draw_corymb(pen: Pen, foot: Point) -> None:
    """Branches from different heights of the stem, all to one level, with little daisy heads."""
    _axis(pen, foot, foot - 34j)
    heads: list[Point] = []
    for down, aside in ((38, -62), (26, 60), (12, -40), (2, 41), (-10, -18), (-18, 20), (-34, 1)):
        edge = (2.4 if down > 0 else 1.6) * (1 if aside > 0 else -1) if abs(aside) > 2 else 0.0
        start, knee = foot + complex(edge, down), foot + complex(aside * 0.9, -44 + abs(aside) * 0.16)
        pen.curve([start, (start + knee) / 2 + complex(aside * 0.06, 5), knee], Weight.INNER)
        for turn, rise in ((-10.0, 17.0), (0.0, 21.0), (10.0, 16.0)):
            head = knee + complex(turn + aside * 0.08, -rise + pen.between(-2, 2) + abs(aside) * 0.04)
            pen.bows([knee, head], -0.006 * turn, Weight.FINE)
            heads.append(head)
    for head in sorted(heads, key=lambda h: h.imag):
        _daisy_head(pen, head)


def _daisy_head(pen: Pen, foot: Point) -> None:
    """An egg-shaped cup of scales with a few strap-shaped florets spread at its mouth."""
    left, right = foot - 3.2 - 8.5j, foot + 3.2 - 8.5j
    with pen.together():
        pen.bows([foot, left, right], [0.24, 0.1, 0.24], Weight.FINE, Fill.PAPER, closed=True)
        pen.bows([left, left - 2.6 - 2.2j, left + 1 - 3.4j, foot - 10.6j, right - 1 - 3.4j, right + 2.6 - 2.2j, right], 0.42, Weight.FINE, Fill.PAPER)


def draw_cyme(pen: Pen, foot: Point) -> None:
    """Five branches, each branching again and again, to one flat plate of flowers; the shoot is woody."""
    for n in range(16):
        pen.stipple(foot + complex(pen.between(-1.6, 1.4), 14 + 4.9 * n))
    flowers: list[Point] = []
    for aside, front in ((-0.72, 0.1), (-0.36, -0.3), (0.0, 0.4), (0.38, -0.3), (0.74, 0.12)):
        knee = foot + complex(66 * aside, -34 + 6 * front + 8 * aside * aside)
        pen.curve([foot, (foot + knee) / 2 + complex(aside * 5, 3), knee], Weight.INNER)
        for turn in (-1.0, 0.0, 1.0):
            joint = knee + complex(14 * turn, -9 - 2 * abs(turn))
            pen.bows([knee, joint], -0.1 * turn, Weight.FINE)
            for end in (-5.5 - 6j, 0.5 - 11j, 6.5 - 5j):
                flower = joint + end + complex(0, 7 * front + pen.between(-1.5, 1.5))
                pen.corner([joint, flower], Weight.FINE)
                flowers.append(flower)
    for flower in sorted(flowers, key=lambda f: f.imag):
        draw_floret(pen, flower, 8.2, 0.6)


def draw_spike(pen: Pen, foot: Point) -> None:
    """Rings of flowers one above the other, in bud at the top."""
    low, high = foot + 32j, foot - 98j
    _axis(pen, foot, high, 0.6)
    rings = 12
    for n in range(rings):
        share = n / (rings - 1)
        middle = low + (high - low) * (1 - (1 - share) ** 1.25)
        half = 19 * (1 - share) ** 0.7 + 2
        if n < 8:
            for side in (-1, 1):
                pen.bows([middle, middle + complex(side * half * 1.2, 5.5), middle + 2.5j], 0.12 * side, Weight.FINE, Fill.PAPER)
            for aside, drop in ((-0.85, 0.0), (0.85, 0.0), (-0.42, 2.0), (0.46, 2.2), (0.02, 3.0)):
                draw_floret(pen, middle + complex(half * aside, drop - 2), 8.2 - 3.4 * share, 0.8, 6)
        else:
            for aside in (-0.5, 0.5, 0.0):
                pen.bows([middle + aside + 2j, middle + complex(half * aside, -5 + 3 * abs(aside))], 0.42, Weight.FINE, Fill.PAPER, closed=True)


CLUSTERS: dict[str, Callable[[Pen, Point], None]] = {
    "compound-umbel": draw_umbel,
    "frothy-panicle": draw_panicle,
    "corymb-of-heads": draw_corymb,
    "flat-cyme": draw_cyme,
    "spike": draw_spike,
}
"""How each kind of cluster is drawn above (and a little along) the stem that ends at a point, in about 160 by 110 units."""
