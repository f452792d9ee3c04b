"""The key of least cost over plain signs, by dynamic programming over sets of taxa with a proven lower bound."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

from twayblade.reasoning.keys.bound import Bound
from twayblade.reasoning.keys.couplets import Couplets
from twayblade.reasoning.keys.objective import Objective, Sign
from twayblade.reasoning.keys.parts import PartsBound


@dataclass(frozen=True, slots=True)
class Division:
    """A couplet: the sets of taxa on its leads, its signs by number, the first first, its effort, the chance of a wrong turn, and its price."""

    leads: tuple[int, ...]
    signs: tuple[int, ...]
    effort: float
    chance: float
    price: float


Node = tuple[int, int]
"""A couplet of a plan: its taxa, and 0, or 1 if they are divided otherwise because the couplet before asks of the trait."""


@dataclass(frozen=True)
class Plan:
    """A key: the division of each node, with the nodes its leads go to, and what it costs.

    at_least: what no key can cost less than; the key is optimal if that is its cost.
    """

    root: Node
    couplets: dict[Node, tuple[Division, tuple[Node, ...]]]
    cost: float
    at_least: float

    @property
    def is_optimal(self) -> bool:
        """Whether no key costs less."""
        return self.at_least >= self.cost - _EQUAL * max(1.0, self.cost)

    @property
    def gap(self) -> float:
        """By what share of its cost the key may be dearer than the best one."""
        return 0.0 if self.is_optimal else 1 - self.at_least / self.cost


TRIED_UP_TO = 32
"""Up to so many taxa the key of least cost is looked for."""

_EQUAL = 1e-9


@dataclass(slots=True)
class Best:
    """The best division of a set, and the best whose first sign is of another trait."""

    cost: float = inf
    division: Division | None = None
    trait: str = ""
    other_cost: float = inf
    other: Division | None = None


END = Best(0.0)


class Exhausted(Exception):
    """The steps allowed are used up."""


class Search:
    """Finds the best key to sets of taxa. steps_left: how many more sets may be looked at."""

    def __init__(self, signs: Sequence[Sign], objective: Objective, most_steps: float = inf) -> None:
        self.signs = tuple(signs)
        self._objective = objective
        bound = Bound(signs, objective)
        self.steps_left = most_steps
        self.solved: dict[int, Best] = {}
        self._proven: dict[int, float] = {}
        self._couplets = Couplets(signs, objective)
        small = len(objective.likely) <= TRIED_UP_TO and all(len(sign.leads) == 2 for sign in signs)
        self.least = PartsBound(bound, self._couplets, objective).least if small else bound.least
        self._wrong: dict[int, float] = {}

    def solve(self, taxa: int, enough: float = inf) -> Best | None:
        """The best key to a set of taxa, exactly; None if it costs that much or more."""
        known = self.solved.get(taxa)
        if known is None and self._proven.get(taxa, 0.0) < enough:
            found = self._solve(taxa, enough)
            if found.cost < enough:
                known = self.solved[taxa] = found
            else:
                self._proven[taxa] = enough
        return known

    def _solve(self, taxa: int, enough: float) -> Best:
        if not taxa & (taxa - 1):
            return END
        self.take_step()
        o, known, least_of, wrong_of = self._objective, self.solved, self._least, self._wrong
        hopes, length = self._couplets.hopes, o.length * o.weight(taxa)
        best, again, found = Best(), o.again * length, []
        for leads, (kind, exact) in self._couplets.divisions(taxa).items():  # written out: this runs a million times
            shared = leads[0] & leads[1] if len(leads) == 2 else _on_all(leads)
            wrong = wrong_of.get(taxa ^ shared)
            if wrong is None:
                wrong = wrong_of[taxa ^ shared] = o.wrong_weight(taxa ^ shared)
            below = 0.0
            for lead in leads:
                below += known[lead].cost if lead in known else least_of(lead)
            while exact:
                first = (exact & -exact).bit_length() - 1
                exact &= exact - 1
                effort, chance, silent = hopes[first]
                if taxa & silent:
                    effort += o.not_showing
                found.append((length * effort + wrong * chance + below, below, leads, kind, first, wrong))
        for hoped, below, leads, kind, first, wrong in sorted(found):
            if best.division is not None:
                enough = min(best.other_cost, best.cost + again)
            if hoped >= enough:
                break
            trait = self._couplets.trait(first)
            most = enough if trait != best.trait else best.cost
            signs, effort, chance = self._couplets.made(taxa, kind, first, length, wrong)
            price = length * effort + wrong * chance
            if price + below < most and (cost := self._exact_cost(leads, price, trait, most)) < most:
                _put(best, cost, Division(leads, signs, effort, chance, price), trait)
        return best if found else END

    def _exact_cost(self, leads: tuple[int, ...], price: float, trait: str, too_much: float) -> float:
        """What a division costs with the best keys below it; given up as soon as it is too much."""
        least = [self._least(lead) for lead in leads]
        cost = price + sum(least)
        for lead, hoped in sorted(zip(leads, least, strict=True)):
            best = self.solve(lead, too_much - cost + hoped) if cost < too_much else None
            if best is None:
                return inf
            cost += self.value(best, lead, trait) - hoped
        return cost

    def _least(self, taxa: int) -> float:
        known = self.solved.get(taxa)
        return known.cost if known else max(self.least(taxa), self._proven.get(taxa, 0.0))

    def value(self, best: Best, taxa: int, before: str) -> float:
        """What a set costs below a couplet that asks of a trait."""
        if best.division is None or best.trait != before:
            return best.cost
        return min(best.other_cost, best.cost + self._objective.again * self._objective.length * self._objective.weight(taxa))

    def take_step(self) -> None:
        """Count a set looked at."""
        self.steps_left -= 1
        if self.steps_left < 0:
            raise Exhausted

    def divided(self, taxa: int, leads: tuple[int, ...], kind: int, exact: int) -> Best:
        """A set divided so by the surest and easiest sign; its cost is that of the couplet alone."""
        length, wrong = self._objective.length * self._objective.weight(taxa), self._objective.wrong_weight(taxa & ~_on_all(leads))
        first = self._couplets.surest(taxa, exact)
        signs, effort, chance = self._couplets.made(taxa, kind, first, length, wrong)
        price = length * effort + wrong * chance
        return Best(price, Division(leads, signs, effort, chance, price), self._couplets.trait(first))

    def difficulty(self, exact: int) -> float:
        """How hard the surest and easiest of some signs is."""
        return self._couplets.difficulty(exact)

    def divisions(self, taxa: int) -> dict[tuple[int, ...], tuple[int, int]]:
        """Every way of dividing a set (`Couplets.divisions`)."""
        return self._couplets.divisions(taxa)

    def plan(self, everything: int, at_least: float) -> Plan:
        """The key to all taxa, read off the best divisions found."""
        couplets: dict[Node, tuple[Division, tuple[Node, ...]]] = {}
        root = (everything, 0)
        waiting = [root]
        while waiting:
            node = waiting.pop()
            best = self.solved[node[0]]
            division = best.other if node[1] else best.division
            if division is None or node in couplets:
                continue
            trait = self.signs[division.signs[0]].trait
            below = tuple((lead, self._which(lead, trait)) for lead in division.leads)
            couplets[node] = (division, below)
            waiting += below
        return Plan(root, couplets, self.solved[everything].cost, at_least)

    def _which(self, taxa: int, before: str) -> int:
        best = self.solved.get(taxa, END)
        return int(best.other is not None and self.value(best, taxa, before) == best.other_cost < inf and best.trait == before)


def _put(best: Best, cost: float, division: Division, trait: str) -> None:
    if cost < best.cost:
        if best.division is not None and trait != best.trait:
            best.other_cost, best.other = best.cost, best.division
        best.cost, best.division, best.trait = cost, division, trait
    elif trait != best.trait and cost < best.other_cost:
        best.other_cost, best.other = cost, division


def _on_all(leads: tuple[int, ...]) -> int:
    found = leads[0]
    for lead in leads[1:]:
        found &= lead
    return found
