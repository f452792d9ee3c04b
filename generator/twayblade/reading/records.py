"""From data to records: what the noun's own definition refuses becomes a problem at its place."""

from __future__ import annotations

from collections.abc import Iterable
from copy import deepcopy
from types import UnionType
from typing import Annotated, Any, TypeVar, Union, get_args, get_origin

from pydantic import BaseModel, TypeAdapter, ValidationError
from pydantic_core import ErrorDetails
from rapidfuzz import process

from twayblade.knowledge.problem import Path, Problem, Severity
from twayblade.reading.nodes import Document

Made = TypeVar("Made")


def nearest(name: str, known: Iterable[str]) -> tuple[str, ...]:
    """A hint that names the nearest of what really exists, if anything is near."""
    found = process.extractOne(name, sorted(set(known)), score_cutoff=65)
    return (f"did you mean `{found[0]}`?",) if found else ()


def make(kind: Any, document: Document, data: Any = None, at: Path = ()) -> tuple[Any | None, list[Problem]]:
    """A record of `kind` (a model or any type pydantic knows) from a document's data, and the problems.

    With problems the record is what is left when the refused entries are taken out, so that its other entries can be
    looked at in the same run; None if it cannot do without them. `at` is the way to the data in the document, if they
    are a part of it.
    """
    data = document.data if data is None else data
    try:
        return TypeAdapter(kind).validate_python(data), []
    except ValidationError as refused:
        errors = refused.errors(include_url=False)
        told = [e for e in errors if e["type"] != "too_short" or not any(o is not e and o["loc"][: len(e["loc"])] == e["loc"] for o in errors)]
        return _left(kind, data, errors), [_problem(kind, document, at, error) for error in told]
    except RecursionError:
        return None, [Problem("field-wrong-kind", Severity.ERROR, document.place(at), "nested too deep")]


def _left(kind: Any, data: Any, errors: list[ErrorDetails]) -> Any | None:
    """The record without the entries of mappings in which something is refused. Items of lists keep their numbers."""
    rest = deepcopy(data)
    while entries := [entry for error in errors if (entry := _entry(rest, error["loc"]))]:
        for holder, key in entries:
            holder.pop(key, None)
        try:
            return TypeAdapter(kind).validate_python(rest)
        except ValidationError as refused:
            errors = refused.errors(include_url=False)
    return None


def _entry(data: Any, way: Path) -> tuple[dict[str, Any], str] | None:
    """The innermost entry of a mapping on a way, as the mapping and its key."""
    found = None
    for step in way:
        if isinstance(data, dict) and isinstance(step, str) and step in data:
            found, data = (data, step), data[step]
        elif isinstance(data, list) and isinstance(step, int) and step < len(data):
            data = data[step]
    return found


_FOUND = {dict: "a mapping", list: "a list", str: "text", type(None): "nothing"}
_EXPECTED = {
    "model_type": "a mapping of fields",
    "model_attributes_type": "a mapping of fields",
    "dict_type": "a mapping",
    "tuple_type": "a list",
    "list_type": "a list",
    "string_type": "text",
    "bool_parsing": "yes or no",
    "bool_type": "yes or no",
    "union_tag_invalid": "a value",
}


def _problem(kind: Any, document: Document, at: Path, error: ErrorDetails) -> Problem:
    way = (*at, *error["loc"])
    what, given = error["type"], error["input"]
    if what == "extra_forbidden":
        name = str(error["loc"][-1])
        return _made("field-unknown", document, way, f"no field `{name}` here", nearest(name, _fields(kind, error["loc"][:-1])), True)
    if what == "missing":
        return _made("field-missing", document, way[:-1], f"`{way[-1]}` is missing")
    if what in _EXPECTED:
        found = f"`{given}`" if isinstance(given, str) and what.startswith("bool") else _FOUND.get(type(given), f"`{given}`")
        return _made("field-wrong-kind", document, way, f"expected {_EXPECTED[what]}, found {found}")
    if what in ("enum", "literal_error"):
        expected = error.get("ctx", {}).get("expected", "")
        candidates = [part.strip("'") for part in expected.replace(" or ", ", ").split(", ")]
        return _made("field-wrong-kind", document, way, f"expected one of {', '.join(candidates)}, found `{given}`", nearest(str(given), candidates))
    if what == "too_short":
        least = error.get("ctx", {}).get("min_length", 1)
        return _made("field-missing", document, way, f"expected at least {'one item' if least == 1 else f'{least} items'}")
    reason = error.get("ctx", {}).get("error")
    if what.startswith(("date", "time")):
        expected = "a time of day, as in `10:00`" if what.startswith("time") else "a date, as in `2026-06-07`"
        return _made("date-impossible", document, way, f"expected {expected}, found `{given}`" + (f": {reason}" if reason else ""))
    message = str(reason) if reason else error["msg"][0].lower() + error["msg"][1:] + f", found `{given}`"
    return _made("date-impossible" if "no such " in message else "notation", document, way, message)


def _made(rule: str, document: Document, way: Path, message: str, hints: tuple[str, ...] = (), on_key: bool = False) -> Problem:
    return Problem(rule, Severity.ERROR, document.place(way, on_key), " ".join(message.split()), hints)


def _fields(kind: Any, way: Path) -> list[str]:
    """The field names of the models that a way leads to, as they are spelled in files."""
    kinds = [kind]
    for step in way:
        kinds = [inner for k in kinds for inner in _step(k, step)] or kinds
    models = [m for k in kinds for m in _models(k)]
    return [field.alias or name for model in models for name, field in model.model_fields.items()]


def _models(kind: Any) -> list[type[BaseModel]]:
    if isinstance(kind, type) and issubclass(kind, BaseModel):
        return [kind]
    if get_origin(kind) in (Annotated, Union, UnionType):
        return [model for arg in get_args(kind) for model in _models(arg)]
    return []


def _step(kind: Any, step: str | int) -> list[Any]:
    origin, args = get_origin(kind), get_args(kind)
    if origin in (Annotated, Union, UnionType):
        return [inner for arg in args for inner in _step(arg, step)]
    if origin is dict:
        return [args[1]]
    if origin in (tuple, list) and isinstance(step, int):
        return [args[0]]
    if isinstance(kind, type) and issubclass(kind, BaseModel):
        return [field.annotation for name, field in kind.model_fields.items() if step in (name, field.alias)]
    return []
