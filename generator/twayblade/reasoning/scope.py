"""Which taxa an occasion is about: what a trail shows, and every harmful plant that may stand there."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from twayblade.knowledge.library import Recorded
from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.trail import Listeners, Trail
from twayblade.knowledge.trait import EYE, Means
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.seeing import present


@dataclass(frozen=True)
class LeftOut:
    """A plant that an output does not cover: a profile's id or a name of the region's list, and why."""

    taxon: str | None
    recorded: Recorded | None
    why: str


def trail_taxa(trail: Trail) -> tuple[str, ...]:
    """The taxa a trail shows, each once, in the order they are met."""
    return tuple(dict.fromkeys(taxon for stop in trail.stops for taxon in stop.taxa))


def occasion_of(trail: Trail, on: date, means: frozenset[Means] | None = None, taxa: tuple[str, ...] | None = None) -> Occasion:
    """The occasion of a trail on a date. Children use their eyes alone, whatever else is brought."""
    allowed = frozenset(trail.means) & frozenset(EYE) if trail.listeners is Listeners.CHILDREN else frozenset(trail.means)
    return Occasion(on, allowed if means is None else means, trail.region, trail_taxa(trail) if taxa is None else taxa)


def covered(workspace: Workspace, trail: Trail, on: date) -> tuple[tuple[str, ...], tuple[LeftOut, ...]]:
    """The taxa a key for a trail must hold on a date, and what it leaves out of what is recorded in the region.

    It holds what the trail shows and can be seen then, and every plant with a profile that is harmful or has no
    hazard record, in flower or not:
    the date decides what can be shown, not what is there.
    """
    shown = trail_taxa(trail)
    harmful = [id_ for id_, taxon in workspace.taxa.items() if taxon.hazard_class.forbids_handling]
    held = tuple(id_ for id_ in dict.fromkeys((*shown, *harmful)) if id_ in harmful or present(workspace, workspace.taxa[id_], on, trail.region))
    region = workspace.regions[trail.region]
    listed = {entry.taxon for entry in region.recorded if entry.taxon}
    absent = [LeftOut(id_, None, "not to be seen then") for id_ in shown if id_ not in held]
    unprofiled = [LeftOut(None, entry, "no profile yet") for entry in region.recorded if not entry.taxon]
    elsewhere = [LeftOut(id_, None, "not on this trail") for id_ in sorted(listed - set(held) - set(shown)) if id_]
    return held, tuple(absent + elsewhere + unprofiled)


def nameable(workspace: Workspace, region_id: str | None) -> tuple[tuple[str, ...], tuple[LeftOut, ...]]:
    """The taxa that an unknown plant of a region is held against, whatever the date, and what is left out of the region's list.

    They are those with a profile that the list records or a trail there shows, and every one that is harmful or has no hazard record;
    without a list every taxon.
    """
    region = workspace.regions.get(region_id or "")
    if region is None or not region.recorded:
        return tuple(workspace.taxa), ()
    shown = {id_ for planned in workspace.trails.values() if planned.trail.region == region_id for id_ in trail_taxa(planned.trail)}
    held = shown | {entry.taxon for entry in region.recorded if entry.taxon}
    taxa = tuple(id_ for id_, taxon in workspace.taxa.items() if id_ in held or taxon.hazard_class.forbids_handling)
    return taxa, tuple(LeftOut(None, entry, "no profile yet") for entry in region.recorded if not entry.taxon)
