"""The way of a trail is drawn true to scale, with its stops in their places, and betrays no place on the earth."""

from __future__ import annotations

import re
from itertools import combinations, pairwise

import pytest
from gpxpy.geo import haversine_distance
from hypothesis import given
from hypothesis import strategies as st

from twayblade.knowledge.trail import Leg, Route
from twayblade.knowledge.workspace import Workspace
from twayblade.writing.drawing.pen import Stroke
from twayblade.writing.trail_drawing import WIDTH, TrailDrawing, draw_profile, draw_way, stops_on_way

Place = tuple[float, float, float | None]

NUMBER = re.compile(r"-?(?:\d+\.?\d*|\.\d+)")


def corners(stroke: Stroke) -> list[complex]:
    """The points of a line of straight pieces, as the data of its path have them: a start, then steps."""
    start, _, steps = stroke.data.removeprefix("M").partition("l")
    numbers = [float(n) for n in NUMBER.findall(steps)]
    found = [complex(*map(float, NUMBER.findall(start)))]
    for x, y in zip(numbers[::2], numbers[1::2], strict=True):
        found.append(found[-1] + complex(x, y))
    return found


def layer(drawing: TrailDrawing, name: str) -> list[complex]:
    (stroke,) = dict(drawing.layers)[name]
    return corners(stroke)


def way(*points: Place, stops: tuple[Place, ...] = ()) -> Route:
    """A way through points (longitude, latitude, height); where its stops come along it does not matter here."""
    return Route(points, tuple(Leg(0.0, 0.0) for _ in stops), 0.0, 0.0, stops)


STEPS = st.lists(st.tuples(st.integers(-900, 900), st.integers(-900, 900)), min_size=1, max_size=12).filter(lambda s: any(map(any, s)))


@given(STEPS, st.integers(-75, 75), st.sampled_from([-179.999, 0.0, 12.3, 179.999]))
def test_lengths_and_directions_on_the_drawing_are_those_on_the_ground(steps: list[tuple[int, int]], latitude: int, longitude: float) -> None:
    """An outside measure of every length on the drawing: gpxpy's, on a sphere of 6,378,137 m, whose meridians are within 0.7 % of those of
    the ellipsoid (WGS84: the radius of curvature goes from 6,335,439 m at the equator to 6,399,594 m at the poles)."""
    points: list[Place] = [(longitude, float(latitude), None)]
    for east, north in steps:
        lon, lat, _ = points[-1]
        points.append(((lon + east * 1e-5 + 180) % 360 - 180, lat + north * 1e-5, None))
    drawing = draw_way(way(*points))
    drawn = layer(drawing, "way")
    for (a, on_a), (b, on_b) in combinations(list(zip(points, drawn, strict=True)), 2):
        metres = haversine_distance(a[1], a[0], b[1], b[0])
        written = 0.15 / drawing.units_per_metre  # each end is written to a tenth of a unit, across and down
        assert abs(on_b - on_a) / drawing.units_per_metre == pytest.approx(metres, abs=0.007 * metres + written)
        if abs(on_b.imag - on_a.imag) > 1:
            assert (on_b.imag < on_a.imag) == (b[1] > a[1])


@given(STEPS)
def test_all_that_is_drawn_lies_on_the_paper(steps: list[tuple[int, int]]) -> None:
    points: list[Place] = [(0.0, 50.0, None)]
    for east, north in steps:
        points.append((points[-1][0] + east * 1e-5, points[-1][1] + north * 1e-5, None))
    drawing = draw_way(way(*points, stops=tuple(points)))
    assert drawing.width == WIDTH
    inside = [*layer(drawing, "way"), *(mark.place for mark in drawing.stops)]
    assert all(0 <= p.real <= drawing.width and 0 <= p.imag <= drawing.height for p in inside)


def test_circles_of_stops_stand_in_order_apart_and_beside_the_ends(demo_workspace: Workspace) -> None:
    """They must be hit by a finger: WCAG 2.2, 2.5.8 asks for 24 pixels, and on a phone a unit is about one."""
    (planned,) = demo_workspace.trails.values()
    assert planned.route
    drawing = draw_way(planned.route)
    assert [mark.number for mark in drawing.stops] == list(range(1, len(planned.trail.stops) + 1))
    assert all(abs(a.place - b.place) >= 24 for a, b in combinations(drawing.stops, 2))
    for end in (layer(drawing, "way")[0], layer(drawing, "way")[-1]):
        assert all(abs(mark.place - end) > 13 for mark in drawing.stops)


def test_stops_that_crowd_lead_to_their_places_by_a_line() -> None:
    here = (0.0, 50.0, None)
    drawing = draw_way(way(here, (0.01, 50.0, None), stops=(here, here, here)))
    assert len({mark.place for mark in drawing.stops}) == 3
    assert "leaders" in dict(drawing.layers)


def test_the_drawing_holds_no_coordinates(demo_workspace: Workspace) -> None:
    """The same walk anywhere else is the same drawing, so none can be led to a rare plant by it."""
    (planned,) = demo_workspace.trails.values()
    assert planned.route
    moved = way(
        *((lon + 30, lat, h) for lon, lat, h in planned.route.points), stops=tuple((lon + 30, lat, h) for lon, lat, h in planned.route.places)
    )
    here, there = draw_way(planned.route), draw_way(moved)
    assert (here.layers, [mark.strokes for mark in here.stops]) == (there.layers, [mark.strokes for mark in there.stops])


def test_heights_are_drawn_evenly_and_the_page_can_say_how_much_too_steep(demo_workspace: Workspace) -> None:
    (planned,) = demo_workspace.trails.values()
    assert planned.route
    profile = draw_profile(planned.route)
    assert profile
    drawn = layer(profile, "heights")
    ratios = set()
    for (a, b), (on_a, on_b) in zip(pairwise(planned.route.points), pairwise(drawn), strict=True):
        along = haversine_distance(a[1], a[0], b[1], b[0])
        assert (on_b.real - on_a.real) / profile.units_per_metre == pytest.approx(along, rel=0.007, abs=0.1 / profile.units_per_metre)
        assert a[2] is not None
        assert b[2] is not None
        if abs(b[2] - a[2]) > 1:
            ratios.add(round((on_a.imag - on_b.imag) / (b[2] - a[2]) / profile.units_per_metre / profile.steeper, 1))
    assert ratios == {1.0}
    assert (profile.lowest, profile.highest) == (27.0, 38.2)


def test_without_all_its_heights_a_way_has_no_profile() -> None:
    assert draw_profile(way((0.0, 50.0, 10.0), (0.01, 50.0, None))) is None
    assert draw_profile(way((0.0, 50.0, 10.0), (0.01, 50.0, 10.0))) is None
    assert draw_profile(way((0.0, 50.0, 10.0), (0.01, 50.0, 20.0)))


def test_stops_come_as_far_along_as_the_legs_say(demo_workspace: Workspace) -> None:
    (planned,) = demo_workspace.trails.values()
    assert planned.route
    stops = stops_on_way(planned.route)
    assert [stop.metres for stop in stops] == sorted(stop.metres for stop in stops)
    assert stops[-1].metres == pytest.approx(sum(leg.metres for leg in planned.route.legs))
    ends = planned.route.points[0], planned.route.places[-1]
    assert stops[-1].metres >= haversine_distance(ends[0][1], ends[0][0], ends[1][1], ends[1][0]) * 0.994
