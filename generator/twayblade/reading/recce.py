"""Recce sheets that come back filled in: every cell becomes an observation or a problem with its place and a way out."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from decimal import Decimal, InvalidOperation
from functools import cached_property
from pathlib import Path

from twayblade.knowledge.bbch import parse_stages
from twayblade.knowledge.numbers import Range, convert, parse_range
from twayblade.knowledge.observation import ASPECTS, AnswerKind, Aspect, Noted, PlantSeen, Recce, StopSeen, TraitSeen
from twayblade.knowledge.problem import Problem
from twayblade.knowledge.recce_columns import ANSWERS, COLUMNS, FOUND, KNOWN
from twayblade.knowledge.rules import RULES
from twayblade.knowledge.trail import Stop
from twayblade.knowledge.trait import Kind, Trait
from twayblade.knowledge.values import UnknownState, states_named
from twayblade.knowledge.workspace import PlannedTrail, Workspace
from twayblade.reading.nodes import TextDocument, read_plain
from twayblade.reading.records import nearest
from twayblade.reading.table import DELIMITERS, Cell, read_table

FILES = "recce*.csv"
"""The recce files of a trail, in its folder."""
_DAY_IN_NAME = re.compile(r"\d{4}-\d{2}-\d{2}")
_DAY = re.compile(r"(\d{4}-\d{2}-\d{2})(?:T[\d:.]+(?:Z|[+-][\d:]+)?)?")
_OPEN = ("", "?")
"""Answers that leave a question open."""
_WAY_OUT = {
    "recce-unreadable": "write the sheet anew with `twayblade recce --csv`, and copy the answers over",
    "recce-column": "take the first line over from the sheet as it was written",
    "recce-row": "leave what the row is about as the sheet has it",
    "recce-answer": "write one of the answers that the row offers, or `?` if that could not be told",
}
"""The hint of a rule where nothing nearer can be named."""


def read_recces(folder: Path, planned: PlannedTrail, workspace: Workspace) -> tuple[tuple[Recce, ...], list[Problem]]:
    """All recce files in a trail's folder, in the order of their names."""
    files = sorted(f"{planned.id}/{file.name}" for file in (folder / planned.id).glob(FILES) if file.is_file())
    read = [read_recce(folder, file, planned, workspace) for file in files]
    return tuple(recce for recce, _ in read), [problem for _, problems in read for problem in problems]


def read_recce(folder: Path, file: str, planned: PlannedTrail, workspace: Workspace) -> tuple[Recce, list[Problem]]:
    """One filled sheet of a trail. Whatever the file holds, problems come back as values, never as exceptions."""
    document = read_plain(folder, file)
    if document.problems:
        rule = "recce-unreadable"
        told = [Problem(rule, RULES[rule].severity, p.place, p.message, p.hints or (_WAY_OUT[rule],)) for p in document.problems]
        return Recce(planned.id, file), told
    return _Filled(document, planned, workspace).recce()


def _told(rule: str, document: TextDocument, cell: Cell | None, message: str, hints: tuple[str, ...] = ()) -> Problem:
    place = document.at(cell.line, cell.column) if cell else document.at(0, 0)
    return Problem(rule, RULES[rule].severity, place, " ".join(message.split()), hints)


@dataclass
class _Row:
    """A row by its columns' names. `first`: its first cell, for what concerns all of it."""

    cells: Mapping[str, Cell]
    first: Cell
    on: date | None = None

    def text(self, column: str) -> str:
        cell = self.cells.get(column)
        return " ".join(cell.text.split()) if cell else ""

    @property
    def answered(self) -> list[str]:
        """The columns to fill in that hold an answer; a day or a unit alone answers nothing."""
        return [c for c in ANSWERS if c not in ("eventDate", "measurementUnit") and self.text(c) not in _OPEN]

    @property
    def note(self) -> str:
        return "; ".join(filter(None, (self.text("occurrenceRemarks"), self.text("measurementRemarks"))))


@dataclass
class _Filled:
    document: TextDocument
    planned: PlannedTrail
    workspace: Workspace
    problems: list[Problem] = field(default_factory=list)
    seen: dict[tuple[str, ...], Noted] = field(default_factory=dict)
    days_refused: set[str] = field(default_factory=set)

    def report(self, rule: str, cell: Cell | None, message: str, *hints: str) -> None:
        self.problems.append(_told(rule, self.document, cell, message, hints or (_WAY_OUT[rule],)))

    def recce(self) -> tuple[Recce, list[Problem]]:
        on = self._day_in_name()
        for row in self._rows():
            on = self._day(row, on)
            row.on = on
            if row.answered:
                self._row(row)
        found = self.seen.values()
        plants = tuple(s for s in found if isinstance(s, PlantSeen))
        traits = tuple(s for s in found if isinstance(s, TraitSeen))
        stops = tuple(s for s in found if isinstance(s, StopSeen))
        return Recce(self.planned.id, self.document.file, plants, traits, stops), self.problems

    # -- columns and rows --------------------------------------------------------------------------------
    def _rows(self) -> list[_Row]:
        known = {name.lower(): name for name in KNOWN}
        first_line = self.document.text.lstrip("\n").partition("\n")[0]

        def named(delimiter: str) -> int:
            return sum(cell.text.strip().lower() in known for row in read_table(first_line, delimiter).rows for cell in row)

        table = read_table(self.document.text, max(DELIMITERS, key=named))
        if table.unclosed:
            message = "a quotation mark opens here and is never closed, so that the rest of the file is one cell"
            self.report("recce-unreadable", table.unclosed, message, "close it, or remove it")
        if not any(named(delimiter) for delimiter in DELIMITERS):
            hint = "keep the first line of the sheet as `twayblade recce --csv` writes it"
            self.report("recce-unreadable", None, f"the first line names no column; expected {', '.join(COLUMNS)}", hint)
            return []
        head, *rows = table.rows
        names = self._columns(head, known, {n for row in rows for n, cell in enumerate(row) if cell.text.strip()})
        return [made for row in rows if (made := self._made(row, names))]

    def _columns(self, head: tuple[Cell, ...], known: Mapping[str, str], used: set[int]) -> list[str]:
        names: list[str] = []
        for number, cell in enumerate(head):
            plain = cell.text.strip()
            name = known.get(plain.lower(), "")
            if name in names and name:
                self.report("recce-column", cell, f"the column `{name}` stands here twice", "keep one of the two")
                name = ""
            elif not name and number in used:
                hints = nearest(plain, KNOWN) or ("put it under measurementRemarks or occurrenceRemarks",)
                self.report("recce-column", cell, f"no column `{plain}` is known, so what stands in it is not read", *hints)
            names.append(name)
        for name in ("locationID", "taxonID", "measurementType"):
            if name not in names:
                self.report("recce-column", head[0], f"the column `{name}` is missing", "take it over from the sheet as it was written")
        return names

    def _made(self, row: tuple[Cell, ...], names: list[str]) -> _Row | None:
        for cell in row[len(names) :]:
            if cell.text.strip():
                self.report("recce-row", cell, f"`{_short(cell.text)}` stands outside the columns", "put text with a separator in quotation marks")
        cells = {name: cell for name, cell in zip(names, row, strict=False) if name}
        return _Row(cells, row[0])

    # -- what a row is about -----------------------------------------------------------------------------
    def _row(self, row: _Row) -> None:
        stop = self._stop(row)
        if stop is None:
            return
        names_plant = any(row.text(column) for column in ("taxonID", "scientificName", "vernacularName"))
        taxon = self._taxon(row) if names_plant else ""
        if taxon is None:
            return
        what = row.text("measurementType")
        if not what and not taxon:
            self.report("recce-row", row.first, "the row names neither a plant nor what is measured", "fill taxonID or measurementType")
        elif not what:
            self._plant(row, stop, taxon)
        elif taxon:
            self._trait(row, stop, taxon, what)
        else:
            self._aspect(row, stop, what)

    def _stop(self, row: _Row) -> Stop | None:
        stops = {stop.id: stop for stop in self.planned.trail.stops}
        given = row.text("locationID")
        titles = {stop.title.lower(): stop for stop in stops.values()}
        found = stops.get(given) or (None if given else titles.get(row.text("locality").lower()))
        if found is None:
            hints = nearest(given, stops) or (f"the stops are {', '.join(stops)}",)
            message = f"no stop `{given}` on this trail" if given else "the row names no stop"
            self.report("recce-row", row.cells.get("locationID", row.first), message, *hints)
        return found

    def _taxon(self, row: _Row) -> str | None:
        """The taxon that a row names by id, or else by a name; None, and a problem, if none or two different ones."""
        given, taxa = row.text("taxonID"), self.workspace.taxa
        if given and given not in taxa:
            hints = nearest(given, taxa) or ("a plant without a profile can be noted under occurrenceRemarks of the stop's first plant",)
            self.report("recce-row", row.cells["taxonID"], f"no profile `{given}`", *hints)
            return None
        named = {column: self._named(row.text(column)) for column in ("scientificName", "vernacularName") if row.text(column)}
        for column, found in named.items():
            cell, written = row.cells[column], row.text(column)
            if given and given not in found and (found or column == "scientificName"):  # a common name that nobody recorded is no mistake
                self.report("recce-row", cell, f"`{written}` is not a name of `{given}`", "correct the one or the other")
                return None
            if not given and not found:
                hints = nearest(written, self.names) or ("note a plant without a profile under occurrenceRemarks of the stop's first plant",)
                self.report("recce-row", cell, f"no profile has the name `{written}`", *hints)
                return None
        fitting = set(taxa).intersection(*named.values())
        if given or len(fitting) == 1:
            return given or min(fitting)
        self.report("recce-row", row.first, "the names of the row belong to different plants, or to several", "fill taxonID")
        return None

    @cached_property
    def names(self) -> dict[str, set[str]]:
        """Every name of a taxon, in small letters, with the taxa that bear it."""
        names: dict[str, set[str]] = {}
        for id_, taxon in self.workspace.taxa.items():
            profile = taxon.profile
            common = [name for several in profile.common_names.values() for name in several]
            for name in (profile.name.with_authors, profile.name.without_authors, *common):
                names.setdefault(" ".join(name.lower().split()), set()).add(id_)
        return names

    def _named(self, name: str) -> set[str]:
        return self.names.get(name.lower(), set())

    # -- answers -----------------------------------------------------------------------------------------
    def _plant(self, row: _Row, stop: Stop, taxon: str) -> None:
        self._misplaced(row, ("measurementValue",), "the row asks for the plant itself, which is answered under occurrenceStatus and lifeStage")
        status, found = row.text("occurrenceStatus"), None
        if status not in _OPEN:
            found = FOUND.get(status.lower().replace(" ", ""))
            if found is None:
                hint = nearest(status, FOUND) or ("write present or absent",)
                self.report("recce-answer", row.cells["occurrenceStatus"], f"expected present or absent, found `{status}`", *hint)
        stages: tuple[frozenset[str], ...] = ()
        if row.text("lifeStage") not in _OPEN:
            try:
                stages = parse_stages(row.text("lifeStage"))
            except ValueError as reason:
                self.report("recce-answer", row.cells["lifeStage"], str(reason), "write the stage as the column `answers` has it")
        if found is False and stages:
            message = "the plant is noted as absent, yet a stage of it is noted"
            self.report("recce-answer", row.cells["lifeStage"], message, "correct the one or the other; neither is taken")
            return
        if found is not None or stages or row.note:
            made = PlantSeen(stop.id, row.on, row.note, row.first.line + 1, taxon, True if stages else found, stages)
            self._keep(row, ("plant", stop.id, taxon), made)

    def _trait(self, row: _Row, stop: Stop, taxon: str, what: str) -> None:
        self._misplaced(row, ("occurrenceStatus", "lifeStage"), "the row asks for a trait, which is answered under measurementValue")
        trait, part = self.workspace.traits.get(what), row.text("part") or None
        if trait is None:
            hints = nearest(what, self.workspace.traits) or ("leave measurementType as the sheet has it",)
            self.report("recce-row", row.cells["measurementType"], f"no trait `{what}`", *hints)
            return
        if part and part not in trait.parts:
            known = ", ".join(trait.parts) or "none"
            message = f"`{what}` is not looked at on the part `{part}`; its parts: {known}"
            self.report("recce-row", row.cells["part"], message, *nearest(part, trait.parts))
            return
        written = row.text("measurementValue")
        read = self._value(row, trait, written) if written not in _OPEN else (frozenset(), None)
        if read is not None and (written not in _OPEN or row.note):
            states, span = read
            made = TraitSeen(stop.id, row.on, row.note, row.first.line + 1, taxon, what, part, states, span, written)
            self._keep(row, ("trait", stop.id, taxon, what, part or ""), made)

    def _value(self, row: _Row, trait: Trait, written: str) -> tuple[frozenset[str], Range | None] | None:
        """The states or the span seen; None, and a problem, if it cannot be read."""
        try:
            if trait.kind.is_numeric:
                is_none = trait.kind is Kind.COUNT and written.lower() in ("none", "no", "nought")
                return frozenset(), _span("0" if is_none else written, trait, row.text("measurementUnit"))
            pieces = [piece.strip() for piece in re.split(r"\s+or\s+|\s+and\s+|[|;,]", written)]
            options = [piece for piece in pieces if piece] or [written]
            return frozenset().union(*(states_named(option, trait) for option in options)), None
        except UnknownState as reason:
            self.report("recce-answer", row.cells["measurementValue"], str(reason), *nearest(reason.name, reason.known))
        except (ValueError, InvalidOperation) as reason:
            unit = f" in {trait.unit}" if trait.unit else ""
            self.report("recce-answer", row.cells["measurementValue"], str(reason), f"write a number{unit}, or two with a dash between them")
        return None

    def _aspect(self, row: _Row, stop: Stop, what: str) -> None:
        self._misplaced(row, ("occurrenceStatus", "lifeStage"), "the row asks about the stop, which is answered under measurementValue")
        aspect, written = ASPECTS.get(what), row.text("measurementValue")
        if aspect is None:
            hints = nearest(what, ASPECTS) or (f"what is asked of a stop: {', '.join(ASPECTS)}",)
            self.report("recce-row", row.cells["measurementType"], f"nothing called `{what}` is asked of a stop", *hints)
            return
        try:
            answer = _answer(aspect, written, row.text("measurementUnit")) if written not in _OPEN else ""
        except ValueError as reason:
            self.report("recce-answer", row.cells["measurementValue"], str(reason), *nearest(written, aspect.answers))
            return
        self._keep(row, ("stop", stop.id, what), StopSeen(stop.id, row.on, row.note, row.first.line + 1, what, answer))

    def _misplaced(self, row: _Row, columns: tuple[str, ...], message: str) -> None:
        for column in columns:
            if row.text(column) not in _OPEN:
                self.report("recce-answer", row.cells[column], message, f"move `{_short(row.text(column))}` there, or to the remarks")

    def _keep(self, row: _Row, key: tuple[str, ...], made: Noted) -> None:
        if key in self.seen:
            message = f"this is answered twice; first in line {self.seen[key].line}, which is taken"
            self.report("recce-row", row.first, message, "keep one of the two rows")
        else:
            self.seen[key] = made

    # -- days --------------------------------------------------------------------------------------------
    def _day_in_name(self) -> date | None:
        found = _DAY_IN_NAME.search(Path(self.document.file).name)
        try:
            return date.fromisoformat(found[0]) if found else None
        except ValueError:
            return None

    def _day(self, row: _Row, before: date | None) -> date | None:
        """The day of a row; that of the row above where it has none. One wrong day copied down a column is told once."""
        written = row.text("eventDate")
        match = _DAY.fullmatch(written)
        try:
            if match:
                return date.fromisoformat(match[1])
        except ValueError:
            pass
        if written and written not in self.days_refused:
            self.days_refused.add(written)
            message = f"no such day `{written}`; expected year-month-day, as in 2026-06-05"
            self.report("recce-answer", row.cells["eventDate"], message, "a spreadsheet may have rewritten it: set the column to text")
        return None if written else before


def _short(text: str) -> str:
    plain = " ".join(text.split())
    return plain if len(plain) <= 40 else f"{plain[:37]}..."


def _point(text: str) -> str:
    """A number with a decimal point where it was written with a comma."""
    return re.sub(r"(?<=\d),(?=\d)", ".", text)


def _span(written: str, trait: Trait, unit: str) -> Range:
    """Numbers seen, in the trait's own unit; one without a unit is taken to be in it, or in that of the row. Raises ValueError."""
    span = parse_range(_point(written))
    if trait.kind is Kind.COUNT:
        if any(b != b.to_integral_value() for b in span.bounds()):
            raise ValueError(f"`{written}` is not a whole number, and this is counted")
        return convert(span, "")
    return convert(replace(span, unit=span.unit or unit or trait.unit), trait.unit)


def _answer(aspect: Aspect, written: str, unit: str) -> str | Decimal | date:
    """The answer to a question about a stop. Raises ValueError."""
    if aspect.kind is AnswerKind.CHOICE:
        if written.lower() not in aspect.answers:
            raise ValueError(f"expected one of {', '.join(aspect.answers)}, found `{written}`")
        return written.lower()
    if aspect.kind is AnswerKind.DAY:
        try:
            return date.fromisoformat(written)
        except ValueError:
            raise ValueError(f"no such day `{written}`; expected year-month-day, as in 2026-06-30") from None
    if aspect.kind is AnswerKind.NUMBER:
        number = re.fullmatch(r"(\d+(?:\.\d+)?)\s*(\S*)", _point(written))
        given = (number[2] or unit or aspect.unit) if number else ""
        if not number or given != aspect.unit:
            raise ValueError(f"expected a number{f' in {aspect.unit}' if aspect.unit else ''}, found `{written} {unit}`".rstrip())
        return Decimal(number[1])
    return written
