"""Text that is spoken holds nothing that cannot be read aloud."""

from __future__ import annotations

import re
from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from num2words import num2words

from twayblade.writing.speech import spoken

SAID = re.compile(r"[^\W\d_]|[\s.,;:!?'’‘\"“”()-]")
"""What may be left of a text that is spoken: letters, spaces, and the punctuation of sentences."""
NUMBERS = st.integers(0, 9999)
WORDS = st.sampled_from(["stem", "rays", "hogweed", "leaf", "about", "in"])
UNITS = {"mm": "millimetre", "cm": "centimetre", "m": "metre", "km": "kilometre", "g": "gram", "kg": "kilogram"}


def in_words(number: int) -> str:
    return "nought" if number == 0 else num2words(number).replace(",", "")


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("3–5 cm long", "three to five centimetres long"),
        ("3-5 bracts", "three to five bracts"),
        ("3–5(–7) rays", "three to five, rarely to seven rays"),
        ("2.5 mm", "two point five millimetres"),
        ("10.04 m", "ten point nought four metres"),
        ("from 1 km to 21 km", "from one kilometre to twenty-one kilometres"),
        ("Mentha ×smithiana", "Mentha hybrid smithiana"),
        ("a 10× lens, 3 × 4 mm", "a ten times lens, three by four millimetres"),
        ("hedge-parsley, 5-angled, 20-30-flowered", "hedge-parsley, five-angled, twenty to thirty-flowered"),
        ("in 5 moments", "in five moments"),
        ("a 4 mm wide, 1.5–2 m tall plant", "a four millimetres wide, one point five to two metres tall plant"),
        ("known in 1753, and 7 June 2026", "known in seventeen fifty-three, and the seventh of June twenty twenty-six"),
        ("on 2026-06-07 at 10:05", "on the seventh of June twenty twenty-six at ten oh five"),
        ("the 1990s, the 3rd of 1,500", "the nineteen nineties, the third of one thousand five hundred"),
        ("e.g. 12 seeds/m² at -5 °C", "for example twelve seeds a square metre at minus five degrees Celsius"),
        ("5 km/h, 3+ stems, ½ & 50%", "five kilometres an hour, three or more stems, a half and fifty per cent"),
        (
            "Helosciadium nodiflorum (L.) and Daucus carota L. subsp. sativus",
            "Helosciadium nodiflorum (Linnaeus) and Daucus carota Linnaeus subspecies sativus",
        ),
        ("the stem — hollow — and so on…", "the stem, hollow, and so on"),
    ],
)
def test_numbers_ranges_units_and_signs_are_said_in_words(written: str, said: str) -> None:
    assert spoken(written) == said


@given(WORDS, NUMBERS, st.sampled_from(["-", "–", " – "]), NUMBERS, st.sampled_from(sorted(UNITS)), WORDS)
def test_no_digit_no_unit_and_no_dash_of_a_range_is_left(before: str, low: int, dash: str, high: int, unit: str, after: str) -> None:
    unit_words = UNITS[unit] + ("" if high == 1 else "s")
    assert spoken(f"{before} {low}{dash}{high} {unit} {after}") == f"{before} {in_words(low)} to {in_words(high)} {unit_words} {after}"


@given(st.decimals(Decimal("0.01"), Decimal("999.99"), places=2))
def test_a_decimal_is_said_digit_by_digit(number: Decimal) -> None:
    whole, fraction = str(number).split(".")
    digits = ("nought", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
    assert spoken(f"{number} cm") == " ".join([in_words(int(whole)), "point", *(digits[int(d)] for d in fraction), "centimetres"])


@given(st.text())
def test_nothing_of_any_text_is_left_to_be_spelt_out(text: str) -> None:
    said = spoken(text)
    assert not SAID.sub("", said), said
    assert not re.search(r"\s{2}|\s[.,;]|\.\.", said), said


PIECES = st.sampled_from(
    [
        "3",
        "0",
        "12",
        "007",
        "1820",
        "2.5",
        "1,500",
        "10:30",
        "–",
        "-",
        " ",
        ", ",
        ".",
        "×",
        "°",
        "mm",
        "m",
        "/",
        "²",
        "%",
        "June",
        "leaf",
        "(",
        ")",
        "c.",
        "+",
    ]
)


@given(st.lists(PIECES, max_size=12).map("".join))
def test_saying_again_what_is_spoken_changes_nothing(text: str) -> None:
    said = spoken(text)
    assert not SAID.sub("", said), said
    assert spoken(said) == said


@given(st.lists(WORDS, min_size=1, max_size=20).map(" ".join))
def test_plain_words_stay_as_they_are(text: str) -> None:
    assert spoken(text) == text


def test_nothing_in_the_scripts_of_the_demo_is_left_to_be_spelt_out(demo_scripts: dict[date, dict[str, Any]]) -> None:
    for script in demo_scripts.values():
        for stop in script["stops"]:
            for part in stop["parts"]:
                assert not SAID.sub("", part["text"]), part["text"]
                assert not re.search(r"\s{2}|\s[.,;]|\.\.", part["text"]), part["text"]
