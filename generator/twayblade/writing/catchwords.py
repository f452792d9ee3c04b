"""A value in two to five words, for one who knows the plant and has to be reminded: `usually bristly, rarely hairless`."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from twayblade.knowledge.frequency import Frequency
from twayblade.knowledge.trait import Kind, Trait
from twayblade.knowledge.values import Statement
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.compare import may_lack_organ
from twayblade.reasoning.spread import Context, applicable, weighed
from twayblade.writing.phrases import interval_words, listed, states_words

MOST_WORDS = 5
"""So many words catchwords have, unless fewer would leave out what is usual (project default)."""


def catchwords(workspace: Workspace, taxon: Taxon, trait_id: str, at: Context, region: str | None = None, form: str | None = None) -> str:
    """What the taxon's value, or that of one of its forms, says. What is only usual stays so; all sides of a disagreement are told.

    Empty if nothing is recorded.
    """
    trait, value = workspace.traits[trait_id], taxon.values.get(trait_id)
    sides: list[str] = []
    for alternative in value.alternatives if value else ():
        said = applicable(alternative, at, region or workspace.home_region)
        said = [s for s in said if s.where.form == form] if form else [replace(s, frequency=weighed(s, taxon)) for s in said]
        if said:
            sides.append(_side(trait, said))
    some = " if any" if sides and trait.needs and may_lack_organ(workspace, taxon, trait, region) else ""
    return " or ".join(dict.fromkeys(sides)) + some + (" (sources differ)" if len(sides) > 1 else "")


def _side(trait: Trait, said: list[Statement]) -> str:
    positive = sorted((s for s in said if s.frequency is not Frequency.NEVER), key=lambda s: -s.frequency)
    if not positive:
        return f"never {_states(trait, said)}"
    top = [s for s in positive if s.frequency is positive[0].frequency]
    others = positive[len(top) :]
    is_loose = bool(others) or any(s.span and s.span.has_extremes for s in top)
    word = Frequency.USUALLY if is_loose and top[0].frequency is Frequency.ALWAYS else top[0].frequency
    words = _counted(word, _values(trait, top))
    for frequency in dict.fromkeys(s.frequency for s in others):
        more = f"{words}, {_counted(frequency, _values(trait, [s for s in others if s.frequency is frequency]))}"
        words = more if len(more.split()) <= MOST_WORDS else words
    return words


def _counted(frequency: Frequency, words: str) -> str:
    return words if frequency is Frequency.ALWAYS else f"{frequency.word} {words}"


def _values(trait: Trait, said: list[Statement]) -> str:
    if trait.kind.is_numeric:
        return listed(dict.fromkeys(interval_words(trait, s.span.inner) for s in said if s.span), "or")
    return _states(trait, said)


def _states(trait: Trait, said: Iterable[Statement]) -> str:
    """The states as sentences have them; by their plain names where those are too long."""
    states = {state for s in said for state in s.states}
    words = states_words(trait, states)
    if len(words.split()) < MOST_WORDS:
        return words
    order = list(trait.states)
    places = sorted(order.index(state) for state in states)
    names = [order[place].replace("-", " ") for place in places]
    is_run = trait.kind is Kind.ORDERED and len(places) > 1 and places[-1] - places[0] == len(places) - 1
    return f"{names[0]} to {names[-1]}" if is_run else listed(names, "or")
