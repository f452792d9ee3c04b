"""Scientific names with authorship, and what their words mean."""

from __future__ import annotations

import re
from enum import StrEnum
from typing import ClassVar

from pydantic import Field, model_validator

from twayblade.knowledge.latin_sound import Length, said
from twayblade.knowledge.record import Record, Several
from twayblade.knowledge.text import split_sources

_WORD = r"(?:×\s?)?(?!(?:and|de|den|der|du|et|ex|in|non|van|von)\b)[a-zäëïöü][a-zäëïöü-]+(?=\s|$)"
"""An epithet; the small words of citations are none: in `Hook. f. ex Benth.` the son of Hooker is no forma."""
_NAME = re.compile(rf"(?P<genus>(?:×\s?)?[A-Z][a-zäëïöü-]+)(?:\s+(?P<epithet>{_WORD}))?(?P<rest>(?:\s.*)?)")
_LOWER = re.compile(rf"\b(?P<rank>(?:notho)?(?:subsp|ssp|subvar|var|subf|f)\.)\s+(?P<epithet>{_WORD})")
_CROSS = re.compile(r"\s+×\s+(?=[A-Z])")
_PARENT = re.compile(rf"[A-Z][a-zäëïöü-]*\.?(?:\s+{_WORD})?")
_LETTER_X = re.compile(r"(?:^|\s)[xX]\s?(?:(?<=\s)[a-z]{2}|[A-Z][a-z])")


class ScientificName(Record):
    """A name under the Code: genus, epithet, lower ranks and the authors who gave it."""

    short_form: ClassVar[str] = "Conium maculatum L."
    genus: str
    epithet: str = ""
    lower_ranks: str = Field("", description="rank and epithet below the species, as in `subsp. carota`")
    authorship: str = Field("", description="authors of the name of the lowest rank; an autonym has none (ICN Art. 26.1)")
    species_authorship: str = Field("", description="authors of the species, where the name of a lower rank follows them")
    crossed_with: str = Field("", description="the other parents, for a hybrid that is named by its formula (ICN Art. H.2)")

    @model_validator(mode="before")
    @classmethod
    def _from_text(cls, raw: object) -> object:
        return read_name(raw) if isinstance(raw, str) else raw

    @property
    def without_authors(self) -> str:
        """The name alone: `Conium maculatum`."""
        others = (found[0] for parent in _CROSS.split(self.crossed_with) if (found := _PARENT.match(parent)))
        return " × ".join((" ".join(word for word in (self.genus, self.epithet, self.lower_ranks) if word), *others))

    @property
    def with_authors(self) -> str:
        """The name as it is cited: `Rosa gallica L. var. gallica`."""
        pieces = (self.genus, self.epithet, self.species_authorship, self.lower_ranks, self.authorship)
        return " × ".join(part for part in (" ".join(piece for piece in pieces if piece), self.crossed_with) if part)

    @property
    def words(self) -> tuple[str, ...]:
        """The words of the name that mean something, in order."""
        lower = tuple(word for word in self.lower_ranks.split() if not word.endswith("."))
        return tuple(word for word in (self.genus, self.epithet, *lower) if word)


def read_name(raw: str) -> dict[str, str]:
    """The fields of a written name. Raises ValueError with a clause.

    Authors of ranks between the species and the lowest are not kept: no citation needs them.
    """
    text = " ".join(raw.split())
    if _LETTER_X.search(text):
        raise ValueError(f"in `{raw}` the letter x stands for the sign of a hybrid; write `×` (ICN Art. H.3)")
    text, *others = _CROSS.split(text, maxsplit=1)
    match = _NAME.fullmatch(text)
    if not match:
        raise ValueError(f"cannot read `{raw}` as a scientific name; expected `Genus epithet Author`")
    genus, epithet, rest = (re.sub(r"×\s", "×", (match[part] or "").strip()) for part in ("genus", "epithet", "rest"))
    lower = list(_LOWER.finditer(rest)) if epithet else []
    return {
        "genus": genus,
        "epithet": epithet,
        "lower_ranks": " ".join(found[0] for found in lower),
        "authorship": rest[lower[-1].end() :].strip() if lower else rest,
        "species_authorship": rest[: lower[0].start()].strip() if lower else "",
        "crossed_with": "".join(others),
    }


class Fit(StrEnum):
    """Whether a name's meaning fits its plant. Obscure and misleading meanings are never hints."""

    APT = "apt"
    OBSCURE = "obscure"
    MISLEADING = "misleading"


class WordKind(StrEnum):
    """What a word of a name is: an adjective agrees with the genus in gender, a noun keeps its own."""

    ADJECTIVE = "adjective"
    NOUN = "noun"


class Quantity(Record):
    """How long the last vowel but one of a Latin word is. It decides where the weight lies, and no spelling shows it."""

    short_form: ClassVar[str] = "long [memory]"
    is_: Length = Field(description="long or short")
    source: Several = Field(min_length=1, description="keys of the sources")

    @model_validator(mode="before")
    @classmethod
    def _from_short_form(cls, raw: object) -> object:
        if not isinstance(raw, str):
            return raw
        text, source = split_sources(raw)
        if not source:
            raise ValueError(f"`{raw}` names no source; expected one in brackets, if only `[memory]`")
        return {"is": text, "source": source}


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
    quantity: Quantity | None = Field(None, description="long or short: its last vowel but one, with sources")
    source: Several = Field((), description="keys of the sources")

    @property
    def said(self) -> str | None:
        """How it is said, `ma-cu-LA-tum`; None where nothing settles where the weight lies."""
        return said(self.part, self.quantity.is_ if self.quantity else None)
