"""The truth of claims: one verdict each, the first that applies."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from twayblade.knowledge.profile import Contrast, Ground
from twayblade.knowledge.trait import Trait
from twayblade.knowledge.values import Entry, statements_of, states_named
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.compare import Difference, differences
from twayblade.reasoning.relation import Relation
from twayblade.reasoning.spread import Context, Extent, Spread, contexts, extent_of_ranges, extent_of_states, lies_in, meets, nothing, spreads, union


class Verdict(StrEnum):
    """The truth verdicts, in the order in which they apply."""

    WRONG = "wrong"
    NO_DATA = "no-data"
    DISPUTED = "disputed"
    DOES_NOT_SEPARATE = "does-not-separate"
    OVERSTATED = "overstated"
    HOLDS_USUALLY = "holds-usually"
    HOLDS_ONE_WAY = "holds-one-way"
    HOLDS = "holds"

    @property
    def is_good(self) -> bool:
        """Whether the claim may stand as it is worded."""
        return self in (Verdict.HOLDS, Verdict.HOLDS_ONE_WAY, Verdict.HOLDS_USUALLY)

    @property
    def rank(self) -> int:
        """0 for the worst verdict."""
        return list(Verdict).index(self)


@dataclass(frozen=True)
class Judged:
    """A claim that two taxa differ by a trait, its verdict, and the differences it was judged by."""

    first: str
    second: str
    ground: Ground
    verdict: Verdict
    differences: tuple[Difference, ...]
    side: str | None = None
    """For a wrong or overstated state: the taxon of which it is claimed."""


_GROUNDLESS = (Relation.UNKNOWN, Relation.NOT_COMPARABLE)


def verdict_of(difference: Difference) -> Verdict:
    """The verdict of the claim that a difference tells its taxa apart, worded as strongly as the data allow."""
    if difference.relation in _GROUNDLESS:
        return Verdict.NO_DATA
    if difference.disputed:
        return Verdict.DISPUTED
    if not difference.relation.is_contrast:
        return Verdict.DOES_NOT_SEPARATE
    return Verdict.HOLDS if difference.relation is Relation.SEPARATE else Verdict.HOLDS_USUALLY


def judge(workspace: Workspace, first: Taxon, second: Taxon, ground: Ground, region: str | None = None) -> Judged:
    """Judge one ground of a contrast by itself."""
    found = differences(workspace, first, second, ground.trait, region)
    if ground.part:
        part = _part(ground, (d.at for d in found))
        found = tuple(d for d in found if d.at.part == part) or (
            Difference(ground.trait, first.id, second.id, Context(ground.part), Relation.UNKNOWN),
        )
    for taxon, claimed in ((first, ground.this), (second, ground.other)):
        if claimed and not _may_be(workspace, taxon, ground, claimed, region):
            return Judged(first.id, second.id, ground, Verdict.WRONG, found, taxon.id)
    verdict = min((verdict_of(d) for d in found), key=lambda v: v.rank)
    if not verdict.is_good:
        return Judged(first.id, second.id, ground, verdict, found)
    if ground.how == "always" and verdict is Verdict.HOLDS_USUALLY:
        return Judged(first.id, second.id, ground, Verdict.OVERSTATED, found)
    for taxon, claimed in ((first, ground.this), (second, ground.other)):
        if claimed and not _covers(workspace, taxon, ground, claimed, region):
            return Judged(first.id, second.id, ground, Verdict.OVERSTATED, found, taxon.id)
    return Judged(first.id, second.id, ground, Verdict.HOLDS_USUALLY if ground.how == "usually" else verdict, found)


def judge_contrast(workspace: Workspace, taxon: Taxon, contrast: Contrast, region: str | None = None) -> tuple[Judged, ...]:
    """Judge a contrast: each ground alone, or, where they hold only together, all with the best verdict among them."""
    other = workspace.taxa[contrast.from_]
    judged = tuple(judge(workspace, taxon, other, ground, region) for ground in contrast.by)
    if not contrast.together or any(j.verdict is Verdict.WRONG for j in judged):
        return judged
    best = max((j.verdict for j in judged), key=lambda v: v.rank)
    return tuple(Judged(j.first, j.second, j.ground, best, j.differences, j.side) for j in judged)


def _part(ground: Ground, places: Iterable[Context]) -> str | None:
    """Where a claim about a part looks: at the part if it is told apart, else at what is said of the whole organ."""
    return ground.part if any(at.part == ground.part for at in places) else None


def claimed_extent(trait: Trait, claimed: tuple[str, ...]) -> Extent:
    """What some claimed states or ranges cover together."""
    extent = nothing(trait)
    for option in claimed:
        if trait.kind.is_numeric:
            spans = [s.span.outer for s in statements_of(Entry(is_=option), trait) if s.span]
            extent = union(extent, extent_of_ranges(spans, trait))
        else:
            extent = union(extent, extent_of_states(states_named(option, trait), trait))
    return extent


def _spreads(workspace: Workspace, taxon: Taxon, ground: Ground, region: str | None) -> list[Spread]:
    value, trait = taxon.values.get(ground.trait), workspace.traits[ground.trait]
    places = contexts([value], trait) if value else ()
    part = _part(ground, places)
    chosen = [at for at in places if ground.part is None or at.part == part]
    return [s for at in chosen for s in spreads(workspace, taxon, value, at, region)] if value else []


def _may_be(workspace: Workspace, taxon: Taxon, ground: Ground, claimed: tuple[str, ...], region: str | None) -> bool:
    """Whether each claimed state is in some alternative, each claimed range within outer limits. No data is no error."""
    trait, found = workspace.traits[ground.trait], _spreads(workspace, taxon, ground, region)
    if not found:
        return True
    may_show = lies_in if trait.kind.is_numeric else meets
    return all(any(may_show(claimed_extent(trait, (option,)), s.all) for s in found) for option in claimed)


def _covers(workspace: Workspace, taxon: Taxon, ground: Ground, claimed: tuple[str, ...], region: str | None) -> bool:
    """Whether the claimed states cover what the taxon shows: all of it, or for `usually` what is usual."""
    extent = claimed_extent(workspace.traits[ground.trait], claimed)
    found = _spreads(workspace, taxon, ground, region)
    return all(lies_in(s.usual if ground.how == "usually" else s.all, extent) for s in found)
