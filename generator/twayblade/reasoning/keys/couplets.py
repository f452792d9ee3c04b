"""The couplets that may divide a set of taxa: which signs divide it alike, and which may stand second and third.

Signs are ranked, the surest and easiest first, and sets of signs are bits by rank. A later sign must be one that every taxon of the set
shows, on leads among those on which it stands anyhow; whether it is, is looked up for eight taxa at a time.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import permutations

from twayblade.reasoning.keys.objective import Objective, Sign, places
from twayblade.reasoning.keys.reader import wrong_turn

_TABLES_UP_TO = 32
"""For more taxa conflicts are looked through one by one."""


class Couplets:
    """The couplets that signs can make."""

    def __init__(self, signs: Sequence[Sign], objective: Objective) -> None:
        self._objective = objective
        self._order = sorted(range(len(signs)), key=lambda n: (objective.difficulty(signs[n]), n))
        self._ranked = [signs[n] for n in self._order]
        self._every = (1 << len(signs)) - 1
        self._count = len(objective.likely)
        traits: dict[str, int] = {}
        organs: dict[str, int] = {}
        kinds: dict[tuple[tuple[int, ...], int], int] = {}
        for rank, sign in enumerate(self._ranked):
            traits[sign.trait] = traits.get(sign.trait, 0) | 1 << rank
            organs[sign.organ] = organs.get(sign.organ, 0) | 1 << rank
            alike = (tuple(sorted(sign.leads)), sign.barred)
            kinds[alike] = kinds.get(alike, 0) | 1 << rank
        self._of_trait = [traits[sign.trait] for sign in self._ranked]
        self._of_organ = [organs[sign.organ] for sign in self._ranked]
        self._kinds = tuple((leads, barred, kind, exact) for kind, ((leads, barred), exact) in enumerate(kinds.items()))
        self.hopes = [self._hope(rank) for rank in range(len(signs))]
        """For each first sign by rank, an effort and a chance of a wrong turn that no couplet of it can undercut, and who may not show it."""
        self._conflicts: dict[int, list[int]] = {}
        self._tables: dict[int, list[list[int]]] = {}

    def _hope(self, rank: int) -> tuple[float, float, int]:
        first = self._ranked[rank]
        later = sorted(sign.misread for sign in self._ranked if sign.trait != first.trait)[: self._objective.most_signs - 1]
        return first.effort, min(wrong_turn((first.misread, *later[:count])) for count in range(len(later) + 1)), first.silent

    def trait(self, rank: int) -> str:
        """The trait of a sign by rank."""
        return self._ranked[rank].trait

    def divisions(self, taxa: int) -> dict[tuple[int, ...], tuple[int, int]]:
        """Every way of dividing a set: its leads, with the number of a kind of sign that does it, and all signs that do."""
        found: dict[tuple[int, ...], tuple[int, int]] = {}
        for leads, barred, kind, exact in self._kinds:
            if taxa & barred:
                continue
            if len(leads) == 2:
                first, second = taxa & leads[0], taxa & leads[1]
                if first == taxa or second == taxa:
                    continue
                divided: tuple[int, ...] = (first, second) if first < second else (second, first)
            else:
                divided = tuple(sorted(taxa & lead for lead in leads))
                if not divided[0] or taxa in divided or len(set(divided)) < len(divided):
                    continue
            known = found.get(divided)
            found[divided] = (kind, exact) if known is None else (known[0], known[1] | exact)
        return found

    def difficulty(self, exact: int) -> float:
        """How hard the surest and easiest of some signs is."""
        return self._objective.difficulty(self._ranked[(exact & -exact).bit_length() - 1])

    def surest(self, taxa: int, exact: int) -> int:
        """Of some signs the surest and easiest, by rank: one that every taxon shows, if there is one."""
        shown = next((rank for rank in places(exact) if not taxa & self._ranked[rank].silent), None)
        return (exact & -exact).bit_length() - 1 if shown is None else shown

    def made(self, taxa: int, kind: int, first: int, weight: float, wrong: float) -> tuple[tuple[int, ...], float, float]:
        """The couplet of a first sign and each later sign that makes it cheaper: its signs by number, its effort, the chance of a wrong turn.

        Later signs are tried in their order, those of another organ before the others.
        """
        o, sign = self._objective, self._ranked[first]
        effort = sign.effort + (o.not_showing if taxa & sign.silent else 0.0)
        if o.most_signs == 1 or not wrong:
            return (self._order[first],), effort, sign.misread
        chosen: tuple[int, ...] = (first,)
        misread: tuple[float, ...] = (sign.misread,)
        chance = sign.misread
        fitting = self._fitting(taxa, kind) & ~self._of_trait[first]
        organs = self._of_organ[first]
        while fitting and len(chosen) < o.most_signs:
            free = fitting & ~organs or fitting
            rank = (free & -free).bit_length() - 1
            more = self._ranked[rank]
            with_it = effort + o.later * more.effort + (o.same_organ if organs >> rank & 1 else 0.0)
            misread = (*misread, more.misread)
            with_it_chance = wrong_turn(misread)
            if weight * with_it + wrong * with_it_chance >= weight * effort + wrong * chance:
                break
            effort, chance = with_it, with_it_chance
            chosen = (*chosen, rank)
            fitting &= ~self._of_trait[rank]
            organs |= self._of_organ[rank]
        return tuple(self._order[rank] for rank in chosen), effort, chance

    def cheapest(self, taxa: int, kind: int, exact: int, weight: float, wrong: float) -> float:
        """A price that no couplet undercuts that divides the taxa by one of these signs, whichever later signs it has."""
        o = self._objective
        fitting = [self._ranked[rank] for rank in places(self._fitting(taxa, kind))]
        efforts, misreads = sorted(sign.effort for sign in fitting), sorted(sign.misread for sign in fitting)
        found = []
        for first in (self._ranked[rank] for rank in places(exact)):
            effort = first.effort + (o.not_showing if taxa & first.silent else 0.0)
            for later in range(min(o.most_signs, len(fitting) + 1)):
                chance = wrong_turn((first.misread, *misreads[:later]))
                found.append(weight * (effort + o.later * sum(efforts[:later])) + wrong * chance)
        return min(found)

    def _fitting(self, taxa: int, kind: int) -> int:
        """The signs that may stand second or third in a couplet that divides the taxa as a kind of sign does."""
        if self._count <= _TABLES_UP_TO:
            low, second, third, high = self._tables.get(kind) or self._table(kind)
            conflicts = low[taxa & 255] | second[taxa >> 8 & 255] | third[taxa >> 16 & 255] | high[taxa >> 24]
        else:
            conflicts = 0
            for n, against in enumerate(self._against(kind)):
                if against & taxa:
                    conflicts |= 1 << n
        free, found = ~conflicts, 0
        for _ in permutations(self._kinds[kind][0]):
            found |= free
            free >>= len(self._ranked)
        return found & self._every

    def _against(self, kind: int) -> list[int]:
        """For each order of a kind's leads, and in it for each sign, the taxa that bar the sign from standing second."""
        if kind not in self._conflicts:
            leads, everything = self._kinds[kind][0], (1 << self._count) - 1
            self._conflicts[kind] = [
                _outside(sign, order) if len(sign.leads) == len(order) else everything for order in permutations(leads) for sign in self._ranked
            ]
        return self._conflicts[kind]

    def _table(self, kind: int) -> list[list[int]]:
        """The signs that are barred by each set of the first eight taxa, the next eight, and so on."""
        barred = [0] * _TABLES_UP_TO
        for n, against in enumerate(self._against(kind)):
            for place in places(against):
                barred[place] |= 1 << n
        tables = []
        for start in range(0, _TABLES_UP_TO, 8):
            table = [0] * 256
            for taxa in range(1, 256):
                table[taxa] = table[taxa & (taxa - 1)] | barred[start + (taxa & -taxa).bit_length() - 1]
            tables.append(table)
        self._tables[kind] = tables
        return tables


def _outside(sign: Sign, leads: tuple[int, ...]) -> int:
    """The taxa that do not show a sign, or that it puts on a lead on which they do not stand."""
    found = sign.silent
    for own, lead in zip(sign.leads, leads, strict=True):
        found |= own & ~lead
    return found
