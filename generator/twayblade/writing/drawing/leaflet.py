"""The last pieces of a leaf, seen close."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from twayblade.knowledge.pieces.leaf import Leaflet
from twayblade.writing.drawing.axis import Axis
from twayblade.writing.drawing.edge import Flank, backwards, edge, flanks, trace
from twayblade.writing.drawing.lines import broken
from twayblade.writing.drawing.pen import Pen, Point, Weight
from twayblade.writing.drawing.sketch import Drawer, layer

_WIDTH, _HEIGHT = 150, 200
_FOOT, _TIP = complex(73, 174), complex(76, 42)
"""Foot and tip of the blade; above it there is room for a tip that is drawn out."""
_MIDRIB = Axis.between(_FOOT, _TIP, 0.1)


@dataclass(frozen=True)
class _Lobe:
    """A lobe of the right side. Shares of the length of the blade: along it, and aside."""

    root: float
    """Where its vein leaves the midrib."""
    tip: tuple[float, float]
    foot: tuple[float, float]
    """Where its lower side begins."""
    bulge: float = 0.16
    neck: tuple[float, float] | None = None
    """Where its upper side ends, if that is not where the next lobe begins."""


@dataclass(frozen=True)
class _Shape:
    """The lobes of the right side from the foot up, and the lobe at the end; a stalk below the blade in units."""

    lobes: tuple[_Lobe, ...]
    end: _Lobe
    stalk: float = 12.0


def _cut(*tips: tuple[float, float, float, float], aside: float, bulge: float) -> tuple[_Lobe, ...]:
    """Lobes cut to the midrib. tips: where the lobe begins and how broad it is there, then its tip; aside: of all feet."""
    return tuple(_Lobe(foot + wide * 0.3, (t, w), (foot, aside), bulge, (foot + wide, aside)) for foot, wide, t, w in tips)


_SHAPES: dict[str | None, _Shape] = {
    "egg-shaped": _Shape((), _Lobe(0.0, (1.0, 0.0), (0.0, 0.0), 0.4)),
    "broad-lobed": _Shape(
        (_Lobe(0.04, (0.2, 0.47), (0.0, 0.03), 0.22), _Lobe(0.24, (0.57, 0.46), (0.29, 0.19), 0.2)),
        _Lobe(0.5, (1.0, 0.0), (0.57, 0.16), 0.3),
    ),
    "wedge-shaped": _Shape((_Lobe(0.12, (0.79, 0.44), (0.0, 0.015), -0.04),), _Lobe(0.3, (1.0, 0.0), (0.66, 0.13), 0.2)),
    "lacy": _Shape(
        _cut((0.03, 0.2, 0.22, 0.43), (0.23, 0.19, 0.45, 0.39), (0.42, 0.16, 0.63, 0.31), (0.58, 0.13, 0.78, 0.21), aside=0.05, bulge=0.15),
        _Lobe(0.69, (1.0, 0.0), (0.71, 0.05), 0.2),
        16.0,
    ),
    "linear": _Shape(
        _cut((0.1, 0.05, 0.4, 0.42), (0.34, 0.045, 0.66, 0.38), (0.56, 0.04, 0.85, 0.27), aside=0.016, bulge=0.05),
        _Lobe(0.6, (1.0, 0.0), (0.64, 0.016), 0.05),
        22.0,
    ),
    None: _Shape((), _Lobe(0.0, (1.0, 0.0), (0.0, 0.3), 0.12), 0.0),
}


def _spot(place: tuple[float, float], side: int) -> Point:
    size = abs(_TIP - _FOOT)
    lower = 0.0 if side > 0 or place[0] in (0.0, 1.0) else 0.025
    return _MIDRIB.off(place[0] - lower, side * place[1] * size)


@cache
def _sides(outline: str | None, tip: str | None) -> tuple[list[tuple[Flank, Flank]], Flank, Flank, list[tuple[Flank, Flank]]]:
    """Flanks: of the lobes of the right side (lower and upper flank each), right and left flank of the end, lobes of the left side."""
    shape = _SHAPES[outline]
    found: dict[int, list[tuple[Flank, Flank]]] = {1: [], -1: []}
    ends: dict[int, Flank] = {}
    for side in (1, -1):
        nexts = [*shape.lobes, shape.end]
        for lobe, after in zip(shape.lobes, nexts[1:], strict=True):
            low, high = _spot(lobe.foot, side), _spot(lobe.neck or after.foot, side)
            root, top = _MIDRIB.at(lobe.root), _spot(lobe.tip, side)
            pair = flanks(root, top, (low, high) if side > 0 else (high, low), tip, lobe.bulge, reach=0.45)
            found[side].append(pair if side > 0 else (pair[1], pair[0]))
        foot = _spot(shape.end.foot, side)
        end = flanks(_MIDRIB.at(shape.end.root), _TIP, (foot, foot), tip, shape.end.bulge)
        ends[side] = end[0] if side > 0 else end[1]
    return found[1], ends[1], ends[-1], found[-1]


def _blade(leaflet: Leaflet, pen: Pen) -> None:
    right, right_end, left_end, left = _sides(leaflet.outline, leaflet.tip)
    if leaflet.outline:
        pen.point_to("outline", right_end.at(0.12) if leaflet.outline == "egg-shaped" else _spot((0.06, 0.06), 1))
    if leaflet.tip:
        pen.point_to("tip", right_end.tip)
    if leaflet.teeth:
        pen.point_to("teeth", (left[-1][0] if left else left_end).at(0.55))
    end = 0.74 if leaflet.tip == "drawn-out" else 0.92

    # egg-shaped pieces have teeth by their definition; the lobes of narrow ones stand in the place of teeth
    teeth = leaflet.teeth or ("some" if leaflet.outline == "egg-shaped" else None)
    is_open = teeth is None and leaflet.outline not in ("lacy", "linear")

    def toothed(flank: Flank, start: float) -> list[list[Point]]:
        return [[flank.at(n / 12) for n in range(13)]] if is_open else edge(flank, teeth, pen, start, end)

    # the flanks of a wedge have no teeth below the shoulders
    lowest = 0.7 if leaflet.outline == "wedge-shaped" else 0.06
    sides: list[list[Point]] = []
    for n, (lower, upper) in enumerate(right):
        sides += _joined(sides, toothed(lower, 0.22 if n else lowest)) + backwards(toothed(upper, 0.3))
    sides += _joined(sides, toothed(right_end, 0.24 if right else 0.05))
    sides += backwards(toothed(left_end, 0.24 if left else 0.05))
    for n, (lower, upper) in reversed(list(enumerate(left))):
        sides += _joined(sides, toothed(upper, 0.3)) + backwards(toothed(lower, 0.22 if n else lowest))
    if leaflet.outline is None:
        torn = [_spot((y, x), 1) for y, x in ((0.02, -0.2), (-0.02, -0.06), (0.03, 0.1), (-0.01, 0.22))]
        sides.append([sides[-1][-1], *torn, sides[0][0]])
    elif abs(sides[-1][-1] - sides[0][0]) > 0.1:
        sides.append([sides[-1][-1], sides[0][0]])
    if is_open:
        # a whole line would say that the edge has no teeth
        broken(pen, [p for side in sides for p in side], 8.0, 3.0)
    else:
        trace(pen, sides, Weight.OUTLINE if leaflet.teeth else Weight.INNER)


def _joined(before: list[list[Point]], sides: list[list[Point]]) -> list[list[Point]]:
    """The next sides, with a piece of edge along the midrib where lobes stand apart."""
    if before and abs(before[-1][-1] - sides[0][0]) > 0.1:
        return [[before[-1][-1], sides[0][0]], *sides]
    return sides


def _veins(leaflet: Leaflet, pen: Pen) -> None:
    shape = _SHAPES[leaflet.outline]
    right, right_end, left_end, left = _sides(leaflet.outline, None)
    down = _MIDRIB.at(0) + complex(-0.8, shape.stalk) if shape.stalk else _MIDRIB.at(0.01)
    thick = 1.7 if shape.stalk else 1.3
    for side in (1, -1):
        pen.curve([down + side * thick, _MIDRIB.off(0.12, side * 1.2), _MIDRIB.off(0.6, side * 0.5), _MIDRIB.at(0.9)], Weight.INNER, steady=True)
    if shape.stalk:
        pen.corner([down + thick, down - thick], Weight.INNER)
    for side, lobes in ((1, right), (-1, left)):
        for lobe, (lower, upper) in zip(shape.lobes, lobes, strict=True):
            root = _MIDRIB.at(lobe.root - (0.02 if side < 0 else 0.0))
            vein = Axis.between(root, root + (lower.tip - root) * 0.88, -side * 0.25)
            _vein(pen, vein)
            if leaflet.outline != "linear":
                _side_veins(pen, vein, lower, upper, 2 if leaflet.outline == "lacy" else 3, 0.34)
    if leaflet.outline != "linear":
        end = _MIDRIB.part(shape.end.root, 0.95)
        _side_veins(pen, end, right_end, left_end, 4 if shape.lobes else 8, 0.3 if shape.lobes else 0.06)


def _vein(pen: Pen, axis: Axis) -> None:
    pen.curve([axis.at(0), axis.at(0.5), axis.at(1)], Weight.FINE, steady=True)


def _side_veins(pen: Pen, vein: Axis, one: Flank, other: Flank, number: int, start: float) -> None:
    """Veins from a vein towards both flanks of its lobe, ending just short of the edge."""
    for n in range(number):
        for flank in (one, other):
            share = start + (0.84 - start) * (n + (0.4 if flank is other else 0.0)) / number
            root, goal = vein.at(share), flank.at(min(0.93, 0.22 + 0.74 * (share + 0.08)))
            _vein(pen, Axis.between(root, root + (goal - root) * 0.8, -flank.out * 0.5))


def _all_flanks(leaflet: Leaflet) -> Iterator[Flank]:
    right, right_end, left_end, left = _sides(leaflet.outline, leaflet.tip)
    for pair in (*right, *left):
        yield from pair
    yield from (right_end, left_end)


def _hairs(leaflet: Leaflet, pen: Pen) -> None:
    if leaflet.hairs is None:
        return
    right, right_end, *_ = _sides(leaflet.outline, leaflet.tip)
    pen.point_to("hairs", (right[-1][0] if right else right_end).at(0.4))
    if leaflet.hairs == "none":
        return
    felt = leaflet.hairs == "felt"
    for flank in _all_flanks(leaflet):
        number = max(2, round(flank.length / (7.5 if felt else 9.0)))
        for n in range(number):
            u = 0.06 + 0.88 * (n + pen.between(0.2, 0.8)) / number
            ahead = (flank.tip - flank.foot) / abs(flank.tip - flank.foot)
            root = flank.at(u) + flank.outwards(u) * 0.5
            pen.corner([root, root + flank.outwards(u) * pen.between(5, 7) + ahead * pen.between(0.5, 3.5)], Weight.FINE)
    if felt:
        _felt(leaflet, pen)
        return
    for n in range(9):
        root = _MIDRIB.at(0.06 + 0.09 * n)
        side = 1 if n % 2 else -1
        pen.corner([root, root + complex(side * pen.between(4, 6), -pen.between(1, 5))], Weight.FINE)


_FELT = 130
"""How many matted hairs cover a face."""


def _felt(leaflet: Leaflet, pen: Pen) -> None:
    """Short hairs in all directions over the whole face: across each lobe, and from each flank to the midrib."""
    right, right_end, left_end, left = _sides(leaflet.outline, leaflet.tip)
    across = [(a, b) for pair in (*right, *left, (right_end, left_end)) for a, b in (pair, pair[::-1])]
    total = sum(flank.length for flank, _ in across)
    for flank, other in across:
        for n in range(round(_FELT * flank.length / total)):
            u, deep = pen.between(0.04, 0.92), pen.between(0.03, 0.9)
            edge, inner = flank.at(u), other.at(u) if n % 3 else _MIDRIB.at(_beside(flank.at(u)))
            place = edge + (inner - edge) * deep * (0.5 if n % 3 else 0.95)
            aim = complex(pen.between(-2.6, 2.6), pen.between(-2.6, 2.6))
            pen.corner([place - aim, place + aim * 0.2 + aim * 0.6j, place + aim], Weight.FINE)


def _beside(place: Point) -> float:
    """The share of the midrib from which a vein would come to a place."""
    return max(0.0, min(1.0, (_FOOT.imag - place.imag) / (_FOOT.imag - _TIP.imag) - 0.06))


LEAFLET = Drawer(
    Leaflet,
    _WIDTH,
    _HEIGHT,
    (
        layer("blade", _blade, "outline", "teeth", "tip"),
        layer("veins", _veins, "outline"),
        layer("hairs", _hairs, "outline", "teeth", "tip", "hairs"),
    ),
)
