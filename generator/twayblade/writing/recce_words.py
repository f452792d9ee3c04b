"""The words of a recce sheet: what is asked, and what may be answered. Its table, its print and its page all take them from here."""

from __future__ import annotations

from dataclasses import dataclass

from twayblade.knowledge.bbch import principal_stages
from twayblade.knowledge.observation import ASPECTS, AnswerKind, Aspect
from twayblade.knowledge.profile import STAGES
from twayblade.knowledge.trait import Kind, Trait
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.lookalikes import Pair
from twayblade.reasoning.outline import Outline
from twayblade.reasoning.recce_sheet import PlantAsked, Sheet, StopAsked, TraitAsked, recce_sheet
from twayblade.writing.cautions import cautions, with_look_alikes
from twayblade.writing.phrases import capital, date_words, listed, sentence
from twayblade.writing.stages import STAGE_WORDS

CARE = (
    "Look only, from where you may stand. Nothing on this sheet needs a hand on a plant: do not pick, crush, cut or taste anything. "
    "Sizes are estimated from there. What cannot be seen by eye stays open."
)
LOCAL_FIRST = "Local rules, the land-holder's wishes and the law come before this sheet."
DEFERS = (
    f"{LOCAL_FIRST} Spraying, clearing harmful plants and work at water or "
    "on slopes are for people trained, and where the law asks it licensed, to do them."
)
NO_PLACES = (
    "The sheet carries no coordinates unless they are asked for. Do not add the place of a rare or protected plant to a copy that you pass on."
)
HOW = "Tick what you see, several boxes if the plants differ. A question mark means: looked, and could not tell. What nobody answers stays open."


@dataclass(frozen=True)
class Answers:
    """What may be answered: choices as (what is written in the table, what is printed), or else a free answer and its unit."""

    choices: tuple[tuple[str, str], ...] = ()
    free: str = ""
    unit: str = ""


@dataclass(frozen=True)
class Question:
    """A question: its id in the table, a short name, itself in words, and its answers."""

    id: str
    name: str
    text: str
    answers: Answers
    part: str = ""


@dataclass(frozen=True)
class PlantQuestions:
    """What is asked of a plant. stages: none for what has no seasons."""

    taxon: Taxon
    hoped: str
    stages: Answers
    traits: tuple[Question, ...]


@dataclass(frozen=True)
class StopQuestions:
    """What is asked at a stop: of its plants, and by topic of itself. cautions: of its plants; mistaken: their harmful look-alikes."""

    asked: StopAsked
    plants: tuple[PlantQuestions, ...]
    topics: dict[str, tuple[Question, ...]]
    cautions: tuple[str, ...]
    mistaken: str


@dataclass(frozen=True)
class WrittenSheet:
    """A recce sheet in words. cautions: of every plant of the walk and every harmful look-alike."""

    sheet: Sheet
    stops: tuple[StopQuestions, ...]
    cautions: tuple[str, ...]

    @property
    def heading(self) -> str:
        """What it is for."""
        return f"Recce sheet: {self.sheet.trail.trail.title}, {date_words(self.sheet.on)}"


def write_recce(workspace: Workspace, plan: Outline, pairs: tuple[Pair, ...]) -> WrittenSheet:
    """The recce sheet for a walk as it is hoped for. pairs: the look-alikes of the workspace."""
    sheet = recce_sheet(workspace, plan)
    taxa = tuple(dict.fromkeys(plant.taxon for stop in sheet.stops for plant in stop.plants))
    stops = tuple(_stop(workspace, stop, pairs) for stop in sheet.stops)
    return WrittenSheet(sheet, stops, cautions(workspace, with_look_alikes(pairs, taxa)))


def _stop(workspace: Workspace, asked: StopAsked, pairs: tuple[Pair, ...]) -> StopQuestions:
    own = tuple(plant.taxon for plant in asked.plants)
    others = [workspace.taxa[id_] for id_ in with_look_alikes(pairs, own) if id_ not in own]
    harmful = [taxon.common_name for taxon in others if taxon.hazard_class.is_harmful]
    mistaken = sentence(f"easily taken for one of these, and harmful: {listed(harmful)}; the first page says what they do") if harmful else ""
    topics: dict[str, tuple[Question, ...]] = {}
    for aspect in ASPECTS.values():
        topics[aspect.topic] = (*topics.get(aspect.topic, ()), _aspect(aspect))
    return StopQuestions(asked, tuple(_plant(workspace, plant) for plant in asked.plants), topics, cautions(workspace, own), mistaken)


def _plant(workspace: Workspace, asked: PlantAsked) -> PlantQuestions:
    taxon = workspace.taxa[asked.taxon]
    if not taxon.profile.seasons:
        hoped, stages = "", Answers()
    else:
        hoped = f"The walk hopes for it {STAGE_WORDS[asked.hoped]}." if asked.hoped else "It is not to be seen on the day of the walk."
        stages = Answers(tuple((words, words) for words in map(stage_words, STAGES)))
    return PlantQuestions(taxon, hoped, stages, tuple(_trait(workspace, trait) for trait in asked.traits))


def stage_words(stage: str) -> str:
    """A stage with the principal stages of the BBCH scale it may be noted as: `flower (BBCH 6)`."""
    codes = principal_stages(stage)
    span = str(codes[0]) if len(codes) == 1 else f"{codes[0]}–{codes[-1]}"
    return f"{stage.replace('-', ' ')} (BBCH {span})"


def _trait(workspace: Workspace, asked: TraitAsked) -> Question:
    trait = workspace.traits[asked.trait]
    where = f", {trait.parts[asked.part]}" if asked.part else ""
    use = f" Tells it from {listed(workspace.taxa[id_].common_name for id_ in asked.against)}." if asked.against else ""
    return Question(asked.trait, f"{capital(trait.name)}{where}", sentence(trait.definition) + use, _trait_answers(trait), asked.part or "")


def _trait_answers(trait: Trait) -> Answers:
    if not trait.kind.is_numeric:
        return Answers(tuple((state, described.phrase) for state, described in trait.states.items()))
    return Answers(free="how many, or from - to" if trait.kind is Kind.COUNT else "a number, or from - to", unit=trait.unit)


def _aspect(aspect: Aspect) -> Question:
    free = {AnswerKind.CHOICE: "", AnswerKind.NUMBER: "a number", AnswerKind.DAY: "year-month-day", AnswerKind.TEXT: "your words"}[aspect.kind]
    return Question(aspect.id, capital(aspect.name), aspect.question, Answers(tuple((a, a) for a in aspect.answers), free, aspect.unit))
