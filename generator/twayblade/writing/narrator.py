"""What a walk says of what its outline has decided: one narrative, in wordings that take turns, each term explained before it is used."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from copy import copy
from dataclasses import dataclass, replace

from twayblade.knowledge.name import Fit, NamePart
from twayblade.knowledge.season import MONTHS, Phase
from twayblade.knowledge.trail import Case, Listeners, Trail
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.outline import Asked, Contrasted, Outline, PartPlan, StopPlan
from twayblade.reasoning.scope import trail_taxa
from twayblade.reasoning.showing import Shown
from twayblade.reasoning.spread import spreads
from twayblade.reasoning.telling import observation
from twayblade.reasoning.terms import Terms, of_group
from twayblade.writing.explaining import Explaining
from twayblade.writing.phrases import clause, contrast_words, days_words, form_sentence, listed, sentence
from twayblade.writing.speech import spoken
from twayblade.writing.stages import is_expected, stage_words
from twayblade.writing.wordings import Wordings

MOST_CARE = 1
"""How many cautions of a taxon are spoken beside its hazard (project default); pages and keys print all."""
MOST_LEARNT = 6
"""How many characters the closing gathers (project default)."""

_HEDGE = re.compile(r"\b(?:usually|sometimes|rarely|at the (?:most|least))\b")

REFUSAL = (
    "We never say of a plant that it can be eaten, and nothing on this walk decides what to eat. "
    "Some plants here can kill, and one mistake is enough, so please look only."
)
"""The fixed answer to whether a plant can be eaten."""


@dataclass(frozen=True)
class Claim:
    """What a text claims: a statement about one taxon or a contrast of two, by a trait, with its verdict.

    text: the words that make the claim. part, stage, form: where it looks, and at plants of which form.
    """

    kind: str
    taxa: tuple[str, ...]
    trait: str
    part: str | None
    verdict: str
    text: str
    stage: str | None = None
    form: str | None = None


@dataclass(frozen=True)
class Said:
    """A sentence or more, with the claims they make, and how many things they ask to be looked at."""

    text: str
    claims: tuple[Claim, ...] = ()
    looks: int = 0


class Narrator:
    """Turns the parts of a walk into sentences, one after the other."""

    def __init__(self, workspace: Workspace, plan: Outline) -> None:
        self.workspace, self.plan = workspace, plan
        self.trail: Trail = plan.trail.trail
        self.explaining = Explaining(Terms(workspace.glossary))
        self.wordings = Wordings()

    def fork(self) -> Narrator:
        """The same account of what has been said, to go on in another way."""
        other = copy(self)
        other.explaining, other.wordings = self.explaining.fork(), self.wordings.fork()
        return other

    def part(self, number: int, plan: StopPlan, part: PartPlan) -> list[Said]:
        """The sentences of one part of a stop, without the author's own."""
        taxon = self.workspace.taxa[part.taxon] if part.taxon else None
        if taxon is None:
            return {"opening": self._opening, "arrival": self._arrival, "move-on": self._move_on, "closing": self._closing}[part.kind](number, plan)
        tellers = {
            "recognise": self._recognise,
            "look-closer": self._closer,
            "tell": self._tell,
            "forms": self._forms,
            "name": self._name,
            "habitat": self._habitat,
            "care": self._care,
            "not-found": self._not_found,
        }
        return tellers[part.kind](taxon, part)

    def explained(self, said: Iterable[Said], introduced: frozenset[str] = frozenset()) -> list[Said]:
        """The same sentences, each after what explains its terms if they are new. introduced: terms that need none."""
        found = []
        self.explaining.is_known("", introduced)
        for one in said:
            self.explaining.is_known(one.text)
            explanation = spoken(self.explaining.explain(one.text))
            found += [Said(explanation), one] if explanation else [one]
        return found

    def introduced(self, plan: StopPlan) -> frozenset[str]:
        """The terms that the spoken paragraphs of the groups first met at a stop introduce."""
        return frozenset().union(*(of_group(self.workspace, g) for g in plan.groups if self.workspace.groups[g].say))

    def _say(self, kind: str, **words: str) -> Said:
        return Said(spoken(self.wordings.say(kind, **words)))

    def _name_of(self, id_: str) -> str:
        return self.workspace.taxa[id_].common_name

    # -- the frame of the walk -----------------------------------------------------------------------------
    def _opening(self, number: int, plan: StopPlan) -> list[Said]:
        said = [] if plan.stop.words.get("opening") or not self.trail.say else [Said(spoken(sentence(self.trail.say)))]
        season = self.plan.season
        if not any((season.in_flower, season.perhaps, season.over, season.to_come)):
            return said
        third = ("early", "mid", "late")[min((self.plan.on.day - 1) // 10, 2)]
        said.append(self._say("season", time=f"{third} {MONTHS[self.plan.on.month - 1]}"))
        kinds = {"in-flower": season.in_flower, "perhaps-in-flower": season.perhaps, "over": season.over, "to-come": season.to_come}
        for kind, taxa in kinds.items():
            if taxa:
                is_one = kind == "in-flower" and len(taxa) == 1
                said.append(self._say("one-in-flower" if is_one else kind, names=listed(map(self._name_of, taxa))))
            elif kind == "in-flower":
                said.append(self._say("none-in-flower"))
        return said

    def _arrival(self, number: int, plan: StopPlan) -> list[Said]:
        said = [] if plan.stop.words.get("arrival") else [Said(sentence(plan.stop.title))]
        said += [Said(spoken(say.text)) for g in plan.groups if (say := self.workspace.groups[g].say)]
        if plan.case is Case.WET and not self.wordings.is_said("wet"):
            said.append(self._say("wet"))
        missed = {part.taxon for part in plan.parts if part.kind == "not-found"}
        said += [self._here(self.workspace.taxa[id_], plan.stages[id_]) for id_ in plan.stop.taxa if id_ not in missed]
        if plan.stop.place and any(part.kind == "recognise" for part in plan.parts):
            said.append(Said(spoken(plan.stop.place)))
        return said

    def _here(self, taxon: Taxon, stages: tuple[tuple[str, Phase], ...]) -> Said:
        if not taxon.profile.seasons:
            return self._say("here-alone", name=taxon.common_name)
        kind = "not-here" if not stages else "here" if is_expected(stages) else "perhaps-here"
        return self._say(kind, name=taxon.common_name, stage=stage_words(stages))

    def _move_on(self, number: int, plan: StopPlan) -> list[Said]:
        following = self.plan.stops[number + 1 :]
        return [self._say("move-on", title=_lower_article(following[0].stop.title))] if following else []

    def _closing(self, number: int, plan: StopPlan) -> list[Said]:
        parts = [part for stop in (*self.plan.stops[:-1], plan) for part in stop.parts]
        shown = list(dict.fromkeys(part.taxon for part in parts if part.kind == "recognise" and part.taxon))
        recorded = self.workspace.regions[self.trail.region].recorded
        of_list = f" of the {len(recorded)} on the list for this region, so this was a selection" if len(recorded) > len(shown) else ""
        kinds = f"{len(shown) or 'no'} {'kind' if len(shown) == 1 else 'kinds'}"
        said = [self._say("closing", kinds=kinds, of_list=of_list if shown else "")]
        traits = [s.trait for part in parts for s in part.shown] + [c.told.difference.trait for part in parts for c in part.contrasts]
        often = Counter(observation(self.workspace, trait) for trait in traits).most_common(MOST_LEARNT)
        if often:
            said.append(self._say("learnt", characters=listed(f"the {self.workspace.traits[trait].name}" for trait, _ in often)))
        if absent := [self._name_of(id_) for id_ in trail_taxa(self.trail) if id_ not in shown]:
            said.append(self._say("missing", names=listed(absent)))
        return [*said, self._say("farewell")]

    # -- a plant -------------------------------------------------------------------------------------------
    def _recognise(self, taxon: Taxon, part: PartPlan) -> list[Said]:
        if not part.shown:
            return [self._say("recognise-nothing", name=taxon.common_name)]
        said, has_varied = [self._say("recognise", name=taxon.common_name)], False
        for number, shown in enumerate(part.shown):
            said.append(self._sign(taxon, shown, number == 0))
            if self._varies(taxon, shown) and not has_varied:
                said.append(self._say("varies", name=taxon.common_name))
                has_varied = True
        return said

    def _closer(self, taxon: Taxon, part: PartPlan) -> list[Said]:
        return [self._say("closer", name=taxon.common_name), *(self._sign(taxon, s, is_first=True) for s in part.shown)]

    def _sign(self, taxon: Taxon, shown: Shown, is_first: bool) -> Said:
        words = clause(self.workspace, taxon, shown.trait, shown.at, self.trail.region)
        kind = "sign-that-varies" if _HEDGE.search(words) else "first-sign" if is_first else "sign"
        text = self._say(kind, name=taxon.common_name, clause=words).text
        return Said(text, (_statement(shown, text),), 1)

    def _remembered(self, taxon: Taxon, shown: Shown) -> Said:
        """A sign of a plant that was met before and does not stand here."""
        words = clause(self.workspace, taxon, shown.trait, shown.at, self.trail.region)
        text = self._say("remembered-sign", name=taxon.common_name, clause=words).text
        return Said(text, (_statement(shown, text),))

    def _varies(self, taxon: Taxon, shown: Shown) -> bool:
        found = spreads(self.workspace, taxon, taxon.values[shown.trait], shown.at, self.trail.region)
        return any(s.lesser or s.rare for s in found)

    def _forms(self, taxon: Taxon, part: PartPlan) -> list[Said]:
        forms = listed(dict.fromkeys(taxon.profile.forms[s.form].name for s in part.shown if s.form))
        of_one = ", and each plant is of one of them" if taxon.is_of_forms_only else ""
        said = [self._say("forms", name=taxon.common_name, forms=forms, of_one=of_one)]
        for shown in part.shown:
            text = spoken(form_sentence(self.workspace, taxon, shown.trait, shown.form or "", shown.at, self.trail.region))
            said.append(Said(text, (_statement(shown, text),)))
        return [*said[:-1], replace(said[-1], looks=1)]

    def _tell(self, taxon: Taxon, part: PartPlan) -> list[Said]:
        other = self._name_of(part.other or "")
        if part.contrasts:
            return [self._say("tell", other=other), *(self.contrast(taxon.id, c) for c in part.contrasts)]
        said = [self._say("tell-nothing", other=other, name=taxon.common_name)]
        if part.remaining and part.remaining.later:
            trait, days = part.remaining.later[0]
            said.append(self._say("tell-later", trait=f"the {self.workspace.traits[trait].name}", when=days_words(days)))
        return said

    def contrast(self, first: str, contrasted: Contrasted) -> Said:
        """A contrast in the author's words, if there are any, else in words worked out from the data."""
        d = contrasted.told.difference
        own = contrasted.ground.words if contrasted.ground else None
        text = spoken(own) if own else self._say("contrast", **contrast_words(self.workspace, d, first, self.trail.region)).text
        other = d.second if first == d.first else d.first
        return Said(text, (Claim("contrast", (first, other), d.trait, d.at.part, contrasted.told.verdict, text, d.at.stage),), 1)

    def _name(self, taxon: Taxon, part: PartPlan) -> list[Said]:
        said = [self._say("name", latin=taxon.scientific_name)]
        for meaning in taxon.profile.name_meaning:
            if self.trail.listeners is Listeners.CHILDREN and meaning.fit is not Fit.APT:
                continue
            said += [self._word(meaning), self._say(meaning.fit.value, why=meaning.why.rstrip("."))]
        return said

    def _word(self, meaning: NamePart) -> Said:
        if meaning.language.lower() != "unknown":
            return self._say("word", word=meaning.part, language=meaning.language, meaning=meaning.meaning.rstrip("."))
        guess = meaning.meaning.rstrip(".").removeprefix("not known").lstrip("; ,")
        return self._say("word-of-unknown-origin", word=meaning.part, guess=f"; {guess}" if guess else "")

    def _habitat(self, taxon: Taxon, part: PartPlan) -> list[Said]:
        return [self._say("habitat", name=taxon.common_name, places=sentence(taxon.profile.habitat.text))] if taxon.profile.habitat else []

    def _care(self, taxon: Taxon, part: PartPlan) -> list[Said]:
        said = self._cautions(taxon)
        for id_ in part.warned:
            said += [self._say("also-mistaken", other=self._name_of(id_)), *self._cautions(self.workspace.taxa[id_])]
        return said

    def _cautions(self, taxon: Taxon) -> list[Said]:
        """What a plant does, always; and its cautions, for which a shorter one stands where the same has been said before."""
        said = []
        if hazard := taxon.profile.hazard:
            text = spoken(sentence(hazard.text.text))
            again = self.wordings.is_said(text)
            said.append(self._say("hazard-again", name=taxon.common_name, text=text[:1].lower() + text[1:]) if again else Said(text))
        for care in taxon.profile.care[:MOST_CARE]:
            text = spoken(sentence(care.text))
            said.append(self._say("only-look", name=taxon.common_name) if self.wordings.is_said(text) else Said(text))
        return said

    def _not_found(self, taxon: Taxon, part: PartPlan) -> list[Said]:
        said = [self._say("not-found", name=taxon.common_name), self._say("not-found-why", name=taxon.common_name)]
        if part.other:
            other = self.workspace.taxa[part.other]
            said += [
                self._say("instead", name=taxon.common_name, other=other.common_name),
                *(self._remembered(other, s) for s in part.shown),
            ]
        return said

    # -- what an audience asks -----------------------------------------------------------------------------
    def answer(self, asked: Asked) -> Said:
        """The answer to whether a plant is another: what tells them, or that nothing does now."""
        taxon, other = self._name_of(asked.taxon), self._name_of(asked.other)
        if asked.contrast is None:
            return Said(f"Nothing that we may look at now tells {taxon} from {other}, so treat it as the more harmful of the two.")
        said = self.contrast(asked.taxon, asked.contrast)
        return replace(said, text=f"{said.text} If you cannot make that out, leave the name open and treat the plant as harmful.")


def _statement(shown: Shown, text: str) -> Claim:
    return Claim("statement", (shown.taxon,), shown.trait, shown.at.part, "holds", text, shown.at.stage, shown.form)


def _lower_article(title: str) -> str:
    return title[0].lower() + title[1:] if title.lower().startswith(("the ", "a ", "an ")) else title
