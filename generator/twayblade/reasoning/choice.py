"""Which parts of a walk fit a time allowance: an exact choice of most worth, with what each part left out would cost."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from operator import itemgetter
from types import MappingProxyType
from typing import NamedTuple

WORTH = MappingProxyType(
    {
        "recognise": 10,  # the plant is what the walk is about
        "tell": 8,  # and telling it from one already met comes next
        "forms": 3,
        "look-closer": 3,
        "habitat": 2,
        "name": 2,
        "not-found": 2,  # what a stop falls back on
        "care": 0,  # never chosen or left for its worth: it goes with the plant, or with the stop
        "arrival": 0,  # what a stop is worth is what is shown there
        "move-on": 0,
        "opening": 0,  # the opening and the closing belong to every walk
        "closing": 0,
    }
)
"""The worth of each kind of part of a stop (project defaults). Only their proportions matter."""

WORTH_OPEN = 2
"""The worth of a recognise or tell that can make no claim that day, because nothing may be looked at."""

WORTH_BARE = 1
"""The worth of arriving where no plant can be recognised that day: with time enough no stop is left out."""


@dataclass(frozen=True)
class Item:
    """A part of a stop that may be chosen.

    stop: the stop's place along the way. needs: places in the list of items of those without which it makes no sense.
    bound_to: the item it always goes with. Both stand before it in the list.
    """

    stop: int
    kind: str
    taxon: str | None
    seconds: int
    worth: int
    needs: frozenset[int] = frozenset()
    bound_to: int | None = None


@dataclass(frozen=True)
class Way:
    """What can be chosen along a walk: the items in the order in which they are spoken, and the seconds of walking that lead
    to each stop from the one before it (to the first, from the start).

    frame: the seconds of the words that open and close the walk, wherever it begins and ends. The last stop kept loses its `move-on`,
    which is the last item of its stop and bound to its arrival; all other items of a stop need the arrival.
    """

    items: tuple[Item, ...]
    walks: tuple[int, ...]
    frame: int = 0

    def walk_to(self, stop: int) -> int:
        """The seconds of walking from the start to a stop, past all others."""
        return sum(self.walks[: stop + 1])

    @property
    def seconds(self) -> int:
        """The seconds of the whole walk, nothing left out."""
        last = max((item.stop for item in self.items), default=0)
        said = sum(item.seconds for item in self.items if not (item.stop == last and item.kind == "move-on"))
        return said + self.walk_to(last) + self.frame


@dataclass(frozen=True)
class Choice:
    """Chosen items by their places in the list, their worth, and the seconds they take with walking, opening and closing."""

    items: frozenset[int]
    worth: int
    seconds: int

    def stops(self, way: Way) -> tuple[int, ...]:
        """The stops chosen, in order."""
        return tuple(sorted({way.items[i].stop for i in self.items}))


NOTHING = Choice(frozenset(), 0, 0)


@dataclass(frozen=True)
class Spared:
    """A part left out of a choice, and why.

    instead, besides: what the best choice that holds it leaves out of the choice made, and what else it holds that the choice
    made does not. misses: items left out without which it makes no sense. All empty: no choice that holds it fits.
    """

    item: int
    instead: frozenset[int] = frozenset()
    besides: frozenset[int] = frozenset()
    misses: frozenset[int] = frozenset()
    is_draw: bool = False
    """Whether keeping it would be worth as much, so that the shorter walk was taken."""


class _State(NamedTuple):
    """A partial choice: the items chosen so far as a linked list, with their seconds and the worth they lack (below 0)."""

    seconds: int
    lack: int
    item: int | None
    before: _State | None

    def chosen(self) -> Iterator[int]:
        state: _State | None = self
        while state is not None:
            if state.item is not None:
                yield state.item
            state = state.before


def choose(way: Way, allows: int, keep: frozenset[int] = frozenset()) -> Choice | None:
    """The choice of most worth that takes at most some seconds, and of these one of the shortest; None if none fits.

    keep: items that it must hold. The walk goes along the route to the last stop chosen, past the stops left out, and ends
    there: a way back is not counted. Exact, by dynamic programming over the items in order: of partial choices that leave
    open the same, only those stay that no other beats in both seconds and worth.
    """
    used_later = _used_later(way)
    best = None if keep else NOTHING
    layer: _Layer = {(frozenset(), False): [_State(0, 0, None, None)]}
    to_come = sum(item.worth for item in way.items)
    floor = to_come if way.seconds <= allows else 0  # where everything fits, whatever lacks worth can be dropped at once
    for number, item in enumerate(way.items):
        to_come -= item.worth
        grown: _Layer = {}
        for (chosen, here), states in layer.items():
            for takes in _ways_on(item, number, chosen, keep):
                held = (chosen | {number} if takes else chosen) & used_later[number]
                found = [_State(s.seconds + item.seconds, s.lack - item.worth, number, s) for s in states] if takes else states
                room = allows - way.walk_to(item.stop) - way.frame + (item.seconds if item.kind == "move-on" else 0) if takes else allows
                grown.setdefault((held, here or takes), []).extend(s for s in found if s.seconds <= room and to_come - s.lack >= floor)
        layer = {key: _best_of(states) for key, states in grown.items()}
        if number + 1 == len(way.items) or way.items[number + 1].stop != item.stop:  # the last item of its stop
            if number >= max(keep, default=0):
                best = _better(best, _ended(way, [s for (_, here), states in layer.items() if here for s in states], item), allows)
            layer = _onwards(layer)
    return best


_Layer = dict[tuple[frozenset[int], bool], list[_State]]
"""Partial choices by what they hold that still matters, and by whether they hold anything of the stop at hand."""


def _onwards(layer: _Layer) -> _Layer:
    """The partial choices of a stop, on the way to the next: it no longer matters whether they hold anything of it."""
    merged: _Layer = {}
    for (held, _), states in layer.items():
        merged.setdefault((held, False), []).extend(states)
    return {key: _best_of(states) for key, states in merged.items()}


def _ways_on(item: Item, number: int, chosen: frozenset[int], keep: frozenset[int]) -> tuple[bool, ...]:
    """Whether an item may be taken (True) and left (False), after what was chosen before it."""
    if item.bound_to is not None:
        may_take, may_leave = item.bound_to in chosen, item.bound_to not in chosen
    else:
        may_take, may_leave = item.needs <= chosen, True
    return tuple(takes for takes, may in ((False, may_leave and number not in keep), (True, may_take)) if may)


def _used_later(way: Way) -> list[frozenset[int]]:
    """For each item, which of those up to it matter to a later one."""
    found, later = [], frozenset[int]()
    for item in reversed(way.items):
        found.append(later)
        later |= item.needs | ({item.bound_to} if item.bound_to is not None else frozenset())
    return found[::-1]


def _best_of(states: Iterable[_State]) -> list[_State]:
    """Those states that no other beats in both seconds and worth; of equals the first."""
    kept: list[_State] = []
    for state in sorted(states, key=itemgetter(0, 1)):
        if not kept or state.lack < kept[-1].lack:
            kept.append(state)
    return kept


def _ended(way: Way, states: list[_State], last: Item) -> list[Choice]:
    """The best choice of those that end at a stop, all of which hold something of it; last: the last item of the stop."""
    if not states:
        return []
    found = min(states, key=itemgetter(1, 0))
    replaced = last.seconds if last.kind == "move-on" else 0
    return [Choice(frozenset(found.chosen()), -found.lack, found.seconds - replaced + way.walk_to(last.stop) + way.frame)]


def _better(best: Choice | None, found: Iterable[Choice], allows: int) -> Choice | None:
    fitting = [choice for choice in found if choice.seconds <= allows]
    return min([*([best] if best else []), *fitting], key=lambda c: (-c.worth, c.seconds), default=None)


def spared(way: Way, choice: Choice, allows: int) -> tuple[Spared, ...]:
    """What a choice leaves out, and why: a stop or a plant left out whole by its first item, other parts one by one."""
    out = [i for i in range(len(way.items)) if i not in choice.items]
    found = []
    for number in out:
        item = way.items[number]
        missing = {n for n in (*item.needs, *((item.bound_to,) if item.bound_to is not None else ())) if n not in choice.items}
        inner = {n for n in missing if item.stop == way.items[n].stop and (item.taxon == way.items[n].taxon or way.items[n].taxon is None)}
        if inner:
            continue  # it goes with its plant or its stop, which is spoken of by itself
        if missing:
            found.append(Spared(number, misses=frozenset(missing)))
            continue
        forced = _with(way, allows, number)
        if forced is None:
            found.append(Spared(number))
        else:
            besides = frozenset(i for i in forced.items - choice.items if not _goes_with(way, i, number))
            found.append(Spared(number, choice.items - forced.items, besides, is_draw=forced.worth == choice.worth))
    return tuple(found)


def _goes_with(way: Way, i: int, number: int) -> bool:
    """Whether an item is another, or of the stop or the plant that the other stands for."""
    item, whole = way.items[i], way.items[number]
    of_stop = whole.kind == "arrival" and item.stop == whole.stop
    of_plant = whole.kind == "recognise" and (item.stop, item.taxon) == (whole.stop, whole.taxon)
    return i == number or of_stop or of_plant


def _with(way: Way, allows: int, number: int) -> Choice | None:
    """The best choice that holds an item; where that is an arrival, with one of the plants of the stop, if it has any."""
    item = way.items[number]
    plants = [i for i, other in enumerate(way.items) if other.stop == item.stop and other.kind == "recognise"]
    kept = plants if item.kind == "arrival" and plants else [number]
    return _better(None, filter(None, (choose(way, allows, frozenset({i})) for i in kept)), allows)


@dataclass(frozen=True)
class Next:
    """What would be left out next: the seconds allowed, the choice then, what it loses and what it takes in instead."""

    allows: int
    choice: Choice
    loses: frozenset[int]
    gains: frozenset[int]


def next_out(way: Way, choice: Choice, allows: int, less: int = 60) -> Next:
    """What would be left out next with some seconds less; if that changes nothing, with one second less than the choice takes."""
    for seconds in (max(0, allows - less), max(0, choice.seconds - 1)):
        then = choose(way, seconds) or NOTHING
        if then.items != choice.items or seconds < choice.seconds:
            break
    return Next(seconds, then, choice.items - then.items, then.items - choice.items)
