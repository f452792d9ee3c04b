"""Small workspaces made in memory, for tests that need no files."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from twayblade.knowledge.library import Group, Recorded, Region
from twayblade.knowledge.name import ScientificName
from twayblade.knowledge.pieces import PIECES
from twayblade.knowledge.profile import HazardClass, Profile
from twayblade.knowledge.trait import Trait
from twayblade.knowledge.values import Alternative, Entry, Value, as_written, statements_of
from twayblade.knowledge.workspace import PlannedTrail, Taxon, Workspace
from twayblade.reasoning.lookalikes import look_alikes
from twayblade.reasoning.walk import outline
from twayblade.writing.recce_words import WrittenSheet, write_recce

EYE = ["close-eye"]
KNOWN = Recorded(name="Planta nota", hazard=HazardClass.NONE_FOUND)
"""A plant of a list on which nothing forbids handling."""


def states_trait(*states: str, **more: object) -> Trait:
    """A trait with states; more: any field, for example kind="ordered" or needs="bracts"."""
    given = {state: {"phrase": state, "definition": f"It is {state}."} for state in states}
    fields = {"name": "mark", "organ": "stem", "kind": "states", "subject": "the stem", "verb": "is", "definition": "A mark.", "ways": EYE}
    return Trait.model_validate({**fields, "states": given, **more})


def number_trait(kind: str = "measure", **more: object) -> Trait:
    """A measure in mm, or a count of spots."""
    unit = {"unit": "mm", "phrase": "{} long"} if kind == "measure" else {"one": "spot", "many": "spots"}
    fields = {"name": "size", "organ": "fruit", "kind": kind, "subject": "the fruit", "verb": "is", "definition": "Its size.", "ways": EYE}
    return Trait.model_validate({**fields, **unit, **more})


def value(trait_id: str, trait: Trait, *written: str | dict[str, object]) -> Value:
    """A value of one alternative from texts or entries; for alternatives use `disputed`."""
    entries = tuple(Entry.model_validate(w) for w in written)
    statements = tuple(s for entry in entries for s in statements_of(entry, trait))
    return Value(trait_id, (Alternative(statements),), "made", as_written(entries))


def disputed(trait_id: str, trait: Trait, *sides: str | dict[str, object]) -> Value:
    """A value on which sources disagree, one text or entry a side."""
    entries = [Entry.model_validate(side) for side in sides]
    return Value(trait_id, tuple(Alternative(statements_of(e, trait), e.doubted) for e in entries), "made", " / ".join(e.is_ for e in entries))


def taxon(id_: str, values: Mapping[str, Value], **profile: object) -> Taxon:
    """A taxon with some values; profile: further fields of its profile."""
    made = Profile.model_validate(
        {"name": ScientificName(genus="Planta", epithet="ficta"), "common-names": {"en": [id_.replace("-", " ")]}, **profile}
    )
    return Taxon(id_, made, values)


def workspace(
    traits: Mapping[str, Trait], *taxa: Taxon, groups: Mapping[str, Group] | None = None, regions: Mapping[str, Region] | None = None
) -> Workspace:
    """A workspace of some traits and taxa."""
    listed = regions or {"home": Region(name="home", home=True, recorded=(KNOWN,))}
    pieces = {name: piece.kind() for name, piece in PIECES.items()}
    return Workspace(traits, {}, {}, groups or {}, listed, {t.id: t for t in taxa}, {}, pieces=pieces)


def sheet_of(workspace: Workspace, planned: PlannedTrail, on: date) -> WrittenSheet:
    """The recce sheet of a trail for a date."""
    pairs = look_alikes(workspace)
    return write_recce(workspace, outline(workspace, planned, on, pairs, branches=False), pairs)
