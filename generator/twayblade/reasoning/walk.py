"""Going along a walk: what each stop says, given what has been met before it and how the day turns out."""

from __future__ import annotations

from copy import copy
from dataclasses import replace
from datetime import date

from twayblade.knowledge.name import Fit
from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.profile import Ground, HazardClass
from twayblade.knowledge.season import Phase
from twayblade.knowledge.trail import Case, Listeners, Stop
from twayblade.knowledge.workspace import PlannedTrail, Taxon, Workspace
from twayblade.reasoning.lookalikes import Pair, look_alikes_of
from twayblade.reasoning.observed import Turnout, as_observed, gone_over
from twayblade.reasoning.outline import Asked, Contrasted, Outline, PartPlan, StopPlan, season_view, stages_seen
from twayblade.reasoning.scope import covered, occasion_of, trail_taxa
from twayblade.reasoning.seeing import present
from twayblade.reasoning.showing import MOST_SIGNS, Showing, Shown
from twayblade.reasoning.signs import Remaining, sign_sets
from twayblade.reasoning.telling import Told, tell_apart

MOST_PAIRS = 1
MOST_CONTRASTS = 2
MOST_ASKED = 4
MOST_ASKED_OF_ONE = 2
FEWER = 2
"""How many of the plants met before a plant is told from (one more if either can harm), by how many contrasts each, how many
questions of an audience are answered at a stop and of one plant, and how many signs a stop makes do with for children, and in rain
or wind (project defaults)."""


class Walk:
    """Builds an outline stop by stop, keeping account of what has been met and warned of."""

    def __init__(self, workspace: Workspace, planned: PlannedTrail, on: date, pairs: tuple[Pair, ...], turnout: Turnout) -> None:
        self.workspace, self.trail, self.on = as_observed(workspace, turnout.stages), planned.trail, on
        self.missing = turnout.missing
        held, _ = covered(workspace, planned.trail, on)
        self.occasion: Occasion = occasion_of(planned.trail, on, taxa=held)
        self.pairs = pairs
        self.met: list[str] = []
        self.warned: set[str] = set()
        self.introduced: set[str] = set()
        self.shown: set[tuple[str, str]] = set()
        self.meets_later = {id_ for stop in planned.trail.stops for id_ in stop.taxa}
        self._known_signs: dict[tuple[int, str], tuple[Workspace, tuple[Shown, ...]]] = {}

    def fork(self) -> Walk:
        """The same walk at the same place, to go on in another way."""
        other = copy(self)
        other.met, other.warned, other.shown, other.introduced = list(self.met), set(self.warned), set(self.shown), set(self.introduced)
        return other

    def cases(self, stop: Stop) -> tuple[Case, ...]:
        """The other ways a stop may turn out on the date."""
        here = [self.workspace.taxa[id_] for id_ in stop.taxa if present(self.workspace, self.workspace.taxa[id_], self.on, self.trail.region)]
        past = [Case.PAST] if any(self._gone_over(taxon) for taxon in here) else []
        return (*past, Case.NOT_FOUND, Case.WET) if here else ()

    def stop(self, stop: Stop, case: Case = Case.AS_HOPED) -> StopPlan:
        """What a stop says, if it turns out in some way."""
        if case is Case.PAST:
            gone = {id_: later for id_ in stop.taxa if (later := self._gone_over(self.workspace.taxa[id_]))}
            self.workspace = as_observed(self.workspace, gone)
        stages = {id_: stages_seen(self.workspace, self.workspace.taxa[id_], self.on, self.trail.region) for id_ in stop.taxa}
        parts = [PartPlan("arrival")]
        for id_ in stop.taxa:
            taxon = self.workspace.taxa[id_]
            is_here = present(self.workspace, taxon, self.on, self.trail.region)
            if is_here and id_ not in self.met and (case is Case.NOT_FOUND or id_ in self.missing):
                parts += self._missed(stop, taxon)
            elif id_ in self.met:
                parts.append(self._care(taxon))
            elif is_here:
                parts += self._about(taxon, case)
                self.met.append(id_)
            elif taxon.hazard_class.is_harmful:
                parts.append(self._care(taxon))
        spoken_of = [id_ for id_ in stop.taxa if id_ in self.met or any(part.taxon == id_ for part in parts)]
        groups = dict.fromkeys(g for id_ in spoken_of if (g := self.workspace.taxa[id_].profile.group) and g not in self.introduced)
        self.introduced.update(groups)
        asked = () if case is Case.NOT_FOUND else self._asked(stop)
        return StopPlan(stop, tuple(groups), stages, (*parts, PartPlan("move-on")), case, asked)

    def _gone_over(self, taxon: Taxon) -> tuple[str, ...]:
        seen = tuple(stage for stage, _ in stages_seen(self.workspace, taxon, self.on, self.trail.region))
        return gone_over(taxon, seen)

    @property
    def _showing(self) -> Showing:
        return Showing(self.workspace, self.occasion)

    def _signs(self, id_: str) -> tuple[Shown, ...]:
        """The signs of a taxon, worked out once for each state of the workspace, in all branches."""
        key = (id(self.workspace), id_)
        if key not in self._known_signs:  # the workspace is kept with them, so that no other gets its id
            self._known_signs[key] = (self.workspace, self._showing.signs(self.workspace.taxa[id_], 2 * MOST_SIGNS))
        return self._known_signs[key][1]

    def _about(self, taxon: Taxon, case: Case) -> list[PartPlan]:
        signs = self._signs(taxon.id)
        if case is Case.WET or self.trail.listeners is Listeners.CHILDREN:
            parts = [PartPlan("recognise", taxon.id, shown=signs[:FEWER])]
            told = (self._tell(taxon, other) for other in self._worth_telling(taxon)[:1])
            parts += [replace(part, contrasts=part.contrasts[:1]) for part in told]
            if case is not Case.WET and any(meaning.fit is Fit.APT for meaning in taxon.profile.name_meaning):
                parts.append(PartPlan("name", taxon.id))
            return self._noted([*parts, *self._cautions(taxon)])
        parts = [PartPlan("recognise", taxon.id, shown=signs[:MOST_SIGNS])]
        parts += [self._tell(taxon, other) for other in self._worth_telling(taxon)]
        if taxon.profile.name_meaning:
            parts.append(PartPlan("name", taxon.id))
        if taxon.profile.habitat:
            parts.append(PartPlan("habitat", taxon.id))
        if closer := signs[MOST_SIGNS : MOST_SIGNS + 1]:
            parts.append(PartPlan("look-closer", taxon.id, shown=closer))
        if forms := self._showing.forms(taxon):
            parts.append(PartPlan("forms", taxon.id, shown=forms))
        return self._noted([*parts, *self._cautions(taxon)])

    def _noted(self, parts: list[PartPlan]) -> list[PartPlan]:
        """The same parts; what they show is not shown again."""
        self.shown |= {(s.taxon, s.trait) for part in parts for s in part.shown}
        return parts

    def _missed(self, stop: Stop, taxon: Taxon) -> list[PartPlan]:
        """A plant that is not found: the plant met that is looked at instead, by what has not been shown of it yet."""
        instead = stop.instead if stop.instead in self.met else None
        alike = look_alikes_of(self.pairs, taxon.id)
        for id_ in filter(None, [instead, *(m for m in reversed(self.met) if m in alike), *reversed(self.met)]):
            fresh = [s for s in self._signs(id_) if (id_, s.trait) not in self.shown]
            if fresh:
                return self._noted([PartPlan("not-found", taxon.id, shown=tuple(fresh[:FEWER]), other=id_), *self._cautions(taxon)])
        return [PartPlan("not-found", taxon.id), *self._cautions(taxon)]

    def _cautions(self, taxon: Taxon) -> list[PartPlan]:
        return [self._care(taxon)] if taxon.profile.hazard or taxon.profile.care else []

    def _care(self, taxon: Taxon) -> PartPlan:
        """The taxon's own cautions, and once in a walk those of harmful plants declared as its look-alikes that it does not meet."""
        others = [o for o in self._declared_alike(taxon) if self._is_harmful(o)]
        warned = tuple(o for o in others if o not in self.warned and o not in self.meets_later)
        self.warned.update(warned)
        return PartPlan("care", taxon.id, warned=warned)

    def _is_harmful(self, id_: str) -> bool:
        return self.workspace.taxa[id_].hazard_class.is_harmful

    def _declared_alike(self, taxon: Taxon) -> tuple[str, ...]:
        return look_alikes_of(tuple(p for p in self.pairs if p.declared), taxon.id)

    def _worth_telling(self, taxon: Taxon) -> list[str]:
        """The met look-alikes it is told from: declared ones first, of these the most harmful, then the latest met."""
        alike, declared = look_alikes_of(self.pairs, taxon.id), self._declared_alike(taxon)

        def order(other: str) -> tuple[bool, int, int]:
            return (other not in declared, list(HazardClass).index(self.workspace.taxa[other].hazard_class), -self.met.index(other))

        found = sorted((m for m in self.met if m in alike), key=order)
        may_harm = [m for m in found[MOST_PAIRS:] if m in declared and (taxon.hazard_class.is_harmful or self._is_harmful(m))]
        return found[:MOST_PAIRS] + may_harm[:1]

    def _tell(self, taxon: Taxon, other: str) -> PartPlan:
        contrasts = self._contrasts(taxon, other)
        return PartPlan("tell", taxon.id, other=other, contrasts=contrasts, remaining=None if contrasts else self._remaining(taxon, other))

    def _contrasts(self, taxon: Taxon, other: str) -> tuple[Contrasted, ...]:
        """The best contrasts of two taxa that both show then, of different organs, declared ones first."""
        told = tell_apart(self.workspace, self.occasion, [(taxon.id, other)]).told
        usable = [t for t in told if t.is_usable and set(t.seen.values()) == {Phase.EXPECTED}]
        grounds = self._grounds(taxon.id, other)
        usable.sort(key=lambda t: (self._is_disputed(t), t.difference.trait not in grounds))
        chosen: list[Told] = []
        for t in usable:
            organs = {self.workspace.traits[c.difference.trait].organ for c in chosen}
            if self.workspace.traits[t.difference.trait].organ not in organs and len(chosen) < MOST_CONTRASTS:
                chosen.append(t)
        return tuple(Contrasted(t, grounds.get(t.difference.trait)) for t in chosen)

    def _remaining(self, taxon: Taxon, other: str) -> Remaining | None:
        return next(iter(sign_sets(self.workspace, taxon, self.occasion, (taxon.id, other)).remaining), None)

    def _is_disputed(self, told: Told) -> bool:
        """Whether sources differ on a value, although not so that the contrast hangs on it: such words are hard to speak."""
        taxa = (told.difference.first, told.difference.second)
        return any(len(self.workspace.taxa[id_].values[told.difference.trait].alternatives) > 1 for id_ in taxa)

    def _grounds(self, first: str, second: str) -> dict[str, Ground]:
        """The declared grounds of a contrast by trait, from whichever side; where both declare one, that with words."""
        sides = ((first, second), (second, first))
        declared = [
            ground
            for taxon, other in sides
            for contrast in self.workspace.taxa[taxon].profile.contrasts
            if contrast.from_ == other
            for ground in contrast.by
        ]
        return {ground.trait: ground for ground in sorted(declared, key=lambda ground: ground.words is not None)}

    def _asked(self, stop: Stop) -> tuple[Asked, ...]:
        """The questions to expect: whether a plant is one of the most harmful of those it is easily taken for."""
        found = []
        for id_ in stop.taxa:
            taxon = self.workspace.taxa[id_]
            if id_ in self.met:
                harmful = [o for o in self._declared_alike(taxon) if self._is_harmful(o)]
                worst = sorted(harmful, key=lambda o: list(HazardClass).index(self.workspace.taxa[o].hazard_class))
                found += [Asked(id_, o, next(iter(self._contrasts(taxon, o)), None)) for o in worst[:MOST_ASKED_OF_ONE]]
        return tuple(found[:MOST_ASKED])


def outline(
    workspace: Workspace, planned: PlannedTrail, on: date, pairs: tuple[Pair, ...], turnout: Turnout | None = None, branches: bool = True
) -> Outline:
    """What the walk says on a date: at each stop only what can be seen then, contrasts only with what has been met.

    pairs: the look-alikes of the workspace. turnout: how the day turns out; as hoped, if not given. branches: whether to tell
    the other ways each stop may turn out.
    """
    turnout = turnout or Turnout()
    walk = Walk(workspace, planned, on, pairs, turnout)
    stops, others = [], []
    for stop in planned.trail.stops:
        here = turnout.cases.get(stop.id, Case.AS_HOPED)
        others.append(tuple(walk.fork().stop(stop, case) for case in walk.cases(stop) if case is not here) if branches else ())
        stops.append(walk.stop(stop, here))
    missed = {part.taxon for stop in stops for part in stop.parts if part.kind == "not-found"}
    there = tuple(id_ for id_ in trail_taxa(planned.trail) if id_ not in missed)
    season = season_view(walk.workspace, there, on, planned.trail.region)
    return Outline(planned, on, season, tuple(stops), tuple(others))
