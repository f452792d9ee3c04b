"""Which taxa are look-alikes of each other: declared by an author, or found in the data."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.trait import Ease
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.compare import Difference, differences
from twayblade.reasoning.seeing import Bar, difference_bars, handling_forbidden, shared_days

FEW = 4
"""A pair of one group is found to be look-alikes if at most so many traits that are not hard to see tell them apart (project default)."""


@dataclass(frozen=True, order=True)
class Pair:
    """Two look-alikes, in the order of their ids."""

    first: str
    second: str
    declared: bool

    def other(self, taxon: str) -> str:
        """The one that is not `taxon`."""
        return self.second if taxon == self.first else self.first


def pair_differences(workspace: Workspace, first: Taxon, second: Taxon, region: str | None = None) -> tuple[Difference, ...]:
    """How two taxa stand to each other by every trait of which either has a value, in the order of the traits."""
    return tuple(
        d for id_ in workspace.traits if id_ in first.values or id_ in second.values for d in differences(workspace, first, second, id_, region)
    )


def look_alikes(workspace: Workspace) -> tuple[Pair, ...]:
    """Every pair of look-alikes, sorted."""
    declared = {tuple(sorted((taxon.id, c.from_))) for taxon in workspace.taxa.values() for c in taxon.profile.contrasts}
    pairs = [Pair(first, second, True) for first, second in declared]
    for first, second in combinations(sorted(workspace.taxa), 2):
        if (first, second) not in declared and _is_found(workspace, workspace.taxa[first], workspace.taxa[second]):
            pairs.append(Pair(first, second, False))
    return tuple(sorted(pairs))


def look_alikes_of(pairs: tuple[Pair, ...], taxon: str) -> tuple[str, ...]:
    """The look-alikes of one taxon, declared ones first."""
    own = [pair for pair in pairs if taxon in (pair.first, pair.second)]
    return tuple(pair.other(taxon) for pair in sorted(own, key=lambda p: (not p.declared, p.first, p.second)))


def _is_found(workspace: Workspace, first: Taxon, second: Taxon) -> bool:
    """Same group, some stage shown by both at one time, and few traits that are not hard to see tell them apart."""
    if first.profile.group is None or first.profile.group != second.profile.group:
        return False
    stages = set(first.profile.seasons) & set(second.profile.seasons)
    seasonless = not first.profile.seasons and not second.profile.seasons
    if not seasonless and not any(shared_days(workspace, (first, second), (stage,), None) for stage in stages):
        return False
    occasion = Occasion(None, taxa=(first.id, second.id))
    forbidden = handling_forbidden(workspace, occasion)
    telling = {
        d.trait
        for d in pair_differences(workspace, first, second)
        if d.is_firm_contrast
        and workspace.traits[d.trait].ease is not Ease.HARD
        and not difference_bars(workspace, d, occasion, forbidden) - {Bar.NOT_THEN}
    }
    return len(telling) <= FEW
