"""Problems: what is wrong, where, and what would mend it. Data first; printed only at the edge."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias

Path: TypeAlias = tuple[str | int, ...]
"""A way through a document: keys of mappings and numbers of items."""


class Severity(StrEnum):
    """Errors stop a build, warnings only when asked."""

    ERROR = "error"
    WARNING = "warning"


@dataclass(frozen=True)
class Spot:
    """A spot in a document, named by its way through it; `on_key` means the key, not what follows it."""

    document: str
    path: Path = ()
    on_key: bool = False


@dataclass(frozen=True)
class Finding:
    """A problem that knows its spot but not yet its line."""

    rule: str
    spot: Spot
    message: str
    hints: tuple[str, ...] = ()


@dataclass(frozen=True)
class Place:
    """A place in a file: line and column from 1, and the text of that line."""

    file: str
    line: int = 1
    column: int = 1
    text: str = ""


@dataclass(frozen=True)
class Problem:
    """A problem with its place."""

    rule: str
    severity: Severity
    place: Place
    message: str
    hints: tuple[str, ...] = ()

    @property
    def order(self) -> tuple[str, int, int, str, str]:
        """Problems are shown sorted by place."""
        return (self.place.file, self.place.line, self.place.column, self.rule, self.message)
