"""What a drawing shows: usual values only; in two drawings side by side a difference only where a verdict stands behind it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal
from functools import reduce

from twayblade.knowledge.numbers import Numbers, in_millimetres
from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.pieces import ParameterKind, PieceKind, Setting
from twayblade.knowledge.trait import Kind, Means, Trait
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.compare import Difference, applies, differences
from twayblade.reasoning.relation import Relation
from twayblade.reasoning.seeing import Bar, trait_bars
from twayblade.reasoning.spread import Context, Extent, States, applicable, contexts, extent_of_ranges, extent_of_states, spreads, union


@dataclass(frozen=True)
class Shown:
    """One condition that a drawing shows: a state or a number of a trait, at a part of the organ, and the parameters it sets."""

    trait: str
    at: Context
    condition: str | Decimal
    settings: Mapping[str, Setting]
    is_one_of_several: bool = False
    """Whether other conditions are as usual as the one drawn."""


@dataclass(frozen=True)
class Depiction:
    """What one drawing of a piece shows. `frame`: the length in mm that fills the picture, where two are drawn to one scale."""

    piece: str
    shown: tuple[Shown, ...]
    frame: Decimal | None = None
    beside: Mapping[str, Setting] = field(default_factory=dict)
    """What is drawn only so that the rest can be shown: five bracts where their stance is meant."""

    @property
    def settings(self) -> dict[str, Setting]:
        """The parameters of the piece; of two traits that set the same one, the earlier one of the list of traits counts."""
        found: dict[str, Setting] = dict(self.beside)
        for each in reversed(self.shown):
            found.update(each.settings)
        return {**found, "frame": self.frame} if self.frame is not None else found


@dataclass(frozen=True)
class Beside:
    """Two drawings of one piece, one of each of two taxa. They differ by the differences given, and by nothing else."""

    first: Depiction
    second: Depiction
    differing: tuple[Difference, ...]

    def parameters(self, difference: Difference) -> tuple[str, ...]:
        """What a difference sets in the piece, on either side."""
        shown = [s for side in (self.first, self.second) for s in side.shown if (s.trait, s.at) == (difference.trait, difference.at)]
        return tuple(dict.fromkeys(parameter for s in shown for parameter in s.settings))


def depict(workspace: Workspace, taxon: Taxon, piece: str, region: str | None = None, form: str | None = None) -> Depiction | None:
    """What a drawing of a taxon shows of a piece; None where nothing is recorded of it, or nothing that may be shown.

    `form`: of plants of that form. Values on which sources disagree are left out, unless all of them allow the same.
    """
    shown: list[Shown] = []
    for trait_id, part in _drawn_traits(workspace, piece):
        trait, value = workspace.traits[trait_id], taxon.values.get(trait_id)
        if value is None or _is_unsafe(workspace, trait, (taxon,), region) or not applies(workspace, taxon, trait, region):
            continue
        at = _place(contexts([value], trait), part)
        if at is not None:
            shown += _shown(workspace, trait_id, at, part, piece, _usual(workspace, taxon, trait_id, at, region, form))
    shown = _drawable(workspace.pieces[piece], shown)
    return Depiction(piece, tuple(shown)) if _is_enough(workspace.pieces[piece], shown) else None


def pieces_of(workspace: Workspace, taxon: Taxon, region: str | None = None) -> tuple[tuple[Depiction, str | None], ...]:
    """Every drawing that can be made of a taxon, in the order of the pieces, with the form it is of (None: of all plants).

    A piece in which a form looks otherwise is drawn of that form too; if every plant is of some form, of its forms only.
    """
    found: list[tuple[Depiction, str | None]] = []
    for piece in workspace.pieces:
        of_all = depict(workspace, taxon, piece, region)
        of_forms = [(made, form) for form in taxon.profile.forms if (made := depict(workspace, taxon, piece, region, form)) and made != of_all]
        if of_all and not (of_forms and taxon.is_of_forms_only):
            found.append((of_all, None))
        found += of_forms
    return tuple(found)


def depict_beside(workspace: Workspace, first: Taxon, second: Taxon, piece: str, region: str | None = None) -> Beside | None:
    """Two taxa side by side by one piece; None where nothing tells them apart in it.

    Where a verdict says that they differ, each shows its usual value. Where the usual values share something, both show that.
    All else (a tendency, a value that is unknown or disputed on one side) is left out of both. The shape of an organ that one of the two
    lacks goes with the organ.
    """
    sides: tuple[list[Shown], list[Shown]] = ([], [])
    differing: list[Difference] = []
    for trait_id, part in _drawn_traits(workspace, piece):
        trait = workspace.traits[trait_id]
        if _is_unsafe(workspace, trait, (first, second), region):
            continue
        found = differences(workspace, first, second, trait_id, region)
        at = _place([d.at for d in found], part)
        difference = next((d for d in found if d.at == at), None)
        if at is None or difference is None:
            continue
        made = [_shown(workspace, trait_id, at, part, piece, usual) for usual in _side_by_side(workspace, first, second, difference, region)]
        if difference.is_firm_contrast and not all(made):
            continue
        for side, shown in zip(sides, made, strict=True):
            side += shown
        if difference.is_firm_contrast and difference not in differing:
            differing.append(difference)
    sides = (_drawable(workspace.pieces[piece], sides[0]), _drawable(workspace.pieces[piece], sides[1]))
    differing = [d for d in differing if any((s.trait, s.at) == (d.trait, d.at) for side in sides for s in side)]
    if not differing or not any(_is_enough(workspace.pieces[piece], side) for side in sides):
        return None
    frame = _frame(workspace.pieces[piece], sides)
    return Beside(Depiction(piece, tuple(sides[0]), frame), Depiction(piece, tuple(sides[1]), frame), tuple(differing))


def depict_condition(workspace: Workspace, trait_id: str, extent: Extent, part: str | None = None) -> Depiction | None:
    """A condition of a trait by itself, in the first piece in which the trait is drawn; None if it is not drawn."""
    trait = workspace.traits[trait_id]
    drawings = [d for d in trait.draws if part is None or d.part in (None, part)]
    for piece in dict.fromkeys(d.piece for d in drawings):
        kind = workspace.pieces[piece]
        parts = dict.fromkeys(d.part for d in drawings if d.piece == piece)
        shown = tuple(s for named in parts for s in _shown(workspace, trait_id, Context(part), named, piece, extent))
        if shown:
            beside: dict[str, Setting] = {}
            for parameter in (p for s in shown for p in s.settings):
                beside.update(kind.parameters[parameter].beside)
            return Depiction(piece, shown, None, beside)
    return None


def depict_state(workspace: Workspace, trait_id: str, state: str, part: str | None = None) -> Depiction | None:
    """A state by itself, as the glossary shows it."""
    return depict_condition(workspace, trait_id, extent_of_states([state], workspace.traits[trait_id]), part)


def _drawable(kind: PieceKind, shown: list[Shown]) -> list[Shown]:
    """What is shown without what cannot be drawn, because another parameter is not known."""
    known = {parameter for s in shown for parameter in s.settings}
    kept = [replace(s, settings={p: setting for p, setting in s.settings.items() if kind.parameters[p].needs <= known}) for s in shown]
    return [s for s in kept if s.settings]


def _is_enough(kind: PieceKind, shown: list[Shown]) -> bool:
    """Whether what is known makes a drawing of the piece."""
    known = {parameter for s in shown for parameter in s.settings}
    return bool(known & kind.core) if kind.core else bool(known)


def _drawn_traits(workspace: Workspace, piece: str) -> list[tuple[str, str | None]]:
    """Every trait that is drawn in a piece, with each part that is drawn by itself."""
    return [(id_, part) for id_, trait in workspace.traits.items() for part in dict.fromkeys(d.part for d in trait.draws if d.piece == piece)]


def _is_unsafe(workspace: Workspace, trait: Trait, taxa: tuple[Taxon, ...], region: str | None) -> bool:
    """Whether people could see it only by a hand laid on the plant, where none may be: a picture would tempt them to."""
    return Bar.UNSAFE in trait_bars(workspace, trait, taxa, Occasion(None, frozenset(Means), region, tuple(t.id for t in taxa)))


def _place(found: Iterable[Context], part: str | None) -> Context | None:
    """The place at which a value is read for a drawing: that part, else the organ; for the organ, else its first part."""
    places = sorted(found, key=lambda c: c.stage is not None)
    fitting = [c for c in places if c.part == part] or [c for c in places if c.part is None or part is None]
    return fitting[0] if fitting else None


def _usual(workspace: Workspace, taxon: Taxon, trait_id: str, at: Context, region: str | None, form: str | None = None) -> Extent | None:
    """What is usual whichever source is right; of a form, what is said of it, else what is said of all. None: nothing is."""
    if form and (said := _of_form(workspace, taxon, trait_id, at, region, form)):
        return said
    found = {s.where.form for a in taxon.values[trait_id].alternatives for s in applicable(a, at, region or workspace.home_region)}
    if None not in found:  # said of forms only: no plant shows one form's value beside another's
        of_forms = [_of_form(workspace, taxon, trait_id, at, region, form) for form in found if form]
        return _shared([extent for extent in of_forms if extent is not None])
    return _shared([s.usual for s in spreads(workspace, taxon, taxon.values[trait_id], at, region)])


def _of_form(workspace: Workspace, taxon: Taxon, trait_id: str, at: Context, region: str | None, form: str) -> Extent | None:
    trait, found = workspace.traits[trait_id], []
    for alternative in taxon.values[trait_id].alternatives:
        said = [s for s in applicable(alternative, at, region or workspace.home_region) if s.where.form == form]
        top = max((s.frequency for s in said), default=None)
        extents: list[Extent] = [
            extent_of_ranges([s.span.inner], trait) if s.span else extent_of_states(s.states, trait) for s in said if s.frequency is top
        ]
        found += [reduce(union, extents)] if extents else []
    return _shared(found)


def _shared(extents: Iterable[Extent]) -> Extent | None:
    """What all have in common; None if that is nothing."""
    found = list(extents)
    return (reduce(_common, found) or None) if found else None


def _common(a: Extent, b: Extent) -> Extent:
    if isinstance(a, States) and isinstance(b, States):
        return States(a.atoms & b.atoms)
    if isinstance(a, Numbers) and isinstance(b, Numbers):
        return a.shared(b)
    raise TypeError("states and numbers are never values of one trait")


def _side_by_side(
    workspace: Workspace, first: Taxon, second: Taxon, difference: Difference, region: str | None
) -> tuple[Extent | None, Extent | None]:
    """What each of two shows of a trait beside the other."""
    trait_id, at = difference.trait, difference.at
    a, b = (_usual(workspace, t, trait_id, at, region) if trait_id in t.values else None for t in (first, second))
    if difference.is_firm_contrast:
        return a, b
    if difference.relation in (Relation.SAME, Relation.NESTED, Relation.OVERLAP) and not difference.disputed:
        both = _shared([a, b]) if a is not None and b is not None else None
        return both, both
    if difference.relation is Relation.NOT_COMPARABLE:
        return _with_its_organ(workspace, first, second, trait_id, region)
    return None, None


def _with_its_organ(workspace: Workspace, first: Taxon, second: Taxon, trait_id: str, region: str | None) -> tuple[Extent | None, Extent | None]:
    """The shape of an organ that one of two lacks: it goes with the organ, which tells the two apart anyhow."""
    trait = workspace.traits[trait_id]
    if trait.needs is None or not any(d.is_firm_contrast for d in differences(workspace, first, second, trait.needs.trait, region)):
        return None, None
    sides: list[Extent | None] = []
    for taxon in (first, second):
        value = taxon.values.get(trait_id)
        at = _place(contexts([value], trait), None) if value and applies(workspace, taxon, trait, region) else None
        sides.append(_usual(workspace, taxon, trait_id, at, region) if at else None)
    a, b = sides
    return (a, b) if (a is None) != (b is None) else (None, None)


def _shown(workspace: Workspace, trait_id: str, at: Context, part: str | None, piece: str, extent: Extent | None) -> list[Shown]:
    """What a drawing shows of what is usual, for one part that is drawn by itself: nothing or one condition."""
    trait, kind = workspace.traits[trait_id], workspace.pieces[piece]
    chosen = None if extent is None else _number(trait, extent) if isinstance(extent, Numbers) else _state(trait, extent)
    if chosen is None:
        return []
    condition, is_one_of_several = chosen
    settings: dict[str, Setting] = {}
    for drawing in trait.draws:
        if drawing.piece == piece and drawing.part == part:
            setting = _setting(trait, kind, drawing.parameter, condition)
            if setting is not None:
                settings[drawing.parameter] = setting
    return [Shown(trait_id, at, condition, settings, is_one_of_several)] if settings else []


def _setting(trait: Trait, kind: PieceKind, parameter: str, condition: str | Decimal) -> Setting | None:
    if isinstance(condition, str):
        return trait.states[condition].drawn
    return int(condition) if kind.parameters[parameter].kind is ParameterKind.COUNT else in_millimetres(condition, trait.unit)


def _state(trait: Trait, extent: States) -> tuple[str, bool] | None:
    """The state that is drawn of several: the widest that says no more than the extent, the first in the trait's list, of an order the middle one."""
    covered = [state for state, described in trait.states.items() if described.drawn and trait.atoms[state] <= extent.atoms]
    widest = [state for state in covered if not any(trait.atoms[state] < trait.atoms[other] for other in covered)]
    if not widest:
        return None
    place = (len(widest) - 1) // 2 if trait.kind is Kind.ORDERED else 0
    return widest[place], extent.atoms != trait.atoms[widest[place]]


def _number(trait: Trait, extent: Numbers) -> tuple[Decimal, bool] | None:
    """The number that is drawn: the middle of the first interval, a whole one for counts; the limit, where only one is known."""
    low, high = (first := extent.in_order()[0]).low, first.high
    if low is None or high is None:
        known = high if low is None else low
        return None if known is None else (known, True)
    middle = (low + high) / 2
    if trait.kind is Kind.COUNT:
        middle = Decimal(int(middle))
    return middle, low != high or len(extent.intervals) > 1


def _frame(kind: PieceKind, sides: tuple[list[Shown], list[Shown]]) -> Decimal | None:
    """The longer of the two lengths that give the scale; None unless both are shown."""
    lengths = [s.settings[kind.ruler] for side in sides for s in side if kind.ruler and kind.ruler in s.settings]
    found = [length for length in lengths if isinstance(length, Decimal)]
    return max(found) if len(found) == 2 else None
