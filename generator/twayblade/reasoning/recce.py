"""What a visit before the walk means for it: which way each stop takes, and what was seen that the profiles do not say."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum

from twayblade.knowledge.numbers import Interval, Numbers
from twayblade.knowledge.observation import PlantSeen, Recce, TraitSeen
from twayblade.knowledge.profile import STAGES, HazardClass
from twayblade.knowledge.trail import Case
from twayblade.knowledge.trait import Kind, Trait
from twayblade.knowledge.workspace import PlannedTrail, Workspace
from twayblade.reasoning.observed import Turnout
from twayblade.reasoning.recce_sheet import hoped_stage
from twayblade.reasoning.shift import YearShift, year_shift
from twayblade.reasoning.spread import Context, Extent, Spread, contexts, extent_of_ranges, extent_of_states, lies_in, meets, spreads

_CUT = {"mown": "all", "grazed": "all", "sprayed": "yes"}
"""What was done to a stop that leaves nothing of a plant nobody found."""
_ROUGH = {"ground": ("wet", "flooded"), "wind": ("strong",)}


class Why(StrEnum):
    """Why a plant's way is what it is."""

    SEEN_SO = "seen-so"
    STAGE_OPEN = "stage-open"
    NOT_YET = "not-yet"
    OVER = "over"
    ABSENT = "absent"
    CUT = "cut"
    OPEN = "open"


@dataclass(frozen=True)
class PlantWay:
    """A plant at a stop: the stage the walk hopes for, the way it takes (None: the sheet leaves it open) and why.

    cut: of what was done to the stop, what bears on it.
    """

    taxon: str
    hoped: str | None
    case: Case | None
    why: Why
    seen: PlantSeen | None
    cut: str = ""


@dataclass(frozen=True)
class StopWay:
    """The way a stop takes (None: the sheet leaves it open). rough: ground and wind as they were, if they call for another way."""

    stop: str
    case: Case | None
    plants: tuple[PlantWay, ...]
    rough: tuple[tuple[str, str], ...]


class Fit(StrEnum):
    """How what was seen stands to what the profile says."""

    AGREES = "agrees"
    UNUSUAL = "unusual"
    """The profile has it as less usual: sometimes, rarely, or in its outer limits."""
    DISAGREES = "disagrees"
    NEW = "new"
    """The profile says nothing of it."""


@dataclass(frozen=True)
class Judgement:
    """A trait seen, beside what the profile says. slight: a number that misses by no more than a misreading goes.

    others: where it disagrees, the harmful taxa that may show what was seen, the deadliest first.
    """

    seen: TraitSeen
    fit: Fit
    slight: bool
    others: tuple[str, ...] = ()


@dataclass(frozen=True)
class Findings:
    """Everything that a visit says: for the walk of `on`."""

    trail: PlannedTrail
    recce: Recce
    on: date
    stops: tuple[StopWay, ...]
    traits: tuple[Judgement, ...]
    year: YearShift


def turnout_of(found: Findings) -> Turnout:
    """How the day will turn out by what was seen; what the sheet leaves open is as hoped. A plant that was not yet as far as hoped
    stays in the stages it was seen in."""
    plants = [plant for way in found.stops for plant in way.plants]
    missing = frozenset(plant.taxon for plant in plants if plant.case is Case.NOT_FOUND)
    behind = {plant.taxon: plant.seen.stages for plant in plants if plant.why is Why.NOT_YET and plant.seen}
    stages = {id_: tuple(stage for stage in STAGES if any(stage in seen for seen in found_in)) for id_, found_in in behind.items()}
    return Turnout({way.stop: way.case for way in found.stops if way.case is not None}, missing, stages)


def walk_after(planned: PlannedTrail, recce: Recce) -> date:
    """The date of the walk that a visit is for: the first on or after it; the last, if none is; without a day the chief one."""
    if not recce.days:
        return planned.trail.chief_date
    return min((on for on in planned.trail.dates if on >= recce.days[-1]), default=max(planned.trail.dates))


def findings(workspace: Workspace, planned: PlannedTrail, recce: Recce, on: date) -> Findings:
    """What a visit says for the walk of a date. Profiles stay as they are, and no window is shifted."""
    stops = stop_ways(workspace, planned, recce, on)
    traits = tuple(judge_trait(workspace, seen, planned.trail.region) for seen in recce.traits if seen.is_judged)
    return Findings(planned, recce, on, stops, traits, year_shift(workspace, recce.plants, planned.trail.region))


def stop_ways(workspace: Workspace, planned: PlannedTrail, recce: Recce, on: date) -> tuple[StopWay, ...]:
    """The way each stop takes on a date. It goes as hoped while any plant does that the walk hopes to show there."""
    found = []
    for stop in planned.trail.stops:
        noted = {s.aspect: str(s.answer) for s in recce.stops if s.stop == stop.id}
        cut = next((aspect for aspect, most in _CUT.items() if noted.get(aspect) == most), "")
        plants = []
        for id_ in stop.taxa:
            seen = next((p for p in recce.plants if (p.stop, p.taxon) == (stop.id, id_)), None)
            hoped = hoped_stage(workspace, workspace.taxa[id_], on, planned.trail.region)
            if hoped or not workspace.taxa[id_].profile.seasons:
                plants.append(_plant_way(id_, hoped, seen, cut))
        rough = tuple((aspect, noted[aspect]) for aspect, bad in _ROUGH.items() if noted.get(aspect) in bad)
        found.append(StopWay(stop.id, _stop_case(plants, bool(rough)), tuple(plants), rough))
    return tuple(found)


def _plant_way(taxon: str, hoped: str | None, seen: PlantSeen | None, cut: str) -> PlantWay:
    if seen is None or seen.found is None:
        return PlantWay(taxon, hoped, Case.NOT_FOUND if cut else None, Why.CUT if cut else Why.OPEN, seen, cut)
    if not seen.found:
        return PlantWay(taxon, hoped, Case.NOT_FOUND, Why.ABSENT, seen, cut)
    if not seen.stages or hoped is None:
        return PlantWay(taxon, hoped, Case.AS_HOPED, Why.STAGE_OPEN if hoped else Why.SEEN_SO, seen)
    if any(hoped in stages for stages in seen.stages):
        return PlantWay(taxon, hoped, Case.AS_HOPED, Why.SEEN_SO, seen)
    earliest = min(STAGES.index(stage) for stages in seen.stages for stage in stages)
    if earliest > STAGES.index(hoped):
        return PlantWay(taxon, hoped, Case.PAST, Why.OVER, seen)
    return PlantWay(taxon, hoped, Case.AS_HOPED, Why.NOT_YET, seen)


def _stop_case(plants: list[PlantWay], is_rough: bool) -> Case | None:
    ways = {plant.case for plant in plants}
    if Case.AS_HOPED in ways:
        return Case.WET if is_rough else Case.AS_HOPED
    if None in ways or not ways:
        return Case.WET if is_rough else None
    return Case.PAST if Case.PAST in ways else Case.NOT_FOUND


def judge_trait(workspace: Workspace, seen: TraitSeen, region: str | None) -> Judgement:
    """What was seen beside what the profile says of that part, under the source that comes nearest to it."""
    taxon, trait = workspace.taxa[seen.taxon], workspace.traits[seen.trait]
    value = taxon.values.get(seen.trait)
    places = _places(contexts([value], trait) if value else (), seen.part)
    said = [spread for at in places if value for spread in spreads(workspace, taxon, value, at, region)]
    if not said:
        return Judgement(seen, Fit.NEW, False)
    pieces = _pieces(workspace, seen)
    fit = min((_worst(pieces, spread) for spread in said), key=_ORDER.index)
    nearby = [_widened(piece, trait) for piece in pieces] if trait.blur else []
    slight = fit is Fit.DISAGREES and bool(nearby) and any(_worst(nearby, spread) is not Fit.DISAGREES for spread in said)
    others = _others_that_show(workspace, seen, pieces, region) if fit is Fit.DISAGREES and not slight else ()
    return Judgement(seen, fit, slight, others)


def _others_that_show(workspace: Workspace, seen: TraitSeen, pieces: list[Extent], region: str | None) -> tuple[str, ...]:
    """The harmful taxa of which what was seen is recorded, the deadliest first."""
    trait, found = workspace.traits[seen.trait], []
    for id_, other in workspace.taxa.items():
        value = other.values.get(seen.trait)
        if id_ != seen.taxon and other.hazard_class.is_harmful and value:
            places = _places(contexts([value], trait), seen.part)
            said = [spread for at in places for spread in spreads(workspace, other, value, at, region)]
            if said and any(_worst(pieces, spread) in (Fit.AGREES, Fit.UNUSUAL) for spread in said):
                found.append(id_)
    return tuple(sorted(found, key=lambda id_: list(HazardClass).index(workspace.taxa[id_].hazard_class)))


_ORDER = list(Fit)


def _places(recorded: tuple[Context, ...], part: str | None) -> tuple[Context, ...]:
    """Where a value speaks of a part: what is said of the part itself, else of the whole organ; of no part in particular, anywhere."""
    return tuple(at for at in recorded if at.part == part) or tuple(at for at in recorded if part is None or at.part is None)


def _worst(pieces: list[Extent], said: Spread) -> Fit:
    """How the piece that fits least fits."""
    return max((_fit(piece, said) for piece in pieces), key=_ORDER.index)


def _pieces(workspace: Workspace, seen: TraitSeen) -> list[Extent]:
    """What was seen, piece by piece: each must fit by itself."""
    trait = workspace.traits[seen.trait]
    if seen.span:
        return [extent_of_ranges([Interval(bound, bound)], trait) for bound in seen.span.bounds()]
    return [extent_of_states([state], trait) for state in sorted(seen.states)]


def _fit(piece: Extent, said: Spread) -> Fit:
    if meets(piece, said.usual) if not isinstance(piece, Numbers) else lies_in(piece, said.usual):
        return Fit.AGREES
    return Fit.UNUSUAL if meets(piece, said.all) else Fit.DISAGREES


def _widened(piece: Extent, trait: Trait) -> Extent:
    """What was seen with everything it may be misread for: numbers within the blur of the trait, states within so many steps."""
    if isinstance(piece, Numbers):
        return Numbers.of([Interval(_less(i.low, trait.blur), _less(i.high, -trait.blur)) for i in piece.intervals], piece.whole)
    order = list(trait.states)
    near = [s for s in order for atom in piece.atoms if trait.kind is Kind.ORDERED and abs(order.index(s) - order.index(atom)) <= trait.blur]
    return extent_of_states([*piece.atoms, *near], trait)


def _less(bound: Decimal | None, by: Decimal) -> Decimal | None:
    return None if bound is None else bound - by
