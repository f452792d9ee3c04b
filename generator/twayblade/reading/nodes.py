"""YAML as composed nodes: data that stay text until a field converts them, and the place of everything in them."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path as FilePath
from typing import Any

import yaml

from twayblade.knowledge.problem import Path, Place, Problem, Severity

_DEEPEST = 40
_PLAIN_TAGS = {f"tag:yaml.org,2002:{name}" for name in ("str", "int", "float", "bool", "null", "timestamp", "map", "seq", "value", "merge")}
_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(frozen=True)
class Document:
    """A file's data, and a way to find the place of any of it."""

    file: str
    data: Any = None
    root: yaml.Node | None = None
    lines: tuple[str, ...] = ()
    problems: tuple[Problem, ...] = ()

    def place(self, path: Path = (), on_key: bool = False) -> Place:
        """The place of what the path leads to, or of the last thing on the way that the file really holds."""
        node, mark = self.root, self.root.start_mark if self.root else None
        for step in path:
            entered = _enter(node, step)
            if entered:
                key, node = entered
                mark = key.start_mark if on_key and key else node.start_mark
        return self.at(mark.line, mark.column) if mark else Place(self.file)

    def at(self, line: int, column: int) -> Place:
        """The place of a line and column counted from 0."""
        text = self.lines[line] if line < len(self.lines) else ""
        return Place(self.file, line + 1, column + 1, text)

    def after(self, before: bytes) -> Place:
        """The place that follows what stands before it in the file."""
        lines = (before.decode("utf-8-sig", errors="ignore") + "|").splitlines()
        return self.at(len(lines) - 1, len(lines[-1]) - 1)


def _enter(node: yaml.Node | None, step: str | int) -> tuple[yaml.Node | None, yaml.Node] | None:
    if isinstance(node, yaml.MappingNode):
        return next(((key, value) for key, value in node.value if key.value == step), None)
    if isinstance(node, yaml.SequenceNode) and isinstance(step, int) and step < len(node.value):
        return None, node.value[step]
    return None


@dataclass(frozen=True)
class TextDocument(Document):
    """A file of plain text. The way to something in it is the number of the character it begins with."""

    text: str = ""

    def place(self, path: Path = (), on_key: bool = False) -> Place:
        """The place of a character."""
        before = self.text[: next((step for step in path if isinstance(step, int)), 0)]
        return self.at(before.count("\n"), len(before) - before.rfind("\n") - 1)


def read_plain(folder: FilePath, file: str) -> TextDocument:
    """Read one file of plain text."""
    text = _text(folder, file)
    if isinstance(text, Document):
        return TextDocument(file, problems=text.problems)
    return TextDocument(file, lines=tuple(text.split("\n")), text=text)


def _text(folder: FilePath, file: str) -> str | Document:
    """The text of a file, or a document that tells why it cannot be read."""
    try:
        return (folder / file).read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        return _unreadable(file, "file-missing", "there is no such file")
    except UnicodeDecodeError as reason:
        place = Document(file).after(reason.object[: reason.start])
        message = f"the byte `{reason.object[reason.start]:02x}` is not UTF-8 text"
        return Document(file, problems=(_problem("file-unreadable", place, message, "save the file as UTF-8"),))
    except OSError as reason:
        return _unreadable(file, "file-unreadable", f"cannot be opened: {reason.strerror or reason}")


def read_document(folder: FilePath, file: str) -> Document:
    """Read one YAML file. Whatever it holds, problems come back as values, never as exceptions."""
    text = _text(folder, file)
    if isinstance(text, Document):
        return text
    document = Document(file, lines=tuple(text.splitlines()))
    try:
        problems = _outlawed(text, document)
        root = None if problems else yaml.compose(text, Loader=_LOADER)
    except yaml.MarkedYAMLError as reason:
        mark = reason.problem_mark or reason.context_mark
        place = document.at(mark.line, mark.column) if mark else Place(file)
        return Document(file, problems=(_problem("yaml-unreadable", place, f"not YAML: {reason.problem or reason.context}"),))
    except yaml.reader.ReaderError as reason:
        place = document.after(text.encode()[: reason.position])
        return Document(file, problems=(_problem("yaml-unreadable", place, f"not YAML: {str(reason).splitlines()[0]}"),))
    except yaml.YAMLError as reason:
        return _unreadable(file, "yaml-unreadable", f"not YAML: {str(reason).splitlines()[0]}")
    if problems:
        return Document(file, lines=document.lines, problems=tuple(problems))
    building = _Building(document)
    data = building.data(root) if root else None
    return Document(file, data, root, document.lines, tuple(building.problems))


def _problem(rule: str, place: Place, message: str, *hints: str) -> Problem:
    return Problem(rule, Severity.ERROR, place, message, hints)


def _unreadable(file: str, rule: str, message: str) -> Document:
    return Document(file, problems=(_problem(rule, Place(file), message),))


def _outlawed(text: str, document: Document) -> list[Problem]:
    """Aliases (they can explode), more than one document, and nesting that no content needs."""
    depth, documents = 0, 0
    for event in yaml.parse(text, Loader=_LOADER):
        mark = event.start_mark
        place = document.at(mark.line, mark.column) if mark else Place(document.file)
        if isinstance(event, yaml.AliasEvent):
            return [_problem("yaml-alias", place, "aliases are not read here", "write the value out")]
        documents += isinstance(event, yaml.DocumentStartEvent)
        if documents > 1:
            return [_problem("yaml-unreadable", place, "a second document begins here; one file holds one")]
        depth += isinstance(event, yaml.CollectionStartEvent) - isinstance(event, yaml.CollectionEndEvent)
        if depth > _DEEPEST:
            return [_problem("yaml-unreadable", place, f"nested more than {_DEEPEST} deep")]
    return []


@dataclass
class _Building:
    document: Document
    problems: list[Problem] = field(default_factory=list)

    def data(self, node: yaml.Node) -> Any:
        self._refuse_tag(node)
        if isinstance(node, yaml.MappingNode):
            return self._mapping(node)
        if isinstance(node, yaml.SequenceNode):
            return [self.data(item) for item in node.value]
        empty = node.tag == "tag:yaml.org,2002:null"
        return None if empty else node.value

    def _refuse_tag(self, node: yaml.Node) -> None:
        if node.tag not in _PLAIN_TAGS:
            place = self.document.at(node.start_mark.line, node.start_mark.column)
            self.problems.append(_problem("yaml-tag", place, f"the tag `{node.tag}` is not read here", "remove the tag"))

    def _mapping(self, node: yaml.MappingNode) -> dict[str, Any]:
        found: dict[str, Any] = {}
        first_line: dict[str, int] = {}
        for key, value in node.value:
            place = self.document.at(key.start_mark.line, key.start_mark.column)
            self._refuse_tag(key)
            if not isinstance(key, yaml.ScalarNode):
                self.problems.append(_problem("yaml-unreadable", place, "a key must be a word"))
            elif key.value in found:
                message = f"`{key.value}` stands here twice; first in line {first_line[key.value]}"
                self.problems.append(_problem("yaml-duplicate-key", place, message, "keep one of the two"))
            else:
                first_line[key.value] = key.start_mark.line + 1
                found[key.value] = self.data(value)
        return found
