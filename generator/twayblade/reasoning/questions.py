"""The questions a key may ask on an occasion, and which leads each taxon goes to."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cached_property
from itertools import combinations

from twayblade.knowledge.numbers import Interval, Numbers
from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.season import Phase
from twayblade.knowledge.trait import Kind, Trait
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.compare import surely_applies
from twayblade.reasoning.seeing import Bar, handling_forbidden, trait_bars, trait_seen
from twayblade.reasoning.spread import Context, Extent, States, contexts, meets, spreads

_MOST_STATES_TO_SPLIT_ANYHOW = 6
"""Beyond so many states only splits of one state from the rest are tried (and every cut of an ordered trait)."""


@dataclass(frozen=True)
class Question:
    """A question of two leads.

    sides: the smallest conditions of each lead, or for numbers the last number of the first lead and the first of the
    second. goes: for each taxon, by its place, 1 (first lead), 2 (second) or 3 (both). unanswerable: the places of the
    taxa on which it cannot be looked at; they stand on both leads. doubtful: of those trusted to show it although their stage is
    only possible. cost: what the observation costs a reader.
    """

    trait: str
    at: Context
    sides: tuple[frozenset[str], frozenset[str]] | tuple[Decimal, Decimal]
    goes: tuple[int, ...]
    unanswerable: frozenset[int]
    cost: float
    doubtful: frozenset[int] = frozenset()

    @cached_property
    def _on_first(self) -> int:
        return sum(1 << place for place, lead in enumerate(self.goes) if lead & 1)

    @cached_property
    def _on_second(self) -> int:
        return sum(1 << place for place, lead in enumerate(self.goes) if lead & 2)

    @cached_property
    def silent(self) -> int:
        """The taxa that cannot answer, or perhaps not, as bits by place."""
        return sum(1 << place for place in self.unanswerable | self.doubtful)

    def divide(self, taxa: int) -> tuple[int, int]:
        """The sets of taxa (bits by place) on the two leads, out of a set of taxa."""
        return taxa & self._on_first, taxa & self._on_second


def questions(workspace: Workspace, occasion: Occasion) -> tuple[Question, ...]:
    """Every question of two leads that may be asked of the taxa of an occasion.

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
        found += _asked(workspace, occasion, taxa, id_, sure, frozenset())
        if perhaps:
            found += _asked(workspace, occasion, taxa, id_, sure | perhaps, perhaps)
    return tuple(found)


def _asked(workspace: Workspace, occasion: Occasion, taxa: list[Taxon], id_: str, answerable: set[int], doubtful: frozenset[int]) -> list[Question]:
    if len(answerable) < 2:
        return []
    found: list[Question] = []
    trait = workspace.traits[id_]
    for at in _contexts(taxa, answerable, trait, id_):
        extents = [_extents(workspace, taxon, id_, at, occasion.region) if n in answerable else () for n, taxon in enumerate(taxa)]
        found += [replace(q, doubtful=doubtful) for q in _split(trait, id_, at, extents)]
    return found


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


def _extents(workspace: Workspace, taxon: Taxon, trait_id: str, at: Context, region: str | None) -> tuple[Extent, ...]:
    """Everything a plant of the taxon may show, by each side of a disagreement; empty where nothing is known."""
    return tuple(s.all for s in spreads(workspace, taxon, taxon.values[trait_id], at, region))


def _split(trait: Trait, id_: str, at: Context, extents: list[tuple[Extent, ...]]) -> list[Question]:
    unanswerable = frozenset(n for n, known in enumerate(extents) if not known)
    if trait.kind.is_numeric:
        return [q for high in _cuts(extents) if (q := _numeric(trait, id_, at, extents, high, unanswerable))]
    met = [state for state in trait.states if any(state in e.atoms for known in extents for e in known if isinstance(e, States))]
    return [q for side in _sides(trait, met) if (q := _of_states(trait, id_, at, extents, side, frozenset(met) - side, unanswerable))]


def _sides(trait: Trait, met: list[str]) -> list[frozenset[str]]:
    """First sides of the splits of some smallest conditions in two: each split once."""
    if trait.kind is Kind.ORDERED:
        return [frozenset(met[:n]) for n in range(1, len(met))]
    if len(met) > _MOST_STATES_TO_SPLIT_ANYHOW:
        wholes = [frozenset(trait.atoms[state]) & frozenset(met) for state in trait.states]
        return list(dict.fromkeys(side for side in wholes if side and len(side) < len(met)))
    first, *others = met or [""]
    return [frozenset({first, *chosen}) for size in range(len(others)) for chosen in combinations(others, size)]


def _of_states(
    trait: Trait, id_: str, at: Context, extents: list[tuple[Extent, ...]], one: frozenset[str], two: frozenset[str], unanswerable: frozenset[int]
) -> Question | None:
    goes = tuple(_leads(known, States(one), States(two)) for known in extents)
    if trait.blur and trait.kind is Kind.ORDERED and not _lie_clear(trait, extents, goes):
        return None
    extra = 0.4 * (len(one) + len(two) - 2)
    return _useful(Question(id_, at, (one, two), goes, unanswerable, _cost(trait) + extra))


def _lie_clear(trait: Trait, extents: list[tuple[Extent, ...]], goes: tuple[int, ...]) -> bool:
    """Whether the taxa that stand on one lead only lie further apart along the order than a misreading goes."""
    order = list(trait.states)
    places: dict[int, list[int]] = {1: [], 2: []}
    for lead, known in zip(goes, extents, strict=True):
        if lead in places:
            places[lead] += [order.index(atom) for e in known if isinstance(e, States) for atom in e.atoms]
    return not places[1] or not places[2] or min(places[2]) - max(places[1]) > trait.blur


def _leads(known: tuple[Extent, ...], one: Extent, two: Extent) -> int:
    if not known:
        return 3
    return (1 if any(meets(e, one) for e in known) else 0) | (2 if any(meets(e, two) for e in known) else 0)


def _cuts(extents: list[tuple[Extent, ...]]) -> list[Decimal]:
    """Where numbers may be divided: above the highest number of some taxon, if another reaches higher."""
    hulls = [hull for known in extents for hull in _hulls(known)]
    highs = sorted({h.high for h in hulls if h.high is not None})
    return [high for high in highs if any(h.low is not None and h.low > high for h in hulls)]


def _hulls(known: tuple[Extent, ...]) -> list[Interval]:
    return [e.hull() for e in known if isinstance(e, Numbers) and e]


def _numeric(trait: Trait, id_: str, at: Context, extents: list[tuple[Extent, ...]], high: Decimal, unanswerable: frozenset[int]) -> Question | None:
    """Numbers up to `high` against those above it. A taxon with numbers on both sides stands on both leads."""
    goes = tuple(_sides_of(_hulls(known), high) if known else 3 for known in extents)
    lows = [hull.low for lead, known in zip(goes, extents, strict=True) if lead == 2 for hull in _hulls(known) if hull.low is not None]
    spanned = any(lead == 3 for place, lead in enumerate(goes) if place not in unanswerable)
    if not lows or (trait.blur and (spanned or min(lows) - high < trait.blur)):
        return None
    counts = trait.kind is Kind.COUNT
    low = high + 1 if counts else min(lows)
    return _useful(Question(id_, at, (high, low), goes, unanswerable, _cost(trait) + (0.25 * float(high) if counts else 0.0)))


def _sides_of(hulls: list[Interval], high: Decimal) -> int:
    reaches_down = any(h.low is None or h.low <= high for h in hulls)
    reaches_up = any(h.high is None or h.high > high for h in hulls)
    return (1 if reaches_down else 0) | (2 if reaches_up else 0)


def _useful(question: Question) -> Question | None:
    return question if 1 in question.goes and 2 in question.goes else None


def _cost(trait: Trait) -> float:
    """Effort of the observation and risk of misreading it, in one number (project default)."""
    return trait.ease.effort + 5 * float(trait.misread)
