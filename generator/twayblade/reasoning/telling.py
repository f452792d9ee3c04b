"""The one answer to "tell these apart": what separates taxa on an occasion, what later, what never to rely on."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from itertools import combinations

from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.season import Phase
from twayblade.knowledge.trait import Ease
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.claims import Verdict, verdict_of
from twayblade.reasoning.compare import Difference, differences
from twayblade.reasoning.relation import Relation
from twayblade.reasoning.seeing import Bar, difference_bars, handling_forbidden, trait_seen
from twayblade.reasoning.spread import Extent, spreads


@dataclass(frozen=True)
class Told:
    """One difference with everything an output needs: its verdict, its bars, and when it can be seen on each taxon."""

    difference: Difference
    verdict: Verdict
    bars: frozenset[Bar]
    seen: Mapping[str, Phase | None]

    @property
    def is_usable(self) -> bool:
        """True and not barred: it may be said and asked on this occasion."""
        return self.verdict.is_good and not self.bars


@dataclass(frozen=True)
class Telling:
    """The answer for one occasion: for each pair of its taxa every difference, best first."""

    occasion: Occasion
    told: tuple[Told, ...]

    def of_pair(self, first: str, second: str) -> tuple[Told, ...]:
        """The differences of one pair, best first."""
        return tuple(t for t in self.told if {t.difference.first, t.difference.second} == {first, second})


def tell_apart(workspace: Workspace, occasion: Occasion, pairs: Iterable[tuple[str, str]] | None = None) -> Telling:
    """Everything that can be said to tell the taxa of an occasion apart, pair by pair, best first.

    The order: what may be used first, then by strength, ease, and how rarely it is misread. pairs: of these alone, but on
    the same occasion.
    """
    forbidden = handling_forbidden(workspace, occasion)
    told = []
    for first, second in combinations(occasion.taxa, 2) if pairs is None else pairs:
        a, b = workspace.taxa[first], workspace.taxa[second]
        for id_ in workspace.traits:
            if id_ in a.values or id_ in b.values:
                told += [_told(workspace, d, occasion, forbidden) for d in differences(workspace, a, b, id_, occasion.region)]
    return Telling(occasion, tuple(sorted(told, key=lambda t: _order(workspace, t))))


def _told(workspace: Workspace, difference: Difference, occasion: Occasion, forbidden: bool) -> Told:
    trait = workspace.traits[difference.trait]
    taxa = (workspace.taxa[difference.first], workspace.taxa[difference.second])
    seen = {t.id: trait_seen(workspace, t, trait, occasion.on, occasion.region) if occasion.on else None for t in taxa}
    return Told(difference, verdict_of(difference), difference_bars(workspace, difference, occasion, forbidden), seen)


def _order(workspace: Workspace, told: Told) -> tuple[object, ...]:
    best_seen = sum(phase is not Phase.EXPECTED for phase in told.seen.values())
    return (not told.is_usable, *strength(workspace, told.difference), best_seen, *slips(workspace, told.difference))


def strength(workspace: Workspace, difference: Difference) -> tuple[int, bool, int]:
    """How well a difference tells its taxa apart on any day, the best least: its relation, disputed or not, and its ease."""
    return difference.relation.rank, difference.disputed, workspace.traits[difference.trait].ease.effort


def slips(workspace: Workspace, difference: Difference) -> tuple[Decimal, str]:
    """What decides between differences of one strength that are as surely seen: how often the trait is misread, then its name."""
    return workspace.traits[difference.trait].misread, difference.trait


MOST_BEST = 4
"""So many contrasts are the best few of a pair (project default)."""


def best_few(workspace: Workspace, told: tuple[Told, ...]) -> tuple[Told, ...]:
    """The best contrasts of one pair that may be used, in the order given, no two of them the same observation."""
    chosen: dict[str, Told] = {}
    for t in told:
        if t.is_usable:
            chosen.setdefault(observation(workspace, t.difference.trait), t)
    return tuple(chosen.values())[:MOST_BEST]


def observation(workspace: Workspace, trait_id: str) -> str:
    """The trait that one looks at first to see another: whoever sees the kind of a hair has seen that there are hairs.

    Traits with the same one are the same observation, and so is one trait at several parts of an organ.
    """
    need = workspace.traits[trait_id].needs
    return observation(workspace, need.trait) if need else trait_id


def _most_share(workspace: Workspace, difference: Difference) -> bool:
    """Whether more than half of the other taxa with a value there show the same usual values as both of a pair."""
    known = [t for t in workspace.taxa.values() if difference.trait in t.values and t.id not in (difference.first, difference.second)]
    usual = {t.id: _usual(workspace, t, difference) for t in [*known, workspace.taxa[difference.first]]}
    alike = [t for t in known if usual[t.id] == usual[difference.first]]
    return len(alike) * 2 > len(known)


def _usual(workspace: Workspace, taxon: Taxon, difference: Difference) -> set[Extent]:
    return {s.usual for s in spreads(workspace, taxon, taxon.values[difference.trait], difference.at, None)}


MOST_TEMPTING = 5
"""So many characters not to rely on are told of a pair (project default)."""


def tempting(workspace: Workspace, told: tuple[Told, ...]) -> tuple[Told, ...]:
    """What not to rely on, the most misleading first: disputed, then tendencies, overlaps, and what both share."""
    found = [t for t in told if is_tempting(workspace, t)]
    found.sort(key=lambda t: temptation(workspace, t.difference))
    return tuple(found[:MOST_TEMPTING])


def temptation(workspace: Workspace, difference: Difference) -> tuple[bool, int, int]:
    """How misleading a difference is that does not tell its taxa apart, the most misleading least."""
    rank, disputed, effort = strength(workspace, difference)
    return not disputed, rank, effort


def is_tempting(workspace: Workspace, told: Told) -> bool:
    """Whether people will try it although it does not tell the two apart: easy to see, alike or disputed.

    What most taxa share (a herb, white petals) tempts nobody.
    """
    easy = workspace.traits[told.difference.trait].ease is Ease.EASY
    if easy and told.difference.relation is Relation.SAME and _most_share(workspace, told.difference):
        return False
    useless = told.verdict in (Verdict.DISPUTED, Verdict.DOES_NOT_SEPARATE)
    handling = Bar.NOT_BY_THOSE_MEANS in told.bars or Bar.UNSAFE in told.bars
    return easy and useless and not handling and told.difference.relation not in (Relation.UNKNOWN, Relation.NOT_COMPARABLE)
