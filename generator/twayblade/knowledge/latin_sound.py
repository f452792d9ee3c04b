"""How the words of scientific names are said: their syllables, and which of them takes the weight.

The rules are those of botanical Latin (Stearn, Botanical Latin, as others restate them). The weight lies on the last syllable but
one if that is heavy, else on the one before it; of two syllables on the first. A syllable is heavy if its vowel is long, if it is a
diphthong, or if two consonants, x or z close it; a stop before l or r closes nothing. How long a vowel is cannot be read off the
spelling, so where that decides and is not given, nothing is said.
"""

from __future__ import annotations

import re
from itertools import pairwise
from typing import Literal

Length = Literal["long", "short"]

SOUNDS = re.compile(r"ae|oe|au|eu(?![sm]$)|(?<=q)u[aeio]|(?<=ng)u[aeio]|^y[aeiou]|[aeiouy]")
"""What sounds in a syllable: every vowel, and only these stand together (as in Stearn; from memory)."""

_DIPHTHONGS = ("ae", "oe", "au", "eu")
_CONSONANTS = re.compile(r"[cprt]h|qu?|[^\W\d_]")
"""Letters that stand for one consonant: ch, ph, rh, th."""
_STOPS = frozenset({"b", "c", "d", "f", "g", "p", "t", "ch", "ph", "th"})
_PLAIN = str.maketrans("äëïöü", "aeiou") | {"æ": "ae", "œ": "oe"}


def said(word: str, last_but_one: Length | None = None) -> str | None:
    """A respelling in syllables, the one that takes the weight in capitals: `ma-cu-LA-tum`. None where that is not settled.

    last_but_one: the quantity of the last syllable but one, if it is known. Of a word with hyphens it is that of its last piece.
    """
    *firsts, last = word.removeprefix("×").split("-")
    found = [*(_said(piece, None) for piece in firsts), _said(last, last_but_one)]
    return "-".join(piece for piece in found if piece) if all(found) else None


def _said(word: str, last_but_one: Length | None) -> str | None:
    found = syllables(word)
    place = _weight(found, last_but_one)
    return "-".join(s.upper() if n == place else s for n, s in enumerate(found)) if place is not None else None


def _weight(found: tuple[str, ...], last_but_one: Length | None) -> int | None:
    """Which syllable takes the weight, by its place; None where the quantity decides and is not known."""
    if len(found) <= 2:
        return 0 if found else None
    closed = not re.search(r"[aeiouy]$", found[-2]) or found[-1].startswith("z")
    if closed or found[-2].endswith(_DIPHTHONGS) or last_but_one == "long":
        return len(found) - 2
    return len(found) - 3 if last_but_one == "short" else None


def syllables(word: str) -> tuple[str, ...]:
    """The syllables of a Latin word, in small letters. Dots on a vowel part it from the one before."""
    text = re.sub("(?<=[aeiou])([äëïöü])", r"|\1", word.lower()).translate(_PLAIN)
    sounds = [match.span() for match in SOUNDS.finditer(text)]
    cuts = [start + _opens_at(text[start:end]) for (_, start), (end, _) in pairwise(sounds)]
    return tuple(text[a:b].replace("|", "") for a, b in zip([0, *cuts], [*cuts, len(text)], strict=True)) if sounds else ()


def _opens_at(between: str) -> int:
    """Where, among the consonants between two sounds, the second syllable begins."""
    units = [(match.start(), match[0]) for match in _CONSONANTS.finditer(between)]
    if not units or units[-1][1] == "x":
        return len(between)
    if len(units) > 1 and units[-1][1] in ("l", "r") and units[-2][1] in _STOPS:
        return units[-2][0]
    return units[-1][0]
