"""The way of a trail drawn from its route: as a map with scale and north, and as a profile of its heights.

No place on the earth can be read from it: it has no coordinates, no map behind it, nothing from outside.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from math import ceil, floor

from twayblade.knowledge.trail import Route
from twayblade.reading.route import metres_between, metres_from
from twayblade.writing.drawing.figures import width_of, write
from twayblade.writing.drawing.pen import Fill, Pen, Point, Stroke, Weight
from twayblade.writing.drawing.svg import scale_bar, spread

WIDTH = 360
"""Width of the paper in units. On a narrow phone a unit is a pixel, so that the circles of the stops can be touched."""

_TALLEST = 420
_MARGIN = 34
_STRIP = 46
"""Height of the strip below the map for the scale bar and the arrow to the north."""
_CIRCLE = 13.0
_FIGURES = 12.0
_END = 5.0
_CLEAR = 3.0

_RISE = 70.0
"""Room in units for the heights of a profile."""
_LEFT = 46.0
_ROUND = (1, 2, 5)


@dataclass(frozen=True)
class StopMark:
    """The numbered circle of a stop: its number, where it stands, and its strokes."""

    number: int
    place: Point
    strokes: tuple[Stroke, ...]


@dataclass(frozen=True)
class TrailDrawing:
    """A drawing of a way: its size in units, its layers from back to front, and a circle for each stop, which can lead to it.

    units_per_metre: its scale along the ground.
    """

    width: float
    height: float
    layers: tuple[tuple[str, tuple[Stroke, ...]], ...]
    stops: tuple[StopMark, ...]
    units_per_metre: float


@dataclass(frozen=True)
class Profile(TrailDrawing):
    """The heights along a way. steeper: how many times as steep as it is the ground is drawn."""

    steeper: float
    lowest: float
    highest: float


@dataclass(frozen=True)
class StopOnWay:
    """Where a stop comes: its number, metres along the way from its start, and its height in metres if that is known."""

    number: int
    metres: float
    height: float | None


def stops_on_way(route: Route) -> tuple[StopOnWay, ...]:
    """Every stop of a route in order."""
    along = accumulate(leg.metres for leg in route.legs)
    return tuple(StopOnWay(n, metres, place[2]) for n, (metres, place) in enumerate(zip(along, route.places, strict=True), 1))


def draw_way(route: Route) -> TrailDrawing:
    """The way as a map, north upwards, true to scale in all directions."""
    middle = _middle([*route.points, *route.places])
    ground = [complex(*metres_from(middle, point)) for point in (*route.points, *route.places)]
    left, right = min(p.real for p in ground), max(p.real for p in ground)
    low, high = min(p.imag for p in ground), max(p.imag for p in ground)
    scale = min((WIDTH - 2 * _MARGIN) / max(right - left, 1.0), (_TALLEST - 2 * _MARGIN) / max(high - low, 1.0))
    height = (high - low) * scale + 2 * _MARGIN
    aside = (WIDTH - (right - left) * scale) / 2
    on_paper = [complex((p.real - left) * scale + aside, (high - p.imag) * scale + _MARGIN) for p in ground]
    line, places = on_paper[: len(route.points)], on_paper[len(route.points) :]
    pen = Pen("way", unsteadiness=0)
    pen.corner(line, Weight.OUTLINE)
    circles = _beside(places, [line[0], line[-1]], height)
    leaders = Pen("leaders", unsteadiness=0)
    for place, circle in zip(places, circles, strict=True):
        if circle != place:
            leaders.corner([place, circle], Weight.FINE)
            leaders.dot(place, 1.6)
    layers = (
        ("way", tuple(pen.strokes)),
        ("ends", tuple(_ends(line))),
        ("leaders", tuple(leaders.strokes)),
        ("scale-bar", scale_bar(scale / 1000, WIDTH, height + 8)),
        ("north", tuple(_north(complex(WIDTH - 22, height + _STRIP - 6)))),
    )
    marks = tuple(_mark(number, circle) for number, circle in enumerate(circles, 1))
    return TrailDrawing(WIDTH, height + _STRIP, tuple(each for each in layers if each[1]), marks, scale)


def draw_profile(route: Route) -> Profile | None:
    """The heights along the way; None where a height is missing, or all are the same."""
    heights = [point[2] for point in route.points]
    known = [h for h in heights if h is not None]
    if len(known) < len(heights) or min(known) == max(known):
        return None
    along = list(accumulate((metres_between(a, b) for a, b in pairwise(route.points)), initial=0.0))
    step = _step(max(known) - min(known))
    low, high = floor(min(known) / step) * step, ceil(max(known) / step) * step
    top, bottom = 4 * _CIRCLE, 4 * _CIRCLE + _RISE
    scale, rise = (WIDTH - _LEFT - _CIRCLE - 2) / max(along[-1], 1.0), _RISE / (high - low)

    def at(metres: float, metres_high: float) -> Point:
        return complex(_LEFT + metres * scale, bottom - (metres_high - low) * rise)

    ground, levels, feet = Pen("heights", unsteadiness=0), Pen("levels", unsteadiness=0), Pen("feet", unsteadiness=0)
    ground.corner([at(m, h) for m, h in zip(along, known, strict=True)], Weight.OUTLINE)
    for level in (low, high):
        words = f"{level:g} m"
        write(levels, words, complex(_LEFT - 6 - width_of(words, 10), at(0, level).imag - 5), 10)
        levels.corner([at(0, level), at(along[-1], level)], Weight.FINE)
    stops = stops_on_way(route)
    across = spread([at(stop.metres, low).real for stop in stops], 2 * _CIRCLE + 1, _CIRCLE + 1, WIDTH - _CIRCLE - 1)
    marks = []
    for stop, x in zip(stops, across, strict=True):
        circle = complex(x, _CIRCLE + 2)
        on_ground = at(stop.metres, _between(along, known, stop.metres))
        feet.corner([circle, complex(on_ground.real, top - 8), on_ground], Weight.FINE)
        marks.append(_mark(stop.number, circle))
    bar = scale_bar(scale / 1000, WIDTH, bottom + 6)
    layers = (("levels", levels), ("feet", feet), ("heights", ground))
    drawn = (*((name, tuple(pen.strokes)) for name, pen in layers), ("scale-bar", bar))
    return Profile(WIDTH, bottom + 36, drawn, tuple(marks), scale, rise / scale, min(known), max(known))


def _middle(points: Sequence[tuple[float, float, float | None]]) -> tuple[float, float, float | None]:
    """The middle of the box around points, across the 180th meridian too."""
    start = points[0][0]
    turned = [(p[0] - start + 180) % 360 - 180 for p in points]
    return (start + (min(turned) + max(turned)) / 2, (min(p[1] for p in points) + max(p[1] for p in points)) / 2, None)


def _beside(places: Sequence[Point], ends: Sequence[Point], height: float) -> list[Point]:
    """Where the circles stand: each on its place or, where another or an end of the way is, as near to it as there is room."""
    found: list[Point] = []
    for place in places:
        free = (c for c in _candidates(place) if _is_inside(c, height) and _is_free(c, found, ends))
        found.append(next(free, place))
    return found


def _candidates(place: Point) -> list[Point]:
    """The place itself, then places round it, nearest first, in sixteen directions."""
    turns = [-1j * 1j ** (n / 4) for n in range(16)]
    return [place, *(place + turn * _CIRCLE * away for away in (1.8, 2.6, 3.4, 4.2) for turn in turns)]


def _is_inside(circle: Point, height: float) -> bool:
    room = _CIRCLE + 1
    return room <= circle.real <= WIDTH - room and room <= circle.imag <= height - room


def _is_free(circle: Point, others: Sequence[Point], ends: Sequence[Point]) -> bool:
    apart = all(abs(circle - other) >= 2 * _CIRCLE + _CLEAR for other in others)
    return apart and all(abs(circle - end) >= _CIRCLE + _END + _CLEAR for end in ends)


def _mark(number: int, at: Point) -> StopMark:
    pen = Pen(f"stop {number}", unsteadiness=0)
    pen.dot(at, _CIRCLE, Fill.PAPER, Weight.OUTLINE)
    text = str(number)
    write(pen, text, at - complex(width_of(text, _FIGURES) / 2, _FIGURES / 2), _FIGURES, Weight.OUTLINE)
    return StopMark(number, at, tuple(pen.strokes))


def _ends(line: Sequence[Point]) -> list[Stroke]:
    """A dot where the way starts, a bar across it where it ends; a way that comes back has its bar beside the dot all the same."""
    pen = Pen("ends", unsteadiness=0)
    last = next((p for p in reversed(line) if p != line[-1]), line[-1] - 1)
    across = (line[-1] - last) / abs(line[-1] - last) * 1j * (_END + 3)
    pen.corner([line[-1] - across, line[-1] + across], Weight.OUTLINE)
    pen.dot(line[0], _END)
    return pen.strokes


def _north(foot: Point) -> list[Stroke]:
    pen = Pen("north", unsteadiness=0)
    pen.corner([foot, foot - 38j], Weight.INNER)
    pen.corner([foot - 38j, foot - 27j - 4, foot - 27j + 4], Weight.INNER, Fill.INK, closed=True)
    write(pen, "N", foot - 20j + 8, _FIGURES)
    return pen.strokes


def _step(extent: float) -> float:
    """The round height (1, 2 or 5 and a power of ten, in metres) of which two or three lie within an extent."""
    steps = [digit * 10.0**power for power in range(-2, 5) for digit in _ROUND]
    return max((step for step in steps if step * 2 <= extent), default=steps[0])


def _between(along: Sequence[float], heights: Sequence[float], metres: float) -> float:
    """The height at a place along the way."""
    for (start, end), (low, high) in zip(pairwise(along), pairwise(heights), strict=True):
        if metres <= end and end > start:
            return low + (high - low) * min(1.0, max(0.0, (metres - start) / (end - start)))
    return heights[-1]
