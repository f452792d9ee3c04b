"""A trail: a walk with its stops, its dates and its presenter's pace."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, time
from decimal import Decimal
from enum import StrEnum
from typing import Annotated, Self
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from pydantic import AfterValidator, BeforeValidator, Field, model_validator

from twayblade.knowledge.compass import degrees_of
from twayblade.knowledge.record import Record, as_text
from twayblade.knowledge.text import Sourced
from twayblade.knowledge.trait import Means, parse_means

PART_KINDS = (
    "opening",
    "arrival",
    "not-found",
    "recognise",
    "tell",
    "name",
    "habitat",
    "look-closer",
    "forms",
    "care",
    "move-on",
    "closing",
)
"""The parts of a stop, in the order they are spoken: the opening at the first only, the closing at the last."""


class Listeners(StrEnum):
    """To whom a walk is told."""

    ADULTS = "adults"
    CHILDREN = "children"


class Case(StrEnum):
    """How a stop may turn out on the day."""

    AS_HOPED = "as-hoped"
    PAST = "past-it"
    NOT_FOUND = "not-found"
    WET = "wet-or-windy"


def _quantity(unit: str, may_be_none: bool = False) -> BeforeValidator:
    """A positive number (or 0, where there may be none of it) followed by its unit, as a Decimal."""

    def read(raw: object) -> object:
        if not isinstance(raw, str):
            return raw
        match = re.fullmatch(rf"(\d+(?:\.\d+)?)\s*{re.escape(unit)}", raw.strip())
        if not match or not (Decimal(match[1]) or may_be_none):
            raise ValueError(f"cannot read `{raw}`; expected a number{'' if may_be_none else ' above 0'} and `{unit}`")
        return Decimal(match[1])

    return BeforeValidator(read)


def _written_date(raw: object) -> object:
    """Only year-month-day; a bare number is no date."""
    if isinstance(raw, str):
        try:
            return date.fromisoformat(raw.strip())
        except ValueError:
            raise ValueError(f"no such date `{raw}`; expected year-month-day, as in 2026-06-07") from None
    return raw


def _written_time(raw: object) -> object:
    """Only hours and minutes; a bare number is no time of day."""
    if isinstance(raw, str):
        if not re.fullmatch(r"\d{1,2}:\d{2}", raw.strip()):
            raise ValueError(f"no such time of day `{raw}`; expected hours and minutes, as in 10:00")
        return raw.strip().zfill(5)
    return raw


def _zone(name: str) -> str:
    """Only a time zone that the data base of time zones knows."""
    try:
        ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        raise ValueError(f"no time zone `{name}`; expected a name of the IANA data base, as in Europe/London") from None
    return name


def _facing(name: str) -> str:
    degrees_of(name)
    return name


Day = Annotated[date, BeforeValidator(_written_date)]
Seconds = Annotated[Decimal, _quantity("s"), as_text("20 s")]
Minutes = Annotated[Decimal, _quantity("min"), as_text("60 min")]
Share = Annotated[Decimal, _quantity("%", may_be_none=True), as_text("25 %")]


class Slope(StrEnum):
    """How hills change the time a walk takes."""

    NAISMITH = "naismith"  # more time for what is climbed
    LANGMUIR = "langmuir"  # Naismith, and less time on gentle descents, more on steep ones
    TOBLER = "tobler"  # a speed for each slope, up or down


LEAST_CALIBRATION = 40
"""Words a text must have that calibrates a voice: in a shorter one, a single pause weighs too much (project default)."""


class Calibration(Record):
    """A presenter's own voice: a text read aloud, and how long that took."""

    text: str = Field(description=f"the text that was read, {LEAST_CALIBRATION} words or more of the kind that will be spoken")
    takes: Seconds = Field(description="seconds it took to read it aloud")

    @model_validator(mode="after")
    def _is_long_enough(self) -> Self:
        if len(self.text.split()) < LEAST_CALIBRATION:
            raise ValueError(f"a text of {len(self.text.split())} words is too short to calibrate by; expected {LEAST_CALIBRATION} or more")
        return self


class Pace(Record):
    """A presenter's pace. The defaults are project defaults, not published figures, except where a source is named.

    Speech: a plant walk spoken freely to a camera runs at about 120 words a minute, pauses included
    (common practice, no source). Who has read a text by the clock gives a calibration instead; free speech then takes
    183/120 as long as reading, 183 words a minute being the mean rate of reading aloud (Brysbaert 2019, J. Memory and
    Language 109:104047). Walking: 3.0 km/h between stops, which is a mixed group's own pace, so that nothing more is
    taken off for the group; groups walk 0.12 to 0.18 m/s slower than people alone (Gates, Noyce, Bill & Van Ee 2006,
    Transportation Research Record 1982), so who gives the pace of one person may give `group: 0.15 m/s`.
    """

    speech: Annotated[Decimal, _quantity("words a minute"), as_text("120 words a minute")] = Field(
        Decimal(120), description="words a minute of ordinary prose spoken freely, pauses included"
    )
    calibration: Calibration | None = Field(None, description="a text read aloud by the clock, in place of `speech`")
    free: Annotated[Decimal, _quantity("times"), as_text("1.5 times")] = Field(
        Decimal(183) / Decimal(120), description="how many times as long free speech takes as reading; only for a calibration"
    )
    walking: Annotated[Decimal, _quantity("km/h"), as_text("3 km/h")] = Field(Decimal(3), description="km/h on the flat")
    slope: Slope = Field(Slope.NAISMITH, description="whose rule holds for hills: naismith, langmuir or tobler")
    group: Annotated[Decimal, _quantity("m/s", may_be_none=True), as_text("0.15 m/s")] = Field(
        Decimal(0), description="m/s by which the group is slower than `walking`"
    )
    gather: Seconds = Field(Decimal(20), description="seconds for a group to gather at a stop")
    look: Seconds = Field(Decimal(12), description="seconds to look after each thing shown")
    search: Seconds = Field(Decimal(120), description="seconds to search for a plant before the walk goes on without it")
    set_up: Annotated[Decimal, _quantity("s", may_be_none=True), as_text("90 s")] = Field(
        Decimal(90), description="seconds to set up the camera, each time (the list of pictures counts how often)"
    )
    second_takes: Share = Field(Decimal(25), description="share of the film that is taken a second time")
    waiting: Share = Field(Decimal(10), description="time spent waiting for wind and noise, as a share of the film")

    @model_validator(mode="after")
    def _holds_together(self) -> Self:
        if self.calibration and "speech" in self.model_fields_set:
            raise ValueError("expected either `speech` or `calibration`, found both")
        if self.group * Decimal("3.6") >= self.walking:
            raise ValueError(f"a group {self.group} m/s slower than {self.walking} km/h does not move")
        return self


class Stop(Record):
    """A place on a trail where something is shown."""

    id: str = Field(description="its name in addresses and in the route file")
    title: str = Field(description="what it is called")
    taxa: tuple[str, ...] = Field(min_length=1, description="the taxa shown, in order")
    place: str = Field("", description="where the plants stand")
    access: str = Field("", description="surface, gradient, gates")
    instead: str | None = Field(None, description="the taxon already met to look at again if none of its own is found; chosen, if not given")
    facing: Annotated[str, AfterValidator(_facing)] | None = Field(None, description="the direction one films in there, one of the sixteen winds")
    words: dict[str, Sourced] = Field(default_factory=dict, description="the author's own words for a part of the stop")


def _number(raw: object) -> object:
    """A plain number of 0 or more, as a Decimal or a whole number."""
    if isinstance(raw, str):
        if not re.fullmatch(r"\d+(\.\d+)?", raw.strip()):
            raise ValueError(f"cannot read `{raw}`; expected a number, as in `20`")
        return Decimal(raw.strip())
    return raw


Weight = Annotated[Decimal, BeforeValidator(_number), as_text("20")]


class KeyChoices(Record):
    """What a trail's pocket key is to be like. The weights are project defaults: a wrong arrival, above all of a harmful plant, weighs
    so much that sure couplets come before few."""

    length: Weight = Field(Decimal(1), description="weight of the effort of a couplet; 1 is that of one easy look")
    wrong: Weight = Field(Decimal(20), description="weight of a plant that arrives at a name that is not its own")
    harmful: Weight = Field(Decimal(100), description="the same for a harmful plant, or one never assessed; never less than `wrong`")
    likely: dict[str, Weight] = Field(default_factory=dict, description="how likely a taxon is met, beside 1 for every other")
    most_leads: Annotated[int, BeforeValidator(_number)] = Field(2, ge=2, le=4, description="how many leads a couplet may have")
    most_signs: Annotated[int, BeforeValidator(_number)] = Field(3, ge=1, le=3, description="how many signs a couplet may have")

    @model_validator(mode="after")
    def _puts_harm_first(self) -> KeyChoices:
        if self.harmful < self.wrong:
            raise ValueError(f"`harmful: {self.harmful}` is less than `wrong: {self.wrong}`; a harmful plant never weighs less than another")
        if zero := [id_ for id_, weight in self.likely.items() if not weight]:
            raise ValueError(f"`{zero[0]}` cannot be left out of the key by `0`; expected a number above 0")
        return self


def _means(raw: object) -> object:
    return sorted(parse_means(raw)) if isinstance(raw, list) and all(isinstance(m, str) for m in raw) else raw


class Trail(Record):
    """A walk."""

    title: str = Field(description="what it is called")
    say: str = Field("", description="one sentence on what the walk is")
    invented: str = Field("", description="what about it is invented, for a demonstration")
    place: str = Field("", description="where it is")
    region: str = Field(description="the region whose list and seasons apply")
    route: str | None = Field(None, description="GPX file beside this one")
    audience: str = Field("adults who are beginners", description="who comes")
    listeners: Listeners = Field(Listeners.ADULTS, description="adults, or children, to whom less is told and who use their eyes alone")
    means: Annotated[tuple[Means, ...], BeforeValidator(_means)] = Field((Means.DISTANT_EYE, Means.CLOSE_EYE), description="what people may use")
    dates: tuple[Day, ...] = Field(min_length=1, description="dates of the walk")
    main_date: Day | None = Field(None, description="the date the site speaks of; the first, if not given")
    starts: Annotated[time, BeforeValidator(_written_time), as_text("10:00")] = Field(time(10), description="time of day it starts")
    zone: Annotated[str, AfterValidator(_zone)] | None = Field(None, description="IANA name of its time zone, for the height of the sun")
    allows: Minutes = Field(Decimal(60), description="minutes the walk may take: speech, looking, gathering and walking")
    film: Minutes | None = Field(None, description="minutes the film may run")
    on_site: Minutes | None = Field(None, description="minutes the filming may take on site")
    on_foot: Minutes | None = Field(None, description="minutes of walking between the stops")
    pace: Pace = Field(Pace(), description="the presenter's pace")
    key: KeyChoices = Field(KeyChoices(), description="what its pocket key is to be like")
    stops: tuple[Stop, ...] = Field(min_length=1, description="the stops, in order")

    @property
    def chief_date(self) -> date:
        """The date the site speaks of."""
        return self.main_date or self.dates[0]


@dataclass(frozen=True)
class Stretch:
    """A piece of the way on one slope: metres on the map, metres it rises (falls, if below 0)."""

    metres: float
    rise: float


@dataclass(frozen=True)
class Leg:
    """The way from one stop to the next (or from the start to the first): metres on the map, metres of ascent, its slopes in order."""

    metres: float
    ascent: float
    stretches: tuple[Stretch, ...] = ()

    @property
    def slopes(self) -> tuple[Stretch, ...]:
        """Its stretches; of a leg that gives none, one that rises by its ascent."""
        return self.stretches or (Stretch(self.metres, self.ascent),)


@dataclass(frozen=True)
class Route:
    """A trail's way on the ground: its points as (longitude, latitude, elevation) and the leg to each stop, in order.

    places: where each stop is, as its waypoint says, in order.
    """

    points: tuple[tuple[float, float, float | None], ...]
    legs: tuple[Leg, ...]
    metres: float
    ascent: float
    places: tuple[tuple[float, float, float | None], ...] = ()
