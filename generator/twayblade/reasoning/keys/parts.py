"""A stronger lower bound: the taxa are put into parts, and the best key to what a set has of each part is found apart.

The cost of a key is a sum over taxa, and what is left of a key when only some taxa are looked at is a key to these. So a set costs no
less than its parts do, each by itself. A part has few subsets, and taxa that are hard to tell apart are put into one.
"""

from __future__ import annotations

from math import inf

from twayblade.reasoning.keys.bound import Bound
from twayblade.reasoning.keys.couplets import Couplets
from twayblade.reasoning.keys.objective import Objective

_OF_A_PART = 10
"""The most taxa of a part: it has 1,024 sets."""


class PartsBound:
    """The least cost of a key to each set of taxa, by parts or by Huffman's bound, whichever says more. For signs of two leads only."""

    def __init__(self, bound: Bound, couplets: Couplets, objective: Objective) -> None:
        self._bound = bound
        self._couplets = couplets
        self._objective = objective
        self._parts = self._partition(len(objective.likely))
        self._told: dict[int, float] = {}
        self._of_part: dict[int, float] = {0: 0.0}

    def _partition(self, count: int) -> tuple[int, ...]:
        """The taxa in parts: each starts with the taxon hardest to tell from the others left, and takes in the hardest to tell from it."""
        left, parts = list(range(count)), []
        while left:
            part: list[int] = []
            while left and len(part) < _OF_A_PART:
                beside = part or left
                hardest = max(left, key=lambda place: sum(self._bound.pair(place, other) for other in beside))
                left.remove(hardest)
                part.append(hardest)
            parts.append(sum(1 << place for place in part))
        return tuple(parts)

    def least(self, taxa: int) -> float:
        """What a key to the taxa costs at the least."""
        known = self._told.get(taxa)
        if known is None:
            known = self._told[taxa] = max(self._bound.least(taxa), sum(self._within(taxa & part) for part in self._parts))
        return known

    def _within(self, taxa: int) -> float:
        """The least cost of a key to some taxa of one part, each couplet at a price that no choice of later signs can undercut."""
        known = self._of_part.get(taxa)
        if known is not None:
            return known
        o, best, found = self._objective, inf, []
        length = o.length * o.weight(taxa)
        for leads, (kind, exact) in self._couplets.divisions(taxa).items():
            price = self._couplets.cheapest(taxa, kind, exact, length, o.wrong_weight(taxa & ~(leads[0] & leads[1])))
            found.append((price + sum(map(self._bound.least, leads)), price, leads))
        for hoped, price, leads in sorted(found):
            if hoped >= best:
                break
            best = min(best, price + sum(map(self._within, leads)))
        self._of_part[taxa] = least = best if found else 0.0
        return least
