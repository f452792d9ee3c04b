"""Traits and states: each is there because some taxon has a value of it."""

from __future__ import annotations

from collections.abc import Iterator

from twayblade.knowledge.problem import Finding, Spot
from twayblade.knowledge.record import records_in
from twayblade.knowledge.trait import Kind, Trait
from twayblade.knowledge.values import Entry, Statement, is_option, statements_of, states_named
from twayblade.knowledge.workspace import Workspace

_TRAITS = "content/traits.yml"


def check_traits(workspace: Workspace) -> Iterator[Finding]:
    """Traits of which neither a taxon nor a group has a value, and states that nothing names."""
    used = {id_ for taxon in workspace.taxa.values() for id_ in taxon.values} | {id_ for group in workspace.groups.values() for id_ in group.values}
    named = _states_named(workspace)
    for id_, trait in workspace.traits.items():
        if id_ not in used:
            hint = "give a taxon or a group a value of it, or take the trait out"
            yield Finding("trait-unused", Spot(_TRAITS, (id_,), on_key=True), f"no taxon has a value of `{id_}`", (hint,))
            continue
        for state in _idle(trait, {state for of, state in named if of == id_}):
            spot = Spot(_TRAITS, (id_, "states", state), on_key=True)
            message = f"no value, contrast or claim names the state `{state}` of `{id_}`, or a kind of it"
            yield Finding("state-unused", spot, message, ("give a taxon a value that names it, or take the state out",))


def _idle(trait: Trait, named: set[str]) -> list[str]:
    """The states that nothing needs.

    A state is needed if it is named, if a kind of it is, if it is one of only two (or of only two that are not kinds of
    others: what the other is said against), or if it lies in an order between two that are named.
    """
    needed = {state for state in trait.states if trait.atoms[state] & named}
    if len(trait.widest_states) == 2:
        needed |= set(trait.widest_states)
    if trait.kind is Kind.ORDERED and needed:
        places = [place for place, state in enumerate(trait.states) if state in needed]
        needed |= set(list(trait.states)[min(places) : max(places)])
    return [state for state in trait.states if state not in needed]


def _states_named(workspace: Workspace) -> frozenset[tuple[str, str]]:
    """Trait and state of everything that names a state: values of taxa and groups, grounds of contrasts, needs of traits."""
    traits = workspace.traits
    said = [(v.trait, s) for t in workspace.taxa.values() for v in t.values.values() for a in v.alternatives for s in a.statements]
    for group in workspace.groups.values():
        for id_, written in group.values.items():
            entries = [entry for _, entry in records_in(written) if isinstance(entry, Entry)]
            said += [(id_, s) for entry in entries if id_ in traits for s in _statements(entry, traits[id_])]
    named = {(id_, state) for id_, statement in said for state in statement.states}
    options = [(g.trait, option) for t in workspace.taxa.values() for c in t.profile.contrasts for g in c.by for option in (*g.this, *g.other)]
    options += [(trait.needs.trait, trait.needs.state) for trait in traits.values() if trait.needs and trait.needs.state]
    for id_, option in options:
        if id_ in traits and not traits[id_].kind.is_numeric and is_option(option, traits[id_]):
            named |= {(id_, state) for state in states_named(option, traits[id_])}
    return frozenset(named)


def _statements(entry: Entry, trait: Trait) -> tuple[Statement, ...]:
    """What an entry says; nothing where reading has refused it."""
    try:
        return statements_of(entry, trait)
    except ValueError:
        return ()
