"""Linking: names in one file that must exist in another, and values read by the traits they are values of."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from twayblade.knowledge.library import Group, Region, Source, Term
from twayblade.knowledge.numbers import is_length
from twayblade.knowledge.pieces import Parameter, ParameterKind, PieceKind
from twayblade.knowledge.problem import Path, Problem, Severity
from twayblade.knowledge.profile import STAGES, Contrast, Ground, Profile
from twayblade.knowledge.record import Record, records_in
from twayblade.knowledge.text import MEMORY
from twayblade.knowledge.trail import PART_KINDS, Trail
from twayblade.knowledge.trait import Kind, Trait
from twayblade.knowledge.values import (
    Alternative,
    Disagreement,
    Entry,
    Statement,
    UnknownState,
    Value,
    Written,
    as_written,
    statements_of,
    states_named,
)
from twayblade.reading.nodes import Document
from twayblade.reading.records import nearest


@dataclass(frozen=True)
class Names:
    """Every id that a file may refer to."""

    traits: Mapping[str, Trait]
    sources: Mapping[str, Source]
    groups: Mapping[str, Group]
    regions: Mapping[str, Region]
    taxa: Mapping[str, Profile]
    glossary: Mapping[str, Term]
    pieces: Mapping[str, PieceKind] = field(default_factory=dict)
    refused: frozenset[tuple[str, str]] = frozenset()
    """Kind and id of what stands in a file but was refused there; without an id, all of a kind (the file was refused)."""


@dataclass
class Linking:
    """Links one document; gathers what does not exist."""

    names: Names
    document: Document
    problems: list[Problem] = field(default_factory=list)

    def report(self, rule: str, way: Path, message: str, hints: tuple[str, ...] = (), on_key: bool = False) -> None:
        """Note a problem at a way through the document."""
        self.problems.append(Problem(rule, Severity.ERROR, self.document.place(way, on_key), " ".join(message.split()), hints))

    def known(self, kind: str, name: str | None, candidates: Iterable[str], way: Path, on_key: bool = False) -> bool:
        """Whether a name exists; if not, a problem with the nearest that does. What was refused has its problem already."""
        candidates = list(candidates)
        if name is None or name in candidates:
            return True
        if not {(kind, name), (kind, "")} & self.names.refused:
            self.report("id-unknown", way, f"no {kind} `{name}`", nearest(name, candidates), on_key)
        return False

    def sources(self, record: Record, way: Path = ()) -> None:
        """Check the source keys anywhere in a record."""
        for where, found in records_in(record, way):
            for key in getattr(found, "source", ()):
                self.known("source", key, [*self.names.sources, MEMORY], (*where, "source"))

    # -- traits ------------------------------------------------------------------------------------------
    def trait(self, id_: str, trait: Trait) -> None:
        """Check what a trait refers to."""
        for number, stage in enumerate(trait.stages):
            self.known("stage", stage, STAGES, (id_, "stages", number))
        for number, way in enumerate(trait.ways):
            for stage in way.stages:
                self.known("stage", stage, STAGES, (id_, "ways", number))
        for state in trait.states:
            wider: str | None = state
            for _ in trait.states:
                wider = trait.states[wider].kind_of if wider else None
            if wider:
                self.report("notation", (id_, "states", state, "kind-of"), f"`{state}` is, by way of its wider states, a kind of itself")
        if trait.misread_by and not re.fullmatch(rf"\d+(\.\d+)?{' ' + re.escape(trait.unit) if trait.unit else ''}", trait.misread_by):
            expected = f"a number and `{trait.unit}`" if trait.unit else "a number"
            self.report("notation", (id_, "misread-by"), f"cannot read `{trait.misread_by}`; expected {expected}")
        self._drawings(id_, trait)
        if trait.needs and trait.needs.trait == id_:
            self.report("notation", (id_, "needs"), "a trait cannot need itself")
        elif trait.needs and self.known("trait", trait.needs.trait, self.names.traits, (id_, "needs")):
            needed = self.names.traits[trait.needs.trait]
            if trait.needs.state:
                self.known(f"state of `{trait.needs.trait}`", trait.needs.state, needed.state_ids, (id_, "needs"))
            elif not needed.kind.is_numeric:
                self.report(
                    "notation", (id_, "needs"), f"`{trait.needs.trait}` is no count; say which state is needed, `{trait.needs.trait} = state`"
                )

    def _drawings(self, id_: str, trait: Trait) -> None:
        """Check what a trait and its states set in drawings."""
        set_: list[Parameter] = []
        for number, drawing in enumerate(trait.draws):
            way: Path = (id_, "draws", number)
            self.known("part of this trait", drawing.part, trait.parts, way)
            if not self.known("piece", drawing.piece, self.names.pieces, way):
                continue
            parameters = self.names.pieces[drawing.piece].parameters
            if self.known(f"parameter of `{drawing.piece}`", drawing.parameter, parameters, way):
                set_.append(parameters[drawing.parameter])
                self._fits(trait, set_[-1], way)
        for state, described in trait.states.items():
            way = (id_, "states", state, "drawn")
            if described.drawn and not trait.draws:
                self.report("notation", way, f"`{described.drawn}` sets nothing: the trait has no `draws`")
            for parameter in set_:
                if parameter.kind is ParameterKind.MANNER:
                    self.known(f"manner of `{parameter.name}`", described.drawn, parameter.manners, way)

    def _fits(self, trait: Trait, parameter: Parameter, way: Path) -> None:
        """Check that a trait is of the kind that a parameter takes."""
        length = trait.kind is Kind.MEASURE and is_length(trait.unit)
        fitting = {ParameterKind.MANNER: not trait.kind.is_numeric, ParameterKind.COUNT: trait.kind is Kind.COUNT, ParameterKind.LENGTH: length}
        if not fitting[parameter.kind]:
            takes = {ParameterKind.MANNER: "states", ParameterKind.COUNT: "a count", ParameterKind.LENGTH: "a length"}[parameter.kind]
            self.report("notation", way, f"`{parameter.name}` takes {takes}, which this trait has not")

    # -- values ------------------------------------------------------------------------------------------
    def values(self, origin: str, written: Mapping[str, Written], forms: Iterable[str] = ()) -> dict[str, Value]:
        """The values of a profile or a group, by trait."""
        made: dict[str, Value] = {}
        for id_, entries in written.items():
            way: Path = ("values", id_)
            if not self.known("trait", id_, self.names.traits, way, on_key=True):
                continue
            trait = self.names.traits[id_]
            listed = entries if isinstance(entries, tuple) else (entries,)
            plain: list[Statement] = []
            disputed: list[list[tuple[tuple[Statement, ...], str | None]]] = []
            for number, item in enumerate(listed):
                there = (*way, number) if isinstance(entries, tuple) else way
                if isinstance(item, Disagreement):
                    sides = [(self._statements(e, trait, (*there, "alternatives", n), forms), e.doubted) for n, e in enumerate(item.alternatives)]
                    disputed.append(sides)
                else:
                    plain.extend(self._statements(item, trait, there, forms))
            made[id_] = Value(id_, tuple(_alternatives(tuple(plain), disputed)), origin, as_written(entries))
        return made

    def _statements(self, entry: Entry, trait: Trait, way: Path, forms: Iterable[str]) -> tuple[Statement, ...]:
        self.known("part of this trait", entry.part, trait.parts, (*way, "part"))
        self.known("stage", entry.stage, STAGES, (*way, "stage"))
        self.known("form of this taxon", entry.form, forms, (*way, "form"))
        self.known("region", entry.region, self.names.regions, (*way, "region"))
        try:
            return statements_of(entry, trait)
        except UnknownState as unknown:
            self.report("id-unknown", (*way, "is"), str(unknown), nearest(unknown.name, unknown.known))
        except ValueError as reason:
            self.report("notation", (*way, "is"), str(reason))
        return ()

    # -- the other files ---------------------------------------------------------------------------------
    def profile(self, id_: str, profile: Profile) -> dict[str, Value]:
        """Check what a profile refers to; its own values."""
        self.sources(profile)
        self.known("group", profile.group, self.names.groups, ("group",))
        for stage, windows in profile.seasons.items():
            self.known("stage", stage, STAGES, ("seasons", stage), on_key=True)
            for window in windows:
                self.known("region", window.region, self.names.regions, ("seasons", stage))
        for number, part in enumerate(profile.name_meaning):
            self.known("word of the name", part.part, profile.name.words, ("name-meaning", number, "part"))
            if part.rests_on:
                self._rests_on(part.rests_on, ("name-meaning", number, "rests-on"))
        for number, contrast in enumerate(profile.contrasts):
            self._contrast(id_, contrast, ("contrasts", number))
        for number, photograph in enumerate(profile.photographs):
            self.known("stage", photograph.stage, STAGES, ("photographs", number, "stage"))
            for place, trait in enumerate(photograph.traits):
                self.known("trait", trait, self.names.traits, ("photographs", number, "traits", place))
        return self.values(id_, profile.values, profile.forms)

    def _rests_on(self, text: str, way: Path) -> None:
        trait, _, state = (piece.strip() for piece in text.partition("="))
        if self.known("trait", trait, self.names.traits, way) and not self.names.traits[trait].kind.is_numeric:
            self.known(f"state of `{trait}`", state, self.names.traits[trait].state_ids, way)

    def _contrast(self, id_: str, contrast: Contrast, way: Path) -> None:
        if contrast.from_ == id_:
            self.report("contrast-itself", (*way, "from"), f"`{id_}` is contrasted with itself")
        self.known("taxon", contrast.from_, self.names.taxa, (*way, "from"))
        for number, ground in enumerate(contrast.by):
            there = (*way, "by", number)
            if self.known("trait", ground.trait, self.names.traits, (*there, "trait")):
                self._ground(ground, self.names.traits[ground.trait], there)

    def _ground(self, ground: Ground, trait: Trait, way: Path) -> None:
        self.known("part of this trait", ground.part, trait.parts, (*way, "part"))
        for side, claimed in (("this", ground.this), ("other", ground.other)):
            for option in claimed:
                try:
                    statements_of(Entry(is_=option), trait) if trait.kind.is_numeric else states_named(option, trait)
                except UnknownState as unknown:
                    self.report("id-unknown", (*way, side), str(unknown), nearest(unknown.name, unknown.known))
                except ValueError as reason:
                    self.report("notation", (*way, side), str(reason))

    def region(self, region: Region) -> None:
        """Check what a region's list refers to."""
        self.sources(region)
        for number, recorded in enumerate(region.recorded):
            self.known("taxon", recorded.taxon, self.names.taxa, ("recorded", number, "taxon"))

    def term(self, id_: str, term: Term) -> None:
        """Check what a glossary entry refers to."""
        for other in term.see:
            self.known("term", other, self.names.glossary, (id_, "see"))

    def trail(self, trail: Trail) -> None:
        """Check what a trail refers to."""
        self.known("region", trail.region, self.names.regions, ("region",))
        if trail.main_date and trail.main_date not in trail.dates:
            self.report("date-impossible", ("main-date",), f"`{trail.main_date}` is not among the dates of this trail")
        for number, on in enumerate(trail.dates):
            if on in trail.dates[:number]:
                self.report("id-double", ("dates", number), f"`{on}` stands twice among the dates")
        for taxon in trail.key.likely:
            self.known("taxon", taxon, self.names.taxa, ("key", "likely", taxon), on_key=True)
        seen: set[str] = set()
        for number, stop in enumerate(trail.stops):
            if stop.id in seen:
                self.report("id-double", ("stops", number, "id"), f"two stops are called `{stop.id}`")
            seen.add(stop.id)
            for position, taxon in enumerate(stop.taxa):
                there: Path = ("stops", number, "taxa", position)
                if taxon in self._listed_only(trail.region):
                    message = f"`{taxon}` is on the region's list, but has no profile"
                    self.report("id-unknown", there, message, (f"write content/species/{taxon}.yml",))
                else:
                    self.known("taxon", taxon, self.names.taxa, there)
            if stop.instead:
                self.known("taxon", stop.instead, self.names.taxa, ("stops", number, "instead"))
            for part in stop.words:
                self.known("part of a stop", part, PART_KINDS, ("stops", number, "words", part), on_key=True)

    def _listed_only(self, region: str) -> set[str]:
        """The ids that the plants of a region's list without a profile would have."""
        recorded = self.names.regions[region].recorded if region in self.names.regions else ()
        return {entry.name.lower().replace(" ", "-") for entry in recorded if entry.name} - set(self.names.taxa)


def _alternatives(plain: tuple[Statement, ...], disputed: list[list[tuple[tuple[Statement, ...], str | None]]]) -> Iterator[Alternative]:
    """Every way of settling the disagreements, the undisputed statements being part of each."""
    if not disputed:
        yield Alternative(plain)
        return
    first, *others = disputed
    for statements, doubted in first:
        for rest in _alternatives(plain, others):
            yield Alternative(statements + rest.statements, doubted or rest.doubted)
