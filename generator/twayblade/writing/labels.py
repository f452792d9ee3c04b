"""The words of the interface, each in every language that has a file in `labels/`. Sentences about plants are the narrators', and English."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import cache
from importlib.resources import files

import yaml
from markupsafe import Markup, escape

TOLD = "en"
"""The language of what narrators and profiles tell (BCP 47)."""


@dataclass(frozen=True)
class Labels:
    """The labels of a language (BCP 47) by their keys, `section.name`. Placeholders stand in braces: `On {date}`."""

    language: str
    words: Mapping[str, str]

    def __call__(self, key: str, **filled: object) -> Markup:
        """A label as HTML; what is filled in is escaped, unless it is HTML already."""
        return escape(self.words[key]).format(**filled)

    def link(self, key: str, address: str, **filled: object) -> Markup:
        """A label that leads to an address, to be filled into another."""
        return Markup('<a href="{}">{}</a>').format(address, self(key, **filled))

    def plain(self, key: str, **filled: object) -> str:
        """A label as text, for where no HTML can stand."""
        return self.words[key].format(**filled)

    def date(self, on: date) -> str:
        """`7 June 2026`, as the language writes it."""
        return self.plain("date.day", day=on.day, month=self.month(on.month), year=on.year)

    def month(self, number: int) -> str:
        """The name of a month, of which 1 is January."""
        return self.words[f"month.{number}"]

    def section(self, name: str) -> dict[str, str]:
        """The labels of a section by the rest of their keys."""
        return {key.partition(".")[2]: words for key, words in self.words.items() if key.startswith(f"{name}.")}

    def decimal(self, value: float, places: int) -> str:
        """A number to so many places, as the language writes it."""
        return f"{value:.{places}f}".replace(".", self.words["number.point"])

    @property
    def told(self) -> Markup:
        """The attribute that marks an element of what is told, where the labels are in another language (WCAG 2.2, 3.1.2); else nothing."""
        return self._lang(TOLD)

    @property
    def labelled(self) -> Markup:
        """The attribute that marks an element of labels within what is told, where the labels are in another language; else nothing."""
        return self._lang(self.language)

    def mark(self, text: str) -> Markup:
        """A stretch of what is told, marked where the labels are in another language."""
        return Markup("<span{}>{}</span>").format(self.told, text) if self.told and text else escape(text)

    def _lang(self, language: str) -> Markup:
        return Markup("") if self.language == TOLD else Markup(' lang="{}"').format(language)


def languages() -> tuple[str, ...]:
    """The languages that have a file."""
    return tuple(sorted(file.name.removesuffix(".yml") for file in (files("twayblade.writing") / "labels").iterdir() if file.name.endswith(".yml")))


@cache
def read_labels(language: str = TOLD) -> Labels:
    """The labels of a language; it must be one of `languages()`."""
    text = (files("twayblade.writing") / "labels" / f"{language}.yml").read_text(encoding="utf-8")
    sections = yaml.load(text, yaml.BaseLoader)  # every scalar as it is written: a label `on` or `no` is a word
    return Labels(language, {f"{section}.{name}": words for section, labels in sections.items() for name, words in labels.items()})
