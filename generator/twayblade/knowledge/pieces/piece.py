"""What a drawing can show: pieces of a plant, each with parameters that content may set."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from types import NoneType, UnionType
from typing import Any, ClassVar, Literal, Self, TypeAlias, Union, get_args, get_origin

from pydantic import Field
from pydantic.fields import FieldInfo

from twayblade.knowledge.record import Record

Setting: TypeAlias = str | int | Decimal
"""What a parameter is set to: the name of a manner, a number of things, or a length in mm."""

Settings: TypeAlias = Mapping[str, Setting]


class ParameterKind(StrEnum):
    """What a parameter takes."""

    MANNER = "manner"
    COUNT = "count"
    LENGTH = "length"


@dataclass(frozen=True)
class Parameter:
    """One thing about a piece that can be drawn in several ways."""

    name: str
    kind: ParameterKind
    manners: tuple[str, ...]
    """The names that a state may set it to; none for numbers."""
    description: str
    beside: Settings
    """What is drawn with it where it is shown by itself: the bracts of which the stance is shown."""
    needs: frozenset[str] = frozenset()
    """The parameters without which it cannot be drawn: the length to which a breadth belongs."""


@dataclass(frozen=True)
class PieceKind:
    """A piece that content may have drawn, whoever defines it."""

    name: str
    title: str
    parameters: dict[str, Parameter]
    ruler: str | None = None
    """The length that gives the drawing its scale."""
    core: frozenset[str] = frozenset()
    """A taxon is drawn by this piece only where one of these is known; none: whatever is."""


def shown(description: str, **beside: str | int) -> Any:
    """A parameter of a piece. `beside`: what is drawn with it where it is shown by itself."""
    return Field(None, description=description, json_schema_extra={"beside": {_spelled(k): v for k, v in beside.items()}})


def _spelled(name: str) -> str:
    return name.replace("_", "-")


class Piece(Record):
    """A piece of a plant. Each field is a parameter; what is None is not known, or not shown, and is left out of the drawing."""

    name: ClassVar[str]
    title: ClassVar[str]
    ruler: ClassVar[str | None] = None
    core: ClassVar[tuple[str, ...]] = ()
    frame: Decimal | None = Field(None, description="length in mm that fills the picture, where two are drawn to one scale")

    @classmethod
    def kind(cls) -> PieceKind:
        """The piece as content sees it."""
        parameters = {_spelled(n): _parameter(_spelled(n), f) for n, f in cls.model_fields.items() if n != "frame"}
        return PieceKind(cls.name, cls.title, parameters, cls.ruler, frozenset(cls.core))

    def only(self, names: frozenset[str]) -> Self:
        """The piece with all other parameters taken away."""
        return self.model_copy(update={name: None for name in type(self).model_fields if name not in names})


def _parameter(name: str, field: FieldInfo) -> Parameter:
    manners: tuple[str, ...] = ()
    kind = ParameterKind.MANNER
    for choice in _choices(field.annotation):
        if get_origin(choice) is Literal:
            manners = get_args(choice)
        elif choice is int:
            kind = ParameterKind.COUNT
        elif choice is Decimal:
            kind = ParameterKind.LENGTH
    extra = field.json_schema_extra if isinstance(field.json_schema_extra, dict) else {}
    beside = extra.get("beside")
    settings = {k: v for k, v in beside.items() if isinstance(v, (str, int))} if isinstance(beside, dict) else {}
    return Parameter(name, kind, manners, field.description or "", settings)


def _choices(annotation: Any) -> tuple[Any, ...]:
    if get_origin(annotation) in (Union, UnionType):
        return tuple(choice for choice in get_args(annotation) if choice is not NoneType)
    return (annotation,)
