"""The whole plant beside a person, both to one scale."""

from __future__ import annotations

from decimal import Decimal
from math import cos, sin

from twayblade.knowledge.pieces.plant import Plant
from twayblade.writing.drawing.pen import Fill, Pen, Point, Weight
from twayblade.writing.drawing.sketch import Drawer, layer

_WIDTH, _HEIGHT = 200, 216
_GROUND = 208.0
_ROOM = 200.0
_PERSON = Decimal(1700)
"""Height of the person in mm: a grown person, whole decimetres (common practice, no source)."""
_PERSON_AT, _PLANT_AT = 164.0, 72.0
_HEAD = 0.12
"""Share of the height that the flower head on the tallest stem takes."""
_FINE_FROM = 24.0
"""Length in units from which a divided leaf is drawn with its last divisions."""
_NEUTRAL = 150.0
"""Height in units of a plant of unknown height."""


def _scale(plant: Plant) -> float | None:
    if plant.height is None:
        return None
    return _ROOM / float(max(_PERSON, plant.frame or plant.height, plant.height))


def _tall(plant: Plant) -> float:
    scale = _scale(plant)
    return float(plant.height) * scale if plant.height is not None and scale else _NEUTRAL


_RIGHT_SIDE = (
    "0,0 .045,.02 .056,.065 .034,.118 .04,.15 .1,.172 .132,.22 .146,.36 .152,.49 .135,.52 .118,.48 .11,.36 .094,.28 "
    ".088,.38 .1,.5 .094,.72 .07,.955 .1,.985 .085,1 .03,1 .026,.78 0,.57"
)
"""The outline of a standing person from the crown to between the legs, in shares of the height."""


def _person(plant: Plant, pen: Pen) -> None:
    scale = _scale(plant)
    if scale is None:
        return
    tall = float(_PERSON) * scale
    half = [complex(*map(float, pair.split(","))) for pair in _RIGHT_SIDE.split()]
    other = [complex(-p.real, p.imag) for p in reversed(half[1:-1])]
    foot = complex(_PERSON_AT, _GROUND - tall)
    pen.curve([foot + p * tall for p in (*half, *other)], Weight.FINE, Fill.PAPER, closed=True, steady=True)


def _ground(plant: Plant, pen: Pen) -> None:
    pen.curve([complex(8, _GROUND), complex(60, _GROUND + 0.8), complex(130, _GROUND - 0.6), complex(194, _GROUND)], Weight.INNER)


def _stems(plant: Plant) -> list[list[Point]]:
    """The stems, each as points from the foot to the top; the first is the tallest."""
    tall = _tall(plant) * (1 - _HEAD)

    def stem(foot: float, lean: float, share: float) -> list[Point]:
        top = tall * share
        return [complex(_PLANT_AT + foot + lean * top * t * t + 0.018 * tall * sin(5 * t), _GROUND - top * t) for t in (0, 0.25, 0.5, 0.75, 1)]

    if plant.habit == "shrub":
        return [stem(0, 0.04, 1.0), stem(-3, -0.34, 0.82), stem(3, 0.4, 0.78)]
    return [stem(0, 0.03, 1.0)]


def _along(stem: list[Point], share: float) -> Point:
    place = share * (len(stem) - 1)
    n = min(int(place), len(stem) - 2)
    return stem[n] + (stem[n + 1] - stem[n]) * (place - n)


def _branches(plant: Plant) -> list[list[Point]]:
    """Side branches, each from its joint to its tip, which bears flowers."""
    tall, main = _tall(plant), _stems(plant)[0]
    made = []
    if plant.habit == "shrub":
        for stem in _stems(plant)[1:]:
            for share, side in ((0.42, -1), (0.6, 1)):
                start = _along(stem, share)
                made.append([start, start + complex(side * 0.06, -0.08) * tall, start + complex(side * 0.1, -0.2) * tall])
        return made
    for share, side, reach in ((0.56, -1, 0.27), (0.7, 1, 0.23), (0.8, -1, 0.14)):
        start = _along(main, share)
        tip = start + complex(side * 0.52, -0.95) * reach * tall
        made.append([start, start + complex(side * 0.36, -0.4) * reach * tall, tip])
    return made


def _stalks(plant: Plant, pen: Pen) -> None:
    tall = _tall(plant)
    thick = max(1.0, 0.011 * tall) if plant.habit != "shrub" else max(1.4, 0.017 * tall)
    for branch in _branches(plant):
        pen.curve(branch, Weight.INNER)
    for n, stem in enumerate(_stems(plant)):
        width = thick * (1 if n == 0 else 0.7)
        left = [p - width * (1 - 0.55 * i / (len(stem) - 1)) for i, p in enumerate(stem)]
        right = [p + width * (1 - 0.55 * i / (len(stem) - 1)) for i, p in enumerate(stem)]
        pen.outline(left, [left[-1], right[-1]], list(reversed(right)), weight=Weight.INNER)
    if plant.height is not None:
        pen.point_to("height", complex(_PLANT_AT, _GROUND - tall * 0.5))
    if plant.habit:
        pen.point_to("habit", _along(_stems(plant)[0], 0.12))
    if plant.habit == "shrub":
        for stem in _stems(plant)[:3]:
            for share in (0.1, 0.2, 0.3):
                at = _along(stem, share)
                pen.line(at - thick * 0.4, at + complex(0, -0.035 * tall) - thick * 0.3, Weight.FINE)


def _leaves(plant: Plant, pen: Pen) -> None:
    if plant.leaves is None and plant.blade is None:
        return
    tall = _tall(plant)
    shrub = plant.habit == "shrub"
    stems = _stems(plant) if shrub else _stems(plant)[:1]
    shares = (0.45, 0.8) if shrub else (0.08, 0.24, 0.42, 0.6)
    for stem in stems:
        for n, share in enumerate(shares):
            size = (0.15 if shrub else 0.25 - 0.15 * share) * tall
            sides = {"one": (-1,) if n % 2 else (1,), "pair": (-1, 1), "ring": (-1, 1, 0)}.get(plant.leaves or "one", (1,))
            for side in sides:
                _leaf(plant.blade, _along(stem, share), side, size, size > _FINE_FROM and not shrub and plant.leaves != "ring", pen)
    places = [_along(stems[0], shares[1]), _along(stems[0], shares[-1])]
    if plant.leaves:
        pen.point_to("leaves", places[1])
    if plant.blade:
        pen.point_to("blade", places[0] + complex(-0.13 if not shrub else 0.08, -0.03) * tall)


def _leaf(blade: str | None, start: Point, side: int, size: float, is_fine: bool, pen: Pen) -> None:
    """A leaf from its joint outwards: whole, divided (finely, if there is room), or of unknown blade (its midrib alone)."""
    lift = 0.5 if side else 1.25
    tip = start + size * complex(side * cos(lift) if side else 0.25, -sin(lift))
    middle = start + (tip - start) * 0.55 + complex(0, -0.1 * size)
    if blade != "whole":
        pen.curve([start, middle, tip], Weight.FINE)
    along = (tip - start) / abs(tip - start)
    across = along * 1j
    if blade == "whole":
        pen.lens(start, tip, size * 0.24, Weight.FINE, Fill.PAPER)
        pen.corner([start, start + (tip - start) * 0.9], Weight.FINE)
    elif blade == "divided":
        for n, share in enumerate((0.32, 0.52, 0.71, 0.87)):
            root = start + (middle - start) * (share / 0.55) if share < 0.55 else middle + (tip - middle) * ((share - 0.55) / 0.45)
            reach = size * (0.33 - 0.06 * n)
            for turn in (1, -1):
                end = root + reach * (along * 0.6 + turn * across * 0.8)
                pen.corner([root, end], Weight.FINE)
                for s, r in ((0.5, 0.34), (0.78, 0.22)) if is_fine else ():
                    twig = root + (end - root) * s
                    for t in (0.9, -0.9):
                        direction = (end - root) / abs(end - root) * complex(cos(t), sin(t))
                        pen.corner([twig, twig + reach * r * direction], Weight.FINE)


def _clusters(plant: Plant, pen: Pen) -> None:
    if plant.cluster is None:
        return
    tall = _tall(plant)
    main, *others = _stems(plant)
    tips = [(main[-1], main[-1] - main[-2], _HEAD * 1.15), *((b[-1], b[-1] - b[-2], 0.1) for b in _branches(plant))]
    tips += [(s[-1], s[-1] - s[-2], 0.11) for s in others]
    for tip, direction, share in tips:
        _HEADS[plant.cluster](tip, direction / abs(direction), share * tall, pen)
    pen.point_to("cluster", main[-1])


def _umbel(tip: Point, up: Point, size: float, pen: Pen) -> None:
    for n in range(-3, 4):
        ray = tip + size * 0.8 * up * complex(cos(n * 0.3), sin(n * 0.3))
        pen.corner([tip, ray], Weight.FINE)
        out = (ray - tip) / abs(ray - tip)
        small = size * 0.17
        pen.curve([ray - out * 1j * small, ray + out * small * 0.55, ray + out * 1j * small], Weight.INNER)


def _froth(tip: Point, up: Point, size: float, pen: Pen) -> None:
    for n in range(-2, 3):
        pen.curve([tip - up * size * 0.1, tip + size * complex(n * 0.1, -0.2), tip + size * complex(n * 0.2, -0.35 - 0.05 * (n % 2))], Weight.FINE)
    for n in range(30):
        angle, away = 2.4 * n, size * 0.5 * (n / 30) ** 0.5
        pen.stipple(pen.near(tip + up * size * 0.38 + away * complex(cos(angle) * 0.85, sin(angle)), size * 0.04), Weight.OUTLINE)


def _heads(tip: Point, up: Point, size: float, pen: Pen) -> None:
    for n in range(-3, 4):
        foot = tip - up * size * 0.12 * (3 - abs(n))
        end = complex(tip.real + n * size * 0.16, (tip + up * size * 0.35).imag + abs(n) * size * 0.02)
        pen.bows([foot, end], -0.07 if n < 0 else 0.07, Weight.FINE)
        pen.lens(end - size * 0.08, end + size * 0.08, size * 0.12, Weight.INNER, Fill.PAPER)


def _plate(tip: Point, up: Point, size: float, pen: Pen) -> None:
    for n in range(-2, 3):
        end = complex(tip.real + n * size * 0.2, tip.imag - size * 0.35 + abs(n) * size * 0.03)
        pen.curve([tip, (tip + end) / 2 + complex(n * size * 0.02, 0), end], Weight.FINE)
        for m in range(-2, 3):
            pen.stipple(pen.near(end + complex(m * size * 0.06, -size * 0.04), size * 0.02), Weight.OUTLINE)


def _spike(tip: Point, up: Point, size: float, pen: Pen) -> None:
    for n in range(9):
        at = tip - up * size * 0.2 * n
        reach = size * (0.05 + 0.02 * n)
        for side in (-1, 1):
            pen.lens(at, at + up * 1j * side * reach + up * reach * 0.5, reach * 0.4, Weight.FINE)


_HEADS = {"compound-umbel": _umbel, "frothy-panicle": _froth, "corymb-of-heads": _heads, "flat-cyme": _plate, "spike": _spike}

_SHAPE = ("height", "frame", "habit")

PLANT = Drawer(
    Plant,
    _WIDTH,
    _HEIGHT,
    (
        layer("ground", _ground),
        layer("person", _person, "height", "frame"),
        layer("leaves", _leaves, "leaves", "blade", *_SHAPE),
        layer("stalks", _stalks, *_SHAPE),
        layer("clusters", _clusters, "cluster", *_SHAPE),
    ),
    _scale,
)
