"""Pages of the site in the author's own words: Markdown, of which code is no prose."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

MARKDOWN = (".md", ".markdown", ".mdown", ".mkdn", ".mkd")
"""Endings of the files that are pages."""

_FRONT = re.compile(r"---[ \t]*\n.*?\n(?:---|\.\.\.)[ \t]*(?:\n|\Z)", re.DOTALL)
_COMMENT = re.compile(r"<!--.*?-->|<(?P<tag>code|pre|script|style)\b[^>]*>.*?</(?P=tag)>", re.DOTALL | re.IGNORECASE)
_SPAN = re.compile(r"(?<!`)(?P<ticks>`+)(?!`)(?:(?!\n[ \t]*\n).)+?(?<!`)(?P=ticks)(?!`)", re.DOTALL)
_FENCE = re.compile(r" {0,3}(?P<fence>`{3,}(?=[^`]*$)|~{3,})")
_ITEM = re.compile(r" {0,3}(?:[-*+]|\d{1,9}[.)])(?:[ \t]|$)")
_TITLE = re.compile(r" {0,3}#{1,6}(?:[ \t]|$)")


@dataclass(frozen=True)
class Page:
    """A page as it stands in its file; `document` names the file."""

    document: str
    text: str

    @cached_property
    def prose(self) -> str:
        """The text with spaces for everything that is not prose: head, code, comments. No character changes its place."""
        return without_code(self.text)

    def paragraphs(self) -> Iterator[tuple[int, str]]:
        """The pieces of the prose between blank lines, titles each by itself, with where each begins."""
        start, lines = 0, list[str]()
        at = 0
        for line in [*self.prose.splitlines(keepends=True), ""]:
            if lines and (not line.strip() or _TITLE.match(line) or _TITLE.match(lines[-1])):
                yield start, "".join(lines)
                lines = []
            if line.strip():
                start = start if lines else at + len(line) - len(line.lstrip())
                lines.append(line if lines else line.lstrip())
            at += len(line)


def without_code(text: str) -> str:
    """Markdown with spaces for its head, its code (fenced, indented, or in a line) and its comments.

    Code is what CommonMark 0.31.2 calls so (sections 4.4, 4.5 and 6.1). What is indented in a list belongs to the list,
    unless it is indented by four more.
    """
    front = _FRONT.match(text)
    text = _blank(text, 0, front.end()) if front else text
    text = _without_blocks(text)
    for pattern in (_COMMENT, _SPAN):
        for found in pattern.finditer(text):
            text = _blank(text, found.start(), found.end())
    return text


def _blank(text: str, start: int, end: int) -> str:
    return text[:start] + re.sub(r"[^\n]", " ", text[start:end]) + text[end:]


def _without_blocks(text: str) -> str:
    made = []
    fence, after_blank, in_list, in_code = "", True, False, False
    for line in text.splitlines(keepends=True):
        indent = len(line.expandtabs(4)) - len(line.expandtabs(4).lstrip(" "))
        opened = _FENCE.match(line.lstrip() if in_list else line)
        if fence:
            made.append(_blank(line, 0, len(line)))
            if opened and opened["fence"].startswith(fence) and not line.strip().strip(fence[0]):
                fence = ""
            continue
        if opened:
            fence, after_blank, in_code = opened["fence"], False, False
            made.append(_blank(line, 0, len(line)))
            continue
        if not line.strip():
            made.append(line)
            after_blank = True
            continue
        in_code = indent >= (8 if in_list else 4) and (after_blank or in_code)
        if not in_code and indent < 4 and (after_blank or _ITEM.match(line)):
            in_list = _ITEM.match(line) is not None or (in_list and indent >= 2)
        made.append(_blank(line, 0, len(line)) if in_code else line)
        after_blank = False
    return "".join(made)
