"""Traits: each is there because some taxon has a value of it."""

from __future__ import annotations

from collections.abc import Iterator

from twayblade.knowledge.problem import Finding, Spot
from twayblade.knowledge.workspace import Workspace


def check_traits(workspace: Workspace) -> Iterator[Finding]:
    """Traits of which neither a taxon nor a group has a value."""
    used = {id_ for taxon in workspace.taxa.values() for id_ in taxon.values} | {id_ for group in workspace.groups.values() for id_ in group.values}
    for id_ in workspace.traits:
        if id_ not in used:
            hint = "give a taxon or a group a value of it, or take the trait out"
            yield Finding("trait-unused", Spot("content/traits.yml", (id_,), on_key=True), f"no taxon has a value of `{id_}`", (hint,))
