"""What is told with the name of a plant that was unknown: what would contradict it, and how it differs from the others still possible.

Like `naming` all is worked out for the whole year beforehand, and chosen by looking up and adding.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.profile import HazardClass
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.compare import Difference
from twayblade.reasoning.key_ends import Against, everything_against, worth_of_telling
from twayblade.reasoning.keys.objective import places
from twayblade.reasoning.naming import Given, Naming, Standing, names
from twayblade.reasoning.seeing import days_to_look, handling_forbidden, shared_days
from twayblade.reasoning.telling import observation, tell_apart

MOST_DOUBTS = 3
"""So many contradictions are told of a name (project default)."""

MOST_PARTINGS = 4
"""So many differences of a pair are kept to choose from on the day (project default)."""

TELLS_NOTHING = 10_000
WAS_ASKED = 1_000
A_PLANT = 10
"""What it counts that a contradiction betrays no plant still possible, that it was asked already, and what a plant that it betrays (times
its worth) counts against the rank by ease."""


@dataclass(frozen=True)
class Doubt:
    """A contradiction of a name. worth: for each taxon of the naming what it is worth that it betrays it; 0: it does not. days: on which
    it may be looked at, as bits of the circle. rank: the easier and surer, the lower."""

    against: Against
    observation: str
    worth: tuple[int, ...]
    days: int
    rank: int


@dataclass(frozen=True)
class Parting:
    """A difference that tells two taxa apart, and the days on which both show it, as bits of the circle."""

    difference: Difference
    observation: str
    days: int


def doubts(workspace: Workspace, occasion: Occasion) -> tuple[tuple[Doubt, ...], ...]:
    """For each taxon of an occasion everything that would contradict its name; the date does not matter."""
    undated = replace(occasion, on=None)
    forbidden = handling_forbidden(workspace, undated)
    return tuple(_doubts(workspace, undated, workspace.taxa[id_], forbidden) for id_ in occasion.taxa)


def _doubts(workspace: Workspace, occasion: Occasion, taxon: Taxon, forbidden: bool) -> tuple[Doubt, ...]:
    found = []
    for against in everything_against(workspace, occasion, taxon, forbidden):
        trait = workspace.traits[against.trait]
        worth = tuple(worth_of_telling(workspace, taxon.id, id_) if id_ in against.tells else 0 for id_ in occasion.taxa)
        days = days_to_look(workspace, (taxon,), trait, occasion)
        days &= shared_days(workspace, (taxon,), trait.stages, occasion.region, expected=True)
        rank = trait.ease.effort + round(5 * trait.misread) + len(against.states)
        found.append(Doubt(against, observation(workspace, against.trait), worth, days, rank))
    return tuple(found)


def choose_doubts(of_taxon: Sequence[Doubt], naming: Naming, given: Given, now: Standing, day: int) -> tuple[int, ...]:
    """The places of the contradictions of a name to tell on a day: those first that betray most of the other plants still possible, no two
    of one observation."""
    others = now.possible & ~sum(1 << n for n in names(naming, now))
    asked = {naming.looks[place].observation for place in given}

    def order(place: int) -> tuple[int, int]:
        doubt = of_taxon[place]
        worth = sum(doubt.worth[n] for n in places(others))
        return ((0 if worth else TELLS_NOTHING) + (WAS_ASKED if doubt.observation in asked else 0) + doubt.rank - A_PLANT * worth, place)

    chosen: dict[str, int] = {}
    for place in sorted((n for n, doubt in enumerate(of_taxon) if doubt.days >> day & 1), key=order):
        chosen.setdefault(of_taxon[place].observation, place)
    return tuple(chosen.values())[:MOST_DOUBTS]


def partings(workspace: Workspace, occasion: Occasion, first: str, second: str) -> tuple[Parting, ...]:
    """The differences of two taxa of an occasion that may be looked at, the best first; the date does not matter."""
    undated = replace(occasion, on=None)
    pair = (workspace.taxa[first], workspace.taxa[second])
    good = [t.difference for t in tell_apart(workspace, undated, [(first, second)]).told if t.is_usable]
    return tuple(
        Parting(d, observation(workspace, d.trait), days_to_look(workspace, pair, workspace.traits[d.trait], undated)) for d in good[:MOST_PARTINGS]
    )


def choose_parting(of_pair: Sequence[Parting], naming: Naming, given: Given, day: int) -> int | None:
    """The place of the difference to tell on a day: one that was not asked before any that was; None: none shows then."""
    asked = {naming.looks[place].observation for place in given}
    seen = [n for n, parting in enumerate(of_pair) if parting.days >> day & 1]
    return min(seen, key=lambda n: (of_pair[n].observation in asked, n), default=None)


def harmful_left(workspace: Workspace, naming: Naming, now: Standing) -> tuple[int, ...]:
    """The places of the harmful taxa that are possible but not named, the deadliest first."""
    worst_first = list(HazardClass)
    named = set(names(naming, now))
    left = [(worst_first.index(taxon.hazard_class), n) for n in places(now.possible) if n not in named and (taxon := _taxon(workspace, naming, n))]
    return tuple(n for hazard, n in sorted(left) if worst_first[hazard].is_harmful)


def _taxon(workspace: Workspace, naming: Naming, place: int) -> Taxon:
    return workspace.taxa[naming.taxa[place]]
