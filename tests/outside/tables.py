"""Any table of records as a workspace of files: what an author would write who knew nothing but the table."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

import yaml

from twayblade.knowledge.workspace import Workspace
from twayblade.reading.workspace import load

Cell = str | float


def table_workspace(folder: Path, records: Iterable[tuple[str, Mapping[str, Cell]]], unit: str = "cm") -> Workspace:
    """Write the files of a workspace, one taxon for each name among the records, and read them.

    A column of numbers becomes a measure in `unit`, each taxon's value the range of its records; a column of words becomes
    a trait with states, each taxon's value all the words of its records.
    """
    taxa: dict[str, list[Mapping[str, Cell]]] = {}
    for name, record in records:
        taxa.setdefault(_id(name), []).append(record)
    columns = {_id(column): column for column in next(iter(taxa.values()))[0]}
    cells = {id_: [record[column] for rows in taxa.values() for record in rows] for id_, column in columns.items()}
    _write(folder / "mkdocs.yml", {"site_name": "A table", "docs_dir": "content/pages", "plugins": ["twayblade"]})
    _write(folder / "content/sources.yml", {"table": {"title": "the table", "kind": "data"}})
    _write(folder / "content/traits.yml", {id_: _trait(columns[id_], cells[id_], unit) for id_ in columns})
    _write(folder / "content/groups/everything.yml", {"name": "taxa of the table", "singular": "taxon of the table"})
    _write(folder / "content/regions/home.yml", {"name": "nowhere", "home": "yes", "recorded": [{"taxon": id_} for id_ in taxa]})
    for id_, rows in taxa.items():
        values = {trait: f"{_value([row[column] for row in rows], unit)} [table]" for trait, column in columns.items()}
        profile = {"name": "Planta", "common-names": {"en": [id_.replace("-", " ")]}, "group": "everything", "values": values}
        hazard = {"class": "not-assessed", "text": "Nothing is said of it in the table. [table]"}
        _write(folder / f"content/species/{id_}.yml", {**profile, "hazard": hazard})
    loaded = load(folder)
    assert loaded.problems == ()
    assert loaded.workspace
    return loaded.workspace


def _write(file: Path, data: Any) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(yaml.safe_dump(data, allow_unicode=True, sort_keys=False), encoding="utf-8")


def _id(text: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-")


def _is_number(cell: Cell) -> bool:
    return not isinstance(cell, str)


def _trait(column: str, cells: list[Cell], unit: str) -> dict[str, Any]:
    about = {
        "name": column,
        "organ": "whole",
        "subject": f"the {column}",
        "verb": "is",
        "definition": f"What the table has in its column {column}.",
        "ways": ["close-eye"],
    }
    if all(map(_is_number, cells)):
        return {**about, "kind": "measure", "unit": unit, "phrase": "{} long"}
    states = {_state(cell): {"phrase": str(cell), "definition": f"The table says {cell} in this column."} for cell in cells}
    return {**about, "kind": "states", "states": states}


def _state(cell: Cell) -> str:
    """The name of a state; a word is put before a figure, which would read as a number."""
    name = _id(str(cell))
    return f"kind-{name}" if name[0].isdigit() else name


def _value(cells: list[Cell], unit: str) -> str:
    if all(map(_is_number, cells)):
        low, high = min(cells), max(cells)
        return f"{low:g} {unit}" if low == high else f"{low:g}-{high:g} {unit}"
    return " or ".join(dict.fromkeys(_state(cell) for cell in cells))
