"""What a workspace covers: which of the plants recorded in a region have a profile, and how much each profile says."""

from __future__ import annotations

from dataclasses import dataclass

from twayblade.knowledge.library import Recorded
from twayblade.knowledge.profile import STAGES
from twayblade.knowledge.text import MEMORY
from twayblade.knowledge.workspace import Taxon, Workspace


@dataclass(frozen=True)
class ProfileCoverage:
    """How much a profile says: how many traits are on record, for which stages the year is, and which traits rest on memory alone."""

    taxon: Taxon
    traits: int
    stages: tuple[str, ...]
    from_memory: tuple[str, ...]


@dataclass(frozen=True)
class Coverage:
    """What is covered of a region. traits: how many there are.

    harmful, unassessed, others: what is recorded in the region and has no profile, by the hazard on its list. not_listed: what has a profile and
    is not on that list.
    """

    traits: int
    profiles: tuple[ProfileCoverage, ...]
    recorded: int
    described: int
    harmful: tuple[Recorded, ...]
    unassessed: tuple[Recorded, ...]
    others: tuple[Recorded, ...]
    not_listed: tuple[Taxon, ...]
    sources: int


def coverage(workspace: Workspace, region: str | None) -> Coverage:
    """What the workspace covers of a region."""
    known = workspace.regions.get(region or "")
    recorded = known.recorded if known else ()
    lacking = [entry for entry in recorded if not entry.taxon]
    listed = {entry.taxon for entry in recorded}
    return Coverage(
        len(workspace.traits),
        tuple(_profile(taxon) for taxon in workspace.taxa.values()),
        len(recorded),
        len(recorded) - len(lacking),
        tuple(entry for entry in lacking if entry.hazard.is_harmful),
        tuple(entry for entry in lacking if entry.hazard.forbids_handling and not entry.hazard.is_harmful),
        tuple(entry for entry in lacking if not entry.hazard.forbids_handling),
        tuple(taxon for taxon in workspace.taxa.values() if recorded and taxon.id not in listed),
        len(workspace.sources),
    )


def _profile(taxon: Taxon) -> ProfileCoverage:
    stages = tuple(stage for stage in STAGES if taxon.profile.seasons.get(stage))
    recalled = tuple(id_ for id_, value in taxon.values.items() if set(value.source) == {MEMORY})
    return ProfileCoverage(taxon, len(taxon.values), stages, recalled)
