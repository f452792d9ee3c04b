"""Pieces of the flower."""

from __future__ import annotations

from decimal import Decimal
from typing import ClassVar, Literal

from twayblade.knowledge.pieces.piece import Piece, shown

Tint = Literal["white", "cream", "pink", "green", "yellow", "purple"]
"""Colours without ink: each has a marking of its own, so that a copier keeps them apart.

White: none. Cream: few dots. Yellow: many dots. Pink: dashes along the petal. Purple: close lines along the petal. Green: lines across it.
Dots for yellow and lines for the fuller colours follow the hatchings of engraved coats of arms (common practice); the rest is ours.
"""
_TINT_WORDS = "the colour of the petals, as a marking: white none, cream few dots, yellow many, pink dashes, purple lines, green lines across"


class Flower(Piece):
    """One flower from above; or the little head of florets that looks like one."""

    name: ClassVar[str] = "flower"
    title: ClassVar[str] = "one flower from above"
    ruler: ClassVar[str | None] = "width"
    core: ClassVar[tuple[str, ...]] = ("make", "petals")
    make: Literal["single", "daisy-head"] | None = shown("whether it is one flower, or a head of florets")
    petals: int | None = shown("the number of petals, each drawn")
    tint: Tint | None = shown(_TINT_WORDS, petals=5)
    stamens: int | None = shown("the number of stamens, each drawn")
    styles: int | None = shown("the number of styles, each drawn")
    ray_florets: int | None = shown("the number of strap-shaped florets on the rim of a head", make="daisy-head")
    width: Decimal | None = shown("width in mm, to the scale of the bar")
    petal_length: Decimal | None = shown("length of a petal in mm, to the scale of the bar", petals=6)


class RimFlower(Piece):
    """One flower on the rim of an umbel from above; the middle of the umbel lies below."""

    name: ClassVar[str] = "rim-flower"
    title: ClassVar[str] = "a flower on the rim of the umbel"
    core: ClassVar[tuple[str, ...]] = ("outer",)
    petals: int | None = shown("the number of petals, each drawn")
    outer: Literal["equal", "slightly-larger", "much-larger"] | None = shown("the outer petals against the others", petals=5)
    tint: Tint | None = shown(_TINT_WORDS, petals=5)


class FlowerTube(Piece):
    """One flower cut open from the side: calyx, style and stamens at their levels."""

    name: ClassVar[str] = "flower-tube"
    title: ClassVar[str] = "one flower from the side, its near half taken away"
    core: ClassVar[tuple[str, ...]] = ("style", "stamens")
    calyx: Literal["tiny", "tube"] | None = shown("the calyx")
    style: Literal["low", "mid", "high"] | None = shown("the level of the tip of the style")
    stamens: Literal["low-and-mid", "low-and-high", "mid-and-high"] | None = shown("the two levels at which the stamens end")
    pollen: Literal["all-pale", "longest-dark"] | None = shown("the anthers, filled where the pollen is dark", stamens="mid-and-high")
    filaments: Literal["all-pale", "longest-dark"] | None = shown("the stalks of the stamens, double where they are coloured", stamens="mid-and-high")
