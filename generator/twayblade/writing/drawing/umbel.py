"""A compound umbel."""

from __future__ import annotations

from cmath import phase, rect
from collections.abc import Sequence
from math import cos, pi, sin, sqrt

from twayblade.knowledge.pieces.head import Umbel
from twayblade.writing.drawing.bract import along, draw_blade
from twayblade.writing.drawing.florets import cap_centre, draw_cap
from twayblade.writing.drawing.lines import broken
from twayblade.writing.drawing.pen import Fill, Pen, Point, Weight
from twayblade.writing.drawing.rays import FOOT, HALF, SEAT, bow_of, spread_rays
from twayblade.writing.drawing.sketch import Drawer, layer

_WIDTH, _HEIGHT = 220, 200
_RIM_LEVEL = 84.0
"""Height of the tips of the outermost rays."""


def _size(number: int) -> float:
    """Radius of a small umbel in units, by the number of rays."""
    return min(16.0, 48 / sqrt(number)) if number else 17.0


# -- rays --------------------------------------------------------------------------------------------------
def _stalk(umbel: Umbel, pen: Pen) -> None:
    left, right = FOOT - SEAT, FOOT + SEAT
    down = complex(0, _HEIGHT - 5 - FOOT.imag)
    pen.outline(
        [right, right - 0.7 + down * 0.4, right - 0.6 + down],
        [right - 0.6 + down, FOOT + down + 1.4j, left + 0.6 + down],
        [left + 0.6 + down, left + 0.7 + down * 0.4, left],
        [left, FOOT + 2j, right],
    )


def _draw_rays(umbel: Umbel, pen: Pen) -> None:
    if umbel.rays is None:
        _draw_stub(pen)
        return
    rays = spread_rays(umbel.rays)
    half = min(1.7, 16 / umbel.rays) if umbel.rays else 0.0
    for ray in sorted(rays, key=lambda r: r.front):
        start, _, tip = ray.spine
        if half < 1.4:
            # where many meet, some end a little short, or the foot would be one blot
            pen.bows(
                [along(ray.spine, pen.between(0.0, 0.07))[0] if umbel.rays > 16 else start, tip],
                bow_of(ray),
                Weight.INNER if umbel.rays < 20 else Weight.FINE,
            )
        else:
            aside = (tip - start) * 1j / abs(tip - start) * half
            pen.bows([start - aside, tip - aside * 0.6, tip + aside * 0.6, start + aside], [bow_of(ray), 0.0, -bow_of(ray)], Weight.INNER, Fill.PAPER)
    pen.point_to("rays", along(rays[0].spine, 0.6)[0] if rays else FOOT - 6j)


def _draw_stub(pen: Pen) -> None:
    """The reach of an umbel whose rays are not known, in a broken line: no ray and no small umbel that can be counted."""
    middle = complex(FOOT.real, _RIM_LEVEL - 4)
    for side in (-1, 1):
        knee = (FOOT + middle + HALF * side) / 2 + complex(4 * side, 5)
        start, end = FOOT + SEAT * side, middle + HALF * side
        broken(pen, [(1 - t) ** 2 * start + 2 * t * (1 - t) * knee + t * t * end for t in (n / 12 for n in range(13))])
    broken(pen, [middle + complex(-HALF * cos(a), -(34 if a < pi else 13) * sin(a)) for a in (pi * n / 24 for n in range(49))])


# -- small umbels ------------------------------------------------------------------------------------------
def _draw_umbellets(umbel: Umbel, pen: Pen) -> None:
    number = umbel.rays or 0
    size = _size(number)
    for ray in sorted(spread_rays(number), key=lambda r: r.tip.imag):
        with pen.together():
            draw_cap(pen, ray.tip, size * pen.between(0.93, 1.07), _lobes(number), ray.lean)


def _lobes(number: int) -> int:
    """How many florets are told apart along the edge of a small umbel: the more rays, the fewer."""
    return next((lobes for most, lobes in ((9, 10), (15, 8), (28, 6), (50, 5), (75, 3)) if number <= most), 2)


# -- what is drawn on them ---------------------------------------------------------------------------------
_PETALS = {"equal": (0.34, 0.0), "slightly-larger": (0.58, 0.12), "much-larger": (0.85, 0.28)}
"""Length of an outer petal against the radius of its small umbel, and the depth of its notch."""


def _draw_rim(umbel: Umbel, pen: Pen) -> None:
    if umbel.rim_petals is None:
        return
    reach, notch = _PETALS[umbel.rim_petals]
    if umbel.rays is None:
        for n in range(13):
            way = rect(1, pi * n / 12)
            foot = complex(FOOT.real + HALF * way.real, _RIM_LEVEL - 4 + 16 * way.imag)
            _petal(pen, foot, complex(way.real, 0.85 * way.imag), 15 * reach, notch)
        pen.point_to("rim-petals", complex(FOOT.real + HALF, _RIM_LEVEL - 4))
        return
    size = _size(umbel.rays)
    rays = spread_rays(umbel.rays)
    seen = [r for r in rays if r.front > -0.15 or abs(r.lean) > 0.8] or rays
    rim = sorted(seen, key=lambda r: -r.out)[:8]
    for ray in sorted(rim, key=lambda r: r.tip.imag):
        centre = cap_centre(ray.tip, size, ray.lean)
        out = complex(ray.lean * 1.3, 0.3 + 0.5 * max(0.0, ray.front))
        for turn in (-0.7, 0.7, 0.0) if umbel.rays <= 14 else (-0.4, 0.4):
            way = rect(1, phase(out) + turn)
            if way.real * ray.lean < -0.1:
                continue  # it would point to the middle
            foot = centre + complex(way.real * size * 0.82, way.imag * size * 0.42)
            _petal(pen, foot, complex(way.real, way.imag * 0.85), size * reach, notch)
    pen.point_to("rim-petals", cap_centre(rim[0].tip, size, rim[0].lean) + rim[0].lean * size if rim else complex(FOOT.real, _RIM_LEVEL))


def _petal(pen: Pen, foot: Point, way: Point, length: float, notch: float) -> None:
    """A petal, notched at its tip."""
    left, right = foot + way * length * (0.8 - 0.42j), foot + way * length * (0.8 + 0.42j)
    tip = foot + way * length * (1 - notch)
    pen.bows([foot, left, tip, right], [0.12, 0.3, 0.3, 0.12], Weight.FINE, Fill.PAPER, closed=True)


def _draw_dark_flower(umbel: Umbel, pen: Pen) -> None:
    if umbel.dark_flower is None:
        return
    number = umbel.rays or 0
    middle = min(spread_rays(number), key=lambda r: abs(r.lean) + 0.4 * abs(r.front), default=None)
    place = middle.tip - _size(number) * 1.0j if middle else complex(FOOT.real, _RIM_LEVEL - 22)
    pen.point_to("dark-flower", place)
    if umbel.dark_flower == "one":
        around = [place + 2.9 * complex(cos(a), 0.8 * sin(a)) for a in (0.3 + 2 * pi * n / 5 for n in range(5))]
        pen.bows(around, 0.5, Weight.FINE, Fill.INK, closed=True)


_HAIRS = {"some": (3.2, 4), "bristles": (3.6, 6), "down": (1.7, 12)}
"""Length of a hair in units, and how many stand along one side of a ray while there are few rays."""


def _draw_hairs(umbel: Umbel, pen: Pen) -> None:
    if umbel.ray_hairs is None:
        return
    rays = spread_rays(umbel.rays or 0)
    pen.point_to("ray-hairs", along(rays[-1].spine, 0.5)[0] if rays else FOOT - 8j)
    if umbel.ray_hairs == "none":
        return
    length, many = _HAIRS[umbel.ray_hairs]
    many = max(1, min(many, 44 // max(1, len(rays))))
    edge = min(1.7, 16 / max(1, len(rays)))
    edge = edge if edge >= 1.4 else 0.0
    for ray in rays[:: 1 + len(rays) // 21]:
        for n in range(many):
            for side in (-1, 1):
                share = 0.3 + 0.55 * (n + pen.between(0.2, 0.8)) / many
                place, way = along(ray.spine, share)
                root = place + way * 1j * side * edge * (1 - 0.4 * share)
                tip = root + rect(length * pen.between(0.8, 1.15), side * pen.between(0.95, 1.35)) * way
                if umbel.ray_hairs == "some":
                    pen.bows([root, tip], 0.16 * side, Weight.FINE)
                else:
                    pen.corner([root, tip], Weight.FINE)


# -- bracts ------------------------------------------------------------------------------------------------
def _bract_spines(number: int, stance: str | None, length: float) -> list[tuple[Point, Point, Point]]:
    """Bracts from left to right round the front of the foot."""
    spines = []
    for n in range(number):
        aside = (2 * n + 1) / number - 1
        foot = FOOT + complex(SEAT * aside, 1.8 * (1 - aside * aside))
        if stance == "along-rays":
            tip = foot + rect(length, aside * 0.98 - pi / 2)
            middle = (foot + tip) / 2 + 0.05 * length * complex(aside, abs(aside))
        elif stance == "turned-down":
            out = aside * (1.15 if length < 40 else 1.45)
            tip = foot + rect(length * (0.78 + 0.22 * abs(aside)), pi / 2 - out)
            middle = (foot + tip) / 2 + length * complex(0.2 * aside, -0.16 * abs(aside))
        else:
            out = aside * pi * 0.47
            tip = foot + complex(length * sin(out), length * (0.42 if length < 40 else 0.62) * cos(out) - 3)
            middle = (foot + tip) / 2 - length * 0.06j
        spines.append((foot, middle, tip))
    return sorted(spines, key=lambda s: -abs(s[2].real - FOOT.real))


def _draw_bracts(umbel: Umbel, pen: Pen) -> None:
    number = umbel.bracts
    if number is not None:
        pen.point_to("bracts", FOOT)
    forked = umbel.bract_division == "forked"
    spines = _bract_spines(number or 0, umbel.bract_stance, 50 if forked else 32)
    half = 0.0 if (number or 0) > 12 else 0.9 if forked else 2.1
    form = {"undivided": "strip", "forked": "three-forked"}.get(umbel.bract_division or "")
    for spine in spines:
        draw_blade(
            pen, spine, half, form, Weight.INNER if (number or 0) <= (7 if forked else 14) else Weight.FINE, min(1.0, 6 / number if number else 1.0)
        )
    outer: Sequence[Point] = spines[-1] if spines else (FOOT, FOOT, FOOT)
    if umbel.bract_stance:
        pen.point_to("bract-stance", outer[2])
    if umbel.bract_division:
        pen.point_to("bract-division", along(spines[0], 0.7)[0] if spines else FOOT)


UMBEL = Drawer(
    Umbel,
    _WIDTH,
    _HEIGHT,
    (
        layer("stalk", _stalk),
        layer("rays", _draw_rays, "rays"),
        layer("ray-hairs", _draw_hairs, "ray_hairs", "rays"),
        layer("umbellets", _draw_umbellets, "rays"),
        layer("rim-petals", _draw_rim, "rim_petals", "rays"),
        layer("dark-flower", _draw_dark_flower, "dark_flower", "rays"),
        layer("bracts", _draw_bracts, "bracts", "bract_division", "bract_stance"),
    ),
)
