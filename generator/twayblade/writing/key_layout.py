"""Where the couplets of a key stand: bracketed, all leads of a couplet together, or indented, each couplet under the lead that comes to it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum

from twayblade.writing.key_words import WrittenCouplet, WrittenKey, WrittenLead


class Layout(StrEnum):
    """The two layouts of the trade."""

    BRACKETED = "bracketed"
    INDENTED = "indented"


@dataclass(frozen=True)
class Placed:
    """Leads of one couplet that stand together.

    depth: how many couplets stand above it (bracketed: 0). opens: whether its first lead is the couplet's first. goes_on: for each
    lead the couplet to turn to; None for an end, and for a lead whose couplet follows at once.
    """

    couplet: WrittenCouplet
    leads: tuple[WrittenLead, ...]
    goes_on: tuple[int | None, ...]
    depth: int = 0
    opens: bool = True


def placed(written: WrittenKey, layout: Layout) -> tuple[Placed, ...]:
    """The leads of a key in the order in which they are printed."""
    if layout is Layout.BRACKETED:
        return tuple(Placed(c, c.leads, tuple(lead.to for lead in c.leads)) for c in written.couplets)
    return tuple(_indented(written))


def _indented(written: WrittenKey) -> Iterator[Placed]:
    """Each lead with what it comes to under it. A couplet with several ways to it stands under the first; the others turn to it."""
    numbered = {couplet.number: couplet for couplet in written.couplets}
    stands: set[int] = set()

    def under(couplet: WrittenCouplet, depth: int) -> Iterator[Placed]:
        stands.add(couplet.number)
        for place, lead in enumerate(couplet.leads):
            follows = lead.to is not None and lead.to not in stands
            yield Placed(couplet, (lead,), (None if follows else lead.to,), depth, opens=place == 0)
            if follows and lead.to is not None:
                yield from under(numbered[lead.to], depth + 1)

    if written.couplets:
        yield from under(written.couplets[0], 0)


def most_signs(written: WrittenKey) -> int:
    """How many signs the couplet with the most has."""
    return max((1 + len(lead.more) for couplet in written.couplets for lead in couplet.leads), default=1)


def with_signs(written: WrittenKey, most: int) -> WrittenKey:
    """The same key with no more than so many signs a couplet: the surest, which come first."""
    couplets = tuple(replace(c, leads=tuple(replace(lead, more=lead.more[: most - 1]) for lead in c.leads)) for c in written.couplets)
    return replace(written, couplets=couplets)
