"""Text as it is spoken: no symbol is left to be read aloud, and words are counted as they are said."""

from __future__ import annotations

import re

_UNITS = {"mm": "millimetre", "cm": "centimetre", "km": "kilometre", "m": "metre", "g": "gram", "kg": "kilogram"}
_RANGE = re.compile(r"(?<=\d)\s*[–-]\s*(?=\d)")
_UNIT = re.compile(r"(?P<number>\d+(?:\.\d+)?)\s*(?P<unit>mm|cm|km|kg|m|g)\b")
_DECIMAL = re.compile(r"(\d+)\.(\d+)")
_DIGITS = ("nought", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")


def spoken(text: str) -> str:
    """The text with ranges, decimals and units in words."""
    text = _RANGE.sub(" to ", text)
    text = _UNIT.sub(lambda m: f"{m['number']} {_UNITS[m['unit']]}{'' if m['number'] == '1' else 's'}", text)
    text = _DECIMAL.sub(lambda m: f"{m[1]} point {' '.join(_DIGITS[int(d)] for d in m[2])}", text)
    return re.sub(r"\s+", " ", text.replace("×", "hybrid ").replace("&", "and").replace("%", " per cent")).strip()


def count_words(text: str) -> int:
    """How many words are said; a number counts as one."""
    return len(re.findall(r"[^\W_]+(?:['’\-][^\W_]+)*", spoken(text)))
