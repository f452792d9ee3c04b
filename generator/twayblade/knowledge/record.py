"""The base of every noun that is read from a file: immutable, closed to unknown fields, each field defined once."""

from collections.abc import Iterator
from typing import Annotated, Any, ClassVar

from pydantic import BaseModel, BeforeValidator, ConfigDict, GetJsonSchemaHandler, WithJsonSchema
from pydantic_core import CoreSchema


def _spelled_in_files(field_name: str) -> str:
    return field_name.rstrip("_").replace("_", "-")


class Record(BaseModel):
    """An immutable record. In files its fields are spelled with hyphens (`common-names`)."""

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        alias_generator=_spelled_in_files,
        validate_by_name=True,
        validate_by_alias=True,
        arbitrary_types_allowed=True,
    )
    short_form: ClassVar[str] = ""
    """An example of the text that may stand for the record in a file, if there is such a form."""

    @classmethod
    def __get_pydantic_json_schema__(cls, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        """The JSON Schema of what a file may hold: the record, or its short form."""
        made = handler(core)
        return {"anyOf": [made, {"type": "string", "examples": [cls.short_form]}]} if cls.short_form else made


def _one_or_many(raw: object) -> object:
    return raw if isinstance(raw, (list, tuple)) else [raw]


def as_text(example: str) -> WithJsonSchema:
    """For the JSON Schema: a field that files hold as text, like the example."""
    return WithJsonSchema({"type": "string", "examples": [example]}, mode="validation")


Several = Annotated[
    tuple[str, ...],
    BeforeValidator(_one_or_many),
    WithJsonSchema({"anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}}]}, mode="validation"),
]
"""A tuple of texts that may be written as a single text where there is only one."""


def records_in(value: object, way: tuple[str | int, ...] = ()) -> Iterator[tuple[tuple[str | int, ...], Record]]:
    """Every record in a value, itself included, with the way to it through the file."""
    if isinstance(value, Record):
        yield way, value
        for name, field in type(value).model_fields.items():
            yield from records_in(getattr(value, name), (*way, field.alias or name))
    elif isinstance(value, dict):
        for key, item in value.items():
            yield from records_in(item, (*way, key))
    elif isinstance(value, tuple):
        for number, item in enumerate(value):
            yield from records_in(item, (*way, number))
