"""One flower from above."""

from __future__ import annotations

from cmath import rect
from decimal import Decimal
from math import pi

from twayblade.knowledge.pieces.flower import Flower
from twayblade.writing.drawing.lines import circle, dashed
from twayblade.writing.drawing.pen import Fill, Pen, Weight
from twayblade.writing.drawing.petals import UP, Petal, draw_petal, draw_strap, mark, ring
from twayblade.writing.drawing.sketch import Drawer, layer, units

_SIZE = 140
_MIDDLE = complex(70, 70)
_REACH = 63.0
"""Half the width of the largest flower in units."""
_CUP = Decimal("0.1")
"""The middle of a flower in which no petal is seen, against half its width."""
_DISC = 0.46
"""The disc of a daisy head against half its width."""
_RING = 12
"""More stamens than this stand in several rings."""


def _width(flower: Flower) -> Decimal | None:
    """Its width in mm; where only the petals are known, twice their length and the cup."""
    if flower.width or not flower.petal_length:
        return flower.width or None
    return flower.petal_length * 2 / (1 - _CUP)


def _scale(flower: Flower) -> float | None:
    return units(_width(flower), flower.frame, 2 * _REACH)


def _reach(flower: Flower) -> float:
    """Half the width in units: to scale where it is known."""
    scale, width = _scale(flower), _width(flower)
    return float(width) * scale / 2 if scale and width else _REACH


def _petals(flower: Flower) -> list[Petal]:
    """A petal longer than half the flower is wide comes up from inside the flower: its foot is hidden."""
    reach, scale = _reach(flower), _scale(flower)
    foot = reach * max(float(_CUP), min(0.45, (flower.petals or 0) * 0.0085))
    if scale and flower.petal_length:
        foot = max(0.0, reach - float(flower.petal_length) * scale)
    return ring(flower.petals or 0, _MIDDLE, foot, reach - foot)


def _rays(flower: Flower) -> list[Petal]:
    foot = _reach(flower) * _DISC * 0.8
    return ring(flower.ray_florets or 0, _MIDDLE, foot, _reach(flower) - foot, strap=True)


def _rim(flower: Flower, pen: Pen) -> None:
    """The reach of a flower of whose petals nothing is said."""
    reach = _reach(flower)
    if flower.width is not None:
        pen.point_to("width", _MIDDLE + rect(reach, -0.5))
    if not flower.petals and not flower.ray_florets:
        dashed(pen, lambda share: _MIDDLE + rect(reach, 2 * pi * share), max(8, round(reach * 0.6)))


def _ray_florets(flower: Flower, pen: Pen) -> None:
    if flower.ray_florets is None:
        return
    pen.point_to("ray-florets", _MIDDLE + rect(_reach(flower) * 0.8, UP + 0.1))
    for ray in _rays(flower):
        draw_strap(pen, ray)


def _corolla(flower: Flower, pen: Pen) -> None:
    if flower.petal_length:
        pen.point_to("petal-length", _MIDDLE + rect(_reach(flower) * 0.96, UP + 0.05))
    if flower.petals is None:
        return
    pen.point_to("petals", _MIDDLE + rect(_reach(flower) * 0.8, UP - 0.15))
    for petal in _petals(flower):
        draw_petal(pen, petal)


def _tint(flower: Flower, pen: Pen) -> None:
    """The marking of the colour: on the rays of a head, on the petals of a flower, or, where neither are drawn, on a ring without parts."""
    if flower.tint is None:
        return
    reach = _reach(flower)
    pen.point_to("tint", _MIDDLE + rect(reach * 0.66, UP - 0.08))
    for sheet in _rays(flower) or _petals(flower) or ring(12, _MIDDLE, reach * 0.4, reach * 0.6):
        mark(pen, flower.tint, sheet)


def _middle(flower: Flower, pen: Pen) -> None:
    reach = _reach(flower)
    if flower.make:
        pen.point_to("make", _MIDDLE + rect(reach * (_DISC if flower.make == "daisy-head" else float(_CUP)), 0.4))
    if flower.make == "daisy-head":
        pen.curve(circle(_MIDDLE, reach * _DISC), Weight.INNER, Fill.PAPER, closed=True)
        number = 26
        for n in range(number):
            share = ((n + 0.5) / number) ** 0.5
            place = _MIDDLE + rect(reach * _DISC * 0.9 * share, 2.39996 * n)
            pen.dot(place, max(0.5, reach * (0.026 + 0.024 * share)), Fill.NONE)
        return
    pen.curve(circle(_MIDDLE, reach * float(_CUP) * 1.15, 8), Weight.INNER, Fill.PAPER, closed=True)


def _stamens(flower: Flower) -> list[tuple[float, float]]:
    """Angle of each stamen and how far it reaches, as a share of half the width: in one ring, or in several where there are many."""
    number = flower.stamens or 0
    reaches = (0.73,) if number <= _RING else (0.62, 0.4, 0.52) if number <= 3 * _RING else (0.66, 0.36, 0.56, 0.46)
    return [(UP + 2 * pi * (n + 0.5) / number, reaches[n % len(reaches)]) for n in range(number)]


def _filaments(flower: Flower, pen: Pen) -> None:
    reach = _reach(flower)
    for angle, far in _stamens(flower):
        bow = pen.between(-0.08, 0.08)
        points = [_MIDDLE + rect(reach * r, angle + b) for r, b in ((float(_CUP), 0), (far * 0.6, bow), (far, 0))]
        pen.curve(points, Weight.INNER if len(_stamens(flower)) <= _RING else Weight.FINE, steady=True)


def _anthers(flower: Flower, pen: Pen) -> None:
    if flower.stamens is None:
        return
    reach = _reach(flower)
    pen.point_to("stamens", _MIDDLE + rect(reach * 0.7, _stamens(flower)[0][0] if flower.stamens else 0.6))
    long = reach * (0.07 if flower.stamens <= _RING else 0.045)
    shape = _ANTHER if flower.stamens <= _RING else _ANTHER_OF_MANY
    for angle, far in _stamens(flower):
        place, turn = _MIDDLE + rect(reach * far, angle), angle + pi / 2 + pen.between(-0.35, 0.35)
        pen.curve([place + rect(1, turn) * complex(long * x, long * y) for x, y in shape], Weight.FINE, Fill.INK, closed=True, steady=True)


_ANTHER_OF_MANY = ((-1, 0), (0, -0.55), (1, 0), (0, 0.55))
_ANTHER = ((-1, 0.05), (-0.55, -0.6), (0, -0.42), (0.55, -0.6), (1, 0.05), (0, 0.55))


def _styles(flower: Flower, pen: Pen) -> None:
    """Each style a little club with its stigma at the outer end."""
    if flower.styles is None:
        return
    reach = _reach(flower)
    pen.point_to("styles", _MIDDLE + rect(reach * 0.14, -0.4))
    number = flower.styles
    long, head = reach * (0.2 if number < 9 else 0.24), reach * min(0.05, 0.4 / max(number, 1))
    for n in range(number):
        angle = -0.4 + 2 * pi * n / number + pen.between(-0.1, 0.1)
        start = reach * (0.0 if number < 4 else 0.05)
        side = [(start, 0.0), (long * 0.7, -0.35), (long, -1), (long + head * 1.1, 0), (long, 1), (long * 0.7, 0.35)]
        pen.curve([_MIDDLE + rect(1, angle) * complex(x, y * head) for x, y in side], Weight.FINE, Fill.PAPER, closed=True, steady=True)


_SCALE = ("width", "petal_length", "frame")

FLOWER = Drawer(
    Flower,
    _SIZE,
    _SIZE,
    (
        layer("rim", _rim, "petals", "ray_florets", *_SCALE),
        layer("ray-florets", _ray_florets, "ray_florets", *_SCALE),
        layer("petals", _corolla, "petals", *_SCALE),
        layer("tint", _tint, "tint", "petals", "ray_florets", *_SCALE),
        layer("middle", _middle, "make", *_SCALE),
        layer("filaments", _filaments, "stamens", *_SCALE),
        layer("stamens", _anthers, "stamens", *_SCALE),
        layer("styles", _styles, "styles", *_SCALE),
    ),
    _scale,
)
