"""Windows of the year as days on a circle, read a second time. Nothing of twayblade is imported."""

from __future__ import annotations

import re

MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"]
LENGTHS = (31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
YEAR = 366


def window(text: str) -> tuple[int, ...]:
    """The four limits of a window of the year as days."""
    if text == "all year":
        return (0, 0, YEAR - 1, YEAR - 1)
    m = re.fullmatch(r"(?:\((.+?) *-\) *)?([^()]+?)(?: *\(- *([^()]+)\))?", text.strip())
    if not m:
        raise ValueError(text)
    ends = [e.strip() for e in m[2].split("-")]
    start, end = day(ends[0], False), day(ends[-1], True)
    first, last = day(m[1], False) if m[1] else start, day(m[3], True) if m[3] else end
    if (start - first) % YEAR + (end - start) % YEAR + (last - end) % YEAR >= YEAR:
        raise ValueError(text)
    return (first, start, end, last)


def day(text: str, at_end: bool) -> int:
    """The day of `late May`, `12 June` or `July`."""
    m = re.fullmatch(r"(?:(early|mid|late) )?(?:(\d+) )?([A-Za-z]+)", text.strip())
    month = MONTHS.index(m[3].lower()[:3]) if m and m[3].lower()[:3] in MONTHS else -1
    if not m or month < 0 or (m[2] and not 1 <= int(m[2]) <= LENGTHS[month]):
        raise ValueError(text)
    first, last = {"early": (1, 10), "mid": (11, 20), "late": (21, 31), None: (1, 31)}[m[1]]
    return sum(LENGTHS[:month]) + (int(m[2]) if m[2] else min(last, LENGTHS[month]) if at_end else first) - 1
