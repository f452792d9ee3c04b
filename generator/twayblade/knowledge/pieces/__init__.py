"""The pieces that a drawing can be made of. A piece is a record; content names it and its parameters."""

from __future__ import annotations

from twayblade.knowledge.pieces.flower import Flower, FlowerTube, RimFlower
from twayblade.knowledge.pieces.fruit import Fruit
from twayblade.knowledge.pieces.head import Bract, Head, SmallUmbel, Umbel
from twayblade.knowledge.pieces.leaf import Leaf, Leaflet
from twayblade.knowledge.pieces.own import OwnPiece
from twayblade.knowledge.pieces.piece import Parameter, ParameterKind, Piece, PieceKind, Setting, Settings
from twayblade.knowledge.pieces.plant import Plant, Root
from twayblade.knowledge.pieces.stem import Joint, Stem

__all__ = ["PIECES", "OwnPiece", "Parameter", "ParameterKind", "Piece", "PieceKind", "Setting", "Settings"]

PIECES: dict[str, type[Piece]] = {
    piece.name: piece for piece in (Plant, Head, Umbel, Bract, SmallUmbel, RimFlower, Flower, FlowerTube, Leaf, Leaflet, Stem, Joint, Fruit, Root)
}
"""Every built-in piece by its name, in the order in which pages show them."""
