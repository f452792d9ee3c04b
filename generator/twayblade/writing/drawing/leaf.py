"""A whole leaf, flat from above."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from math import sin

from twayblade.knowledge.pieces.leaf import Leaf
from twayblade.writing.drawing.axis import Axis
from twayblade.writing.drawing.last_pieces import egg_half, last_piece, piece_veins, vein, weight_of
from twayblade.writing.drawing.lines import broken
from twayblade.writing.drawing.pen import Fill, Pen, Weight
from twayblade.writing.drawing.sketch import Drawer, layer, units

_WIDTH, _HEIGHT = 170, 200
_ROOM = 186.0
_FOOT = complex(_WIDTH / 2, 193)

_STALK = {"feather": 0.17, "triangle": 0.33, "lance": 0.24}
"""The stalk as a share of the whole leaf."""
_HALF = {"feather": 0.15, "triangle": 0.5, "lance": 0.25}
"""Half the greatest width of a divided blade, as a share of its length."""
_WHOLE_HALF = {"feather": 0.1, "triangle": 0.42, "lance": 0.15}


def _scale(leaf: Leaf) -> float | None:
    return units(leaf.length, leaf.frame, _ROOM) if leaf.length else None


def _size(leaf: Leaf) -> float:
    """Length of the leaf with its stalk in units."""
    scale = _scale(leaf)
    return float(leaf.length) * scale if leaf.length and scale else _ROOM


def _stalk(leaf: Leaf) -> float:
    if leaf.blade == "whole":
        return 0.13
    if leaf.division == "in-threes":
        return 0.4
    return _STALK.get(leaf.outline or "", 0.28)


def _rib(leaf: Leaf) -> Axis:
    """The middle line from the foot of the stalk to the tip."""
    size = _size(leaf)
    return Axis.between(_FOOT, _FOOT - size * 1j, 0.16)


# -- the blade ---------------------------------------------------------------------------------------------
@dataclass(frozen=True)
class _Built:
    """The lines of a divided leaf: its ribs, and the axes of its last pieces."""

    ribs: list[Axis]
    pieces: list[Axis]
    coarser: float = 1.0
    """How much coarser than usual the pieces are drawn, where there are many."""


def _profile(outline: str | None, t: float) -> float:
    """Half-width of the blade at a share of its length from its foot, against its greatest half-width."""
    if outline == "feather":
        return float((0.72 + 0.28 * min(1.0, t / 0.25)) * (1 - t**3.2) ** 0.75)
    if outline == "triangle":
        return 1 - t
    if outline == "lance":
        return float(min(1.0, 0.62 + 1.6 * t) * (1 - t) ** 0.72)
    return float(min(1.0, 0.6 + 1.5 * t) * (1 - t) ** 0.65)


@dataclass(frozen=True)
class _Manner:
    """How densely a leaf is built."""

    gap: float
    """From one pair of first branches to the next, as a share of the length of the blade that is left, or of its width."""
    inner_gap: float
    """The same along a branch."""
    reach: float
    """Length of the lowest pieces of a branch, as a share of its own."""
    least: float
    """Length in units below which a branch is not divided any more."""
    end: float
    """Where so little of the length is left, the piece at the end begins."""
    angle: float = 0.95
    """At which pieces leave a branch, in radians."""
    stalk: float = 0.0
    """A bare stalk below each broad piece of a leaf divided once, as a share of its length: else the pieces would hide the middle."""


def _manner(leaf: Leaf) -> _Manner:
    """Broad pieces need more room than narrow ones, and many of them would not be legible."""
    narrow = leaf.segments in ("lacy", "linear")
    if leaf.division is None:
        return _Manner(0.5, 0.3, 0.34, 9.0, 0.25)
    if leaf.division == "once":
        gap = {"lacy": 0.45, "linear": 0.2}.get(leaf.segments or "", 0.46)
        return _Manner(gap, 0.3, 0.34, 9.0, 0.25 if narrow else 0.34, stalk=0.0 if narrow else 0.26 if leaf.segments == "broad-lobed" else 0.13)
    if leaf.segments == "linear":
        return _Manner(0.32, 0.26, 0.36, 9.0, 0.16, angle=0.75)
    if leaf.division == "twice":
        return _Manner(0.31, 0.33 if narrow else 0.36, 0.34, 9.0, 0.22 if narrow else 0.16)
    return _Manner(0.42, 0.42, 0.44, 9.0, 0.24)


def _places(outline: str | None, manner: _Manner) -> list[float]:
    """Shares of the length at which pairs stand, the first at 0: as far apart as the branches are long, so that none lies on the next."""
    places, t = [], 0.0
    gap = manner.gap * (0.36 if outline == "feather" else 0.7 if outline != "triangle" else 1.0)
    while t < 1 - manner.end * (0.5 if outline == "feather" else 1.0):
        places.append(t)
        t += gap * max(0.4 if outline == "feather" else 0.16, _profile(outline, t))
    return places


_HEAVIEST = 7400
"""How many characters the pieces of a leaf may take: a leaf of more pieces is drawn with fewer."""


def _build(leaf: Leaf) -> _Built:
    """The lines of the leaf: the same for all layers, whatever else they read."""
    return _build_form(leaf.only(frozenset(_FORM)))


@lru_cache(maxsize=64)
def _build_form(leaf: Leaf) -> _Built:
    """Drawn as fully as it may weigh. The irregularity comes from a pen of its own, not from that of one layer."""
    coarser = 1.0
    while True:
        built = _built(leaf, coarser, Pen("leaf"))
        if weight_of(built.pieces, leaf.segments, coarser) + 22 * len(built.ribs) <= _HEAVIEST or coarser > 12:
            return built
        coarser *= 1.12


def _built(leaf: Leaf, coarser: float, pen: Pen) -> _Built:
    built = _Built([], [], coarser)
    blade = _rib(leaf).part(_stalk(leaf), 1.0)
    plain = _manner(leaf)
    manner = replace(
        plain,
        gap=plain.gap * coarser**0.1,
        inner_gap=plain.inner_gap * coarser**0.2,
        reach=plain.reach * coarser**0.1,
        least=plain.least * coarser**0.45,
    )
    if leaf.division == "in-threes":
        _in_threes(built, blade, leaf.lowest_pair == "much-smaller", pen)
        return built
    depth = {"once": 1, "twice": 2, "thrice": 3}[leaf.division or "once"]
    half = _HALF.get(leaf.outline or "", 0.36) * blade.length
    if leaf.lowest_pair == "as-large":
        rest = blade.part(0.2, 1.0)
        for side in (1, -1):
            branch = blade.branch(0.0, side, 1.02, rest.length * 0.8, 0.3)
            built.ribs.append(branch.part(0.0, 0.9))
            _branches(built, branch.part(0.22, 1.0), depth, 0.36 * branch.length, "triangle", manner, 1.0, pen)
        _branches(built, rest, depth, 0.36 * rest.length, "triangle", manner, 1.0, pen)
    else:
        first = 0.6 if leaf.lowest_pair == "much-smaller" else 1.0
        _branches(built, blade, depth, half, leaf.outline, manner, first, pen)
    return built


def _branches(built: _Built, axis: Axis, depth: int, half: float, outline: str | None, manner: _Manner, first: float, pen: Pen) -> None:
    """Pairs of branches along an axis, each divided `depth - 1` times, and the piece at its end.

    half: half the greatest width in units. first: the length of the lowest pair against what the outline gives it.
    """
    feather = outline == "feather"
    places = _places(outline, manner)
    for n, t in enumerate(places):
        angle = 1.1 - (0.25 if feather or manner.stalk else 0.45) * t
        for side in (1, -1):
            turned = angle + pen.between(-0.05, 0.05)
            length = (
                half * _profile(outline, t) / sin(turned - 0.12) * pen.between(0.95, 1.04) * (first if n == 0 else 1.0) / (1 - 0.7 * manner.stalk)
            )
            _divide(built, axis.branch(t + pen.between(0, 0.012), side, turned, length, 0.3), depth - 1, side, manner, pen)
    _divide(
        built,
        axis.part(places[-1] + (1 - places[-1]) * (0.2 if depth > 1 else 0.42 if manner.stalk else 0.3), 1.0),
        min(depth - 1, 1),
        0,
        manner,
        pen,
    )


def _divide(built: _Built, axis: Axis, depth: int, side: int, manner: _Manner, pen: Pen) -> None:
    """A branch, divided as often as it is told and as its size allows, its lower side the richer one."""
    if depth == 0 or axis.length < manner.least * 0.8:
        stalk = manner.stalk if side else 0.0
        if stalk:
            built.ribs.append(axis.part(0.0, stalk + 0.02))
        built.pieces.append(axis.part(stalk, 1.0))
        return
    built.ribs.append(axis.part(0.0, 0.88))
    bare, t = 0.16 if axis.length > 2 * manner.least else 0.24, 0.0
    places: list[float] = []
    while t < 0.66 and len(places) < (5 if axis.length > 2 * manner.least else 2):
        places.append(bare + (1 - bare) * t)
        t += max(manner.inner_gap, 0.55 * manner.least / axis.length) * (1 - t)
    for n, place in enumerate(places):
        for hand in (1, -1):
            reach = manner.reach * axis.length * (1 - place) ** 0.8 * (1.2 if hand == side and n == 0 else 1.08)
            child = axis.branch(place, hand, manner.angle - 0.25 * place + pen.between(-0.06, 0.06), reach * pen.between(0.93, 1.05), 0.2)
            _divide(built, child, depth - 1 if reach > 1.3 * manner.least else 0, hand, manner, pen)
    built.pieces.append(axis.part(places[-1] + (1 - places[-1]) * 0.2, 1.0))


def _in_threes(built: _Built, blade: Axis, smaller: bool, pen: Pen) -> None:
    """Three branches, each with three leaflets."""
    for side in (-1, 1, 0):
        size = blade.length * (0.55 if smaller and side else 0.77 if side else 1.0)
        branch = blade.branch(0.0, side, 1.15, size, 0.25) if side else blade
        fork = 0.3 if side else 0.36
        built.ribs.append(branch.part(0.0, fork + 0.12))
        for hand in (-1, 1):
            length = branch.length * (0.46 if hand == side else 0.4) * pen.between(0.97, 1.03)
            child = branch.branch(fork, hand, 1.12 + pen.between(-0.06, 0.06), length * 1.12, 0.3)
            built.ribs.append(child.part(0.0, 0.12))
            built.pieces.append(child.part(0.1, 1.0))
        built.pieces.append(branch.part(fork + 0.11, 1.0))


def _blade(leaf: Leaf, pen: Pen) -> None:
    blade = _rib(leaf).part(_stalk(leaf), 1.0)
    _point(leaf, blade, pen)
    if leaf.blade == "whole":
        _whole(leaf, pen)
    elif leaf.division is None:
        _envelope(leaf, pen)
    else:
        built = _build(leaf)
        for axis in built.ribs:
            if axis.length < 24:
                pen.corner([axis.at(0), axis.at(1)], Weight.FINE)
            else:
                pen.curve([axis.at(0), axis.at(0.5), axis.at(1)], Weight.FINE, steady=True)
        for axis in built.pieces:
            last_piece(pen, axis, leaf.segments, built.coarser)


def _point(leaf: Leaf, blade: Axis, pen: Pen) -> None:
    half = _HALF.get(leaf.outline or "", 0.3) * blade.length
    if leaf.blade:
        pen.point_to("blade", blade.off(0.55, -half * 0.25))
    if leaf.outline:
        pen.point_to("outline", blade.off(0.45, half * _profile(leaf.outline, 0.45) * (0.6 if leaf.blade == "whole" else 0.95)))
    if leaf.division:
        pen.point_to("division", blade.off(0.26, -half * 0.5))
    if leaf.lowest_pair:
        pen.point_to("lowest-pair", blade.branch(0.0, -1, 1.05, half * 0.8).at(0.7))
    if leaf.segments:
        pen.point_to("segments", blade.off(0.1, half * 0.6))


def _whole(leaf: Leaf, pen: Pen) -> None:
    blade = _rib(leaf).part(_stalk(leaf), 1.0)
    half = _WHOLE_HALF.get(leaf.outline or "", 0.24) * blade.length
    sides = []
    for side in (1, -1):
        flank = [blade.off(t, side * half * _whole_profile(leaf.outline, t)) for t in (0.03, 0.1, 0.22, 0.38, 0.56, 0.74, 0.9)]
        sides.append([blade.at(0), *flank, blade.at(1)])
    pen.outline(sides[0], sides[1][::-1])


def _whole_profile(outline: str | None, t: float) -> float:
    if outline == "lance":
        return float(2.35 * (t + 0.004) ** 0.62 * (1 - t) ** 1.05)
    if outline == "triangle":
        return float(min(1.0, 3.2 * t**0.5) * (1 - t) ** 0.95 * 1.04)
    if outline == "feather":
        return float(min(1.0, (t / 0.18) ** 0.6) * (1 - t**4) ** 0.8)
    return float(2.0 * t**0.5 * (1 - t) ** 0.5)


def _envelope(leaf: Leaf, pen: Pen) -> None:
    """The shape drawn round a leaf of which no more is told; or, of a divided one, round each of its parts."""
    blade = _rib(leaf).part(_stalk(leaf), 1.0)
    if leaf.blade != "divided":
        half = _HALF.get(leaf.outline or "", 0.36) * blade.length
        for side in (1, -1):
            edge = [blade.off(t, side * half * _profile(leaf.outline, t) * min(1.0, (t / 0.06) ** 0.6)) for t in _THIRTY]
            broken(pen, edge[::-1])
        return
    for part in _build(leaf).pieces:
        for side in (1, -1):
            edge = [part.off(t, side * 0.18 * part.length * egg_half(t)) for t in _THIRTY]
            broken(pen, edge[::-1])


_THIRTY = [n / 30 for n in range(31)]


# -- lines on it -------------------------------------------------------------------------------------------
def _middle(leaf: Leaf, pen: Pen) -> None:
    rib, stalk, size = _rib(leaf), _stalk(leaf), _size(leaf)
    if leaf.length:
        pen.point_to("length", rib.at(0.06))
    thick = size * 0.009
    ends = 0.97 if leaf.blade == "whole" else stalk + (1 - stalk) * (0.36 if leaf.division == "in-threes" else 0.8)
    if leaf.blade == "whole":
        # no trait says that an undivided leaf is stalked, so its stalk is left open
        for side in (1, -1) if size >= 50 else (0,):
            broken(pen, [rib.off(t * stalk, side * thick * (1.35 - 0.35 * t)) for t in (0.0, 0.5, 1.0)])
    if size < 50:
        pen.curve([rib.at(t) for t in ((stalk, 0.5, ends) if leaf.blade == "whole" else (0, 0.4, ends))], Weight.INNER, steady=True)
        return
    foot = (stalk, 1.0) if leaf.blade == "whole" else (0.0, 1.35)
    tapering = (foot, (foot[0] + 0.1, 1.0), ((foot[0] + 0.1 + ends) / 2, 0.6), (ends, 0.0))
    right, left = ([rib.off(t, side * thick * w) for t, w in tapering] for side in (1, -1))
    pen.outline(right, left[::-1], [left[0], right[0]], weight=Weight.INNER if leaf.blade == "whole" else Weight.FINE)


def _veins(leaf: Leaf, pen: Pen) -> None:
    blade = _rib(leaf).part(_stalk(leaf), 1.0)
    shining = leaf.gloss == "glossy"
    if leaf.gloss:
        pen.point_to("gloss", blade.off(0.4, -0.06 * blade.length))
    if leaf.blade == "whole" or (leaf.blade is None and leaf.division is None):
        if leaf.blade == "whole" or leaf.gloss:
            _pinnate(leaf, blade, shining, pen)
    else:
        built = _build(leaf)
        for axis in built.pieces:
            piece_veins(pen, axis, leaf.segments, shining, built.coarser)
        if leaf.gloss and not pen.strokes:
            # too small for veins: a line along the middle of the largest, or what the light leaves of it
            for axis in sorted(built.pieces, key=lambda axis: -axis.length)[:40]:
                pen.corner([axis.at(0.5 if shining else 0.08), axis.at(0.72)], Weight.FINE)


def _pinnate(leaf: Leaf, blade: Axis, shining: bool, pen: Pen) -> None:
    """The side veins of a whole blade."""
    half = _WHOLE_HALF.get(leaf.outline or "", 0.24) * blade.length
    for n in range(9):
        t = 0.07 + 0.09 * n
        reach = half * _whole_profile(leaf.outline, min(0.97, t + 0.1)) * 1.06
        for side in (1, -1):
            vein(pen, blade.branch(t + 0.012 * side, side, 0.92 - 0.25 * t, reach, 0.5), shining)


def _flecks(leaf: Leaf, pen: Pen) -> None:
    """Pale flecks: left white on the leaf, so they hide what lies below."""
    if leaf.flecks is None:
        return
    blade = _rib(leaf).part(_stalk(leaf), 1.0)
    along = [blade]
    if leaf.blade != "whole" and leaf.division is not None:
        built = _build(leaf)
        along = sorted(built.pieces if leaf.division in ("once", "in-threes") else built.ribs, key=lambda axis: -axis.length)[:6] or [blade]
    pen.point_to("flecks", along[0].off(0.3, 2.0))
    if leaf.flecks == "none":
        return
    rows = 8 if len(along) == 1 else 3
    for n in range(rows * len(along)):
        axis, row = along[n % len(along)], n // len(along)
        size = min(9.0, 0.12 * axis.length + 1.5)
        t = 0.16 + 0.62 * row / rows
        side = 1 if (row + n % len(along)) % 2 else -1
        fleck = axis.branch(t, side, 0.5, size)
        start = axis.off(t, side * (1.0 + size * 0.22))
        pen.lens(start, start + fleck.at(1) - fleck.start, size * 0.42, Weight.FINE, Fill.PAPER)


_FORM = ("blade", "outline", "division", "lowest_pair", "segments", "length", "frame")

LEAF = Drawer(
    Leaf,
    _WIDTH,
    _HEIGHT,
    (
        layer("blade", _blade, *_FORM),
        layer("veins", _veins, "gloss", *_FORM),
        layer("rib", _middle, "blade", "outline", "division", "length", "frame"),
        layer("flecks", _flecks, "flecks", *_FORM),
    ),
    _scale,
)
