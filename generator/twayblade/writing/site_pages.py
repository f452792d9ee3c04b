"""The pages of the site that are worked out from a workspace: address, title and HTML of each."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from pathlib import Path, PurePosixPath
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.season import MONTHS, day_of
from twayblade.knowledge.text import MEMORY
from twayblade.knowledge.trait import Means
from twayblade.knowledge.workspace import PlannedTrail, Taxon, Workspace
from twayblade.reasoning.lookalikes import Pair, look_alikes, look_alikes_of
from twayblade.reasoning.outline import stages_seen
from twayblade.reasoning.scope import trail_taxa
from twayblade.reasoning.seeing import Bar
from twayblade.reasoning.telling import Telling, best_few, tell_apart, tempting
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
)
from twayblade.writing.author_pages import Anchoring
from twayblade.writing.cautions import cautions, harm_words, with_look_alikes
from twayblade.writing.chapters import chapters_vtt
from twayblade.writing.clock_words import allowance, cuts_words, minutes
from twayblade.writing.drawings import Drawings
from twayblade.writing.evidence import FewestSigns, evidence_line, fewest_signs
from twayblade.writing.fitting import PrintForm
from twayblade.writing.key_layout import Layout
from twayblade.writing.key_page import Fewest, fewest_at_ends, key_context
from twayblade.writing.key_pictures import lead_pictures
from twayblade.writing.key_words import WrittenKey, write_key
from twayblade.writing.photographs import Published, figures, publish_photograph
from twayblade.writing.phrases import capital, date_words, days_words, listed, sentence
from twayblade.writing.plan_page import plan_context
from twayblade.writing.print import Printed, print_key
from twayblade.writing.profile_words import ProfileWords
from twayblade.writing.recce_csv import sheet_csv
from twayblade.writing.recce_print import recce_pdf
from twayblade.writing.recce_words import DEFERS, HOW, NO_PLACES, WrittenSheet, write_recce
from twayblade.writing.script import Script, clock, write_script
from twayblade.writing.script_page import pictures_context, reading_context, script_context
from twayblade.writing.stages import stage_words

PLANT = "plant"
"""The piece by which the page of a group shows its members, to one scale."""


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


def _environment() -> Environment:
    made = Environment(
        loader=PackageLoader("twayblade.writing", "templates"), autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    made.filters.update(capital=capital, listed=listed, date_words=date_words, clock=clock, sentence=sentence)
    made.filters.update(minutes=minutes, allowance=allowance, cuts_words=cuts_words)
    return made


class Site:
    """All the pages of a workspace. `on` is the date that pages speak of; without trails, none.

    has_cautions: whether the author wrote a page of cautions that others may lead to. look: the style sheet of the site, which
    pages carry in themselves that must work without any other file.
    """

    def __init__(self, workspace: Workspace, has_cautions: bool = False, look: str = "") -> None:
        self.workspace = workspace
        self.look = Markup(look)
        self.has_cautions = has_cautions
        self.env = _environment()
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
    def photographs(self) -> Mapping[str, Published]:
        """The copies of every photograph, by the name of its file."""
        return {name: publish_photograph(Path(file)) for name, file in self.workspace.photographs.items()}

    def pages(self) -> Iterator[Page]:
        """Every page, in a fixed order."""
        for taxon in self._sorted_taxa():
            yield self._taxon(taxon)
        for pair in self.pairs:
            yield self._pair(pair)
        yield self._pairs()
        yield self._taxa()
        for id_ in self.workspace.groups:
            yield self._group(id_)
        yield self._year()
        for planned in self.workspace.trails.values():
            yield self._trail(planned)
            yield self._plan(planned)
            for on in planned.trail.dates:
                yield self._script(self.scripts[planned.id, on])
                yield self._pictures(self.scripts[planned.id, on])
                yield from (self._key(self.written_keys[planned.id, on], layout) for layout in Layout)
                yield self._recce(self.recce_sheets[planned.id, on])
        yield self._glossary()
        yield self._drawings()

    def downloads(self) -> Iterator[Download]:
        """Drawings, photographs, printed keys, recce sheets (printed and as tables), and of each script the page to read it aloud from and chapters."""
        self._ask_for_drawings()
        yield from (Download(picture.address, picture.svg.encode()) for picture in self.drawings.files())
        for published in self.photographs.values():
            yield from (Download(copy.address, copy.content) for copy in published.copies)
        for (trail, on), prints in self.printed_keys.items():
            for form, printed in prints.items():
                yield Download(key_address(trail, on, "pdf", form.marked), printed.pdf)
        for (trail, on), sheet in self.recce_sheets.items():
            yield Download(recce_address(trail, on, "pdf"), recce_pdf(sheet))
            yield Download(recce_address(trail, on, "csv"), sheet_csv(sheet))
        for (trail, on), script in self.scripts.items():
            yield Download(reading_address(trail, on), self._reading(script).encode())
            yield Download(chapters_address(trail, on), chapters_vtt(script).encode())

    def _ask_for_drawings(self) -> None:
        """Have every picture made that a page shows, whether the pages were written yet or not."""
        for taxon in self.workspace.taxa.values():
            self.drawings.of_taxon(taxon)
        for pair in self.pairs:
            self.drawings.of_pair(self.workspace.taxa[pair.first], self.workspace.taxa[pair.second])
        for id_ in self.workspace.groups:
            self.drawings.of_group(self._members(id_), PLANT)
        for trait_id, trait in self.workspace.traits.items():
            for state in trait.states:
                self.drawings.of_state(trait_id, state)
        for written in self.written_keys.values():
            lead_pictures(self.drawings, written)
        self.drawings.of_pieces()

    def home(self) -> str:
        """The HTML that follows the author's words on the home page."""
        return self._render(
            "home.html", "index.html", trails=list(self.workspace.trails.values()), taxa=self._sorted_taxa(), groups=self.workspace.groups
        )

    def author_page(self, source: str, markdown: str) -> tuple[str, str]:
        """A page of the author's, in Markdown, at `source`: that with its claims anchored, and the HTML of their evidence."""
        marked = Anchoring(self.workspace, self.region)
        text = marked.markdown(markdown)
        return text, self._render("claims.html", str(PurePosixPath(source).with_suffix(".html")), marked=marked)

    def menu(self) -> tuple[tuple[str, str], ...]:
        """Label and address of what the head of every page offers."""
        groups = tuple((capital(group.name), f"groups/{id_}.html") for id_, group in self.workspace.groups.items() if group.values)
        trails = tuple((t.trail.title, f"trails/{id_}.html") for id_, t in self.workspace.trails.items())
        return (
            ("Plants" if self._is_botanical else "Kinds", "taxa.html"),
            ("Tell apart", "compare.html"),
            *groups,
            ("The year", "year.html"),
            *trails,
            ("Glossary", "glossary.html"),
        )

    @property
    def _is_botanical(self) -> bool:
        return any("flower" in t.profile.seasons for t in self.workspace.taxa.values())

    # -- shared ------------------------------------------------------------------------------------------
    def _render(self, template: str, address: str, **context: Any) -> str:
        root = "../" * address.count("/")
        tools = {
            "root": root,
            "site": self,
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
            "source": self.source,
            "marked": Anchoring(self.workspace, self.region),
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
            return Markup("<span>from memory</span>") if key == MEMORY else Markup("<span>{}</span>").format(key)
        if known.address.startswith(("http://", "https://")):
            return Markup('<a href="{}" rel="external">{}</a>').format(known.address.split(" ")[0], known.title)
        return Markup("<span>{}</span>").format(known.title)

    def _sorted_taxa(self) -> list[Taxon]:
        return sorted(self.workspace.taxa.values(), key=lambda t: t.common_name)

    def _care(self, taxa: tuple[str, ...]) -> tuple[str, ...]:
        return cautions(self.workspace, taxa)

    def _telling(self, first: str, second: str) -> Telling:
        return tell_apart(self.workspace, Occasion(self.on, self._means, self.region, (first, second)))

    # -- pages -------------------------------------------------------------------------------------------
    def _pair(self, pair: Pair) -> Page:
        telling = self._telling(pair.first, pair.second)
        first, second = self.workspace.taxa[pair.first], self.workspace.taxa[pair.second]
        good = [t for t in telling.told if t.verdict.is_good and Bar.UNSAFE not in t.bars]
        best = best_few(self.workspace, telling.told)
        sections = {
            "now": best,
            "more": [t for t in good if t.is_usable and t not in best],
            "later": [t for t in good if t.bars == {Bar.NOT_THEN}],
            "otherwise": [t for t in good if t.bars - {Bar.NOT_THEN}],
            "never": tempting(self.workspace, telling.told),
        }
        lines = {heading: [evidence_line(self.workspace, t, telling.occasion) for t in found] for heading, found in sections.items()}
        others = {on: self._names_then(pair, on) for on in (self.trail.trail.dates if self.trail else ()) if on != self.on}
        address = pair_address(pair.first, pair.second)
        title = f"{capital(first.common_name)} or {second.common_name}?"
        care = self._care(with_look_alikes(self.pairs, (pair.first, pair.second)))
        return Page(
            address,
            title,
            self._render(
                "pair.html",
                address,
                title=title,
                pair=pair,
                first=first,
                second=second,
                care=care,
                own_care=self._care((pair.first, pair.second)),
                others=others,
                beside=self.drawings.of_pair(first, second),
                **lines,
            ),
        )

    def _names_then(self, pair: Pair, on: date) -> str:
        """The names of the traits that tell a pair apart on another date of the walk."""
        telling = tell_apart(self.workspace, Occasion(on, self._means, self.region, (pair.first, pair.second)))
        names = dict.fromkeys(self.workspace.traits[t.difference.trait].name for t in telling.told if t.is_usable)
        return listed(names) if names else "nothing that may be looked at"

    @property
    def _means(self) -> frozenset[Means]:
        return frozenset(self.trail.trail.means) if self.trail else Occasion(None).means

    def _pairs(self) -> Page:
        return Page("compare.html", "Tell apart", self._render("pairs.html", "compare.html", pairs=self.pairs))

    def _taxa(self) -> Page:
        title = "Plants" if self._is_botanical else "Kinds"
        return Page("taxa.html", title, self._render("taxa.html", "taxa.html", title=title, taxa=self._sorted_taxa(), harm=harm_words))

    def _taxon(self, taxon: Taxon) -> Page:
        address = taxon_address(taxon.id)
        alike = look_alikes_of(self.pairs, taxon.id)
        best = {}
        for other in alike:
            telling = self._telling(taxon.id, other)
            usable = best_few(self.workspace, telling.told)
            best[other] = evidence_line(self.workspace, usable[0], telling.occasion, taxon.id) if usable else None
        stages = stages_seen(self.workspace, taxon, self.on, self.region) if self.on else ()
        context = {
            "taxon": taxon,
            "profile": taxon.profile,
            "fewest": self._fewest(taxon),
            "now": sentence(f"on {date_words(self.on)}: {stage_words(stages)}") if self.on and taxon.profile.seasons else "",
            "care": self._care(tuple(with_look_alikes(self.pairs, (taxon.id,)))),
            "alike": best,
            "drawn": self.drawings.of_taxon(taxon),
            "figures": figures(self.workspace, taxon, self.photographs),
            "organs": self.profile_words.organs(taxon),
            "seasons": self.profile_words.seasons(taxon),
            "forms": self.profile_words.forms(taxon),
            "group": self.workspace.groups.get(taxon.profile.group or ""),
            "title": capital(taxon.common_name),
        }
        return Page(address, capital(taxon.common_name), self._render("taxon.html", address, **context))

    def _fewest(self, taxon: Taxon) -> FewestSigns:
        """The fewest signs of a taxon on the day of the walk (without a walk, at any time) against every other taxon of the site."""
        everyone = (taxon.id, *(t.id for t in self._sorted_taxa() if t.id != taxon.id))
        return fewest_signs(self.workspace, taxon, Occasion(self.on, self._means, self.region, everyone))

    def _members(self, group: str) -> list[Taxon]:
        return [t for t in self._sorted_taxa() if t.profile.group == group]

    def _group(self, id_: str) -> Page:
        group = self.workspace.groups[id_]
        members = self._members(id_)
        rows = []
        for trait_id, trait in self.workspace.traits.items():
            known = [t for t in members if trait_id in t.values]
            if len(known) * 2 > len(members) and not self.profile_words.is_unsafe(trait_id, tuple(members)):
                cells = [self.profile_words.values(t, trait_id) for t in members]
                rows.append((trait, cells, len(set(cells)) > 1))
        address = f"groups/{id_}.html"
        care = self._care(with_look_alikes(self.pairs, tuple(t.id for t in members)))
        return Page(
            address,
            capital(group.name),
            self._render("group.html", address, group=group, members=members, rows=rows, drawn=self.drawings.of_group(members, PLANT), care=care),
        )

    def _year(self) -> Page:
        months = [day_of(date(2024, month, 1)) for month in range(1, 13)]
        rows = []
        for taxon in self._sorted_taxa():
            if taxon.profile.seasons:
                marks = [self.profile_words.month_mark(taxon, start) for start in months]
                flowering = self.workspace.windows(taxon, "flower", self.region)
                words = "; ".join(days_words(((w.when.start, w.when.end),)) for w in flowering)
                rows.append((taxon, marks, words))
        return Page(
            "year.html", "The year", self._render("year.html", "year.html", rows=rows, months=MONTHS, care=self._care(tuple(self.workspace.taxa)))
        )

    def _trail(self, planned: PlannedTrail) -> Page:
        address = f"trails/{planned.id}.html"
        scripts = {on: self.scripts[planned.id, on] for on in planned.trail.dates}
        ids = tuple(dict.fromkeys(id_ for stop in planned.trail.stops for id_ in stop.taxa))
        care = self._care(tuple(with_look_alikes(self.pairs, ids)))
        html = self._render("trail.html", address, planned=planned, trail=planned.trail, scripts=scripts, keys=self.written_keys, care=care)
        return Page(address, planned.trail.title, html)

    def _plan(self, planned: PlannedTrail) -> Page:
        address = plan_address(planned.id)
        title = f"Plan: {planned.trail.title}"
        care = self._care(tuple(with_look_alikes(self.pairs, trail_taxa(planned.trail))))
        context = plan_context(self.workspace, planned, self.pairs, self.scripts)
        return Page(address, title, self._render("plan.html", address, planned=planned, trail=planned.trail, title=title, care=care, **context))

    def _script(self, script: Script) -> Page:
        return self._of_script(script_address(script.trail.id, script.on), "script.html", script_context(self.workspace, script), script)

    def _reading(self, script: Script) -> str:
        """A page of its own, which needs no other file: a script to be read aloud from a screen."""
        address = reading_address(script.trail.id, script.on)
        care = self._care(tuple(with_look_alikes(self.pairs, trail_taxa(script.trail.trail))))
        return self._render("read.html", address, care=care, look=self.look, **reading_context(self.workspace, script))

    def _pictures(self, script: Script) -> Page:
        return self._of_script(pictures_address(script.trail.id, script.on), "pictures.html", pictures_context(self.workspace, script), script)

    def _of_script(self, address: str, template: str, context: dict[str, Any], script: Script) -> Page:
        care = self._care(tuple(with_look_alikes(self.pairs, trail_taxa(script.trail.trail))))
        return Page(address, context["title"], self._render(template, address, care=care, **context))

    def _key(self, written: WrittenKey, layout: Layout) -> Page:
        indented = layout is Layout.INDENTED
        address = key_address(written.planned.id, written.on, marked="indented" if indented else "")
        title = f"Pocket key{', indented' if indented else ''}: {written.planned.trail.title}, {date_words(written.on)}"
        prints = self.printed_keys[written.planned.id, written.on]
        context = key_context(self.workspace, written, layout, self.key_signs[written.planned.id, written.on], self.drawings)
        return Page(address, title, self._render("key.html", address, title=title, prints=prints, **context))

    def _recce(self, written: WrittenSheet) -> Page:
        planned, on = written.sheet.trail, written.sheet.on
        address = recce_address(planned.id, on)
        care = written.cautions
        words = {"how": HOW, "defers": DEFERS, "no_places": NO_PLACES, "care": care}
        html = self._render("recce.html", address, **words, written=written, planned=planned, trail=planned.trail, on=on)
        return Page(address, written.heading, html)

    def _glossary(self) -> Page:
        terms = sorted(self.workspace.glossary.items(), key=lambda item: item[1].term.lower())
        return Page(
            "glossary.html",
            "Glossary",
            self._render(
                "glossary.html",
                "glossary.html",
                terms=terms,
                traits=self.workspace.traits,
                glossary=self.workspace.glossary,
                picture=self.drawings.of_state,
            ),
        )

    def _drawings(self) -> Page:
        """The contact sheet: how drawings are made, every piece in every manner, and every taxon."""
        drawn = [(taxon, self.drawings.of_taxon(taxon)) for taxon in self._sorted_taxa()]
        care = self._care(tuple(self.workspace.taxa))
        return Page(
            "drawings.html", "Drawings", self._render("drawings.html", "drawings.html", pieces=self.drawings.of_pieces(), drawn=drawn, care=care)
        )
