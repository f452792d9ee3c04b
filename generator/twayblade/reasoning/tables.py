"""What tells two taxa apart on every day of the year at once: the tables by which the scripts of the site only look up, filter and add."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import combinations

from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.season import YEAR
from twayblade.knowledge.trait import Means
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.compare import Difference
from twayblade.reasoning.seeing import days_allowed, handling_forbidden, is_too_fine, seen_days
from twayblade.reasoning.telling import is_tempting, slips, strength, tell_apart, temptation

AIDS = frozenset({Means.LENS, Means.RULER})
"""What a reader may carry beside the means of a walk."""


@dataclass(frozen=True)
class Dated:
    """A contrast with its days, as bits of the circle.

    usable: the days on which it may be used by the means of the occasion. aided: those on which it may with a lens, a ruler or a
    practised eye. expected: for each of the two taxa those on which its trait is expected there.
    """

    difference: Difference
    usable: int
    aided: int
    expected: tuple[int, int]

    def unsure(self, day: int) -> int:
        """On how many of the two taxa the trait is not expected on a day of the circle."""
        return sum(not days >> day & 1 for days in self.expected)


@dataclass(frozen=True)
class PairTable:
    """Two taxa, in the order of their ids: what tells them apart on some day, best first, and what never to rely on.

    The order is that of `tell_apart`, but for whether a trait is expected on a day: see `Dated.expected`.
    """

    first: str
    second: str
    contrasts: tuple[Dated, ...]
    never: tuple[Difference, ...]


def date_contrast(workspace: Workspace, difference: Difference, occasion: Occasion, forbidden: bool) -> Dated:
    """The days of a difference that tells its taxa apart. The date of the occasion does not matter."""
    trait = workspace.traits[difference.trait]
    taxa = (workspace.taxa[difference.first], workspace.taxa[difference.second])
    aided = replace(occasion, means=occasion.means | AIDS)
    by_eye, by_aid = (days_allowed(workspace, taxa, trait, o, forbidden) for o in (occasion, aided))
    expected = tuple(seen_days(workspace, taxon, trait.stages, occasion.region, expected=True) for taxon in taxa)
    return Dated(difference, 0 if is_too_fine(trait, difference) else by_eye, by_aid, (expected[0], expected[1]))


def pair_table(workspace: Workspace, first: str, second: str, occasion: Occasion) -> PairTable:
    """The table of two taxa. occasion: its means and its region."""
    first, second = sorted((first, second))
    undated = replace(occasion, on=None, taxa=(first, second))
    forbidden = handling_forbidden(workspace, undated)
    told = tell_apart(workspace, undated).told
    dated = [date_contrast(workspace, t.difference, undated, forbidden) for t in told if t.verdict.is_good]
    dated.sort(key=lambda d: (strength(workspace, d.difference), slips(workspace, d.difference)))
    never = [t.difference for t in told if is_tempting(workspace, t)]
    never.sort(key=lambda d: (temptation(workspace, d), slips(workspace, d)))
    return PairTable(first, second, tuple(d for d in dated if d.aided), tuple(never))


def pair_tables(workspace: Workspace, occasion: Occasion) -> tuple[PairTable, ...]:
    """The tables of every two taxa, by their ids. occasion: its means and its region."""
    return tuple(pair_table(workspace, first, second, occasion) for first, second in combinations(sorted(workspace.taxa), 2))


def best_through_year(workspace: Workspace, table: PairTable) -> tuple[tuple[Dated | None, int], ...]:
    """The best contrast of two taxa by what readers may use, with the days (bits) on which it is that; None where there is none."""
    found: dict[Dated | None, int] = {}
    for day in range(YEAR):
        usable = [dated for dated in table.contrasts if dated.usable >> day & 1]
        best = min(usable, key=lambda d: (strength(workspace, d.difference), d.unsure(day)), default=None)
        found[best] = found.get(best, 0) | 1 << day
    return tuple(found.items())
