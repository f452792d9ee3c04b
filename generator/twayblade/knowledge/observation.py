"""What a visit before the walk (a recce) saw: plants, traits of them, and the stops themselves. Nothing here changes a profile."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum

from twayblade.knowledge.numbers import Range


class AnswerKind(StrEnum):
    """What the answer to a question about a stop is."""

    CHOICE = "choice"
    NUMBER = "number"
    DAY = "day"
    TEXT = "text"


@dataclass(frozen=True)
class Aspect:
    """Something noted of a stop as a whole.

    topic: what it is printed with. answers: of a choice, what may be answered. unit: of a number; empty for a count.
    """

    id: str
    topic: str
    name: str
    question: str
    kind: AnswerKind
    answers: tuple[str, ...] = ()
    unit: str = ""


def _choice(id_: str, topic: str, name: str, question: str, *answers: str) -> Aspect:
    return Aspect(id_, topic, name, question, AnswerKind.CHOICE, answers)


_WORK, _FILM, _WAY, _LEAVE = "Work on the land", "For the recording", "The way", "Leave and risk"

ASPECTS = {
    aspect.id: aspect
    for aspect in (
        _choice("mown", _WORK, "mown", "Has the place been mown?", "no", "partly", "all"),
        _choice("grazed", _WORK, "grazed", "Has it been grazed?", "no", "partly", "all"),
        _choice("sprayed", _WORK, "sprayed", "Has it been sprayed, as far as one can see or is told?", "no", "perhaps", "yes"),
        _choice("noise", _FILM, "noise", "How loud is it where one would speak?", "quiet", "some", "loud"),
        _choice("wind", _FILM, "wind", "Do the plants keep still?", "still", "breeze", "strong"),
        _choice("shade", _FILM, "shade", "What light do the plants stand in?", "sun", "part", "shade"),
        _choice("phone-signal", _FILM, "phone signal", "Is there a signal to call for help?", "none", "weak", "good"),
        _choice("ground", _WAY, "ground", "How wet is it underfoot?", "dry", "damp", "wet", "flooded"),
        _choice("surface", _WAY, "surface", "What does one walk on?", "grass", "earth", "gravel", "paved", "boards", "mud", "other"),
        Aspect("width", _WAY, "width", "How wide is the way at its narrowest?", AnswerKind.NUMBER, unit="m"),
        Aspect("gradient", _WAY, "gradient", "How steep is the way at its steepest? 5 % is 1 in 20.", AnswerKind.NUMBER, unit="%"),
        Aspect("stiles", _WAY, "stiles", "How many stiles on the way from the last stop?", AnswerKind.NUMBER),
        Aspect("seats", _WAY, "seats", "How many seats here?", AnswerKind.NUMBER),
        _choice("step-free", _WAY, "step-free way", "Is there a way here without a step?", "yes", "no"),
        Aspect("permission-from", _LEAVE, "permission from", "Who gave leave to be here? An office or a role is enough.", AnswerKind.TEXT),
        Aspect("permission-until", _LEAVE, "permission until", "Until when?", AnswerKind.DAY),
        Aspect("risk", _LEAVE, "risks", "What could harm someone here, and what do local rules ask?", AnswerKind.TEXT),
    )
}
"""What is asked of every stop, by id."""


@dataclass(frozen=True)
class Noted:
    """What every observation carries: the stop, the day if it is known, a remark, and its line in the file."""

    stop: str
    on: date | None
    note: str
    line: int


@dataclass(frozen=True)
class PlantSeen(Noted):
    """A plant looked for at a stop.

    found: None where that is left open. stages: those seen, each the set of stages it may have been.
    """

    taxon: str
    found: bool | None
    stages: tuple[frozenset[str], ...] = ()


@dataclass(frozen=True)
class TraitSeen(Noted):
    """A trait seen on a plant: states, any of which were seen, or a span of numbers in the trait's own unit; as it was written."""

    taxon: str
    trait: str
    part: str | None
    states: frozenset[str]
    span: Range | None
    written: str

    @property
    def is_judged(self) -> bool:
        """Whether it was told what was seen; else there is a remark only."""
        return bool(self.states or self.span)


@dataclass(frozen=True)
class StopSeen(Noted):
    """An aspect of a stop."""

    aspect: str
    answer: str | Decimal | date


@dataclass(frozen=True)
class Recce:
    """One visit: the trail, the file it was read from, and what was seen."""

    trail: str
    file: str
    plants: tuple[PlantSeen, ...] = ()
    traits: tuple[TraitSeen, ...] = ()
    stops: tuple[StopSeen, ...] = ()

    @property
    def days(self) -> tuple[date, ...]:
        """The days on which something was seen, in order."""
        return tuple(sorted({seen.on for seen in (*self.plants, *self.traits, *self.stops) if seen.on}))
