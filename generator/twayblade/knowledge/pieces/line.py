"""Lines of a drawing as content writes them: the points they go through, `20,80 60,30 (110,28)`.

Points are complex numbers in units of the paper, x to the right and y downwards. A point in brackets is a corner.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Annotated, ClassVar, Literal

from pydantic import BeforeValidator, Field, WithJsonSchema, model_validator

from twayblade.knowledge.record import Record, as_text

_NUMBER = r"-?\d{1,4}(?:\.\d{1,2})?"
_KNOT = re.compile(rf"(?P<x>{_NUMBER}),(?P<y>{_NUMBER})|\((?P<cx>{_NUMBER}),(?P<cy>{_NUMBER})\)")


@dataclass(frozen=True)
class Knot:
    """A point that a line goes through. A line is smooth there, unless it is a corner."""

    at: complex
    corner: bool = False


Run = tuple[Knot, ...]
"""The points of one line, in order."""


def _knot(text: str, whole: str) -> Knot:
    match = _KNOT.fullmatch(text)
    if not match:
        raise ValueError(f'cannot read `{whole}`; expected points, as in `"20,80 60,30 (110,28)"`')
    return Knot(complex(float(match["x"] or match["cx"]), float(match["y"] or match["cy"])), match["cx"] is not None)


def parse_run(text: str) -> Run:
    """The points of one line. Raises ValueError with a clause."""
    return tuple(_knot(piece, text) for piece in text.split() or [text])


def _spot(raw: object) -> object:
    return _knot(raw.strip(), raw).at if isinstance(raw, str) else raw


def _run(raw: object) -> object:
    return parse_run(raw) if isinstance(raw, str) else raw


def _runs(raw: object) -> object:
    return [_run(each) for each in (raw if isinstance(raw, (list, tuple)) else [raw])]


Spot = Annotated[complex, BeforeValidator(_spot), as_text("110,30")]
"""One point."""

Along = Annotated[Run, BeforeValidator(_run), Field(min_length=2), as_text("20,80 110,28")]
"""A line along which things stand."""


class Line(Record):
    """A line through points, or several lines drawn alike. A single point is a dot as wide as the line."""

    short_form: ClassVar[str] = "20,80 60,30 (110,28)"
    through: Annotated[
        tuple[Run, ...],
        BeforeValidator(_runs),
        Field(min_length=1),
        WithJsonSchema({"anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}}]}, mode="validation"),
    ] = Field(description="the points of the line, or of each of several; a point in brackets is a corner")
    straight: bool = Field(False, description="whether every point is a corner")
    closed: bool = Field(False, description="whether it ends where it starts")
    weight: Literal["outline", "inner", "fine"] = Field("inner", description="how heavy it is")
    fill: Literal["none", "paper", "ink"] = Field("none", description="what it encloses; paper hides what lies behind")

    @model_validator(mode="before")
    @classmethod
    def _from_short_form(cls, raw: object) -> object:
        return {"through": raw} if isinstance(raw, str) else raw

    @model_validator(mode="after")
    def _encloses_something(self) -> Line:
        if self.closed and any(len(run) < 3 for run in self.through):
            raise ValueError("a closed line needs three points or more")
        return self


Lines = tuple[Line, ...]
"""Lines from back to front."""
