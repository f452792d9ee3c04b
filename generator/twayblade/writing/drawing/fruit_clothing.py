"""Bristles and spines of a fruit, and the end of one drawn large."""

from __future__ import annotations

from cmath import phase, rect
from math import cos

from twayblade.writing.drawing.fruit_shape import Body
from twayblade.writing.drawing.lines import circle
from twayblade.writing.drawing.pen import Fill, Pen, Point, Weight

_LENS = complex(128, 172)
_LENS_RADIUS = 18.0


def clothing(pen: Pen, body: Body, manner: str, tips: str | None) -> None:
    """What covers the sides: bristles everywhere, or spines in rows."""
    if manner == "bristles":
        _bristles(pen, body, tips)
    elif manner == "spine-rows":
        _spine_rows(pen, body, tips)


def _hair(pen: Pen, root: Point, out: Point, curve: float, weight: Weight, tips: str | None) -> None:
    """A bristle from its root. out: to its tip if it were straight; curve: how far it bends upwards, as a share of its length."""
    tip = root + out - curve * abs(out) * 1j
    points = [root, root + out * 0.55 - curve * abs(out) * 0.22j, tip]
    if tips == "hooked":
        turn = 1 if out.real > 0 else -1
        points.append(tip + rect(0.2 * abs(out), phase(tip - root)) * complex(-0.2, -turn * 0.9))
    if curve or tips == "hooked":
        pen.curve(points, weight, steady=True)
    else:
        pen.corner([root, tip], weight)


def _bristles(pen: Pen, body: Body, tips: str | None) -> None:
    long = 0.135 * body.length
    number = max(5, round(14 * min(1.0, body.small**0.6)))
    for side in (-1, 1):
        for n in range(number):
            up = 0.06 + 0.86 * (n + 0.5 + pen.between(-0.25, 0.25)) / number
            rise = -0.5 + 1.3 * up
            out = rect(long * pen.between(0.8, 1.1), -rise)
            _hair(pen, body.at(up, side), complex(side * out.real, out.imag), 0.4, Weight.INNER, tips)
    # those on the face point towards the eye: their very ends are not seen
    rows = max(3, round(8 * min(1.0, body.small**0.6)))
    for row in range(rows):
        up = 0.08 + 0.8 * (row + 0.5) / rows
        columns = max(1, round(8.5 * body.half(up) / body.length * 2 * min(1.0, body.small**0.4)))
        for n in range(columns):
            aside = 0.84 * (2 * (n + 0.5 + (0.25 if row % 2 else -0.25) + pen.between(-0.15, 0.15)) / columns - 1)
            root = body.at(up + pen.between(-0.02, 0.02), aside)
            _hair(pen, root, long * 0.75 * complex(0.9 * aside, -0.35), 0.45, Weight.INNER, None)
            pen.stipple(root)


def _spine_rows(pen: Pen, body: Body, tips: str | None) -> None:
    """Long spines standing straight out, one above the other, from ridges of which the outermost are the edges."""
    long = 0.165 * body.length
    number = max(4, round(10 * min(1.0, body.small**0.6)))
    for aside in (-1.0, -0.45, 0.0, 0.45, 1.0):
        line = [body.at(up, aside) for up in (0.05, 0.25, 0.5, 0.72, 0.93)]
        if abs(aside) < 1:
            pen.curve(line, Weight.FINE)
        for n in range(number):
            up = 0.08 + 0.84 * (n + 0.5) / number
            root = body.at(up, aside)
            if abs(aside) == 1:
                _hair(pen, root, aside * long * rect(1, aside * -0.7 * (up - 0.42)), 0.0, Weight.INNER, tips)
            else:
                turn = aside + (0.12 if aside == 0 else 0)
                reach = long * (0.35 + 0.5 * abs(aside))
                _hair(pen, root, reach * complex(turn * 1.3, -0.55 * cos(turn)), 0.0, Weight.INNER, tips)


def large_tip(pen: Pen, manner: str) -> None:
    """The end of a bristle under a lens."""
    pen.point_to("bristle-tips", _LENS - 9j)
    pen.curve(circle(_LENS, _LENS_RADIUS), Weight.INNER, Fill.PAPER, closed=True, steady=True)
    foot = _LENS + complex(-1, 16.5)
    if manner == "plain":
        bend, tip = _LENS + complex(-2.5, 0), _LENS + complex(3, -13)
        pen.outline([foot - 4.2, bend - 2.4, tip], [tip, bend + 2.6, foot + 4.2], weight=Weight.INNER)
        return
    neck, crown = complex(1.7, -6), complex(0.3, -12.5)
    side = [neck, complex(3.4, -9.8), complex(6.6, -8.4), complex(8.6, -2.5)]
    back = [complex(8.6, -2.5), complex(8.4, -10), complex(4.8, -13), crown]
    left_side, left_back = ([complex(-p.real, p.imag) for p in way] for way in (side, back))
    left_back[-1] = crown
    ways = [
        [foot - 4.2 - _LENS, complex(-2.6, 3), left_side[0]],
        left_side,
        left_back,
        back[::-1],
        side[::-1],
        [neck, complex(2.7, 3), foot + 4.2 - _LENS],
    ]
    pen.outline(*([_LENS + p for p in way] for way in ways), weight=Weight.INNER)
