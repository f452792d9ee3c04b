"""What is under the ground."""

from __future__ import annotations

from cmath import rect

from twayblade.knowledge.pieces.plant import Root
from twayblade.writing.drawing.pen import Fill, Pen, Point, Weight
from twayblade.writing.drawing.sketch import Drawer, layer

_WIDTH, _HEIGHT = 160, 160
_MIDDLE = 80.0
_GROUND = 42.0


def _surface(x: float) -> float:
    """Height of the ground."""
    return _GROUND + 1.2 * ((x / 37) % 2 - 1) ** 2


def _ground(root: Root, pen: Pen) -> None:
    """A line of ground, broken where the plant stands, with a few short strokes of earth below it."""
    for start, end in ((4, 64), (97, 156)):
        pen.curve([complex(x, _surface(x)) for x in (start, start + (end - start) / 3, start + (end - start) * 0.7, end)], Weight.OUTLINE)
    for x in (8, 17, 29, 38, 50, 108, 120, 129, 141, 150):
        place = pen.near(complex(x, _GROUND + 6), 1.5)
        pen.corner([place, place + complex(5, 1)], Weight.FINE)
        if x % 3:
            place = pen.near(complex(x + 4, _GROUND + 11), 1.5)
            pen.corner([place, place + complex(4, 0.5)], Weight.FINE)


def _shoot(pen: Pen, foot: Point, half: float, tall: float, lean: float = 0.0) -> None:
    """The foot of a stem, cut off above."""
    top = foot + complex(lean, -tall)
    pen.outline(
        [foot + half * 1.15, foot + complex(lean * 0.5 + half, -tall * 0.5), top + half],
        [top + half, top - 1.2j, top - half],
        [top - half, foot + complex(lean * 0.5 - half, -tall * 0.5), foot - half * 1.15],
    )
    pen.curve([top - half, top + half * 0.3j + 0.3, top + half], Weight.FINE, steady=True)


def _thread(pen: Pen, start: Point, angle: float, long: float, weight: Weight = Weight.INNER) -> None:
    """A rootlet: it wanders a little and turns down."""
    points = [start]
    steps = 4
    for _ in range(steps):
        angle += (1.57 - angle) * 0.18 + pen.between(-0.2, 0.2)
        points.append(points[-1] + rect(long / steps, angle))
    pen.curve(points, weight, steady=True)


def _form(root: Root, pen: Pen) -> None:
    if root.form is None:
        _shoot(pen, complex(_MIDDLE, _GROUND + 4), 5, 36)
        return
    place = {
        "taproot": complex(85, 96),
        "tubers": complex(62, 100),
        "round-tuber": complex(88, 118),
        "rhizome": complex(112, 86),
        "rootstock": complex(80, 76),
    }[root.form]
    pen.point_to("form", place)
    {"taproot": _taproot, "tubers": _tubers, "round-tuber": _round_tuber, "rhizome": _rhizome, "rootstock": _rootstock}[root.form](pen)


def _taproot(pen: Pen) -> None:
    """One main root, tapering, with wrinkles across and thin side roots."""
    sides = [(-6.5, 45), (-10.2, 50), (-11, 59), (-8.5, 76), (-6, 98), (-3.8, 120), (-2.4, 138)]
    threads = [(-8.8, 74.0, 2.6), (7.2, 88, 0.6), (-5.4, 102, 2.5), (4.4, 112, 0.7), (-2.8, 125, 2.4), (8.8, 70, 0.5)]
    for x, y, angle in threads:
        _thread(pen, complex(_MIDDLE + x, y), angle, 30 - 0.1 * (y - 60))
    left = [complex(_MIDDLE + x, y) for x, y in sides]
    right = [complex(_MIDDLE - x + (0.6 if n % 2 else -0.4), y) for n, (x, y) in enumerate(sides)]
    tip = complex(_MIDDLE + 3, 156)
    pen.outline(
        [*left, complex(_MIDDLE + 0.2, 147), tip], [tip, complex(_MIDDLE + 3.2, 147), *reversed(right)], [right[0], complex(_MIDDLE, 43), left[0]]
    )
    for n, y in enumerate((53.0, 58.5, 64, 71, 80, 90, 103, 117)):
        half = 10.5 - 0.105 * (y - 50)
        side = 1 if n % 2 else -1
        start = complex(_MIDDLE + side * half * 0.95, y)
        pen.curve([start, start + complex(-side * half * 0.45, 1.2), start + complex(-side * half * (0.8 if n % 3 else 1.2), 0.6)], Weight.FINE)
    _shoot(pen, complex(_MIDDLE, 46), 6.5, 38)


def _tubers(pen: Pen) -> None:
    """Several thick spindles side by side, each drawn out to a thread."""
    top = complex(_MIDDLE, 50)
    for lean, long in ((-0.76, 88), (0.8, 85), (-0.38, 99), (0.42, 97), (0.02, 105)):
        axis = rect(1, 1.57 - lean)
        start = top + lean * 8
        bend = lean * 0.12j

        def at(along: float, aside: float, start: Point = start, axis: Point = axis, long: float = long, bend: Point = bend) -> Point:
            return start + axis * complex(along * long, aside) + axis * bend * long * along * along

        right = [at(0, 2), at(0.14, 3.4), at(0.32, 8.6), at(0.5, 10), at(0.68, 6.6), at(0.84, 2), at(1, 0)]
        left = [at(1, 0), at(0.84, -2), at(0.68, -6.6), at(0.5, -10), at(0.32, -8.6), at(0.14, -3.4), at(0, -2)]
        pen.outline(right, left)
        for along in (0.4, 0.52, 0.63):
            reach = pen.between(0.3, 0.7)
            pen.curve([at(along, 6.5), at(along + 0.012, 3), at(along, -6 * reach)], Weight.FINE)
    for angle, x in ((2.7, -6), (0.45, 6)):
        _thread(pen, top + x - 1, angle, 34)
    _shoot(pen, complex(_MIDDLE, 53), 7.5, 45)
    pen.curve([complex(_MIDDLE - 7.6, 51), complex(_MIDDLE, 53.4), complex(_MIDDLE + 7.6, 51)], Weight.FINE)


def _round_tuber(pen: Pen) -> None:
    """One round tuber, deep, on a thin winding stalk."""
    centre = complex(_MIDDLE + 6, 118)
    for shift in (-1.7, 1.7):
        pen.curve([complex(_MIDDLE + x + shift, y) for x, y in ((0, 45), (-3.5, 60), (-1, 76), (4, 90), (4, 102))], Weight.INNER, steady=True)
    for angle, start in ((2.5, -17 + 6j), (0.7, 17 + 5j), (1.9, -9 + 15j), (1.3, 7 + 16j), (3.0, -18 - 5j), (0.2, 18 - 4j)):
        _thread(pen, centre + start, angle, 20, Weight.FINE)
    ball = [(-1, -17), (9, -16), (17.5, -8), (19, 3), (13, 14), (1, 17.5), (-11, 15), (-18.5, 5), (-17.5, -8), (-9, -15.5)]
    pen.curve([centre + complex(x, y) for x, y in ball], Weight.OUTLINE, Fill.PAPER, closed=True)
    for x, y, long in ((8, 4, 7), (5, 9, 8), (10, -2, 5), (-12, 3, 4), (-9, 9, 5), (-4, -8, 4), (3, -5, 3)):
        place = centre + complex(x, y)
        pen.curve([place, place + complex(long / 2, 1.2), place + complex(long, 0)], Weight.FINE)
    _shoot(pen, complex(_MIDDLE, 46), 3.6, 38)


def _rhizome(pen: Pen) -> None:
    """A shoot that runs sideways, with joints and scales, roots below and stems above."""
    spine = [(6.0, 73.0), (30.0, 75.5), (55.0, 72.0), (82.0, 70.0), (108.0, 73.0), (132.0, 71.0), (146.0, 65.0)]
    for x, angle in ((16.0, 1.9), (19, 1.3), (40, 1.8), (43, 1.2), (68, 1.9), (71, 1.4), (96, 1.8), (98, 1.2), (121, 1.7), (123, 1.2)):
        _thread(pen, complex(x, 76), angle, pen.between(26, 44), Weight.INNER)
    top = [complex(x, y - 5) for x, y in spine]
    low = [complex(x, y + 5) for x, y in reversed(spine[:-1])]
    tip = complex(154, 57)
    broken = [low[-1], complex(9, 75), complex(4, 72), top[0]]
    for x, lean, tall in ((30.0, -3.0, 46.0), (118.0, 4.0, 44)):
        _shoot(pen, complex(x, 72), 3.4, tall + 16, lean)
    _shoot(pen, complex(_MIDDLE, 70), 5, 62)
    pen.outline([*top, tip], [tip, complex(150, 68), *low], broken)
    for x, y in ((18, 74.5), (42, 74), (56, 72), (69, 71), (95, 71.5), (106, 73), (122, 72), (137, 69)):
        pen.curve([complex(x, y - 5), complex(x + 2.2, y), complex(x, y + 5)], Weight.INNER)
    for left in (42.0, 95.0, 137.0):
        pen.curve([complex(left, 66), complex(left + 6, 63.5), complex(left + 11, 66.5)], Weight.FINE)


def _rootstock(pen: Pen) -> None:
    """A thick knotty foot of wood, from which many stems rise; its roots are thin against it."""
    for x, lean, tall in ((46.0, -11.0, 41.0), (58, -7, 46), (70, -2, 50), (83, 3, 50), (97, 7, 46), (112, 12, 40)):
        _shoot(pen, complex(x, 62), 3.6, tall, lean)
    for x, y, angle, long in (
        (40.0, 80.0, 2.6, 34.0),
        (122, 80, 0.5, 36),
        (50, 90, 2.2, 44),
        (110, 88, 0.9, 46),
        (62, 94, 1.9, 50),
        (76, 98, 1.7, 40),
        (88, 96, 1.4, 52),
        (100, 96, 1.1, 38),
    ):
        _thread(pen, complex(x, y), angle, long)
    foot = [(34, 74), (36, 64), (42, 58), (52, 59), (64, 56), (77, 59), (90, 55), (104, 58), (117, 57), (124, 65), (127, 76)]
    foot += [(121, 86), (110, 91), (99, 100), (86, 98), (72, 101), (60, 94), (48, 92), (40, 84)]
    pen.curve([complex(x, y) for x, y in foot], Weight.OUTLINE, Fill.PAPER, closed=True)
    for x, y, wide in ((52.0, 70.0, 22.0), (84, 66, 24), (112, 70, 18), (66, 78, 26), (100, 79, 24), (56, 86, 14), (84, 90, 22), (76, 72, 10)):
        pen.curve([complex(x - wide / 2, y + 2), complex(x - wide / 5, y - 1), complex(x + wide / 4, y), complex(x + wide / 2, y + 3)], Weight.FINE)
    for size in (1.0, 0.45):
        knot = [complex(92 + 5 * size * x, 73 + 3.4 * size * y) for x, y in ((-1, 0), (0, -1), (1, 0), (0, 1))]
        pen.curve(knot, Weight.FINE, closed=True)


ROOT = Drawer(Root, _WIDTH, _HEIGHT, (layer("ground", _ground), layer("form", _form, "form")))
