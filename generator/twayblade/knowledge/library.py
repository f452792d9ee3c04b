"""The other nouns of the library: sources, glossary, groups and regions."""

from __future__ import annotations

from typing import Literal

from pydantic import Field, field_validator, model_validator

from twayblade.knowledge.name import read_name
from twayblade.knowledge.profile import HazardClass
from twayblade.knowledge.record import Record, Several
from twayblade.knowledge.text import Sourced
from twayblade.knowledge.values import Written


class Source(Record):
    """Where a value comes from."""

    title: str = Field(description="author and title in plain words")
    address: str = Field("", description="where it can be read")
    kind: str = Field("", description="flora, atlas, paper, agency ...")
    region: str | None = Field(None, description="set only where it describes plants of elsewhere")


class Term(Record):
    """A word of the glossary."""

    term: str = Field(description="the word")
    plural: str = Field("", description="its plural, if it is not regular")
    definition: str = Field(description="one plain sentence")
    everyday: bool = Field(False, description="also a word of everyday speech: texts need not explain it")
    say: str = Field("", description="the sentence a walk explains it by; made from term and definition, if not given")
    see: Several = Field((), description="related terms")


class Group(Record):
    """Taxa treated together; its values hold for every member unless a member says otherwise."""

    name: str = Field(description="the group, plural")
    singular: str = Field(description="one member")
    family: str = Field("", description="family")
    summary: Sourced | None = Field(None, description="what all share")
    say: Sourced | None = Field(None, description="spoken paragraph for the opening of a walk")
    vary: Sourced | None = Field(None, description="what members do not share")
    values: dict[str, Written] = Field(default_factory=dict, description="values by trait")


class Recorded(Record):
    """A taxon recorded in a region: a profile, or a name with what little is known."""

    taxon: str | None = Field(None, description="id of a profile")
    name: str = Field("", description="scientific name, where there is no profile")
    common: str = Field("", description="common name")
    hazard: HazardClass = Field(HazardClass.NOT_ASSESSED, description="hazard class, where there is no profile")
    flowers: str = Field("", description="colour of the flowers")
    habitat: str = Field("", description="where it grows")
    source: Several = Field((), description="keys of the sources")
    note: str = Field("", description="a remark")

    @model_validator(mode="after")
    def _is_named(self) -> Recorded:
        if bool(self.taxon) == bool(self.name):
            raise ValueError("expected either `taxon` (a profile) or `name` (a plant without one)")
        return self

    @field_validator("name")
    @classmethod
    def _is_a_scientific_name(cls, name: str) -> str:
        if name:
            read_name(name)
        return name


class Region(Record):
    """A region: what is recorded there. Windows of the year belong to one."""

    name: str = Field(description="what it is called")
    say: str = Field("", description="as said in a sentence: `in the lowlands of ...`")
    home: bool = Field(False, description="windows that name no region belong to this one")
    hemisphere: Literal["north", "south"] = Field("north", description="for the names of the seasons")
    note: str = Field("", description="a remark")
    recorded: tuple[Recorded, ...] = Field((), description="everything recorded there")
