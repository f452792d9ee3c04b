"""The registers of a script: prose to speak, cards of catchwords, notes. Cards and notes are worked out from claims, not cut from prose."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from twayblade.knowledge.name import Fit
from twayblade.knowledge.trail import Case
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.outline import StopPlan
from twayblade.reasoning.spread import Context
from twayblade.writing.catchwords import catchwords
from twayblade.writing.narrator import REFUSAL, Claim
from twayblade.writing.phrases import capital, listed, sentence
from twayblade.writing.script import Part, Question, Script, ScriptStop
from twayblade.writing.stages import stage_words

_TOLD_BY_VALUES = frozenset({"statement", "contrast", "told"})
"""Claims that the values of their taxa say whole; the others need the words they were made in."""
_FIT_WORDS = {Fit.APT: "fits", Fit.OBSCURE: "no help", Fit.MISLEADING: "misleads"}


class Register(StrEnum):
    """How a script speaks."""

    PROSE = "prose"
    CARDS = "cards"
    NOTES = "notes"


class ScriptForm(StrEnum):
    """How a script is printed."""

    PAGES = "pages"
    CARDS = "cards"


@dataclass(frozen=True)
class Line:
    """A line of a card or of notes. head: what it is about. is_care: a caution, in full. claim: what its catchwords say again."""

    text: str
    head: str = ""
    is_care: bool = False
    claim: Claim | None = None


@dataclass(frozen=True)
class Cue:
    """What reminds of one part. starts: seconds from the start of the walk."""

    kind: str
    taxon: str | None
    starts: int
    seconds: int
    lines: tuple[Line, ...]


@dataclass(frozen=True)
class OtherCue:
    """What reminds of another way a stop may turn out: all its claims, and what differs beside them. search_seconds: how long to look first."""

    case: Case
    search_seconds: int
    lines: tuple[Line, ...]


@dataclass(frozen=True)
class CueStop:
    """What reminds of a stop. arrives: seconds from the start of the walk."""

    stop: ScriptStop
    number: int
    arrives: int
    cues: tuple[Cue, ...]
    others: tuple[OtherCue, ...]
    asked: tuple[Line, ...]


def cue_stops(workspace: Workspace, script: Script, register: Register) -> tuple[CueStop, ...]:
    """The stops of a script as cards or as notes, in order."""
    writer = _Writer(workspace, script, register)
    found, elapsed = [], 0
    for number, stop in enumerate(script.stops):
        elapsed += stop.walk_seconds
        found.append(writer.stop(number, stop, elapsed))
        elapsed += stop.seconds
    return tuple(found)


class _Writer:
    def __init__(self, workspace: Workspace, script: Script, register: Register) -> None:
        self.workspace, self.script = workspace, script
        self.region = script.trail.trail.region
        self.is_brief = register is Register.CARDS

    def stop(self, number: int, stop: ScriptStop, arrives: int) -> CueStop:
        plan = self.script.plan.stops[number]
        cues, starts = [], arrives
        for part in stop.parts:
            cues.append(Cue(part.kind, part.taxon, starts, part.seconds, self._lines(number, plan, part)))
            starts += part.seconds
        known = {line for cue in cues for line in cue.lines}
        cared = {part.taxon for part in stop.parts if part.kind == "care"}
        others = []
        for branch, its_plan in zip(stop.branches, self.script.plan.branches[number], strict=True):
            parts = (part for part in branch.parts if part.kind != "care" or part.taxon not in cared)
            said = [line for part in parts for line in self._lines(number, its_plan, part)]
            lines = dict.fromkeys(line for line in said if line.claim or line not in known)
            again = [Line("care as above, in full")] if cared & {part.taxon for part in branch.parts if part.kind == "care"} else []
            others.append(OtherCue(branch.case, branch.search_seconds, (*lines, *again)))
        return CueStop(stop, number + 1, arrives, tuple(cues), tuple(others), tuple(self._asked(stop.questions)))

    def _lines(self, number: int, plan: StopPlan, part: Part) -> tuple[Line, ...]:
        own = [Line(sentence(plan.stop.words[part.kind].text))] if part.by_author else []
        if part.kind == "care":
            return (Line(part.text, is_care=True),)
        if part.kind in ("opening", "arrival"):
            return (*own, *(self._opening() if part.kind == "opening" else self._arrival(plan)))
        said = tuple(self._claims(part.claims, part.taxon))
        if own:
            told = bool(said) and all(claim.kind in _TOLD_BY_VALUES for claim in part.claims)
            return said if self.is_brief and told else (*own, *said)
        if part.kind == "closing":
            return tuple(self._closing())
        if part.kind == "move-on":
            following = self.script.plan.stops[number + 1 :]
            return (Line(following[0].stop.title, "next"),) if following else ()
        return (*self._about(part), *said)

    # -- the frame of the walk -----------------------------------------------------------------------------
    def _opening(self) -> list[Line]:
        season = self.script.plan.season
        kinds = {"in flower": season.in_flower, "over": season.over, "still to come": season.to_come}
        return [Line(self._names(taxa), head) for head, taxa in kinds.items() if taxa]

    def _arrival(self, plan: StopPlan) -> list[Line]:
        """What stands there; what a group shares is its author's paragraph, which may warn, and so is not shortened."""
        groups = [self.workspace.groups[id_] for id_ in plan.groups]
        found = [Line(sentence(group.say.text), group.name) for group in groups if group.say]
        for id_ in plan.stop.taxa:
            taxon = self.workspace.taxa[id_]
            if taxon.profile.seasons and (plan.case is not Case.NOT_FOUND or id_ in {p.taxon for p in plan.parts if p.kind == "recognise"}):
                found.append(Line(stage_words(plan.stages[id_]), taxon.common_name))
        return [*found, Line(sentence(plan.stop.place), "where")] if plan.stop.place else found

    def _closing(self) -> list[Line]:
        shown = dict.fromkeys(p.taxon for stop in self.script.stops for p in stop.parts if p.kind == "recognise" and p.taxon)
        recorded = len(self.workspace.regions[self.script.trail.trail.region].recorded)
        of_list = f"{len(shown)} of {recorded} on the list for the region: " if recorded > len(shown) else ""
        return [Line(f"{of_list}{self._names(shown)}", "shown")]

    # -- a plant -------------------------------------------------------------------------------------------
    def _about(self, part: Part) -> tuple[Line, ...]:
        """What a part says of a plant beside its claims."""
        taxon = self.workspace.taxa[part.taxon or ""]
        profile = taxon.profile
        if part.kind == "recognise" and not part.claims:
            return (Line("nothing that may be looked at now"),)
        if part.kind == "tell" and not part.claims:
            return (Line("nothing that may be looked at now", f"not {self._name(part.other)}"),)
        if part.kind == "tell":
            return (Line(f"how to tell it from {self._name(part.other)}"),)
        if part.kind == "name":
            first = Line(profile.name_said or "as it is written", taxon.scientific_name)
            return (first, *(Line(self._meaning(m.meaning, m.fit, m.why), m.part) for m in profile.name_meaning))
        if part.kind == "habitat" and profile.habitat:
            return (Line(sentence(profile.habitat.text), "where it grows"),)
        if part.kind == "not-found":
            return (Line(f"look at {self._name(part.other)} again" if part.other else "go on to what is said of it", f"no {taxon.common_name}"),)
        return ()

    def _meaning(self, meaning: str, fit: Fit, why: str) -> str:
        short = f"{meaning.rstrip('.')} ({_FIT_WORDS[fit]})"
        return short if self.is_brief else f"{short}: {why.rstrip('.')}"

    def _claims(self, claims: Iterable[Claim], about: str | None) -> Iterable[Line]:
        """A line for each claim: the trait, and for each of its taxa what its value says."""
        for claim in claims:
            said = [self._value(claim, id_) for id_ in claim.taxa]
            if not said or not all(said) or claim.kind not in _TOLD_BY_VALUES:
                yield Line(sentence(claim.text), claim=claim)
                continue
            head = self.workspace.traits[claim.trait].name
            if claim.form:
                head = f"{self.workspace.taxa[claim.taxa[0]].profile.forms[claim.form].name}, {head}"
            is_plain = claim.taxa == (about,)
            text = said[0] if is_plain else "; ".join(f"{self._name(id_)} {words}" for id_, words in zip(claim.taxa, said, strict=True))
            yield Line(text, head, claim=claim)

    def _value(self, claim: Claim, id_: str) -> str:
        at = Context(claim.part, claim.stage)
        return catchwords(self.workspace, self.workspace.taxa[id_], claim.trait, at, self.region, claim.form) if claim.trait else ""

    def _asked(self, questions: Iterable[Question]) -> Iterable[Line]:
        """Questions with their answers; the refusal stands once, on the first card, unless these are notes."""
        for asked in questions:
            if self.is_brief and asked.answer == REFUSAL:
                continue
            if self.is_brief and asked.claims:
                told = ". ".join(capital(f"{line.head}: {line.text}") for line in self._claims(asked.claims, None))
                in_doubt = asked.answer.removeprefix(asked.claims[0].text).strip()  # a caution, so it stays whole
                yield Line(f"{told}. {in_doubt}", asked.question, claim=asked.claims[0])
            else:
                yield Line(asked.answer, asked.question)

    def _name(self, id_: str | None) -> str:
        return self.workspace.taxa[id_ or ""].common_name

    def _names(self, taxa: Iterable[str]) -> str:
        return listed(map(self._name, taxa))
