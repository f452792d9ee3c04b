"""Pieces of the leaf."""

from __future__ import annotations

from decimal import Decimal
from typing import ClassVar, Literal

from twayblade.knowledge.pieces.piece import Piece, shown

Segments = Literal["broad-lobed", "egg-shaped", "wedge-shaped", "lacy", "linear"]
Teeth = Literal["none", "some", "blunt", "sharp", "fine", "jagged"]
LeafHairs = Literal["none", "some", "felt"]


class Leaf(Piece):
    """A whole leaf from above, from the foot of its stalk to its tip."""

    name: ClassVar[str] = "leaf"
    title: ClassVar[str] = "a whole leaf"
    ruler: ClassVar[str | None] = "length"
    blade: Literal["whole", "divided"] | None = shown("one blade, or separate pieces")
    outline: Literal["feather", "triangle", "lance"] | None = shown("the shape drawn round the whole leaf")
    division: Literal["once", "twice", "thrice", "in-threes"] | None = shown("how often the leaf is divided", blade="divided")
    lowest_pair: Literal["much-smaller", "as-large"] | None = shown(
        "the lowest pair of branches against the rest of the leaf", blade="divided", division="twice"
    )
    segments: Segments | None = shown("the shape of the last pieces", blade="divided", division="once")
    flecks: Literal["none", "flecks"] | None = shown("pale flecks beside the midrib", blade="divided", division="once")
    gloss: Literal["matt", "glossy"] | None = shown("shine, drawn as breaks in the lines of the veins", blade="whole")
    length: Decimal | None = shown("length with the stalk in mm, to the scale of the bar")


class Leaflet(Piece):
    """The last pieces of a leaf, seen close and from above."""

    name: ClassVar[str] = "leaflet"
    title: ClassVar[str] = "the last pieces of a leaf"
    core: ClassVar[tuple[str, ...]] = ("outline", "teeth")
    outline: Segments | None = shown("the shape of the pieces")
    teeth: Teeth | None = shown("the teeth of the edge")
    tip: Literal["blunt", "pointed", "drawn-out"] | None = shown("the end of the last lobes")
    hairs: LeafHairs | None = shown("hairs on edge and veins")
