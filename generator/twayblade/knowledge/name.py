"""Scientific names with authorship, and what their words mean."""

from __future__ import annotations

import re
from enum import StrEnum
from typing import ClassVar

from pydantic import Field, model_validator

from twayblade.knowledge.record import Record, Several

_NAME = re.compile(
    r"(?P<genus>×?[A-Z][a-zäëïöü-]+)"
    r"(?P<epithet>\s+×?[a-zäëïöü][a-zäëïöü-]+)?"
    r"(?P<lower>(?:\s+(?:subsp\.|ssp\.|subvar\.|var\.|subf\.|f\.)\s+[a-zäëïöü-]+)*)"
    r"(?P<authorship>\s+\S.*)?"
)


class ScientificName(Record):
    """A name under the Code: genus, epithet, lower ranks and the authors who gave it."""

    short_form: ClassVar[str] = "Conium maculatum L."
    genus: str
    epithet: str = ""
    lower_ranks: str = Field("", description="rank and epithet below the species, as in `subsp. carota`")
    authorship: str = ""

    @model_validator(mode="before")
    @classmethod
    def _from_text(cls, raw: object) -> object:
        if not isinstance(raw, str):
            return raw
        match = _NAME.fullmatch(" ".join(raw.split()))
        if not match:
            raise ValueError(f"cannot read `{raw}` as a scientific name; expected `Genus epithet Author`")
        parts = {key: (text or "").strip() for key, text in match.groupdict().items()}
        parts["lower_ranks"] = parts.pop("lower")
        return parts

    @property
    def without_authors(self) -> str:
        """The name alone: `Conium maculatum`."""
        return " ".join(word for word in (self.genus, self.epithet, self.lower_ranks) if word)

    @property
    def words(self) -> tuple[str, ...]:
        """The words of the name that mean something, in order."""
        lower = tuple(word for word in self.lower_ranks.split() if not word.endswith("."))
        return tuple(word for word in (self.genus, self.epithet, *lower) if word)


class Fit(StrEnum):
    """Whether a name's meaning fits its plant. Obscure and misleading meanings are never hints."""

    APT = "apt"
    OBSCURE = "obscure"
    MISLEADING = "misleading"


class WordKind(StrEnum):
    """What a word of a name is: an adjective agrees with the genus in gender, a noun keeps its own."""

    ADJECTIVE = "adjective"
    NOUN = "noun"


class NamePart(Record):
    """What one word of a name means and whether that fits the plant."""

    part: str = Field(description="the word as it stands in the name")
    language: str = Field(description="the language it comes from")
    root: str = Field(description="the word it comes from")
    meaning: str = Field(description="what that means")
    fit: Fit = Field(description="apt, obscure or misleading")
    why: str = Field(description="why")
    rests_on: str | None = Field(None, description="`trait = state` that makes the name apt")
    kind: WordKind | None = Field(None, description="adjective or noun, where the form alone leaves it in doubt")
    source: Several = Field((), description="keys of the sources")
