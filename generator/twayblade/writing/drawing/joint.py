"""A joint of the stem with the feet of its leaves."""

from __future__ import annotations

from math import cos, pi, sin

from twayblade.knowledge.pieces.stem import Joint
from twayblade.writing.drawing.axis import UPWARDS, Axis
from twayblade.writing.drawing.lines import broken
from twayblade.writing.drawing.pen import Fill, Pen, Point, Weight
from twayblade.writing.drawing.sketch import Drawer, layer

_WIDTH, _HEIGHT = 160, 200
_MIDDLE = 80.0
_NODE = 132.0
_TOP, _FOOT = 18.0, 190.0
_HALF = 16.0
_TILT = 0.3

_BULGE = (1.0, 1.45, 1.42, 1.12, 1.03)
"""Half-width of a swollen stem below its joint, against that of the stem, at `_BELOW` units under the joint."""
_PLAIN = (1.06, 1.05, 1.04, 1.03, 1.03)
_BELOW = (0.0, 9.0, 18.0, 34.0, 46.0)


def _at(side: int, out: float, up: float) -> Point:
    """A point by the joint: `out` units from the middle of the stem to a side, `up` units above the joint."""
    return complex(_MIDDLE + side * out, _NODE - up)


# -- the stem ----------------------------------------------------------------------------------------------
def _stem(joint: Joint, pen: Pen) -> None:
    if joint.swelling:
        pen.point_to("swelling", _at(-1, _HALF * (1.4 if joint.swelling == "swollen" else 1.0), -15))
    cut = [complex(_MIDDLE + _HALF * cos(a), _TOP + _TILT * _HALF * sin(a)) for a in (2 * pi * n / 16 for n in range(16))]
    upper_right = [_at(1, _HALF, _NODE - _TOP), _at(1, _HALF + 0.2, 60), _at(1, _HALF + 0.4, 20), _at(1, _HALF + 1, 0)]
    upper_left = [complex(2 * _MIDDLE - p.real, p.imag) for p in upper_right]
    ring = [_at(1, _HALF + 1, 0), _at(1, _HALF * 0.6, -3.4), _at(1, 0, -4.4), _at(-1, _HALF * 0.6, -3.4), _at(-1, _HALF + 1, 0)]
    known = joint.swelling is not None
    shape = list(zip(_BULGE if joint.swelling == "swollen" else _PLAIN, _BELOW, strict=True))
    foot = _NODE - _FOOT
    walls = {side: [_at(side, _HALF * w, -y) for w, y in shape[0 if known else 3 :]] + [_at(side, _HALF * 1.02, foot)] for side in (1, -1)}
    torn = [walls[1][-1], _at(1, 6, foot + 4), _at(1, -3, foot - 3), walls[-1][-1]]
    if known:
        pen.outline(walls[1], torn, walls[-1][::-1], [walls[-1][0], walls[1][0]])
    else:
        # the part that a swelling would change is left open
        ends = [walls[-1][0], walls[-1][0] + 9 - 3j, walls[-1][0] + 20 + 2j, walls[1][0]]
        pen.outline(walls[1], torn, walls[-1][::-1], ends)
        for side in (1, -1):
            for n in range(4):
                place = _at(side, _HALF * 1.08, -8 - 6 * n)
                pen.corner([place, place + 2j], Weight.INNER)
    pen.outline(upper_right, ring, upper_left[::-1], [upper_left[0], upper_right[0]])
    pen.curve(cut, Weight.OUTLINE, Fill.PAPER, closed=True, steady=True)
    pen.curve([p + 5.5j for p in ring[1:4]], Weight.FINE)


# -- the feet of the leaves --------------------------------------------------------------------------------
def _stalk(pen: Pen, axis: Axis, half: float, foot: list[Point] | None = None) -> None:
    """A leaf stalk, cut off: its sides, and the cut end seen a little from above."""
    right = [axis.off(t, half * (1 - 0.2 * t)) for t in (0.0, 0.4, 0.75, 1.0)]
    left = [axis.off(t, -half * (1 - 0.2 * t)) for t in (1.0, 0.75, 0.4, 0.0)]
    pen.outline(right, [right[-1], left[0]], left, foot or [left[-1], right[0]])
    _cut_end(pen, axis, half * 0.8)


def _cut_end(pen: Pen, axis: Axis, half: float) -> None:
    end, ahead = axis.at(1), (axis.off(1, 0) - axis.at(0.98)) / (axis.length * 0.02)
    rim = [end + half * cos(a) * ahead * 1j + half * 0.42 * sin(a) * ahead for a in (2 * pi * n / 12 for n in range(12))]
    pen.curve(rim, Weight.INNER, Fill.PAPER, closed=True, steady=True)
    for n in range(3):
        pen.stipple(end + ahead * 1j * half * 0.45 * (n - 1))


_OUT = {"narrow": (1.5, 2.2, 2.4, 2.0), None: (2.0, 4.5, 5.0, 3.5), "inflated": (8.0, 23.0, 27.0, 17.0)}
"""How far a sheath stands off the stem, in units, from its foot to where the stalk begins."""


def _sheathed(pen: Pen, side: int, manner: str | None) -> None:
    """A stalk whose foot is a sheath: it wraps the stem from the joint up, its free margin runs across the stem towards the stalk."""
    off = _OUT[manner]
    heights = (2.0, 18.0, 40.0, 60.0)
    outer = [_at(side, _HALF + 1.5, -2)] + [_at(side, _HALF + o, h) for o, h in zip(off, heights, strict=True)]
    stalk = Axis(_at(side, _HALF + off[3] - 3.0, 66), UPWARDS + side * 0.62, 40.0, side * 0.22)
    half = 4.6
    neck_out, neck_in = stalk.off(0.12, side * half), stalk.off(0.0, -side * half)
    margin = [
        _at(-side, _HALF + 1.5, -2),
        _at(-side, _HALF + 1.6, 9),
        _at(-side, _HALF * 0.5, 24),
        _at(side, _HALF * 0.2 + off[3] * 0.25, 43),
        neck_in,
    ]
    foot = [outer[0], _at(side, _HALF * 0.6, -6), _at(side, 0, -7), _at(-side, _HALF * 0.6, -6), margin[0]]
    stalk_out = [stalk.off(t, side * half * (1 - 0.2 * t)) for t in (0.12, 0.5, 1.0)]
    stalk_in = [stalk.off(t, -side * half * (1 - 0.2 * t)) for t in (1.0, 0.5, 0.0)]
    # of a sheath that may lie close or bulge, the outer side is left open
    back = [*outer, neck_out] if manner else [neck_out]
    sides = [[*back, *stalk_out[1:]], [stalk_out[-1], stalk_in[0]], stalk_in, margin[::-1], foot[::-1]]
    pen.outline(*sides, closed=bool(manner))
    if not manner:
        broken(pen, [*outer, neck_out])
    _cut_end(pen, stalk, half * 0.8)
    for n in range(1, 6):
        share = n / 6
        lines = zip(margin, [outer[0], outer[1], outer[2], outer[3], neck_out], strict=True)
        vein = [a + (b - a) * share for a, b in lines]
        vein[0] += 3.6j * (1 - (2 * share - 1) ** 2)
        pen.curve(vein, Weight.FINE)
    if manner == "inflated":
        pen.curve([neck_in + side * 1.5, _at(side, _HALF + 7, 52), _at(side, _HALF + 2, 36)], Weight.FINE)


def _unsheathed(pen: Pen, side: int) -> None:
    """A stalk that stands on the stem, its foot a little thicker and no broader than itself."""
    stalk = Axis(_at(side, _HALF + 0.5, 3), UPWARDS + side * 0.95, 64.0, -side * 0.3)
    half = 4.8
    foot = [stalk.off(0.0, -half), _at(side, _HALF - 1.6, 4), stalk.off(0.0, half)]
    right = [stalk.off(t, half * w) for t, w in ((0.0, 1.0), (0.05, 1.12), (0.16, 0.86), (0.6, 0.82), (1.0, 0.8))]
    left = [stalk.off(t, -half * w) for t, w in ((1.0, 0.8), (0.6, 0.82), (0.16, 0.86), (0.05, 1.12), (0.0, 1.0))]
    pen.outline(right, [right[-1], left[0]], left, foot)
    _cut_end(pen, stalk, half * 0.8)
    pen.curve([stalk.off(0.1, -half * 0.8), stalk.off(0.12, 0), stalk.off(0.1, half * 0.8)], Weight.FINE)


def _sitting(pen: Pen, axis: Axis, half: float) -> None:
    """A blade without a stalk, its rounded foot on the stem; torn off."""
    widths = ((-0.07, 0.22), (-0.13, 0.55), (-0.04, 0.88), (0.18, 1.03), (0.5, 1.02), (0.8, 0.92), (1.0, 0.8))
    flanks = [[axis.at(0.0), *(axis.off(t, hand * half * w) for t, w in widths)] for hand in (1, -1)]
    torn = [flanks[0][-1], axis.off(1.05, half * 0.4), axis.off(0.97, half * 0.1), axis.off(1.04, -half * 0.4), flanks[1][-1]]
    pen.outline(flanks[0], torn, flanks[1][::-1])
    pen.curve([axis.at(0.0), axis.at(0.5), axis.at(0.99)], Weight.INNER, steady=True)
    for n in range(5):
        t = 0.04 + 0.17 * n
        for hand in (1, -1):
            vein = axis.branch(t + 0.03 * hand, hand, 0.95, half * 0.92, 0.7)
            pen.curve([vein.at(0), vein.at(0.5), vein.at(1)], Weight.FINE, steady=True)


def _open_foot(pen: Pen, side: int) -> None:
    """A stalk of whose foot nothing is said: it begins a little way from the stem."""
    stalk = Axis(_at(side, _HALF + 0.5, 3), UPWARDS + side * 0.95, 64.0, -side * 0.3)
    _stalk(pen, stalk.part(0.42, 1.0), 4.4)
    for n in range(3):
        for hand in (1, -1):
            dash = stalk.part(0.06 + 0.12 * n, 0.1 + 0.12 * n)
            pen.corner([dash.off(0, hand * 4.4), dash.off(1, hand * 4.4)], Weight.INNER)


def _behind(joint: Joint, pen: Pen) -> None:
    """The leaf of a ring that stands behind the stem."""
    if joint.leaves != "ring":
        return
    axis = Axis(_at(-1, 2, 8), UPWARDS - 0.42, 74.0, 0.12)
    if joint.leaf_foot == "rounded":
        _sitting(pen, axis.part(0.0, 0.85), 17.0)
    else:
        _stalk(pen, axis, 4.2)


def _in_front(pen: Pen, joint: Joint, sheathed: bool) -> None:
    """The leaf of a ring that stands towards the onlooker, foreshortened."""
    axis = Axis(_at(1, 3, -4), UPWARDS + 0.2, 64.0, 0.1)
    if joint.leaf_foot == "rounded":
        _sitting(pen, axis.part(0.0, 0.7), 15.0)
    elif sheathed:
        _stalk(pen, axis, 5.0)
        sides = [[_at(hand, _HALF + 1.2, -1), axis.off(0.22, hand * 11.0), axis.off(0.5, hand * 5.2)] for hand in (1, -1)]
        ring = [_at(-1, _HALF + 1.2, -1), _at(-1, 8, -6), _at(1, 8, -6), _at(1, _HALF + 1.2, -1)]
        pen.outline(sides[0], [sides[0][-1], sides[1][-1]], sides[1][::-1], ring)
        for n in range(1, 6):
            pen.curve([_at(1, (n - 3) * 5.2, -4.5), axis.off(0.24, (n - 3) * 3.2), axis.off(0.49, (n - 3) * 1.7)], Weight.FINE)
    else:
        _stalk(pen, axis, 5.5, [axis.off(0, -5.5), axis.off(0, 0) + 3j, axis.off(0, 5.5)])


def _leaves(joint: Joint, pen: Pen) -> None:
    sheathed = joint.leaf_foot == "sheath" or (joint.leaf_foot is None and joint.sheath is not None)
    if joint.leaves:
        pen.point_to("leaves", _at(1, 40, 92) if sheathed else _at(1, _HALF + 34, 32))
    if joint.leaf_foot:
        pen.point_to("leaf-foot", _at(1, _HALF + 3, 5))
    if joint.sheath:
        pen.point_to("sheath", _at(1, _HALF + _OUT[joint.sheath][2], 40))
    if joint.leaves is None and joint.leaf_foot is None and joint.sheath is None:
        return
    for side in (-1, 1) if joint.leaves in ("pair", "ring") else (1,):
        if sheathed:
            _sheathed(pen, side, joint.sheath)
        elif joint.leaf_foot == "no-sheath":
            _unsheathed(pen, side)
        elif joint.leaf_foot == "rounded":
            _sitting(pen, Axis(_at(side, _HALF - 5, 3), UPWARDS + side * 1.0, 62.0, -side * 0.1), 21.0)
        else:
            _open_foot(pen, side)
    if joint.leaves == "ring":
        _in_front(pen, joint, sheathed)


def _stipules(joint: Joint, pen: Pen) -> None:
    if joint.stipules is None:
        return
    pen.point_to("stipules", _at(1, _HALF + 6, -6))
    if joint.stipules == "none":
        return
    for side in (1, -1) if joint.leaves in ("pair", "ring") else (1,):
        for up, turned, size in ((7.0, 0.25, 27.0), (-2.0, 2.1, 26.0)):
            _flap(pen, Axis(_at(side, _HALF + 2.0, up), UPWARDS + side * turned, size, side * 0.6), side if up > 0 else -side)


def _flap(pen: Pen, axis: Axis, outer: int) -> None:
    """One stipule: a leafy ear, rounder on its outer side, with a toothed edge."""
    size, teeth = axis.length, 6
    sides = []
    for hand, half in ((-outer, 0.42), (outer, 0.24)):
        edge: list[Point] = []
        for n in range(teeth):
            t = (n + 1.0) / (teeth + 0.6)
            wide = hand * size * half * sin(pi * t**0.8) ** 0.6
            edge += [axis.off(t, wide * pen.between(1.0, 1.1)), axis.off(t + 0.03, wide * 0.86)]
        sides.append(edge)
    pen.corner([axis.at(0), *sides[0], axis.at(1.04), *sides[1][::-1]], Weight.INNER, Fill.PAPER, closed=True)


JOINT = Drawer(
    Joint,
    _WIDTH,
    _HEIGHT,
    (
        layer("behind", _behind, "leaves", "leaf_foot"),
        layer("stem", _stem, "swelling"),
        layer("leaves", _leaves, "leaves", "sheath", "leaf_foot"),
        layer("stipules", _stipules, "leaves", "stipules"),
    ),
)
