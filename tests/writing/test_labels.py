"""The words of the interface stand in one file per language, complete in each, and in no template."""

from __future__ import annotations

from collections import Counter
from datetime import date
from pathlib import Path
from string import Formatter

import pytest
import yaml
from markupsafe import Markup

from twayblade.writing.labels import Labels, languages, read_labels

FOLDER = Path(__file__).resolve().parents[2] / "generator" / "twayblade" / "writing" / "labels"
OTHERS = [language for language in languages() if language != "en"]


def placeholders(words: str) -> Counter[str]:
    return Counter(name for _, name, _, _ in Formatter().parse(words) if name is not None)


def test_there_is_a_second_language_to_prove_the_first() -> None:
    assert "de" in OTHERS


@pytest.mark.parametrize("language", languages())
def test_no_key_stands_twice_in_a_file(language: str) -> None:
    """YAML readers keep the last of two silently."""
    root = yaml.compose((FOLDER / f"{language}.yml").read_text(encoding="utf-8"), yaml.SafeLoader)
    assert isinstance(root, yaml.MappingNode)
    for mapping in (root, *(value for _, value in root.value)):
        keys = Counter(key.value for key, _ in mapping.value)
        assert [key for key, times in keys.items() if times > 1] == []


@pytest.mark.parametrize("language", OTHERS)
def test_every_language_has_the_labels_of_english_with_their_placeholders(language: str) -> None:
    english, other = read_labels("en").words, read_labels(language).words
    assert set(other) == set(english)
    assert {key for key, words in english.items() if placeholders(words) != placeholders(other[key])} == set()


@pytest.mark.parametrize("language", languages())
def test_no_label_is_empty_or_ragged_at_its_ends(language: str) -> None:
    assert [key for key, words in read_labels(language).words.items() if not words or words != " ".join(words.split())] == []


def test_what_is_filled_in_is_escaped_unless_it_is_html() -> None:
    label = Labels("en", {"some.words": "From {place} & back"})
    assert label("some.words", place="<here>") == Markup("From &lt;here&gt; &amp; back")
    assert label("some.words", place=Markup("<i>here</i>")) == Markup("From <i>here</i> &amp; back")
    assert label.plain("some.words", place="<here>") == "From <here> & back"


def test_a_label_that_is_missing_or_not_filled_in_is_an_error() -> None:
    label = Labels("en", {"some.words": "From {place}"})
    with pytest.raises(KeyError):
        label("some.other")
    with pytest.raises(KeyError):
        label("some.words")


def test_dates_are_written_as_the_language_writes_them() -> None:
    """CLDR 45, long dates: en-GB `d MMMM y`, de `d. MMMM y`."""
    assert read_labels("en").date(date(2026, 6, 7)) == "7 June 2026"
    assert read_labels("de").date(date(2026, 6, 7)) == "7. Juni 2026"
