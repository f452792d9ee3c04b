"""What a visit before the walk must find out: each plant of each stop, and the traits that the script of the day rests on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from twayblade.knowledge.profile import MOST_TELLING
from twayblade.knowledge.season import Phase
from twayblade.knowledge.trail import Stop
from twayblade.knowledge.workspace import PlannedTrail, Taxon, Workspace
from twayblade.reasoning.outline import Outline, stages_seen


@dataclass(frozen=True)
class TraitAsked:
    """A trait to look at on a plant, at a part of the organ or (None) on the whole of it.

    against: the taxa that the script tells the plant from by it; none: it is one of the signs the plant is known by.
    """

    trait: str
    part: str | None
    against: tuple[str, ...]


@dataclass(frozen=True)
class PlantAsked:
    """A plant to look for. hoped: the stage the walk would show it in; None where it is not to be seen then or has no seasons."""

    taxon: str
    hoped: str | None
    traits: tuple[TraitAsked, ...]


@dataclass(frozen=True)
class StopAsked:
    """A stop with its plants, in the order they are shown. number: from 1."""

    number: int
    stop: Stop
    plants: tuple[PlantAsked, ...]


@dataclass(frozen=True)
class Sheet:
    """The questions of a visit before the walk of a date."""

    trail: PlannedTrail
    on: date
    stops: tuple[StopAsked, ...]


def hoped_stage(workspace: Workspace, taxon: Taxon, on: date, region: str | None) -> str | None:
    """The stage a walk would show a taxon in on a date: of those expected (else possible) the one that shows most."""
    stages = stages_seen(workspace, taxon, on, region)
    expected = [stage for stage, phase in stages if phase is Phase.EXPECTED] or [stage for stage, _ in stages]
    return min(expected, key=MOST_TELLING.index, default=None)


def recce_sheet(workspace: Workspace, plan: Outline) -> Sheet:
    """The questions that the outline of a walk raises. A plant's traits are asked at the first stop that shows it."""
    rests_on = _rests_on(plan)
    asked: set[str] = set()
    stops = []
    for number, stop in enumerate(plan.trail.trail.stops, 1):
        plants = []
        for id_ in stop.taxa:
            traits = rests_on.get(id_, {}) if id_ not in asked else {}
            asked.add(id_)
            hoped = hoped_stage(workspace, workspace.taxa[id_], plan.on, plan.trail.trail.region)
            plants.append(PlantAsked(id_, hoped, tuple(TraitAsked(trait, part, tuple(sorted(others))) for (trait, part), others in traits.items())))
        stops.append(StopAsked(number, stop, tuple(plants)))
    return Sheet(plan.trail, plan.on, tuple(stops))


def _rests_on(plan: Outline) -> dict[str, dict[tuple[str, str | None], set[str]]]:
    """For each taxon the traits (and parts) the script rests on, with the taxa it is told from by them; contrasts first.

    A sign at a part is not asked beside the same trait of the whole organ.
    """
    found: dict[str, dict[tuple[str, str | None], set[str]]] = {}
    for taxon, trait, part, other in [*_contrasts(plan), *_signs(plan)]:
        if other is None and (trait, None) in found.get(taxon, {}):
            continue
        others = found.setdefault(taxon, {}).setdefault((trait, part), set())
        others.update([other] if other else [])
    return found


def _contrasts(plan: Outline) -> Iterator[tuple[str, str, str | None, str | None]]:
    """Both sides of every contrast: what is said of the plant met before must be true of it too."""
    for stop in plan.stops:
        for part in stop.parts:
            for contrast in part.contrasts:
                difference = contrast.told.difference
                yield difference.first, difference.trait, difference.at.part, difference.second
                yield difference.second, difference.trait, difference.at.part, difference.first


def _signs(plan: Outline) -> Iterator[tuple[str, str, str | None, str | None]]:
    for stop in plan.stops:
        for part in stop.parts:
            for shown in part.shown:
                yield shown.taxon, shown.trait, shown.at.part, None
