"""Routes: what can be used, and what is said of what cannot."""

from __future__ import annotations

from pathlib import Path

import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import given
from hypothesis import strategies as st

from twayblade.reading.route import RouteError, places_along, read_route

HEAD = '<?xml version="1.0"?><gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1">'


def gpx(tmp_path: Path, body: str) -> Path:
    file = tmp_path / "way.gpx"
    file.write_text(f"{HEAD}{body}</gpx>", encoding="utf-8")
    return file


def track(*points: tuple[float, float, float]) -> str:
    inside = "".join(f'<trkpt lat="{lat}" lon="{lon}"><ele>{ele}</ele></trkpt>' for lat, lon, ele in points)
    return f"<trk><trkseg>{inside}</trkseg></trk>"


LINE = track((51.5, 0.0, 10), (51.505, 0.0, 30), (51.51, 0.0, 20))


def test_legs_are_measured_along_the_line(tmp_path: Path) -> None:
    """1 degree of latitude from 51 to 52 is 111257.828 m on WGS84 (computed), so 0.01 degrees near 51.5 are about 1112.58 m."""
    file = gpx(tmp_path, f'<wpt lat="51.5025" lon="0.0"><name>a</name></wpt><wpt lat="51.51" lon="0.0001"><name>b</name></wpt>{LINE}')
    route = read_route(file, ("a", "b"))
    assert route.metres == pytest.approx(1112.58, abs=0.1)
    assert [leg.metres for leg in route.legs] == pytest.approx([278.1, 834.4], abs=1.0)
    assert [leg.ascent for leg in route.legs] == pytest.approx([10.0, 10.0], abs=0.1)


def test_a_leg_keeps_its_slopes_up_and_down(tmp_path: Path) -> None:
    file = gpx(tmp_path, f'<wpt lat="51.5025" lon="0.0"><name>a</name></wpt><wpt lat="51.51" lon="0.0001"><name>b</name></wpt>{LINE}')
    first, second = read_route(file, ("a", "b")).legs
    assert [s.rise for s in first.slopes] == pytest.approx([10.0], abs=0.1)
    assert [s.rise for s in second.slopes] == pytest.approx([10.0, -10.0], abs=0.1)
    assert [s.metres for s in second.slopes] == pytest.approx([278.1, 556.3], abs=1.0)


@given(st.lists(st.tuples(st.integers(1, 400), st.integers(-30, 30)), min_size=1, max_size=30))
def test_slopes_are_read_over_lengths_that_heights_allow(tmp_path_factory: pytest.TempPathFactory, steps: list[tuple[int, int]]) -> None:
    """However near the points lie, no slope is read over less than 25 m of a longer leg, and nothing of the way is lost."""
    points = [(51.5 + sum(d for d, _ in steps[:n]) / 111_258, 0.0, 100.0 + sum(r for _, r in steps[:n])) for n in range(len(steps) + 1)]
    lat, lon, _ = points[-1]
    file = gpx(tmp_path_factory.mktemp("way"), f'<wpt lat="{lat}" lon="{lon}"><name>end</name></wpt>{track(*points)}')
    (leg,) = read_route(file, ("end",)).legs
    assert sum(s.metres for s in leg.slopes) == pytest.approx(leg.metres)
    assert sum(s.rise for s in leg.slopes) == pytest.approx(sum(r for _, r in steps), abs=1e-6)
    assert len(leg.slopes) == 1 or min(s.metres for s in leg.slopes) >= 25


@pytest.mark.parametrize(
    ("body", "message"),
    [
        (LINE, "no waypoint named `a`"),
        (f'<wpt lat="52.5" lon="0"><name>a</name></wpt>{LINE}', "from the line of the route"),
        ("", "no track"),
        (track((95.0, 0.0, 1), (95.1, 0.0, 1)), "no such point on earth"),
    ],
)
def test_what_cannot_be_used_says_why(tmp_path: Path, body: str, message: str) -> None:
    with pytest.raises(RouteError, match=message):
        read_route(gpx(tmp_path, body), ("a",))


def test_stops_lie_in_the_order_they_are_walked(tmp_path: Path) -> None:
    file = gpx(tmp_path, f'<wpt lat="51.509" lon="0"><name>a</name></wpt><wpt lat="51.501" lon="0"><name>b</name></wpt>{LINE}')
    with pytest.raises(RouteError, match="before the stop that precedes it"):
        read_route(file, ("a", "b"))


@pytest.mark.parametrize("content", ["", "<gpx", "not xml at all", "<html></html>"])
def test_a_file_that_is_no_gpx_is_no_traceback(tmp_path: Path, content: str) -> None:
    file = tmp_path / "way.gpx"
    file.write_text(content, encoding="utf-8")
    with pytest.raises(RouteError):
        read_route(file, ("a",))
    with pytest.raises(RouteError, match="no file"):
        read_route(tmp_path / "none.gpx", ())


def test_the_places_of_stops_lie_on_the_line_where_their_legs_end(tmp_path: Path) -> None:
    """The waypoints of a straight line along a meridian are found again, by geographiclib's distances."""
    stops = {"a": 51.5025, "b": 51.506, "c": 51.51}
    body = "".join(f'<wpt lat="{lat}" lon="0.0"><name>{id_}</name></wpt>' for id_, lat in stops.items())
    places = places_along(read_route(gpx(tmp_path, body + LINE), tuple(stops)))
    for (latitude, longitude), wanted in zip(places, stops.values(), strict=True):
        assert Geodesic.WGS84.Inverse(latitude, longitude, wanted, 0.0)["s12"] < 0.1
