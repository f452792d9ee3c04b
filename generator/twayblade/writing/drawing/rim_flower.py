"""The flower on the rim of an umbel."""

from __future__ import annotations

from cmath import rect
from dataclasses import dataclass, replace
from functools import partial
from math import pi

from twayblade.knowledge.pieces.flower import RimFlower
from twayblade.writing.drawing.lines import between, circle, dashed
from twayblade.writing.drawing.pen import Fill, Pen, Point, Weight
from twayblade.writing.drawing.petals import UP, Petal, mark, ring
from twayblade.writing.drawing.sketch import Drawer, layer

_WIDTH, _HEIGHT = 160, 140
_MIDDLE = complex(80, 91)
_CUP = 7.0
_LENGTH = 36.0
"""Length of an inner petal in units."""


@dataclass(frozen=True)
class _Manner:
    """How an outer petal grows: the one on the rim, and those beside it, against an inner one; depth of the notch of each as a share of it."""

    outermost: float
    beside: float
    notch: float
    notch_beside: float


_MANNERS = {
    "equal": _Manner(1.0, 1.0, 0.16, 0.16),
    "slightly-larger": _Manner(1.4, 1.18, 0.2, 0.18),
    "much-larger": _Manner(2.05, 1.5, 0.4, 0.3),
}
_INNER_NOTCH = 0.16
_BLADE = ((0.0, 0.24), (0.12, 0.37), (0.36, 0.67), (0.6, 1.0), (0.75, 1.0), (1.0, 0.5))
"""Half the width of a petal from its foot to its tip against its widest."""


@dataclass(frozen=True)
class _Blade:
    """A petal with its notch: two lobes, of which the one towards the rim may be longer."""

    petal: Petal
    notch: float
    lean: float
    """How much further the left lobe reaches (-) or the right one (+), as a share."""


def _blades(flower: RimFlower) -> list[_Blade]:
    """The petals, the outermost first. Where their number is not said, those of the rim only, if something is said of them."""
    number = 5 if flower.petals is None else flower.petals
    manner = _MANNERS[flower.outer or "equal"]
    blades = []
    for n in range(number):
        is_rim, is_beside = n == 0, n in (1, number - 1) and number > 3
        if flower.petals is None and not (flower.outer and (is_rim or is_beside)):
            continue
        grown = manner.outermost if is_rim else manner.beside if is_beside else 1.0
        notch = manner.notch if is_rim else manner.notch_beside if is_beside else _INNER_NOTCH
        lean = (-1 if n == 1 else 1) * (manner.beside - 1) * 0.3 if is_beside else 0.0
        blades.append(_Blade(_petal(UP + 2 * pi * n / number, _LENGTH * grown, number), notch, lean))
    return blades


def _petal(angle: float, length: float, number: int) -> Petal:
    widest = min((0.47 if length < 1.2 * _LENGTH else 0.4) * length, 3.0 * (_CUP + 0.62 * length) / max(number, 1))

    def half(along: float) -> float:
        return widest * between(_BLADE, along)

    return Petal(_MIDDLE, angle, _CUP * 0.8, length, half)


def _draw(pen: Pen, blade: _Blade) -> None:
    petal, left, right = blade.petal, 1 + max(0.0, -blade.lean), 1 + max(0.0, blade.lean)
    pit = petal.at(1 - blade.notch, 0)
    lobes = []
    for side, reach in ((1, right), (-1, left)):
        way = ((0.5 * (2 - blade.notch) * reach, 0.34), (reach, 0.78), (0.9 * reach, 1.16), (0.66, 1.04), (0.36, 1), (0.12, 1), (0.0, 0.8))
        lobes.append([pit, *(petal.at(along, side * aside) for along, aside in way)])
    pen.outline(lobes[0], [lobes[0][-1], lobes[1][-1]], lobes[1][::-1])


def _tongue(pen: Pen, blade: _Blade) -> None:
    """The tip of a petal, bent in from the notch over its face, and the fold that runs from there to the foot."""
    petal, pit = blade.petal, 1 - blade.notch
    end = pit - 0.3 * min(1.0, _LENGTH / petal.length * 1.2)
    wide = 0.2 if petal.length < 1.5 * _LENGTH else 0.13
    pen.outline(
        [petal.at(pit, -wide), petal.at((pit + end) / 2, -wide * 0.7), petal.at(end, 0)],
        [petal.at(end, 0), petal.at((pit + end) / 2, wide * 0.7), petal.at(pit, wide)],
        [petal.at(pit, wide), petal.at(pit + 0.015, 0), petal.at(pit, -wide)],
        weight=Weight.FINE,
    )
    pen.curve([petal.at(end - 0.06), petal.at(end * 0.6), petal.at(0.2)], Weight.FINE)


def _rim(flower: RimFlower, pen: Pen) -> None:
    """The reach of a flower of whose petals nothing is said."""
    if not flower.petals:
        dashed(pen, lambda share: _MIDDLE + rect(_CUP + _LENGTH, 2 * pi * share), 28)


def _corolla(flower: RimFlower, pen: Pen) -> None:
    if flower.petals is not None:
        pen.point_to("petals", _MIDDLE + rect(_LENGTH * 0.9, 0.3))
    if flower.outer is not None:
        pen.point_to("outer", _MIDDLE + rect(_LENGTH * 0.8, UP + 0.3))
    blades = _blades(flower)
    for blade in sorted(blades, key=lambda b: b.petal.length):
        _draw(pen, blade)


def _tongues(flower: RimFlower, pen: Pen) -> None:
    for blade in _blades(flower):
        _tongue(pen, blade)


def _lobe(half: float, along: float) -> float:
    """A lobe of a deeply notched petal has one width for its markings."""
    return half


def _tint(flower: RimFlower, pen: Pen) -> None:
    if flower.tint is None:
        return
    pen.point_to("tint", _MIDDLE + rect(_LENGTH * 0.7, pi - 0.3))
    blades = _blades(flower)
    for blade in blades:
        petal = blade.petal
        if blade.notch < 0.25:
            mark(pen, flower.tint, replace(petal, length=petal.length * (1 - blade.notch * 0.5)))
            continue
        mark(pen, flower.tint, replace(petal, length=petal.length * (1 - blade.notch)))
        for side in (-1, 1):
            foot = petal.at(1 - blade.notch * 1.1, side * 0.58)
            lobe = Petal(foot, petal.angle + side * 0.1, 0.0, petal.length * blade.notch * 0.9, partial(_lobe, petal.half(0.8) * 0.42))
            mark(pen, flower.tint, lobe)
    if not blades:
        for sector in ring(12, _MIDDLE, _LENGTH * 0.35, _LENGTH * 0.8):
            mark(pen, flower.tint, sector)


def _middle(flower: RimFlower, pen: Pen) -> None:
    """The cushion of two halves on which the styles stand."""
    pen.curve(circle(_MIDDLE, _CUP * 1.15, 8), Weight.INNER, Fill.PAPER, closed=True)
    for side in (-1, 1):
        half: list[Point] = [_MIDDLE + complex(side * x, y) for x, y in ((0.8, -4.6), (4.6, -3.2), (5.2, 1.0), (3.2, 4.8), (0.8, 4.4))]
        pen.curve(half, Weight.FINE, closed=True, steady=True)


RIM_FLOWER = Drawer(
    RimFlower,
    _WIDTH,
    _HEIGHT,
    (
        layer("rim", _rim, "petals"),
        layer("petals", _corolla, "petals", "outer"),
        layer("tint", _tint, "tint", "petals", "outer"),
        layer("tips", _tongues, "petals", "outer"),
        layer("middle", _middle),
    ),
)
