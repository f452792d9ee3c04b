"""Text with its sources: `Ditches and stream sides [FER-Oen IWF-Oen]`."""

from __future__ import annotations

import re
from typing import ClassVar

from pydantic import model_validator

from twayblade.knowledge.record import Record, Several

MEMORY = "memory"
"""The reserved source key for what is known from memory only."""

_WITH_SOURCES = re.compile(r"(?P<text>.*?)\s*\[(?P<keys>[^\[\]]*)\]\s*", re.DOTALL)


def split_sources(text: str) -> tuple[str, tuple[str, ...]]:
    """The text without its trailing source keys, and the keys."""
    match = _WITH_SOURCES.fullmatch(text)
    if not match:
        return text.strip(), ()
    return match["text"].strip(), tuple(key for key in re.split(r"[,;\s]+", match["keys"]) if key)


class Sourced(Record):
    """A text and the keys of its sources."""

    short_form: ClassVar[str] = "Ditches and stream sides [FER-Oen IWF-Oen]"
    text: str
    source: Several = ()

    @model_validator(mode="before")
    @classmethod
    def _from_short_form(cls, raw: object) -> object:
        if isinstance(raw, str):
            text, source = split_sources(raw)
            return {"text": text, "source": source}
        return raw
