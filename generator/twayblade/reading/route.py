"""Routes: GPX 1.1 files, read with gpxpy and measured on the ellipsoid with geographiclib."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import accumulate, pairwise
from math import cos, isfinite, radians, sin
from pathlib import Path

import gpxpy
import gpxpy.gpx
from geographiclib.geodesic import Geodesic

from twayblade.knowledge.trail import Leg, Route, Stretch

Point = tuple[float, float, float | None]

FARTHEST = 60.0
"""Metres a stop may lie beside the line of the route."""

_SHORTEST = 25.0
"""Metres over which a slope is read at the least: between nearer points, errors of a metre in height would make cliffs (project default)."""


class RouteError(ValueError):
    """The route cannot be used; says why in one clause, at which stop if at one, and what names there are."""

    def __init__(self, message: str, stop: str | None = None, known: tuple[str, ...] = ()) -> None:
        super().__init__(message)
        self.stop, self.known = stop, known


def metres_between(a: Point, b: Point) -> float:
    """Metres along the ellipsoid (WGS84) between two points given as longitude, latitude, elevation."""
    return float(Geodesic.WGS84.Inverse(a[1], a[0], b[1], b[0], Geodesic.DISTANCE)["s12"])


def ascent_between(a: Point, b: Point) -> float:
    """Metres of ascent from one point to the next; 0 downhill or where an elevation is missing."""
    return max(0.0, b[2] - a[2]) if a[2] is not None and b[2] is not None else 0.0


def read_route(file: Path, stops: tuple[str, ...]) -> Route:
    """The first track (or route) of a GPX file, with the leg to each stop. Stops are waypoints named by stop id.

    Raises RouteError.
    """
    try:
        gpx = gpxpy.parse(file.read_text(encoding="utf-8-sig"))
    except FileNotFoundError:
        raise RouteError(f"there is no file `{file.name}` beside the trail") from None
    except OSError as reason:
        raise RouteError(f"`{file.name}` cannot be opened: {reason.strerror or reason}") from None
    except (gpxpy.gpx.GPXException, ValueError) as reason:
        raise RouteError(f"`{file.name}` cannot be read as GPX: {reason}".splitlines()[0]) from None
    points = [_point(p) for track in gpx.tracks[:1] for segment in track.segments for p in segment.points]
    points = points or [_point(p) for route in gpx.routes[:1] for p in route.points]
    if len(points) < 2:
        raise RouteError(f"`{file.name}` holds no track of two points or more")
    waypoints = {w.name: _point(w) for w in gpx.waypoints if w.name}
    along = [0.0]
    for a, b in pairwise(points):
        along.append(along[-1] + metres_between(a, b))
    positions: list[float] = []
    for stop in stops:
        if stop not in waypoints:
            raise RouteError(f"`{file.name}` has no waypoint named `{stop}`", stop, tuple(waypoints))
        positions.append(_position(stop, waypoints[stop], points, along, positions[-1] if positions else 0.0))
    legs = tuple(_leg(points, along, start, end) for start, end in pairwise([0.0, *positions]))
    return Route(tuple(points), legs, along[-1], _ascent(points, along, 0.0, along[-1]), tuple(waypoints[stop] for stop in stops))


def _point(p: gpxpy.gpx.GPXTrackPoint | gpxpy.gpx.GPXRoutePoint | gpxpy.gpx.GPXWaypoint) -> Point:
    if not (-90 <= p.latitude <= 90 and -180 <= p.longitude < 180):
        raise RouteError(f"no such point on earth: latitude {p.latitude}, longitude {p.longitude}")
    if p.elevation is not None and not isfinite(p.elevation):
        raise RouteError(f"no such height: {p.elevation}")
    return (p.longitude, p.latitude, p.elevation)


def _position(stop: str, at: Point, points: list[Point], along: list[float], earliest: float) -> float:
    """Metres along the route at which a stop lies: the nearest place on the line that is not before the last stop."""
    squeeze = cos(radians(at[1]))
    best = (float("inf"), 0.0)
    for number, (a, b) in enumerate(pairwise(points)):
        dx, dy = (b[0] - a[0]) * squeeze, b[1] - a[1]
        px, py = (at[0] - a[0]) * squeeze, at[1] - a[1]
        length = dx * dx + dy * dy
        share = 0.0 if length == 0 else min(1.0, max(0.0, (px * dx + py * dy) / length))
        nearest: Point = (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]), None)
        position = along[number] + share * (along[number + 1] - along[number])
        if position >= earliest - 0.5:
            best = min(best, (metres_between(at, nearest), position))
    if best[0] > FARTHEST:
        if earliest and _position_or_none(stop, at, points, along):
            raise RouteError(f"`{stop}` lies before the stop that precedes it on the route", stop)
        raise RouteError(f"the waypoint `{stop}` lies {best[0]:.0f} m from the line of the route", stop)
    return max(best[1], earliest)


def _position_or_none(stop: str, at: Point, points: list[Point], along: list[float]) -> float | None:
    try:
        return _position(stop, at, points, along, 0.0) or 1.0
    except RouteError:
        return None


def _leg(points: list[Point], along: list[float], start: float, end: float) -> Leg:
    return Leg(end - start, _ascent(points, along, start, end), _stretches(points, along, start, end))


def _pieces(along: list[float], start: float, end: float) -> Iterator[tuple[int, float]]:
    """The steps between points that lie within a part of the route, in order: the number of the first point, and the share within."""
    for number, (first, last) in enumerate(pairwise(along)):
        inside = min(end, last) - max(start, first)
        if inside > 0:
            yield number, inside / (last - first)


def _ascent(points: list[Point], along: list[float], start: float, end: float) -> float:
    return sum(ascent_between(points[n], points[n + 1]) * share for n, share in _pieces(along, start, end))


def _stretches(points: list[Point], along: list[float], start: float, end: float) -> tuple[Stretch, ...]:
    """A part of the route as stretches that are long enough to have a slope; what is left over at the end goes with the last."""
    found: list[Stretch] = []
    metres = rise = 0.0
    for number, share in _pieces(along, start, end):
        a, b = points[number], points[number + 1]
        metres += (along[number + 1] - along[number]) * share
        rise += (ascent_between(a, b) - ascent_between(b, a)) * share
        if metres >= _SHORTEST:
            found.append(Stretch(metres, rise))
            metres = rise = 0.0
    if metres:
        last = found.pop() if found else Stretch(0.0, 0.0)
        found.append(Stretch(last.metres + metres, last.rise + rise))
    return tuple(found)


def places_along(route: Route) -> tuple[tuple[float, float], ...]:
    """Latitude and longitude of the places on the line of the route at which its legs end, in order."""
    found: list[tuple[float, float]] = []
    wanted = list(accumulate(leg.metres for leg in route.legs))
    passed = 0.0
    for a, b in pairwise(route.points):
        length = metres_between(a, b)
        while len(found) < len(wanted) and wanted[len(found)] <= passed + length + 0.001:
            share = min(1.0, max(0.0, (wanted[len(found)] - passed) / length)) if length else 0.0
            found.append((a[1] + share * (b[1] - a[1]), a[0] + share * (b[0] - a[0])))
        passed += length
    return (*found, *[(route.points[-1][1], route.points[-1][0])] * (len(wanted) - len(found)))


def metres_from(middle: Point, point: Point) -> tuple[float, float]:
    """Metres east and north of a middle at which a point lies on a map of the azimuthal equidistant projection.

    True from the middle; over the few kilometres of a walk every other length is true as well, to less than one part in a million.
    """
    found = Geodesic.WGS84.Inverse(middle[1], middle[0], point[1], point[0], Geodesic.DISTANCE | Geodesic.AZIMUTH)
    towards = radians(found["azi1"])
    return found["s12"] * sin(towards), found["s12"] * cos(towards)
