"""What a value allows: the usual conditions, the lesser ones and the rare ones, as sets that can be compared exactly."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import product
from typing import TypeAlias

from twayblade.knowledge.frequency import Frequency
from twayblade.knowledge.numbers import Interval, Numbers, Range
from twayblade.knowledge.trait import Kind, Trait
from twayblade.knowledge.values import Alternative, Statement, Value
from twayblade.knowledge.workspace import Taxon, Workspace


@dataclass(frozen=True)
class States:
    """A set of smallest conditions (`Trait.atoms`)."""

    atoms: frozenset[str]

    def __bool__(self) -> bool:
        return bool(self.atoms)

    def meets(self, other: States) -> bool:
        """Whether the two sets share a condition."""
        return bool(self.atoms & other.atoms)

    def lies_in(self, other: States) -> bool:
        """Whether every condition is also in the other set."""
        return self.atoms <= other.atoms

    def union(self, other: States) -> States:
        """All conditions of both."""
        return States(self.atoms | other.atoms)


Extent: TypeAlias = States | Numbers
"""A set of conditions of one trait. Two of them are compared only if they are of the same trait, so of the same type."""


def meets(a: Extent, b: Extent) -> bool:
    """Whether two extents of one trait have something in common."""
    if isinstance(a, States):
        return isinstance(b, States) and a.meets(b)
    return isinstance(b, Numbers) and a.meets(b)


def lies_in(a: Extent, b: Extent) -> bool:
    """Whether the first extent lies inside the second."""
    if isinstance(a, States):
        return isinstance(b, States) and a.lies_in(b)
    return isinstance(b, Numbers) and a.lies_in(b)


def union(a: Extent, b: Extent) -> Extent:
    """Two extents of one trait together."""
    if isinstance(a, States) and isinstance(b, States):
        return a.union(b)
    if isinstance(a, Numbers) and isinstance(b, Numbers):
        return a.union(b)
    raise TypeError("states and numbers are never values of one trait")


@dataclass(frozen=True)
class Spread:
    """The conditions a value allows, in three tiers.

    usual: always and usually, the inner range of a number, and sometimes where nothing is more frequent;
    lesser: the other `sometimes`, outer limits, and an open rest; rare: what is said to be rare.
    """

    usual: Extent
    lesser: Extent
    rare: Extent

    @cached_property
    def without_rare(self) -> Extent:
        """Usual and lesser conditions."""
        return union(self.usual, self.lesser)

    @cached_property
    def all(self) -> Extent:
        """Every condition a plant of the taxon may show."""
        return union(self.without_rare, self.rare)


@dataclass(frozen=True)
class Context:
    """The part and stage at which values are looked at; None: the whole organ, any stage."""

    part: str | None = None
    stage: str | None = None

    def holds(self, statement: Statement) -> bool:
        """Whether a statement says something about this part and stage."""
        part, stage = statement.where.part, statement.where.stage
        return part in (None, self.part) and stage in (None, self.stage)


def extent_of_states(states: Iterable[str], trait: Trait) -> States:
    """The smallest conditions that some states cover."""
    return States(frozenset().union(*(trait.atoms[state] for state in states)))


def extent_of_ranges(intervals: Iterable[Interval], trait: Trait) -> Numbers:
    """The numbers that some intervals cover."""
    return Numbers.of(list(intervals), whole=trait.kind is Kind.COUNT)


def nothing(trait: Trait) -> Extent:
    """The empty extent of a trait."""
    return extent_of_ranges([], trait) if trait.kind.is_numeric else States(frozenset())


def everything(trait: Trait) -> Extent:
    """Every condition a trait has."""
    if not trait.kind.is_numeric:
        return extent_of_states(trait.states, trait)
    return extent_of_ranges([Interval(None, None)], trait)


def contexts(values: Iterable[Value], trait: Trait) -> tuple[Context, ...]:
    """The parts and stages at which all the values say something; None is the rest of the organ. Empty: not comparable."""
    values = tuple(values)
    said = [s for value in values for a in value.alternatives for s in a.statements]
    parts: list[str | None] = [*(p for p in trait.parts if any(s.where.part == p for s in said)), None]
    stages: list[str | None] = [*dict.fromkeys(s.where.stage for s in said if s.where.stage), None]
    found = (Context(part, stage) for part, stage in product(parts, stages))
    return tuple(c for c in found if all(any(c.holds(s) for a in v.alternatives for s in a.statements) for v in values))


def spreads(workspace: Workspace, taxon: Taxon, value: Value, at: Context, region: str | None) -> tuple[Spread, ...]:
    """What the value allows, once for each alternative that is not doubted and says what most plants are.

    A doubted alternative counts as rarely in each of the others. If all are doubted, none is.
    """
    key = (id(taxon), id(value), at, region)
    if key not in workspace.worked_out:  # taxon and value are kept with it, so that no other thing gets their ids
        workspace.worked_out[key] = (taxon, value, _spreads(workspace, taxon, value, at, region))
    found: tuple[Spread, ...] = workspace.worked_out[key][2]
    return found


def _spreads(workspace: Workspace, taxon: Taxon, value: Value, at: Context, region: str | None) -> tuple[Spread, ...]:
    trait = workspace.traits[value.trait]
    here = region or workspace.home_region
    firm = [a for a in value.alternatives if a.doubted is None] or list(value.alternatives)
    doubts = nothing(trait)
    for alternative in value.alternatives:
        if alternative not in firm:
            doubts = union(doubts, _spread(taxon, trait, applicable(alternative, at, here)).all)
    known = [said for a in firm if _says_what_most_are(said := applicable(a, at, here), taxon)]
    found = [spread for said in known if (spread := _spread(taxon, trait, said)).usual]
    return tuple(Spread(s.usual, s.lesser, union(s.rare, doubts)) for s in found) if doubts else tuple(found)


def applicable(alternative: Alternative, at: Context, region: str | None) -> list[Statement]:
    """The statements for a part, stage and region; what is said of these themselves goes before what is said in general.

    So it does among the plants of each form, and among those of none; a form does not hide what the other plants are.
    """
    holding = [s for s in alternative.statements if at.holds(s)]
    return [s for group in _by_form(holding).values() for s in _nearest(group, at, region)]


def _by_form(said: Iterable[Statement]) -> dict[str | None, list[Statement]]:
    groups: dict[str | None, list[Statement]] = {}
    for statement in said:
        groups.setdefault(statement.where.form, []).append(statement)
    return groups


def _nearest(said: list[Statement], at: Context, region: str | None) -> list[Statement]:
    said = [s for s in said if s.where.region == region and region is not None] or [s for s in said if s.where.region is None]
    said = [s for s in said if s.where.part == at.part] or said
    return [s for s in said if s.where.stage == at.stage] or said


def _says_what_most_are(said: list[Statement], taxon: Taxon) -> bool:
    """Whether something is said of plants of no form, of a usual form, or of some forms together.

    One lesser form alone leaves most plants unknown, as a lone `sometimes` or `rarely` does.
    """
    groups = _by_form(said)
    weights = sorted(weight for form in groups if (weight := form_frequency(form, taxon)))
    at_least = Frequency.SOMETIMES if len(weights) > 1 else Frequency.USUALLY
    return None in groups or (bool(weights) and weights[-1] >= at_least)


def _spread(taxon: Taxon, trait: Trait, said: list[Statement]) -> Spread:
    tiers: dict[Frequency, Extent] = {frequency: nothing(trait) for frequency in Frequency}
    lesser = nothing(trait)
    for statement in said:
        frequency = weighed(statement, taxon)
        tiers[frequency] = union(tiers[frequency], _inner(statement, said, trait))
        if statement.span:
            beyond = extent_of_ranges(_beyond(statement.span), trait)
            if frequency <= Frequency.RARELY:
                tiers[frequency] = union(tiers[frequency], beyond)
            else:
                lesser = union(lesser, beyond)
    for most, rest in _open_rests(said, taxon, trait):
        if most is None:
            lesser = union(lesser, rest)
        else:
            tiers[most] = union(tiers[most], rest)
    usual = union(tiers[Frequency.ALWAYS], tiers[Frequency.USUALLY]) or tiers[Frequency.SOMETIMES]
    lesser = union(lesser, tiers[Frequency.SOMETIMES])
    return Spread(usual, lesser, tiers[Frequency.RARELY])


def form_frequency(form: str | None, taxon: Taxon) -> Frequency:
    """How often a plant is of a form; always for what is said of no form."""
    described = taxon.profile.forms.get(form or "")
    return described.frequency if described else Frequency.ALWAYS


def weighed(statement: Statement, taxon: Taxon) -> Frequency:
    """A form's values weigh no more than the form's frequency."""
    return min(statement.frequency, form_frequency(statement.where.form, taxon))


def _inner(statement: Statement, said: list[Statement], trait: Trait) -> Extent:
    """The usual conditions of a statement, without the narrower states that plants of the same form never show."""
    if statement.span:
        return extent_of_ranges([statement.span.inner], trait)
    never = {state for s in said if s.frequency is Frequency.NEVER and s.where.form == statement.where.form for state in s.states}
    covered = (trait.atoms[state].difference(*(trait.atoms[n] for n in never & trait.atoms[state] - {state})) for state in statement.states)
    return States(frozenset().union(*covered))


def _beyond(span: Range) -> list[Interval]:
    """What the outer limits add to the inner range, as intervals that start at its ends."""
    if not span.has_extremes:
        return []
    below = [Interval(span.outer_low, span.low)] if span.outer_low != span.low else []
    above = [Interval(span.high, span.outer_high)] if span.outer_high != span.high else []
    return below + above


def _open_rests(said: list[Statement], taxon: Taxon, trait: Trait) -> Iterator[tuple[Frequency | None, Extent]]:
    """What is left open, with how often it occurs, no more often than its form; None is a lesser condition.

    `usually` with nothing beside it leaves a lesser rest open. Of plants of no form, a form that is not itself usual is
    something beside it; and plants of no form of which nothing is said are an open rest beside a usual form.
    Nothing but `never` leaves open what the plants usually are.
    """
    groups = _by_form(said)
    beside = {form_frequency(form, taxon) for form in groups if form is not None} - {Frequency.NEVER}
    for form, group in {None: [], **groups}.items():
        words, weight = {s.frequency for s in group} - {Frequency.NEVER}, form_frequency(form, taxon)
        only_never = bool(group) and not words
        if form is None and not only_never:
            words |= beside
        if only_never or (words == {Frequency.USUALLY} and not any(s.complete for s in group)):
            most = min(Frequency.USUALLY, weight) if only_never or weight <= Frequency.RARELY else None
            yield most, _unsaid(group, trait)


def _unsaid(said: list[Statement], trait: Trait) -> Extent:
    """Every condition that some statements do not name."""
    if trait.kind.is_numeric:
        return everything(trait)
    named = extent_of_states((state for s in said for state in s.states), trait)
    return States(extent_of_states(trait.states, trait).atoms - named.atoms)
