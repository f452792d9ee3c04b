"""Pages in the author's words: marks are read, judged and placed; on the site they become anchors with evidence."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result
from tests.site.built import Built, read_site

from twayblade.knowledge.problem import Problem
from twayblade.reading.workspace import load
from twayblade.reasoning.checks import check_content

Copy = Callable[[Path], Path]
Run = Callable[..., Result]
TOLD = "lantern-penguin from gentoo-penguin by flipper-length"


def problems(folder: Path, text: str, name: str = "notes.md") -> list[Problem]:
    (folder / "content/pages" / name).write_text(text, encoding="utf-8")
    loaded = load(folder)
    return [*loaded.problems, *(loaded.place(f) for f in check_content(loaded.draft))]


@pytest.fixture
def colony(copy_of: Copy, penguins: Path) -> Path:
    return copy_of(penguins)


@pytest.mark.parametrize(
    ("claim", "rule"),
    [
        ("gentoo-penguin from adelie-penguin by bill-length", "claim-refused"),
        ("gentoo-penguin is bill-colour = dark-bill", "claim-refused"),
        ("gentoo-penguin from adelie-pengin by bill-length", "claim-unreadable"),
        ("gentoo-penguin has more bill", "claim-unreadable"),
    ],
)
def test_a_wrong_mark_is_refused_at_its_own_place(colony: Path, claim: str, rule: str) -> None:
    (found,) = problems(colony, f"# Notes\n\nHere is é and `code`.\nThen {{these words |\n  {claim}}} follow.\n")
    assert (found.rule, found.place.file, found.place.line, found.place.column) == (rule, "content/pages/notes.md", 4, 6)
    assert found.place.text == "Then {these words |"
    assert "\n" not in found.message


def test_a_right_mark_is_not(colony: Path) -> None:
    assert problems(colony, f"The lantern penguin: {{its flippers are far shorter than those of the gentoo penguin | {TOLD}}}.\n") == []


def test_code_is_left_alone(colony: Path) -> None:
    assert problems(colony, "Write `{words | claim}`:\n\n    {words | claim}\n\n```\n{words | claim}\n```\n") == []


def test_a_mark_without_an_end_is_told(colony: Path) -> None:
    (found,) = problems(colony, f"# Notes\n\nThey are {{shorter | {TOLD}.\n")
    assert (found.rule, found.place.line, found.place.column) == ("claim-unreadable", 3, 10)


def test_an_unmarked_comparison_is_told_at_its_sentence(colony: Path) -> None:
    (found,) = problems(colony, "# Notes\n\nThey breed here. Unlike the gentoo penguin\nthe lantern penguin is small.\n")
    assert (found.rule, found.place.line, found.place.column) == ("comparison-unmarked", 3, 18)


@pytest.mark.parametrize(("said", "rule"), [("All of them are harmless.", "hazard-softened")])
def test_pages_say_nothing_that_profiles_may_not_say(colony: Path, said: str, rule: str) -> None:
    assert [(p.rule, p.place.line) for p in problems(colony, f"# Notes\n\n{said}\n")] == [(rule, 3)]


def test_a_term_wants_a_word_of_explanation_or_a_way_to_the_glossary(colony: Path) -> None:
    (colony / "content/glossary.yml").write_text("rookery:\n  term: rookery\n  definition: A place where birds breed.\n", encoding="utf-8")
    (found,) = problems(colony, "# Notes\n\nThe big rookery. The rookery again.\n")
    assert (found.rule, found.place.line, found.place.column) == ("term-unexplained", 3, 9)
    assert problems(colony, "A rookery is a place where birds breed.\n") == []
    assert problems(colony, "The [rookery](glossary.html#rookery) is big.\n") == []


def test_a_page_that_is_not_utf_8_is_told(colony: Path) -> None:
    (colony / "content/pages/notes.md").write_bytes(b"# Notes\n\nAd\xe9lie\n")
    (found,) = load(colony).problems
    assert (found.rule, found.place.file, found.place.line) == ("file-unreadable", "content/pages/notes.md", 3)


def test_a_wrong_mark_stops_the_build(colony: Path, run: Run) -> None:
    problems(colony, "{These words | gentoo-penguin is bill-colour = dark-bill} follow.\n")
    result = run("-C", colony, "build")
    assert result.exit_code == 1
    assert "claim-refused" in result.output
    assert not (colony / "site").exists()


def test_the_author_may_not_keep_pages_where_nobody_checks_them(colony: Path, run: Run) -> None:
    (colony / "content/pages").rename(colony / "prose")
    config = colony / "mkdocs.yml"
    config.write_text(config.read_text(encoding="utf-8").replace("content/pages", "prose"), encoding="utf-8")
    result = run("-C", colony, "build")
    assert result.exit_code == 1
    assert "docs_dir" in result.output


@pytest.fixture
def page(colony: Path, run: Run) -> Built:
    text = (
        "---\ntitle: Notes\n---\n# Notes\n\n"
        f"{{*Far shorter* flippers than those of the gentoo penguin | {TOLD}}}, and `{{words | claim}}`.\n\n"
        "- {The cheek usually has a spot | lantern-penguin is cheek-mark = round-mark,\n  usually}\n"
    )
    assert problems(colony, text) == []
    result = run("-C", colony, "build")
    assert result.exit_code == 0, result.output
    return read_site(colony / "site")["notes.html"]


def test_on_the_site_the_words_stand_without_the_mark_and_lead_to_their_evidence(page: Built) -> None:
    spans = page.main.select("span[data-claim]")
    assert [span["data-claim"] for span in spans] == ["flipper-length/lantern-penguin/gentoo-penguin", "cheek-mark/lantern-penguin"]
    assert spans[0].get_text() == "Far shorter flippers than those of the gentoo penguin"
    assert spans[0].em
    assert page.words.count("|") == 1  # in the code
    for number, span in enumerate(spans, start=1):
        assert span["id"] == f"claim-{number}"
        assert page.main.select_one(f'a[href="#evidence-{number}"]')
        evidence = page.main.select_one(f"#evidence-{number}")
        assert evidence
        assert evidence["data-claim"] == span["data-claim"]
        assert page.main.select_one(f'a[href="#claim-{number}"]')


def test_the_evidence_shows_verdict_values_and_sources(page: Built) -> None:
    first, second = (item.get_text(" ") for item in page.main.select("#evidence li"))
    assert "Verdict: holds for every plant on record." in first
    assert "120-150 mm" in first
    assert "203-231 mm" in first
    assert "holds usually" in second
    assert "usually round-mark, rarely no-mark" in second
    assert "*" not in first
