"""What a profile says in itself: names that fit, seasons in order, sources given."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from twayblade.knowledge.name import Fit
from twayblade.knowledge.problem import Finding, Path, Spot
from twayblade.knowledge.season import YEAR, describe_day
from twayblade.knowledge.values import Disagreement, Entry, Written
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.spread import contexts, extent_of_states, meets, spreads

_NEVER = re.compile(r"\bnever\b")


def check_profiles(workspace: Workspace) -> Iterator[Finding]:
    """Findings about single profiles and groups."""
    for taxon in workspace.taxa.values():
        yield from _names(workspace, taxon)
        yield from _seasons(workspace, taxon)
        yield from _sources(taxon.document, taxon.profile.values)
    for id_, group in workspace.groups.items():
        yield from _sources(f"content/groups/{id_}.yml", group.values)


def _names(workspace: Workspace, taxon: Taxon) -> Iterator[Finding]:
    """A name called apt although the trait it rests on usually says otherwise."""
    for number, part in enumerate(taxon.profile.name_meaning):
        if part.fit is not Fit.APT or not part.rests_on:
            continue
        trait_id, _, state = (piece.strip() for piece in part.rests_on.partition("="))
        trait, value = workspace.traits.get(trait_id), taxon.values.get(trait_id)
        if trait is None or state not in trait.state_ids:
            continue
        wanted = extent_of_states([trait.state_ids[state]], trait)
        usual = [s.usual for at in contexts([value], trait) for s in spreads(workspace, taxon, value, at, None)] if value else []
        if not any(meets(extent, wanted) for extent in usual):
            said = f"`{trait_id}` is `{value.written}`" if value else f"`{trait_id}` has no value"
            spot = Spot(taxon.document, ("name-meaning", number, "fit"))
            yield Finding(
                "name-claim", spot, f"`{part.part}` is called apt for `{state}`, but {said}", ("call it obscure or misleading, or correct the value",)
            )


def _seasons(workspace: Workspace, taxon: Taxon) -> Iterator[Finding]:
    flowering = workspace.windows(taxon, "flower", None)
    for stage in ("young-fruit", "ripe-fruit"):
        for fruit in workspace.windows(taxon, stage, None):
            for flower in flowering:
                if flower.when.is_whole_year or fruit.when.is_whole_year:
                    continue
                ahead = (flower.when.start - fruit.when.start) % YEAR
                if 0 < ahead < YEAR // 2:
                    message = f"`{stage}` from {describe_day(fruit.when.start)} comes before `flower` from {describe_day(flower.when.start)}"
                    yield Finding("season-order", Spot(taxon.document, ("seasons", stage)), message)


def _sources(document: str, values: Mapping[str, Written]) -> Iterator[Finding]:
    hint = "add its keys in brackets; `[memory]` for what is known from memory only"
    for id_, written in values.items():
        for way, entry in _entries(written, ("values", id_)):
            if not entry.source and not _NEVER.search(entry.is_):  # never without a source is another rule
                yield Finding("source-missing", Spot(document, way), f"`{id_}` has no source", (hint,))


def _entries(written: Written, way: Path) -> Iterator[tuple[Path, Entry]]:
    """Every entry of a value with the way to it."""
    if isinstance(written, Entry):
        yield way, written
    elif isinstance(written, Disagreement):
        yield from (((*way, "alternatives", n), entry) for n, entry in enumerate(written.alternatives))
    else:
        for number, item in enumerate(written):
            yield from _entries(item, (*way, number))
