"""Keys to more taxa than can be solved exactly: a bounded search, and the front door to both.

A plain key divides each set by the sign that sets most pairs apart for its price. The search follows the most promising divisions
of the largest sets, each with a plain key below it, keeps the best, and solves the small sets exactly. Its effort is counted in
sets looked at, never in seconds, so that the same data give the same key on any machine.
"""

from __future__ import annotations

from collections.abc import Sequence

from twayblade.reasoning.keys.objective import Objective, Sign
from twayblade.reasoning.keys.search import END, TRIED_UP_TO, Best, Exhausted, Plan, Search

EXACT_UP_TO = 16
"""Up to so many taxa the key is always of least cost."""

MOST_STEPS = 12_000
"""So many sets of taxa are looked at (project default)."""

_SMALL = 8
"""In a large key sets of up to so many taxa are solved exactly (project default)."""

_PROMISING = 4
"""So many divisions of a large set are followed (project default)."""


def best_key(signs: Sequence[Sign], objective: Objective, most_steps: int = MOST_STEPS) -> Plan:
    """The key to all taxa of an objective. Taxa end together only if no sign tells any two of them apart."""
    count = len(objective.likely)
    everything = (1 << count) - 1
    search = Search(signs, objective)
    if count <= TRIED_UP_TO:
        try:
            if count > EXACT_UP_TO:
                search.steps_left = most_steps
            if best := search.solve(everything):
                return search.plan(everything, best.cost)
        except Exhausted:
            pass
    search.steps_left = most_steps
    _Approach(search).settle(everything)
    return search.plan(everything, search.least(everything))


class _Approach:
    """The bounded search. Half of the steps go into large sets, the rest into solving small ones."""

    def __init__(self, search: Search) -> None:
        self._search = search
        self._plain: dict[int, Best] = {}
        self._enough = search.steps_left / 2

    def settle(self, everything: int) -> None:
        """Choose a division for every set that the key comes to, and put the choices where the search keeps its best."""
        chosen: dict[int, Best] = {}
        waiting = [everything]
        while waiting:
            taxa = waiting.pop(0)
            if taxa not in chosen:
                chosen[taxa] = best = self._choose(taxa)
                waiting += best.division.leads if best.division and taxa not in self._search.solved else ()
        for taxa in sorted(chosen, key=int.bit_count):
            self._search.solved.setdefault(taxa, self._summed(chosen[taxa], self._search.solved))

    def _choose(self, taxa: int) -> Best:
        if taxa.bit_count() <= _SMALL:
            try:
                return self._search.solve(taxa) or END
            except Exhausted:
                return self._plainly(taxa)
        if self._search.steps_left < self._enough:
            return self._plainly(taxa)
        found = [self._made(taxa, ways, leads) for ways in [self._search.divisions(taxa)] for leads in self._promising(ways)]
        for option in found:
            assert option.division
            for lead in option.division.leads:
                self._plainly(lead)
        return min((self._summed(option, self._plain) for option in found), key=lambda best: best.cost, default=END)

    def _plainly(self, everything: int) -> Best:
        """The plain key to a set, with what it costs."""
        waiting, order = [everything], []
        while waiting:
            taxa = waiting.pop()
            if taxa in self._plain:
                continue
            self._search.steps_left -= 1
            ways = self._search.divisions(taxa) if taxa & (taxa - 1) else {}
            leads = self._promising(ways, 1)
            self._plain[taxa] = best = self._made(taxa, ways, leads[0]) if leads else END
            order.append(taxa)
            waiting += best.division.leads if best.division else ()
        for taxa in sorted(order, key=int.bit_count):
            self._plain[taxa] = self._summed(self._plain[taxa], self._plain)
        return self._plain[everything]

    def _made(self, taxa: int, ways: dict[tuple[int, ...], tuple[int, int]], leads: tuple[int, ...]) -> Best:
        return self._search.divided(taxa, leads, *ways[leads])

    def _summed(self, best: Best, known: dict[int, Best]) -> Best:
        """A division with the cost of the keys below it."""
        if best.division is None:
            return best
        below = (self._search.value(known[lead], lead, best.trait) for lead in best.division.leads)
        return Best(best.division.price + sum(below), best.division, best.trait)

    def _promising(self, ways: dict[tuple[int, ...], tuple[int, int]], most: int = _PROMISING) -> list[tuple[int, ...]]:
        """The divisions that set the most pairs of taxa apart for their price."""

        def worth(leads: tuple[int, ...]) -> float:
            return -_pairs_apart(leads) / (self._search.difficulty(ways[leads][1]) or 1.0)

        return sorted(ways, key=lambda leads: (worth(leads), leads))[:most]


def _pairs_apart(leads: tuple[int, ...]) -> int:
    """How many pairs of taxa a division sets apart, counting those that stand on one lead only."""
    seen = shared = 0
    for lead in leads:
        shared |= seen & lead
        seen |= lead
    sizes = [(lead & ~shared).bit_count() for lead in leads]
    return (sum(sizes) ** 2 - sum(size * size for size in sizes)) // 2
