"""What the page of a trail shows: its way drawn, its stops in order, and what each of its dates gives."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from twayblade.knowledge.trail import Stop
from twayblade.knowledge.workspace import PlannedTrail
from twayblade.reasoning.plan import DatePlan, Year, plan_date
from twayblade.writing.labels import Labels
from twayblade.writing.script import Script
from twayblade.writing.trail_drawing import StopOnWay, draw_profile, draw_way, stops_on_way


@dataclass(frozen=True)
class ShownStop:
    """A stop on the page; way: where it comes, if there is a route."""

    stop: Stop
    way: StopOnWay | None


@dataclass(frozen=True)
class ShownDate:
    """A date of the walk on the page: its script, and what is in flower."""

    script: Script
    day: DatePlan


def trail_context(planned: PlannedTrail, year: Year, scripts: Mapping[tuple[str, date], Script], label: Labels) -> dict[str, Any]:
    """Everything the page of a trail shows. scripts: those of its dates."""
    route = planned.route
    ways = stops_on_way(route) if route else [None] * len(planned.trail.stops)
    stops = [ShownStop(stop, way) for stop, way in zip(planned.trail.stops, ways, strict=True)]
    return {
        "planned": planned,
        "trail": planned.trail,
        "stops": stops,
        "way": draw_way(route) if route else None,
        "profile": draw_profile(route) if route else None,
        "in_words": _in_words(stops, label),
        "days": [ShownDate(scripts[planned.id, on], plan_date(year, on)) for on in planned.trail.dates],
    }


def _in_words(stops: list[ShownStop], label: Labels) -> str:
    """The stops in order with their distances, for those who do not see the drawing."""
    told = []
    for shown in stops:
        if shown.way:
            metres = round(shown.way.metres, -1)
            where = label.plain("walk.after", metres=f"{metres:g}") if metres else label.plain("walk.at_start")
            told.append(f"{shown.way.number} {shown.stop.title}, {where}")
    return "; ".join(told)
