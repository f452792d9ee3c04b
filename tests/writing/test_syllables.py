"""Syllables are counted by rule, and texts are as long as their syllables and pauses. Against a dictionary: `tests/outside/test_syllables.py`."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from twayblade.reasoning.times import Length
from twayblade.writing.syllables import length, syllables

ENGLISH = "leaf stem hog-weed um-bel pars-ley flo-wer hem-lock bran-ches rac-es leaves shaped dot-ted ap-ple me-tre loose-strife ev-ery-where be-ing"
LATIN = "Dau-cus Oe-nan-the Ae-go-po-di-um Chae-ro-phyl-lum He-ra-cle-um Lyth-rum lu-te-us a-qua-ti-ca Myr-rhis sil-ves-tris a-ë-re-a u-li-gi-no-sum"


@pytest.mark.parametrize("parted", ENGLISH.split())
def test_english_words_have_the_syllables_that_are_said(parted: str) -> None:
    assert syllables(parted.replace("-", "")) == parted.count("-") + 1


@pytest.mark.parametrize("parted", LATIN.split())
def test_in_latin_every_vowel_sounds_but_for_the_diphthongs(parted: str) -> None:
    """Parted by hand after the rule in Stearn, Botanical Latin, that ae, oe, au and eu are one vowel (from memory)."""
    assert syllables(parted.replace("-", ""), latin=True) == parted.count("-") + 1


@pytest.mark.parametrize(
    ("word", "count"), [("hedge's", 2), ("parsley's", 2), ("didn't", 2), ("won’t", 1), ("UK", 2), ("WWF", 7), ("café", 2), ("naïve", 2)]
)
def test_endings_capitals_and_dots_count_as_they_are_said(word: str, count: int) -> None:
    assert syllables(word) == count


@given(st.text(st.characters(categories=["L"]), min_size=1))
def test_every_word_has_a_syllable(word: str) -> None:
    assert syllables(word) >= 1
    assert syllables(word, latin=True) >= 1


def test_a_text_is_as_long_as_its_syllables_and_its_pauses() -> None:
    said = "Here is Daucus, the carrot (look at it): it is white; is it not? Yes."
    assert length(said, {"daucus"}) == Length(17, 48, commas=2, breaks=2, ends=2)


@given(st.text(), st.text())
def test_more_text_is_never_shorter(first: str, second: str) -> None:
    assert length(f"{first} {second}").units >= max(length(first).units, length(second).units)
