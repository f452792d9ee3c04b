"""The flower head from some steps away."""

from __future__ import annotations

from cmath import rect
from math import cos, pi, sin

from twayblade.knowledge.pieces.head import Head
from twayblade.writing.drawing.clusters import CLUSTERS
from twayblade.writing.drawing.pen import Fill, Pen, Point, Weight
from twayblade.writing.drawing.sketch import Drawer, layer

_WIDTH, _HEIGHT = 220, 220
_FOOT = 110 + 122j
"""Where the stem ends and the cluster begins."""
_BUD = 40 + 140j
_FRUIT = 180 + 158j
"""Where the umbels of the two side shoots stand."""


def _stem(head: Head, pen: Pen) -> None:
    down = complex(0, _HEIGHT - 6 - _FOOT.imag)
    right = [_FOOT + 2.6, _FOOT + 2.2 + down * 0.5, _FOOT + 3 + down]
    left = [_FOOT - 3 + down, _FOOT - 2.4 + down * 0.5, _FOOT - 2.6]
    pen.outline(right, [right[-1], _FOOT + down + 1.6j, left[0]], left, [left[-1], _FOOT - 0.8j, right[0]])


def _cluster(head: Head, pen: Pen) -> None:
    if head.cluster is None:
        return
    pen.point_to("cluster", _FOOT - 30j)
    CLUSTERS[head.cluster](pen, _FOOT)


def _shoot(pen: Pen, start: Point, *way: Point) -> None:
    """A side shoot from the stem, in the sheath of its leaf."""
    side = -1 if way[0].real < start.real else 1
    pen.curve([start, *way], Weight.OUTLINE)
    pen.bows([start + 4j, start + complex(10 * side, -7), start - 5j], [-0.16 * side, -0.1 * side], Weight.INNER, Fill.PAPER)


def _bud(head: Head, pen: Pen) -> None:
    """A young umbel on a shoot to the left: its rays still short and drawn together."""
    if head.in_bud is None:
        return
    start = complex(_FOOT.real - 2, 192)
    if head.in_bud == "nodding":
        end, way = _BUD + complex(-17, -6), pi * 0.53
        _shoot(pen, start, _BUD + 24 + 32j, _BUD + 3 + 4j, _BUD - 6 - 13j, _BUD - 14 - 14j, end)
    else:
        end, way = _BUD + 0j, -pi * 0.53
        _shoot(pen, start, _BUD + 26 + 34j, _BUD + 4 + 16j, end)
    pen.point_to("in-bud", end)
    tips = []
    for n in range(7):
        turn = (n - 3) / 3
        tip = end + rect(17 - 3.5 * turn * turn, way + 0.72 * turn)
        pen.bows([end, tip], 0.14 * turn, Weight.INNER)
        tips.append(tip)
    for tip in sorted(tips, key=lambda t: t.imag):
        pen.dot(tip, 3.4, Fill.PAPER)


def _fruit(head: Head, pen: Pen) -> None:
    """An old umbel on a shoot to the right."""
    if head.in_fruit is None:
        return
    start = complex(_FOOT.real + 2, 200)
    _shoot(pen, start, _FRUIT - 20 + 30j, _FRUIT - 2 + 12j, _FRUIT)
    pen.point_to("in-fruit", _FRUIT - 26j)
    if head.in_fruit == "nest":
        # seen a little from above: the rays behind first, then those before them, all bent in at the mouth
        for n in sorted(range(11), key=lambda n: cos(2 * pi * n / 11)):
            aside, front = sin(2 * pi * n / 11), cos(2 * pi * n / 11)
            belly = _FRUIT + complex(29 * aside, -20 + 5 * front)
            mouth = _FRUIT + complex(19.5 * aside, -38 + 5 * front + pen.between(-3.5, 3))
            pen.curve([_FRUIT, _FRUIT + (belly - _FRUIT) * 0.5 + complex(5 * aside, 2), belly, mouth], Weight.INNER if front > 0 else Weight.FINE)
            _fruits(pen, mouth, -pi / 2 - 0.9 * aside, 9.0)
    else:
        for n in range(9):
            turn = n / 4 - 1
            tip = _FRUIT + rect(36 - 3 * turn * turn, -pi / 2 + 0.98 * turn)
            pen.bows([_FRUIT, tip], -0.05 * turn, Weight.INNER)
            _fruits(pen, tip, -pi / 2 + 0.98 * turn, 9.0)


def _fruits(pen: Pen, foot: Point, way: float, length: float) -> None:
    """A small umbel in fruit: three narrow fruits."""
    with pen.together():
        for turn in (-0.6, 0.0, 0.6):
            pen.bows([foot, foot + rect(length, way + turn)], 0.22, Weight.FINE, Fill.PAPER, closed=True)


HEAD = Drawer(
    Head,
    _WIDTH,
    _HEIGHT,
    (
        layer("bud", _bud, "in_bud"),
        layer("fruit", _fruit, "in_fruit"),
        layer("stem", _stem),
        layer("cluster", _cluster, "cluster"),
    ),
)
