"""The script of a walk: an outline in words, with seconds for speech, for looking and for walking."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from twayblade.knowledge.claim import conditions_of, marks, parse_claim, taxa_of
from twayblade.knowledge.name import Fit
from twayblade.knowledge.season import Phase
from twayblade.knowledge.trail import Leg, Pace, Stop
from twayblade.knowledge.workspace import PlannedTrail, Taxon, Workspace
from twayblade.reasoning.judging import judge_claim
from twayblade.reasoning.lookalikes import Pair, look_alikes
from twayblade.reasoning.outline import Outline, PartPlan, StopPlan, outline
from twayblade.reasoning.scope import trail_taxa
from twayblade.reasoning.terms import Terms, of_group
from twayblade.reasoning.times import speech_seconds, walk_seconds, whole
from twayblade.writing.explaining import Explaining
from twayblade.writing.phrases import contrast_sentence, date_words, days_words, form_sentence, listed, sentence, statement_sentence
from twayblade.writing.speech import count_words, spoken

STAGE_WORDS = {
    "seedling": "as seedlings",
    "rosette": "as leaf rosettes",
    "leaf": "in leaf",
    "bud": "in bud",
    "flower": "in flower",
    "young-fruit": "in young fruit",
    "ripe-fruit": "in ripe fruit",
    "dry-stem": "as dry stems",
}


MOST_CARE = 1
"""How many cautions of a taxon are spoken beside its hazard (project default); pages and keys print all."""


@dataclass(frozen=True)
class Claim:
    """What a text claims: a statement about one taxon or a contrast of two, by a trait, with its verdict.

    text: the words of the part that make the claim.
    """

    kind: str
    taxa: tuple[str, ...]
    trait: str
    part: str | None
    verdict: str
    text: str


@dataclass(frozen=True)
class Part:
    """One part of a stop, ready to be spoken."""

    kind: str
    taxon: str | None
    text: str
    seconds: int
    claims: tuple[Claim, ...]
    by_author: bool = False
    unexplained: tuple[str, ...] = ()
    """Terms of the glossary that the author's words use and nothing before them, or in them, explains."""


@dataclass(frozen=True)
class ScriptStop:
    """A stop: its parts, the seconds they take, and the seconds of walking that lead to it."""

    stop: Stop
    parts: tuple[Part, ...]
    seconds: int
    walk_seconds: int
    metres: int


@dataclass(frozen=True)
class Script:
    """The script of a walk on a date. `allows` is the time the trail allows, in seconds."""

    trail: PlannedTrail
    on: date
    stops: tuple[ScriptStop, ...]
    seconds: int
    allows: int

    @property
    def seconds_over(self) -> int:
        """By how much it passes the time allowed; 0 if it does not."""
        return max(0, self.seconds - self.allows)


def write_script(workspace: Workspace, planned: PlannedTrail, on: date, pairs: tuple[Pair, ...] | None = None) -> Script:
    """The whole script of a walk on a date. `pairs`: the look-alikes of the workspace, if they are known already."""
    plan = outline(workspace, planned, on, look_alikes(workspace) if pairs is None else pairs)
    writer = _Writer(workspace, plan)
    stops = tuple(writer.stop(number) for number in range(len(plan.stops)))
    total = sum(s.seconds + s.walk_seconds for s in stops)
    return Script(planned, on, stops, total, whole(planned.trail.allows * 60))


_MOST_TELLING = ("flower", "ripe-fruit", "young-fruit", "bud", "dry-stem", "leaf", "rosette", "seedling")


def stage_words(stages: tuple[tuple[str, Phase], ...]) -> str:
    """The stages a taxon can be seen in, in words: `in flower and already in fruit`, `perhaps in bud`, `not to be seen`."""
    firm = [stage for stage in _MOST_TELLING if (stage, Phase.EXPECTED) in stages]
    if not stages:
        return "not to be seen"
    if not firm:
        return f"perhaps {listed((STAGE_WORDS[stage] for stage, _ in stages), 'or')}"
    if firm[0] == "flower" and {"young-fruit", "ripe-fruit"} & set(firm):
        return f"{STAGE_WORDS['flower']} and already in fruit"
    if firm[0] == "dry-stem" and "leaf" in firm:
        return f"{STAGE_WORDS['dry-stem']}, with young leaves at the ground"
    return STAGE_WORDS[firm[0]]


def stage_sentence(taxon: Taxon, stages: tuple[tuple[str, Phase], ...]) -> str:
    """A sentence that shows a taxon in the stage it can be expected in."""
    if not taxon.profile.seasons:
        return sentence(f"here is {taxon.common_name}")
    words = stage_words(stages)
    if not stages:
        return sentence(f"{taxon.common_name} is {words} at this time of the year")
    if any(phase is Phase.EXPECTED for _, phase in stages):
        return sentence(f"here is {taxon.common_name}, {words} now")
    return sentence(f"look for {taxon.common_name}, {words} by now")


class _Writer:
    def __init__(self, workspace: Workspace, plan: Outline) -> None:
        self.workspace, self.plan = workspace, plan
        self.trail = plan.trail.trail
        self.explaining = Explaining(Terms(workspace.glossary))

    @property
    def pace(self) -> Pace:
        return self.trail.pace

    def stop(self, number: int) -> ScriptStop:
        plan = self.plan.stops[number]
        used: set[str] = set()
        parts = tuple(self._part(number, plan, part, used) for part in plan.parts)
        route = self.plan.trail.route
        leg = route.legs[number] if route else Leg(0.0, 0.0)
        return ScriptStop(plan.stop, parts, sum(p.seconds for p in parts), whole(walk_seconds(leg, self.pace)), round(leg.metres))

    def _part(self, number: int, plan: StopPlan, part: PartPlan, used: set[str]) -> Part:
        """The author's words where there are any, once for each kind; else words worked out from the data.

        What is worked out explains each term of the glossary when it is first used; the author's words stay as they are.
        """
        text, claims, looks = self._words(number, plan, part)
        own = plan.stop.words.get(part.kind) if part.kind not in used else None
        said, unexplained = "", ()
        if own:
            used.add(part.kind)
            said = spoken(own.text)
            unexplained = self._unexplained(said)
            text = text if part.kind in ("arrival", "care") else ""
            claims = (*self._marked(own.written), *(claims if text else ()))
        self.explaining.is_known(text, self._introduced(plan, part) if text else frozenset())
        text = " ".join(filter(None, [said, text, spoken(self.explaining.explain(text))]))
        pauses = self.pace.look * looks + (self.pace.gather if part.kind == "arrival" else 0)
        seconds = whole(speech_seconds(count_words(text), self.pace) + pauses)
        return Part(part.kind, part.taxon, text, seconds, claims, bool(own), unexplained)

    def _unexplained(self, own: str) -> tuple[str, ...]:
        self.explaining.is_known(own)
        return self.explaining.left_open(own)

    def _introduced(self, plan: StopPlan, part: PartPlan) -> frozenset[str]:
        """The terms that the spoken paragraphs of the groups first met here introduce."""
        spoken_of = [g for g in plan.groups if self.workspace.groups[g].say] if part.kind == "arrival" else []
        return frozenset().union(*(of_group(self.workspace, g) for g in spoken_of))

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

    def _words(self, number: int, plan: StopPlan, part: PartPlan) -> tuple[str, tuple[Claim, ...], int]:
        taxon = self.workspace.taxa[part.taxon] if part.taxon else None
        if part.kind == "arrival":
            return self._arrival(number, plan), (), 0
        if part.kind == "move-on" or taxon is None:
            return self._move_on(number), (), 0
        if part.kind in ("recognise", "look-closer"):
            return self._shown(taxon, part)
        if part.kind == "tell":
            return self._tell(taxon, part)
        if part.kind == "forms":
            return self._forms(taxon, part)
        return {"name": self._name, "habitat": self._habitat, "care": self._care}[part.kind](taxon, part), (), 0

    def _arrival(self, number: int, plan: StopPlan) -> str:
        pieces = ["" if plan.stop.words.get("arrival") else sentence(plan.stop.title)]
        pieces += [spoken(say.text) for g in plan.groups if (say := self.workspace.groups[g].say)]
        pieces += [stage_sentence(self.workspace.taxa[id_], plan.stages[id_]) for id_ in plan.stop.taxa]
        if any(part.kind == "recognise" for part in plan.parts):
            pieces.append(spoken(plan.stop.place))
        return " ".join(p for p in pieces if p)

    def _move_on(self, number: int) -> str:
        stops = self.plan.stops
        if number + 1 < len(stops):
            return sentence(f"now let us walk on to the next stop, {_lower_article(stops[number + 1].stop.title)}")
        taxa = trail_taxa(self.trail)
        shown = {part.taxon for stop in stops for part in stop.parts if part.kind == "recognise"}
        listed_here = self.workspace.regions[self.trail.region].recorded
        kinds = "kind" if len(shown) == 1 else "kinds"
        chosen = f" of the {len(listed_here)} on the list for this region, so this was a selection" if len(listed_here) > len(shown) else ""
        absent = [self.workspace.taxa[id_].common_name for id_ in taxa if id_ not in shown]
        missing = f" We could not show {listed(absent)} today." if absent else ""
        return f"That is the end of our walk. We have looked at {len(shown)} {kinds}{chosen}.{missing} Please leave everything as you found it."

    def _shown(self, taxon: Taxon, part: PartPlan) -> tuple[str, tuple[Claim, ...], int]:
        if not part.shown:
            opening = sentence(f"there is little of {taxon.common_name} that we can rely on by eye today")
        elif part.kind == "recognise":
            opening = f"How do we know {taxon.common_name}?"
        else:
            opening = "Now look a little closer, without touching."
        sentences = [statement_sentence(self.workspace, taxon, s.trait, s.at, self.trail.region) for s in part.shown]
        return spoken(" ".join([opening, *sentences])), _statements(part, sentences), len(part.shown)

    def _forms(self, taxon: Taxon, part: PartPlan) -> tuple[str, tuple[Claim, ...], int]:
        forms = listed(dict.fromkeys(taxon.profile.forms[s.form].name for s in part.shown if s.form))
        of_one = ", and each plant is of one of them" if taxon.is_of_forms_only else ""
        opening = sentence(f"look for the forms of {taxon.common_name}: {forms}{of_one}")
        sentences = [form_sentence(self.workspace, taxon, s.trait, s.form or "", s.at, self.trail.region) for s in part.shown]
        return spoken(" ".join([opening, *sentences])), _statements(part, sentences), 1

    def _tell(self, taxon: Taxon, part: PartPlan) -> tuple[str, tuple[Claim, ...], int]:
        other = self.workspace.taxa[part.other or ""]
        if not part.contrasts:
            text = (
                f"We have met {other.common_name} already. At this time of the year nothing that we may look at "
                f"tells it from {taxon.common_name}, so we leave that open."
            )
            if part.remaining and part.remaining.later:
                trait, days = part.remaining.later[0]
                text += f" {sentence(f'the {self.workspace.traits[trait].name} would, {days_words(days)}')}"
            return spoken(text), (), 0
        sentences = [sentence(f"we have met {other.common_name} already, so compare the two")]
        claims = []
        for contrast in part.contrasts:
            difference = contrast.told.difference
            own = contrast.ground.words if contrast.ground else None
            text = own or contrast_sentence(self.workspace, difference, taxon.id, self.trail.region)
            sentences.append(text)
            claims.append(Claim("contrast", (taxon.id, other.id), difference.trait, difference.at.part, contrast.told.verdict, spoken(text)))
        return spoken(" ".join(sentences)), tuple(claims), len(claims)

    def _name(self, taxon: Taxon, part: PartPlan) -> str:
        sentences = [f"Its scientific name is {taxon.scientific_name}."]
        for meaning in taxon.profile.name_meaning:
            fit = {Fit.APT: "that fits", Fit.OBSCURE: "that is no help to the eye", Fit.MISLEADING: "do not let that mislead you"}[meaning.fit]
            origin = "is of unknown origin" if meaning.language.lower() == "unknown" else f"comes from {meaning.language}"
            sentences.append(f"The word {meaning.part} {origin}: {meaning.meaning.rstrip('.')}; {fit}: {meaning.why.rstrip('.')}.")
        return spoken(" ".join(sentences))

    def _habitat(self, taxon: Taxon, part: PartPlan) -> str:
        return spoken(f"Where is it found? {sentence(taxon.profile.habitat.text)}") if taxon.profile.habitat else ""

    def _care(self, taxon: Taxon, part: PartPlan) -> str:
        profile = taxon.profile
        sentences = [sentence(profile.hazard.text.text)] if profile.hazard else []
        sentences += [sentence(care.text) for care in profile.care[:MOST_CARE]]
        for id_ in part.warned:
            other = self.workspace.taxa[id_]
            if other.profile.hazard:
                sentences.append(
                    f"It can be mistaken for {other.common_name}, which our walk does not show. {sentence(other.profile.hazard.text.text)}"
                )
            sentences += [sentence(care.text) for care in other.profile.care[:MOST_CARE]]
        return spoken(" ".join(sentences))


def _statements(part: PartPlan, sentences: list[str]) -> tuple[Claim, ...]:
    """The claims of a part that shows one taxon, a sentence each."""
    pairs = zip(part.shown, sentences, strict=True)
    return tuple(Claim("statement", (shown.taxon,), shown.trait, shown.at.part, "holds", spoken(text)) for shown, text in pairs)


def _lower_article(title: str) -> str:
    return title[0].lower() + title[1:] if title.lower().startswith(("the ", "a ", "an ")) else title


def clock(seconds: int) -> str:
    """Seconds as minutes and seconds: `12:05`."""
    return f"{seconds // 60}:{seconds % 60:02d}"


def script_heading(script: Script) -> str:
    """Title, date and total of a script on one line."""
    return f"{script.trail.trail.title}, {date_words(script.on)}: {clock(script.seconds)} of {clock(script.allows)} allowed"
