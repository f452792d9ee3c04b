"""The plan of a trail in words: its year as a chart and a table of dates, its pairs of look-alikes, the walk of a date."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from twayblade.knowledge.season import MONTHS, day_of, month_and_day
from twayblade.knowledge.workspace import PlannedTrail, Workspace
from twayblade.reasoning.light import Light
from twayblade.reasoning.lookalikes import Pair, look_alikes
from twayblade.reasoning.plan import SOON, DatePlan, Fleeting, PairYear, TaxonYear, Year, plan_date, plan_year
from twayblade.reasoning.seeing import runs
from twayblade.writing.choice_words import ChoiceWords, ChosenWalk, choose_walk
from twayblade.writing.light_words import daylight_shape
from twayblade.writing.phrases import date_words, days_words, listed, sentence

SHORT_MEANS = "Short: it flowers for a shorter time than most of the plants here."


@dataclass(frozen=True)
class Plan:
    """The plan of a trail: its year, what one date gives, and the walk of that date."""

    year: Year
    day: DatePlan
    walk: ChosenWalk


def write_plan(workspace: Workspace, planned: PlannedTrail, on: date, allows: int | None = None) -> Plan:
    """The plan of a trail: the year, and the walk of a date within some seconds (without them, what the trail allows)."""
    pairs = look_alikes(workspace)
    year = plan_year(workspace, planned, pairs)
    return Plan(year, plan_date(year, on), choose_walk(workspace, planned, on, allows, pairs))


class YearWords:
    """The words of a trail's year."""

    def __init__(self, workspace: Workspace, year: Year) -> None:
        self.workspace, self.year = workspace, year

    @property
    def months(self) -> tuple[str, ...]:
        """The months in the order of the chart."""
        first = self.year.first_month - 1
        return MONTHS[first:] + MONTHS[:first]

    def name(self, taxon: str) -> str:
        """The common name of a taxon."""
        return self.workspace.taxa[taxon].common_name

    def names(self, taxa: Sequence[str]) -> str:
        """The names of several taxa; `none` without any."""
        return listed(self.name(id_) for id_ in taxa) if taxa else "none"

    def flowering(self, taxon: TaxonYear) -> str:
        """When a taxon flowers, in words."""
        usual = f"in flower {days_words(runs(taxon.expected))}" if taxon.expected else ""
        outer = f"perhaps {days_words(runs(taxon.possible))}" if taxon.possible else ""
        return ", ".join(filter(None, [usual, outer]))

    def pair(self, pair: Pair) -> str:
        """The names of a pair."""
        return f"{self.name(pair.first)} and {self.name(pair.second)}"

    def compared_when(self, pair: PairYear) -> str:
        """When a pair compares at its best, as a clause."""
        if not pair.most:
            return "at no time is anything that tells them apart expected on both"
        count = _count(range(pair.most), "observation")
        return f"at their best {days_words(runs(pair.best_days))}, by up to {count}"

    def fleeting(self, found: Sequence[Fleeting]) -> str:
        """What must not be missed on a date, and why."""
        return ", ".join(f"{self.name(f.taxon)} ({_left_words(f)})" for f in found)

    def best(self) -> str:
        """The dates that give most, as a sentence; empty where no date gives more than another."""
        if not self.year.best or len(self.year.best) == len(self.year.dates):
            return ""
        first = self.year.best[0]
        when = listed((date_words(d.on) for d in self.year.best), "or")
        counts = f"{_count(first.pairs, 'pair')}, {_count(first.expected, 'plant')} in flower"
        return sentence(f"most look-alikes compare at their best on {when}: {counts}")

    def notes(self) -> tuple[str, ...]:
        """What the reader must know of the seasons used."""
        if not self.year.borrowed:
            return ()
        home = self.workspace.regions[self.workspace.home_region or ""].name
        names = listed(self.name(id_) for id_ in self.year.borrowed)
        return (sentence(f"no seasons are recorded here for {names}; those of {home} are used"),)


def _left_words(found: Fleeting) -> str:
    if found.days_left >= SOON:
        return "short"
    return "last day" if found.days_left == 0 else f"{found.days_left} {'day' if found.days_left == 1 else 'days'} left"


def _count(found: Sequence[object], one: str) -> str:
    return f"{len(found)} {one}" if len(found) == 1 else f"{len(found)} {one}s"


def date_shape(found: DatePlan) -> dict[str, Any]:
    """{on, of_trail, in_flower, perhaps, pairs, not_to_be_missed}."""
    day = day_of(found.on)
    return {
        "on": found.on.isoformat(),
        "of_trail": found.is_of_trail,
        "in_flower": list(found.expected),
        "perhaps": list(found.possible),
        "pairs": [{"taxa": [p.pair.first, p.pair.second], "observations": p.contrasts(day)} for p in found.pairs],
        "not_to_be_missed": [{"taxon": f.taxon, "days_left": f.days_left, "short": f.is_short} for f in found.fleeting],
    }


def light_shape(light: Light | None, planned: PlannedTrail) -> dict[str, Any] | None:
    """{sunrise and sunset, stops: [{id, at, height, direction, towards}]}; null where it is not known."""
    if light is None:
        return None
    stops = [
        {
            "id": planned.trail.stops[s.stay.number].id,
            "at": s.comes.isoformat(timespec="minutes"),
            "height": round(s.sun.height, 1),
            "direction": round(s.sun.direction, 1),
            "towards": s.in_picture is not None,
        }
        for s in light.stops
    ]
    return {**daylight_shape(light.daylight), "stops": stops}


def plan_shape(workspace: Workspace, plan: Plan) -> dict[str, Any]:
    """{trail, flowering, pairs, dates, borrowed, day, walk, light}."""
    year = plan.year
    return {
        "trail": year.planned.id,
        "flowering": [{"taxon": t.taxon, "usual": _spans(t.expected), "perhaps": _spans(t.possible)} for t in year.taxa],
        "pairs": [{"taxa": [p.pair.first, p.pair.second], "most": p.most, "best": _spans(p.best_days)} for p in year.pairs],
        "dates": [date_shape(found) for found in year.dates],
        "borrowed": list(year.borrowed),
        "day": date_shape(plan.day),
        "walk": ChoiceWords(workspace, plan.walk).shape(),
        "light": light_shape(plan.walk.light, year.planned),
    }


def _spans(days: int) -> list[list[str]]:
    """Days as spans of `month-day`, both ends included."""
    return [["{:02d}-{:02d}".format(*month_and_day(day)) for day in span] for span in runs(days)]
