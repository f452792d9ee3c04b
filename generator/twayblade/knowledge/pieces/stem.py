"""Pieces of the stem."""

from __future__ import annotations

from decimal import Decimal
from typing import ClassVar, Literal

from twayblade.knowledge.pieces.piece import Piece, shown

Hairs = Literal["none", "some", "bristles", "down", "shaggy"]
"""Hairs as they are drawn: `some` says no more than that there are hairs."""


class Stem(Piece):
    """A hand's length of the stem from the side, cut square at the top, the foot below."""

    name: ClassVar[str] = "stem"
    title: ClassVar[str] = "a length of the stem"
    ruler: ClassVar[str | None] = "thickness"
    blotches: Literal["none", "blotches"] | None = shown("separate spots, blotches and streaks")
    flush: Literal["none", "even"] | None = shown("an even colour, drawn as close upright lines on one side")
    bloom: Literal["none", "film"] | None = shown("a film as on a plum, drawn as fine dots")
    foot_colour: Literal["none", "red"] | None = shown("colour at the very foot, drawn as close lines across it")
    lower_hairs: Hairs | None = shown("hairs in the lower half")
    upper_hairs: Hairs | None = shown("hairs in the upper half")
    top_hairs: Hairs | None = shown("hairs just below the flower head")
    hair_stance: Literal["pressed-down", "standing-out"] | None = shown("how the hairs stand", lower_hairs="some", upper_hairs="some")
    relief: Literal["smooth", "fine-ribs", "ridges", "furrows"] | None = shown("ribs along the surface, and on the rim of the cut end")
    section: Literal["round", "blunt-edges", "edges"] | None = shown("edges along the stem, and the shape of the cut end")
    filling: Literal["hollow", "solid"] | None = shown("what the cut end shows")
    thickness: Decimal | None = shown("thickness in mm, to the scale of the bar")


class Joint(Piece):
    """A joint of the stem from the side, with the feet of its leaves."""

    name: ClassVar[str] = "joint"
    title: ClassVar[str] = "a joint of the stem"
    swelling: Literal["plain", "swollen"] | None = shown("whether the stem is thicker below the joint")
    leaves: Literal["one", "pair", "ring"] | None = shown("how many leaves stand at the joint")
    sheath: Literal["narrow", "inflated"] | None = shown("the widened foot of a leaf stalk", leaves="one")
    leaf_foot: Literal["sheath", "no-sheath", "rounded"] | None = shown("how a leaf meets the stem", leaves="one")
    stipules: Literal["none", "pair"] | None = shown("leafy flaps at the foot of a leaf stalk", leaves="one")
