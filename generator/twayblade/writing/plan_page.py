"""What the page of a trail's plan shows: the year as bars, and for each date of the walk its light and what its time allows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from twayblade.knowledge.season import MONTHS, WHOLE_YEAR, YEAR, day_of
from twayblade.knowledge.workspace import PlannedTrail, Workspace
from twayblade.reasoning.lookalikes import Pair
from twayblade.reasoning.plan import DatePlan, TaxonYear, plan_date, plan_year
from twayblade.reasoning.seeing import runs
from twayblade.writing.choice_words import ASSUMED, ChoiceWords, ChosenWalk, choose_walk
from twayblade.writing.light_words import daylight_words, lacking_words, stop_light_words, warning_words
from twayblade.writing.plan_words import SHORT_MEANS, YearWords
from twayblade.writing.script import Script


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


def plan_context(workspace: Workspace, planned: PlannedTrail, pairs: tuple[Pair, ...], scripts: Mapping[tuple[str, date], Script]) -> dict[str, Any]:
    """Everything the page of a trail's plan shows. scripts: those of the trail's dates."""
    year = plan_year(workspace, planned, pairs)
    words = YearWords(workspace, year)
    first = day_of(date(2024, year.first_month, 1))
    return {
        "year": year,
        "words": words,
        "length": YEAR,
        "bars": [_bars(words, taxon, first) for taxon in year.taxa],
        "months": [(month, _along(day_of(date(2024, month, 1)), first)) for month in (MONTHS.index(name) + 1 for name in words.months)],
        "walks": [_along(day_of(on), first) for on in planned.trail.dates],
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
    return Bars(taxon.taxon, _spans(taxon.expected, first), _spans(taxon.possible, first), words.flowering(taxon))


def _along(day: int, first: int) -> int:
    """How far along the chart a day lies."""
    return (day - first) % YEAR


def _spans(days: int, first: int) -> tuple[tuple[int, int], ...]:
    """Days (bits) as spans along the chart, none of them broken by its end."""
    turned = (days >> first | days << (YEAR - first)) & WHOLE_YEAR
    return tuple((start, end - start + 1) for start, end in _in_order(turned))


def _in_order(days: int) -> list[tuple[int, int]]:
    """Runs of days, that over the end of the circle cut in two."""
    found = []
    for start, end in runs(days):
        found += [(start, end)] if start <= end else [(0, end), (start, YEAR - 1)]
    return sorted(found)
