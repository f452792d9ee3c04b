"""Pieces of the flower head."""

from __future__ import annotations

from decimal import Decimal
from typing import ClassVar, Literal

from twayblade.knowledge.pieces.piece import Piece, shown

Cluster = Literal["compound-umbel", "frothy-panicle", "corymb-of-heads", "flat-cyme", "spike"]


class Head(Piece):
    """The flower head with the top of its stem, from the side, as it is seen from some steps away."""

    name: ClassVar[str] = "head"
    title: ClassVar[str] = "the flower head from some steps away"
    cluster: Cluster | None = shown("how the flowers are gathered")
    in_bud: Literal["nodding", "upright"] | None = shown("how the head is held before it opens", cluster="compound-umbel")
    in_fruit: Literal["nest", "loose"] | None = shown("how the head looks in fruit", cluster="compound-umbel")


class Umbel(Piece):
    """A compound umbel from the side and a little from above: the foot where all rays meet, the rim and the middle are in full view."""

    name: ClassVar[str] = "umbel"
    title: ClassVar[str] = "the main umbel"
    core: ClassVar[tuple[str, ...]] = ("rays", "bracts")
    rays: int | None = shown("the number of rays, each drawn")
    ray_hairs: Literal["none", "some", "bristles", "down"] | None = shown("hairs on the rays", rays=8)
    bracts: int | None = shown("the number of bracts, each drawn", rays=8)
    bract_division: Literal["undivided", "forked"] | None = shown("whether a bract is one strip", rays=8, bracts=4)
    bract_stance: Literal["along-rays", "turned-down"] | None = shown("where the bracts point", rays=8, bracts=4)
    dark_flower: Literal["none", "one"] | None = shown("a dark flower in the middle", rays=12)
    rim_petals: Literal["equal", "slightly-larger", "much-larger"] | None = shown("the petals on the rim", rays=8)


class SmallUmbel(Piece):
    """One small umbel from the side, with all of its foot; the middle of the main umbel lies to the left."""

    name: ClassVar[str] = "small-umbel"
    title: ClassVar[str] = "one small umbel"
    core: ClassVar[tuple[str, ...]] = ("bracteoles",)
    bracteoles: int | None = shown("the number of bracteoles, each drawn")
    side: Literal["all-round", "outer-side"] | None = shown("where the bracteoles stand", bracteoles=5)
    stance: Literal["spread-out", "bent-down"] | None = shown("where the bracteoles point", bracteoles=5)
    reach: Literal["shorter", "longer"] | None = shown("the bracteoles against the small umbel", bracteoles=5)
    outline: Literal["strip", "lance", "three-forked"] | None = shown("the shape of a bracteole", bracteoles=5)
    fringe: Literal["bare", "fringed"] | None = shown("hairs along the edge of a bracteole", bracteoles=5, outline="lance")


class Bract(Piece):
    """One bract of the main umbel, at its length."""

    name: ClassVar[str] = "bract"
    title: ClassVar[str] = "one bract"
    ruler: ClassVar[str | None] = "length"
    core: ClassVar[tuple[str, ...]] = ("length",)
    length: Decimal | None = shown("length in mm, to the scale of the bar")
    division: Literal["undivided", "forked"] | None = shown("whether it is one strip")
