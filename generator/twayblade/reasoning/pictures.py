"""Pictures to take on a walk: what must be seen of what is said, gathered so that each set-up of the camera is used once."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum

from twayblade.knowledge.trait import Kind, Means, Trait, View
from twayblade.knowledge.workspace import Workspace


class Distance(StrEnum):
    """How far the camera stands."""

    WHOLE = "the whole plant"
    NEAR = "near enough, by lens and not by foot, to fill the picture"
    CLOSE = "as near as a lens brings it"


class Scale(StrEnum):
    """What in the picture shows the size."""

    NONE = "none"
    PERSON = "a person beside it"
    HAND = "something of known size beside it, not touching"
    BAR = "a scale bar beside it, not touching"


@dataclass(frozen=True)
class ToSee:
    """Something said that must be seen: a trait of a taxon at a stop. other: the taxon it is set against, and where that stands.

    must: whether the walk cannot do without the picture. line: the sentence that is spoken over it.
    """

    stop: str
    taxon: str
    trait: str
    must: bool
    line: str = ""
    other: str | None = None


@dataclass(frozen=True)
class Line:
    """A sentence that stands alone, and what it claims: a trait of one taxon, or of two."""

    text: str
    trait: str
    taxa: tuple[str, ...]


@dataclass(frozen=True)
class SetUp:
    """One setting up of the camera: a plant, an organ, a side and a distance, with everything that is seen from there.

    frames: what must be in the pictures. must: whether one of them is a must. lines: sentences that stand alone, for another
    take. matches: (stop, taxon) of the set-ups it is cut together with: taken from the same side, at the same distance.
    """

    stop: str
    taxon: str
    organ: str
    side: str
    distance: Distance
    scale: Scale
    frames: tuple[str, ...]
    traits: tuple[str, ...]
    must: bool
    lines: tuple[Line, ...]
    matches: tuple[tuple[str, str], ...] = ()

    @property
    def key(self) -> tuple[str, ...]:
        """What makes it one set-up."""
        return (self.stop, self.taxon, self.organ, self.side, self.distance)


def set_ups(workspace: Workspace, wanted: Iterable[ToSee]) -> tuple[SetUp, ...]:
    """The set-ups of a walk, in the order in which they come; at each stop those that must be first.

    A contrast wants both plants from the same side at the same distance: the other one where it was met.
    """
    met: dict[str, str] = {}
    stops: list[str] = []
    found: dict[tuple[str, ...], SetUp] = {}
    for see in wanted:
        stops += [] if see.stop in stops else [see.stop]
        met.setdefault(see.taxon, see.stop)
        own = _set_up(workspace, see, see.taxon, see.stop)
        if see.other is not None:
            there = met.setdefault(see.other, see.stop)
            other = _set_up(workspace, see, see.other, there)
            _gather(found, replace(other, matches=((see.stop, see.taxon),), lines=()))
            own = replace(own, matches=((there, see.other),))
        _gather(found, own)
    places = {key: n for n, key in enumerate(found)}
    return tuple(sorted(found.values(), key=lambda s: (stops.index(s.stop), not s.must, places[s.key])))


def _gather(found: dict[tuple[str, ...], SetUp], more: SetUp) -> None:
    """Add what a set-up shows to the one that shows the same thing from the same place, if there is one."""
    known = found.get(more.key)
    if known is None:
        found[more.key] = more
        return
    order = list(Scale)
    found[more.key] = replace(
        known,
        scale=max(known.scale, more.scale, key=order.index),
        frames=tuple(dict.fromkeys((*known.frames, *more.frames))),
        traits=tuple(dict.fromkeys((*known.traits, *more.traits))),
        must=known.must or more.must,
        lines=tuple(dict.fromkeys((*known.lines, *more.lines))),
        matches=tuple(dict.fromkeys((*known.matches, *more.matches))),
    )


def _set_up(workspace: Workspace, see: ToSee, taxon: str, stop: str) -> SetUp:
    trait = workspace.traits[see.trait]
    view = trait.picture or View(side="the side", frame=trait.subject)
    lines = (Line(see.line, see.trait, (see.taxon, *([see.other] if see.other else []))),) if see.line else ()
    scale = Scale.NONE if workspace.taxa[taxon].hazard_class.forbids_handling and _scale(trait) is not Scale.PERSON else _scale(trait)
    return SetUp(stop, taxon, trait.organ, view.side, _distance(trait), scale, (view.frame,), (see.trait,), see.must, lines)


def _distance(trait: Trait) -> Distance:
    if any(Means.DISTANT_EYE in way.by for way in trait.ways):
        return Distance.WHOLE
    return Distance.NEAR if any(way.by == (Means.CLOSE_EYE,) for way in trait.ways) else Distance.CLOSE


def _scale(trait: Trait) -> Scale:
    if trait.kind is not Kind.MEASURE:
        return Scale.NONE
    if any(Means.DISTANT_EYE in way.by for way in trait.ways):
        return Scale.PERSON
    return Scale.BAR if trait.unit == "mm" else Scale.HAND
