"""One flower from the side, its near half taken away: the levels of style and stamens."""

from __future__ import annotations

from functools import partial

from twayblade.knowledge.pieces.flower import FlowerTube
from twayblade.writing.drawing.lines import circle, dashed
from twayblade.writing.drawing.pen import Fill, Pen, Point, Weight
from twayblade.writing.drawing.sketch import Drawer, layer

_WIDTH, _HEIGHT = 140, 200
_MIDDLE = 70.0
_FOOT, _RIM = 186.0, 108.0
_LEVELS = {"low": 136.0, "mid": 82.0, "high": 34.0}
"""Height of the three levels: inside the tube, just out of it, far out of it. Style and stamens share them."""
_SETS: dict[str, tuple[str, str]] = {"low-and-mid": ("low", "mid"), "low-and-high": ("low", "high"), "mid-and-high": ("mid", "high")}
_PLACES = ((-17.0, -5.5, 15.0), (-11.5, 9.5, 20.5))
"""Where the stamens of the shorter and of the longer set end, aside from the middle: half of each set, the other half is cut away."""
_WIDEN = {"low": 0.85, "mid": 1.15, "high": 1.55}
"""How far the stamens of a level lean apart."""


def _half(y: float) -> float:
    """Half the width of the tube at a height."""
    up = (_FOOT - y) / (_FOOT - _RIM)
    return 11.0 + 15.0 * float(min(1.0, max(0.0, up)) ** 0.8)


def _wall(side: int, up: float) -> Point:
    """The wall of the tube at a share of its height, left (-1) or right (1)."""
    y = _FOOT - up * (_FOOT - _RIM)
    return complex(_MIDDLE + side * _half(y), y)


def _calyx(flower: FlowerTube, pen: Pen) -> None:
    if flower.calyx:
        pen.point_to("calyx", complex(_MIDDLE - 24, 124) if flower.calyx == "tube" else complex(_MIDDLE - 14, 170))
    for aside in (-2.4, 2.4):
        pen.corner([complex(_MIDDLE + aside, _FOOT), complex(_MIDDLE + aside, _FOOT + 9)])
    if flower.calyx is None:
        for side in (-1, 1):
            dashed(pen, partial(_wall, side), 12)
    elif flower.calyx == "tube":
        _tube(pen)
    else:
        _tiny(pen)


def _tube(pen: Pen) -> None:
    """The far wall with its ribs, the cut edges left and right, and teeth long and short in turn."""
    heights = [_RIM, 122.0, 142.0, 164.0, 179.0, _FOOT]
    rim = [complex(_MIDDLE - _half(_RIM), _RIM), complex(_MIDDLE, _RIM - 4), complex(_MIDDLE + _half(_RIM), _RIM)]
    for n in range(5):
        aside = (n - 2) * 0.44
        foot = complex(_MIDDLE + aside * _half(_RIM), _RIM - 3.4 * (1 - aside * aside))
        if n % 2 == 0:
            lean = aside * 9
            pen.curve([foot - 2.4, foot + complex(lean * 0.5 - 1.0, -9), foot + complex(lean, -17)], Weight.INNER)
            pen.curve([foot + 2.4, foot + complex(lean * 0.5 + 1.2, -9), foot + complex(lean, -17)], Weight.INNER)
        else:
            pen.corner([foot - 6, foot + complex(aside * 2, -5.5), foot + 6], Weight.INNER)
    right = [complex(_MIDDLE + _half(y), y) for y in heights]
    left = [complex(_MIDDLE - _half(y), y) for y in reversed(heights)]
    pen.outline(rim, right, [right[-1], complex(_MIDDLE, _FOOT + 4), left[0]], left)
    for side in (-1, 1):
        pen.curve([complex(_MIDDLE + side * (_half(y) - 3.6), y) for y in (_RIM - 0.8, 122.0, 142.0, 164.0, 177.0)], Weight.FINE)
    for aside in (-0.55, -0.2, 0.2, 0.55):
        pen.curve([complex(_MIDDLE + aside * _half(y), y) for y in (_RIM + 2.0, 118.0, 130.0)], Weight.FINE)


def _tiny(pen: Pen) -> None:
    """A shallow cup with the smallest teeth on its rim."""
    cup = [complex(_MIDDLE + x, y) for x, y in ((-15, 170), (-13, 180), (-7, 186), (0, 188), (7, 186), (13, 180), (15, 170))]
    pen.outline(cup, [cup[-1], complex(_MIDDLE, 173), cup[0]])
    for side in (-1, 1):
        for x in (15.0, 8.0):
            foot = complex(_MIDDLE + side * x, 170 + (15 - x) * 0.25)
            pen.corner([foot - side * 2.6, foot + complex(side * 1.5, -4.5), foot + side * 1.2])


def _petals(flower: FlowerTube, pen: Pen) -> None:
    """The petals at the cut edges, from their edge, in light lines: neither their number nor their length is shown."""
    foot = complex(_half(_RIM), _RIM) if flower.calyx != "tiny" else 15 + 170j
    for side in (-1, 1):
        for way in (((0, 0), (8, -4), (19, -6), (29, -12), (35, -12)), ((0, 1), (10, -1), (21, -1), (31, -5), (35, -12))):
            pen.curve([complex(_MIDDLE + side * (foot.real + x), foot.imag + y) for x, y in way], Weight.FINE)


def _levels(flower: FlowerTube, pen: Pen) -> None:
    """A mark at both sides of each level, so that an empty one shows."""
    if not flower.style and not flower.stamens:
        return
    for y in _LEVELS.values():
        for start in (4.0, _WIDTH - 16.0):
            pen.corner([complex(start, y), complex(start + 12, y)], Weight.FINE)


def _ovary(flower: FlowerTube, pen: Pen) -> None:
    if flower.style:
        body = [complex(_MIDDLE + x, y) for x, y in ((0, 155), (5.5, 160), (7.5, 169), (5.5, 178), (0, 181), (-5.5, 178), (-7.5, 169), (-5.5, 160))]
        pen.curve(body, Weight.INNER, Fill.PAPER, closed=True)


def _style(flower: FlowerTube, pen: Pen) -> None:
    """The style ends in a round stigma at its level."""
    if not flower.style:
        return
    tip = complex(_MIDDLE + 2, _LEVELS[flower.style])
    pen.point_to("style", tip)
    foot = complex(_MIDDLE, 156)
    pen.curve([foot - 0.2, foot + (tip - foot) * 0.35 - 1.2, foot + (tip - foot) * 0.7 - 0.3, tip], Weight.OUTLINE)
    pen.curve(circle(tip - 1j, 4.6, 8), Weight.OUTLINE, Fill.PAPER, closed=True, steady=True)


def _stamens(flower: FlowerTube) -> list[tuple[list[Point], bool]]:
    """The way of each filament from its foot to its anther, and whether it is of the longer set."""
    if not flower.stamens:
        return []
    made = []
    for is_longer, level in enumerate(_SETS[flower.stamens]):
        y = _LEVELS[level]
        for n, aside in enumerate(_PLACES[is_longer]):
            tip = complex(_MIDDLE + aside * _WIDEN[level], y + (0.0, 4.0, -3.0)[n])
            foot = complex(_MIDDLE + aside * 0.62, 172 - abs(aside) * 0.5)
            throat = min(_RIM + 6, y + 0.45 * (foot.imag - y))
            middle = complex(_MIDDLE + aside * (0.8 if y < _RIM else 0.75), throat if y < _RIM else (y + foot.imag) / 2)
            made.append(([foot, middle, tip + 0.35 * (middle - tip) + aside * 0.05, tip], bool(is_longer)))
    return made


def _apart(flower: FlowerTube) -> list[tuple[list[Point], bool]]:
    """Two stamens by themselves, where their levels are not said but something else of them is."""
    if flower.stamens or not (flower.pollen or flower.filaments):
        return []
    return [
        ([complex(118, 196), complex(116, 172), complex(119, 152), complex(118, 136)], False),
        ([complex(129, 196), complex(131, 160), complex(127, 120), complex(130, 92)], True),
    ]


def _filaments(flower: FlowerTube, pen: Pen) -> None:
    if flower.filaments and (ways := _stamens(flower) + _apart(flower)):
        pen.point_to("filaments", ways[-1][0][2])
    for way, is_longer in _stamens(flower) + _apart(flower):
        if is_longer and flower.filaments == "longest-dark":
            for shift in (-1.3, 1.3):
                pen.curve([p + shift for p in way], Weight.INNER, steady=True)
        else:
            pen.curve(way, Weight.INNER, steady=True)


def _anthers(flower: FlowerTube, pen: Pen) -> None:
    ways = _stamens(flower) + _apart(flower)
    if flower.stamens:
        pen.point_to("stamens", ways[0][0][-1])
    if flower.pollen:
        pen.point_to("pollen", ways[-1][0][-1])
    for number, (way, is_longer) in enumerate(ways):
        dark = is_longer and flower.pollen == "longest-dark"
        _anther(pen, way[-1], (0.5, -0.4, 0.25)[number % 3], Fill.INK if dark else Fill.PAPER)


def _anther(pen: Pen, place: Point, turn: float, fill: Fill) -> None:
    """A bean, fixed at its middle."""
    axis = complex(1, turn) / abs(complex(1, turn))
    bean = [(-5.2, 0.6), (-3.4, -2.4), (0, -1.8), (3.4, -2.4), (5.2, 0.6), (2.6, 2.6), (-2.6, 2.6)]
    pen.curve([place + axis * complex(x, y) for x, y in bean], Weight.INNER, fill, closed=True, steady=True)


FLOWER_TUBE = Drawer(
    FlowerTube,
    _WIDTH,
    _HEIGHT,
    (
        layer("levels", _levels, "style", "stamens"),
        layer("petals", _petals, "calyx"),
        layer("calyx", _calyx, "calyx"),
        layer("filaments", _filaments, "stamens", "filaments", "pollen"),
        layer("ovary", _ovary, "style"),
        layer("style", _style, "style"),
        layer("stamens", _anthers, "stamens", "pollen", "filaments"),
    ),
)
