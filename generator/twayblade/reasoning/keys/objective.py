"""What a key costs. Taxa are places 0, 1, 2, ...; a set of taxa is a whole number, bit n standing for place n.

The cost of a key is a sum over taxa, each weighted by how likely it is met, over the couplets on its ways through the key, of

    length x effort of the couplet + chance of a wrong turn there x weight of a wrong arrival,

the weight of a wrong arrival being much more if the plant is harmful. A taxon that stands on several leads of a couplet goes all
those ways and is counted in full on each. One that stands on every lead cannot turn wrong there; whoever else turns wrong arrives at a
name that is not its own, for the lead it takes does not hold it. The effort of a couplet is that of its first sign, a share
of that of each later sign, and a little more where some taxon may not show it then, where a later sign looks at an organ already
looked at, or where the couplet before asked of the same trait. Taxa that no question divides end together at no cost.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

LATER = 0.25
"""What a second or third sign costs, as a share of its effort (project default): it is looked at to make sure."""

SAME_ORGAN = 0.3
"""What a later sign costs more that looks at an organ already looked at (project default, in units of effort)."""

NOT_SHOWING = 4.0
"""What a couplet costs more that some of the taxa may not show then (project default): asked where little else divides."""

AGAIN = 3.0
"""What a couplet costs more that asks of the trait that the one before it asked of (project default): it reads badly."""


@dataclass(frozen=True)
class Sign:
    """A question that may be asked, over plain sets of taxa.

    leads: the taxa on each lead; every taxon stands on one at least. effort: of the observation, 1 for an easy one.
    misread: how often it is misread. trait: two signs of one trait are one observation. silent: the taxa that may not show it then.
    barred: those of them of which it is never asked, because a plant may lack what it asks about, and then no lead would fit.
    """

    leads: tuple[int, ...]
    trait: str
    effort: float = 1.0
    misread: float = 0.0
    organ: str = ""
    silent: int = 0
    barred: int = 0


@dataclass(frozen=True)
class Objective:
    """The weights of the cost. likely: how likely each taxon is met; wrong: what a wrong arrival of each weighs, in units of effort."""

    likely: tuple[float, ...]
    wrong: tuple[float, ...]
    length: float = 1.0
    most_signs: int = 3
    later: float = LATER
    same_organ: float = SAME_ORGAN
    not_showing: float = NOT_SHOWING
    again: float = AGAIN

    @cached_property
    def _likely(self) -> tuple[tuple[int, float], ...]:
        return _grouped(self.likely)

    @cached_property
    def _wrong(self) -> tuple[tuple[int, float], ...]:
        return _grouped([a * b for a, b in zip(self.likely, self.wrong, strict=True)])

    @cached_property
    def typical_wrong(self) -> float:
        """What a wrong arrival weighs on average."""
        return sum(weight * taxa.bit_count() for taxa, weight in self._wrong) / (sum(self.likely) or 1.0)

    def weight(self, taxa: int) -> float:
        """How likely it is to meet one of some taxa."""
        return sum(weight * (taxa & group).bit_count() for group, weight in self._likely)

    def wrong_weight(self, taxa: int) -> float:
        """What it costs if all of some taxa arrive wrongly."""
        return sum(weight * (taxa & group).bit_count() for group, weight in self._wrong)

    def difficulty(self, sign: Sign) -> float:
        """By which signs are ordered, the surest and easiest first: what one costs that stands alone, for the typical taxon."""
        return self.length * sign.effort + sign.misread * self.typical_wrong


def shortest(taxa: int) -> Objective:
    """The objective of a merely shortest key of some number of taxa: every couplet counts 1, of one sign each, and errors count nothing."""
    return Objective((1.0,) * taxa, (0.0,) * taxa, most_signs=1, not_showing=0.0, again=0.0)


def _grouped(weights: Sequence[float]) -> tuple[tuple[int, float], ...]:
    """Each weight that occurs, with the set of taxa that have it."""
    found: dict[float, int] = {}
    for place, weight in enumerate(weights):
        found[weight] = found.get(weight, 0) | 1 << place
    return tuple((taxa, weight) for weight, taxa in found.items())


def places(taxa: int) -> Iterable[int]:
    """The places of a set of taxa."""
    while taxa:
        lowest = taxa & -taxa
        yield lowest.bit_length() - 1
        taxa ^= lowest
