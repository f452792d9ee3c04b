"""The outline of a walk: which claims each stop makes on a date, in order. Words and seconds come later."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date

from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.profile import STAGES, Ground, HazardClass
from twayblade.knowledge.season import Phase, day_of
from twayblade.knowledge.trail import Stop
from twayblade.knowledge.workspace import PlannedTrail, Taxon, Workspace
from twayblade.reasoning.compare import surely_applies
from twayblade.reasoning.lookalikes import Pair, look_alikes_of
from twayblade.reasoning.relation import Relation
from twayblade.reasoning.scope import covered, occasion_of
from twayblade.reasoning.seeing import handling_forbidden, phase_on, present, trait_bars, trait_seen
from twayblade.reasoning.signs import Remaining, sign_sets
from twayblade.reasoning.spread import Context
from twayblade.reasoning.telling import Telling, Told, observation, tell_apart

MOST_SIGNS = 3
MOST_PAIRS = 1
MOST_CONTRASTS = 2
"""How many signs make a plant known at a stop, how many of the plants met before it is told
from (one more if either can harm), and by how many contrasts each (project defaults)."""


@dataclass(frozen=True)
class Shown:
    """A statement: a taxon, or one form of it, shows its value of a trait."""

    taxon: str
    trait: str
    at: Context
    form: str | None = None


@dataclass(frozen=True)
class Contrasted:
    """A contrast of a taxon with one already met, and the author's ground for it, if declared."""

    told: Told
    ground: Ground | None


@dataclass(frozen=True)
class PartPlan:
    """One part of a stop: its kind, the taxon it is about, what it claims.

    other: in `tell`, the taxon already met; without contrasts, nothing that may be looked at separates the two then,
    and remaining says when or by what means something would.
    warned: in `care`, further harmful taxa whose cautions are spoken here.
    """

    kind: str
    taxon: str | None = None
    shown: tuple[Shown, ...] = ()
    other: str | None = None
    contrasts: tuple[Contrasted, ...] = ()
    warned: tuple[str, ...] = ()
    remaining: Remaining | None = None


@dataclass(frozen=True)
class StopPlan:
    """A stop with its parts.

    groups: those first met here. stages: for each of its taxa those that can be seen then; none: it is not to be seen.
    """

    stop: Stop
    groups: tuple[str, ...]
    stages: Mapping[str, tuple[tuple[str, Phase], ...]]
    parts: tuple[PartPlan, ...]


@dataclass(frozen=True)
class Outline:
    """What a walk says on a date."""

    trail: PlannedTrail
    on: date
    stops: tuple[StopPlan, ...]


def stages_seen(workspace: Workspace, taxon: Taxon, on: date, region: str | None) -> tuple[tuple[str, Phase], ...]:
    """The stages in which a taxon can be seen on a date, in the order of its life."""
    phases = ((stage, phase_on(workspace, taxon, stage, day_of(on), region)) for stage in STAGES)
    return tuple((stage, phase) for stage, phase in phases if phase is not None and phase.can_be_seen)


class _Walk:
    """Builds an outline stop by stop, keeping account of what has been met and warned of."""

    def __init__(self, workspace: Workspace, planned: PlannedTrail, on: date, pairs: tuple[Pair, ...]) -> None:
        self.workspace, self.trail, self.on = workspace, planned.trail, on
        self.held, _ = covered(workspace, planned.trail, on)
        self.occasion: Occasion = occasion_of(planned.trail, on, taxa=self.held)
        self.telling: Telling = tell_apart(workspace, self.occasion)
        self.forbidden = handling_forbidden(workspace, self.occasion)
        self.pairs = pairs
        self.met: list[str] = []
        self.warned: set[str] = set()
        self.meets_later = {id_ for stop in planned.trail.stops for id_ in stop.taxa}

    def stop(self, stop: Stop) -> StopPlan:
        stages = {id_: stages_seen(self.workspace, self.workspace.taxa[id_], self.on, self.trail.region) for id_ in stop.taxa}
        parts = [PartPlan("arrival")]
        known = {self.workspace.taxa[id_].profile.group for id_ in self.met}
        for id_ in stop.taxa:
            taxon = self.workspace.taxa[id_]
            if id_ in self.met:
                parts.append(self._care(taxon))
            elif present(self.workspace, taxon, self.on, self.trail.region):
                parts += self._about(taxon)
                self.met.append(id_)
            elif taxon.hazard_class.is_harmful:
                parts.append(self._care(taxon))
        groups = dict.fromkeys(g for id_ in stop.taxa if id_ in self.met and (g := self.workspace.taxa[id_].profile.group) and g not in known)
        return StopPlan(stop, tuple(groups), stages, (*parts, PartPlan("move-on")))

    def _about(self, taxon: Taxon) -> list[PartPlan]:
        signs = self._signs(taxon)
        parts = [PartPlan("recognise", taxon.id, shown=signs[:MOST_SIGNS])]
        parts += [self._tell(taxon, other) for other in self._worth_telling(taxon)]
        if taxon.profile.name_meaning:
            parts.append(PartPlan("name", taxon.id))
        if taxon.profile.habitat:
            parts.append(PartPlan("habitat", taxon.id))
        if closer := signs[MOST_SIGNS : MOST_SIGNS + 1]:
            parts.append(PartPlan("look-closer", taxon.id, shown=closer))
        if forms := self._forms(taxon):
            parts.append(PartPlan("forms", taxon.id, shown=forms))
        if taxon.profile.hazard or taxon.profile.care:
            parts.append(self._care(taxon))
        return parts

    def _care(self, taxon: Taxon) -> PartPlan:
        """The taxon's own cautions, and once in a walk those of harmful plants declared as its look-alikes that it does not meet."""
        declared = tuple(p for p in self.pairs if p.declared)
        others = [o for o in look_alikes_of(declared, taxon.id) if self.workspace.taxa[o].hazard_class.is_harmful]
        warned = tuple(o for o in others if o not in self.warned and o not in self.meets_later)
        self.warned.update(warned)
        return PartPlan("care", taxon.id, warned=warned)

    def _signs(self, taxon: Taxon) -> tuple[Shown, ...]:
        """What can be looked at on the taxon then: the fewest signs that tell it from its fellows, then what tells most.

        An organ comes back only after the others, and the same observation never.
        """
        scope = self._fellows(taxon)
        worth: dict[tuple[str, Context], float] = {}
        for told in self.telling.told:
            d = told.difference
            if taxon.id in (d.first, d.second) and {d.first, d.second} <= scope and told.verdict.is_good:
                worth[d.trait, d.at] = worth.get((d.trait, d.at), 0.0) + (1.0 if d.relation is Relation.SEPARATE else 0.6)
        usable = {key: points for key, points in worth.items() if points and self._may_show(taxon, *key)}
        ranked = sorted(usable, key=lambda key: (-usable[key] / self._effort(key[0]), list(self.workspace.traits).index(key[0]), str(key[1])))
        chosen: list[tuple[str, Context]] = []
        for keys, only_new_organs in ((self._fewest(taxon, scope), False), (ranked, True), (ranked, False)):
            for key in keys:
                organs = {self.workspace.traits[trait].organ for trait, _ in chosen}
                seen = {observation(self.workspace, trait) for trait, _ in chosen}
                is_new = observation(self.workspace, key[0]) not in seen
                if is_new and not (only_new_organs and self.workspace.traits[key[0]].organ in organs) and len(chosen) <= MOST_SIGNS:
                    chosen.append(key)
        return tuple(Shown(taxon.id, trait, at) for trait, at in chosen)

    def _forms(self, taxon: Taxon) -> tuple[Shown, ...]:
        """The forms of a taxon by the easiest trait that may be shown and is recorded for the most of them."""
        best: tuple[Shown, ...] = ()
        for trait_id in sorted(taxon.values, key=self._effort):
            said = [s for a in taxon.values[trait_id].alternatives for s in a.statements if s.where.form]
            found = {s.where.form: Shown(taxon.id, trait_id, Context(s.where.part, s.where.stage), s.where.form) for s in said}
            if len(found) > len(best) and all(self._may_show(taxon, trait_id, shown.at) for shown in found.values()):
                best = tuple(found.values())
        return best

    def _fellows(self, taxon: Taxon) -> frozenset[str]:
        """What a taxon must be known from: the others of its group, once the group is told as what all of them share; without
        such a group, everything."""
        group = self.workspace.groups.get(taxon.profile.group or "")
        fellows = frozenset(id_ for id_ in self.held if self.workspace.taxa[id_].profile.group == taxon.profile.group)
        return fellows if group and group.values and len(fellows) > 1 else frozenset(self.held)

    def _fewest(self, taxon: Taxon, scope: frozenset[str]) -> list[tuple[str, Context]]:
        """The fewest signs that tell a taxon from all others of a scope, if they may be shown."""
        sets = sign_sets(self.workspace, taxon, replace(self.occasion, taxa=tuple(id_ for id_ in self.held if id_ in scope))).sets
        keys = ([(sign.trait, sign.at) for sign in found] for found in sets)
        return next((found for found in keys if all(self._may_show(taxon, *key) for key in found)), [])

    def _effort(self, trait_id: str) -> float:
        trait = self.workspace.traits[trait_id]
        return trait.ease.effort + 5 * float(trait.misread)

    def _may_show(self, taxon: Taxon, trait_id: str, at: Context) -> bool:
        trait = self.workspace.traits[trait_id]
        value = taxon.values.get(trait_id)
        speaks = value is not None and any(at.holds(s) for a in value.alternatives for s in a.statements)
        undisputed = value is not None and len(value.alternatives) == 1
        applies = surely_applies(self.workspace, taxon, trait, self.trail.region)
        expected = trait_seen(self.workspace, taxon, trait, self.on, self.trail.region) is Phase.EXPECTED
        return speaks and undisputed and applies and expected and not trait_bars(self.workspace, trait, (taxon,), self.occasion, self.forbidden)

    def _worth_telling(self, taxon: Taxon) -> list[str]:
        """The met look-alikes it is told from: declared ones first, of these the most harmful, then the latest met."""
        alike = look_alikes_of(self.pairs, taxon.id)
        declared = {p.other(taxon.id) for p in self.pairs if p.declared and taxon.id in (p.first, p.second)}

        def order(other: str) -> tuple[bool, int, int]:
            return (other not in declared, list(HazardClass).index(self.workspace.taxa[other].hazard_class), -self.met.index(other))

        found = sorted((m for m in self.met if m in alike), key=order)
        may_harm = [
            m
            for m in found[MOST_PAIRS:]
            if m in declared and {taxon.hazard_class.is_harmful, self.workspace.taxa[m].hazard_class.is_harmful} != {False}
        ]
        return found[:MOST_PAIRS] + may_harm[:1]

    def _tell(self, taxon: Taxon, other: str) -> PartPlan:
        usable = [t for t in self.telling.of_pair(taxon.id, other) if t.is_usable and set(t.seen.values()) == {Phase.EXPECTED}]
        grounds = self._grounds(taxon.id, other)
        usable.sort(key=lambda t: (self._is_disputed(t), t.difference.trait not in grounds))
        chosen: list[Told] = []
        for told in usable:
            organs = {self.workspace.traits[t.difference.trait].organ for t in chosen}
            if self.workspace.traits[told.difference.trait].organ not in organs and len(chosen) < MOST_CONTRASTS:
                chosen.append(told)
        contrasts = tuple(Contrasted(t, grounds.get(t.difference.trait)) for t in chosen)
        return PartPlan("tell", taxon.id, other=other, contrasts=contrasts, remaining=None if contrasts else self._remaining(taxon, other))

    def _remaining(self, taxon: Taxon, other: str) -> Remaining | None:
        pair = replace(self.occasion, taxa=(taxon.id, other))
        return next(iter(sign_sets(self.workspace, taxon, pair).remaining), None)

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


def outline(workspace: Workspace, planned: PlannedTrail, on: date, pairs: tuple[Pair, ...]) -> Outline:
    """What the walk says on a date: at each stop only what can be seen then, contrasts only with what has been met.

    pairs: the look-alikes of the workspace.
    """
    walk = _Walk(workspace, planned, on, pairs)
    return Outline(planned, on, tuple(walk.stop(stop) for stop in planned.trail.stops))
