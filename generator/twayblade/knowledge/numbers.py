"""Numbers as floras write them: `(50-)100-200(-250) cm`. Decimals are exact; `?` is a limit that nobody states.

The notation follows the guide for authors of the Flora of China, section 11 (extreme values in parentheses).
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from math import ceil, floor

_NUMBER = r"\d+(?:\.\d+)?"
_BOUND = rf"(?:{_NUMBER}|\?)"
_RANGE = re.compile(
    rf"(?:\(\s*(?P<min>{_BOUND})\s*-\s*\)\s*)?"
    rf"(?P<low>{_BOUND})?\s*(?P<dash>-)?\s*(?P<high>{_BOUND})?"
    rf"(?:\s*\(\s*-\s*(?P<max>{_BOUND})\s*\))?"
    r"(?:\s*(?P<unit>[^\W\d_]+))?"
)
_UP_TO = re.compile(rf"to\s+(?P<high>{_NUMBER})(?:\s*(?P<unit>[^\W\d_]+))?")
_ABOUT = re.compile(rf"(?:ca\.?|about)\s*(?P<value>{_NUMBER})(?:\s*(?P<unit>[^\W\d_]+))?")
_STARTS_LIKE_A_RANGE = re.compile(r"[\s\d(?\-]|to\s+\d|(?:ca\.?|about)\s*\d")
_TENS = {"µm": -6, "um": -6, "mm": -3, "cm": -2, "m": 0, "km": 3, "mg": -3, "g": 0, "kg": 3}
_KIND_OF_UNIT = {unit: "mass" if unit.endswith("g") else "length" for unit in _TENS}


@dataclass(frozen=True)
class Interval:
    """A closed interval; None is no bound on that side."""

    low: Decimal | None
    high: Decimal | None

    def meets(self, other: Interval) -> bool:
        """Whether the two share at least one number."""
        starts_before_end = self.low is None or other.high is None or self.low <= other.high
        ends_after_start = self.high is None or other.low is None or self.high >= other.low
        return starts_before_end and ends_after_start

    def lies_in(self, other: Interval) -> bool:
        """Whether every number of this interval is in the other."""
        low_inside = other.low is None or (self.low is not None and self.low >= other.low)
        high_inside = other.high is None or (self.high is not None and self.high <= other.high)
        return low_inside and high_inside


@dataclass(frozen=True)
class Range:
    """A range with an inner (usual) and an outer part, in one unit.

    `low`, `high` bound the usual values, `outer_low`, `outer_high` all of them; None is unbounded or unknown.
    """

    low: Decimal | None
    high: Decimal | None
    outer_low: Decimal | None
    outer_high: Decimal | None
    unit: str = ""

    @property
    def inner(self) -> Interval:
        """The usual values."""
        return Interval(self.low, self.high)

    @property
    def outer(self) -> Interval:
        """All values, extremes included."""
        return Interval(self.outer_low, self.outer_high)

    @property
    def has_extremes(self) -> bool:
        """Whether anything outside the usual values is possible."""
        return self.inner != self.outer

    def bounds(self) -> tuple[Decimal, ...]:
        """The bounds that are known."""
        return tuple(b for b in (self.outer_low, self.low, self.high, self.outer_high) if b is not None)

    def __str__(self) -> str:
        return _written(self)


def _text(number: Decimal | None) -> str:
    return "?" if number is None else f"{number.normalize():f}"


def _written(span: Range) -> str:
    inner = _text(span.low) if span.low == span.high else f"{_text(span.low)}-{_text(span.high)}"
    before = f"({_text(span.outer_low)}-)" if span.outer_low != span.low else ""
    after = f"(-{_text(span.outer_high)})" if span.outer_high != span.high else ""
    return f"{before}{inner}{after}" + (f" {span.unit}" if span.unit else "")


def looks_like_range(text: str) -> bool:
    """Whether a value's text is meant as a number rather than as a state's name (`3-forked` is a state)."""
    plain = text.replace("–", "-").strip()
    if _RANGE.fullmatch(plain) or _UP_TO.fullmatch(plain) or _ABOUT.fullmatch(plain):
        return any(c.isdigit() or c == "?" for c in plain)
    return bool(_STARTS_LIKE_A_RANGE.match(plain)) and not re.match(r"\d+-[^\W\d]", plain)


def _bound(text: str | None) -> Decimal | None:
    return None if text in (None, "?") else Decimal(text or "")


def parse_range(text: str) -> Range:
    """Read a range. Raises ValueError with a clause that says what is wrong and how to mend it."""
    plain = text.replace("–", "-").replace("−", "-").strip()
    if "×" in plain or re.search(r"\d\s*x\s*\d", plain):
        raise ValueError(f"`{text}` gives two measures at once; write length and width as two traits")
    if about := _ABOUT.fullmatch(plain):
        value = Decimal(about["value"])
        return Range(value, value, None, None, about["unit"] or "")
    if up_to := _UP_TO.fullmatch(plain):
        high = Decimal(up_to["high"])
        return Range(None, high, None, high, up_to["unit"] or "")
    match = _RANGE.fullmatch(plain)
    if not match or not any(c.isdigit() for c in plain):
        raise ValueError(f"cannot read `{text}` as a range; expected `(min-)low-high(-max) unit`, as in `(50-)100-200(-250) cm`")
    return _checked(text, match)


def _checked(text: str, match: re.Match[str]) -> Range:
    low, high = _bound(match["low"]), _bound(match["high"])
    if not match["dash"]:
        if match["high"] is not None:
            raise ValueError(f"`{text}` has two numbers without a dash between them")
        high = low
    if low is not None and high is not None and high < low:
        raise ValueError(f"`{text}` runs backwards: {_text(high)} is less than {_text(low)}")
    outer_low = _bound(match["min"]) if match["min"] else low
    outer_high = _bound(match["max"]) if match["max"] else high
    if match["min"] not in (None, "?") and (low is None or (outer_low is not None and outer_low >= low)):
        raise ValueError(f"in `{text}` the lowest value `{match['min']}` must be less than the usual low end")
    if match["max"] not in (None, "?") and (high is None or (outer_high is not None and outer_high <= high)):
        raise ValueError(f"in `{text}` the highest value `{match['max']}` must be more than the usual high end")
    return Range(low, high, outer_low, outer_high, match["unit"] or "")


def convert(span: Range, unit: str) -> Range:
    """The range in another unit, exactly. Raises ValueError if the units measure different things."""
    if span.unit == unit:
        return span
    if not span.unit:
        raise ValueError(f"`{span}` has no unit; expected {unit}")
    if _KIND_OF_UNIT.get(span.unit) is None or _KIND_OF_UNIT.get(span.unit) != _KIND_OF_UNIT.get(unit):
        raise ValueError(f"`{span}` is in `{span.unit}`; expected {unit or 'a plain number without unit'}")
    power = _TENS[span.unit] - _TENS[unit]

    def scaled(number: Decimal | None) -> Decimal | None:
        return None if number is None else number.scaleb(power)

    return Range(scaled(span.low), scaled(span.high), scaled(span.outer_low), scaled(span.outer_high), unit)


def is_length(unit: str) -> bool:
    """Whether a unit is one of length."""
    return _KIND_OF_UNIT.get(unit) == "length"


def in_millimetres(length: Decimal, unit: str) -> Decimal:
    """A length in mm, exactly. Raises KeyError if the unit is unknown."""
    return length.scaleb(_TENS[unit] - _TENS["mm"])


@dataclass(frozen=True)
class Numbers:
    """A set of numbers: a union of closed intervals, of whole numbers only where `whole` is set."""

    intervals: frozenset[Interval]
    whole: bool = False

    @staticmethod
    def of(intervals: list[Interval], whole: bool = False) -> Numbers:
        """The union of intervals; those that touch or (whole numbers) follow one another are joined."""
        if whole:
            intervals = [_whole(i) for i in intervals]
            intervals = [i for i in intervals if i.low is None or i.high is None or i.low <= i.high]
        return Numbers(frozenset(_joined(intervals, whole)), whole)

    def __bool__(self) -> bool:
        return bool(self.intervals)

    def meets(self, other: Numbers) -> bool:
        """Whether the two sets share a number. Measures that touch share one."""
        return any(a.meets(b) for a in self.intervals for b in other.intervals)

    def lies_in(self, other: Numbers) -> bool:
        """Whether every number is also in the other set."""
        return all(any(a.lies_in(b) for b in other.intervals) for a in self.intervals)

    def union(self, other: Numbers) -> Numbers:
        """All numbers of both sets."""
        return Numbers.of([*self.intervals, *other.intervals], self.whole)

    def shared(self, other: Numbers) -> Numbers:
        """The numbers that are in both sets."""
        return Numbers.of([both for a in self.intervals for b in other.intervals if (both := _both(a, b))], self.whole)

    def in_order(self) -> list[Interval]:
        """The intervals from the lowest to the highest."""
        return _sorted(self.intervals)

    def hull(self) -> Interval:
        """The smallest interval that holds the whole set."""
        lows, highs = [i.low for i in self.intervals], [i.high for i in self.intervals]
        low = None if None in lows else min(b for b in lows if b is not None)
        high = None if None in highs else max(b for b in highs if b is not None)
        return Interval(low, high)


def _both(a: Interval, b: Interval) -> Interval | None:
    lows, highs = [x for x in (a.low, b.low) if x is not None], [x for x in (a.high, b.high) if x is not None]
    return Interval(max(lows, default=None), min(highs, default=None)) if a.meets(b) else None


def _whole(interval: Interval) -> Interval:
    low = None if interval.low is None else Decimal(ceil(interval.low))
    high = None if interval.high is None else Decimal(floor(interval.high))
    return Interval(low, high)


def _sorted(intervals: Iterable[Interval]) -> list[Interval]:
    return sorted(intervals, key=lambda i: (i.low is not None, i.low or Decimal(0)))


def _joined(intervals: list[Interval], whole: bool) -> list[Interval]:
    step = Decimal(1 if whole else 0)
    joined: list[Interval] = []
    for interval in _sorted(intervals):
        last = joined[-1] if joined else None
        if last and (last.high is None or interval.low is None or interval.low <= last.high + step):
            high = None if last.high is None or interval.high is None else max(last.high, interval.high)
            joined[-1] = Interval(last.low, high)
        else:
            joined.append(interval)
    return joined
