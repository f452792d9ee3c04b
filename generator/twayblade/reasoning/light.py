"""Where the sun stands on a walk, so that filming towards it is seen beforehand. Worked out by astral."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from astral import Observer
from astral.sun import sunrise, sunset, zenith_and_azimuth

from twayblade.knowledge.compass import angle_between, degrees_of
from twayblade.knowledge.workspace import PlannedTrail

ASIDE = 45.0
LOW = 40.0
"""Filming is towards the sun where it stands within so many degrees of the direction faced, and lower than so many
degrees (project defaults: about the half of a wide picture, and where a lens hood still shades)."""

RADIUS = 0.27
"""The sun's radius in degrees: its upper edge is above the horizon that long after its middle has gone."""


@dataclass(frozen=True)
class Sun:
    """Where the sun stands: degrees above the horizon, as refracted, and degrees clockwise from north."""

    height: float
    direction: float

    @property
    def is_up(self) -> bool:
        """Whether any of it stands above the horizon."""
        return self.height > -RADIUS


@dataclass(frozen=True)
class Daylight:
    """Sunrise and sunset of a day in the time of the place; None where there is none, as in polar day and night."""

    rises: datetime | None
    sets: datetime | None


@dataclass(frozen=True)
class Stay:
    """The time spent at a stop: its place in the order of the trail's stops, seconds from the start to coming and to going."""

    number: int
    comes: int
    goes: int


@dataclass(frozen=True)
class StopLight:
    """The light at a stop: the sun when one comes, and where it stands in the picture (None: it does not)."""

    stay: Stay
    comes: datetime
    sun: Sun
    in_picture: Sun | None


@dataclass(frozen=True)
class Light:
    """The light of a walk on a date."""

    daylight: Daylight
    stops: tuple[StopLight, ...]


Point = tuple[float, float, float | None]
"""Longitude, latitude, elevation."""


def sun_at(place: Point, moment: datetime) -> Sun:
    """Where the sun stands at a moment, which carries its time zone."""
    zenith, azimuth = zenith_and_azimuth(_observer(place), moment)
    return Sun(90.0 - zenith, azimuth)


def daylight(place: Point, on: date, zone: ZoneInfo) -> Daylight:
    """Sunrise and sunset at a place on a date of its zone: the sun's upper edge at a level horizon."""
    found: list[datetime | None] = []
    for of_day in (sunrise, sunset):
        try:
            found.append(of_day(_observer(place), on, zone))
        except ValueError:  # the library's way to say that the sun does not reach the horizon that day
            found.append(None)
    return Daylight(*found)


def light_of(planned: PlannedTrail, on: date, stays: Sequence[Stay]) -> Light | None:
    """The light at each stop of a walk; None where `lacking` says why it cannot be known."""
    trail, route = planned.trail, planned.route
    if trail.zone is None or route is None or not route.places:
        return None
    zone = ZoneInfo(trail.zone)
    start = datetime.combine(on, trail.starts, zone).astimezone(UTC)  # hours pass in universal time, whatever the clocks do
    stops = []
    for stay in stays:
        place = route.places[stay.number]
        comes, goes = (start + timedelta(seconds=seconds) for seconds in (stay.comes, stay.goes))
        suns = (sun_at(place, comes), sun_at(place, goes))
        facing = trail.stops[stay.number].facing
        in_picture = next((sun for sun in suns if facing and is_towards(sun, degrees_of(facing))), None)
        stops.append(StopLight(stay, comes.astimezone(zone), suns[0], in_picture))
    return Light(daylight(route.places[0], on, zone), tuple(stops))


def lacking(planned: PlannedTrail) -> tuple[str, ...]:
    """The fields of a trail without which its light cannot be known."""
    return tuple(name for name, given in (("zone", planned.trail.zone), ("route", planned.route)) if not given)


def is_towards(sun: Sun, facing: float) -> bool:
    """Whether filming in a direction (degrees) is towards the sun, and it is low enough to matter."""
    return sun.is_up and sun.height < LOW and angle_between(sun.direction, facing) <= ASIDE


def _observer(place: Point) -> Observer:
    # The height above the sea is left out: that of the ground around raises the horizon as much.
    return Observer(latitude=place[1], longitude=place[0], elevation=0.0)
