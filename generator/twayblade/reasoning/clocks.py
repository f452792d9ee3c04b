"""Three clocks of a walk that is filmed: the film's running time, the time on site, the walking; each with what to cut if it runs over."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from types import MappingProxyType

from twayblade.knowledge.trail import Pace, Trail
from twayblade.reasoning.choice import WORTH
from twayblade.reasoning.times import whole

RANGES: Mapping[str, tuple[Decimal, Decimal]] = MappingProxyType(
    {
        "speech": (Decimal("0.875"), Decimal("1.2")),
        "calibrated speech": (Decimal("0.9"), Decimal("1.1")),
        "looking": (Decimal("0.75"), Decimal("1.5")),
        "gathering": (Decimal("0.5"), Decimal(2)),
        "walking": (Decimal("0.85"), Decimal("1.25")),
        "set-ups": (Decimal("0.5"), Decimal(2)),
        "second takes": (Decimal(0), Decimal(2)),
        "waiting": (Decimal(0), Decimal(3)),
    }
)
"""The low and the high of what takes time, as shares of the likely (project defaults). Speech: single half-minutes of a walk told freely
run from 160 down to 85 words a minute about 120 (common practice, no source), 0.75 to 1.4 of the time; over a whole walk they even out,
by half at the least. A calibrated voice: its own text is one sample, so a tenth either way."""

MAY_GO = frozenset({"habitat", "name", "look-closer", "forms", "tell"})
"""Kinds of parts that may be cut one by one: least worth for its seconds first, by the table of choice.py. What shows a plant goes
only with its stop; care, and what tells a plant from one that can harm, never goes alone."""


@dataclass(frozen=True)
class Span:
    """Seconds: low, likely, high."""

    low: Decimal
    likely: Decimal
    high: Decimal

    def __add__(self, other: Span) -> Span:
        return Span(self.low + other.low, self.likely + other.likely, self.high + other.high)


def span(likely: Decimal, what: str) -> Span:
    """The span of something that takes time, by its range."""
    low, high = RANGES[what]
    return Span(likely * low, likely, likely * high)


@dataclass(frozen=True)
class Timed:
    """A part of a stop with its seconds of speech, looking and gathering.

    may_go: whether it may be cut alone, as far as its kind allows.
    """

    stop: str
    kind: str
    taxon: str | None
    speech: Decimal
    looking: Decimal = Decimal(0)
    gathering: Decimal = Decimal(0)
    may_go: bool = True

    @property
    def filmed(self) -> Decimal:
        """Its seconds in the film."""
        return self.speech + self.looking

    @property
    def worth_per_second(self) -> Decimal:
        """What it is worth for the time it takes."""
        return WORTH[self.kind] / self.filmed if self.filmed else Decimal("Infinity")


@dataclass(frozen=True)
class Cut:
    """Something to leave out, and the seconds that saves: a part of a stop, or (kind `stop`) the whole stop."""

    stop: str
    kind: str
    taxon: str | None
    seconds: int


@dataclass(frozen=True)
class Clock:
    """One clock, in seconds. made_of: its parts by name. allows: none, if no allowance is given. cuts: what to leave out first."""

    low: int
    likely: int
    high: int
    made_of: tuple[tuple[str, Span], ...]
    allows: int | None = None
    cuts: tuple[Cut, ...] = ()

    @property
    def over(self) -> int:
        """By how much the likely time passes the allowance; 0 if it does not."""
        return max(0, self.likely - self.allows) if self.allows is not None else 0

    @property
    def may_pass(self) -> bool:
        """Whether only the high passes the allowance."""
        return self.allows is not None and self.likely <= self.allows < self.high

    @property
    def cuts_suffice(self) -> bool:
        """Whether its cuts bring it within its allowance."""
        return sum(cut.seconds for cut in self.cuts) >= self.over


@dataclass(frozen=True)
class Clocks:
    """The three clocks of a walk. set_ups: how often the camera is set up anew."""

    film: Clock
    on_site: Clock
    on_foot: Clock
    set_ups: int

    @property
    def named(self) -> tuple[tuple[str, Clock], ...]:
        """Each with its name."""
        return (("film", self.film), ("on site", self.on_site), ("on foot", self.on_foot))


def bounds_of_speech(pace: Pace) -> tuple[Decimal, Decimal]:
    """The low and the high of a voice, as shares of the likely."""
    return RANGES["calibrated speech" if pace.calibration else "speech"]


def clocks(trail: Trail, parts: Sequence[Timed], legs: Sequence[tuple[str, Decimal]], set_ups: int) -> Clocks:
    """The clocks of a walk.

    parts: in order. legs: the seconds of walking to each stop, in order, with the stop's id. set_ups: number of times the camera is set up.
    """
    pace = trail.pace
    speech = span(sum((p.speech for p in parts), Decimal(0)), "calibrated speech" if pace.calibration else "speech")
    looking = span(sum((p.looking for p in parts), Decimal(0)), "looking")
    walking = span(sum((seconds for _, seconds in legs), Decimal(0)), "walking")
    film = speech + looking
    takes, waits = pace.second_takes / 100, pace.waiting / 100
    site = {
        "film": film,
        "set-ups": span(set_ups * pace.set_up, "set-ups"),
        "second takes": span(film.likely * takes, "second takes"),
        "waiting": span(film.likely * waits, "waiting"),
        "gathering": span(sum((p.gathering for p in parts), Decimal(0)), "gathering"),
        "walking": walking,
    }
    filmed = _clock({"speech": speech, "looking": looking}, trail.film)
    on_site = _clock(site, trail.on_site)
    on_foot = _clock({"walking": walking}, trail.on_foot)
    return Clocks(
        replace(filmed, cuts=cut_first(parts, filmed.over)),
        replace(on_site, cuts=cut_first(parts, on_site.over, 1 + takes + waits)),
        replace(on_foot, cuts=_last_stops(legs, on_foot.over)),
        set_ups,
    )


def cut_first(parts: Sequence[Timed], over: int, weight: Decimal = Decimal(1)) -> tuple[Cut, ...]:
    """Parts to cut, least worth for its seconds first, until so many seconds are saved or none is left that may go.

    weight: seconds that a second of film takes.
    """
    ranked = sorted((p for p in parts if p.may_go and p.kind in MAY_GO and p.filmed), key=lambda part: part.worth_per_second)
    found: list[Cut] = []
    for part in ranked:
        if sum(cut.seconds for cut in found) >= over:
            break
        found.append(Cut(part.stop, part.kind, part.taxon, whole(part.filmed * weight)))
    return tuple(found)


def _last_stops(legs: Sequence[tuple[str, Decimal]], over: int) -> tuple[Cut, ...]:
    """Only the end of a way can be cut, since who leaves out a stop on the way still passes it. The first stop stays."""
    found: list[Cut] = []
    for stop, seconds in reversed(legs[1:]):
        if sum(cut.seconds for cut in found) >= over:
            break
        found.append(Cut(stop, "stop", None, whole(seconds)))
    return tuple(found)


def _clock(made_of: Mapping[str, Span], minutes: Decimal | None) -> Clock:
    total = sum(made_of.values(), Span(Decimal(0), Decimal(0), Decimal(0)))
    allows = whole(minutes * 60) if minutes is not None else None
    return Clock(whole(total.low), whole(total.likely), whole(total.high), tuple(made_of.items()), allows)
