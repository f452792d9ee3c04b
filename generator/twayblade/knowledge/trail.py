"""A trail: a walk with its stops, its dates and its presenter's pace."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, time
from decimal import Decimal
from enum import StrEnum
from typing import Annotated

from pydantic import BeforeValidator, Field

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


class Case(StrEnum):
    """How a stop may turn out on the day."""

    AS_HOPED = "as-hoped"
    PAST = "past-it"
    NOT_FOUND = "not-found"
    WET = "wet-or-windy"


def _quantity(unit: str) -> BeforeValidator:
    """A positive number followed by its unit, as a Decimal."""

    def read(raw: object) -> object:
        if not isinstance(raw, str):
            return raw
        match = re.fullmatch(rf"(\d+(?:\.\d+)?)\s*{re.escape(unit)}", raw.strip())
        if not match or not Decimal(match[1]):
            raise ValueError(f"cannot read `{raw}`; expected a number above 0 and `{unit}`")
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


Day = Annotated[date, BeforeValidator(_written_date)]
Seconds = Annotated[Decimal, _quantity("s"), as_text("20 s")]


class Pace(Record):
    """A presenter's pace. The defaults are project defaults, not published figures, except speech.

    Speech: a plant walk spoken freely to a camera runs at about 120 words a minute, pauses included
    (common practice, no source). Walking: 3.0 km/h between stops for a mixed group.
    """

    speech: Annotated[Decimal, _quantity("words a minute"), as_text("120 words a minute")] = Field(
        Decimal(120), description="words a minute, pauses included"
    )
    walking: Annotated[Decimal, _quantity("km/h"), as_text("3 km/h")] = Field(Decimal(3), description="km/h on the flat")
    gather: Seconds = Field(Decimal(20), description="seconds for a group to gather at a stop")
    look: Seconds = Field(Decimal(12), description="seconds to look after each thing shown")
    search: Seconds = Field(Decimal(120), description="seconds to search for a plant before the walk goes on without it")


class Stop(Record):
    """A place on a trail where something is shown."""

    id: str = Field(description="its name in addresses and in the route file")
    title: str = Field(description="what it is called")
    taxa: tuple[str, ...] = Field(min_length=1, description="the taxa shown, in order")
    place: str = Field("", description="where the plants stand")
    access: str = Field("", description="surface, gradient, gates")
    instead: str | None = Field(None, description="the taxon already met to look at again if none of its own is found; chosen, if not given")
    words: dict[str, Sourced] = Field(default_factory=dict, description="the author's own words for a part of the stop")


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
    means: Annotated[tuple[Means, ...], BeforeValidator(_means)] = Field((Means.DISTANT_EYE, Means.CLOSE_EYE), description="what people may use")
    dates: tuple[Day, ...] = Field(min_length=1, description="dates of the walk")
    main_date: Day | None = Field(None, description="the date the site speaks of; the first, if not given")
    starts: Annotated[time, BeforeValidator(_written_time), as_text("10:00")] = Field(time(10), description="time of day it starts")
    allows: Annotated[Decimal, _quantity("min"), as_text("60 min")] = Field(Decimal(60), description="minutes the walk may take")
    pace: Pace = Field(Pace(), description="the presenter's pace")
    stops: tuple[Stop, ...] = Field(min_length=1, description="the stops, in order")

    @property
    def chief_date(self) -> date:
        """The date the site speaks of."""
        return self.main_date or self.dates[0]


@dataclass(frozen=True)
class Leg:
    """The way from one stop to the next (or from the start to the first): metres along the ground, metres of ascent."""

    metres: float
    ascent: float


@dataclass(frozen=True)
class Route:
    """A trail's way on the ground: its points as (longitude, latitude, elevation) and the leg to each stop, in order."""

    points: tuple[tuple[float, float, float | None], ...]
    legs: tuple[Leg, ...]
    metres: float
    ascent: float
