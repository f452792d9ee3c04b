"""Text as it is spoken: no digit, sign or abbreviation is left to be read aloud."""

from __future__ import annotations

import re
from unicodedata import category, normalize

from twayblade.writing.numerals import dates_said, numbers_said

_UNITS = {
    "mm": "millimetre", "cm": "centimetre", "km": "kilometre", "m": "metre", "µm": "micrometre", "ha": "hectare", "mg": "milligram",
    "kg": "kilogram", "g": "gram", "ml": "millilitre", "min": "minute",
}  # fmt: skip
_SET_APART = {"s": "second", "h": "hour", "l": "litre"}
"""Units that only stand for themselves after a space: 1990s are no seconds."""
_SHORT = {
    r"e\.\s?g\.": "for example", r"i\.\s?e\.": "that is", r"etc\.": "and so on", r"approx\.": "about", r"vs\.": "against",
    r"(?:subsp|ssp)\.": "subspecies", r"var\.": "variety", r"cf\.": "compare", r"spp?\.": "species", r"(?:ca|c)\.(?=\s*\d)": "about",
    r"no\.(?=\s*\d)": "number", r"(?<=[a-z] )f\.(?= [a-z])": "form", r"(?:(?<=[a-z] )|(?<=[a-z] \())L\.": "Linnaeus", r"and/or\b": "or",
}  # fmt: skip
_SIGNS = {
    "&": "and", "%": "per cent", "±": "plus or minus", "≈": "about", "~": "about", "<": "less than", ">": "more than", "=": "equals",
    "≤": "at most", "≥": "at least", "+": "plus", "/": "or", "°": "degrees", "♀": "female", "♂": "male", "×": "hybrid", "²": "squared",
    "³": "cubed", "½": "a half", "¼": "a quarter", "¾": "three quarters", "£": "pounds", "€": "euros", "$": "dollars", "→": "to",
}  # fmt: skip
_PUNCTUATION = ".,;:!?'’‘\"“”()-"
_DASHES = "–—−"
_KNOWN = frozenset((*_PUNCTUATION, *_DASHES, "…", *_SIGNS))
_SIGN = re.compile("|".join(map(re.escape, _SIGNS)))
_POWERS = {"²": "square ", "³": "cubic "}
_EACH = re.compile(rf"(?<=\w)/({'|'.join(_UNITS)})([²³])?(?!\w)")
_ALONE = re.compile(r"(?<![^\W²³])(mm|cm|km|µm|mg|kg|ml)([²³])?(?!\w)")
_NUMBER = r"(?P<number>\d+(?:[.,]\d+)*)"
_QUANTITY = re.compile(rf"{_NUMBER}(?:\s*(?P<near>{'|'.join(_UNITS)})|\s+(?P<apart>[shl]))(?P<power>[²³])?(?:/(?P<per>h|s|min|ha|m))?(?!\w)")


def spoken(text: str) -> str:
    """The text with numbers, ranges, units, signs and abbreviations in words.

    Only letters and the punctuation of sentences are left; a sign that has no words falls away. Saying again changes nothing.
    """
    text = "".join(c for c in normalize("NFC", text) if category(c) != "Mn")
    text = "".join(c if c.isalpha() or c.isdecimal() or c in _KNOWN else " " for c in text)
    for short, words in _SHORT.items():
        text = re.sub(rf"(?<!\w){short}", words, text)
    text = _ranges(dates_said(text))
    text = _units_alone(numbers_said(_quantities(text)))
    text = _SIGN.sub(lambda m: f" {_SIGNS[m[0]]} ", text)
    return _tidy(text)


def _ranges(text: str) -> str:
    """Dashes between numbers as `to`, before a number as `minus`, between words as commas; crosses between numbers as `by`."""
    text = re.sub(r"(?<=\d)\s*\([–-](\d+(?:\.\d+)?)\)", r", rarely to \1", text)
    text = re.sub(r"\((\d+(?:\.\d+)?)[–-]\)\s*(?=\d)", r"rarely \1, ", text)
    text = re.sub(r"(?<=\d)\s*[–−-]\s*(?=\d)|(?<=\w)–(?=\w)", " to ", text)
    text = re.sub(r"(?<=\d)\s*×\s*(?=\d)", " by ", text)
    text = re.sub(r"(?<=\d)\s*×", " times", text)
    text = re.sub(r"(?<=\d)\s*\+(?!\s*\d)", " or more", text)
    return re.sub(r"(?<![\w.])[−-]\s*(?=\d)", "minus ", text)


def _quantities(text: str) -> str:
    """Numbers with units and sums of money."""

    def words(found: re.Match[str]) -> str:
        unit = _UNITS.get(found["near"] or "") or _SET_APART[found["apart"]]
        power = _POWERS.get(found["power"] or "", "")
        per = {**_UNITS, **_SET_APART}.get(found["per"] or "")
        each = f" {'an' if per == 'hour' else 'a'} {per}" if per else ""
        return f"{found['number']} {power}{unit}{'' if found['number'] == '1' else 's'}{each}"

    text = re.sub(r"([£€$])\s?(\d+(?:[.,]\d+)*)", r"\2 \1", text)
    text = re.sub(r"(?<=\d)\s*°\s*C\b", " degrees Celsius", text)
    return _QUANTITY.sub(words, text)


def _units_alone(text: str) -> str:
    """Units without a number of their own: `seeds/m²`, `in cm`."""
    text = _EACH.sub(lambda m: f" a {_POWERS.get(m[2] or '', '')}{_UNITS[m[1]]}", text)
    return _ALONE.sub(lambda m: f"{_POWERS.get(m[2] or '', '')}{_UNITS[m[1]]}s", text)


def _tidy(text: str) -> str:
    """Punctuation as in a sentence, no sign left, one space between words."""
    text = re.sub(r"\s*…\s*|\s*[—–]\s*|\s+-+\s+", ", ", text)
    text = re.sub(rf"[{_DASHES}]", "-", text)
    text = re.sub(r"\s+", " ", text)
    text = re.sub(r"\s+(?=[.,;:!?)])|(?<=\()\s+", "", text)
    text = re.sub(r",(?:\s*,)+", ",", text)
    text = re.sub(r",+(?=[.;:!?)])", "", text)
    return re.sub(r"\.{2,}", ".", text).strip(" ,")
