"""One small umbel of a compound umbel, with the bracteoles at its foot."""

from __future__ import annotations

from cmath import phase, rect
from math import acos, cos, pi, sin

from twayblade.knowledge.pieces.head import SmallUmbel
from twayblade.writing.drawing.bract import along, draw_blade
from twayblade.writing.drawing.florets import draw_floret
from twayblade.writing.drawing.pen import Fill, Pen, Point, Weight
from twayblade.writing.drawing.sketch import Drawer, layer

_WIDTH, _HEIGHT = 200, 190
_FOOT = 100 + 98j
"""Where all the stalks of the florets meet."""
_RADIUS = 56.0
"""From there to the florets on the rim."""
_LEVEL = 44.0
"""Height of the middle florets above the foot."""
_LENGTHS = {"shorter": 34.0, "longer": 84.0}
_BETWEEN = 50.0
"""Length of a bracteole in units where it is not known whether it is longer than the stalks of the florets."""

_FLORETS = 13


def _tips() -> list[tuple[Point, float]]:
    """The centres of the florets from back to front, and how far each leans to the right."""
    tips = []
    for n in range(_FLORETS):
        aside = (2 * n / (_FLORETS - 1) - 1) * 0.99
        front = (0.0, 0.62, -0.75, 0.3, -0.3, 0.85, -0.9)[min(n, _FLORETS - 1 - n)] * (1 - aside * aside) ** 0.5 * (1 if n < _FLORETS / 2 else 0.9)
        out = (aside * aside + front * front) ** 0.5
        tips.append((_FOOT + complex(_RADIUS * aside, -_LEVEL - 13 * (1 - out * out) + 15 * front), aside))
    return sorted(tips, key=lambda t: t[0].imag)


def _stalk(small: SmallUmbel, pen: Pen) -> None:
    """The end of the ray, which comes from the left."""
    foot, down = _FOOT, complex(-16, _HEIGHT - 6 - _FOOT.imag)
    right = [foot + 2.6, foot + 2.4 + down * 0.35 - 2.0, foot + 2.4 + down]
    left = [foot - 2.6 + down, foot - 2.6 + down * 0.35 - 2.0, foot - 2.6]
    pen.outline(right, [right[-1], (right[-1] + left[0]) / 2 + 1.4j, left[0]], left, [left[-1], foot + 1.6j, foot + 2.6])


def _pedicels(small: SmallUmbel, pen: Pen) -> None:
    for tip, aside in _tips():
        start = _FOOT + complex(1.8 * aside, -0.5)
        pen.bows([start, tip + 3j - aside * 2], 0.05 * aside * -1)


def _florets(small: SmallUmbel, pen: Pen) -> None:
    for centre, aside in _tips():
        _floret(pen, centre, aside)
    for centre, _ in _tips():
        for n in range(3):
            pen.stipple(centre + 1.9 * complex(cos(2.1 * n), 0.6 * sin(2.1 * n)))


def _floret(pen: Pen, centre: Point, aside: float) -> None:
    """A floret with its ovary below: five petals turned to the light, foreshortened."""
    below = centre + 4.6j - 2.2 * aside
    pen.bows([below - 1.7, centre - 2.6 + 1j, centre + 2.6 + 1j, below + 1.7], [0.16, 0.1, 0.16, 0.3], Weight.FINE, Fill.PAPER, closed=True)
    draw_floret(pen, centre, 13.5, 0.56)


# -- bracteoles --------------------------------------------------------------------------------------------
def _angles(number: int, side: str | None, stance: str | None) -> list[float]:
    """Where the bracteoles stand round the foot: 0 is right, a quarter turn towards the beholder, a half turn left. From back to front."""
    if number == 1:
        return [pi * 0.1 if side == "outer-side" else pi * 0.5]
    shares = [n / (number - 1) for n in range(number)]
    if stance == "bent-down":  # hanging, they are told apart by how far aside they are
        first, last = {"all-round": (1.0, -1.0), "outer-side": (1.0, 0.2)}.get(side or "", (0.6, -0.6))
        return sorted((acos(first + (last - first) * s) for s in shares), key=sin)
    first, last = {"all-round": (-0.2, pi + 0.2), "outer-side": (-0.5, pi * 0.42)}.get(side or "", (pi * 0.22, pi * 0.78))
    return sorted((first + (last - first) * s for s in shares), key=sin)


def _spines(small: SmallUmbel) -> list[tuple[Point, Point, Point]]:
    length = _LENGTHS.get(small.reach or "", _BETWEEN)
    spines = []
    for angle in _angles(small.bracteoles or 0, small.side, small.stance):
        right, front = cos(angle), sin(angle)
        foot = _FOOT + complex(2.6 * right, 1.4 * front)
        if small.stance == "bent-down":
            # as if let go: away from the foot, then hanging
            tip = foot + rect(length * (0.9 + 0.1 * abs(right)), pi / 2 - 0.62 * right)
            middle = (foot + tip) / 2 + complex(0.17 * right, -0.1 * abs(right)) * length
        elif small.stance == "spread-out":
            tip = foot + length * complex(right, 0.62 * front - 0.1)
            middle = (foot + tip) / 2 + complex(0, -0.05 * length)
        else:
            tip = foot + length * complex(0.8 * right, 0.5 * front + 0.22)
            middle = (foot + tip) / 2 + complex(0.04 * right, -0.04) * length
        spines.append((foot, middle, tip))
    return spines


def _half(small: SmallUmbel) -> float:
    """Half the width of a bracteole in units."""
    crowd = min(1.0, 9 / max(1, small.bracteoles or 0)) if (small.bracteoles or 0) <= 16 else 0.0
    length = _LENGTHS.get(small.reach or "", _BETWEEN)
    return {"strip": 1.7, "lance": 0.085 * length + 1.5, "three-forked": 0.9 / max(crowd, 0.5)}.get(small.outline or "", 2.6) * crowd


def _bracteoles(small: SmallUmbel, pen: Pen) -> None:
    spines = _spines(small)
    number = len(spines)
    fine = number > (4 if small.outline == "three-forked" and small.reach != "longer" else 14)
    crowd = min(1.0, (4 if small.side == "outer-side" else 7) / max(1, number))
    for spine in spines:
        draw_blade(pen, spine, _half(small), small.outline, Weight.FINE if fine else Weight.INNER, crowd)
    outer = max(spines, key=lambda s: s[2].real, default=(_FOOT, _FOOT, _FOOT))
    inner = min(spines, key=lambda s: s[2].real, default=(_FOOT, _FOOT, _FOOT))
    if small.bracteoles is not None:
        pen.point_to("bracteoles", _FOOT)
    if small.side:
        pen.point_to("side", _FOOT + complex(-9, 2) if small.side == "outer-side" else along(inner, 0.3)[0])
    if small.stance:
        pen.point_to("stance", along(outer, 0.75)[0])
    if small.reach:
        pen.point_to("reach", outer[2])
    if small.outline:
        pen.point_to("outline", along(spines[-1] if spines else outer, 0.6)[0])


def _midribs(small: SmallUmbel, pen: Pen) -> None:
    if small.outline == "lance" and _half(small) > 2.5:
        for spine in _spines(small):
            pen.curve([along(spine, share)[0] for share in (0.06, 0.4, 0.74)], Weight.FINE, steady=True)


def _fringe(small: SmallUmbel, pen: Pen) -> None:
    if small.fringe is None:
        return
    spines = _spines(small)
    pen.point_to("fringe", along(spines[0], 0.45)[0] if spines else _FOOT)
    if small.fringe == "bare":
        return
    half = _half(small)
    length = _LENGTHS.get(small.reach or "", _BETWEEN)
    many = max(2, min(7, 50 // max(1, len(spines)), round(length / 7)))
    crowd = min(1.0, 6 / max(1, len(spines)))
    for spine in spines:
        for n in range(many):
            share = 0.14 + 0.66 * (n + 0.5) / many
            place, way = along(spine, share)
            wide = half * (1 - 0.75 * max(0.0, share - 0.25)) if small.outline == "lance" else half
            for side in (-1, 1):
                root = place + way * 1j * side * wide
                pen.corner([root, root + rect((0.7 + 0.3 * crowd) * pen.between(2.4, 3.4), phase(way) + side * 1.1)], Weight.FINE)


_GEOMETRY = ("bracteoles", "side", "stance", "reach", "outline")

SMALL_UMBEL = Drawer(
    SmallUmbel,
    _WIDTH,
    _HEIGHT,
    (
        layer("stalk", _stalk),
        layer("pedicels", _pedicels),
        layer("florets", _florets),
        layer("bracteoles", _bracteoles, *_GEOMETRY),
        layer("midribs", _midribs, *_GEOMETRY),
        layer("fringe", _fringe, "fringe", *_GEOMETRY),
    ),
)
