"""What the page of a trail's plan shows: the year as bars, and for each date of the walk its light and what its time allows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from twayblade.knowledge.season import YEAR, day_of
from twayblade.knowledge.workspace import PlannedTrail, Workspace
from twayblade.reasoning.plan import DatePlan, TaxonYear, Year, plan_date
from twayblade.writing.choice_words import ASSUMED, ChoiceWords, ChosenWalk, choose_walk
from twayblade.writing.light_words import daylight_words, lacking_words, stop_light_words, warning_words
from twayblade.writing.plan_words import SHORT_MEANS, YearWords
from twayblade.writing.script import Script
from twayblade.writing.year_chart import along, first_day, month_starts, spans


@dataclass(frozen=True)
class Bars:
    """A taxon's bars in the chart, as (first day, days) counted from the chart's first day, and its flowering in words."""

    taxon: str
    usual: tuple[tuple[int, int], ...]
    perhaps: tuple[tuple[int, int], ...]
    words: str


@dataclass(frozen=True)
class DaySection:
    """A date of the walk: what it gives, its walk, and both in words."""

    day: DatePlan
    walk: ChosenWalk
    words: ChoiceWords
    light: str
    stop_lights: Mapping[int, tuple[str, str]]
    """The sun at each stop that is kept, and a warning or nothing, by the stop's place among the trail's stops; empty where not known."""


def plan_context(workspace: Workspace, year: Year, scripts: Mapping[tuple[str, date], Script]) -> dict[str, Any]:
    """Everything the page of a trail's plan shows. scripts: those of the trail's dates."""
    planned = year.planned
    words = YearWords(workspace, year)
    first = first_day(year.first_month)
    return {
        "year": year,
        "words": words,
        "length": YEAR,
        "bars": [_bars(words, taxon, first) for taxon in year.taxa],
        "months": month_starts(first),
        "walks": [along(day_of(on), first) for on in planned.trail.dates],
        "days": [_section(workspace, planned, plan_date(year, on), scripts[planned.id, on]) for on in planned.trail.dates],
        "assumed": ASSUMED,
        "short_means": SHORT_MEANS,
    }


def _section(workspace: Workspace, planned: PlannedTrail, day: DatePlan, script: Script) -> DaySection:
    walk = choose_walk(workspace, planned, day.on, script=script)
    stops = {s.stay.number: (stop_light_words(s), warning_words(planned, s)) for s in walk.light.stops} if walk.light else {}
    light = daylight_words(walk.light) if walk.light else lacking_words(planned)
    return DaySection(day, walk, ChoiceWords(workspace, walk), light, stops)


def _bars(words: YearWords, taxon: TaxonYear, first: int) -> Bars:
    return Bars(taxon.taxon, spans(taxon.expected, first), spans(taxon.possible, first), words.flowering(taxon))
