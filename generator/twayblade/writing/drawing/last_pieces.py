"""The last pieces of a divided leaf as they are drawn in a whole leaf: by their shape, with as much of it as their size lets one see."""

from __future__ import annotations

from collections.abc import Callable

from twayblade.writing.drawing.axis import Axis
from twayblade.writing.drawing.pen import Fill, Pen, Point, Weight

_SPECK = 2.5
"""Length in units below which a piece is a mere stroke."""


def last_piece(pen: Pen, axis: Axis, segments: str | None, coarser: float = 1.0) -> None:
    """One piece from its foot to its tip. coarser: with as little of its shape as a piece so many times smaller."""
    if axis.length < _SPECK:
        pen.corner([axis.at(0), axis.at(1)], Weight.FINE)
        return
    _SHAPES.get(segments or "", _plain)(pen, axis, axis.length / coarser)


def _weight(axis: Axis) -> Weight:
    return Weight.FINE if axis.length < 30 else Weight.INNER


def _round(pen: Pen, axis: Axis, right: list[tuple[float, float]]) -> None:
    """A polygon with the same corners on both sides. right: share of the length, and share of it to the side, from the foot up."""
    size = axis.length
    points = [axis.at(0)]
    points += [axis.off(t, pen.between(0.9, 1.08) * w * size) for t, w in right]
    points += [axis.at(1)]
    points += [axis.off(t, -pen.between(0.9, 1.08) * w * size) for t, w in reversed(right)]
    pen.corner(points, _weight(axis), Fill.PAPER if size > 30 else Fill.NONE, closed=True)


def _plain(pen: Pen, axis: Axis, seen: float) -> None:
    if seen < 24:
        pen.lens(axis.at(0), axis.at(1), axis.length * 0.42, Weight.FINE)
        return
    pen.outline(_side(axis, 1, 0.2), _side(axis, -1, 0.2)[::-1], weight=Weight.INNER)


def _side(axis: Axis, side: int, half: float) -> list[Point]:
    """One flank of an egg shape from foot to tip. half: its greatest half-width, as a share of the length."""
    wide = side * half * axis.length
    return [axis.at(0), axis.off(0.12, wide * 0.72), axis.off(0.36, wide), axis.off(0.7, wide * 0.62), axis.at(1)]


def egg_half(t: float) -> float:
    """Half-width of an egg-shaped piece at a share of its length, against its greatest half-width."""
    return float(2.42 * (t + 0.015) ** 0.55 * max(0.0, 1 - t) ** 0.95)


def _egg(pen: Pen, axis: Axis, seen: float) -> None:
    size = axis.length
    if seen < 5.5:
        pen.lens(axis.at(0), axis.at(1), size * 0.6, Weight.FINE)
        return
    teeth = 2 if seen < 9 else 3 if seen < 14 else 4 if seen < 20 else 7 if seen < 36 else 12
    high = 0.16 / teeth
    right: list[tuple[float, float]] = [(0.04, 0.27 * egg_half(0.04))]
    for n in range(teeth):
        tip = 0.1 + 0.82 * (n + 0.9) / teeth
        back = tip - 0.02
        right += [(tip, 0.27 * egg_half(tip - 0.05) + high * 0.7), (back, 0.27 * egg_half(back) - high * 0.3)]
    _round(pen, axis, right)


def _wedge(pen: Pen, axis: Axis, seen: float) -> None:
    if seen < 6:
        _round(pen, axis, [(0.78, 0.36), (0.76, 0.14)])
    elif seen < 14:
        _round(pen, axis, [(0.62, 0.36), (0.84, 0.37), (0.74, 0.17), (0.95, 0.14)])
    else:
        _round(pen, axis, [(0.3, 0.1), (0.55, 0.34), (0.67, 0.4), (0.66, 0.31), (0.84, 0.36), (0.66, 0.13), (0.88, 0.17), (0.9, 0.09)])


def _lacy(pen: Pen, axis: Axis, seen: float) -> None:
    if seen < 6:
        _round(pen, axis, [(0.62, 0.3), (0.52, 0.09)])
        return
    lobes = 2 if seen < 10 else 3 if seen < 16 else 4 if seen < 28 else 6
    right: list[tuple[float, float]] = []
    for n in range(lobes):
        start, end = 0.1 + 0.8 * n / lobes, 0.1 + 0.8 * (n + 1) / lobes
        wide = (0.36 if seen < 28 else 0.3) * (1 - start) ** 0.8 + 0.03
        tip = min(0.97, end + 0.12 * (1 - start))
        if seen >= 16:
            right += [(start + 0.02, 0.05), (start * 0.6 + tip * 0.4, wide * 0.62), (start * 0.5 + tip * 0.5, wide * 0.56)]
        right += [(tip, wide), (end, 0.055 * (1.2 - end) + 0.01)]
    _round(pen, axis, right)


def _linear(pen: Pen, axis: Axis, seen: float) -> None:
    size = axis.length
    if seen < 11:
        pen.corner([axis.at(0), axis.at(1)], Weight.INNER)
    else:
        half = min(1.8, 0.05 * size)
        strip = [axis.at(0), *(axis.off(t, side * half) for side, t in ((1, 0.2), (1, 0.8))), axis.at(1)]
        pen.corner([*strip, axis.off(0.8, -half), axis.off(0.2, -half)], Weight.FINE, closed=True)


_COARSE = [(0.02, 0.1), (0.03, 0.27), (0.13, 0.34), (0.16, 0.43), (0.27, 0.4), (0.33, 0.44), (0.37, 0.3), (0.36, 0.16)]
_COARSE += [(0.43, 0.24), (0.48, 0.34), (0.58, 0.36), (0.66, 0.36), (0.68, 0.25), (0.66, 0.13), (0.76, 0.17), (0.83, 0.17), (0.92, 0.09)]
"""A lobed piece with coarse round teeth: the lower lobe, the upper, the end, seen on the right side."""
_SINUSES = (8, 14)
"""Which points of the flank, its foot counted, lie between the lobes."""


def _broad(pen: Pen, axis: Axis, seen: float) -> None:
    size = axis.length
    if seen < 9:
        _round(pen, axis, [(0.2, 0.3), (0.5, 0.42), (0.55, 0.24), (0.85, 0.26)])
    elif seen < 20:
        _round(pen, axis, [(0.06, 0.24), (0.28, 0.42), (0.42, 0.38), (0.38, 0.17), (0.58, 0.34), (0.72, 0.28), (0.66, 0.14), (0.86, 0.14)])
    else:
        flanks = []
        for side in (1, -1):
            edge = [axis.at(0), *(axis.off(t, side * w * size * pen.between(0.93, 1.05)) for t, w in _COARSE), axis.at(1)]
            flanks.append([edge[: _SINUSES[0] + 1], edge[_SINUSES[0] : _SINUSES[1] + 1], edge[_SINUSES[1] :]])
        pen.outline(*flanks[0], *(flank[::-1] for flank in reversed(flanks[1])), weight=Weight.INNER)


_SHAPES: dict[str, Callable[[Pen, Axis, float], None]] = {
    "egg-shaped": _egg,
    "wedge-shaped": _wedge,
    "lacy": _lacy,
    "linear": _linear,
    "broad-lobed": _broad,
}


def piece_veins(pen: Pen, axis: Axis, segments: str | None, shining: bool, coarser: float = 1.0) -> None:
    """The veins of one piece; where it shines, light takes away their inner parts."""
    size, seen = axis.length, axis.length / coarser
    if seen < 9 or (segments == "linear" and seen < 30):
        return
    vein(pen, axis.part(0.03, 0.84), shining)
    if seen < 17 or segments in ("lacy", "linear"):
        return
    number = 3 if seen < 24 else 4 if seen < 40 else 5
    for n in range(number):
        t = 0.12 + 0.66 * n / number
        reach = size * (0.3 if segments != "broad-lobed" else 0.36) * (1 - t) ** 0.8
        for side in (1, -1):
            branch = axis.branch(t, side, 0.85, reach, 0.25)
            pen.corner([branch.at(0.5 if shining else 0.0), branch.at(1)], Weight.FINE)


def vein(pen: Pen, axis: Axis, shining: bool) -> None:
    """A vein; where the leaf shines, light takes away a part of it."""
    for start, end in ((0.0, 0.26), (0.6, 1.0)) if shining else ((0.0, 1.0),):
        part = axis.part(start, end)
        if part.length < 14:
            pen.corner([part.at(0), part.at(1)], Weight.FINE)
        else:
            pen.curve([part.at(0), part.at(0.5), part.at(1)], Weight.FINE, steady=True)


def weight_of(pieces: list[Axis], segments: str | None, coarser: float) -> int:
    """How many characters the pieces take with their veins, at most."""
    edges, *veins = (Pen("weight") for _ in range(3))
    for axis in pieces:
        last_piece(edges, axis, segments, coarser)
        for pen, shining in zip(veins, (False, True), strict=True):
            piece_veins(pen, axis, segments, shining, coarser)
    drawn, matt, glossy = (sum(len(stroke.data) + 45 for stroke in pen.strokes) for pen in (edges, *veins))
    return drawn + max(matt, glossy)
