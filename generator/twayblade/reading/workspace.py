"""The front door of reading: a folder becomes a workspace, or the list of everything that is wrong with it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from twayblade.knowledge.library import Group, Region, Source, Term
from twayblade.knowledge.name import ScientificName
from twayblade.knowledge.page import MARKDOWN, Page
from twayblade.knowledge.pieces import PIECES, OwnPiece
from twayblade.knowledge.problem import Finding, Place, Problem, Severity
from twayblade.knowledge.profile import Profile
from twayblade.knowledge.rules import RULES
from twayblade.knowledge.trail import Route, Trail
from twayblade.knowledge.trait import Trait
from twayblade.knowledge.values import Value
from twayblade.knowledge.workspace import PlannedTrail, Taxon, Workspace
from twayblade.reading.linking import Linking, Names
from twayblade.reading.nodes import Document, read_document, read_plain
from twayblade.reading.own_pieces import link_pieces, refused_in
from twayblade.reading.photographs import read_photographs, unused_photographs
from twayblade.reading.recce import read_recces
from twayblade.reading.records import make, nearest
from twayblade.reading.route import RouteError, read_route

PAGES = "content/pages"
"""The folder of the author's pages."""
PIECES_FILE = "content/pieces.yml"
"""The file of the workspace's own pieces of drawings; it need not be there."""
_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
"""An id stands in addresses that never change."""


@dataclass(frozen=True)
class Loaded:
    """What reading a folder gave.

    `workspace` is None where anything is wrong, so that no output is made of it. `draft` holds what could be read all the
    same, so that its content can be checked in the same run; trails with mistakes are left out of it.
    """

    folder: Path
    workspace: Workspace | None
    draft: Workspace
    problems: tuple[Problem, ...]
    documents: Mapping[str, Document]

    def place(self, finding: Finding) -> Problem:
        """A finding as a problem with file, line and column."""
        document = self.documents.get(finding.spot.document)
        place = document.place(finding.spot.path, finding.spot.on_key) if document else Place(finding.spot.document)
        return Problem(finding.rule, RULES[finding.rule].severity, place, finding.message, finding.hints)


@dataclass
class _Reader:
    folder: Path
    documents: dict[str, Document] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)
    refused: set[tuple[str, str]] = field(default_factory=set)

    def document(self, file: str) -> Document:
        document = read_document(self.folder, file)
        self.documents[file] = document
        self.problems.extend(document.problems)
        return document

    def record(self, kind: Any, file: str) -> Any | None:
        document = self.document(file)
        if document.problems and document.data is None:
            return None
        made, problems = make(kind, document, {} if document.data is None else document.data)
        self.problems.extend(problems)
        return made

    def table(self, kind: Any, file: str, required: bool = False) -> dict[str, Any]:
        """A file of records by id. An entry that is refused does not take the others with it."""
        if not required and not (self.folder / file).exists():
            return {}
        document = self.document(file)
        data = {} if document.data is None else document.data
        if document.problems and document.data is None:
            self.refused.add((_word(kind), ""))
        if not isinstance(data, dict):
            self.refused.add((_word(kind), ""))
            self.problems.append(Problem("field-wrong-kind", Severity.ERROR, document.place(), "expected a mapping of ids"))
            return {}
        found = {}
        for id_, entry in data.items():
            made, problems = make(kind, document, {} if entry is None else entry, (id_,))
            self.problems.extend(problems)
            if made is None:
                self.refused.add((_word(kind), id_))
            else:
                found[id_] = made
        return found

    def pages(self) -> dict[str, Page]:
        """The author's pages, by their addresses in the folder of pages."""
        folder = self.folder / PAGES
        files = sorted(str(file.relative_to(folder)) for file in folder.rglob("*") if file.suffix in MARKDOWN and file.is_file())
        found = {}
        for file in files:
            document = read_plain(self.folder, f"{PAGES}/{file}")
            self.documents[document.file] = document
            self.problems.extend(document.problems)
            if not document.problems:
                found[file] = Page(document.file, document.text)
        return found

    def refuse(self, file: str, message: str) -> None:
        """Note that a file is not read."""
        self.problems.append(Problem("file-unreadable", Severity.ERROR, Place(file), message))

    def folder_of(self, kind: Any, folder: str) -> dict[str, Any]:
        """A folder of records, one a file, by the file's name."""
        files = sorted((self.folder / folder).glob("*.yml")) if (self.folder / folder).is_dir() else []
        for file in sorted((self.folder / folder).glob("*.yaml")):
            self.refuse(f"{folder}/{file.name}", "a file whose name ends in .yaml is not read here; let it end in .yml")
        for file in files:
            if not _ID.fullmatch(file.stem) or file.stem == "index":
                self.refuse(f"{folder}/{file.name}", f"`{file.stem}` cannot be an id; use small letters, digits and hyphens")
        files = [file for file in files if _ID.fullmatch(file.stem) and file.stem != "index"]
        made = {file.stem: self.record(kind, f"{folder}/{file.name}") for file in files}
        self.refused.update((_word(kind), id_) for id_, record in made.items() if record is None)
        return {id_: record for id_, record in made.items() if record is not None}


def _word(kind: Any) -> str:
    """What problems call a record of a kind: `trait`, `group`."""
    return "piece" if kind is OwnPiece else str(kind.__name__).lower()


def load(folder: Path) -> Loaded:
    """Read a whole workspace. Every problem is found in one run; nothing raises, whatever the files hold."""
    reader = _Reader(folder)
    traits: dict[str, Trait] = reader.table(Trait, "content/traits.yml", required=True)
    sources: dict[str, Source] = reader.table(Source, "content/sources.yml")
    glossary: dict[str, Term] = reader.table(Term, "content/glossary.yml")
    own: dict[str, OwnPiece] = reader.table(OwnPiece, PIECES_FILE)
    pieces = {name: piece.kind(name) for name, piece in own.items()} | {name: piece.kind() for name, piece in PIECES.items()}
    if PIECES_FILE in reader.documents:
        reader.refused |= refused_in(reader.documents[PIECES_FILE].data, own)
    groups: dict[str, Group] = reader.folder_of(Group, "content/groups")
    regions: dict[str, Region] = reader.folder_of(Region, "content/regions")
    profiles: dict[str, Profile] = reader.folder_of(Profile, "content/species")
    trails: dict[str, Trail] = {}
    for file in sorted(folder.glob("*/trail.yml")):
        trail = reader.record(Trail, f"{file.parent.name}/trail.yml")
        if trail is not None:
            trails[file.parent.name] = trail
    pages = reader.pages()
    names = Names(traits, sources, groups, regions, _named(reader, profiles), glossary, pieces, frozenset(reader.refused))
    if PIECES_FILE in reader.documents:
        link_pieces(link(reader, names, PIECES_FILE), own)
    taxa = _linked(reader, names, profiles)
    planned = {id_: PlannedTrail(id_, trail, _route(reader, id_, trail)) for id_, trail in trails.items()}
    for id_, trail in trails.items():
        link(reader, names, f"{id_}/trail.yml").trail(trail)
    photographs = _photographs(reader, profiles)
    problems = sorted(reader.problems, key=lambda p: p.order)
    faulty = {p.place.file for p in problems if p.severity is Severity.ERROR}
    whole = {id_ for id_, p in planned.items() if p.trail.region in regions and all(t in taxa for s in p.trail.stops for t in s.taxa)}
    planned = {id_: p for id_, p in planned.items() if id_ in whole and p.document not in faulty}
    draft = Workspace(traits, sources, glossary, groups, regions, taxa, planned, pages, pieces, own, photographs)
    draft, of_recces = _with_recces(folder, draft)
    return Loaded(folder, None if faulty else draft, draft, tuple(sorted([*problems, *of_recces], key=lambda p: p.order)), reader.documents)


def _with_recces(folder: Path, workspace: Workspace) -> tuple[Workspace, list[Problem]]:
    """The workspace with the visits that stand beside its trails. What is wrong in them stops nothing: no output is made of them."""
    trails, problems = {}, []
    for id_, planned in workspace.trails.items():
        recces, found = read_recces(folder, planned, workspace)
        trails[id_] = replace(planned, recces=recces)
        problems += found
    return replace(workspace, trails=trails), problems


def link(reader: _Reader, names: Names, file: str) -> Linking:
    """A linking of one document whose problems go to the reader."""
    return Linking(names, reader.documents[file], reader.problems)


def _named(reader: _Reader, profiles: Mapping[str, Profile]) -> dict[str, Profile]:
    """The profiles, those that could not be read standing in by name only, so that others may refer to them."""
    refused = [Path(file).stem for file in reader.documents if file.startswith("content/species/")]
    stand_in = Profile(name=ScientificName(genus="Unreadable"), common_names={})
    return {id_: profiles.get(id_, stand_in) for id_ in refused}


def _linked(reader: _Reader, names: Names, profiles: Mapping[str, Profile]) -> dict[str, Taxon]:
    for id_, trait in names.traits.items():
        link(reader, names, "content/traits.yml").trait(id_, trait)
    for id_, source in names.sources.items():
        link(reader, names, "content/sources.yml").known("region", source.region, names.regions, (id_, "region"))
    for id_, term in names.glossary.items():
        link(reader, names, "content/glossary.yml").term(id_, term)
    shared: dict[str, dict[str, Value]] = {}
    for id_, group in names.groups.items():
        linking = link(reader, names, f"content/groups/{id_}.yml")
        linking.sources(group)
        shared[id_] = linking.values(id_, group.values)
    for id_, region in names.regions.items():
        link(reader, names, f"content/regions/{id_}.yml").region(region)
    taxa = {}
    for id_, profile in profiles.items():
        own = link(reader, names, f"content/species/{id_}.yml").profile(id_, profile)
        taxa[id_] = Taxon(id_, profile, {**shared.get(profile.group or "", {}), **own})
    return taxa


def _photographs(reader: _Reader, profiles: Mapping[str, Profile]) -> dict[str, str]:
    found, problems = read_photographs(reader.folder, profiles, reader.documents)
    reader.problems += problems
    # A profile with mistakes may mean any of the files that seem to be left over.
    if not any(p.severity is Severity.ERROR and p.place.file.startswith("content/species/") for p in reader.problems):
        reader.problems += unused_photographs(reader.folder, found)
    return found


def _route(reader: _Reader, id_: str, trail: Trail) -> Route | None:
    if not trail.route:
        return None
    try:
        return read_route(reader.folder / id_ / trail.route, tuple(stop.id for stop in trail.stops))
    except RouteError as reason:
        document = reader.documents[f"{id_}/trail.yml"]
        numbers = [n for n, stop in enumerate(trail.stops) if stop.id == reason.stop]
        place = document.place(("stops", numbers[0], "id")) if numbers else document.place(("route",))
        hints = nearest(reason.stop, reason.known) if reason.stop and reason.known else ()
        help_ = hints or ("name the waypoint in the file by the stop's id, put the stops in the order they are walked, or leave `route:` out",)
        reader.problems.append(Problem("route-unusable", Severity.ERROR, place, str(reason), help_))
        return None
