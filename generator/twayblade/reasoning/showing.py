"""What to show of a taxon on a walk: the signs it is known by, and its forms."""

from __future__ import annotations

from dataclasses import dataclass

from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.season import Phase
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.compare import surely_applies
from twayblade.reasoning.relation import Relation
from twayblade.reasoning.seeing import handling_forbidden, trait_bars, trait_seen
from twayblade.reasoning.signs import sign_sets
from twayblade.reasoning.spread import Context
from twayblade.reasoning.telling import observation, tell_apart

MOST_SIGNS = 3
"""How many signs make a plant known at a stop (project default); one more may be looked at closer."""


@dataclass(frozen=True)
class Shown:
    """A statement: a taxon, or one form of it, shows its value of a trait."""

    taxon: str
    trait: str
    at: Context
    form: str | None = None


class Showing:
    """Chooses what to show of the taxa of an occasion that has a date."""

    def __init__(self, workspace: Workspace, occasion: Occasion) -> None:
        self.workspace, self.occasion = workspace, occasion
        self.forbidden = handling_forbidden(workspace, occasion)

    def signs(self, taxon: Taxon, most: int = MOST_SIGNS + 1) -> tuple[Shown, ...]:
        """What can be looked at on the taxon then: the fewest signs that tell it from its fellows, then what tells most.

        An organ comes back only after the others, and the same observation never.
        """
        scope = self._fellows(taxon)
        worth: dict[tuple[str, Context], float] = {}
        for told in tell_apart(self.workspace, self.occasion, ((taxon.id, other) for other in scope if other != taxon.id)).told:
            d = told.difference
            if told.verdict.is_good:
                worth[d.trait, d.at] = worth.get((d.trait, d.at), 0.0) + (1.0 if d.relation is Relation.SEPARATE else 0.6)
        usable = {key: points for key, points in worth.items() if points and self.may_show(taxon, *key)}
        ranked = sorted(usable, key=lambda key: (-usable[key] / self._effort(key[0]), list(self.workspace.traits).index(key[0]), str(key[1])))
        chosen: list[tuple[str, Context]] = []
        for keys, only_new_organs in ((self._fewest(taxon, scope), False), (ranked, True), (ranked, False)):
            for key in keys:
                organs = {self.workspace.traits[trait].organ for trait, _ in chosen}
                seen = {observation(self.workspace, trait) for trait, _ in chosen}
                is_new = observation(self.workspace, key[0]) not in seen
                if is_new and not (only_new_organs and self.workspace.traits[key[0]].organ in organs) and len(chosen) < most:
                    chosen.append(key)
        return tuple(Shown(taxon.id, trait, at) for trait, at in chosen)

    def forms(self, taxon: Taxon) -> tuple[Shown, ...]:
        """The forms of a taxon by the easiest trait that may be shown and is recorded for the most of them."""
        best: tuple[Shown, ...] = ()
        for trait_id in sorted(taxon.values, key=self._effort):
            said = [s for a in taxon.values[trait_id].alternatives for s in a.statements if s.where.form]
            found = {s.where.form: Shown(taxon.id, trait_id, Context(s.where.part, s.where.stage), s.where.form) for s in said}
            if len(found) > len(best) and all(self.may_show(taxon, trait_id, shown.at) for shown in found.values()):
                best = tuple(found.values())
        return best

    def _fellows(self, taxon: Taxon) -> tuple[str, ...]:
        """What a taxon must be known from: the others of its group, once the group is told as what all of them share; without
        such a group, everything."""
        group = self.workspace.groups.get(taxon.profile.group or "")
        fellows = tuple(id_ for id_ in self.occasion.taxa if self.workspace.taxa[id_].profile.group == taxon.profile.group)
        return fellows if group and group.values and len(fellows) > 1 else self.occasion.taxa

    def _fewest(self, taxon: Taxon, scope: tuple[str, ...]) -> list[tuple[str, Context]]:
        """The fewest signs that tell a taxon from all others of a scope, if they may be shown."""
        sets = sign_sets(self.workspace, taxon, self.occasion, scope).sets
        keys = ([(sign.trait, sign.at) for sign in found] for found in sets)
        return next((found for found in keys if all(self.may_show(taxon, *key) for key in found)), [])

    def _effort(self, trait_id: str) -> float:
        trait = self.workspace.traits[trait_id]
        return trait.ease.effort + 5 * float(trait.misread)

    def may_show(self, taxon: Taxon, trait_id: str, at: Context) -> bool:
        """Whether the taxon surely shows its value of a trait there and then, sources agree on it, and it may be looked at."""
        trait, on, region = self.workspace.traits[trait_id], self.occasion.on, self.occasion.region
        value = taxon.values.get(trait_id)
        speaks = value is not None and any(at.holds(s) for a in value.alternatives for s in a.statements)
        undisputed = value is not None and len(value.alternatives) == 1
        applies = surely_applies(self.workspace, taxon, trait, region)
        expected = on is None or trait_seen(self.workspace, taxon, trait, on, region) is Phase.EXPECTED
        return speaks and undisputed and applies and expected and not trait_bars(self.workspace, trait, (taxon,), self.occasion, self.forbidden)
