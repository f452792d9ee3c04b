"""What a key to a set of taxa costs at the least: Huffman's bound, with what it takes to tell each taxon from its hardest partner.

Take taxa of which each two can be told apart. Follow each along the way on which it stays longest with the partner that it is hardest to
tell from. That way has a couplet that sets the two apart, at the price of the best signs for that pair at least; every other couplet
on it costs at least what the easiest pair costs, or, where the taxon goes several ways, as much again on the way left out. The lengths of
the ways are those of a tree, and of all trees Huffman's (1952) has the least sum of length x weight.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterable, Sequence
from itertools import combinations_with_replacement

from twayblade.reasoning.keys.objective import Objective, Sign, places
from twayblade.reasoning.keys.reader import wrong_turn

PAIRS_UP_TO = 64
"""For more taxa pairs are not priced one by one; the bound is then the weaker one of the cheapest sign."""


def huffman(weights: Iterable[float], leads: int = 2) -> float:
    """The least sum of weight x length of way over all trees of at most so many branches (Huffman 1952, Proc. IRE 40:1098)."""
    heap = list(weights)
    if len(heap) < 2:
        return 0.0
    while (len(heap) - 1) % (leads - 1):
        heap.append(0.0)
    heapq.heapify(heap)
    total = 0.0
    while len(heap) > 1:
        joined = sum(heapq.heappop(heap) for _ in range(min(leads, len(heap))))
        total += joined
        heapq.heappush(heap, joined)
    return total


class Bound:
    """The least cost of a key to each set of taxa, as a proven bound."""

    def __init__(self, signs: Sequence[Sign], objective: Objective) -> None:
        count = len(objective.likely)
        everything = (1 << count) - 1
        self._objective = objective
        self._leads = max((len(sign.leads) for sign in signs), default=2)
        self._told: dict[int, float] = {}
        self._known_steps: dict[frozenset[tuple[float, float]], tuple[tuple[float, float], ...]] = {}
        apart = [_set_apart(sign, everything, count) for sign in signs]
        separable = [0] * count
        for masks in apart:
            for place in range(count):
                separable[place] |= masks[place]
        self._inseparable = [everything & ~separable[place] & ~(1 << place) for place in range(count)]
        self._with_partner = sum(1 << place for place in range(count) if self._inseparable[place])
        if count <= PAIRS_UP_TO:
            self._prices = [self._by_partner(signs, apart, place) for place in range(count)]
        else:
            steps = _cheapest({(sign.effort, sign.misread) for sign in signs}, objective)
            self._prices = [[(self._price(place, steps), everything)] for place in range(count)]

    def _price(self, place: int, steps: tuple[tuple[float, float], ...]) -> float:
        o = self._objective
        return o.likely[place] * min((o.length * effort + o.wrong[place] * chance for effort, chance in steps), default=0.0)

    def _by_partner(self, signs: Sequence[Sign], apart: list[list[int]], place: int) -> list[tuple[float, int]]:
        """The least price of a couplet that tells a taxon from others: prices, rising, each with the partners it holds for."""
        kinds: dict[int, set[tuple[float, float]]] = {}
        for sign, masks in zip(signs, apart, strict=True):
            for other in places(masks[place]):
                kinds.setdefault(other, set()).add((sign.effort, sign.misread))
        found: dict[float, int] = {}
        for other, pairs in kinds.items():
            price = self._price(place, self._steps(frozenset(pairs)))
            found[price] = found.get(price, 0) | 1 << other
        return sorted(found.items())

    def _steps(self, kinds: frozenset[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
        if kinds not in self._known_steps:
            self._known_steps[kinds] = _cheapest(kinds, self._objective)
        return self._known_steps[kinds]

    def pair(self, first: int, second: int) -> float:
        """What the best couplet costs that tells two taxa apart; 0 if none does."""
        return sum(
            next((price for price, partners in self._prices[one] if partners >> other & 1), 0.0) for one, other in ((first, second), (second, first))
        )

    def least(self, taxa: int) -> float:
        """What a key to the taxa costs at the least."""
        known = self._told.get(taxa)
        if known is None:
            known = self._told[taxa] = self._least(self._clique(taxa) if taxa & self._with_partner else taxa)
        return known

    def _clique(self, taxa: int) -> int:
        """Taxa of a set of which each two can be told apart."""
        left = taxa
        for place in places(taxa & self._with_partner):
            if left >> place & 1:
                left &= ~self._inseparable[place]
        return left

    def _least(self, taxa: int) -> float:
        if not taxa & (taxa - 1):
            return 0.0
        easiest, more = [], 0.0
        for place in places(taxa):
            prices = self._prices[place]
            least = next(price for price, partners in prices if partners & taxa)
            easiest.append(least)
            if len(prices) > 1:
                more += next(price for price, partners in reversed(prices) if partners & taxa) - least
        return huffman(easiest, self._leads) + more


def _set_apart(sign: Sign, everything: int, count: int) -> list[int]:
    """For each taxon those that share no lead of a sign with it."""
    found = [everything] * count
    for lead in sign.leads:
        for place in places(lead):
            found[place] &= ~lead
    return found


def _cheapest(kinds: Iterable[tuple[float, float]], objective: Objective) -> tuple[tuple[float, float], ...]:
    """Effort and chance of a wrong turn of every couplet, of up to three signs of these kinds, that another does not beat in both."""
    found: list[tuple[float, float]] = []
    kinds = sorted(kinds)
    made = [
        (first[0] + objective.later * sum(effort for effort, _ in later), wrong_turn((first[1], *(misread for _, misread in later))))
        for first in kinds
        for size in range(min(objective.most_signs, 3))
        for later in combinations_with_replacement(kinds, size)
    ]
    for effort, chance in sorted(set(made)):
        if not found or chance < found[-1][1]:
            found.append((effort, chance))
    return tuple(found)
