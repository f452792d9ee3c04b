"""The profile of a taxon: everything that is known of it and written by hand, with sources."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, ClassVar, Literal

from pydantic import BeforeValidator, Field, model_validator

from twayblade.knowledge.frequency import FREQUENCY_WORDS, Frequency
from twayblade.knowledge.name import NamePart, ScientificName
from twayblade.knowledge.photograph import Photograph
from twayblade.knowledge.record import Record, Several, as_text
from twayblade.knowledge.season import Window, parse_window
from twayblade.knowledge.text import Sourced, split_sources
from twayblade.knowledge.values import Written

STAGES = ("seedling", "rosette", "leaf", "bud", "flower", "young-fruit", "ripe-fruit", "dry-stem")
"""The stages of a plant, in the order of its life; they overlap."""

MOST_TELLING = ("flower", "ripe-fruit", "young-fruit", "bud", "dry-stem", "leaf", "rosette", "seedling")
"""The stages by how much a plant shows in them, most first: of several at once the first is what a walk speaks of."""


class HazardClass(StrEnum):
    """What is known of the harm a plant can do. Nothing is ever called safe."""

    DEADLY = "deadly"
    POISONOUS = "poisonous"
    PHOTOTOXIC = "phototoxic"
    IRRITANT = "irritant"
    NONE_FOUND = "none-found"
    NOT_ASSESSED = "not-assessed"

    @property
    def is_harmful(self) -> bool:
        """Whether harm is on record."""
        return self not in (HazardClass.NONE_FOUND, HazardClass.NOT_ASSESSED)

    @property
    def forbids_handling(self) -> bool:
        """Whether nobody may be asked to handle plants where this one stands: harm, or nothing, on record."""
        return self is not HazardClass.NONE_FOUND


class Hazard(Record):
    """The hazard record of a taxon."""

    class_: HazardClass = Field(description="the kind of harm on record")
    text: Sourced = Field(description="what it does, in a sentence, with sources")


class SeasonWindow(Record):
    """A window of the year for one stage, in one region (None: the home region of the workspace)."""

    when: Annotated[Window, BeforeValidator(lambda raw: parse_window(raw) if isinstance(raw, str) else raw), as_text("May - June")]
    region: str | None = None
    source: Several = ()


def _season_windows(raw: object) -> object:
    """`June - July [A]; July - September in alps [B]` as records."""
    if not isinstance(raw, str):
        return raw
    windows = []
    for piece in raw.split(";"):
        text, source = split_sources(piece)
        when, _, region = text.partition(" in ")
        windows.append({"when": when, "region": region.strip() or None, "source": source})
    return windows


Season = Annotated[tuple[SeasonWindow, ...], BeforeValidator(_season_windows), as_text("(April -) May - June (- July) [IWF-Ant]")]


class Form(Record):
    """A morph of a taxon with values of its own and its own frequency."""

    name: str = Field(description="what it is called")
    frequency: Annotated[Frequency, BeforeValidator(lambda raw: FREQUENCY_WORDS.get(raw, raw)), as_text("sometimes")] = Field(
        description="how often a plant is of this form"
    )
    text: Sourced | None = Field(None, description="what it is, with sources")


class Ground(Record):
    """One trait a contrast rests on."""

    short_form: ClassVar[str] = "stem-relief"
    trait: str = Field(description="the trait")
    part: str | None = Field(None, description="the part of the organ")
    this: Several = Field((), description="states claimed of the profile's taxon")
    other: Several = Field((), description="states claimed of the other taxon")
    how: Literal["always", "usually"] = Field("always", description="how strongly it is claimed")
    words: str | None = Field(None, description="the author's own sentence")

    @model_validator(mode="before")
    @classmethod
    def _from_short_form(cls, raw: object) -> object:
        return {"trait": raw} if isinstance(raw, str) else raw


class Contrast(Record):
    """How this taxon is told from another. Each ground holds alone unless `together`."""

    from_: str = Field(description="the other taxon")
    by: tuple[Ground, ...] = Field(min_length=1, description="the traits")
    together: bool = Field(False, description="the traits tell them apart only together")


class Profile(Record):
    """What is known of one taxon."""

    name: ScientificName = Field(description="scientific name with authorship")
    family: str = Field("", description="family")
    common_names: dict[str, Several] = Field(description="common names by language code; the first is used")
    group: str | None = Field(None, description="the group it belongs to")
    summary: Sourced | None = Field(None, description="one sentence that says what the plant is like")
    synonyms: Sourced | None = Field(None, description="other scientific names; after a semicolon, remarks on them")
    life_form: Sourced | None = Field(None, description="annual, biennial, perennial ...")
    name_meaning: tuple[NamePart, ...] = Field((), description="what the words of the name mean")
    habitat: Sourced | None = Field(None, description="where it grows")
    status: Sourced | None = Field(None, description="native, introduced ...")
    hazard: Hazard | None = Field(None, description="the hazard record")
    care: tuple[Sourced, ...] = Field((), description="cautions a leader speaks")
    seasons: dict[str, Season] = Field(default_factory=dict, description="windows of the year by stage")
    forms: dict[str, Form] = Field(default_factory=dict, description="forms by id")
    values: dict[str, Written] = Field(default_factory=dict, description="values by trait")
    contrasts: tuple[Contrast, ...] = Field((), description="how it is told from others")
    photographs: tuple[Photograph, ...] = Field((), description="photographs of it, in the order they are shown")

    @property
    def name_said(self) -> str:
        """How its scientific name is said: `co-NI-um ma-cu-LA-tum`. A word whose weight is not settled stays as it is; empty if all would."""
        known = {part.part: part.said for part in self.name_meaning if part.said}
        return " ".join(known.get(word, word) for word in self.name.words) if known else ""
