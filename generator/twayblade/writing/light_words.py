"""Words for the light of a walk: sunrise and sunset, the sun at a stop, a warning where the camera looks towards it."""

from __future__ import annotations

from datetime import datetime

from twayblade.knowledge.compass import wind
from twayblade.knowledge.workspace import PlannedTrail
from twayblade.reasoning.light import Daylight, Light, Stay, StopLight, Sun, lacking, light_of
from twayblade.writing.phrases import listed, sentence
from twayblade.writing.script import Script

_LACKING = {"zone": "a time zone (`zone`)", "route": "a route with the places of its stops (`route`)"}


def stays(script: Script) -> tuple[Stay, ...]:
    """When one comes to each stop of a script and goes from it, in seconds from the start."""
    found, elapsed = [], 0
    for number, stop in enumerate(script.stops):
        elapsed += stop.walk_seconds
        found.append(Stay(number, elapsed, elapsed + stop.seconds))
        elapsed += stop.seconds
    return tuple(found)


def script_light(script: Script) -> Light | None:
    """The light of a script; None where `lacking_words` says why it is not known."""
    return light_of(script.trail, script.on, stays(script))


def time_words(moment: datetime) -> str:
    """`04:43`."""
    return f"{moment:%H:%M}"


def daylight_words(light: Light) -> str:
    """Sunrise and sunset as a sentence; none on the days of polar day and night."""
    day = light.daylight
    if day.rises is None and day.sets is None:
        return "There is no sunrise and no sunset that day."
    rises = f"rises at {time_words(day.rises)}" if day.rises else "does not rise that day"
    sets = f"sets at {time_words(day.sets)}" if day.sets else "does not set that day"
    return sentence(f"the sun {rises} and {sets}")


def sun_words(sun: Sun) -> str:
    """`in the east-south-east, 48 degrees high`."""
    return f"in the {wind(sun.direction)}, {round(sun.height)} degrees high" if sun.is_up else "below the horizon"


def warning_words(planned: PlannedTrail, stop: StopLight) -> str:
    """The warning where one films towards the sun; empty where one does not."""
    facing = planned.trail.stops[stop.stay.number].facing
    if stop.in_picture is None or facing is None:
        return ""
    return sentence(f"facing {facing} is filming towards the sun, {sun_words(stop.in_picture)}")


def stop_light_words(stop: StopLight) -> str:
    """The sun at a stop when one comes, as a sentence."""
    return sentence(f"at {time_words(stop.comes)} the sun stands {sun_words(stop.sun)}")


def lacking_words(planned: PlannedTrail) -> str:
    """Why the light is not known: what the trail does not say."""
    return sentence(
        f"the sun is not worked out: the trail gives no {listed((_LACKING[name].removeprefix('a ') for name in lacking(planned)), 'and no')}"
    )


def daylight_shape(day: Daylight) -> dict[str, str | None]:
    """{rises, sets}: times of day with their offset from universal time; null where there is none."""
    return {name: moment.isoformat(timespec="minutes") if moment else None for name, moment in (("rises", day.rises), ("sets", day.sets))}
