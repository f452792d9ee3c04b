"""The pen: strokes through points, a little irregular, always the same for the same seed.

Points are complex numbers in units of the drawing, x to the right and y downwards.
"""

from __future__ import annotations

import random
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from enum import StrEnum

Point = complex


class Weight(StrEnum):
    """How heavy a stroke is, in units; three weights and no more."""

    OUTLINE = "1.8"
    INNER = "1.2"
    FINE = ".8"


class Fill(StrEnum):
    """What an outline encloses: nothing, the white of the paper (it hides what lies behind), or ink."""

    NONE = "none"
    PAPER = "#fff"
    INK = "#000"


@dataclass(frozen=True)
class Stroke:
    """One or several lines of one weight: SVG path data, and where the pen stands after the last of them."""

    data: str
    weight: Weight
    fill: Fill
    end: Point = field(default=0j, compare=False)


class Pen:
    """Draws strokes. Gathers them in order, and the places at which parameters can be pointed to."""

    def __init__(self, seed: str, unsteadiness: float = 0.35) -> None:
        self._chance = random.Random(seed)
        self._unsteadiness = unsteadiness
        self.strokes: list[Stroke] = []
        self.places: dict[str, Point] = {}

    def point_to(self, parameter: str, place: Point) -> None:
        """Where a pointer to a parameter ends. The first place given counts."""
        self.places.setdefault(parameter, place)

    def between(self, low: float, high: float) -> float:
        """A number between two, from the seed."""
        return self._chance.uniform(low, high)

    def near(self, place: Point, by: float) -> Point:
        """A place near another."""
        return place + complex(self._chance.uniform(-by, by), self._chance.uniform(-by, by))

    # -- strokes -----------------------------------------------------------------------------------------
    def curve(
        self,
        points: Iterable[Point],
        weight: Weight = Weight.INNER,
        fill: Fill = Fill.NONE,
        closed: bool = False,
        steady: bool = False,
    ) -> None:
        """A smooth line through points. Open ends stay where they are, so that strokes meet; `steady`: so do all points."""
        through = list(points)
        if not steady:
            through = [p if not closed and i in (0, len(through) - 1) else self.near(p, self._unsteadiness) for i, p in enumerate(through)]
        self._add(through[0], *_smooth(through, closed), weight, fill)

    def corner(self, points: Iterable[Point], weight: Weight = Weight.INNER, fill: Fill = Fill.NONE, closed: bool = False) -> None:
        """Straight lines from point to point."""
        through = list(points)
        self._add(through[0], *_polyline(through, closed), weight, fill)

    def outline(self, *sides: Iterable[Point], weight: Weight = Weight.OUTLINE, fill: Fill = Fill.PAPER, closed: bool = True) -> None:
        """A shape, or an open line, of smooth sides that meet in corners, each side starting where the one before ends."""
        data, start, end = "", None, 0j
        for side in sides:
            points = list(side)
            points = [p if i in (0, len(points) - 1) else self.near(p, self._unsteadiness) for i, p in enumerate(points)]
            start = points[0] if start is None else start
            piece, end = _smooth(points, closed=False)
            data += piece
        if start is not None:
            self._add(start, data + ("z" if closed else ""), _rounded(start) if closed else end, weight, fill)

    def bows(
        self,
        points: Iterable[Point],
        bow: float | Iterable[float],
        weight: Weight = Weight.INNER,
        fill: Fill = Fill.NONE,
        closed: bool = False,
    ) -> None:
        """Bows that meet in corners, as the lobes of a small flower do or the edges of narrow lobes: the shortest way to write either.

        bow: how far the middle of a bow stands off to the left of the way, as a share of its length; one for all or one for each.
        """
        through = list(points)
        ways = len(through) if closed else len(through) - 1
        shares = [bow] * ways if isinstance(bow, int | float) else list(bow)
        at = _rounded(through[0])
        data = ""
        for n, share in enumerate(shares):
            here, there = through[n], _rounded(through[(n + 1) % len(through)])
            over = (here + there) / 2 - (there - here) * 2j * share - at
            data += "q" + _joined([over.real, over.imag, (there - at).real, (there - at).imag])
            at = there
        self._add(through[0], data + ("z" if closed else ""), at, weight, fill)

    @contextmanager
    def together(self) -> Iterator[None]:
        """What is drawn meanwhile becomes one path, with the weight and fill of its first stroke: for strokes of which none hides another."""
        before, self.strokes = self.strokes, []
        yield
        drawn, self.strokes = self.strokes, before
        if drawn:
            self._keep(Stroke("".join(stroke.data for stroke in drawn), drawn[0].weight, drawn[0].fill, drawn[-1].end))

    def line(self, start: Point, end: Point, weight: Weight = Weight.INNER, bow: float = 0.02) -> None:
        """A line with a slight bow, a share of its length, to one side or the other."""
        aside = (end - start) * 1j * self._chance.uniform(-bow, bow)
        self._add(start, *_smooth([start, (start + end) / 2 + aside, end], closed=False), weight, Fill.NONE)

    def lens(self, start: Point, end: Point, width: float, weight: Weight = Weight.FINE, fill: Fill = Fill.NONE) -> None:
        """A small pointed leaf from its foot to its tip: two bows, in the fewest figures."""
        a, b = _rounded(start), _rounded(end)
        aside = (end - start) / abs(end - start) * 1j * width if end != start else 0j
        bow = (b - a) * 0.42 + aside
        other = (a - b) * 0.58 - aside
        figures = [bow.real, bow.imag, (b - a).real, (b - a).imag]
        back = [other.real, other.imag, (a - b).real, (a - b).imag]
        self._add(a, f"q{_joined([*figures, *back])}z", a, weight, fill)

    def dot(self, place: Point, radius: float = 0.8, fill: Fill = Fill.INK, weight: Weight = Weight.FINE) -> None:
        """A round dot or, if it is not filled with ink, a little circle."""
        r = _written(radius)
        data = f"a{r} {r} 0 1 0 {_written(2 * radius)} 0 {r} {r} 0 1 0 {_written(-2 * radius)} 0z"
        self._add(place - radius, data, _rounded(place - radius), weight, fill)

    def stipple(self, place: Point, weight: Weight = Weight.INNER) -> None:
        """The smallest dot: as wide as a stroke of that weight."""
        self._add(place, "h.1", _rounded(place) + 0.1, weight, Fill.NONE)

    def _add(self, start: Point, data: str, end: Point, weight: Weight, fill: Fill) -> None:
        """A line that starts at a point: alone, or in one path with those before it that look the same and hide nothing."""
        last = self.strokes[-1] if self.strokes else None
        if last and last.weight is weight and last.fill is fill and fill is not Fill.PAPER:
            self.strokes[-1] = Stroke(f"{last.data}m{_pair(_rounded(start) - last.end)}{data}", weight, fill, end)
        else:
            self.strokes.append(Stroke(f"M{_pair(_rounded(start))}{data}", weight, fill, end))

    def _keep(self, stroke: Stroke) -> None:
        last = self.strokes[-1] if self.strokes else None
        if last and last.weight is stroke.weight and last.fill is stroke.fill and stroke.fill is not Fill.PAPER:
            self.strokes[-1] = Stroke(last.data + stroke.data, stroke.weight, stroke.fill, stroke.end)
        else:
            self.strokes.append(stroke)


def _rounded(point: Point) -> Point:
    return complex(round(point.real, 1), round(point.imag, 1))


def _written(number: float) -> str:
    text = f"{number:.1f}".rstrip("0").rstrip(".")
    text = "0" if text in ("-0", "") else text
    return text.replace("0.", ".", 1) if text.startswith(("0.", "-0.")) else text


def _pair(point: Point) -> str:
    return _joined([point.real, point.imag])


def _joined(numbers: Iterable[float]) -> str:
    """Numbers with no more between them than SVG's grammar needs: a sign, or a point after a number with a point, parts two of them."""
    text, has_point = "", False
    for number in numbers:
        written = _written(number)
        parts_itself = not text or written.startswith("-") or (written.startswith(".") and has_point)
        text += written if parts_itself else f" {written}"
        has_point = "." in written
    return text


def _polyline(points: list[Point], closed: bool) -> tuple[str, Point]:
    """Path data of straight lines after their first point, and where they end."""
    at = _rounded(points[0])
    steps = []
    for point in points[1:]:
        steps += [(_rounded(point) - at).real, (_rounded(point) - at).imag]
        at = _rounded(point)
    return f"l{_joined(steps)}" + ("z" if closed else ""), _rounded(points[0]) if closed else at


def _smooth(points: list[Point], closed: bool) -> tuple[str, Point]:
    """Path data, after its first point, of the uniform Catmull-Rom spline through the points (Catmull and Rom 1974), as cubic Bezier
    curves, and where it ends.

    Its tangents at a point are the same on both sides, so all but the first curve are written in SVG's short form.
    """
    ends = (points[-1:], points[:2]) if closed else ([2 * points[0] - points[1]], [2 * points[-1] - points[-2]])
    around = [*ends[0], *points, *ends[1]]
    at = _rounded(around[1])
    data = ""
    for n in range(1, len(around) - 2):
        before, here, there, after = around[n - 1 : n + 3]
        leave, arrive = here + (there - before) / 6, there - (after - here) / 6
        goal = _rounded(there)
        first = [(leave - at).real, (leave - at).imag] if n == 1 else []
        data += ("c" if n == 1 else "s") + _joined([*first, (arrive - at).real, (arrive - at).imag, (goal - at).real, (goal - at).imag])
        at = goal
    return data + ("z" if closed else ""), at
