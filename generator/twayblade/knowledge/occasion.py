"""An occasion: what a walk, key, handout or comparison is made for."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from twayblade.knowledge.trait import EYE, Means


@dataclass(frozen=True)
class Occasion:
    """Date (None: any day of the year), means allowed, region, and the taxa that are to be told apart."""

    on: date | None
    means: frozenset[Means] = frozenset(EYE)
    region: str | None = None
    taxa: tuple[str, ...] = ()
