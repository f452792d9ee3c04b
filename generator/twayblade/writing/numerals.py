"""Numbers, dates and times of day as they are said."""

from __future__ import annotations

import re

from num2words import num2words

from twayblade.knowledge.season import MONTHS

_DIGITS = ("nought", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
_LONGEST = 15
"""Digits of the longest number said as a number; a longer one, or one that begins with a nought, is said digit by digit."""
_MONTH = "|".join(MONTHS)
_YEAR = r"(?:1[1-9]|20)\d\d(?!\d|[.,]\d)"
_NO_UNIT = r"(?!\s*(?:[mkcµ]?m|[mk]?g|ml|ha|min|s|h|l)\b)"
_FRACTIONS = {"1/2": "a half", "1/3": "a third", "2/3": "two thirds", "1/4": "a quarter", "3/4": "three quarters"}


def dates_said(text: str) -> str:
    """Dates, years and times of day in words: `the seventh of June`, `eighteen twenty`, `ten o'clock`."""
    text = re.sub(r"\b(\d{4})-(\d\d)-(\d\d)\b", _whole_date, text)
    text = re.sub(rf"(?:\bthe )?\b([1-9]|[12]\d|3[01]) ({_MONTH})\b", lambda m: _day(m[1], m[2]), text)
    text = re.sub(rf"\b({_MONTH})(,? )({_YEAR})", lambda m: f"{m[1]}{m[2]}{_year(m[3])}", text)
    text = re.sub(rf"\b({_YEAR})\s*(?:–|-|to)\s*({_YEAR}){_NO_UNIT}", lambda m: f"{_year(m[1])} to {_year(m[2])}", text)
    text = re.sub(rf"\b(in|since|until|before|after|by|year) ({_YEAR}){_NO_UNIT}(?!\s*[–−-])", lambda m: f"{m[1]} {_year(m[2])}", text, flags=re.I)
    text = re.sub(r"\b((?:1[1-9]|20)\d0)s\b", lambda m: re.sub(r"ys$", "ies", f"{_year(m[1])}s"), text)
    return re.sub(r"\b(\d|1\d|2[0-3]):([0-5]\d)\b", _time, text)


def numbers_said(text: str) -> str:
    """Every number in words: `two point five`, `twenty-one`, `third`."""
    for fraction, words in _FRACTIONS.items():
        text = re.sub(rf"(?<![\d/.,]){fraction}(?![\d/])", words, text)
    text = re.sub(r"(?<=\d)\s*:\s*(?=\d)", " to ", text)
    text = re.sub(r"(?<=\d)\s*/\s*(?=\d)", " over ", text)
    text = re.sub(r"(?<![\d.,])\d{1,3}(?:,\d{3})+(?![\d,])", lambda m: m[0].replace(",", ""), text)
    text = re.sub(r"(\d+)(?:st|nd|rd|th)\b", lambda m: _ordinal(m[1]), text)
    text = re.sub(r"(?<=[^\W\d_])(?=\d)|(?<=\d)(?=[^\W\d_])", " ", text)
    text = re.sub(r"(\d+)\.(\d+)", lambda m: f"{_number(m[1])} point {_one_by_one(m[2])}", text)
    text = re.sub(r"(?<=\d),(?=\d)", ", ", text)
    return re.sub(r"\d+", lambda m: _number(m[0]), text)


def _number(digits: str) -> str:
    if len(digits) > _LONGEST or (len(digits) > 1 and int(digits[0]) == 0):
        return _one_by_one(digits)
    return "nought" if int(digits) == 0 else str(num2words(int(digits))).replace(",", "")


def _one_by_one(digits: str) -> str:
    return " ".join(_DIGITS[int(digit)] for digit in digits)


def _ordinal(digits: str) -> str:
    return str(num2words(int(digits), to="ordinal")).replace(",", "") if len(digits) <= _LONGEST else f"{_one_by_one(digits)}th"


def _year(digits: str) -> str:
    return str(num2words(int(digits), to="year")).replace("oh-", "oh ")


def _day(day: str, month: str) -> str:
    return f"the {_ordinal(day)} of {month}"


def _whole_date(found: re.Match[str]) -> str:
    year, month, day = found.groups()
    is_date = 1 <= int(month) <= 12 and 1 <= int(day) <= 31
    return f"{_day(day, MONTHS[int(month) - 1])} {year}" if is_date else found[0]


def _time(found: re.Match[str]) -> str:
    hour, minutes = _number(found[1]), found[2]
    if minutes == "00":
        return f"{hour} o'clock"
    return f"{hour} {'oh ' if minutes[0] == '0' else ''}{_number(str(int(minutes)))}"
