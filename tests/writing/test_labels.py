"""The words of the interface stand in one file per language, complete in each, and in no template."""

from __future__ import annotations

import re
from collections import Counter
from datetime import date
from pathlib import Path
from string import Formatter

import pytest
import yaml
from bs4 import BeautifulSoup
from bs4.element import Comment, Doctype
from jinja2 import Environment
from markupsafe import Markup

from twayblade.knowledge.trail import PART_KINDS, Case
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.lookalikes import look_alikes
from twayblade.writing.fitting import PrintForm
from twayblade.writing.labels import Labels, languages, read_labels
from twayblade.writing.script import write_script

PACKAGE = Path(__file__).resolve().parents[2] / "generator" / "twayblade"
FOLDER = PACKAGE / "writing" / "labels"
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


HTML = [file for folder in (PACKAGE / "writing" / "templates", PACKAGE / "site" / "theme") for file in sorted(folder.glob("*.html"))]
SPOKEN = ("aria-label", "alt", "title", "placeholder")
UNITS = {"m", "s", "PDF"}


def words(text: str) -> list[str]:
    return [word for word in re.findall(r"[^\W\d_]+", text) if word not in UNITS]


def read_template(file: Path) -> tuple[str, list[str]]:
    """The markup of a template with a brace for every expression, and every string that stands in its expressions."""
    markup, strings = [], []
    for _, kind, value in Environment().lex(file.read_text(encoding="utf-8")):
        if kind in ("data", "variable_begin"):
            markup.append(value if kind == "data" else "{}")
        elif kind == "string":
            strings.append(value[1:-1])
    return "".join(markup), strings


@pytest.mark.parametrize("file", HTML, ids=lambda file: file.name)
def test_no_word_of_the_interface_stands_in_a_template(file: Path) -> None:
    """Words outside labels would stay English in every language. Project check: text and spoken attributes; phrases in expressions."""
    markup, strings = read_template(file)
    tree = BeautifulSoup(markup, "html.parser")
    for silent in tree.select("style, script"):
        silent.decompose()
    bare = [text for text in tree.find_all(string=lambda text: not isinstance(text, (Doctype, Comment))) if words(text)]
    bare += [str(element[name]) for name in SPOKEN for element in tree.select(f"[{name}]") if words(str(element[name]))]
    bare += [text for text in strings if not text.startswith("<") and (re.search(r"[a-z] |[A-Z][a-z]", text) or re.search(r"(^|[^%]) [a-z]", text))]
    assert bare == []


SOURCES = {file: file.read_text(encoding="utf-8") for kind in ("*.html", "*.py", "*.js") for file in PACKAGE.rglob(kind)}


def test_every_label_that_is_asked_for_is_there() -> None:
    known = read_labels("en").words
    asked = {key for text in SOURCES.values() for key in re.findall(r"label(?:\.\w+)?\(\s*\"(\w+\.[\w-]+)\"", text)}
    assert len(asked) > 100
    assert asked - set(known) == set()


def test_no_label_stands_in_the_file_that_nothing_asks_for() -> None:
    text = "\n".join(SOURCES.values())
    made = set(re.findall(r"[\"'](\w+\.)[\"'] ~|f\"(\w+\.)\{", text))
    started = {one or other for one, other in made} | {f"{name}." for name in re.findall(r"section\(\"(\w+)\"\)", text)}
    idle = [key for key in read_labels("en").words if f'"{key}"' not in text and not key.startswith(tuple(started))]
    assert idle == []


@pytest.mark.parametrize(
    ("section", "wanted"),
    [
        ("part", set(PART_KINDS)),
        ("case", {case.value for case in Case}),
        ("print", {form.value for form in PrintForm}),
        ("month", {str(number) for number in range(1, 13)}),
    ],
)
def test_labels_whose_names_come_from_the_data_are_all_there(section: str, wanted: set[str]) -> None:
    assert set(read_labels("en").section(section)) == wanted


def test_every_clock_and_all_it_is_made_of_has_a_label(demo_workspace: Workspace) -> None:
    (planned,) = demo_workspace.trails.values()
    clocks = write_script(demo_workspace, planned, planned.trail.chief_date, look_alikes(demo_workspace)).clocks
    shown = {name for name, _ in clocks.named} | {what for _, clock in clocks.named for what, _ in clock.made_of}
    assert set(read_labels("en").section("clock")) == shown
