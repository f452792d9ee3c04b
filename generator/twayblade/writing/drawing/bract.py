"""Bracts and bracteoles: their shapes, and one bract at its length."""

from __future__ import annotations

from cmath import rect
from collections.abc import Sequence

from twayblade.knowledge.pieces.head import Bract
from twayblade.writing.drawing.pen import Fill, Pen, Point, Weight
from twayblade.writing.drawing.sketch import Drawer, layer, units

_WIDTH, _HEIGHT = 120, 200
_MIDDLE, _FOOT = 60.0, 186.0
_ROOM = 164.0
_NEUTRAL = 130.0


def along(spine: Sequence[Point], share: float) -> tuple[Point, Point]:
    """A place on the way from the foot over the middle to the tip (a parabola through three points), and the direction there."""
    foot, middle, tip = spine
    over = 2 * middle - (foot + tip) / 2
    a, b = foot + (over - foot) * share, over + (tip - over) * share
    way = b - a if b != a else tip - foot
    return a + (b - a) * share, way / (abs(way) or 1)


def bow_through(foot: Point, middle: Point, tip: Point) -> float:
    """How far the middle of a bow stands off to its left, as a share of its length."""
    return ((middle - (foot + tip) / 2) / (tip - foot) * 1j).real


def edges(spine: Sequence[Point], profile: Sequence[tuple[float, float]]) -> tuple[list[Point], list[Point]]:
    """The left and the right edge of a strip. profile: shares of its length, with half the width there in units."""
    left, right = [], []
    for share, half in profile:
        place, way = along(spine, share)
        left.append(place - way * 1j * half)
        right.append(place + way * 1j * half)
    return left, right


def draw_blade(pen: Pen, spine: Sequence[Point], half: float, form: str | None, weight: Weight = Weight.INNER, spread: float = 1.0) -> None:
    """One bract or bracteole as one path from its foot over its middle to its tip.

    half: half its width in units where it is widest; under half a unit it becomes a thread. form: `strip`, `lance`, `three-forked`, `feather`,
    or None: left open at the end, so that nothing is said of its shape. spread: how wide its lobes stand, where many bracts need room.
    """
    foot, _, tip = spine
    if half < 0.5:
        _thread(pen, spine, form, weight, spread)
    elif form == "three-forked":
        _forked(pen, spine, half, weight, ((0.42, 0.5 * spread, 0.5),))
    elif form == "feather":
        _forked(pen, spine, half, weight, ((0.34, 0.62 * spread, 0.42), (0.62, 0.52 * spread, 0.36)))
    elif form is None:
        left, right = edges(spine, ((0.0, half * 0.8), (0.5, half), (0.86, half)))
        pen.curve([left[2], left[1], left[0], right[0], right[1], right[2]], weight, Fill.PAPER, steady=True)
    else:
        profile = ((0.22, half), (0.6, half * 0.55)) if form == "lance" else ((0.1, half), (0.7, half * 0.8))
        left, right = edges(spine, profile)
        pen.outline([foot, *left, tip], [tip, *reversed(right), foot], weight=weight)


def _thread(pen: Pen, spine: Sequence[Point], form: str | None, weight: Weight, spread: float) -> None:
    """A bract without width, where a crowd of them leaves no room for more."""
    foot, _, tip = spine
    if form in ("three-forked", "feather"):
        fork, way = along(spine, 0.42)
        lobe = way * abs(tip - foot) * 0.5
        pen.corner([foot, fork, fork + lobe * rect(1, -0.5 * spread), fork, tip, fork, fork + lobe * rect(1, 0.5 * spread)], weight)
    else:
        end = along(spine, 0.86)[0] if form is None else tip
        middle = along(spine, 0.43 if form is None else 0.5)[0]
        pen.bows([foot, end], bow_through(foot, middle, end), weight)


def _forked(pen: Pen, spine: Sequence[Point], half: float, weight: Weight, forks: Sequence[tuple[float, float, float]]) -> None:
    """A bract cut into narrow lobes. forks: where each pair leaves, its angle in radians, its length; in shares of the whole."""
    length = abs(spine[2] - spine[0])
    left: list[Point] = []
    right: list[Point] = []
    for share, angle, reach in forks:
        place, way = along(spine, share)
        for side, edge in ((-1, left), (1, right)):
            out = rect(1, side * (angle + pen.between(-0.06, 0.06))) * way
            below, above = place + way * 1j * side * half, place + way * (half * 2.6 + 1j * side * half * 0.75)
            edge += [below, place + out * length * reach, above]
    bows: list[float] = []
    for _ in forks:
        bows += [0.0, -0.05, 0.05]
    foot, _, tip = spine
    around, ends = [foot, *left, tip, *reversed(right)], [*bows, 0.03, 0.03, *bows]
    if half > 1.5:  # wide enough to be seen to clasp the foot
        base = along(spine, 0.0)[1] * 1j * half * 1.7
        around, ends = [foot - base, *around[1:], foot + base], [*ends, -0.1]
    pen.bows(around, ends, weight, Fill.PAPER, closed=True)


def _scale(bract: Bract) -> float | None:
    return units(bract.length, bract.frame, _ROOM)


def _length(bract: Bract) -> float:
    scale = _scale(bract)
    return float(bract.length) * scale if bract.length and scale else _NEUTRAL


def _spine(bract: Bract) -> tuple[Point, Point, Point]:
    length = _length(bract)
    foot = complex(_MIDDLE, _FOOT)
    return foot, foot + length * (0.06 - 0.5j), foot - length * 1j


def _bract(bract: Bract, pen: Pen) -> None:
    spine = _spine(bract)
    length = _length(bract)
    weight = Weight.OUTLINE if length > 40 else Weight.INNER
    if bract.division == "undivided":
        draw_blade(pen, spine, length * 0.034, "strip", weight)
    elif bract.division == "forked":
        draw_blade(pen, spine, length * 0.026, "feather", weight)
    else:
        pen.curve(spine, weight, steady=True)
    if bract.length:
        pen.point_to("length", spine[2])
    if bract.division:
        pen.point_to("division", along(spine, 0.62)[0])


def _midrib(bract: Bract, pen: Pen) -> None:
    spine = _spine(bract)
    if bract.division and _length(bract) > 40:
        pen.curve([along(spine, share)[0] for share in (0.04, 0.45, 0.86)], Weight.FINE, steady=True)


def _seat(bract: Bract, pen: Pen) -> None:
    """The place where it stood: a little of the foot of the umbel."""
    foot = complex(_MIDDLE, _FOOT)
    pen.curve([foot + 5j - 15, foot + 0.6j - 7, foot, foot + 1.2j + 8, foot + 6j + 15], Weight.INNER)


BRACT = Drawer(
    Bract,
    _WIDTH,
    _HEIGHT,
    (
        layer("seat", _seat),
        layer("bract", _bract, "length", "division", "frame"),
        layer("midrib", _midrib, "length", "division", "frame"),
    ),
    _scale,
)
