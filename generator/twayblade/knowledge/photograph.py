"""A photograph of a taxon, as its profile names it: whose it is, under which licence, and what is to be seen in it."""

from __future__ import annotations

import re

from pydantic import Field, ValidationInfo, field_validator

from twayblade.knowledge.record import Record, Several
from twayblade.knowledge.text import Sourced

PHOTOGRAPHS = "content/photographs"
"""The folder of the photographs. It lies outside the pages, so that no file of it is published as it is."""

_FILE = r"[a-z0-9]+(-[a-z0-9]+)*\.(jpg|jpeg|png|webp)"
"""Nothing but a name: it leads out of no folder, and what stands before the dot is part of an address that never changes."""


class Photograph(Record):
    """A photograph. Nothing of it is shown without its maker, its licence and words for those who cannot see it."""

    file: str = Field(description=f"name of a file in {PHOTOGRAPHS}/", json_schema_extra={"pattern": f"^{_FILE}$"})
    maker: str = Field(description="who took it, as the credit names them", min_length=1)
    licence: str = Field(description="the licence it may be shown under: `CC BY 4.0`", min_length=1)
    licence_address: str = Field("", description="where the licence can be read")
    stage: str = Field(description="the stage of the plant in it")
    traits: Several = Field((), description="traits that can be seen in it")
    shows: Sourced = Field(description="what is to be seen in it; stands for it where it cannot be seen")

    @field_validator("file")
    @classmethod
    def _is_a_plain_name(cls, file: str) -> str:
        if not re.fullmatch(_FILE, file):
            expected = "small letters, digits and hyphens, then .jpg, .jpeg, .png or .webp"
            raise ValueError(f"`{file}` cannot be the name of a photograph in {PHOTOGRAPHS}/; expected {expected}, as in `ripe-fruit.jpg`")
        return file

    @field_validator("maker", "licence", mode="before")
    @classmethod
    def _is_given(cls, said: object, field: ValidationInfo) -> object:
        if isinstance(said, str) and not said.strip():
            raise ValueError(f"`{field.field_name}` is empty; a photograph is shown with its maker and its licence, or not at all")
        return said.strip() if isinstance(said, str) else said

    @field_validator("licence_address")
    @classmethod
    def _leads_to_the_web(cls, address: str) -> str:
        if not re.fullmatch(r"https?://\S+", address):
            raise ValueError(f"cannot read `{address}` as the address of a licence; expected one that begins with https://")
        return address

    @field_validator("shows")
    @classmethod
    def _says_something(cls, shows: Sourced) -> Sourced:
        if not shows.text.strip():
            raise ValueError("`shows` is empty; say what is to be seen, for those who cannot see it")
        return shows

    @property
    def stem(self) -> str:
        """What its address is made of: the name of its file without the ending."""
        return self.file.rpartition(".")[0]
