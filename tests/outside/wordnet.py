"""The nouns of WordNet 3.0, read from Debian's `wordnet-base` directly."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from tests.outside.data import system_file


@dataclass(frozen=True)
class Synset:
    """Words of one meaning, the synsets it is a member of, and its gloss."""

    words: tuple[str, ...]
    member_of: tuple[str, ...]
    gloss: str


def nouns() -> dict[str, Synset]:
    """Every synset of nouns by its offset. The format is that of the manual page wndb(5WN)."""
    return dict(_synset(line) for line in _file().read_text(encoding="latin-1").splitlines() if not line.startswith(" "))


def _file() -> Path:
    return system_file("/usr/share/wordnet/data.noun", "wordnet-base")


def _synset(line: str) -> tuple[str, Synset]:
    head, _, gloss = line.partition("|")
    offset, _, _, count, *rest = head.split()
    size = 2 * int(count, 16)
    words, pointers = rest[:size:2], rest[size + 1 :]
    pairs = zip(pointers[::4], pointers[1::4], strict=False)
    return offset, Synset(tuple(words), tuple(target for symbol, target in pairs if symbol == "#m"), gloss.strip())
