"""From the parameters of a piece to layers of strokes. Each layer reads some parameters and sees no others."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any, Protocol

from twayblade.knowledge.pieces import Piece, PieceKind
from twayblade.writing.drawing.pen import Pen, Point, Stroke

SEED = "1"
"""The seed of the irregularity; another one gives another hand."""


class Drawable(Protocol):
    """Parameters set to what is to be drawn."""

    def only(self, names: frozenset[str], /) -> Drawable:
        """The same with all other parameters taken away."""


@dataclass(frozen=True)
class Layer:
    """A part of a drawing. `reads`: the parameters it depends on; no other changes it."""

    name: str
    reads: frozenset[str]
    draw: Callable[[Any, Pen], None]


def layer(name: str, draw: Callable[[Any, Pen], None], *reads: str) -> Layer:
    """A layer; `reads` are parameters of the piece."""
    return Layer(name, frozenset(reads), draw)


@dataclass(frozen=True)
class Drawer:
    """How a piece is drawn: the size of its paper in units, and its layers from back to front."""

    piece: type[Piece] | PieceKind
    width: int
    height: int
    layers: tuple[Layer, ...]
    scale: Callable[[Any], float | None] = lambda piece: None
    """Units for one millimetre, where the drawing is to scale."""


@dataclass(frozen=True)
class Sketch:
    """A piece drawn: its layers with their strokes, where each parameter can be pointed to, and its scale."""

    width: float
    height: float
    layers: tuple[tuple[str, tuple[Stroke, ...]], ...]
    places: dict[str, Point] = field(default_factory=dict)
    units_per_mm: float | None = None


def sketch(drawer: Drawer, piece: Drawable, seed: str = SEED) -> Sketch:
    """A piece drawn. The same parameters and seed always give the same strokes."""
    layers = []
    places: dict[str, Point] = {}
    for each in drawer.layers:
        pen = Pen(f"{seed}/{drawer.piece.name}/{each.name}")
        each.draw(piece.only(each.reads), pen)
        for name, place in pen.places.items():
            places.setdefault(name, place)
        if pen.strokes:
            layers.append((each.name, tuple(pen.strokes)))
    return Sketch(drawer.width, drawer.height, tuple(layers), places, drawer.scale(piece))


def units(length: Decimal | None, frame: Decimal | None, room: float) -> float | None:
    """Units for one millimetre, so that the longest of what is compared fills the room; None where the length itself is not known."""
    return room / float(max(length, frame or length)) if length else None
