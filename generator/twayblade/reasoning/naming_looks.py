"""The tables by which an unknown plant is named (`naming`), worked out of what is known of the taxa of an occasion.

What may be asked is what a key may ask (`questions`): by the means allowed, with no hand laid on a plant where that is forbidden, of a
count only while its stage is expected. What lies no further from a taxon than a misreading goes does not speak against it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from decimal import Decimal
from math import log2

from twayblade.knowledge.numbers import Interval, Numbers
from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.trait import Kind, Trait
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.naming import MARGIN, Answer, Look, Naming, pairs
from twayblade.reasoning.questions import Observable, observables
from twayblade.reasoning.seeing import days_to_look, seen_days, shared_days
from twayblade.reasoning.spread import Extent, Spread, States
from twayblade.reasoning.telling import observation

MOST_SPANS = 4
"""Into so many spans numbers are divided at the most (project default): beginners count and measure no finer."""

_HARMFUL = 2
"""So many times is a pair worth that holds a plant on which no hand may be laid (project default)."""


def make_naming(workspace: Workspace, occasion: Occasion) -> Naming:
    """The tables for the taxa of an occasion; its date does not matter."""
    undated = replace(occasion, on=None)
    taxa = [workspace.taxa[id_] for id_ in occasion.taxa]
    looks = [look for seen in observables(workspace, undated) if (look := _look(workspace, undated, taxa, seen))]
    always = sum(1 << n for n, taxon in enumerate(taxa) if taxon.hazard_class.forbids_handling or not taxon.profile.seasons)
    present = tuple(seen_days(workspace, taxon, tuple(taxon.profile.seasons), occasion.region) for taxon in taxa)
    return Naming(occasion.taxa, tuple(looks), always, present)


def speaks_by(trait: Trait) -> int:
    """By how much an answer speaks against a taxon that never shows it: the bits of surprise that a misreading would be, at the most MARGIN."""
    return MARGIN if not trait.misread else max(1, min(MARGIN, round(-log2(trait.misread))))


def _look(workspace: Workspace, occasion: Occasion, taxa: list[Taxon], seen: Observable) -> Look | None:
    trait = workspace.traits[seen.trait]
    answers = _numbers(workspace, taxa, trait, seen) if trait.kind.is_numeric else _states(trait, seen)
    look = _with_answers(workspace, occasion, taxa, seen, answers)
    return look if any(look.worth) else None


def _with_answers(workspace: Workspace, occasion: Occasion, taxa: list[Taxon], seen: Observable, answers: tuple[Answer, ...]) -> Look:
    trait = workspace.traits[seen.trait]
    against = tuple(tuple(_against(trait, answer, known) for known in seen.spreads) for answer in answers)
    own = tuple(_bits(any(_is_own(trait, answer, s.all) for s in known) for known in seen.spreads) for answer in answers)
    usual = tuple(_bits(any(_is_own(trait, answer, s.usual) for s in known) for known in seen.spreads) for answer in answers)
    return Look(
        seen.trait,
        seen.at,
        observation(workspace, seen.trait),
        answers,
        against,
        own,
        tuple(mine & ~often for mine, often in zip(own, usual, strict=True)),
        sum(1 << n for n in seen.lacking),
        _worth(taxa, against, usual),
        trait.ease.effort,
        tuple(days_to_look(workspace, (taxon,), trait, occasion) if known else 0 for taxon, known in zip(taxa, seen.spreads, strict=True)),
        tuple(shared_days(workspace, (taxon,), trait.stages, occasion.region, expected=True) for taxon in taxa),
    )


def _bits(found: Iterable[bool]) -> int:
    return sum(1 << n for n, true in enumerate(found) if true)


def _worth(taxa: list[Taxon], against: tuple[tuple[int, ...], ...], usual: tuple[int, ...]) -> tuple[int, ...]:
    """For each pair what the usual answers of either speak by against the other, on average and taken together."""
    said = [[n for n, often in enumerate(usual) if often >> place & 1] for place in range(len(taxa))]

    def between(a: int, b: int) -> int:
        found = [sum(against[n][other] for n in said[one]) / len(said[one]) for one, other in ((a, b), (b, a)) if said[one]]
        harm = taxa[a].hazard_class.forbids_handling or taxa[b].hazard_class.forbids_handling
        return round(sum(found)) * (_HARMFUL if harm else 1) if len(found) == 2 else 0

    return tuple(between(a, b) for a, b in pairs(len(taxa)))


# -- states -------------------------------------------------------------------------------------------------------
def _states(trait: Trait, seen: Observable) -> tuple[Answer, ...]:
    """Each state that some plant may show."""
    met = frozenset[str]().union(*(e.atoms for known in seen.extents for e in known if isinstance(e, States)))
    return tuple(Answer(state, state) for state in trait.states if state in met)


def _against(trait: Trait, answer: Answer, known: tuple[Spread, ...]) -> int:
    """By how much an answer speaks against a taxon: by nothing where it is not known, or where any side of a disagreement allows it."""
    return speaks_by(trait) if known and not any(_may_be(trait, answer, s.all) for s in known) else 0


def _may_be(trait: Trait, answer: Answer, extent: Extent) -> bool:
    """Whether a plant that shows something of an extent may be read as an answer, or shows a kind of it."""
    if isinstance(extent, Numbers):
        return _reaches(trait, extent, answer, trait.blur / 2)
    assert answer.state
    if trait.kind is Kind.ORDERED:
        order = list(trait.states)
        return any(abs(order.index(atom) - order.index(answer.state)) <= trait.blur for atom in extent.atoms)
    return bool(trait.atoms[answer.state] & extent.atoms)


def _is_own(trait: Trait, answer: Answer, extent: Extent) -> bool:
    """Whether a plant that shows something of an extent may show just this answer, neither misread nor by a kind of it."""
    if isinstance(extent, Numbers):
        return _reaches(trait, extent, answer, Decimal(0))
    return answer.state in extent.atoms


def _reaches(trait: Trait, numbers: Numbers, answer: Answer, misread: Decimal) -> bool:
    """Whether some of the numbers, misread by so much, lie in the span of an answer. A measure lies above its lowest, a count from there on.

    Half of a misreading either way: so two plants as far apart as a misreading goes are parted by the middle between them, as in `seeing`.
    """
    low, high = answer.span

    def starts_in(interval: Interval) -> bool:
        if low is None or interval.high is None:
            return True
        return interval.high + misread >= low if trait.kind is Kind.COUNT else interval.high + misread > low

    return any(starts_in(i) and (high is None or i.low is None or i.low - misread <= high) for i in numbers.intervals)


# -- numbers ------------------------------------------------------------------------------------------------------
def _numbers(workspace: Workspace, taxa: list[Taxon], trait: Trait, seen: Observable) -> tuple[Answer, ...]:
    """Spans of numbers, cut between the numbers of two taxa where that parts most, cut by cut."""
    hulls = [e.hull() for known in seen.extents for e in known if isinstance(e, Numbers) and e]
    left = _cuts(trait, hulls)
    cuts: list[Decimal] = []
    parted = 0
    while left and len(cuts) < MOST_SPANS - 1:
        worth = {cut: sum(_worth_of(taxa, trait, seen, _spans(trait, [*cuts, cut], None))) for cut in left}
        best = max(left, key=lambda cut: worth[cut])
        if worth[best] <= parted:
            break
        parted = worth[best]
        cuts.append(best)
        left.remove(best)
    lowest = Decimal(0) if trait.kind is Kind.COUNT and any(not hull.low for hull in hulls) else None
    return _spans(trait, cuts, lowest)


def _cuts(trait: Trait, hulls: list[Interval]) -> list[Decimal]:
    """Where numbers may be cut: above the highest of some taxon, before the next higher start of another."""
    starts = [h.low for h in hulls if h.low is not None]
    found = []
    for high in dict.fromkeys(h.high for h in hulls if h.high is not None):
        above = [low for low in starts if low > high]
        if above:
            found.append(_between(trait, high, min(above)))
    return sorted(set(found))


_ROUND = tuple(Decimal(step) for step in ("1000", "500", "100", "50", "10", "5", "1", "0.5", "0.1"))
"""Steps of round numbers, the roundest first."""


def _between(trait: Trait, high: Decimal, low: Decimal) -> Decimal:
    """Where to cut between a highest and the next lowest number: at the roundest number that no misreading of either reaches, else at the
    roundest between them."""
    middle = (high + low) / 2
    if trait.kind is Kind.COUNT:
        return Decimal(int(middle)) if middle < low else high
    blurred = trait.blur / 2
    rounded = [(middle / step).to_integral_value() * step for step in _ROUND]
    clear = [n for n in rounded if high + blurred <= n <= low - blurred and n < low]
    return next(iter(clear or [n for n in rounded if high <= n < low]), middle)


def _worth_of(taxa: list[Taxon], trait: Trait, seen: Observable, answers: tuple[Answer, ...]) -> tuple[int, ...]:
    against = tuple(tuple(_against(trait, answer, known) for known in seen.spreads) for answer in answers)
    usual = tuple(_bits(any(_is_own(trait, answer, s.usual) for s in known) for known in seen.spreads) for answer in answers)
    return _worth(taxa, against, usual)


def _spans(trait: Trait, cuts: list[Decimal], lowest: Decimal | None) -> tuple[Answer, ...]:
    highs: list[Decimal | None] = [*sorted(cuts), None]
    lows = [lowest, *((cut + 1 if trait.kind is Kind.COUNT else cut) for cut in sorted(cuts))]
    return tuple(Answer(_span_id(low, high), None, (low, high)) for low, high in zip(lows, highs, strict=True))


def _span_id(low: Decimal | None, high: Decimal | None) -> str:
    """`to-0`, `1-3`, `4-on`: what an address says of a span."""
    return "-".join(["to" if low is None else f"{low.normalize():f}", "on" if high is None else f"{high.normalize():f}"])
