"""A length of stem."""

from __future__ import annotations

from math import cos, pi, sin

from twayblade.knowledge.pieces.stem import Stem
from twayblade.writing.drawing.pen import Fill, Pen, Point, Weight
from twayblade.writing.drawing.sketch import Drawer, Layer, layer, units

_WIDTH, _HEIGHT = 120, 200
_MIDDLE = 60.0
_TOP, _FOOT = 26.0, 192.0
_HALF = 24.0
_TILT = 0.3
"""How far the cut end is seen from above: height of the ellipse against its width."""


def _scale(stem: Stem) -> float | None:
    return units(stem.thickness, stem.frame, 2 * 34.0)


def _half(stem: Stem) -> float:
    """Half the thickness in units: to scale where it is known."""
    scale = _scale(stem)
    return float(stem.thickness) * scale / 2 if stem.thickness and scale else _HALF


_NARROW = 8.0
"""Half of a thickness in units below which an edge is one line."""
_TURN = 0.35
"""How far a stem with edges is turned, in radians: one edge stands before the middle, one at each side."""


def _rim(stem: Stem, half: float) -> list[Point]:
    """The rim of the cut end: round, or with edges or ribs. Its sides meet the walls of the stem."""
    waves, depth = {"ridges": (14, 0.05), "furrows": (12, 0.1), "fine-ribs": (22, 0.025)}.get(stem.relief or "", (0, 0.0))
    hollow = {"edges": 0.3, "blunt-edges": 0.13}.get(stem.section or "", 0.0)
    steps = 48 if waves else 16
    points = []
    for step in range(steps):
        angle = 2 * pi * step / steps + (_TURN if hollow else 0.0)
        dent = hollow * (0.5 - 0.5 * cos(4 * (angle - _TURN))) ** (0.6 if stem.section == "edges" else 1.0)
        radius = half * (1 - depth * (1 - cos(waves * angle))) * (1 - dent) / (cos(_TURN) if hollow else 1.0)
        points.append(complex(_MIDDLE + radius * cos(angle), _TOP + _TILT * radius * sin(angle)))
    return points


def _outline(stem: Stem, pen: Pen) -> None:
    half = _half(stem)
    left, right = complex(_MIDDLE - half, _TOP), complex(_MIDDLE + half, _TOP)
    down = complex(0, _FOOT - _TOP)
    wall = [right, right + down * 0.35, right + down * 0.7, right + down]
    broken = [right + down, right + down - half * 0.6 - 3j, complex(_MIDDLE, _FOOT + 3), left + down + half * 0.5 - 2j, left + down]
    back = [left + down, left + down * 0.65, left + down * 0.3, left]
    pen.outline(wall, broken, back, weight=Weight.OUTLINE)
    pen.curve(_rim(stem, half), Weight.OUTLINE, Fill.PAPER, closed=True, steady=True)
    if stem.section:
        pen.point_to("section", complex(_MIDDLE + half * 0.7, _TOP + half * _TILT * 0.6))
    if stem.thickness is not None:
        pen.point_to("thickness", complex(_MIDDLE + half, _FOOT - 40))


def _across(angle: float, half: float) -> float:
    """Where a line along the stem stands that goes down from the rim at an angle (0 right, pi left edge)."""
    return _MIDDLE + half * cos(angle)


def _down(pen: Pen, x: float, half: float, weight: Weight, start: float = 0.0, end: float = 1.0) -> None:
    """A line along the stem between two shares of its height, following the rim above and the broken end below."""
    aside = (x - _MIDDLE) / half if half else 0.0
    top = _TOP + _TILT * half * (1 - aside * aside) ** 0.5 + 1.5
    foot = _FOOT - 1 + 3 * (1 - abs(aside))
    a, b = top + (foot - top) * start, top + (foot - top) * end
    pen.curve([complex(x, a), complex(x, a + (b - a) * 0.4), complex(x, a + (b - a) * 0.75), complex(x, b)], weight)


def _relief(stem: Stem, pen: Pen) -> None:
    half = _half(stem)
    if stem.relief is None:
        return
    pen.point_to("relief", complex(_MIDDLE + half * 0.15, 104))
    if stem.relief == "fine-ribs":
        for n in range(1, 9):
            x = _across(pi * n / 9, half)
            gap = pen.between(0.3, 0.7)
            _down(pen, x, half, Weight.FINE, 0.02, gap - 0.04)
            _down(pen, x, half, Weight.FINE, gap + 0.04, 0.97)
    elif stem.relief == "ridges":
        for n in range(1, 7):
            _down(pen, _across(pi * n / 7, half), half, Weight.INNER)
    elif stem.relief == "furrows":
        # the grooves lie between the ribs of the rim
        for n in range(6):
            angle = pi * (n + 0.5) / 6
            for turn, weight in ((-0.085, Weight.INNER), (0.0, Weight.FINE), (0.085, Weight.OUTLINE)):
                _down(pen, _across(angle + turn, half), half, weight, 0.0 if turn else 0.05, 1.0 if turn else 0.93)


def _section(stem: Stem, pen: Pen) -> None:
    half = _half(stem)
    if stem.section in ("edges", "blunt-edges"):
        heavy = stem.section == "edges"
        x = _across(_TURN + pi / 2, half)
        _down(pen, x, half, Weight.OUTLINE if heavy else Weight.INNER, 0.04)
        if heavy:
            for aside, weight in () if half < _NARROW else ((3.0, Weight.FINE), (-2.6, Weight.FINE), (half * 0.78, Weight.INNER)):
                _down(pen, x + aside, half, weight, 0.05, 0.92)


def _filling(stem: Stem, pen: Pen) -> None:
    half = _half(stem)
    if stem.filling is None:
        return
    pen.point_to("filling", complex(_MIDDLE, _TOP))
    if stem.filling == "hollow":
        inner = [complex(_MIDDLE + half * 0.55 * cos(a), _TOP + _TILT * half * 0.55 * sin(a)) for a in (2 * pi * n / 14 for n in range(14))]
        pen.curve(inner, Weight.INNER, closed=True, steady=True)
        for n in range(7):
            x = half * (-0.47 + 0.075 * n)
            rise = _TILT * half * (0.52**2 - (x / half) ** 2) ** 0.5
            pen.line(complex(_MIDDLE + x, _TOP - rise), complex(_MIDDLE + x, _TOP + rise * (0.75 - 0.2 * n)), Weight.FINE)
        return
    for n in range(26):
        angle, away = 2.4 * n, 0.84 * half * (n / 26) ** 0.5
        pen.stipple(complex(_MIDDLE + away * cos(angle), _TOP + _TILT * away * sin(angle)))


def _blotches(stem: Stem, pen: Pen) -> None:
    half = _half(stem)
    if stem.blotches is None:
        return
    pen.point_to("blotches", complex(_MIDDLE - half * 0.42, 146))
    if stem.blotches != "blotches":
        return
    places = [(-0.42, 146, 5.2), (0.3, 168, 4.4), (0.12, 128, 3.4), (-0.55, 176, 3.0), (0.62, 140, 3.6), (-0.14, 181, 2.6)]
    places += [
        (-0.6, 118, 2.8),
        (0.55, 110, 2.6),
        (-0.2, 104, 3.2),
        (0.28, 86, 2.2),
        (-0.5, 80, 2.2),
        (0.0, 158, 2.0),
        (0.7, 182, 2.4),
        (-0.05, 66, 1.6),
    ]
    for aside, y, size in places:
        squeezed = 0.9 * (1 - aside * aside) ** 0.5
        centre = complex(_MIDDLE + half * aside, y)
        blot = []
        for n in range(7):
            angle, radius = 2 * pi * n / 7, size * pen.between(0.7, 1.2) * half / _HALF
            blot.append(centre + complex(radius * squeezed * cos(angle), 1.7 * radius * sin(angle)))
        pen.curve(blot, Weight.FINE, Fill.INK, closed=True)


def _flush(stem: Stem, pen: Pen) -> None:
    half = _half(stem)
    if stem.flush is None:
        return
    pen.point_to("flush", complex(_MIDDLE + half * 0.75, 92))
    if stem.flush == "even":
        for n in range(9):
            _down(pen, _MIDDLE + half * (0.34 + 0.07 * n), half, Weight.FINE, pen.between(0.02, 0.1), pen.between(0.86, 0.97))


def _bloom(stem: Stem, pen: Pen) -> None:
    half = _half(stem)
    if stem.bloom is None:
        return
    pen.point_to("bloom", complex(_MIDDLE - half * 0.7, 70))
    if stem.bloom == "film":
        for row in range(22):
            for n in range(4):
                x = half * (-0.93 + 0.13 * n + (0.065 if row % 2 else 0))
                pen.stipple(pen.near(complex(_MIDDLE + x, 44 + 6.4 * row), 0.8))


def _foot(stem: Stem, pen: Pen) -> None:
    half = _half(stem)
    if stem.foot_colour is None:
        return
    pen.point_to("foot-colour", complex(_MIDDLE - half * 0.5, 184))
    if stem.foot_colour == "red":
        for n in range(7):
            y = 166 + 3.8 * n
            sag = 2.0
            start, end = complex(_MIDDLE - half * pen.between(0.88, 0.94), y), complex(_MIDDLE + half * pen.between(0.8, 0.92), y)
            pen.curve([start, (start + end) / 2 + sag * 1j, end], Weight.FINE)


_LENGTHS = {"some": (7.0, 11), "bristles": (8.5, 12), "down": (3.6, 30), "shaggy": (15.0, 15)}
"""Length of a hair in units and how many stand along one edge of a half of the stem."""


def _hairs(manner: str | None, stance: str | None, half: float, top: float, foot: float, pen: Pen) -> None:
    if manner is None or manner == "none":
        return
    length, number = _LENGTHS[manner]
    share = (foot - top) / 76
    turn = {"pressed-down": 1.35, "standing-out": 0.0}.get(stance or "", 0.55)
    number = max(4, round(number * share))
    for side in (-1, 1):
        for n in range(number):
            y = top + (foot - top) * (n + 0.5 + pen.between(-0.3, 0.3)) / number
            _hair(pen, complex(_MIDDLE + side * half, y), side, length, turn, manner)
    for _ in range(number):
        aside = pen.between(-0.8, 0.8)
        y = pen.between(top, foot)
        _hair(pen, complex(_MIDDLE + half * aside, y), 1 if aside > 0 else -1, length * 0.7, max(turn, 0.3), manner)


def _hair(pen: Pen, root: Point, side: int, length: float, turn: float, manner: str) -> None:
    """A hair from its root. turn: how far it is turned down from standing square to the stem, in radians."""
    turned = turn + pen.between(-0.22, 0.22)
    tip = root + length * pen.between(0.8, 1.1) * complex(side * cos(turned), sin(turned))
    if manner == "shaggy":
        aside = (tip - root) * 0.22j * side
        pen.curve([root, root + (tip - root) * 0.4 + aside, root + (tip - root) * 0.75 - aside * 0.3, tip], Weight.FINE)
    elif manner == "some":
        pen.curve([root, (root + tip) / 2 + (tip - root) * 0.12j * side, tip], Weight.FINE)
    else:
        pen.corner([root, tip], Weight.INNER if manner == "bristles" else Weight.FINE)


_PLACES = {"lower-hairs": (112, 182, 152), "upper-hairs": (58, 110, 84), "top-hairs": (34, 56, 44)}
"""Where the hairs of a part of the stem begin and end, and the height at which they are pointed to."""


def _hairs_of(part: str) -> Layer:
    """The layer of the hairs of one part of the stem."""
    top, foot, pointed = _PLACES[part]
    field = part.replace("-", "_")

    def draw(stem: Stem, pen: Pen) -> None:
        half, manner = _half(stem), getattr(stem, field)
        if manner:
            pen.point_to(part, complex(_MIDDLE + half, pointed))
        if stem.hair_stance:
            pen.point_to("hair-stance", complex(_MIDDLE - half - 3, pointed + 12))
        _hairs(manner, stem.hair_stance, half, top, foot, pen)

    return layer(part, draw, field, "hair_stance", *_SIZE)


_SHAPE = ("section", "relief", "thickness", "frame")
_SIZE = ("thickness", "frame")

STEM = Drawer(
    Stem,
    _WIDTH,
    _HEIGHT,
    (
        layer("outline", _outline, *_SHAPE),
        layer("flush", _flush, "flush", *_SIZE),
        layer("bloom", _bloom, "bloom", *_SIZE),
        layer("relief", _relief, "relief", *_SIZE),
        layer("edges", _section, "section", *_SIZE),
        layer("filling", _filling, "filling", *_SIZE),
        layer("foot", _foot, "foot_colour", *_SIZE),
        layer("blotches", _blotches, "blotches", *_SIZE),
        *(_hairs_of(part) for part in _PLACES),
    ),
    _scale,
)
