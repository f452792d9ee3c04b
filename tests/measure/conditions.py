"""Phrases of values and the sets of conditions they stand for. Nothing of twayblade is imported."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

Way = tuple[str | int, ...]
Point = str | Fraction
Set = frozenset[Point]


@dataclass(frozen=True)
class Broken:
    """A claim or rule that does not hold, and the way to what states it."""

    rule: str
    file: str
    way: Way


@dataclass(frozen=True)
class Said:
    """One phrase of a value: how often, which states or (low, high, outer low, outer high), and for which plants."""

    word: str
    states: frozenset[str]
    bounds: tuple[Fraction | None, ...] | None
    where: Mapping[str, str]
    complete: bool
    names: frozenset[str] = frozenset()
    """The states as they are named, without the kinds of them that `states` holds too."""


@dataclass(frozen=True)
class Tiers:
    """The conditions that are usual, lesser and rare."""

    usual: Set
    lesser: Set
    rare: Set

    @property
    def firm(self) -> Set:
        return self.usual | self.lesser

    @property
    def all(self) -> Set:
        return self.firm | self.rare


def speaks(said: Said, at: tuple[str | None, str | None]) -> bool:
    """Whether a phrase says something of a part and stage."""
    return said.where.get("part") in (None, at[0]) and said.where.get("stage") in (None, at[1])


def relation(a: Tiers, b: Tiers) -> int:
    """2 separate, 1 usually separate, 0 no contrast."""
    if not a.all & b.all:
        return 2
    apart = not a.usual & b.usual
    return int(apart and bool((a.usual and not a.usual & b.firm) or (b.usual and not b.usual & a.firm)))
