"""The whole plant, and what is under the ground."""

from __future__ import annotations

from decimal import Decimal
from typing import ClassVar, Literal

from twayblade.knowledge.pieces.head import Cluster
from twayblade.knowledge.pieces.piece import Piece, shown


class Plant(Piece):
    """The whole plant from the side at its height, beside the outline of a grown person of 1.7 m."""

    name: ClassVar[str] = "plant"
    title: ClassVar[str] = "the whole plant beside a person"
    ruler: ClassVar[str | None] = "height"
    core: ClassVar[tuple[str, ...]] = ("height", "cluster")
    height: Decimal | None = shown("height in mm; the person is drawn to the same scale")
    habit: Literal["herb", "shrub"] | None = shown("a herb, or a woody shrub")
    cluster: Cluster | None = shown("how the flowers are gathered")
    leaves: Literal["one", "pair", "ring"] | None = shown("how the leaves stand along the stem")
    blade: Literal["whole", "divided"] | None = shown("whole or divided leaves", leaves="one")


class Root(Piece):
    """What is under the ground, known from books."""

    name: ClassVar[str] = "root"
    title: ClassVar[str] = "the root, as books show it"
    form: Literal["taproot", "tubers", "round-tuber", "rhizome", "rootstock"] | None = shown("the form of the root")
