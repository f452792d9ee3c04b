"""The year as a circle of days, and windows on it with usual and outer limits."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

YEAR = 366
"""Days on the circle: that of a leap year, so that 29 February has its place and every date the same day each year."""

WHOLE_YEAR = (1 << YEAR) - 1
"""Every day of the circle, one bit a day."""

MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December")
_LENGTHS = (31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
_STARTS = tuple(sum(_LENGTHS[:m]) for m in range(12))
_THIRDS = {"early": (1, 10), "mid": (11, 20), "late": (21, 31)}
_POINT = re.compile(r"(?:(?P<third>early|mid|late)\s+)?(?:(?P<day>\d{1,2})\s+)?(?P<month>[A-Za-z]+)")
_WINDOW = re.compile(r"(?:\((?P<outer_start>[^()]+?)\s*-\s*\)\s*)?(?P<inner>[^()]+?)(?:\s*\(\s*-\s*(?P<outer_end>[^()]+?)\))?")


class Phase(StrEnum):
    """What can be expected of a stage on a day."""

    NOT_YET = "not-yet"
    POSSIBLE = "possible"
    EXPECTED = "expected"
    OVER = "over"

    @property
    def can_be_seen(self) -> bool:
        """Whether a plant in this stage may be found."""
        return self in (Phase.POSSIBLE, Phase.EXPECTED)


def day_of(when: date) -> int:
    """The day's place on the circle, 0 (1 January) to 365 (31 December)."""
    return _STARTS[when.month - 1] + when.day - 1


def month_and_day(day: int) -> tuple[int, int]:
    """Month (1 to 12) and day of the month of a place on the circle."""
    month = max(m for m in range(12) if _STARTS[m] <= day % YEAR)
    return month + 1, day % YEAR - _STARTS[month] + 1


@dataclass(frozen=True)
class Window:
    """A window of the year: days on the circle, both ends included; it may run over new year.

    `start` to `end` are the usual limits, `outer_start` to `outer_end` the outer ones.
    """

    outer_start: int
    start: int
    end: int
    outer_end: int

    @property
    def is_whole_year(self) -> bool:
        """Whether the usual limits hold the whole year."""
        return self.length == YEAR

    @property
    def length(self) -> int:
        """Days between the usual limits, both included."""
        return (self.end - self.start) % YEAR + 1

    @property
    def middle(self) -> float:
        """The middle of the usual limits, a place on the circle."""
        return (self.start + (self.length - 1) / 2) % YEAR

    def phase(self, day: int) -> Phase:
        """What can be expected on a day. Outside the window the nearer end decides between not yet and over."""
        if _within(day, self.start, self.end):
            return Phase.EXPECTED
        if _within(day, self.outer_start, self.outer_end):
            return Phase.POSSIBLE
        until_start = (self.outer_start - day) % YEAR
        since_end = (day - self.outer_end) % YEAR
        return Phase.NOT_YET if until_start <= since_end else Phase.OVER

    @property
    def seen_days(self) -> int:
        """The days between the outer limits, as bits of the circle."""
        return _days(self.outer_start, self.outer_end)

    @property
    def usual_days(self) -> int:
        """The days between the usual limits, as bits of the circle."""
        return _days(self.start, self.end)

    def shifted(self, days: int) -> Window:
        """The same window turned by some days."""
        return Window(*((d + days) % YEAR for d in (self.outer_start, self.start, self.end, self.outer_end)))


def _days(start: int, end: int) -> int:
    turned = ((1 << (end - start) % YEAR + 1) - 1) << start
    return (turned | turned >> YEAR) & WHOLE_YEAR


def _within(day: int, start: int, end: int) -> bool:
    return (day - start) % YEAR <= (end - start) % YEAR


def _month(text: str) -> int:
    for number, name in enumerate(MONTHS):
        if text.lower() in (name.lower(), name[:3].lower()):
            return number
    raise ValueError(f"no month `{text}`; expected one of January to December")


def _point(text: str, at_end: bool) -> int:
    match = _POINT.fullmatch(text.strip())
    if not match:
        raise ValueError(f"cannot read `{text.strip()}` as a time of the year; expected `late May`, `12 June` or `July`")
    month = _month(match["month"])
    if match["day"]:
        day = int(match["day"])
        if match["third"] or not 1 <= day <= _LENGTHS[month]:
            raise ValueError(f"no such day `{text.strip()}`: {MONTHS[month]} has {_LENGTHS[month]} days")
    else:
        first, last = _THIRDS[match["third"]] if match["third"] else (1, 31)
        day = min(last, _LENGTHS[month]) if at_end else first
    return _STARTS[month] + day - 1


ALL_YEAR = Window(0, 0, YEAR - 1, YEAR - 1)
"""The window of what can be seen on every day."""


def parse_window(text: str) -> Window:
    """Read `(April -) May - June (- mid July)`, `late May`, or `all year`. Raises ValueError with a clause."""
    plain = re.sub(r"\s+", " ", text.replace("–", "-")).strip()
    if plain == "all year":
        return ALL_YEAR
    match = _WINDOW.fullmatch(plain)
    ends = re.split(r"\s*-\s*", match["inner"]) if match else []
    if not match or len(ends) not in (1, 2) or not all(ends):
        raise ValueError(f"cannot read `{text}` as a window of the year; expected `(April -) May - June (- July)`")
    start, end = _point(ends[0], at_end=False), _point(ends[-1], at_end=True)
    outer_start = _point(match["outer_start"], at_end=False) if match["outer_start"] else start
    outer_end = _point(match["outer_end"], at_end=True) if match["outer_end"] else end
    steps = ((start - outer_start) % YEAR, (end - start) % YEAR, (outer_end - end) % YEAR)
    if sum(steps) >= YEAR:
        raise ValueError(f"in `{text}` the limits in brackets do not lie outside the usual ones")
    return Window(outer_start, start, end, outer_end)


def describe_day(day: int) -> str:
    """The part of a month a day lies in: `early May`, `mid June`, `late July`."""
    month, number = month_and_day(day)
    third = next(name for name, (first, last) in _THIRDS.items() if first <= number <= last)
    return f"{third} {MONTHS[month - 1]}"
