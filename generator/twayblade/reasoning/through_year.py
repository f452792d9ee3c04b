"""What changes through the year, worked out once for each stretch of days in which nothing can change."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from datetime import date
from typing import TypeVar

from twayblade.knowledge.season import YEAR, month_and_day
from twayblade.knowledge.workspace import Workspace

_LEAP_YEAR = 2024
"""A year that has every day of the circle."""

_Value = TypeVar("_Value", bound=Hashable)


def turning_days(workspace: Workspace, region: str | None) -> tuple[int, ...]:
    """The days of the circle on which something begins to be seen or expected, or no longer is; and the first of the year."""
    windows = (w.when for taxon in workspace.taxa.values() for stage in taxon.profile.seasons for w in workspace.windows(taxon, stage, region))
    found = {day % YEAR for w in windows for day in (w.outer_start, w.start, w.end + 1, w.outer_end + 1)}
    return tuple(sorted({0, *found}))


def through_year(workspace: Workspace, region: str | None, value_of: Callable[[date], _Value]) -> tuple[tuple[_Value, int], ...]:
    """Every value that something takes in a year, with its days as bits of the circle, by its first day.

    value_of: may depend on the date only through what can be seen and what is expected then.
    """
    turning = turning_days(workspace, region)
    found: dict[_Value, int] = {}
    for first, after in zip(turning, (*turning[1:], YEAR), strict=True):
        value = value_of(date(_LEAP_YEAR, *month_and_day(first)))
        found[value] = found.get(value, 0) | (1 << after) - (1 << first)
    return tuple(found.items())
