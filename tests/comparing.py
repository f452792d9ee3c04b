"""What a comparing sentence is, found without the generator: two taxa, or one and a comparing word, and an organ of a plant."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cached_property

from twayblade.knowledge.trait import Trait
from twayblade.knowledge.workspace import Workspace

_COMPARES = re.compile(
    r"\b(unlike|whereas|in contrast|compared (?:with|to)|differs?|than (?:in|that|those|the)|(?:more|less) \w+ than|\w+er than|"
    r"distinguish\w*|only|earlier|later|alike|in both|both)\b",
    re.IGNORECASE,
)
_SEASON = re.compile(r"\bin (?:young |ripe )?(?:flower|fruit|bud|leaf)\b")
"""Words for the stage of a plant: what is in flower is told of the season, not compared."""
_ENDS = re.compile(r"(?<=[.!?])\s+")
_SMALL = re.compile(
    r"\b(?:a|an|and|as|at|both|by|each|from|has|have|in|into|is|it|just|no|not|of|on|one|or|other|than|that|the|they|to|two|very|with)\b"
)


@dataclass(frozen=True)
class Language:
    """The names of taxa and the words of traits in some workspace."""

    workspace: Workspace

    @cached_property
    def _names(self) -> tuple[re.Pattern[str], dict[str, str]]:
        ids = {taxon.common_name.lower(): taxon.id for taxon in self.workspace.taxa.values()}
        longest_first = sorted(ids, key=len, reverse=True)
        return re.compile(rf"(?<![\w-])(?:{'|'.join(map(re.escape, longest_first))})s?(?![\w-])", re.IGNORECASE), ids

    def taxa_in(self, text: str) -> frozenset[str]:
        """The taxa a text names; of overlapping names the longest."""
        pattern, ids = self._names
        return frozenset(ids.get(name.lower()) or ids[name.lower()[:-1]] for name in pattern.findall(text))

    @cached_property
    def _organs(self) -> re.Pattern[str]:
        whole = {"whole plant", "plant", "bird"}
        words = {w for t in self.workspace.traits.values() for w in _content_words(t.subject + " " + t.organ)} - whole
        return re.compile(rf"\b(?:{'|'.join(sorted(words))})s?\b", re.IGNORECASE)

    def is_comparing(self, sentence: str) -> bool:
        named = self.taxa_in(sentence)
        return bool((len(named) > 1 or (named and _COMPARES.search(sentence))) and self._organs.search(_SEASON.sub(" ", sentence)))

    def comparing_in(self, text: str) -> list[str]:
        """The comparing sentences of a text."""
        return [said for said in _ENDS.split(" ".join(text.split())) if self.is_comparing(said)]

    def speaks_of(self, text: str, trait: Trait) -> bool:
        """Whether a text has a word that only belongs there for the trait: of its name, subject, organ, states or nouns."""
        phrases = [trait.name, trait.subject, trait.organ, trait.one, trait.many, *trait.parts.values(), *(s.phrase for s in trait.states.values())]
        return bool({_stem(w) for p in phrases for w in _content_words(p)} & {_stem(w) for w in _content_words(text)})


def _content_words(text: str) -> set[str]:
    return set(re.findall(r"[a-z]+", _SMALL.sub(" ", text.lower())))


def _stem(word: str) -> str:
    """A word without the ending of a plural, and `leaf` for `leaves`."""
    return re.sub(r"(?:ves|f|s)$", "", word)
