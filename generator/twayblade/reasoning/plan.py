"""Which dates give which walk: what is in flower, which look-alikes compare at their best, what must not be missed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from statistics import median

from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.season import WHOLE_YEAR, YEAR, Phase, day_of
from twayblade.knowledge.trail import Trail
from twayblade.knowledge.workspace import PlannedTrail, Taxon, Workspace
from twayblade.reasoning.claims import verdict_of
from twayblade.reasoning.compare import Difference
from twayblade.reasoning.lookalikes import Pair, pair_differences
from twayblade.reasoning.scope import occasion_of, trail_taxa
from twayblade.reasoning.seeing import days_to_look, difference_bars, handling_forbidden, seen_days, shared_days
from twayblade.reasoning.telling import MOST_BEST, observation

SHOWN_STAGE = "flower"
"""The stage a year of plants is planned by."""

SOON = 14
SHORT = 0.75
"""A plant in flower must not be missed if its usual flowering ends within so many days, or lasts at most so much of the
median flowering of the walk's plants (project defaults)."""


@dataclass(frozen=True)
class TaxonYear:
    """When a taxon flowers, as bits of the circle of days: usual days, and those on which it may flower besides."""

    taxon: str
    expected: int
    possible: int

    @property
    def length(self) -> int:
        """How many days it usually flowers."""
        return self.expected.bit_count()

    def phase(self, day: int) -> Phase | None:
        """Whether it is expected in flower on a day, possibly so, or neither."""
        if self.expected >> day & 1:
            return Phase.EXPECTED
        return Phase.POSSIBLE if self.possible >> day & 1 else None

    def days_left(self, day: int) -> int:
        """Days from one on which it usually flowers to the last such day without a break."""
        return next((n for n in range(YEAR) if not self.expected >> (day + n + 1) % YEAR & 1), YEAR)


@dataclass(frozen=True)
class PairYear:
    """When a pair of look-alikes can be compared: by each observation, the days (bits) on which it is expected on both."""

    pair: Pair
    observations: tuple[int, ...]

    def contrasts(self, day: int) -> int:
        """By how many observations the two can be told apart on a day, each expected on both."""
        return sum(days >> day & 1 for days in self.observations)

    @cached_property
    def most(self) -> int:
        """The most such observations on any day of the year."""
        return max((self.contrasts(day) for day in range(YEAR)), default=0)

    @cached_property
    def best_days(self) -> int:
        """The days on which they compare at their best, as bits: by as many observations as ever, or by as many as are
        told of a pair."""
        enough = min(self.most, MOST_BEST)
        return sum(1 << day for day in range(YEAR) if enough and self.contrasts(day) >= enough)


@dataclass(frozen=True)
class Fleeting:
    """A plant in flower that must not be missed: how many days are left, and whether its flowering is a short one."""

    taxon: str
    days_left: int
    is_short: bool


@dataclass(frozen=True)
class DatePlan:
    """What a date gives: plants expected in flower and perhaps so, pairs at their best, plants that must not be missed."""

    on: date
    is_of_trail: bool
    expected: tuple[str, ...]
    possible: tuple[str, ...]
    pairs: tuple[PairYear, ...]
    fleeting: tuple[Fleeting, ...]


@dataclass(frozen=True)
class Year:
    """The year of a trail: its plants (those with a flowering on record), pairs and dates, and those of its taxa whose
    seasons are recorded only elsewhere."""

    planned: PlannedTrail
    taxa: tuple[TaxonYear, ...]
    pairs: tuple[PairYear, ...]
    dates: tuple[DatePlan, ...]
    borrowed: tuple[str, ...]
    first_month: int
    """The month a chart of it begins with, 1 or 7: a summer is not cut in two."""

    @property
    def best(self) -> tuple[DatePlan, ...]:
        """The dates on which most pairs compare at their best, and of these those with most plants in flower."""
        richest = max(((len(d.pairs), len(d.expected)) for d in self.dates), default=(0, 0))
        return tuple(d for d in self.dates if (len(d.pairs), len(d.expected)) == richest) if any(richest) else ()


def plan_year(workspace: Workspace, planned: PlannedTrail, pairs: Sequence[Pair]) -> Year:
    """The year of a trail. pairs: the look-alikes of the workspace."""
    trail = planned.trail
    taxa = trail_taxa(trail)
    flowering = [found for id_ in taxa if (found := _taxon_year(workspace, workspace.taxa[id_], trail)).expected | found.possible]
    compared = tuple(_pair_year(workspace, pair, trail) for pair in pairs if {pair.first, pair.second} <= set(taxa))
    year = Year(planned, tuple(flowering), compared, (), _borrowed(workspace, trail), first_month(workspace, trail.region))
    return replace(year, dates=tuple(plan_date(year, on) for on in candidate_dates(trail)))


def first_month(workspace: Workspace, region: str | None) -> int:
    """The month a chart of the year begins with in a region: July in the south, so that no summer is cut in two."""
    known = workspace.regions.get(region or "")
    return 7 if known and known.hemisphere == "south" else 1


def candidate_dates(trail: Trail) -> tuple[date, ...]:
    """The first and the sixteenth of every month of the year of the walk's chief date, and all dates of the walk."""
    halves = {date(trail.chief_date.year, month, day) for month in range(1, 13) for day in (1, 16)}
    return tuple(sorted(halves | set(trail.dates)))


def _taxon_year(workspace: Workspace, taxon: Taxon, trail: Trail) -> TaxonYear:
    stages = (SHOWN_STAGE,)
    usual = seen_days(workspace, taxon, stages, trail.region, expected=True)
    return TaxonYear(taxon.id, usual, seen_days(workspace, taxon, stages, trail.region) & ~usual)


def _pair_year(workspace: Workspace, pair: Pair, trail: Trail) -> PairYear:
    first, second = workspace.taxa[pair.first], workspace.taxa[pair.second]
    everywhere = replace(occasion_of(trail, trail.chief_date), on=None)
    there = _expected_days(workspace, first, trail) & _expected_days(workspace, second, trail)
    found: dict[str, int] = {}
    for difference in pair_differences(workspace, first, second, trail.region):
        if verdict_of(difference).is_good and (days := best_days(workspace, difference, everywhere) & there):
            seen = observation(workspace, difference.trait)
            found[seen] = found.get(seen, 0) | days
    return PairYear(pair, tuple(found.values()))


def best_days(workspace: Workspace, difference: Difference, occasion: Occasion) -> int:
    """The days (bits) on which a difference may be used and its trait is expected on both taxa; the occasion's date does not matter."""
    undated = replace(occasion, on=None)
    if difference_bars(workspace, difference, undated, handling_forbidden(workspace, undated)):
        return 0
    trait = workspace.traits[difference.trait]
    taxa = (workspace.taxa[difference.first], workspace.taxa[difference.second])
    return days_to_look(workspace, taxa, trait, undated) & shared_days(workspace, taxa, trait.stages, occasion.region, expected=True)


def _expected_days(workspace: Workspace, taxon: Taxon, trail: Trail) -> int:
    """The days on which a taxon is expected in any stage; every day without seasons."""
    return seen_days(workspace, taxon, tuple(taxon.profile.seasons), trail.region, expected=True) if taxon.profile.seasons else WHOLE_YEAR


def plan_date(year: Year, on: date) -> DatePlan:
    """What any date of a trail's year gives."""
    day, flowering = day_of(on), year.taxa
    expected = [t for t in flowering if t.phase(day) is Phase.EXPECTED]
    possible = [t for t in flowering if t.phase(day) is Phase.POSSIBLE]
    short = median(t.length for t in flowering) * SHORT if flowering else 0
    fleeting = [Fleeting(t.taxon, t.days_left(day), t.length <= short) for t in expected if t.length < YEAR]
    chosen = sorted((f for f in fleeting if f.is_short or f.days_left < SOON), key=lambda f: f.days_left)
    at_best = tuple(p for p in year.pairs if p.best_days >> day & 1)
    return DatePlan(on, on in year.planned.trail.dates, _ids(expected), _ids(possible), at_best, tuple(chosen))


def _ids(found: Sequence[TaxonYear]) -> tuple[str, ...]:
    return tuple(t.taxon for t in found)


def _borrowed(workspace: Workspace, trail: Trail) -> tuple[str, ...]:
    """The trail's taxa with seasons, none of them recorded for its region: those of the home region are used."""
    if trail.region == workspace.home_region:
        return ()
    seasonal = [t for id_ in trail_taxa(trail) if (t := workspace.taxa[id_]).profile.seasons]
    return tuple(t.id for t in seasonal if not any(w.region == trail.region for found in t.profile.seasons.values() for w in found))
