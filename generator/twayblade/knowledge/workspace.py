"""A workspace: everything that is known, linked and immutable; loaded once and passed down as one object."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any

from twayblade.knowledge.library import Group, Recorded, Region, Source, Term
from twayblade.knowledge.observation import Recce
from twayblade.knowledge.page import Page
from twayblade.knowledge.pieces import OwnPiece, PieceKind
from twayblade.knowledge.profile import HazardClass, Profile, SeasonWindow
from twayblade.knowledge.trail import Route, Trail
from twayblade.knowledge.trait import Trait
from twayblade.knowledge.values import Value


@dataclass(frozen=True)
class Taxon:
    """A taxon: its profile, and its values, those inherited from its group included."""

    id: str
    profile: Profile
    values: Mapping[str, Value]

    @property
    def common_name(self) -> str:
        """The first English name, else the first of any language, else the scientific name."""
        names = self.profile.common_names
        chosen = names.get("en") or next(iter(names.values()), ())
        return chosen[0] if chosen else self.scientific_name

    @property
    def scientific_name(self) -> str:
        """The scientific name without authors."""
        return self.profile.name.without_authors

    @property
    def hazard_class(self) -> HazardClass:
        """The hazard on record; without a record, not assessed."""
        return self.profile.hazard.class_ if self.profile.hazard else HazardClass.NOT_ASSESSED

    @property
    def is_of_forms_only(self) -> bool:
        """Whether every plant is of one of its forms: of some trait something is said of each of them, and of no other plant."""
        said = ([s.where.form for a in value.alternatives for s in a.statements] for value in self.values.values())
        return bool(self.profile.forms) and any(set(forms) == set(self.profile.forms) for forms in said)

    @property
    def document(self) -> str:
        """The file its profile is written in."""
        return f"content/species/{self.id}.yml"


@dataclass(frozen=True)
class PlannedTrail:
    """A trail with the id of its folder, its way on the ground, if a route is given, and the visits before the walk."""

    id: str
    trail: Trail
    route: Route | None
    recces: tuple[Recce, ...] = ()

    @property
    def document(self) -> str:
        """The file it is written in."""
        return f"{self.id}/trail.yml"


@dataclass(frozen=True)
class Workspace:
    """Everything known, by id."""

    traits: Mapping[str, Trait]
    sources: Mapping[str, Source]
    glossary: Mapping[str, Term]
    groups: Mapping[str, Group]
    regions: Mapping[str, Region]
    taxa: Mapping[str, Taxon]
    trails: Mapping[str, PlannedTrail]
    pages: Mapping[str, Page] = field(default_factory=dict)
    """The site's pages in the author's words, by the address of their Markdown in `content/pages/`."""
    pieces: Mapping[str, PieceKind] = field(default_factory=dict)
    """What drawings can be made of, by name: the built-in pieces and those of its own."""
    own_pieces: Mapping[str, OwnPiece] = field(default_factory=dict)
    """The pieces that its content defines, by name."""
    photographs: Mapping[str, str] = field(default_factory=dict)
    """Where the file of each photograph that a profile shows lies, by the file's name."""
    worked_out: dict[tuple[object, ...], Any] = field(default_factory=dict, init=False, compare=False, repr=False)
    """What pure functions have worked out of it, kept so that it is worked out once. No part of what is known."""

    @cached_property
    def home_region(self) -> str | None:
        """The region that windows without a region belong to."""
        return next((id_ for id_, region in self.regions.items() if region.home), None)

    def with_taxa(self, changed: Mapping[str, Taxon]) -> Workspace:
        """The same with some taxa changed. What was worked out of the others stays worked out."""
        made = replace(self, taxa={**self.taxa, **changed})
        made.worked_out.update(self.worked_out)
        return made

    def recorded_hazard(self, recorded: Recorded) -> HazardClass:
        """The hazard class of an entry of a region list: its profile's, if it has one."""
        taxon = self.taxa.get(recorded.taxon or "")
        return taxon.hazard_class if taxon else recorded.hazard

    def windows(self, taxon: Taxon, stage: str, region: str | None) -> tuple[SeasonWindow, ...]:
        """The windows of a stage for a region: those recorded for it, else those of the home region."""
        recorded = taxon.profile.seasons.get(stage, ())
        wanted = region or self.home_region
        own = tuple(w for w in recorded if (w.region or self.home_region) == wanted)
        return own or tuple(w for w in recorded if (w.region or self.home_region) == self.home_region)
