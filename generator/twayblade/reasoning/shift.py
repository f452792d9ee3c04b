"""How early or late a year runs, as far as what was seen bounds it. Nothing is shifted by it without being told."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from itertools import combinations

from twayblade.knowledge.observation import PlantSeen
from twayblade.knowledge.season import YEAR, day_of
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.seeing import runs, seen_days

MOST_DAYS = 60
"""A year is not thought to run earlier or later than this (project default). The largest change of a first flowering that Fitter &
Fitter 2002 (Science 296:1689-1691) give for one species between decades is 55 days (from memory)."""

ENOUGH = 3
"""So many taxa must agree before an estimate is given (project default)."""

Shifts = int
"""Shifts of the year in days, one bit each, counted round the circle: bit 3 is three days late, bit 363 three days early."""

_THINKABLE: Shifts = sum(1 << days % YEAR for days in range(-MOST_DAYS, MOST_DAYS + 1))


@dataclass(frozen=True)
class Bounds:
    """What one taxon says of the year: the shifts that make all that was seen of it possible, and those that make it expected.

    Both within the shifts thinkable. A taxon whose possible shifts are none was seen in a stage that no such year brings.
    """

    taxon: str
    possible: Shifts
    expected: Shifts


@dataclass(frozen=True)
class Estimate:
    """How the year runs: days late (early if negative), from lowest to highest, and their middle."""

    lowest: int
    middle: float
    highest: int

    @property
    def spread(self) -> float:
        """How far the estimate may be off on either side, in days."""
        return (self.highest - self.lowest) / 2


@dataclass(frozen=True)
class YearShift:
    """What all taxa say together.

    bounds: of each taxon that bounds anything. agree: the largest set of taxa that one shift can explain (what such sets have in
    common, if there are several); against: the others. possible, expected: the shifts common to the taxa that agree.
    conflicts: pairs that no shift explains together. estimate: only where enough taxa agree and no other set of as many does.
    """

    bounds: tuple[Bounds, ...]
    agree: tuple[str, ...]
    against: tuple[str, ...]
    conflicts: tuple[tuple[str, str], ...]
    possible: Shifts
    expected: Shifts
    estimate: Estimate | None


def shifts_for(days: int, on: date) -> Shifts:
    """The shifts that bring a day into some days of an ordinary year (bits of the circle)."""
    day = day_of(on)
    return sum(1 << shift for shift in range(YEAR) if days >> (day - shift) % YEAR & 1)


def in_order(shifts: Shifts) -> tuple[tuple[int, int], ...]:
    """Shifts as runs of lowest and highest, in days late, from the earliest year to the latest."""
    return tuple(sorted((_signed(first), _signed(first) + (last - first) % YEAR) for first, last in runs(shifts)))


def _signed(shift: int) -> int:
    return shift if shift <= YEAR // 2 else shift - YEAR


def taxon_bounds(workspace: Workspace, seen: Iterable[PlantSeen], region: str | None) -> tuple[Bounds, ...]:
    """What each taxon says of the year. Left out are taxa of which no stage with a window on record was seen on a known day, and
    those that would be seen so in any year (leaves all the year round)."""
    found: dict[str, tuple[Shifts, Shifts]] = {}
    for plant in seen:
        for stages in plant.stages if plant.on else ():
            assert plant.on
            taxon = workspace.taxa[plant.taxon]
            recorded = tuple(stage for stage in sorted(stages) if workspace.windows(taxon, stage, region))
            if len(recorded) < len(stages):
                continue  # it may have been a stage of which nothing is known
            may, usual = (seen_days(workspace, taxon, recorded, region, expected=firm) for firm in (False, True))
            possible, expected = found.get(plant.taxon, (_THINKABLE, _THINKABLE))
            found[plant.taxon] = (possible & shifts_for(may, plant.on), expected & shifts_for(usual, plant.on))
    bounds = (Bounds(taxon, possible, expected) for taxon, (possible, expected) in found.items())
    return tuple(b for b in bounds if b.possible != _THINKABLE)


def year_shift(workspace: Workspace, seen: Iterable[PlantSeen], region: str | None) -> YearShift:
    """How early or late the year may run, from the stages seen against the windows on record."""
    bounds = taxon_bounds(workspace, seen, region)
    sets = {frozenset(b.taxon for b in bounds if b.possible >> shift & 1) for shift in range(YEAR) if _THINKABLE >> shift & 1}
    largest = max(map(len, sets))
    best = [found for found in sets if len(found) == largest]
    chosen = best[0] if len(best) == 1 else frozenset.intersection(*best)
    agree = tuple(b for b in bounds if b.taxon in chosen)
    possible = expected = _THINKABLE if agree else 0
    for b in agree:
        possible, expected = possible & b.possible, expected & b.expected
    conflicts = tuple((a.taxon, b.taxon) for a, b in combinations(bounds, 2) if not a.possible & b.possible)
    firm = len(best) == 1 and len(agree) >= ENOUGH
    names = tuple(b.taxon for b in agree)
    against = tuple(b.taxon for b in bounds if b.taxon not in chosen)
    return YearShift(bounds, names, against, conflicts, possible, expected, _estimate(expected or possible) if firm else None)


def _estimate(shifts: Shifts) -> Estimate:
    found = in_order(shifts)
    lowest, highest = found[0][0], found[-1][1]
    return Estimate(lowest, (lowest + highest) / 2, highest)
