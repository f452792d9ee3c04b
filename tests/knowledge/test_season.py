"""Windows of the year and their notation."""

from __future__ import annotations

from datetime import date

import pytest

from twayblade.knowledge.season import YEAR, day_of, parse_window


def day(month: int, number: int) -> int:
    return day_of(date(2024, month, number))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("late May - July", (day(5, 21), day(5, 21), day(7, 31), day(7, 31))),
        ("(April -) May - June (- mid July)", (day(4, 1), day(5, 1), day(6, 30), day(7, 20))),
        ("July", (day(7, 1), day(7, 1), day(7, 31), day(7, 31))),
        ("12 June - 3 September", (day(6, 12), day(6, 12), day(9, 3), day(9, 3))),
        ("November - February", (day(11, 1), day(11, 1), day(2, 29), day(2, 29))),
        ("all year", (0, 0, YEAR - 1, YEAR - 1)),
    ],
)
def test_windows_as_they_are_written(text: str, expected: tuple[int, int, int, int]) -> None:
    window = parse_window(text)
    assert (window.outer_start, window.start, window.end, window.outer_end) == expected


@pytest.mark.parametrize("text", ["31 June", "30 February - May", "Smarch", "May - - June", "(June -) May - June", "", "May to June", "(May) June"])
def test_impossible_windows_are_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"\w"):
        parse_window(text)


def test_a_window_over_new_year_includes_january_and_not_june() -> None:
    """CHECKS of circular windows: November to February includes January, not June."""
    window = parse_window("November - February")
    assert window.phase(day(1, 15)).can_be_seen
    assert not window.phase(day(6, 15)).can_be_seen


def test_the_middle_runs_along_the_circle() -> None:
    """Circular mean of the months 11, 12, 1, 2, 3 is January, not June (StackOverflow 66756497, recomputed)."""
    middle = parse_window("November - March").middle
    assert day(1, 10) <= middle <= day(1, 20)
