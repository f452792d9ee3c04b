"""A YAML file as text with places: one edit at a time, everything else left as it stands."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import yaml

Way = tuple[str | int, ...]
LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(frozen=True)
class Spot:
    """Something in a file: the way to it, its key (in a mapping), itself and what holds it."""

    way: Way
    key: yaml.Node | None
    node: yaml.Node
    holder: yaml.Node | None

    @property
    def text(self) -> str:
        """The text of a scalar, on one line."""
        return " ".join(self.node.value.split()) if isinstance(self.node, yaml.ScalarNode) else ""


@dataclass(frozen=True)
class Edit:
    """What stands from `start` to `end` gives way to `new`."""

    start: int
    end: int
    new: str


class Text:
    """A file's text, composed."""

    def __init__(self, file: str, text: str) -> None:
        self.file, self.text = file, text
        root = yaml.compose(text, Loader=LOADER)
        assert root is not None
        self.root: yaml.Node = root
        self.starts = [0, *(m.end() for m in re.finditer("\n", text))]

    def offset(self, mark: Any) -> int:
        start: int = self.starts[mark.line]
        return start + int(mark.column)

    @cached_property
    def spots(self) -> tuple[Spot, ...]:
        """Everything in the file, in order."""
        return tuple(self._walk(Spot((), None, self.root, None)))

    @cached_property
    def by_way(self) -> dict[Way, Spot]:
        return {spot.way: spot for spot in self.spots}

    def _walk(self, spot: Spot) -> Iterator[Spot]:
        yield spot
        if isinstance(spot.node, yaml.MappingNode):
            for key, value in spot.node.value:
                yield from self._walk(Spot((*spot.way, key.value), key, value, spot.node))
        elif isinstance(spot.node, yaml.SequenceNode):
            for number, value in enumerate(spot.node.value):
                yield from self._walk(Spot((*spot.way, number), None, value, spot.node))

    def lines(self, way: Way) -> range:
        """The lines, from 1, of what a way leads to, its key included; of what still exists of the way."""
        while way not in self.by_way:
            way = way[:-1]
        spot = self.by_way[way]
        first, last = (spot.key or spot.node).start_mark, spot.node.end_mark
        return range(first.line + 1, max(first.line + 1, last.line + (last.column > 0)) + 1)

    def head(self, way: Way) -> set[int]:
        """The lines of the key and of the beginning of what a way leads to."""
        while way not in self.by_way:
            way = way[:-1]
        spot = self.by_way[way]
        return {n.start_mark.line + 1 for n in (spot.key, spot.node) if n}

    def in_flow(self, spot: Spot) -> bool:
        """Whether it stands inside braces or brackets."""
        ways = (spot.way[:n] for n in range(len(spot.way)))
        return any(getattr(self.by_way[way].node, "flow_style", False) for way in ways)

    # -- edits -----------------------------------------------------------------------------------------------
    def put(self, spot: Spot, new: str) -> Edit:
        """Another text in place of a scalar, quoted if it must be."""
        start, end = self.offset(spot.node.start_mark), self.offset(spot.node.end_mark)
        is_block = isinstance(spot.node, yaml.ScalarNode) and spot.node.style in ("|", ">")
        return Edit(start, end, scalar(new, self.in_flow(spot)) + ("\n" if is_block else ""))

    def put_key(self, spot: Spot, new: str) -> Edit:
        """Another key."""
        assert spot.key
        return Edit(self.offset(spot.key.start_mark), self.offset(spot.key.end_mark), new)

    def drop(self, spot: Spot) -> Edit | None:
        """Take an entry out of a mapping or an item out of a list; None if nothing would be left."""
        if spot.holder is None or len(spot.holder.value) < 2:
            return None
        entries = [e if isinstance(e, tuple) else (e, e) for e in spot.holder.value]
        in_flow = getattr(spot.holder, "flow_style", False)
        number = next(n for n, (_, value) in enumerate(entries) if value is spot.node)
        start = self.offset(entries[number][0].start_mark)
        if isinstance(spot.holder, yaml.SequenceNode) and not in_flow:
            start = self.text.rindex("-", 0, start)
            after = self.text.rindex("-", 0, self.offset(entries[number + 1][0].start_mark)) if number + 1 < len(entries) else None
            return Edit(start, after, "") if after else Edit(self.text.rindex("\n", 0, start) + 1, self._line_end(spot), "")
        if number + 1 < len(entries):
            return Edit(start, self.offset(entries[number + 1][0].start_mark), "")
        if in_flow:
            return Edit(self.offset(entries[number - 1][1].end_mark), self.offset(spot.node.end_mark), "")
        return Edit(self.text.rindex("\n", 0, start) + 1, self._line_end(spot), "")

    def _line_end(self, spot: Spot) -> int:
        end = self.offset(spot.node.end_mark)
        begins = self.text.rfind("\n", 0, end) + 1
        if not self.text[begins:end].strip():  # a block ends where the next thing begins
            return begins
        return self.text.find("\n", end) + 1 or len(self.text)

    def below(self, spot: Spot, line: str) -> Edit:
        """A further line below a scalar entry of a mapping, at the column of its key."""
        assert spot.key
        return Edit(self._line_end(spot), self._line_end(spot), " " * spot.key.start_mark.column + line + "\n")


def scalar(text: str, flow: bool = False) -> str:
    """A text as YAML on one line: plain where that reads back as the same, else quoted."""
    if text == '""':
        return text
    try:
        node: Any = yaml.compose(f"[{text}]" if flow else f"key: {text}", Loader=LOADER)
        inner = node.value[0] if flow and len(node.value) == 1 else node.value[0][1] if not flow else None
        if isinstance(inner, yaml.ScalarNode) and inner.value == text:
            return text
    except (yaml.YAMLError, AttributeError, TypeError):
        pass
    return json.dumps(text, ensure_ascii=False)


def split_keys(text: str) -> tuple[str, str]:
    """A text and its source keys as they stand, brackets included."""
    match = re.fullmatch(r"(.*?)(\s*\[[^\[\]]*\])?", text, re.DOTALL)
    assert match
    return match[1], match[2] or ""


def renumbered(text: str, times: float = 1, plus: float = 0) -> str:
    """A range with every number multiplied and moved."""
    pieces = re.split(r"(\d+(?:\.\d+)?)", text)
    return "".join(f"{float(piece) * times + plus:g}" if n % 2 else piece for n, piece in enumerate(pieces))
