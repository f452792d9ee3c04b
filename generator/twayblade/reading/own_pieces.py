"""Linking the pieces that content defines: what they name in themselves, and that they stay on their paper."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from twayblade.knowledge.pieces import PIECES, OwnPiece
from twayblade.knowledge.pieces.line import Lines
from twayblade.knowledge.pieces.own import Across, Manners, OwnParameter, Repeated, Stretched, checked_name
from twayblade.knowledge.pieces.placing import Placing
from twayblade.knowledge.problem import Path
from twayblade.reading.linking import Linking

_AS_IT_STANDS = (Placing(),)


def refused_in(data: Any, own: Mapping[str, OwnPiece]) -> set[tuple[str, str]]:
    """Kind and id of the parameters and manners that stand in the file but were refused there."""
    found: set[tuple[str, str]] = set()
    for id_, piece in own.items():
        for name, written in data[id_]["parameters"].items():
            parameter = piece.parameters.get(name)
            if parameter is None:
                found.add((f"parameter of `{id_}`", name))
            elif isinstance(parameter, Manners):
                found.update((f"manner of `{name}`", manner) for manner in written["manners"] if manner not in parameter.manners)
    return found


def link_pieces(linking: Linking, own: Mapping[str, OwnPiece]) -> None:
    """Check every own piece."""
    for id_, piece in own.items():
        if id_ in PIECES:
            linking.report("id-double", (id_,), f"`{id_}` is a built-in piece; choose another name", on_key=True)
        try:
            checked_name(id_)
        except ValueError as reason:
            linking.report("notation", (id_,), str(reason), on_key=True)
        _ruler(linking, id_, piece)
        for name in piece.core:
            linking.known(f"parameter of `{id_}`", name, piece.parameters, (id_, "core"))
        _lines(linking, piece, piece.lines, _AS_IT_STANDS, (id_, "lines"))
        for name, parameter in piece.parameters.items():
            _parameter(linking, id_, piece, name, parameter)


def _ruler(linking: Linking, id_: str, piece: OwnPiece) -> None:
    lengths = piece.lengths()
    if piece.ruler:
        _length(linking, id_, piece, piece.ruler, (id_, "ruler"))
    elif lengths:
        linking.report("notation", (id_,), f"`{min(lengths)}` is a length; say which one gives the scale, as in `ruler: {min(lengths)}`", on_key=True)


def _length(linking: Linking, id_: str, piece: OwnPiece, name: str, way: Path) -> None:
    """Check that a name is that of a parameter on which lines can stand."""
    if linking.known(f"parameter of `{id_}`", name, piece.parameters, way) and name not in piece.lengths():
        linking.report("notation", way, f"`{name}` is no length with `from` and `towards`")


def _parameter(linking: Linking, id_: str, piece: OwnPiece, name: str, parameter: OwnParameter) -> None:
    way: Path = (id_, "parameters", name)
    length = piece.length_under(name)
    if length and length != name:
        _length(linking, id_, piece, length, (*way, "across" if isinstance(parameter, Across) else "stands-on"))
    for other, setting in parameter.beside.items():
        if linking.known(f"parameter of `{id_}`", other, piece.parameters, (*way, "beside", other), on_key=True):
            try:
                piece.set_to({other: setting})
            except ValueError as reason:
                linking.report("notation", (*way, "beside", other), str(reason))
    for needed in sorted(piece.needs(name) & set(piece.parameters) - set(parameter.beside)):
        message = f"`{name}` is drawn only with `{needed}`; say how long that is where it is shown by itself, as in `beside: {{{needed}: 10}}`"
        linking.report("notation", way, message, on_key=True)
    placings = piece.farthest(name)
    _on_paper(linking, piece, (parameter.at,), _AS_IT_STANDS if isinstance(parameter, Repeated) else placings, (*way, "at"))
    for field, spot in _spots(parameter):
        _on_paper(linking, piece, (spot,), _AS_IT_STANDS, (*way, field))
    for there, lines in _drawn(parameter):
        _lines(linking, piece, lines, _AS_IT_STANDS if there == ("otherwise",) else placings, (*way, *there))


def _spots(parameter: OwnParameter) -> Iterator[tuple[str, complex]]:
    """The points that say where the lines of a parameter stand, with their fields."""
    match parameter:
        case Stretched(from_=start, towards=end):
            yield from (("from", start), ("towards", end))
        case Repeated(around=centre, along=line):
            yield from (("around", centre),) if centre is not None else ()
            yield from (("along", knot.at) for knot in line or ())


def _drawn(parameter: OwnParameter) -> Iterator[tuple[Path, Lines]]:
    """All lines of a parameter, with the way to them."""
    yield ("otherwise",), parameter.otherwise
    match parameter:
        case Manners(manners=manners):
            yield from ((("manners", manner), lines) for manner, lines in manners.items())
        case Stretched(each=each) | Repeated(each=each):
            yield ("each",), each


def _lines(linking: Linking, piece: OwnPiece, lines: Lines, placings: tuple[Placing, ...], way: Path) -> None:
    for number, line in enumerate(lines):
        _on_paper(linking, piece, (knot.at for run in line.through for knot in run), placings, (*way, number, "through"))


def _on_paper(linking: Linking, piece: OwnPiece, points: Iterable[complex], placings: tuple[Placing, ...], way: Path) -> None:
    """Check that points stay on the paper wherever their lines are placed; the first that does not is told."""
    for point in points:
        if off := next((p for placing in placings if not piece.is_on_paper(p := placing.place(point))), None):
            given = f"`{point.real:g},{point.imag:g}`"
            stands = "lies" if off == point else f"comes to `{off.real:.0f},{off.imag:.0f}`, which lies"
            linking.report("notation", way, f"{given} {stands} off the paper of {piece.size[0]} x {piece.size[1]} units")
            return
