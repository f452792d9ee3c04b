"""Naming an unknown plant one look at a time: what the answers say of each taxon, what to look at next, and when to stop.

All is looked up in tables of whole numbers and added, so that a page can do the same without knowing anything of plants; the tables
come from `naming_looks`. Taxa are places 0, 1, 2, ...; a set of taxa is a whole number, bit n standing for place n.

An answer speaks against a taxon that never shows it, by a number that is the greater the less a misreading is likely. What a taxon shows
rarely speaks not at all against it, and neither does an answer by which it may not be judged on the day. The measure is the taxon against
which the least speaks, of those that may be judged by half of the answers at the least: one that nothing is known of would win otherwise.
A taxon leads while no more speaks against it than against that one, and is possible while no more than MARGIN more does. No answer speaks
by more than MARGIN: so one wrong answer loses no plant. It goes on until nothing that may be asked parts a leading taxon from another
possible one; then those that lead are the names, and the other possible ones are told beside them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import combinations
from typing import TypeAlias

from twayblade.reasoning.keys.objective import places
from twayblade.reasoning.questions import Span
from twayblade.reasoning.spread import Context

MARGIN = 5
"""By how much more may speak against a taxon than against the best, and it is still possible; no answer speaks by more (project default)."""

UNSURE = -1
"""The answer `I can't tell`. It speaks against nothing."""

NONE_OF_THESE = -2
"""The answer `none of these`. It speaks against nothing, and is told at the end."""

NOT_SURELY_SHOWN = 2
"""What a look costs more for each pair of which one may not show it on the day (project default; the effort of an easy look is 1)."""


@dataclass(frozen=True)
class Answer:
    """A condition to choose: a state of a trait, or for numbers the lowest and the highest (None: without limit)."""

    id: str
    state: str | None = None
    span: Span = (None, None)


@dataclass(frozen=True)
class Look:
    """Something to look at: a trait at a part and stage of its organ, with its answers in their order.

    observation: looks with the same one are never asked both. against: for each answer what it speaks by against each taxon, by its place;
    0: a plant of the taxon may show it. own, seldom: for each answer the taxa that may show just it, and those that do so less often than
    usually. lacking: the taxa of which a plant may lack the organ; while one of them is possible it is never asked. worth: for each pair
    of places, in the order of `pairs`, how far the answers to be expected of the two speak apart. effort: of an easy look 1.
    shown, sure: for each taxon the days (bits of the circle) on which it may be judged by it, and on which its stage is expected besides.
    """

    trait: str
    at: Context
    observation: str
    answers: tuple[Answer, ...]
    against: tuple[tuple[int, ...], ...]
    own: tuple[int, ...]
    seldom: tuple[int, ...]
    lacking: int
    worth: tuple[int, ...]
    effort: int
    shown: tuple[int, ...]
    sure: tuple[int, ...]


@dataclass(frozen=True)
class Naming:
    """What may be asked of some taxa, over the whole year.

    always: the taxa that stay in whatever the date. present: for each taxon the days on which it can be found, as bits of the circle.
    """

    taxa: tuple[str, ...]
    looks: tuple[Look, ...]
    always: int
    present: tuple[int, ...]


Given: TypeAlias = Mapping[int, int]
"""The answer given to each look, both by their places; UNSURE or NONE_OF_THESE."""


@dataclass(frozen=True)
class Standing:
    """Where the answers have led.

    against, seldom, judged: what speaks against each taxon, how many answers it shows only seldom, and by how many it may be judged.
    least: what speaks against the measure of all; 0 if it fits every answer. here: the taxa that count on the day. known: those of them
    that may be judged by half of the answers. possible, leading: see above.
    """

    against: tuple[int, ...]
    seldom: tuple[int, ...]
    judged: tuple[int, ...]
    least: int
    here: int
    known: int
    possible: int
    leading: int


def pairs(taxa: int) -> tuple[tuple[int, int], ...]:
    """Every pair of so many places, in the order of `Look.worth`."""
    return tuple(combinations(range(taxa), 2))


def pair_at(first: int, second: int, taxa: int) -> int:
    """Where a pair of places stands in `Look.worth`, of so many taxa."""
    a, b = sorted((first, second))
    return a * (2 * taxa - a - 1) // 2 + b - a - 1


def standing(naming: Naming, given: Given, day: int) -> Standing:
    """What some answers say on a day of the circle. A taxon that may not be judged by a look then is left alone by its answers."""
    count = range(len(naming.taxa))
    against, seldom, judged = [0] * len(count), [0] * len(count), [0] * len(count)
    told = {place: answer for place, answer in given.items() if answer >= 0}
    for place, answer in told.items():
        look = naming.looks[place]
        for n in count:
            if look.shown[n] >> day & 1:
                against[n] += look.against[answer][n]
                seldom[n] += look.seldom[answer] >> n & 1
                judged[n] += 1
    here = sum(1 << n for n in count if (naming.always >> n | naming.present[n] >> day) & 1)
    known = sum(1 << n for n in places(here) if 2 * judged[n] >= len(told))
    least = min((against[n] for n in places(known or here)), default=0)
    leading = sum(1 << n for n in places(here) if against[n] <= least)
    possible = sum(1 << n for n in places(here) if against[n] <= least + MARGIN)
    return Standing(tuple(against), tuple(seldom), tuple(judged), least, here, known, possible, leading)


def next_look(naming: Naming, given: Given, day: int) -> int | None:
    """The place of the look that parts the leading taxa best from all that are possible, for its effort; None: nothing parts them."""
    now = standing(naming, given, day)
    seen = {naming.looks[place].observation for place, answer in given.items() if answer != UNSURE}
    apart = [(a, b) for a, b in pairs(len(naming.taxa)) if now.possible >> a & now.possible >> b & 1 and (now.leading >> a | now.leading >> b) & 1]
    best, found = 0, None
    for place, look in enumerate(naming.looks):
        if place in given or look.observation in seen or look.lacking & now.possible:
            continue
        judged = [(a, b) for a, b in apart if look.shown[a] >> day & look.shown[b] >> day & 1]
        worth = sum(look.worth[pair_at(a, b, len(naming.taxa))] for a, b in judged)
        unsure = sum(1 for a, b in apart if not look.sure[a] >> day & look.sure[b] >> day & 1)
        score = worth - len(apart) * look.effort - unsure * NOT_SURELY_SHOWN
        if worth and (found is None or score > best):
            best, found = score, place
    return found


def answers_to_show(naming: Naming, place: int, now: Standing) -> tuple[int, ...]:
    """The places of the answers to a look that some plant still possible may give; for any other there is NONE_OF_THESE."""
    return tuple(n for n, own in enumerate(naming.looks[place].own) if own & now.possible)


def names(naming: Naming, now: Standing) -> tuple[int, ...]:
    """The places of the leading taxa: those first that may be judged, and that show the fewest answers only seldom; none where one wrong
    answer would not explain what speaks against them."""
    if now.least > MARGIN:
        return ()
    return tuple(sorted(places(now.leading), key=lambda n: (not now.known >> n & 1, now.seldom[n], n)))
