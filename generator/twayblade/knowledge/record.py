"""The base of every noun that is read from a file: immutable, closed to unknown fields, each field defined once."""

from typing import Annotated

from pydantic import BaseModel, BeforeValidator, ConfigDict


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


def _one_or_many(raw: object) -> object:
    return raw if isinstance(raw, (list, tuple)) else [raw]


Several = Annotated[tuple[str, ...], BeforeValidator(_one_or_many)]
"""A tuple of texts that may be written as a single text where there is only one."""
