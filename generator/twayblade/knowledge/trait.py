"""Traits: what can be observed, how it is seen, and the words that make sentences of it."""

from __future__ import annotations

import re
from decimal import Decimal
from enum import StrEnum
from functools import cached_property
from typing import Annotated, ClassVar

from pydantic import BeforeValidator, Field, model_validator

from twayblade.knowledge.record import Record, Several, as_text


class Means(StrEnum):
    """What an observation takes. Taste is not among them, ever."""

    DISTANT_EYE = "distant-eye"
    CLOSE_EYE = "close-eye"
    LENS = "lens"
    RULER = "ruler"
    TOUCH = "touch"
    SMELL = "smell"
    CUTTING = "cutting"
    DIGGING = "digging"
    OPENING = "opening"


EYE = (Means.DISTANT_EYE, Means.CLOSE_EYE)
"""What `eye` stands for where means are listed."""

HANDLING = frozenset({Means.TOUCH, Means.SMELL, Means.CUTTING, Means.DIGGING, Means.OPENING})
"""Means that bring a hand or a face to the plant: never asked of readers where a harmful plant may stand."""


def parse_means(texts: list[str] | tuple[str, ...]) -> frozenset[Means]:
    """The means of a list in which `eye` stands for both. Raises ValueError naming the unknown one."""
    found: set[Means] = set()
    for text in texts:
        if text == "eye":
            found.update(EYE)
        elif text in list(Means):
            found.add(Means(text))
        else:
            raise ValueError(f"no means `{text}`; expected some of eye, {', '.join(Means)}")
    return frozenset(found)


class Kind(StrEnum):
    """What the values of a trait are."""

    STATES = "states"
    ORDERED = "ordered"
    COUNT = "count"
    MEASURE = "measure"

    @property
    def is_numeric(self) -> bool:
        """Whether values are numbers."""
        return self in (Kind.COUNT, Kind.MEASURE)


class Ease(StrEnum):
    """How easily a beginner sees the trait."""

    EASY = "easy"
    MODERATE = "moderate"
    HARD = "hard"

    @property
    def effort(self) -> int:
        """1 (easy), 2, 3 (hard)."""
        return list(Ease).index(self) + 1


class State(Record):
    """One of a trait's conditions."""

    phrase: str = Field(description="words that follow subject and verb: `deeply furrowed`")
    definition: str = Field(description="one line that says what it is")
    kind_of: str | None = Field(None, description="the wider state of which this is a kind")
    also: Several = Field((), description="synonyms accepted in profiles")
    drawn: str | None = Field(None, description="the manner to which it sets what its trait draws; none: not drawn")


class Way(Record):
    """One way of seeing a trait: the means it takes together, and the stages it is good for (all if none)."""

    short_form: ClassVar[str] = "close-eye in dry-stem"
    by: tuple[Means, ...]
    stages: tuple[str, ...] = ()

    @model_validator(mode="before")
    @classmethod
    def _from_short_form(cls, raw: object) -> object:
        if not isinstance(raw, str):
            return raw
        means, _, stages = raw.partition(" in ")
        names = [name.strip() for name in means.split("+")]
        return {"by": sorted(parse_means(names)), "stages": tuple(s.strip() for s in stages.split(",") if s.strip())}


class View(Record):
    """How a picture shows a trait: the side it is taken from, and what must be in it."""

    short_form: ClassVar[str] = "below; the foot of the umbel with every bract"
    side: str = Field(description="where the camera looks from: `below`, `above`, `the side`")
    frame: str = Field(description="what must be in the picture")

    @model_validator(mode="before")
    @classmethod
    def _from_short_form(cls, raw: object) -> object:
        if not isinstance(raw, str):
            return raw
        side, joint, frame = raw.partition(";")
        if not joint or not side.strip() or not frame.strip():
            raise ValueError(f"cannot read `{raw}`; expected the side and, after a semicolon, what must be in the picture")
        return {"side": side.strip(), "frame": frame.strip()}


class Drawing(Record):
    """What a trait sets in drawings: a parameter of a piece, perhaps for one part of the organ only."""

    short_form: ClassVar[str] = "stem lower-hairs for lower-stem"
    piece: str = Field(description="the piece")
    parameter: str = Field(description="the parameter of the piece")
    part: str | None = Field(None, description="the part of the trait that it shows; none: the organ")

    @model_validator(mode="before")
    @classmethod
    def _from_short_form(cls, raw: object) -> object:
        if not isinstance(raw, str):
            return raw
        match = re.fullmatch(r"(\S+)\s+(\S+)(?:\s+for\s+(\S+))?", raw.strip())
        if not match:
            raise ValueError(f"cannot read `{raw}`; expected a piece and its parameter, as in `{cls.short_form}`")
        return {"piece": match[1], "parameter": match[2], "part": match[3]}


class Need(Record):
    """What must be there for a trait to apply: an organ counted by a trait, or a state of a trait."""

    short_form: ClassVar[str] = "stem-hairs = hairy"
    trait: str
    state: str | None = None

    @model_validator(mode="before")
    @classmethod
    def _from_short_form(cls, raw: object) -> object:
        if not isinstance(raw, str):
            return raw
        trait, _, state = raw.partition("=")
        return {"trait": trait.strip(), "state": state.strip() or None}


def _share(raw: object) -> object:
    if isinstance(raw, str) and (match := re.fullmatch(r"(\d+(?:\.\d+)?)\s*%", raw.strip())):
        share = Decimal(match[1]) / 100
        if share > 1:
            raise ValueError(f"`{raw}` is more than all")
        return share
    if isinstance(raw, str):
        raise ValueError(f"cannot read `{raw}` as a share; expected a percentage, as in `8 %`")
    return raw


class Trait(Record):
    """Something one can observe."""

    name: str = Field(description="what it is called")
    organ: str = Field(description="the organ it belongs to; pages and keys group by it")
    parts: dict[str, str] = Field(default_factory=dict, description="parts a value may be limited to, each with the subject of its sentences")
    kind: Kind = Field(description="states, ordered, count or measure")
    unit: str = Field("", description="unit of a measure")
    subject: str = Field(description="subject of its sentences: `the stem`")
    verb: str = Field(description="verb of its sentences: `is`, `are`, `has`")
    phrase: str = Field("{}", description="for a measure: words around the number: `{} long`")
    one: str = Field("", description="for a count: the noun of one")
    many: str = Field("", description="for a count: the noun of several")
    definition: str = Field(description="one line that says what to look at")
    states: dict[str, State] = Field(default_factory=dict, description="the states, in order for an ordered trait")
    ways: tuple[Way, ...] = Field(min_length=1, description="ways of seeing it; any one is enough")
    stages: tuple[str, ...] = Field((), description="stages in which a plant shows it; none: always")
    needs: Need | None = Field(None, description="what must be there for the trait to apply")
    draws: tuple[Drawing, ...] = Field((), description="what it sets in drawings")
    picture: View | None = Field(None, description="how a picture shows it; from the side and its subject, if not given")
    ease: Ease = Field(Ease.MODERATE, description="how easily a beginner sees it")
    misread: Annotated[Decimal, BeforeValidator(_share), as_text("8 %")] = Field(Decimal("0.1"), description="share of beginners who misread it")
    misread_by: str | None = Field(None, description="how far a misreading goes: a number with unit, or steps of an order")

    @model_validator(mode="after")
    def _is_consistent(self) -> Trait:
        if self.kind.is_numeric == bool(self.states):
            raise ValueError(f"a trait of kind `{self.kind}` {'has no' if self.kind.is_numeric else 'needs'} states")
        if self.kind is Kind.MEASURE and not self.unit:
            raise ValueError("a measure needs a unit")
        if self.phrase.count("{}") != 1 or set(self.phrase.replace("{}", "")) & set("{}"):
            raise ValueError(f"expected one `{{}}` in the phrase `{self.phrase}`, where the number goes")
        if self.kind is Kind.COUNT and not (self.one and self.many):
            raise ValueError("a count needs the nouns `one` and `many`")
        for state, described in self.states.items():
            if described.kind_of and described.kind_of not in self.states:
                raise ValueError(f"state `{state}` is a kind of `{described.kind_of}`, which is no state of this trait")
        names = [*self.states, *(synonym for s in self.states.values() for synonym in s.also)]
        if doubled := {name for name in names if names.count(name) > 1}:
            raise ValueError(f"`{min(doubled)}` names more than one state")
        return self

    @property
    def is_seasonal(self) -> bool:
        """Whether it, or some way of seeing it, belongs to stages of the year."""
        return bool(self.stages or any(way.stages for way in self.ways))

    @cached_property
    def blur(self) -> Decimal:
        """How far a misreading goes, in the trait's unit or in steps of its order; 0 if not stated."""
        return Decimal(self.misread_by.split()[0]) if self.misread_by else Decimal(0)

    @cached_property
    def state_ids(self) -> dict[str, str]:
        """Every accepted name of a state, with the state it names."""
        return {name: state for state, s in self.states.items() for name in (state, *s.also)}

    @cached_property
    def atoms(self) -> dict[str, frozenset[str]]:
        """For each state the smallest conditions it covers: itself, and those of its kinds."""

        def covered(state: str) -> frozenset[str]:
            kinds = [kind for kind, described in self.states.items() if described.kind_of == state]
            return frozenset({state}).union(*(covered(kind) for kind in kinds))

        return {state: covered(state) for state in self.states}

    @cached_property
    def widest_states(self) -> tuple[str, ...]:
        """The states that are not kinds of others."""
        return tuple(state for state, described in self.states.items() if described.kind_of is None)
