"""The questions a key may ask on an occasion, and which leads each taxon goes to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cached_property
from itertools import combinations, pairwise

from twayblade.knowledge.numbers import Interval, Numbers
from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.season import Phase
from twayblade.knowledge.trait import Kind, Trait
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.compare import surely_applies
from twayblade.reasoning.seeing import Bar, handling_forbidden, trait_bars, trait_seen
from twayblade.reasoning.spread import Context, Extent, Spread, States, contexts, meets, spreads

Span = tuple[Decimal | None, Decimal | None]
"""The lowest and the highest number of a lead; None: without limit."""

_FURTHER_STATE = 0.4
"""What each state, or cut, beyond the simplest question costs more, in units of effort (project default)."""

_TO_COUNT = 0.25
"""What it costs to count one further (project default)."""

_MOST_STATES_TO_SPLIT_ANYHOW = 4
"""Beyond so many states not every split is tried (but every cut of an ordered trait)."""


@dataclass(frozen=True)
class Question:
    """A question of two or more leads.

    sides: for each lead its smallest conditions, or for numbers the lowest and the highest (None: without limit).
    goes: for each taxon, by its place, the leads it may stand on, bit n standing for lead n. unanswerable: the places of the
    taxa on which it cannot be looked at; they stand on every lead. doubtful: of those trusted to show it although their stage is
    only possible. lacking: of the unanswerable those of which a plant may lack the organ, or may not be known to have it: while one
    of them is possible it is never asked, since no lead would fit such a plant. effort: what the observation costs a reader.
    """

    trait: str
    at: Context
    sides: tuple[frozenset[str], ...] | tuple[Span, ...]
    goes: tuple[int, ...]
    unanswerable: frozenset[int]
    effort: float
    doubtful: frozenset[int] = frozenset()
    lacking: frozenset[int] = frozenset()

    @cached_property
    def leads(self) -> tuple[int, ...]:
        """The sets of taxa (bits by place) on each lead."""
        return tuple(sum(1 << place for place, on in enumerate(self.goes) if on >> n & 1) for n in range(len(self.sides)))

    @cached_property
    def barred(self) -> int:
        """The taxa of which it is never asked, as bits by place."""
        return sum(1 << place for place in self.lacking)

    @cached_property
    def silent(self) -> int:
        """The taxa that cannot answer, or perhaps not, as bits by place."""
        return sum(1 << place for place in self.unanswerable | self.doubtful)


@dataclass(frozen=True)
class Observable:
    """A trait at a part and stage of its organ, with what is known there of each taxon of an occasion, by its place.

    spreads: of each taxon one for each side of a disagreement; none where nothing is known, or where it cannot be looked at.
    lacking: as in `Question`.
    """

    trait: str
    at: Context
    spreads: tuple[tuple[Spread, ...], ...]
    lacking: frozenset[int]

    @property
    def extents(self) -> list[tuple[Extent, ...]]:
        """Everything a plant of each taxon may show."""
        return [tuple(spread.all for spread in known) for known in self.spreads]


def observables(workspace: Workspace, occasion: Occasion) -> tuple[Observable, ...]:
    """Everything that may be looked at on the taxa of an occasion, if at least two of them surely show it then."""
    forbidden = handling_forbidden(workspace, occasion)
    taxa = [workspace.taxa[id_] for id_ in occasion.taxa]
    found: list[Observable] = []
    for id_ in workspace.traits:
        sure = {n for n, taxon in enumerate(taxa) if _shows(workspace, taxon, id_, occasion, forbidden) is Phase.EXPECTED}
        found += _observed(workspace, occasion, taxa, id_, sure)
    return tuple(found)


def questions(workspace: Workspace, occasion: Occasion, most_leads: int = 2) -> tuple[Question, ...]:
    """Every question of up to so many leads that may be asked of the taxa of an occasion.

    A taxon whose stage is only possible then is counted as one that cannot answer. Beside that the question is also asked
    trusting such taxa to show it, at a higher cost (never a count: see `seeing`).
    """
    forbidden = handling_forbidden(workspace, occasion)
    taxa = [workspace.taxa[id_] for id_ in occasion.taxa]
    found: list[Question] = []
    for id_ in workspace.traits:
        phases = [_shows(workspace, taxon, id_, occasion, forbidden) for taxon in taxa]
        sure = {place for place, phase in enumerate(phases) if phase is Phase.EXPECTED}
        perhaps = frozenset(place for place, phase in enumerate(phases) if phase is Phase.POSSIBLE)
        for answerable, doubtful in ((sure, frozenset[int]()), (sure | perhaps, perhaps)):
            if len(answerable) > 1 and (doubtful or answerable is sure):
                found += _asked(workspace, occasion, taxa, id_, answerable, doubtful, most_leads)
    return tuple(found)


def _asked(
    workspace: Workspace, occasion: Occasion, taxa: list[Taxon], id_: str, answerable: set[int], doubtful: frozenset[int], most_leads: int
) -> list[Question]:
    trait = workspace.traits[id_]
    return [
        replace(question, doubtful=doubtful, lacking=seen.lacking)
        for seen in _observed(workspace, occasion, taxa, id_, answerable)
        for question in _split(trait, id_, seen.at, seen.extents, most_leads)
    ]


def _observed(workspace: Workspace, occasion: Occasion, taxa: list[Taxon], id_: str, answerable: set[int]) -> list[Observable]:
    """A trait at each part and stage at which some two of the taxa that can answer are known."""
    trait, region = workspace.traits[id_], occasion.region
    lacking = frozenset(n for n, taxon in enumerate(taxa) if not surely_applies(workspace, taxon, trait, region))
    return [
        Observable(
            id_,
            at,
            tuple(spreads(workspace, taxon, taxon.values[id_], at, region) if n in answerable else () for n, taxon in enumerate(taxa)),
            lacking,
        )
        for at in _contexts(taxa, answerable, trait, id_)
    ]


def _shows(workspace: Workspace, taxon: Taxon, trait_id: str, occasion: Occasion, forbidden: bool) -> Phase | None:
    """Whether a plant of this taxon can show the answer: it has the organ, the data know it, and it may be looked at.

    Expected, or possible if its stage is only possible then; None if it cannot.
    """
    trait = workspace.traits[trait_id]
    if trait_id not in taxon.values or not surely_applies(workspace, taxon, trait, occasion.region):
        return None
    if trait_bars(workspace, trait, (taxon,), occasion, forbidden) - {Bar.TOO_FINE}:
        return None
    return trait_seen(workspace, taxon, trait, occasion.on, occasion.region) if occasion.on else Phase.EXPECTED


def _contexts(taxa: list[Taxon], answerable: set[int], trait: Trait, trait_id: str) -> list[Context]:
    known = [taxa[n].values[trait_id] for n in sorted(answerable)]
    found = dict.fromkeys(at for a, b in combinations(known, 2) for at in contexts([a, b], trait))
    return list(found)


def _split(trait: Trait, id_: str, at: Context, extents: list[tuple[Extent, ...]], most_leads: int) -> list[Question]:
    unanswerable = frozenset(n for n, known in enumerate(extents) if not known)
    if trait.kind.is_numeric:
        cuts = _cuts(extents)
        chosen = [c for size in range(1, most_leads) for c in combinations(cuts, size)]
        return [q for highs in chosen if (q := _numeric(trait, id_, at, extents, highs, unanswerable))]
    met = [state for state in trait.states if any(state in e.atoms for known in extents for e in known if isinstance(e, States))]
    shown = [frozenset().union(*(e.atoms for e in known if isinstance(e, States))) for known in extents]
    return [q for sides in _sides(trait, met, shown, most_leads) if (q := _of_states(trait, id_, at, extents, sides, unanswerable))]


def _sides(trait: Trait, met: list[str], shown: list[frozenset[str]], most_leads: int) -> list[tuple[frozenset[str], ...]]:
    """The ways to split some smallest conditions into leads, each once; of an order only into neighbours.

    Of many conditions those are split from the rest that read well: a state by itself, and what some taxon shows, so that whatever
    can be told apart still is.
    """
    if trait.kind is Kind.ORDERED:
        cuts = [c for size in range(1, most_leads) for c in combinations(range(1, len(met)), size)]
        return [tuple(frozenset(met[a:b]) for a, b in pairwise((0, *c, len(met)))) for c in cuts]
    if len(met) > _MOST_STATES_TO_SPLIT_ANYHOW:
        everything = frozenset(met)
        wholes = [*(trait.atoms[state] & everything for state in trait.states), *shown]
        splits = dict.fromkeys(frozenset({side, everything - side}) for side in wholes if side and side != everything)
        return [(one, two) for one, two in (sorted(split, key=lambda side: min(map(met.index, side))) for split in splits)]
    return [tuple(map(frozenset, groups)) for groups in _groupings(met, most_leads) if len(groups) > 1]


def _groupings(states: list[str], most: int) -> list[list[list[str]]]:
    """Every way to put states into up to so many groups."""
    if not states:
        return [[]]
    *others, last = states
    found = []
    for groups in _groupings(others, most):
        found += [[*groups[:n], [*groups[n], last], *groups[n + 1 :]] for n in range(len(groups))]
        if len(groups) < most:
            found.append([*groups, [last]])
    return found


def _of_states(
    trait: Trait, id_: str, at: Context, extents: list[tuple[Extent, ...]], sides: tuple[frozenset[str], ...], unanswerable: frozenset[int]
) -> Question | None:
    goes = tuple(_leads(known, [States(side) for side in sides]) for known in extents)
    if trait.blur and trait.kind is Kind.ORDERED and not _lie_clear(trait, extents, goes, len(sides)):
        return None
    effort = trait.ease.effort + _FURTHER_STATE * (sum(map(len, sides)) - 2)
    return _useful(Question(id_, at, sides, goes, unanswerable, effort))


def _lie_clear(trait: Trait, extents: list[tuple[Extent, ...]], goes: tuple[int, ...], leads: int) -> bool:
    """Whether the taxa that stand on one lead only lie further apart along the order than a misreading goes."""
    order = list(trait.states)
    places: list[list[int]] = [[] for _ in range(leads)]
    for on, known in zip(goes, extents, strict=True):
        if on.bit_count() == 1:
            places[on.bit_length() - 1] += [order.index(atom) for e in known if isinstance(e, States) for atom in e.atoms]
    used = [p for p in places if p]
    return all(min(higher) - max(lower) > trait.blur for lower, higher in pairwise(used))


def _leads(known: tuple[Extent, ...], sides: Sequence[Extent]) -> int:
    """The leads of a taxon, as bits; every one if nothing is known of it."""
    if not known:
        return (1 << len(sides)) - 1
    return sum(1 << n for n, side in enumerate(sides) if any(meets(e, side) for e in known))


def _cuts(extents: list[tuple[Extent, ...]]) -> list[Decimal]:
    """Where numbers may be divided: above the highest number of some taxon, if another reaches higher."""
    hulls = [hull for known in extents for hull in _hulls(known)]
    highs = sorted({h.high for h in hulls if h.high is not None})
    return [high for high in highs if any(h.low is not None and h.low > high for h in hulls)]


def _hulls(known: tuple[Extent, ...]) -> list[Interval]:
    return [e.hull() for e in known if isinstance(e, Numbers) and e]


def _numeric(
    trait: Trait, id_: str, at: Context, extents: list[tuple[Extent, ...]], highs: tuple[Decimal, ...], unanswerable: frozenset[int]
) -> Question | None:
    """Numbers divided above each of some numbers. A taxon with numbers on several sides stands on several leads."""
    goes = tuple(_sides_of(_hulls(known), highs) if known else (1 << len(highs) + 1) - 1 for known in extents)
    lows = []
    for n, high in enumerate(highs, 1):
        above = [hull.low for on, known in zip(goes, extents, strict=True) if on == 1 << n for hull in _hulls(known) if hull.low is not None]
        across = any(on >> n & 1 and on >> n - 1 & 1 for place, on in enumerate(goes) if place not in unanswerable)
        if not above or (trait.blur and (across or min(above) - high < trait.blur)):
            return None
        lows.append(high + 1 if trait.kind is Kind.COUNT else min(above))
    sides = tuple(zip((None, *lows), (*highs, None), strict=True))
    counting = _TO_COUNT * float(highs[-1]) if trait.kind is Kind.COUNT else 0.0
    return _useful(Question(id_, at, sides, goes, unanswerable, trait.ease.effort + counting + _FURTHER_STATE * (len(highs) - 1)))


def _sides_of(hulls: list[Interval], highs: tuple[Decimal, ...]) -> int:
    """The leads that some spans of numbers reach into, as bits."""
    found = 0
    for n, (below, high) in enumerate(zip((None, *highs), (*highs, None), strict=True)):
        reaches = [(h.low is None or high is None or h.low <= high) and (h.high is None or below is None or h.high > below) for h in hulls]
        found |= any(reaches) << n
    return found


def _useful(question: Question) -> Question | None:
    """The question, if each of its leads has a taxon that stands on no other."""
    return question if all(1 << n in question.goes for n in range(len(question.sides))) else None
