"""Two taxa by one trait: how their values stand to each other, under every alternative, and what each state settles."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from itertools import product

from twayblade.knowledge.numbers import Interval, Numbers
from twayblade.knowledge.trait import Kind, Trait
from twayblade.knowledge.values import Value
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.relation import Relation, relate
from twayblade.reasoning.spread import Context, Extent, Spread, States, contexts, extent_of_states, lies_in, meets, spreads


class Settling(StrEnum):
    """What seeing a state says about the other taxon."""

    SETTLES = "settles"
    USUALLY = "settles-usually"
    OPEN = "leaves-open"


@dataclass(frozen=True)
class Direction:
    """One way of a contrast: `state` (a state's id or a written range), seen on a plant, speaks for `taxon` against the other."""

    state: str
    taxon: str
    settles: Settling


@dataclass(frozen=True)
class Difference:
    """How two taxa stand to each other by one trait, at one part and stage."""

    trait: str
    first: str
    second: str
    at: Context
    relation: Relation
    disputed: bool = False
    gap: Decimal | None = None
    """For numbers and ordered states: how far the usual values lie apart, in the trait's unit or in steps."""

    @property
    def is_firm_contrast(self) -> bool:
        """Whether it tells the two apart, at least usually, whichever source is right."""
        return self.relation.is_contrast and not self.disputed


def applies(workspace: Workspace, taxon: Taxon, trait: Trait, region: str | None) -> bool:
    """Whether a trait can apply to a taxon: not when the organ it needs is always absent or in another state."""
    need = trait.needs
    value = taxon.values.get(need.trait) if need else None
    if need is None or value is None:
        return True
    needed = workspace.traits[need.trait]
    allowed = [s.all for at in contexts([value], needed) for s in spreads(workspace, taxon, value, at, region)]
    if need.state:
        wanted = extent_of_states([needed.state_ids[need.state]], needed)
        return not allowed or any(meets(extent, wanted) for extent in allowed)
    none = Numbers.of([Interval(Decimal(0), Decimal(0))], whole=True)
    return not allowed or any(not lies_in(extent, none) for extent in allowed)


def surely_applies(workspace: Workspace, taxon: Taxon, trait: Trait, region: str | None) -> bool:
    """Whether every plant of the taxon has the organ, in the state, that a trait needs."""
    need = trait.needs
    if need is None:
        return True
    value = taxon.values.get(need.trait)
    if value is None:
        return False
    needed = workspace.traits[need.trait]
    allowed = [s.all for at in contexts([value], needed) for s in spreads(workspace, taxon, value, at, region)]
    if need.state:
        wanted = extent_of_states([needed.state_ids[need.state]], needed)
        return bool(allowed) and all(lies_in(extent, wanted) for extent in allowed)
    none = Numbers.of([Interval(Decimal(0), Decimal(0))], whole=True)
    return bool(allowed) and not any(meets(extent, none) for extent in allowed)


def differences(workspace: Workspace, first: Taxon, second: Taxon, trait_id: str, region: str | None = None) -> tuple[Difference, ...]:
    """How two taxa differ by a trait: one difference for each part and stage at which both have a value.

    Unknown only if nothing is known at any of them: what is said of one form or region alone is no value there.
    """
    trait = workspace.traits[trait_id]
    a, b = first.values.get(trait_id), second.values.get(trait_id)
    if not (applies(workspace, first, trait, region) and applies(workspace, second, trait, region)):
        return (Difference(trait_id, first.id, second.id, Context(), Relation.NOT_COMPARABLE),)
    if a is None or b is None:
        return (Difference(trait_id, first.id, second.id, Context(), Relation.UNKNOWN),)
    found = [_difference(workspace, first, second, a, b, at, region) for at in contexts([a, b], trait)]
    known = [d for d in found if d.relation is not Relation.UNKNOWN]
    return tuple(known or found) or (Difference(trait_id, first.id, second.id, Context(), Relation.NOT_COMPARABLE),)


def _difference(workspace: Workspace, first: Taxon, second: Taxon, a: Value, b: Value, at: Context, region: str | None) -> Difference:
    trait = workspace.traits[a.trait]
    of_a, of_b = spreads(workspace, first, a, at, region), spreads(workspace, second, b, at, region)
    if not of_a or not of_b:
        return Difference(a.trait, first.id, second.id, at, Relation.UNKNOWN)
    found = [relate(x, y) for x, y in product(of_a, of_b)]
    good = [r.is_contrast for r in found]
    weakest = max(found, key=lambda r: r.rank)
    if weakest is Relation.SEPARATE and any(may_lack_organ(workspace, t, trait, region) for t in (first, second)):
        weakest = Relation.USUALLY_SEPARATE
    gap = min((g for x, y in product(of_a, of_b) if (g := _gap(trait, x, y)) is not None), default=None)
    return Difference(a.trait, first.id, second.id, at, weakest, any(good) and not all(good), gap)


def directions(workspace: Workspace, difference: Difference, region: str | None = None) -> tuple[Direction, ...]:
    """What each state of either taxon, seen on a plant, settles: the two ways of a difference."""
    if difference.relation in (Relation.UNKNOWN, Relation.NOT_COMPARABLE):
        return ()
    trait = workspace.traits[difference.trait]
    first, second = workspace.taxa[difference.first], workspace.taxa[difference.second]
    of_a, of_b = (spreads(workspace, t, t.values[difference.trait], difference.at, region) for t in (first, second))
    return _directions(trait, first.id, of_a, of_b) + _directions(trait, second.id, of_b, of_a)


def may_lack_organ(workspace: Workspace, taxon: Taxon, trait: Trait, region: str | None) -> bool:
    """Whether some plants are on record without the organ that a trait needs: its shape then tells only usually."""
    on_record = trait.needs is not None and trait.needs.trait in taxon.values
    return on_record and not surely_applies(workspace, taxon, trait, region)


def excludes(workspace: Workspace, difference: Difference, taxon: str, region: str | None = None) -> Settling:
    """What seeing the usual state of one of the two says against the other: whether it excludes it, usually does, or leaves it open."""
    if difference.relation in (Relation.UNKNOWN, Relation.NOT_COMPARABLE):
        return Settling.OPEN
    other = difference.second if taxon == difference.first else difference.first
    own, others = (spreads(workspace, t, t.values[difference.trait], difference.at, region) for t in (workspace.taxa[taxon], workspace.taxa[other]))
    found = [_settling(s.usual, others) for s in own if s.usual]
    order = list(Settling)
    return max(found, key=order.index, default=Settling.OPEN)


def _directions(trait: Trait, taxon: str, own: tuple[Spread, ...], other: tuple[Spread, ...]) -> tuple[Direction, ...]:
    return tuple(Direction(name, taxon, _settling(extent, other)) for name, extent in _named(trait, own))


def _named(trait: Trait, own: tuple[Spread, ...]) -> list[tuple[str, Extent]]:
    """The states (or the usual ranges, each by itself) that speak for a taxon, with what they cover."""
    if trait.kind.is_numeric:
        ranges = dict.fromkeys(Numbers(frozenset({i}), s.usual.whole) for s in own if isinstance(s.usual, Numbers) for i in s.usual.in_order())
        return [(written_hull(numbers), numbers) for numbers in ranges]
    shown = [state for state in trait.states if any(_shows(trait, state, s) for s in own)]
    return [(state, extent_of_states([state], trait)) for state in shown]


def _shows(trait: Trait, state: str, spread: Spread) -> bool:
    covered = extent_of_states([state], trait)
    return lies_in(covered, spread.all) or (isinstance(spread.usual, States) and state in spread.usual.atoms)


def written_hull(numbers: Numbers) -> str:
    """The span of a set of numbers as written, `2.5-4`."""
    hull = numbers.hull()
    low, high = (("?" if b is None else f"{b.normalize():f}") for b in (hull.low, hull.high))
    return low if low == high else f"{low}-{high}"


def _settling(extent: Extent, other: tuple[Spread, ...]) -> Settling:
    if not any(meets(extent, s.all) for s in other):
        return Settling.SETTLES
    if not any(meets(extent, s.without_rare) for s in other):
        return Settling.USUALLY
    return Settling.OPEN


def _gap(trait: Trait, a: Spread, b: Spread) -> Decimal | None:
    """How far apart the usual values lie; None where that has no measure, 0 where they meet."""
    if trait.kind is Kind.STATES or not a.usual or not b.usual:
        return None
    if isinstance(a.usual, Numbers) and isinstance(b.usual, Numbers):
        x, y = a.usual.hull(), b.usual.hull()
    else:
        x, y = _steps(trait, a.usual), _steps(trait, b.usual)
    if x.meets(y):
        return Decimal(0)
    gaps = [high.low - low.high for low, high in ((x, y), (y, x)) if high.low is not None and low.high is not None]
    return max(gaps)


def _steps(trait: Trait, extent: Extent) -> Interval:
    places = [Decimal(n) for n, state in enumerate(trait.states) if isinstance(extent, States) and state in extent.atoms]
    return Interval(min(places), max(places))
