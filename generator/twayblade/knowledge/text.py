"""Text with its sources: `Ditches and stream sides [FER-Oen IWF-Oen]`."""

from __future__ import annotations

import re
from typing import ClassVar

from pydantic import Field, model_validator

from twayblade.knowledge.claim import unmarked
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
    """A text and the keys of its sources. It may hold marked claims (see `claim`); `text` is what is read."""

    short_form: ClassVar[str] = "Ditches and stream sides [FER-Oen IWF-Oen]"
    written: str = Field(alias="text", description="the text, claims marked as `{words | claim}`")
    source: Several = Field((), description="keys of the sources")

    @property
    def text(self) -> str:
        """The text without the marks of its claims."""
        return unmarked(self.written)

    @model_validator(mode="before")
    @classmethod
    def _from_short_form(cls, raw: object) -> object:
        if isinstance(raw, str):
            text, source = split_sources(raw)
            return {"text": text, "source": source}
        return raw
