"""Pieces that content defines: lines that are always drawn, and parameters with lines of their own."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from typing import Annotated, ClassVar

from pydantic import AfterValidator, BeforeValidator, Discriminator, Field, Tag, model_validator

from twayblade.knowledge.pieces.line import Along, Lines, Spot
from twayblade.knowledge.pieces.piece import Parameter, ParameterKind, PieceKind, Setting, Settings
from twayblade.knowledge.pieces.placing import Placing, around, beside
from twayblade.knowledge.record import Record, Several, as_text

FRAME = "frame"
"""The setting that gives the length in mm that fills the picture, as in built-in pieces."""
MOST = 200
"""No more things than this are drawn: beyond, nobody could count them."""
RESERVED = frozenset({FRAME, "lines", "scale-bar", "pointers"})
"""Names that other layers of a drawing bear."""
_SMALLEST, _LARGEST = 40, 400
_SIZE = re.compile(r"(\d{1,4})\s*x\s*(\d{1,4})")
_NAME = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_MEASURED = (Decimal("0.01"), Decimal(100_000))
"""Lengths in mm of which a bar can give the scale: from a cell to a tall tree."""
_EDGE = 0.5
"""How far a point may lie off the paper for rounding's sake, in units."""


def checked_name(text: str) -> str:
    """The text, if it can be a name in a drawing. Raises ValueError."""
    if not _NAME.fullmatch(text):
        raise ValueError(f"`{text}` cannot be a name; use small letters, digits and hyphens")
    if text in RESERVED:
        raise ValueError(f"`{text}` is a layer of every drawing; choose another name")
    return text


Name = Annotated[str, AfterValidator(checked_name)]


def _size(raw: object) -> object:
    if not isinstance(raw, str):
        return raw
    match = _SIZE.fullmatch(raw.strip())
    if not match:
        raise ValueError(f"cannot read `{raw}` as a size; expected width and height in units, as in `200 x 160`")
    if not all(_SMALLEST <= int(side) <= _LARGEST for side in match.groups()):
        raise ValueError(f"a paper of `{raw}` is too small or too large; each side has {_SMALLEST} to {_LARGEST} units")
    return tuple(int(side) for side in match.groups())


class OwnParameter(Record):
    """What all parameters of an own piece have. `at` has the coordinates of its lines, of which the kinds tell."""

    takes: ClassVar[ParameterKind]
    description: str = Field(description="what it shows")
    at: Spot = Field(description="where a pointer to it ends")
    beside: dict[str, str] = Field(default_factory=dict, description="what is drawn with it where it is shown by itself")
    behind: bool = Field(False, description="whether it lies behind the lines that are always drawn")
    otherwise: Lines = Field((), description="lines drawn where it is not known or cannot be drawn")


class Manners(OwnParameter):
    """One of several manners. Its lines stand on the paper, or in the coordinates of a length, which stretches them with its own."""

    takes: ClassVar[ParameterKind] = ParameterKind.MANNER
    manners: dict[Name, Lines] = Field(min_length=1, description="the lines of each manner; none where there is nothing to see")
    stands_on: str | None = Field(None, description="the length on which its lines stand")


class Repeated(OwnParameter):
    """A number of things, drawn so many times. `at` stands on the paper."""

    takes: ClassVar[ParameterKind] = ParameterKind.COUNT
    each: Lines = Field(min_length=1, description="the lines of one: on the paper if it is turned round a centre, else round 0,0")
    around: Spot | None = Field(None, description="the centre round which they stand at equal angles")
    along: Along | None = Field(None, description="the line along which they stand at equal steps, their x axis along it")

    @model_validator(mode="after")
    def _has_one_place(self) -> Repeated:
        if (self.around is None) == (self.along is None):
            raise ValueError("say where they stand: `around` a point or `along` a line; a length has `from` and `towards` instead")
        return self

    def placings(self, number: int) -> tuple[Placing, ...]:
        """Where each of them stands."""
        if self.around is not None:
            return around(self.around, number)
        return beside(self.along or (), number)


class Stretched(OwnParameter):
    """A length: lines given for 100 units along x from 0,0, stretched to the true length."""

    takes: ClassVar[ParameterKind] = ParameterKind.LENGTH
    each: Lines = Field(min_length=1, description="the lines, for a length of 100 units along x from 0,0")
    from_: Spot = Field(description="where it starts on the paper")
    towards: Spot = Field(description="where it ends, if it is the longest")

    @model_validator(mode="after")
    def _has_a_direction(self) -> Stretched:
        if abs(self.towards - self.from_) < 1:
            raise ValueError("`from` and `towards` are one point; let some units lie between them")
        return self

    @property
    def room(self) -> float:
        """The space it may fill, in units."""
        return abs(self.towards - self.from_)

    def placing(self, long: float, across: float = 1.0) -> Placing:
        """Where its lines stand if it is so long, in units."""
        return Placing(self.from_, (self.towards - self.from_) / self.room, long / 100, across)


class Across(OwnParameter):
    """The breadth of what a length is the length of: it stretches the same lines across."""

    takes: ClassVar[ParameterKind] = ParameterKind.LENGTH
    across: str = Field(description="the length whose lines it stretches across")
    over: Annotated[float, as_text("30")] = Field(gt=0, le=1000, description="how broad those lines are as they are given, in units")


def _shape(raw: object) -> str:
    fields = set(raw) if isinstance(raw, dict) else set(type(raw).model_fields) if isinstance(raw, OwnParameter) else set()
    if "manners" in fields:
        return "manner"
    if "across" in fields:
        return "breadth"
    return "length" if fields & {"from", "from_", "towards"} else "count"


AnyParameter = Annotated[
    Annotated[Manners, Tag("manner")] | Annotated[Repeated, Tag("count")] | Annotated[Stretched, Tag("length")] | Annotated[Across, Tag("breadth")],
    Discriminator(_shape),
]


@dataclass(frozen=True)
class SetPiece:
    """The parameters of an own piece as they are set; what is not known is not among them."""

    settings: Settings

    def only(self, names: frozenset[str]) -> SetPiece:
        """The same with all other parameters taken away."""
        return SetPiece({name: setting for name, setting in self.settings.items() if name in names})


class OwnPiece(Record):
    """A piece that content defines."""

    title: str = Field(description="what it is a drawing of")
    size: Annotated[tuple[int, int], BeforeValidator(_size), as_text("200 x 160")] = Field(description="width and height of its paper, in units")
    lines: Lines = Field((), description="what is always drawn, from back to front")
    parameters: dict[Name, AnyParameter] = Field(min_length=1, description="what traits can set")
    ruler: str | None = Field(None, description="the length that gives the scale: the longest fills its space")
    core: Several = Field((), description="a taxon is drawn only where one of these is known; none: whatever is")

    def kind(self, name: str) -> PieceKind:
        """The piece as content sees it, like the built-in ones."""
        made = {
            id_: Parameter(id_, p.takes, tuple(p.manners) if isinstance(p, Manners) else (), p.description, dict(p.beside), self.needs(id_))
            for id_, p in self.parameters.items()
        }
        return PieceKind(name, self.title, made, self.ruler, frozenset(self.core))

    # -- what depends on what ----------------------------------------------------------------------------
    def lengths(self) -> dict[str, Stretched]:
        """The parameters on which lines can stand."""
        return {id_: p for id_, p in self.parameters.items() if isinstance(p, Stretched)}

    def length_under(self, name: str) -> str | None:
        """The length in whose coordinates the lines of a parameter stand; None if they stand on the paper."""
        match self.parameters[name]:
            case Manners(stands_on=length):
                return length
            case Across(across=length):
                return length
            case Stretched():
                return name
        return None

    def needs(self, name: str) -> frozenset[str]:
        """The other parameters without which a parameter cannot be drawn."""
        length = self.length_under(name)
        return frozenset(n for n in (length, self.ruler) if length and n and n != name)

    def reads(self, name: str) -> frozenset[str]:
        """Every setting on which the layer of a parameter depends."""
        length = self.length_under(name)
        frame = {FRAME, *self._breadths(length)} if length else set()
        return self.needs(name) | {name, *frame}

    def _breadths(self, length: str) -> Iterator[str]:
        return (id_ for id_, p in self.parameters.items() if isinstance(p, Across) and p.across == length)

    # -- settings ----------------------------------------------------------------------------------------
    def set_to(self, settings: Mapping[str, Setting]) -> SetPiece:
        """The piece with its parameters set. Raises ValueError with a clause where a setting is not what its parameter takes."""
        return SetPiece({name: self._setting(name, setting) for name, setting in settings.items()})

    def _setting(self, name: str, setting: Setting) -> Setting:
        parameter = self.parameters.get(name)
        if parameter is None and name != FRAME:
            raise ValueError(f"no parameter `{name}`")
        if isinstance(parameter, Manners):
            if setting not in parameter.manners:
                raise ValueError(f"`{setting}` is no manner of `{name}`; expected one of {', '.join(parameter.manners)}")
            return str(setting)
        takes = "a number of things" if isinstance(parameter, Repeated) else "a length in mm"
        try:
            number: int | Decimal = int(str(setting)) if isinstance(parameter, Repeated) else Decimal(setting)
        except (ValueError, InvalidOperation):
            number = Decimal("NaN")
        if not Decimal(number).is_finite() or number < 0:
            raise ValueError(f"`{setting}` is not {takes}, which `{name}` takes")
        return number

    # -- where lines stand -------------------------------------------------------------------------------
    def scale(self, made: SetPiece) -> float | None:
        """Units for one millimetre; None where no length is known that a bar can measure."""
        longest = made.settings.get(FRAME) or made.settings.get(self.ruler or "")
        ruler = self.lengths().get(self.ruler or "")
        if ruler is None or not isinstance(longest, Decimal) or not _MEASURED[0] <= longest <= _MEASURED[1]:
            return None
        return ruler.room / float(longest)

    def placings(self, name: str, made: SetPiece) -> tuple[Placing, ...] | None:
        """Where the lines of a parameter stand; None if what it depends on is not known, or there are too many."""
        parameter, setting = self.parameters[name], made.settings.get(name)
        if setting is None:
            return None
        if isinstance(parameter, Repeated):
            return parameter.placings(setting) if isinstance(setting, int) and setting <= MOST else None
        length = self.length_under(name)
        if length is None:
            return (Placing(),)
        scale, long = self.scale(made), made.settings.get(length)
        if scale is None or not isinstance(long, Decimal):
            return None
        return (self.lengths()[length].placing(float(long) * scale, self._broadening(length, made, scale)),)

    def _broadening(self, length: str, made: SetPiece, scale: float) -> float:
        """How many times as broad as they are given the lines of a length are."""
        for name in self._breadths(length):
            parameter, broad = self.parameters[name], made.settings.get(name)
            if isinstance(parameter, Across) and isinstance(broad, Decimal):
                return float(broad) * scale / parameter.over
        return 1.0

    def farthest(self, name: str) -> tuple[Placing, ...]:
        """The placings within which all others lie, whatever a parameter is set to; none if it stands on a length that is not there."""
        parameter, length = self.parameters[name], self.length_under(name)
        if isinstance(parameter, Repeated):
            return parameter.placings(MOST)
        if length is None:
            return (Placing(),)
        stretched = self.lengths().get(length)
        return (stretched.placing(0), stretched.placing(stretched.room)) if stretched else ()

    def is_on_paper(self, point: complex) -> bool:
        """Whether a point of the paper is one."""
        width, height = self.size
        return -_EDGE <= point.real <= width + _EDGE and -_EDGE <= point.imag <= height + _EDGE
