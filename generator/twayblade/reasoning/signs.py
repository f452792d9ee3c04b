"""Shortest sets of signs: the fewest and easiest traits that together tell a taxon from every other one of a scope."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.trait import Trait
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.compare import Difference, Settling, differences, excludes
from twayblade.reasoning.seeing import Bar, days_to_look, difference_bars, handling_forbidden, runs
from twayblade.reasoning.spread import Context

MOST_SETS = 8
"""So many best sets are listed at the most (project default)."""

_A_TRAIT = 10.0
_ONLY_USUALLY = 4.0
"""What one more trait costs, and what it costs more if it tells only usually: effort (1 to 3) and misreading decide the rest.
Project defaults: a trait less is worth more than any ease."""


@dataclass(frozen=True)
class Sign:
    """A trait, at a part and stage of its organ, that tells a taxon from some others; usually: from these only usually."""

    trait: str
    at: Context
    excludes: frozenset[str]
    usually: frozenset[str]
    cost: float


@dataclass(frozen=True)
class Remaining:
    """A taxon that nothing tells apart on the occasion. later: the traits that would at another time, with the days (runs).

    means: the traits that would by other means than the occasion allows (never such as are unsafe there).
    """

    taxon: str
    later: tuple[tuple[str, tuple[tuple[int, int], ...]], ...]
    means: tuple[str, ...]


@dataclass(frozen=True)
class SignSets:
    """The best sets of signs of a taxon (all of equal cost, at most MOST_SETS), and what none of them excludes."""

    taxon: str
    sets: tuple[tuple[Sign, ...], ...]
    remaining: tuple[Remaining, ...]


def sign_sets(workspace: Workspace, taxon: Taxon, occasion: Occasion, among: Iterable[str] | None = None) -> SignSets:
    """The smallest and easiest sets of signs that tell a taxon from the other taxa of an occasion. Exact.

    among: from these of them alone, but on the same occasion.
    """
    scope = occasion.taxa if among is None else tuple(among)
    others = tuple(id_ for id_ in scope if id_ != taxon.id)
    forbidden = handling_forbidden(workspace, occasion)
    signs, barred = _signs(workspace, taxon, others, occasion, forbidden)
    reachable = frozenset().union(*(s.excludes for s in signs))
    remaining = tuple(_remaining(workspace, taxon, id_, barred.get(id_, []), occasion) for id_ in others if id_ not in reachable)
    return SignSets(taxon.id, cheapest_covers(signs, reachable), remaining)


_Barred = dict[str, list[tuple[str, frozenset[Bar]]]]


def _signs(workspace: Workspace, taxon: Taxon, others: tuple[str, ...], occasion: Occasion, forbidden: bool) -> tuple[list[Sign], _Barred]:
    excluded_by: dict[tuple[str, Context], set[str]] = {}
    usually: dict[tuple[str, Context], set[str]] = {}
    barred: _Barred = {}
    for other in others:
        for d, says in _excluding(workspace, taxon, workspace.taxa[other], occasion.region):
            if bars := difference_bars(workspace, d, occasion, forbidden):
                barred.setdefault(other, []).append((d.trait, bars))
                continue
            key = (d.trait, d.at)
            excluded_by.setdefault(key, set()).add(other)
            if says is Settling.USUALLY:
                usually.setdefault(key, set()).add(other)
    signs = []
    for key, excluded in excluded_by.items():
        only_usually = frozenset(usually.get(key, set()))
        share = len(only_usually) / len(excluded)
        signs.append(Sign(*key, frozenset(excluded), only_usually, _cost(workspace.traits[key[0]]) + _ONLY_USUALLY * share))
    return signs, barred


def _excluding(workspace: Workspace, taxon: Taxon, other: Taxon, region: str | None) -> tuple[tuple[Difference, Settling], ...]:
    """The differences by which what is usual in a taxon excludes another, surely or usually, on whatever day."""
    key = ("excluding", id(taxon), id(other), region)
    if key not in workspace.worked_out:  # the taxa are kept with it, so that no other things get their ids
        found = ((d, excludes(workspace, d, taxon.id, region)) for id_ in taxon.values for d in differences(workspace, taxon, other, id_, region))
        workspace.worked_out[key] = (taxon, other, tuple((d, says) for d, says in found if d.is_firm_contrast and says is not Settling.OPEN))
    kept: tuple[tuple[Difference, Settling], ...] = workspace.worked_out[key][2]
    return kept


def _cost(trait: Trait) -> float:
    return _A_TRAIT + trait.ease.effort + 5 * float(trait.misread)


def _remaining(workspace: Workspace, taxon: Taxon, other: str, barred: list[tuple[str, frozenset[Bar]]], occasion: Occasion) -> Remaining:
    later, means = [], []
    pair = (taxon, workspace.taxa[other])
    for trait_id, bars in barred:
        if bars == {Bar.NOT_THEN}:
            days = runs(days_to_look(workspace, pair, workspace.traits[trait_id], occasion))
            if days:
                later.append((trait_id, days))
        elif Bar.UNSAFE not in bars and Bar.NOT_BY_THOSE_MEANS in bars and Bar.NOT_THEN not in bars:
            means.append(trait_id)
    return Remaining(other, tuple(dict.fromkeys(later)), tuple(dict.fromkeys(means)))


def cheapest_covers(signs: list[Sign], wanted: frozenset[str]) -> tuple[tuple[Sign, ...], ...]:
    """All sets of signs of least cost that exclude every wanted taxon (at most MOST_SETS), found by branch and bound."""
    search = _Search(signs, wanted)
    search.cover(wanted, (), 0.0)
    ordered = sorted(search.best, key=lambda chosen: [(s.trait, str(s.at)) for s in chosen])
    return tuple(ordered[:MOST_SETS])


class _Search:
    """Branches on the taxon with the fewest signs against it; gives up what cannot be as cheap as the best found."""

    def __init__(self, signs: list[Sign], wanted: frozenset[str]) -> None:
        self.against = {taxon: sorted((s for s in signs if taxon in s.excludes), key=lambda s: s.cost) for taxon in wanted}
        self.bound = float("inf")
        self.best: list[tuple[Sign, ...]] = []

    def cover(self, wanted: frozenset[str], chosen: tuple[Sign, ...], cost: float) -> None:
        if not wanted:
            self._keep(tuple(sorted(chosen, key=lambda s: (s.trait, str(s.at)))), cost)
            return
        hardest = min(sorted(wanted), key=lambda taxon: len(self.against[taxon]))
        for sign in self.against[hardest]:
            rest = wanted - sign.excludes
            at_least = cost + sign.cost + max((self.against[taxon][0].cost for taxon in rest), default=0.0)
            if at_least <= self.bound + _EQUAL:
                self.cover(rest, (*chosen, sign), cost + sign.cost)

    def _keep(self, chosen: tuple[Sign, ...], cost: float) -> None:
        if cost < self.bound - _EQUAL:
            self.bound, self.best = cost, []
        if chosen not in self.best:
            self.best.append(chosen)


_EQUAL = 1e-9
"""Costs that differ by no more are equal."""
