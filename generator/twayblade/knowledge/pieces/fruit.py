"""Pieces of the fruit."""

from __future__ import annotations

from decimal import Decimal
from typing import ClassVar, Literal

from twayblade.knowledge.pieces.piece import Piece, shown


class Fruit(Piece):
    """One ripe fruit from its broad side, the tip upwards."""

    name: ClassVar[str] = "fruit"
    title: ClassVar[str] = "one fruit"
    ruler: ClassVar[str | None] = "length"
    make: Literal["two-halves", "capsule", "berry", "grain"] | None = shown("the kind of fruit")
    outline: Literal["long", "cylinder", "narrow-egg", "egg", "flat-oval", "twisted"] | None = shown("its shape from the broad side")
    ridges: Literal["none", "low", "wavy", "thick"] | None = shown("the ribs along it")
    wings: Literal["none", "thin", "broad"] | None = shown("a thin flat margin")
    clothing: Literal["bare", "bristles", "spine-rows"] | None = shown("what covers its sides")
    bristle_tips: Literal["plain", "hooked"] | None = shown("the ends of the bristles, one drawn large", clothing="bristles")
    beak: Literal["none", "short"] | None = shown("a narrowed neck below the styles")
    styles: Literal["short", "long"] | None = shown("the two little horns on top")
    length: Decimal | None = shown("length in mm, to the scale of the bar")
