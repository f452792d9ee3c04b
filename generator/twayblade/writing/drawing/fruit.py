"""One ripe fruit."""

from __future__ import annotations

from cmath import rect
from functools import partial
from math import copysign, pi, sin

from twayblade.knowledge.pieces.fruit import Fruit
from twayblade.writing.drawing.fruit_clothing import clothing, large_tip
from twayblade.writing.drawing.fruit_shape import FOOT, HEIGHT, MIDDLE, WIDTH, Body, body_of, bulge, parts, scale_of, seam
from twayblade.writing.drawing.lines import dashed
from twayblade.writing.drawing.pen import Fill, Pen, Point, Weight
from twayblade.writing.drawing.sketch import Drawer, layer

_SMALL = 0.45
"""Against the largest: smaller fruits are drawn with fine lines inside."""
_CRESTS = 15
"""How often a wavy ridge turns between foot and tip."""
_NARROW = 0.2
"""Half the width against the length: on narrower bodies fewer of the thick ridges are seen."""


def _inner(body: Body) -> Weight:
    return Weight.INNER if body.small > _SMALL else Weight.FINE


def _around(body: Body, wavy: bool = False) -> tuple[list[Point], list[Point], list[Point], list[Point]]:
    """The outline as four sides: up on the right, over the tip, down on the left, back under the foot."""
    right, left = body.side(1), body.side(-1)
    if body.profile == "twisted":
        right, left = body.side(1, bulge(body, True)), body.side(-1, bulge(body, False))
    elif wavy:
        heights = _crests(0.0, 1.0)
        right, left = ([body.at(up, s) + s * _crimp(body, up) for up in heights] for s in (1, -1))
    left.reverse()
    dip = 0.02 * body.length * 1j if body.profile == "flat-oval" and not body.has_beak else 0
    return right, [right[-1], (right[-1] + left[0]) / 2 + dip, left[0]], left, [left[-1], complex(MIDDLE, FOOT), right[0]]


def _crests(low: float, high: float, shift: float = 0.0) -> list[float]:
    """The heights between two at which a crimped edge turns, and those two. shift: how much earlier its waves come."""
    turns = [(n + 0.5) / _CRESTS - shift for n in range(_CRESTS + 2)]
    return [low, *(up for up in turns if low + 0.02 < up < high - 0.02), high]


def _crimp(body: Body, up: float) -> float:
    """The crimped edge of a wavy ridge at a height, in units."""
    return 0.016 * body.length * sin(pi * _CRESTS * up) * min(1.0, 8 * up, 8 * (1 - up))


def _far_half(fruit: Fruit, pen: Pen) -> None:
    """Of a flat fruit in two halves the other half hangs behind this one."""
    if fruit.make != "two-halves" or fruit.outline != "flat-oval":
        return
    body = body_of(fruit)
    shift = complex(0.1 * body.length, 0.012 * body.length)
    tip = body.at(1)
    sides = [[p + shift * min(1.0, 1.6 * (p.imag - tip.imag) / body.length + 0.06) for p in side] for side in _around(body)]
    pen.outline(*sides, weight=Weight.INNER)


def _stalk(fruit: Fruit, pen: Pen) -> None:
    if fruit.make == "grain":
        return
    wide = 1.6 + 1.2 * body_of(fruit).small
    pen.curve([complex(MIDDLE - wide, FOOT - 1), complex(MIDDLE - wide * 0.9, FOOT + 5), complex(MIDDLE - wide, FOOT + 10)], Weight.INNER)
    pen.curve([complex(MIDDLE + wide, FOOT - 1), complex(MIDDLE + wide * 0.9, FOOT + 5), complex(MIDDLE + wide * 1.1, FOOT + 10)], Weight.INNER)


def _outline(fruit: Fruit, pen: Pen) -> None:
    body = body_of(fruit)
    if fruit.outline:
        pen.point_to("outline", body.at(0.42, -1))
    if fruit.beak:
        pen.point_to("beak", body.at(0.93, 1))
    if fruit.length is not None:
        pen.point_to("length", body.at(0.12, 1))
    if body.is_known:
        pen.outline(*_around(body, fruit.ridges == "wavy"), weight=Weight.OUTLINE)
        return
    for aside in (1, -1):
        dashed(pen, partial(body.at, aside=aside), max(4, round(24 * body.small)))


def _twist(fruit: Fruit, pen: Pen) -> None:
    """The furrows between the parts of a twisted fruit, and their tips."""
    if fruit.outline != "twisted":
        return
    body = body_of(fruit)
    for part in parts():
        points = seam(body, part)
        if len(points) > 2:
            pen.curve(points, _inner(body))
    for n in range(5):
        root = body.at(0.975, -0.9 + 0.45 * n)
        pen.curve([root, root + rect(0.035 * body.length, -1.9 + 0.1 * n), root + rect(0.07 * body.length, -1.1 - 0.3 * n)], _inner(body))


def _crown(fruit: Fruit, pen: Pen) -> None:
    """The teeth of the calyx on a cylinder."""
    body = body_of(fruit)
    if body.profile != "cylinder":
        return
    half, tall = body.half(1.0), 0.055 * body.length
    for aside in (-0.8, -0.27, 0.27, 0.8):
        foot = complex(MIDDLE + aside * half, FOOT - body.length)
        pen.corner([foot - 0.25 * half, foot + complex(aside * 0.14 * half, -tall), foot + 0.25 * half], _inner(body), Fill.PAPER)


def _wings(fruit: Fruit, pen: Pen) -> None:
    """The edge of the body inside the wing: the outline is that of the wing."""
    if fruit.wings is None:
        return
    body = body_of(fruit)
    pen.point_to("wings", body.at(0.5, 0.95 if fruit.wings == "none" else 0.8))
    if fruit.wings == "none":
        return
    core = _core(fruit)
    for side in (-1, 1):
        edge = [body.at(up, side * (core + (0.14 if up in (0.03, 0.97) else 0))) for up in (0.03, 0.1, 0.25, 0.45, 0.65, 0.8, 0.91, 0.97)]
        pen.curve(edge, _inner(body))
        if fruit.wings == "broad":
            for n in range(13):
                up = 0.14 + 0.72 * n / 12
                start, end = body.at(up, side * (core + 0.1)), body.at(up + 0.03 * (up - 0.4), side * (0.86 - pen.between(0, 0.14)))
                pen.curve([start, (start + end) / 2 + 0.6j, end], Weight.FINE)


def _core(fruit: Fruit) -> float:
    """The part of half the width that the body takes between its wings."""
    return {"thin": 0.82, "broad": 0.38}.get(fruit.wings or "", 1.0)


def _ridges(fruit: Fruit, pen: Pen) -> None:
    if fruit.ridges is None:
        return
    body = body_of(fruit)
    core = _core(fruit)
    places = [-0.86, -0.56, -0.24, 0.24, 0.56, 0.86] if _has_seam(fruit) else [-0.76, -0.4, 0.0, 0.4, 0.76]
    if fruit.ridges == "thick" and body.half(0.5) * core < _NARROW * body.length:
        places = [-0.86, -0.38, 0.38, 0.86] if _has_seam(fruit) else [-0.72, 0.0, 0.72]
    if fruit.ridges == "wavy" and _has_seam(fruit):
        places = places[1:-1]  # the outermost are the crimped outline itself
    pen.point_to("ridges", body.at(0.55, places[1] * core))
    if fruit.ridges == "none":
        return
    top = 0.8 if body.has_beak else 0.97
    for number, aside in enumerate(places):
        aside *= core
        if fruit.ridges == "low":
            steps = (0.05, 0.2, 0.4, 0.6, 0.78, top - 0.04)
            pen.curve([body.at(up, aside) for up in steps], Weight.FINE)
        elif fruit.ridges == "wavy":
            shift = 0.06 * (number % 2)
            heights = _crests(0.05, top - 0.05, shift)
            pen.curve([body.at(up, aside) + _crimp(body, up + shift) for up in heights], _inner(body))
        else:
            _keel(pen, body, aside, top)


def _keel(pen: Pen, body: Body, aside: float, top: float) -> None:
    """A thick ridge: a long narrow body of its own, its shaded side in a heavy line."""
    steps = [0.03 + (top - 0.05) * n / 7 for n in range(8)]
    wide = 0.021 * body.length * (1 - 0.5 * abs(aside))
    swell = [sin(pi * min(1.0, max(0.0, (n + 0.3) / 7.6))) ** 0.5 for n in range(8)]
    lit = [body.at(up, aside) - wide * s for up, s in zip(steps, swell, strict=True)]
    shaded = [body.at(up, aside) + wide * s for up, s in zip(steps, swell, strict=True)]
    pen.curve(lit, Weight.FINE)
    pen.curve(shaded, Weight.OUTLINE if body.small > _SMALL else Weight.INNER)


def _has_seam(fruit: Fruit) -> bool:
    """Whether the seam between two halves runs down the face."""
    return fruit.make == "two-halves" and fruit.outline not in ("flat-oval",)


def _beak(fruit: Fruit, pen: Pen) -> None:
    """The ribs of the beak and the step at its foot."""
    if fruit.beak != "short":
        return
    body = body_of(fruit)
    for aside in (-0.35, 0.35):
        pen.curve([body.at(0.85, aside), body.at(0.91, aside), body.at(0.97, aside)], Weight.FINE)


def _clothing(fruit: Fruit, pen: Pen) -> None:
    if fruit.clothing is None:
        return
    body = body_of(fruit)
    pen.point_to("clothing", body.at(0.62, -1))
    clothing(pen, body, fruit.clothing, fruit.bristle_tips)


def _tips(fruit: Fruit, pen: Pen) -> None:
    if fruit.bristle_tips:
        large_tip(pen, fruit.bristle_tips)


def _make(fruit: Fruit, pen: Pen) -> None:
    if fruit.make is None:
        return
    body = body_of(fruit)
    {"two-halves": _two_halves, "capsule": _capsule, "berry": _berry, "grain": _grain}[fruit.make](pen, body)
    if fruit.make == "two-halves":
        pen.point_to("make", body.at(0.3, 0.1 if _has_seam(fruit) else 1.2))
    pen.point_to("make", body.at(0.3, 0.4))


def _two_halves(pen: Pen, body: Body) -> None:
    """The seam, a little open at the foot where the halves part; of a flat fruit the far half is seen instead."""
    if body.profile == "flat-oval":
        return
    top = 0.83 if body.has_beak else 0.985
    gap = 0.012 * body.length
    pen.curve([body.at(0.0) + gap, body.at(0.18) + gap * 0.4, body.at(0.45), body.at(top)], _inner(body))
    pen.curve([body.at(0.0) - gap, body.at(0.18) - gap * 0.4, body.at(0.45)], _inner(body))


def _capsule(pen: Pen, body: Body) -> None:
    """The ribs of the dried tube; through a tear in it the capsule, split, with its seeds."""
    for aside in (-0.85, -0.62, 0.62, 0.85):
        pen.curve([body.at(up, aside) for up in (0.04, 0.3, 0.6, 0.95)], Weight.FINE)
    tear = [
        body.at(u, a)
        for u, a in ((0.94, -0.36), (0.8, -0.5), (0.55, -0.42), (0.3, -0.48), (0.14, -0.1), (0.22, 0.3), (0.5, 0.46), (0.78, 0.38), (0.95, 0.44))
    ]
    pen.curve(tear, _inner(body), Fill.PAPER)
    wall = [body.at(u, a) for u, a in ((0.3, -0.34), (0.6, -0.3), (0.78, -0.2), (0.9, -0.06))]
    pen.curve(wall, _inner(body))
    pen.curve([complex(2 * MIDDLE - p.real, p.imag) for p in wall], _inner(body))
    for row in range(8):
        for side in (-1, 1):
            up = 0.26 + 0.062 * row
            place = body.at(up, side * (0.13 if row % 2 else 0.09) * (1 - 0.4 * up))
            pen.stipple(place, Weight.OUTLINE)


def _berry(pen: Pen, body: Body) -> None:
    """The light on a juicy skin, the shade below, the rest of the calyx on top."""
    light = [body.at(0.62, -0.72), body.at(0.72, -0.7), body.at(0.82, -0.55), body.at(0.8, -0.42), body.at(0.7, -0.56)]
    pen.curve(light, Weight.FINE, closed=True)
    for n in range(7):
        reach = 0.9 - 0.045 * n
        start, end = 0.1 + 0.025 * n, 0.62 - 0.05 * n
        pen.curve([body.at(start + (end - start) * k / 4, reach) for k in range(5)], Weight.FINE)
    tip, tall = body.at(1), 0.055 * body.length
    for n in range(5):
        tooth = tip + complex((n - 2) * tall * 0.62, 0.2 * tall)
        pen.corner([tooth - 0.4 * tall, tooth + complex((n - 2) * 0.22, -0.75) * tall, tooth + 0.4 * tall], _inner(body), Fill.PAPER)


def _grain(pen: Pen, body: Body) -> None:
    """A seam along one side and the grain of the hard coat."""
    if body.profile != "twisted":
        pen.curve([body.at(up, 0.62 - 0.2 * up) for up in (0.03, 0.25, 0.5, 0.75, 0.95)], _inner(body))
    for _ in range(30):
        up, aside = pen.between(0.1, 0.86), pen.between(-0.8, 0.3)
        place = body.at(up, aside)
        pen.corner([place, place - 0.022j * body.length], Weight.FINE)


def _styles(fruit: Fruit, pen: Pen) -> None:
    """The two styles on their cushion."""
    if fruit.styles is None:
        return
    body = body_of(fruit)
    unit, tip = body.length, body.at(1)
    long = fruit.styles == "long"
    pen.point_to("styles", tip + (complex(0.09, -0.4) if long else complex(0.06, -0.06)) * unit)
    for side in (-1, 1):
        cushion = [complex(0, 0.012), complex(side * 0.05, 0.01), complex(side * 0.052, -0.018), complex(side * 0.024, -0.045), complex(0, -0.03)]
        pen.curve([tip + p * unit for p in cushion], _inner(body), Fill.PAPER, closed=True)
        way = [0.018 - 0.038j, 0.026 - 0.2j, 0.05 - 0.36j, 0.09 - 0.5j] if long else [0.018 - 0.038j, 0.035 - 0.075j, 0.07 - 0.082j, 0.092 - 0.06j]
        points = [tip + complex(copysign(p.real, side), p.imag) * unit for p in way]
        pen.curve(points, _inner(body) if not long else Weight.OUTLINE if body.small > _SMALL else Weight.INNER)
        pen.dot(points[-1], max(0.8, 0.013 * unit))


_SIZE = ("length", "frame")
_BODY = ("outline", "make", "beak", *_SIZE)

FRUIT = Drawer(
    Fruit,
    WIDTH,
    HEIGHT,
    (
        layer("far-half", _far_half, *_BODY),
        layer("stalk", _stalk, "make", *_SIZE),
        layer("outline", _outline, "ridges", *_BODY),
        layer("twist", _twist, *_BODY),
        layer("crown", _crown, *_BODY),
        layer("wings", _wings, "wings", *_BODY),
        layer("ridges", _ridges, "ridges", "wings", *_BODY),
        layer("make", _make, *_BODY),
        layer("beak", _beak, *_BODY),
        layer("clothing", _clothing, "clothing", "bristle_tips", *_BODY),
        layer("styles", _styles, "styles", *_BODY),
        layer("bristle-tips", _tips, "bristle_tips"),
    ),
    scale_of,
)
