"""The notation of numbers: Flora of China guide, section 11, and what this project adds to it."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from twayblade.knowledge.numbers import Interval, Numbers, convert, parse_range


@pytest.mark.parametrize(
    ("text", "outer_low", "low", "high", "outer_high"),
    [
        ("(2–)3–5(–8)", 2, 3, 5, 8),  # Flora of China guide, section 11: extremes in parentheses
        ("3–5(–7)", 3, 3, 5, 7),
        ("(1–)2", 1, 2, 2, 2),
        ("ca. 10", None, 10, 10, None),
        ("to 2 mm", None, None, 2, 2),
        ("(50-)100-200(-250) cm", 50, 100, 200, 250),
        ("-2(-?)", None, None, 2, None),
        ("3-?", 3, 3, None, None),
        ("0(-2)", 0, 0, 0, 2),
        ("5", 5, 5, 5, 5),
    ],
)
def test_ranges_as_floras_write_them(text: str, outer_low: int | None, low: int | None, high: int | None, outer_high: int | None) -> None:
    span = parse_range(text)
    assert (span.outer_low, span.low, span.high, span.outer_high) == (outer_low, low, high, outer_high)


@pytest.mark.parametrize("text", ["5-3", "(4-)3-5", "3-5(-4)", "(3-)3-5", "3-5(-5)", "five", "3 5", "1.5–2 × 0.5–1 mm", "?", "", "(-8)"])
def test_what_cannot_be_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="`"):
        parse_range(text)


def test_decimals_stay_exact_through_units() -> None:
    assert convert(parse_range("0.1-0.3 cm"), "mm").bounds() == (Decimal(1), Decimal(1), Decimal(3), Decimal(3))
    with pytest.raises(ValueError, match="expected mm"):
        convert(parse_range("1-2 kg"), "mm")
    with pytest.raises(ValueError, match="no unit"):
        convert(parse_range("1-2"), "mm")


BOUNDS = st.integers(0, 30)
INTERVALS = st.tuples(BOUNDS, BOUNDS).map(lambda b: Interval(Decimal(min(b)), Decimal(max(b))))
SETS = st.lists(INTERVALS, max_size=4)


def _counted(intervals: list[Interval]) -> set[int]:
    return {n for i in intervals for n in range(int(i.low or 0), int(i.high or 0) + 1)}


@given(SETS, SETS)
def test_sets_of_whole_numbers_behave_as_sets(a: list[Interval], b: list[Interval]) -> None:
    one, two = Numbers.of(a, whole=True), Numbers.of(b, whole=True)
    assert one.meets(two) == bool(_counted(a) & _counted(b))
    assert one.lies_in(two) == (_counted(a) <= _counted(b))
    assert one.union(two) == Numbers.of([*a, *b], whole=True)


@given(SETS)
def test_a_set_written_twice_is_one_set(a: list[Interval]) -> None:
    assert Numbers.of([*a, *reversed(a)]) == Numbers.of(a)
