"""The script of a walk: an outline in words, with seconds for speech, for looking and for walking."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from twayblade.knowledge.claim import conditions_of, marks, parse_claim, taxa_of
from twayblade.knowledge.text import Sourced
from twayblade.knowledge.trail import Case, Leg, Pace, Stop
from twayblade.knowledge.workspace import PlannedTrail, Taxon, Workspace
from twayblade.reasoning.clocks import Clocks, Cut, Timed, clocks, cut_first
from twayblade.reasoning.judging import judge_claim
from twayblade.reasoning.lookalikes import Pair, look_alikes
from twayblade.reasoning.observed import Turnout
from twayblade.reasoning.outline import Outline, PartPlan, StopPlan
from twayblade.reasoning.pictures import SetUp, ToSee, set_ups
from twayblade.reasoning.times import walk_seconds, whole
from twayblade.reasoning.walk import outline
from twayblade.writing.narrator import REFUSAL, Claim, Narrator, Said
from twayblade.writing.phrases import capital, date_words
from twayblade.writing.speech import spoken
from twayblade.writing.voice import voice_of

_BESIDE_THE_AUTHOR = ("opening", "arrival", "care")
"""Parts in which what is worked out follows the author's words; elsewhere these stand for it."""


CASE_WORDS = {
    Case.AS_HOPED: "As hoped",
    Case.PAST: "If it is past its best",
    Case.NOT_FOUND: "If it is not found, or mown",
    Case.WET: "If it is wet or windy",
}


@dataclass(frozen=True)
class Part:
    """One part of a stop, ready to be spoken. Its seconds hold those of looking and of gathering. other: whom `tell` tells it from."""

    kind: str
    taxon: str | None
    text: str
    seconds: int
    claims: tuple[Claim, ...]
    by_author: bool = False
    unexplained: tuple[str, ...] = ()
    """Terms of the glossary that the author's words use and nothing before them, or in them, explains."""
    other: str | None = None
    """In `tell`, the taxon already met."""
    looking: int = 0
    gathering: int = 0


@dataclass(frozen=True)
class Branch:
    """Another way a stop may turn out, with what is said then. seconds: with those of the search for what is not found.

    pictures: the set-ups of the camera at the stop if it turns out so.
    """

    case: Case
    parts: tuple[Part, ...]
    seconds: int
    search_seconds: int
    pictures: tuple[SetUp, ...] = ()


@dataclass(frozen=True)
class Question:
    """A question an audience is likely to ask, with a checked answer."""

    question: str
    answer: str
    claims: tuple[Claim, ...] = ()


@dataclass(frozen=True)
class ScriptStop:
    """A stop: its parts, the seconds they take, and the seconds of walking that lead to it; and the other ways it may turn out."""

    stop: Stop
    parts: tuple[Part, ...]
    seconds: int
    walk_seconds: int
    metres: int
    case: Case = Case.AS_HOPED
    branches: tuple[Branch, ...] = ()
    questions: tuple[Question, ...] = ()


@dataclass(frozen=True)
class Script:
    """The script of a walk on a date. `allows` is the time the trail allows the walk with a group, in seconds."""

    trail: PlannedTrail
    on: date
    stops: tuple[ScriptStop, ...]
    seconds: int
    allows: int
    plan: Outline
    clocks: Clocks
    pictures: tuple[SetUp, ...]
    cuts: tuple[Cut, ...] = ()
    """What to leave out first where the walk takes longer than is allowed."""

    @property
    def seconds_over(self) -> int:
        """By how much it passes the time allowed; 0 if it does not."""
        return max(0, self.seconds - self.allows)


def write_script(
    workspace: Workspace,
    planned: PlannedTrail,
    on: date,
    pairs: tuple[Pair, ...] | None = None,
    turnout: Turnout | None = None,
    branches: bool = True,
) -> Script:
    """The whole script of a walk on a date.

    pairs: the look-alikes of the workspace, if they are known already. turnout: how the day turns out; as hoped, if not given.
    branches: whether to write the other ways each stop may turn out.
    """
    plan = outline(workspace, planned, on, look_alikes(workspace) if pairs is None else pairs, turnout, branches)
    writer = _Writer(workspace, plan)
    stops = _with_pictures(workspace, tuple(writer.stop(number) for number in range(len(plan.stops))))
    total = sum(s.seconds + s.walk_seconds for s in stops)
    allows = whole(planned.trail.allows * 60)
    timed = [writer.timed(stop, part) for stop in stops for part in stop.parts]
    legs = [(stop.stop.id, Decimal(stop.walk_seconds)) for stop in stops]
    pictures = set_ups(workspace, _to_see(workspace, stops))
    run = clocks(planned.trail, timed, legs, len(pictures))
    return Script(planned, on, stops, total, allows, plan, run, pictures, cut_first(timed, max(0, total - allows)))


_SEEN_FOR_SURE = ("recognise", "tell", "forms")
"""The parts whose pictures a walk cannot do without; those of others are nice to have."""


def _with_pictures(workspace: Workspace, stops: tuple[ScriptStop, ...]) -> tuple[ScriptStop, ...]:
    """The stops, each branch with its own pictures: what has been met before stays where it was met."""
    found = []
    for number, stop in enumerate(stops):
        before = list(_to_see(workspace, stops[:number]))
        branches = []
        for branch in stop.branches:
            made = set_ups(workspace, [*before, *_to_see(workspace, [replace(stop, parts=branch.parts)])])
            branches.append(replace(branch, pictures=tuple(picture for picture in made if picture.stop == stop.stop.id)))
        found.append(replace(stop, branches=tuple(branches)))
    return tuple(found)


def _to_see(workspace: Workspace, stops: Iterable[ScriptStop]) -> Iterator[ToSee]:
    """What is said on a walk that must be seen, in order; with a line for another take, which names its plant."""
    for stop in stops:
        for part in stop.parts:
            for claim in part.claims:
                is_here = part.taxon is not None and part.kind != "not-found"  # what is only remembered stands elsewhere
                if is_here and claim.trait and claim.kind in ("statement", "contrast", "told"):
                    taxon, *others = claim.taxa
                    name = workspace.taxa[taxon].common_name
                    line = claim.text if name.lower() in claim.text.lower() else f"{capital(name)}. {claim.text}"
                    yield ToSee(stop.stop.id, taxon, claim.trait, part.kind in _SEEN_FOR_SURE, line, others[0] if others else None)


class _Writer:
    def __init__(self, workspace: Workspace, plan: Outline) -> None:
        self.workspace, self.plan = workspace, plan
        self.trail = plan.trail.trail
        self.narrator = Narrator(workspace, plan)
        self.voice = voice_of(workspace, self.trail.pace)

    @property
    def pace(self) -> Pace:
        return self.trail.pace

    def stop(self, number: int) -> ScriptStop:
        plan = self.plan.stops[number]
        opening = [self._part(number, plan, PartPlan("opening"), self.narrator, set())] if number == 0 else []
        before = self.narrator.fork()
        parts = (*opening, *self._parts(number, plan, self.narrator))
        branches = tuple(self._branch(number, other, before.fork()) for other in self.plan.branches[number])
        questions = self._questions(plan)
        route = self.plan.trail.route
        leg = route.legs[number] if route else Leg(0.0, 0.0)
        walking = whole(walk_seconds(leg, self.pace))
        return ScriptStop(plan.stop, parts, sum(p.seconds for p in parts), walking, round(leg.metres), plan.case, branches, questions)

    def _branch(self, number: int, plan: StopPlan, narrator: Narrator) -> Branch:
        parts = self._parts(number, plan, narrator)
        search = whole(self.pace.search) if plan.case is Case.NOT_FOUND else 0
        return Branch(plan.case, parts, sum(p.seconds for p in parts) + search, search)

    def _parts(self, number: int, plan: StopPlan, narrator: Narrator) -> tuple[Part, ...]:
        """The parts of a stop; the last stop closes the walk instead of moving on."""
        is_last = number == len(self.plan.stops) - 1
        used: set[str] = set()
        return tuple(
            self._part(number, plan, part, narrator, used) for part in (*plan.parts[:-1], PartPlan("closing") if is_last else plan.parts[-1])
        )

    def _part(self, number: int, plan: StopPlan, part: PartPlan, narrator: Narrator, used: set[str]) -> Part:
        """The author's words where there are any, once for each kind; else words worked out from the data.

        What is worked out explains each term of the glossary before it is first used; the author's words stay as they are.
        """
        own = plan.stop.words.get(part.kind) if part.kind not in used else None
        said: list[Said] = []
        unexplained: tuple[str, ...] = ()
        if own:
            used.add(part.kind)
            said, unexplained = self._by_author(own, narrator)
        if not own or part.kind in _BESIDE_THE_AUTHOR:
            introduced = narrator.introduced(plan) if part.kind == "arrival" else frozenset()
            said += narrator.explained(narrator.part(number, plan, part), introduced)
        text = spoken(" ".join(one.text for one in said if one.text))
        looking = whole(self.pace.look * sum(one.looks for one in said))
        gathering = whole(self.pace.gather) if part.kind == "arrival" else 0
        seconds = whole(self.voice.seconds(text)) + looking + gathering
        claims = tuple(claim for one in said for claim in one.claims)
        return Part(part.kind, part.taxon, text, seconds, claims, bool(own), unexplained, part.other, looking, gathering)

    def timed(self, stop: ScriptStop, part: Part) -> Timed:
        """A part as the clocks take it. What tells a plant from another is not to be cut if either can harm."""
        told = [id_ for id_ in (part.taxon, part.other) if id_ and part.kind == "tell"]
        may_go = not any(self.workspace.taxa[id_].hazard_class.is_harmful for id_ in told)
        speech = Decimal(part.seconds - part.looking - part.gathering)
        return Timed(stop.stop.id, part.kind, part.taxon, speech, Decimal(part.looking), Decimal(part.gathering), may_go)

    def _by_author(self, own: Sourced, narrator: Narrator) -> tuple[list[Said], tuple[str, ...]]:
        """The author's words with the claims marked in them, and the terms they leave open."""
        text = spoken(own.text)
        narrator.explaining.is_known(text)
        return [Said(text, self._marked(own.written))], narrator.explaining.left_open(text)

    def _marked(self, written: str) -> tuple[Claim, ...]:
        """The claims an author has marked in a text, with their verdicts."""
        found = []
        for mark in marks(written):
            claim = parse_claim(mark.claim)
            condition = next(iter(conditions_of(claim)), None)
            trait = condition.trait if condition else getattr(claim, "trait", "")
            kind, part = type(claim).__name__.lower(), condition.part if condition else None
            found.append(Claim(kind, taxa_of(claim), trait, part, judge_claim(self.workspace, claim), spoken(mark.words)))
        return tuple(found)

    def _questions(self, plan: StopPlan) -> tuple[Question, ...]:
        """What an audience is likely to ask at a stop. What is answered counts as said by the audience's leave only: it is not kept."""
        narrator = self.narrator.fork()
        found = []
        for asked in plan.asked:
            answer = narrator.answer(asked)
            found.append(Question(f"Is this {self.workspace.taxa[asked.other].common_name}?", answer.text, answer.claims))
        shown = [self.workspace.taxa[part.taxon] for part in plan.parts if part.kind == "recognise" and part.taxon]
        found += [said for taxon in shown if (said := _how_to_say(taxon))]
        return (*found, Question("Can you eat it?", REFUSAL)) if found or shown else ()


def _how_to_say(taxon: Taxon) -> Question | None:
    """How its scientific name is said, as far as that is settled."""
    said = taxon.profile.name_said
    return Question(f"How do you say {taxon.scientific_name}?", f"{said}, with the weight on what stands in capitals.") if said else None


def clock(seconds: int) -> str:
    """Seconds as minutes and seconds: `12:05`."""
    return f"{seconds // 60}:{seconds % 60:02d}"


def script_heading(script: Script) -> str:
    """Title, date and total of a script on one line."""
    return f"{script.trail.trail.title}, {date_words(script.on)}: {clock(script.seconds)} of {clock(script.allows)} allowed"


def all_parts(stops: Iterable[ScriptStop]) -> Iterable[Part]:
    """Every part of some stops, those of their branches included."""
    for stop in stops:
        yield from stop.parts
        for branch in stop.branches:
            yield from branch.parts
