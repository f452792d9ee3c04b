"""The walk of a date within a time allowance, in words: what is kept, what is left out and why, what would go next."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from twayblade.knowledge.workspace import PlannedTrail, Workspace
from twayblade.reasoning.choice import NOTHING, WORTH, WORTH_BARE, WORTH_OPEN, Choice, Item, Next, Spared, Way, choose, next_out, spared
from twayblade.reasoning.light import Light, Stay, light_of
from twayblade.reasoning.lookalikes import Pair
from twayblade.writing.phrases import listed, sentence
from twayblade.writing.script import Part, Script, ScriptStop, clock, write_script

ASSUMED = (
    "The walk keeps to the route, past the stops left out, and ends at the last stop kept; a way back is not counted. "
    "Seconds are those of the script of the whole walk."
)


@dataclass(frozen=True)
class KeptStop:
    """A stop that is kept: its place among the trail's stops, when one comes, the seconds it takes, and its items."""

    number: int
    comes: int
    seconds: int
    items: tuple[int, ...]


@dataclass(frozen=True)
class ChosenWalk:
    """The walk of a date within a time allowance (seconds)."""

    script: Script
    allows: int
    way: Way
    choice: Choice
    spared: tuple[Spared, ...]
    next: Next | None
    stops: tuple[KeptStop, ...]
    light: Light | None

    @property
    def planned(self) -> PlannedTrail:
        """The trail it is a walk of."""
        return self.script.trail

    @property
    def on(self) -> date:
        """Its date."""
        return self.script.on


def choose_walk(
    workspace: Workspace,
    planned: PlannedTrail,
    on: date,
    allows: int | None = None,
    pairs: tuple[Pair, ...] | None = None,
    script: Script | None = None,
) -> ChosenWalk:
    """The walk of a date within some seconds; without them, within what the trail allows. script: that of the date, if there is one."""
    script = script or write_script(workspace, planned, on, pairs)
    allows = script.allows if allows is None else allows
    way = way_of(workspace, script)
    choice = choose(way, allows) or NOTHING
    stops = _kept(script, way, choice)
    then = next_out(way, choice, allows) if choice.items else None
    light = light_of(planned, on, [Stay(s.number, s.comes, s.comes + s.seconds) for s in stops])
    return ChosenWalk(script, allows, way, choice, spared(way, choice, allows), then, stops, light)


def way_of(workspace: Workspace, script: Script) -> Way:
    """What can be chosen of a script. Any part of a plant needs that it is recognised, a tell that the other one was.

    The caution of a plant goes with the plant; that of a harmful plant, or one never assessed, with the stop: one stands beside it
    whether it is spoken of or not.
    """
    items: list[Item] = []
    met: dict[str, int] = {}
    for number, stop in enumerate(script.stops):
        arrival = len(items)
        shows = any(part.kind == "recognise" for part in stop.parts)
        here: dict[str, int] = {}
        for part in _choosable(stop):
            own = here.get(part.taxon or "", arrival)
            bound, needs = None, frozenset[int]()
            if part.kind == "care":
                warns = part.taxon is not None and workspace.taxa[part.taxon].hazard_class.forbids_handling
                bound = arrival if warns else own
            elif part.kind == "move-on":
                bound = arrival
            elif len(items) > arrival:
                needs = frozenset({own, *([met[part.other]] if part.other in met else [])})
            if part.kind == "recognise" and part.taxon:
                here[part.taxon] = met[part.taxon] = len(items)
            items.append(Item(number, part.kind, part.taxon, part.seconds, _worth(part, shows), needs, bound))
    frame = sum(part.seconds for stop in script.stops for part in stop.parts if part.kind in _FRAME)
    return Way(tuple(items), tuple(stop.walk_seconds for stop in script.stops), frame)


_FRAME = ("opening", "closing")
"""The parts that belong to the walk, not to the stop at which they are spoken."""


def _choosable(stop: ScriptStop) -> list[Part]:
    return [part for part in stop.parts if part.kind not in _FRAME]


def _worth(part: Part, shows: bool) -> int:
    if part.kind == "arrival" and not shows:
        return WORTH_BARE
    is_open = part.kind in ("recognise", "tell") and not part.claims and not part.by_author
    return WORTH_OPEN if is_open else WORTH[part.kind]


def _kept(script: Script, way: Way, choice: Choice) -> tuple[KeptStop, ...]:
    """The stops kept: the first holds the opening, and the last the closing in place of its `move-on`."""
    framing = {kind: sum(part.seconds for stop in script.stops for part in stop.parts if part.kind == kind) for kind in _FRAME}
    found, spoken = [], 0
    numbers = choice.stops(way)
    for number in numbers:
        items = tuple(i for i in sorted(choice.items) if way.items[i].stop == number)
        is_last = number == numbers[-1]
        seconds = sum(way.items[i].seconds for i in items if not (is_last and way.items[i].kind == "move-on"))
        seconds += (framing["opening"] if number == numbers[0] else 0) + (framing["closing"] if is_last else 0)
        found.append(KeptStop(number, way.walk_to(number) + spoken, seconds, items))
        spoken += seconds
    return tuple(found)


class ChoiceWords:
    """The words of a chosen walk."""

    def __init__(self, workspace: Workspace, walk: ChosenWalk) -> None:
        self.workspace, self.walk = workspace, walk
        self.parts = [part for stop in walk.script.stops for part in _choosable(stop)]

    def heading(self) -> str:
        """How many stops and parts fit, and how long the walk takes then."""
        walk, trail = self.walk, self.walk.planned.trail
        if not walk.stops:
            return f"Nothing fits into {clock(walk.allows)} minutes."
        stops = "all stops" if len(walk.stops) == len(trail.stops) else f"{len(walk.stops)} of {len(trail.stops)} stops"
        parts = " and all their parts" if not walk.spared else ""
        return f"{clock(walk.choice.seconds)} of {clock(walk.allows)} minutes: {stops}{parts}."

    def kept(self, stop: KeptStop) -> tuple[str, ...]:
        """What is kept at a stop, a line for each plant: `hemlock: recognise, tell from rough chervil, care`."""
        lines: dict[str, list[str]] = {}
        for i in stop.items:
            part = self.parts[i]
            if part.taxon:
                said = part.kind.replace("-", " ") + (f" from {self._name(part.other)}" if part.other else "")
                lines.setdefault(self._name(part.taxon), []).append(said)
        return tuple(f"{name}: {', '.join(said)}" for name, said in lines.items())

    def left_out(self) -> tuple[str, ...]:
        """What is left out, as sentences: the parts that are left out for the same reason together."""
        reasons: dict[str, list[Spared]] = {}
        for out in self.walk.spared:
            reasons.setdefault(self.why(out), []).append(out)
        return tuple(self._left_out(found) for found in reasons.values())

    def _left_out(self, found: Sequence[Spared]) -> str:
        parts = listed(f"{self.part(out.item)} ({clock(self._seconds(out.item))})" for out in found)
        return sentence(f"{parts}: {self.why(found[0], 'it' if len(found) == 1 else 'any of them')}")

    def why(self, out: Spared, it: str = "it") -> str:
        """Why a part is left out, as a clause; it: how the clause speaks of the part."""
        if out.misses:
            return f"there is no telling without {listed(self.named(out.misses))}"
        if not out.instead and not out.is_draw:
            return f"no walk that holds {it} fits into the time"
        besides = f" and bring in {listed(self.named(out.besides))}" if out.besides else ""
        worth = "as much in all, in no less time" if out.is_draw else "less in all"
        return f"to keep {it} would cost {listed(self.named(out.instead)) or 'nothing'}{besides}, and be worth {worth}"

    def next_words(self) -> str:
        """What would be left out next, as a sentence; empty if nothing is kept."""
        after = self.walk.next
        if after is None:
            return ""
        lost, gained = listed(self.named(after.loses)), listed(self.named(after.gains))
        instead = f", and {gained} would come in" if gained else ""
        goes = "everything would go" if not after.choice.items else f"{lost} would go{instead}"
        if after.allows == self.walk.allows - 60:
            return sentence(f"with a minute less {goes}")
        return sentence(f"with a minute less nothing would change; with less than {clock(self.walk.choice.seconds)}, {goes}")

    def part(self, i: int) -> str:
        """A part in words: a stop by its title, a plant by its name."""
        part, stop = self.parts[i], self.walk.way.items[i].stop
        name = self._name(part.taxon)
        words = {
            "arrival": f"stop {stop + 1} ({self.walk.planned.trail.stops[stop].title})",
            "recognise": name,
            "tell": f"telling {name} from {self._name(part.other)}",
            "name": f"the name of {name}",
            "habitat": f"where {name} is found",
            "look-closer": f"a closer look at {name}",
            "forms": f"the forms of {name}",
            "care": f"the caution of {name}",
            "not-found": f"what to look at instead of {name}",
        }
        return words.get(part.kind, part.kind)

    def named(self, items: Iterable[int]) -> Sequence[str]:
        """Several parts in words: of a stop or a plant that is among them as a whole, nothing more is said."""
        found = set(items)
        shown = []
        for i in sorted(found):
            item = self.walk.way.items[i]
            whole = {n for n in found if n != i and self.walk.way.items[n].stop == item.stop}
            in_stop = any(self.walk.way.items[n].kind == "arrival" for n in whole)
            in_plant = any(self.walk.way.items[n].kind == "recognise" and self.walk.way.items[n].taxon == item.taxon for n in whole)
            if not in_stop and not in_plant and item.kind not in ("move-on", "care"):
                shown.append(self.part(i))
        return shown

    def _name(self, taxon: str | None) -> str:
        return self.workspace.taxa[taxon].common_name if taxon else ""

    def _seconds(self, i: int) -> int:
        """The seconds of a part; of a stop or a plant, with all that goes with it."""
        items, item = self.walk.way.items, self.walk.way.items[i]
        if item.kind == "arrival":
            return sum(x.seconds for x in items if x.stop == item.stop)
        if item.kind == "recognise":
            return sum(x.seconds for n, x in enumerate(items) if x.taxon == item.taxon and x.stop == item.stop and n not in self.walk.choice.items)
        return item.seconds

    def shape(self) -> dict[str, Any]:
        """{on, allows_seconds, seconds, stops: [{id, comes, seconds, parts}], left_out: [{stop, part, why}], next}."""
        walk, after = self.walk, self.walk.next
        return {
            "on": walk.on.isoformat(),
            "allows_seconds": walk.allows,
            "seconds": walk.choice.seconds,
            "worth": walk.choice.worth,
            "stops": [
                {"id": self._stop_id(s.number), "comes": s.comes, "seconds": s.seconds, "parts": [self._part_shape(i) for i in s.items]}
                for s in walk.stops
            ],
            "left_out": [{"part": self._part_shape(out.item), "why": self.why(out)} for out in walk.spared],
            "next": after
            and {
                "allows_seconds": after.allows,
                "loses": [self._part_shape(i) for i in sorted(after.loses)],
                "gains": [self._part_shape(i) for i in sorted(after.gains)],
                "text": self.next_words(),
            },
            "assumes": ASSUMED,
        }

    def _stop_id(self, number: int) -> str:
        return self.walk.planned.trail.stops[number].id

    def _part_shape(self, i: int) -> dict[str, Any]:
        part, item = self.parts[i], self.walk.way.items[i]
        return {"stop": self._stop_id(item.stop), "kind": part.kind, "taxon": part.taxon, "other": part.other, "seconds": part.seconds}
