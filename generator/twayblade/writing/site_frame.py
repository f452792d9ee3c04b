"""What all pages of the site share: the workspace and the day they speak of, what was worked out once, and how a page is rendered."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from pathlib import Path
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.text import MEMORY
from twayblade.knowledge.trait import Means
from twayblade.knowledge.workspace import PlannedTrail, Taxon, Workspace
from twayblade.reasoning.lookalikes import Pair, look_alikes
from twayblade.reasoning.plan import Year, plan_year
from twayblade.reasoning.tables import PairTable, pair_tables
from twayblade.reasoning.telling import Telling, tell_apart
from twayblade.writing.addresses import (
    chapters_address,
    key_address,
    pair_address,
    pictures_address,
    plan_address,
    reading_address,
    recce_address,
    script_address,
    taxon_address,
    value_anchor,
)
from twayblade.writing.author_pages import Anchoring
from twayblade.writing.cautions import cautions
from twayblade.writing.clock_words import allowance, cuts_words, minutes
from twayblade.writing.drawing_words import drawing_caption
from twayblade.writing.drawings import Drawings
from twayblade.writing.fitting import PrintForm
from twayblade.writing.key_page import Fewest, fewest_at_ends
from twayblade.writing.key_words import WrittenKey, write_key
from twayblade.writing.labels import Labels, read_labels
from twayblade.writing.photographs import Published, publish_photograph
from twayblade.writing.phrases import capital, listed, sentence
from twayblade.writing.print import Printed, print_key
from twayblade.writing.profile_words import ProfileWords
from twayblade.writing.recce_csv import sheet_csv
from twayblade.writing.recce_print import recce_pdf
from twayblade.writing.recce_words import WrittenSheet, write_recce
from twayblade.writing.registers import ScriptForm
from twayblade.writing.script import Script, clock, write_script
from twayblade.writing.script_print import script_pdf
from twayblade.writing.tell_tables import TellTables
from twayblade.writing.year_calendar import flowering_turns, year_ics
from twayblade.writing.year_words import FloweringLine, flowering_line

DAY = Markup("<span data-date></span>")
"""Where a script writes the date that a page speaks of."""


@dataclass(frozen=True)
class Page:
    """A page: its address in the site (ending in .html), its title and the HTML of its body."""

    address: str
    title: str
    html: str


@dataclass(frozen=True)
class Download:
    """A file of the site that is not a page."""

    address: str
    content: bytes


@dataclass(frozen=True)
class SiteFacts:
    """What is said of the site as a whole: its name, what it is in a sentence, the address at which it will be found (with a stroke at its end;
    empty if nothing may rest on it), and the day as of which its data hold."""

    name: str = ""
    description: str = ""
    address: str = ""
    data_date: date | None = None


def _environment(labels: Labels) -> Environment:
    made = Environment(
        loader=PackageLoader("twayblade.writing", "templates"), autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    made.globals.update(label=labels, told=labels.told, labelled=labels.labelled)
    made.filters.update(told=labels.mark, decimal=labels.decimal)
    made.filters.update(capital=capital, listed=listed, date_words=labels.date, clock=clock, sentence=sentence)
    made.filters.update(minutes=minutes, allowance=allowance, cuts_words=cuts_words)
    return made


class Frame:
    """A workspace as a site shows it. `on` is the date that pages speak of; without trails, none.

    has_cautions: whether the author wrote a page of cautions that others may lead to. look: the style sheet of the site, which
    pages carry in themselves that must work without any other file. labels: the words of the interface.
    facts: what is said of the site as a whole.
    """

    def __init__(
        self,
        workspace: Workspace,
        has_cautions: bool = False,
        look: str = "",
        labels: Labels | None = None,
        facts: SiteFacts | None = None,
    ) -> None:
        self.workspace = workspace
        self.facts = facts or SiteFacts()
        self.label = labels or read_labels()
        self.look = Markup(look)
        self.has_cautions = has_cautions
        self.env = _environment(self.label)
        trails = list(workspace.trails.values())
        self.trail: PlannedTrail | None = trails[0] if trails else None
        self.on: date | None = self.trail.trail.chief_date if self.trail else None
        self.region = self.trail.trail.region if self.trail else workspace.home_region
        self.pairs: tuple[Pair, ...] = look_alikes(workspace)
        self.profile_words = ProfileWords(workspace, self.region)
        self.drawings = Drawings(workspace, self.region)

    @cached_property
    def written_keys(self) -> Mapping[tuple[str, date], WrittenKey]:
        """Every trail's key for each of its dates."""
        return {(t.id, on): write_key(self.workspace, t, on) for t in self.workspace.trails.values() for on in t.trail.dates}

    @cached_property
    def key_signs(self) -> Mapping[tuple[str, date], Fewest]:
        """The fewest signs of the taxa that stand alone in each key."""
        return {of: fewest_at_ends(self.workspace, written) for of, written in self.written_keys.items()}

    @cached_property
    def years(self) -> Mapping[str, Year]:
        """The year of every trail."""
        return {t.id: plan_year(self.workspace, t, self.pairs) for t in self.workspace.trails.values()}

    @cached_property
    def scripts(self) -> Mapping[tuple[str, date], Script]:
        """Every trail's script for each of its dates."""
        return {(t.id, on): write_script(self.workspace, t, on, self.pairs) for t in self.workspace.trails.values() for on in t.trail.dates}

    @cached_property
    def recce_sheets(self) -> Mapping[tuple[str, date], WrittenSheet]:
        """Every trail's recce sheet for each of its dates."""
        return {key: write_recce(self.workspace, script.plan, self.pairs) for key, script in self.scripts.items()}

    @cached_property
    def printed_keys(self) -> Mapping[tuple[str, date], Mapping[PrintForm, Printed]]:
        """Every key in each of the printed forms."""
        return {
            of: {form: print_key(self.workspace, written, form, drawings=self.drawings) for form in PrintForm}
            for of, written in self.written_keys.items()
        }

    @cached_property
    def printed_scripts(self) -> Mapping[tuple[str, date], Mapping[ScriptForm, bytes]]:
        """Every script in each of the printed forms, as PDF."""
        return {of: {form: script_pdf(self.workspace, script, form) for form in ScriptForm} for of, script in self.scripts.items()}

    @cached_property
    def recce_files(self) -> Mapping[tuple[str, date], tuple[bytes, bytes]]:
        """Every recce sheet as PDF and as a table (CSV)."""
        return {of: (recce_pdf(sheet), sheet_csv(sheet)) for of, sheet in self.recce_sheets.items()}

    @cached_property
    def calendar(self) -> bytes:
        """The calendar of the year, from that of the site's day on; empty where nothing flowers, or without a day."""
        turns = flowering_turns(self.workspace, self.region)
        if not turns or not self.on:
            return b""
        return year_ics(turns, self.on.year, self.facts.data_date or self.on, self.label.plain("year.calendar_name"))

    @cached_property
    def photographs(self) -> Mapping[str, Published]:
        """The copies of every photograph, by the name of its file."""
        return {name: publish_photograph(Path(file)) for name, file in self.workspace.photographs.items()}

    # -- what pages are made with ------------------------------------------------------------------------
    def render(self, template: str, address: str, **context: Any) -> str:
        """A template as HTML, with what every page may use; links go from the page's address."""
        root = "../" * address.count("/")
        tools = {
            "root": root,
            "site": self,
            "day": DAY,
            "value_anchor": value_anchor,
            "on": self.on,
            "name": lambda id_: self.workspace.taxa[id_].common_name,
            "latin": lambda id_: self.latin(self.workspace.taxa[id_]),
            "taxon_link": lambda id_: root + taxon_address(id_),
            "pair_link": lambda a, b: root + pair_address(a, b),
            "pictures_link": lambda trail, on: root + pictures_address(trail, on),
            "script_link": lambda trail, on: root + script_address(trail, on),
            "reading_link": lambda trail, on: root + reading_address(trail, on),
            "chapters_link": lambda trail, on: root + chapters_address(trail, on),
            "plan_link": lambda trail: root + plan_address(trail),
            "key_link": lambda trail, on, ending="html", marked="": root + key_address(trail, on, ending, marked),
            "recce_link": lambda trail, on, ending="html": root + recce_address(trail, on, ending),
            "names": lambda ids: self.label.mark(", ".join(self.workspace.taxa[id_].common_name for id_ in ids)),
            "portrait": lambda taxon: next(iter(self.drawings.of_taxon(taxon)), None),
            "caption": lambda picture, taxon: drawing_caption(self.workspace, picture.piece, taxon, picture.form),
            "source": self.source,
            "marked": Anchoring(self.workspace, self.region, self.label),
            "has_pair": lambda a, b: any({a, b} == {p.first, p.second} for p in self.pairs),
        }
        return self.env.get_template(template).render(**{**tools, **context})

    def latin(self, taxon: Taxon) -> Markup:
        """The scientific name with its language marked."""
        return Markup('<i lang="la" class="latin">{}</i>').format(taxon.scientific_name)

    def source(self, key: str) -> Markup:
        """A source key as a link, where it has an address."""
        known = self.workspace.sources.get(key)
        if key == MEMORY or known is None:
            return Markup("<span{}>{}</span>").format(self.label.labelled, self.label("claims.memory") if key == MEMORY else key)
        if known.address.startswith(("http://", "https://")):
            return Markup('<a href="{}" rel="external">{}</a>').format(known.address.split(" ")[0], known.title)
        return Markup("<span>{}</span>").format(known.title)

    @property
    def any_day(self) -> Occasion:
        """Any day of the year, by what readers may use."""
        return Occasion(None, self.means, self.region)

    @cached_property
    def tell_tables(self) -> dict[str, Any]:
        """What tells every two taxa apart on any day, for the scripts of the site."""
        return TellTables(self.workspace, self.region, self.tables.values(), self.pairs, self.drawings).value()

    @cached_property
    def flowering(self) -> tuple[FloweringLine, ...]:
        """Every taxon by its common name, as lists by the day have it; none where nothing flowers."""
        return tuple(flowering_line(self.workspace, taxon, self.region) for taxon in self.sorted_taxa) if self.is_botanical else ()

    @cached_property
    def tables(self) -> Mapping[frozenset[str], PairTable]:
        """What tells every two taxa apart on any day."""
        return {frozenset((table.first, table.second)): table for table in pair_tables(self.workspace, self.any_day)}

    @cached_property
    def sorted_taxa(self) -> list[Taxon]:
        """Every taxon, by its common name."""
        return sorted(self.workspace.taxa.values(), key=lambda t: t.common_name)

    def care(self, taxa: tuple[str, ...]) -> tuple[str, ...]:
        """The cautions of the harmful ones among some taxa, the deadliest first."""
        return cautions(self.workspace, taxa)

    def telling(self, first: str, second: str) -> Telling:
        """What tells two taxa apart on any day."""
        return tell_apart(self.workspace, replace(self.any_day, taxa=(first, second)))

    @property
    def is_botanical(self) -> bool:
        """Whether it is about plants."""
        return any("flower" in t.profile.seasons for t in self.workspace.taxa.values())

    @property
    def means(self) -> frozenset[Means]:
        """What a reader may use."""
        return frozenset(self.trail.trail.means) if self.trail else Occasion(None).means

    def members(self, group: str) -> list[Taxon]:
        """The taxa of a group, by their common names."""
        return [t for t in self.sorted_taxa if t.profile.group == group]
