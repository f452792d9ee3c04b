"""Pages: what of their Markdown is prose, and where its pieces begin."""

from __future__ import annotations

import re

import markdown
import pytest
from hypothesis import given
from hypothesis import strategies as st

from twayblade.knowledge.claim import marks, unclosed
from twayblade.knowledge.page import Page, without_code

# Written after the examples of CommonMark 0.31.2, sections 4.4 (indented code), 4.5 (fenced code) and 6.1 (code spans).
CODE = [
    "```\nX\n```\n",
    "~~~ yaml\nX\n~~~\n",
    "````\nX\n```\nX\n````\n",
    "~~~\nX\n```\n~~~\n",
    "```\nX\n",
    "    X\n",
    "text\n\n    X\n\n    X\n",
    "- item\n\n        X\n",
    "a `X` b\n",
    "a `` ` X `` b\n",
    "<!-- X -->\n",
    "<pre><code>X</code></pre>\n",
    "---\ntitle: X\n---\ntext\n",
]
PROSE = [
    "X\n",
    "text\n    X\n",
    "- item\n\n    X\n",
    "1. item X\n",
    "> X\n",
    "# X\n",
    "`open X\n\nclose`\n",
    "    code\n\nX\n",
    "```\ncode\n```\nX\n",
    "a `b` X `c`\n",
]


@pytest.mark.parametrize("text", CODE)
def test_code_and_comments_are_no_prose(text: str) -> None:
    assert "X" not in without_code(text)


@pytest.mark.parametrize("text", PROSE)
def test_everything_else_is(text: str) -> None:
    assert "X" in without_code(text)


@pytest.mark.parametrize("text", [text for text in CODE[:10] if "````" not in text])
def test_the_library_that_makes_the_site_takes_the_same_for_code(text: str) -> None:
    made = markdown.markdown(text if text.endswith(("```\n", "~~~\n")) or "```" not in text else text + "```\n", extensions=["fenced_code"])
    assert "X" not in re.sub(r"<code.*?</code>", "", made, flags=re.DOTALL)


@given(st.text(alphabet="ab `~{|}\n-#>\t", max_size=80))
def test_nothing_changes_its_place(text: str) -> None:
    prose = without_code(text)
    assert len(prose) == len(text)
    assert all(a == b or a == " " for a, b in zip(prose, text, strict=True))
    for start, piece in Page("page.md", text).paragraphs():
        assert prose[start : start + len(piece)] == piece


def test_a_title_is_a_paragraph_of_its_own() -> None:
    pieces = [text.strip() for _, text in Page("page.md", "# Title\nOne.\nTwo.\n\nThree.\n## Next\n").paragraphs()]
    assert pieces == ["# Title", "One.\nTwo.", "Three.", "## Next"]


def test_a_mark_that_does_not_end_is_found() -> None:
    assert unclosed("A {b | c} and {d | e") == 14
    assert unclosed("A {b | c} and {d}") is None
    assert [mark.words for mark in marks("A {b | c}")] == ["b"]
