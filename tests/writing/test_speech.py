"""Text that is spoken holds nothing that cannot be read aloud, and is counted as it is said."""

from __future__ import annotations

import re
from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from twayblade.writing.speech import count_words, spoken

SYMBOLS = re.compile(r"[–—×&%°±≈<>/=_#*\[\]{}|~^+▲●○]")
UNITS = re.compile(r"\d\s*(mm|cm|m|km|g|kg)\b")
NUMBERS = st.integers(0, 9999)
WORDS = st.sampled_from(["stem", "rays", "hogweed", "leaf", "about", "in"])


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("3–5 cm long", "3 to 5 centimetres long"),
        ("3-5 bracts", "3 to 5 bracts"),
        ("2.5 mm", "2 point five millimetres"),
        ("10.04 m", "10 point nought four metres"),
        ("from 1 km to 21 km", "from 1 kilometre to 21 kilometres"),
        ("Mentha ×smithiana", "Mentha hybrid smithiana"),
        ("hedge-parsley", "hedge-parsley"),
        ("in 5 moments", "in 5 moments"),
        ("a 4 mm wide, 1.5–2 m tall plant", "a 4 millimetres wide, 1 point five to 2 metres tall plant"),
    ],
)
def test_numbers_ranges_and_units_are_said_in_words(written: str, said: str) -> None:
    assert spoken(written) == said


@given(WORDS, NUMBERS, st.sampled_from(["-", "–", " – "]), NUMBERS, st.sampled_from(["mm", "cm", "m", "km", "g", "kg"]), WORDS)
def test_no_unit_and_no_dash_of_a_range_is_left(before: str, low: int, dash: str, high: int, unit: str, after: str) -> None:
    said = spoken(f"{before} {low}{dash}{high} {unit} {after}")
    assert re.fullmatch(rf"{before} {low} to {high} \w+ {after}", said)
    assert not UNITS.search(said)


@given(st.decimals(Decimal("0.01"), Decimal("999.99"), places=2))
def test_a_decimal_is_said_digit_by_digit(number: Decimal) -> None:
    whole, fraction = str(number).split(".")
    assert spoken(f"{number} cm").split() == [whole, "point", *spoken_digits(fraction), "centimetres"]


def spoken_digits(digits: str) -> list[str]:
    return [("nought", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")[int(d)] for d in digits]


@given(st.lists(WORDS, min_size=1, max_size=20))
def test_saying_again_what_is_spoken_changes_nothing_and_each_word_counts_once(words: list[str]) -> None:
    text = " ".join(words)
    assert spoken(spoken(text)) == spoken(text)
    assert count_words(text) == len(words)


def test_words_are_counted_as_they_are_said() -> None:
    assert count_words("2.5–4 mm long") == len(["two", "point", "five", "to", "four", "millimetres", "long"])
    assert count_words("upright hedge-parsley, and cow parsley's leaf") == 6


def test_nothing_in_the_scripts_of_the_demo_is_left_to_be_spelt_out(demo_scripts: dict[date, dict[str, Any]]) -> None:
    for script in demo_scripts.values():
        for stop in script["stops"]:
            for part in stop["parts"]:
                assert not SYMBOLS.search(part["text"]), part["text"]
                assert not UNITS.search(part["text"]), part["text"]
                assert not re.search(r"\d[-.]\d", part["text"]), part["text"]
                assert not re.search(r"\s{2}|\s[.,;]|\.\.", part["text"]), part["text"]
