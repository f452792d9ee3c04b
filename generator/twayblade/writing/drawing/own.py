"""Pieces that content defines, drawn: their lines, then a layer for each parameter."""

from __future__ import annotations

from itertools import pairwise

from twayblade.knowledge.pieces.line import Line, Lines, Run
from twayblade.knowledge.pieces.own import Manners, OwnPiece, Repeated, SetPiece, Stretched
from twayblade.knowledge.pieces.placing import Placing
from twayblade.writing.drawing.pen import Fill, Pen, Point, Weight
from twayblade.writing.drawing.sketch import Drawer, Layer, layer


def drawer_of(name: str, own: OwnPiece) -> Drawer:
    """How an own piece is drawn."""
    behind = [_layer(own, id_) for id_, parameter in own.parameters.items() if parameter.behind]
    before = [_layer(own, id_) for id_, parameter in own.parameters.items() if not parameter.behind]
    always = layer("lines", lambda made, pen: _draw(own.lines, (Placing(),), pen))
    return Drawer(own.kind(name), *own.size, (*behind, always, *before), own.scale)


def _layer(own: OwnPiece, name: str) -> Layer:
    def draw(made: SetPiece, pen: Pen) -> None:
        parameter, placings = own.parameters[name], own.placings(name, made)
        lines = _lines(own, name, made)
        if placings is None or not _fits(own, lines, placings):
            _draw(parameter.otherwise, (Placing(),), pen)
            return
        _draw(lines, placings, pen)
        stands = Placing() if isinstance(parameter, Repeated) else placings[0]
        pen.point_to(name, stands.place(parameter.at))

    return layer(name, draw, *own.reads(name))


def _lines(own: OwnPiece, name: str, made: SetPiece) -> Lines:
    """What a parameter has drawn as it is set. A breadth has no lines: it stretches those of its length."""
    match own.parameters[name]:
        case Manners(manners=manners):
            return manners.get(str(made.settings.get(name)), ())
        case Stretched(each=each) | Repeated(each=each):
            return each
    return ()


def _fits(own: OwnPiece, lines: Lines, placings: tuple[Placing, ...]) -> bool:
    """Whether all of it stays on the paper. A length cut off at the edge would look shorter than it is."""
    return all(own.is_on_paper(placing.place(knot.at)) for placing in placings for line in lines for run in line.through for knot in run)


def _draw(lines: Lines, placings: tuple[Placing, ...], pen: Pen) -> None:
    for placing in placings:
        for line in lines:
            for run in line.through:
                _stroke(line, run, placing, pen)


def _stroke(line: Line, run: Run, placing: Placing, pen: Pen) -> None:
    points = [placing.place(knot.at) for knot in run]
    weight, fill = Weight[line.weight.upper()], Fill[line.fill.upper()]
    ends = () if line.closed else (0, len(run) - 1)
    corners = [n for n, knot in enumerate(run) if knot.corner and n not in ends]
    if len(points) == 1:
        pen.stipple(points[0], weight)
    elif line.straight:
        pen.corner(points, weight, fill, line.closed)
    elif corners:
        pen.outline(*_sides(points, corners, line.closed), weight=weight, fill=fill, closed=line.closed)
    else:
        pen.curve(points, weight, fill, line.closed)


def _sides(points: list[Point], corners: list[int], closed: bool) -> list[list[Point]]:
    """The smooth sides between corners; a closed line starts at its first corner."""
    if closed:
        first = corners[0]
        points = [*points[first:], *points[: first + 1]]
        corners = [n - first for n in corners[1:]]
    return [points[a : b + 1] for a, b in pairwise([0, *corners, len(points) - 1])]
