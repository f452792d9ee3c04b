"""A site in another language: its interface speaks it, and what is told in English is marked as English."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from bs4 import NavigableString, Tag
from bs4.element import PreformattedString
from click.testing import Result
from tests.conftest import copy_workspace
from tests.site.built import Built, lost_links, read_site

from twayblade.knowledge.workspace import Workspace

# Function words that the other language does not have; from memory.
ENGLISH = re.compile(r"\b(the|and|of|with|from|is|are|not|when|this|that|or|to|by|for)\b", re.IGNORECASE)
GERMAN = re.compile(r"\b(der|das|und|nicht|oder|ist|sind|von|zu|wenn|auf|dem|für|mit|keine)\b", re.IGNORECASE)


@pytest.fixture(scope="module")
def german_site(demo: Path, tmp_path_factory: pytest.TempPathFactory, run: Callable[..., Result]) -> Path:
    """The site of the demonstration with `locale: de`."""
    folder = copy_workspace(demo, tmp_path_factory.mktemp("german") / "workspace")
    config = folder / "mkdocs.yml"
    config.write_text(config.read_text(encoding="utf-8").replace("  name: twayblade\n", "  name: twayblade\n  locale: de\n"), encoding="utf-8")
    result = run("-C", folder, "build")
    assert result.exit_code == 0, result.output
    return folder / "site"


@pytest.fixture(scope="module")
def german(german_site: Path) -> dict[str, Built]:
    return read_site(german_site)


def language_of(element: Tag | NavigableString) -> str:
    """The language by the nearest mark, as HTML defines it (HTML standard, 3.2.6.2)."""
    return next(str(e["lang"]) for e in (element, *element.parents) if isinstance(e, Tag) and e.has_attr("lang"))


def passages(page: Built) -> Iterator[tuple[str, str]]:
    """Every stretch of text of a page's body, spoken attributes included, with its language."""
    body = page.tree.body
    assert body
    for text in body.find_all(string=True):
        if isinstance(text, PreformattedString) or not text.parent or text.find_parent(["script", "style"]) or text.find_parent(class_="sources"):
            continue  # sources are named by their titles
        if text.strip():
            yield " ".join(text.split()), language_of(text)
    for element in body.select("[aria-label], [alt], [title]"):
        for name in ("aria-label", "alt", "title"):
            if element.get(name):
                yield str(element[name]), language_of(element)


def test_each_page_says_that_it_is_german_and_its_labels_are(german: dict[str, Built]) -> None:
    assert {page.tree.html["lang"] for page in german.values() if page.tree.html} == {"de"}
    page = german["compare/anthriscus-sylvestris--conium-maculatum.html"]
    headings = [heading.get_text() for heading in page.main.select("h2 [data-undated], h2 [data-on-day], h2:not(:has(span))")]
    assert headings[:3] == ["Was sie trennt", "Was sie am  trennt", "Nebeneinander"]  # a script writes the day
    assert "Zum Text springen" in page.tree.get_text()


def test_english_sentences_in_a_german_page_are_marked_as_english(german: dict[str, Built], demo_workspace: Workspace) -> None:
    """WCAG 2.2, 3.1.2 (AA): the language of each passage can be determined. It exempts proper names: those of stops stand in labels of links
    and drawings, where a stretch cannot be marked."""
    names = [stop.title for planned in demo_workspace.trails.values() for stop in planned.trail.stops]
    unmarked = set()
    for page in german.values():
        for text, language in passages(page):
            for name in names:
                text = text.replace(name, "")
            if language == "de" and ENGLISH.search(text):
                unmarked.add((text, page.address))
    assert unmarked == set()


def test_german_labels_are_not_marked_as_english(german: dict[str, Built]) -> None:
    wrong = {(text, page.address) for page in german.values() for text, language in passages(page) if language == "en" and GERMAN.search(text)}
    assert wrong == set()


def test_a_site_in_english_marks_nothing_as_english(built: dict[str, Built]) -> None:
    assert [page.address for page in built.values() if page.main.select("[lang=en]") and not page.address.startswith("taxa/")] == []


def test_all_pages_and_links_are_there_in_either_language(german: dict[str, Built], german_site: Path, built: dict[str, Built]) -> None:
    assert set(german) == set(built)
    assert lost_links(german_site, german) == []


def test_a_language_without_labels_is_refused_by_name(demo: Path, copy_of: Callable[[Path], Path], run: Callable[..., Result]) -> None:
    folder = copy_of(demo)
    config = folder / "mkdocs.yml"
    config.write_text(config.read_text(encoding="utf-8").replace("  name: twayblade\n", "  name: twayblade\n  locale: is\n"), encoding="utf-8")
    result = run("-C", folder, "build")
    assert result.exit_code != 0
    assert "locale is is; there are labels in de and en" in " ".join(result.output.split())
