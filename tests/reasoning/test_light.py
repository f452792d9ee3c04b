"""The light of a walk: the sun at each stop, warnings when the camera looks towards it, and what is needed to know it."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from twayblade.knowledge.compass import COMPASS, angle_between, degrees_of, wind
from twayblade.knowledge.trail import Leg, Route, Stop, Trail
from twayblade.knowledge.workspace import PlannedTrail
from twayblade.reasoning.light import Stay, Sun, daylight, is_towards, lacking, light_of, sun_at

PLACE = (-0.3716, 52.1042, 27.0)
ZONE = "Europe/London"


def planned(*facings: str | None, zone: str | None = ZONE, routed: bool = True, starts: str = "10:00") -> PlannedTrail:
    """A walk past so many stops, all at one place."""
    stops = tuple(Stop(id=f"stop-{n}", title="A stop", taxa=("planta",), facing=f) for n, f in enumerate(facings))
    trail = Trail(title="A walk", region="home", dates=(date(2026, 6, 7),), starts=starts, zone=zone, stops=stops)
    route = Route((PLACE, PLACE), tuple(Leg(0.0, 0.0) for _ in stops), 0.0, 0.0, tuple(PLACE for _ in stops))
    return PlannedTrail("walk", trail, route if routed else None)


@given(st.floats(0, 360, exclude_max=True))
def test_the_wind_named_is_never_farther_off_than_half_a_step(degrees: float) -> None:
    assert angle_between(degrees, degrees_of(wind(degrees))) <= 360 / 16 / 2 + 1e-9


def test_every_wind_names_its_own_direction() -> None:
    assert [wind(degrees_of(name)) for name in COMPASS] == list(COMPASS)
    assert (degrees_of("south-west"), angle_between(350, 10)) == (225, 20)


def test_the_sun_is_in_the_south_at_noon_in_the_north_and_in_the_north_in_the_south() -> None:
    noon = datetime(2026, 6, 7, 12, tzinfo=UTC)
    assert wind(sun_at((0.0, 52.0, None), noon).direction) == "south"
    assert wind(sun_at((0.0, -35.0, None), noon).direction) == "north"


@given(st.floats(-90, 90), st.floats(-180, 179), st.dates(date(2000, 1, 1), date(2060, 12, 31)))
def test_everywhere_and_always_sunrise_and_sunset_are_times_of_that_day_or_none(latitude: float, longitude: float, on: date) -> None:
    zone = ZoneInfo("Pacific/Auckland")
    found = daylight((longitude, latitude, None), on, zone)
    for moment in (found.rises, found.sets):
        assert moment is None or moment.date() == on


@given(st.floats(-60, 60), st.dates(date(2000, 1, 1), date(2060, 12, 31)))
def test_at_sunrise_the_upper_edge_stands_on_the_horizon(latitude: float, on: date) -> None:
    """The standard altitude of -0.833 degrees is 34' of refraction and 16' of radius (Meeus 1998, Astronomical Algorithms, chapter 15)."""
    found = daylight((0.0, latitude, None), on, ZoneInfo("UTC"))
    for moment in (found.rises, found.sets):
        if moment:
            assert sun_at((0.0, latitude, None), moment).height == pytest.approx(-0.27, abs=0.25)  # refraction on the horizon varies by model


def test_the_sun_moves_on_from_stop_to_stop() -> None:
    light = light_of(planned(None, None), date(2026, 6, 7), [Stay(0, 0, 300), Stay(1, 7200, 7500)])
    assert light
    first, second = light.stops
    assert first.comes == datetime(2026, 6, 7, 10, tzinfo=ZoneInfo(ZONE))
    assert second.comes - first.comes == timedelta(hours=2)
    assert 20 < angle_between(first.sun.direction, second.sun.direction) < 90
    assert first.in_picture is None  # nobody has said which way the camera looks


def test_whoever_films_towards_a_low_sun_is_warned_and_nobody_else() -> None:
    """In the evening of 7 June at 52 degrees north the sun stands low in the west-north-west (see the figures of the almanacs)."""
    walk = planned("west-north-west", "west", "east", "south", starts="19:30")
    light = light_of(walk, date(2026, 6, 7), [Stay(n, 0, 300) for n in range(4)])
    assert light
    assert [stop.in_picture is not None for stop in light.stops] == [True, True, False, False]


def test_a_high_sun_and_one_that_is_down_are_no_warning() -> None:
    assert is_towards(Sun(39.9, 100.0), 144.9)
    assert not is_towards(Sun(40.1, 100.0), 100.0)
    assert not is_towards(Sun(20.0, 100.0), 145.1)
    assert not is_towards(Sun(-1.0, 100.0), 100.0)
    assert is_towards(Sun(5.0, 350.0), 10.0)  # across north


def test_the_sun_that_comes_into_the_picture_before_one_goes_counts() -> None:
    walk = planned("south", starts="08:00")
    on = date(2026, 12, 7)
    away = light_of(walk, on, [Stay(0, 0, 60)])
    later = light_of(walk, on, [Stay(0, 0, 3 * 3600)])
    assert away
    assert later
    assert away.stops[0].in_picture is None
    assert later.stops[0].in_picture


def test_hours_pass_by_the_sun_when_the_clocks_change() -> None:
    """Summer time began on 29 March 2026 at 1:00 in this zone (IANA time zone data base): from 0:30 an hour leads to 2:30."""
    light = light_of(planned(None, starts="00:30"), date(2026, 3, 29), [Stay(0, 3600, 3600)])
    assert light
    assert light.stops[0].comes.strftime("%H:%M") == "02:30"


def test_without_zone_or_route_it_is_said_what_is_missing() -> None:
    on, stays = date(2026, 6, 7), [Stay(0, 0, 60)]
    assert lacking(planned(None)) == ()
    for walk, missing in (
        (planned(None, zone=None), ("zone",)),
        (planned(None, routed=False), ("route",)),
        (planned(None, zone=None, routed=False), ("zone", "route")),
    ):
        assert light_of(walk, on, stays) is None
        assert lacking(walk) == missing


@pytest.mark.parametrize("zone", ["Europe/Nowhere", "", "../etc", "London time"])
def test_a_zone_that_does_not_exist_is_refused_with_an_example(zone: str) -> None:
    with pytest.raises(ValidationError, match=r"as in Europe/London"):
        planned(None, zone=zone)


def test_a_direction_that_is_no_wind_is_refused_with_an_example() -> None:
    with pytest.raises(ValidationError, match=r"as in south or east-south-east"):
        planned("left")
