"""The sun against published figures: its place in the sky, its rising and setting."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from twayblade.reasoning.light import daylight, sun_at

MOUNTAIN = ZoneInfo("Etc/GMT+7")
GOLDEN = (-105.1786, 39.742476, 1830.14)
LONDON = (-0.1276, 51.5072, None)


def test_the_sun_stands_where_the_reference_algorithm_puts_it() -> None:
    """Reda & Andreas 2004 (NREL/TP-560-34302), worked example: zenith 50.11162, azimuth 194.34024 degrees.

    A tenth of a degree is far less than what a warning about filming turns on (common practice, no source).
    """
    sun = sun_at(GOLDEN, datetime(2003, 10, 17, 12, 30, 30, tzinfo=MOUNTAIN))
    assert 90 - sun.height == pytest.approx(50.11162, abs=0.1)
    assert sun.direction == pytest.approx(194.34024, abs=0.1)


def near(found: datetime | None, on: date, clock: str, zone: ZoneInfo, minutes: float) -> bool:
    """Whether a time is within some minutes of that of a table, `hh:mm` or `hh:mm:ss`."""
    hour, minute, second = (int(part) for part in f"{clock}:0".split(":")[:3])
    wanted = datetime(on.year, on.month, on.day, hour, minute, second, tzinfo=zone)
    return found is not None and abs(found - wanted) <= timedelta(minutes=minutes)


@pytest.mark.parametrize(
    ("place", "zone", "on", "rises", "sets"),
    [
        # Solar Position Algorithm (Reda & Andreas 2004, NREL/TP-560-34302) at 35 degrees south and north, universal time; to the second.
        ((0.0, -35.0, None), "UTC", date(1996, 7, 5), "07:08:15", "17:01:04"),
        ((0.0, -35.0, None), "UTC", date(2004, 12, 4), "04:38:57", "19:02:02"),
        ((0.0, 35.0, None), "UTC", date(1994, 1, 2), "07:08:12", "16:59:55"),
        # NREL's calculator of the same algorithm for Golden, Colorado, as the tests of pvlib-python give it.
        (GOLDEN, "Etc/GMT+7", date(2015, 1, 2), "07:21:55", "16:47:43"),
        # timeanddate.com for London, universal time; to the minute, as the tests of astral give it.
        (LONDON, "UTC", date(2015, 1, 1), "08:06", "16:01"),
        (LONDON, "UTC", date(2015, 12, 25), "08:05", "15:55"),
    ],
)
def test_the_sun_rises_and_sets_within_a_minute_of_the_tables(
    place: tuple[float, float, float | None], zone: str, on: date, rises: str, sets: str
) -> None:
    found = daylight(place, on, ZoneInfo(zone))
    assert near(found.rises, on, rises, ZoneInfo(zone), 1)
    assert near(found.sets, on, sets, ZoneInfo(zone), 1)


@pytest.mark.parametrize(
    ("on", "rises", "sets"),
    [
        (date(2015, 1, 2), "07:19", "16:49"),
        (date(2015, 4, 2), "05:43", "18:24"),
        (date(2015, 8, 2), "05:01", "19:10"),
        (date(2015, 12, 2), "07:01", "16:38"),
    ],
)
def test_the_sun_rises_and_sets_within_two_minutes_of_the_almanac(on: date, rises: str, sets: str) -> None:
    """US Naval Observatory, as the tests of pvlib-python give it for 39 degrees north, 105 west; they allow 2.5 minutes."""
    found = daylight((-105.0, 39.0, None), on, MOUNTAIN)
    assert near(found.rises, on, rises, MOUNTAIN, 2)
    assert near(found.sets, on, sets, MOUNTAIN, 2)


@pytest.mark.parametrize(("on", "is_up"), [(date(2026, 6, 21), True), (date(2026, 12, 21), False)])
def test_within_the_polar_circle_the_solstices_have_neither_sunrise_nor_sunset(on: date, is_up: bool) -> None:
    """Polar day and night north of 66.56 degrees (common knowledge, no source): the sun stays up, or down, all day."""
    place, zone = (18.95, 69.65, None), ZoneInfo("Europe/Oslo")
    found = daylight(place, on, zone)
    assert (found.rises, found.sets) == (None, None)
    hours = [sun_at(place, datetime(on.year, on.month, on.day, hour, tzinfo=UTC)).is_up for hour in range(24)]
    assert set(hours) == {is_up}
