"""The pages about plants: each taxon, each pair, groups, lists, the year, the glossary, the drawings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from functools import reduce
from operator import or_

from markupsafe import Markup

from twayblade.knowledge.season import day_of
from twayblade.knowledge.workspace import Taxon
from twayblade.reasoning.lookalikes import Pair, look_alikes_of
from twayblade.reasoning.seeing import Bar
from twayblade.reasoning.telling import MOST_BEST, tempting
from twayblade.writing.addresses import (
    YEAR_CALENDAR,
    pair_address,
    taxon_address,
)
from twayblade.writing.cautions import harm_words, with_look_alikes
from twayblade.writing.dated import days_attribute
from twayblade.writing.evidence import Line, evidence_line
from twayblade.writing.key_pictures import lead_pictures
from twayblade.writing.photographs import figures
from twayblade.writing.phrases import capital, listed
from twayblade.writing.site_frame import Frame, Page
from twayblade.writing.year_chart import year_charts
from twayblade.writing.year_words import FewestThen, best_lines, fewest_through_year, states_through_year

PLANT = "plant"
"""The piece by which the page of a group shows its members, to one scale."""


class PlantPages:
    """The pages about the taxa of a site."""

    def __init__(self, frame: Frame) -> None:
        self.frame, self.workspace = frame, frame.workspace

    def pages(self) -> Iterator[Page]:
        """Every page, in a fixed order."""
        for taxon in self.frame.sorted_taxa:
            yield self._taxon(taxon)
        for pair in self.frame.pairs:
            yield self._pair(pair)
        yield self._pairs()
        yield self._tell()
        yield self._taxa()
        for id_ in self.workspace.groups:
            yield self._group(id_)
        yield self._year()
        yield self._glossary()
        yield self._drawings()

    def ask_for_drawings(self) -> None:
        """Have every picture made that a page shows, whether the pages were written yet or not."""
        for taxon in self.workspace.taxa.values():
            self.frame.drawings.of_taxon(taxon)
        for pair in self.frame.pairs:
            self.frame.drawings.of_pair(self.workspace.taxa[pair.first], self.workspace.taxa[pair.second])
        for id_ in self.workspace.groups:
            self.frame.drawings.of_group(self.frame.members(id_), PLANT)
        for trait_id, trait in self.workspace.traits.items():
            for state in trait.states:
                self.frame.drawings.of_state(trait_id, state)
        for written in self.frame.written_keys.values():
            lead_pictures(self.frame.drawings, written)
        self.frame.drawings.of_pieces()

    def _pair(self, pair: Pair) -> Page:
        telling = self.frame.telling(pair.first, pair.second)
        first, second = self.workspace.taxa[pair.first], self.workspace.taxa[pair.second]
        dated = {d.difference: d for d in self.frame.tables[frozenset((pair.first, pair.second))].contrasts}
        good = [t for t in telling.told if t.verdict.is_good and Bar.UNSAFE not in t.bars]
        sections = {
            "by_eye": [t for t in good if t.is_usable and t.difference in dated],
            "never_both": [t for t in good if t.is_usable and t.difference not in dated],
            "otherwise": [t for t in good if not t.is_usable],
            "never": tempting(self.workspace, telling.told),
        }
        lines = {
            heading: [evidence_line(self.workspace, t, telling.occasion, dated=dated.get(t.difference)) for t in found]
            for heading, found in sections.items()
        }
        address = pair_address(pair.first, pair.second)
        title = self.frame.label.plain("pair.title", first=capital(first.common_name), second=second.common_name)
        html = self.frame.render(
            "pair.html",
            address,
            pair=pair,
            first=first,
            second=second,
            care=self.frame.care(with_look_alikes(self.frame.pairs, (pair.first, pair.second))),
            own_care=self.frame.care((pair.first, pair.second)),
            dates={on: self._names_then(pair, on) for on in (self.frame.trail.trail.dates if self.frame.trail else ())},
            beside=self.frame.drawings.of_pair(first, second),
            most=MOST_BEST,
            **lines,
        )
        return Page(address, title, html)

    def _names_then(self, pair: Pair, on: date) -> str:
        """The names of the traits that tell a pair apart on a date of the walk."""
        day = day_of(on)
        usable = [d for d in self.frame.tables[frozenset((pair.first, pair.second))].contrasts if d.usable >> day & 1]
        names = dict.fromkeys(self.workspace.traits[d.difference.trait].name for d in usable)
        return listed(names) if names else "nothing that may be looked at"

    def _pairs(self) -> Page:
        days = {pair: self._days_apart(pair) for pair in self.frame.pairs}
        html = self.frame.render("pairs.html", "compare.html", days={pair: days_attribute(found) for pair, found in days.items()})
        return Page("compare.html", self.frame.label.plain("menu.compare"), html)

    def _days_apart(self, pair: Pair) -> int:
        """The days (bits) on which something tells a pair apart that readers may use."""
        return reduce(or_, (d.usable for d in self.frame.tables[frozenset((pair.first, pair.second))].contrasts), 0)

    def _tell(self) -> Page:
        html = self.frame.render(
            "tell.html", "tell.html", taxa=self.frame.sorted_taxa, pairs=self.frame.pairs, care=self.frame.care(tuple(self.workspace.taxa))
        )
        return Page("tell.html", self.frame.label.plain("tell.title"), html)

    def _taxa(self) -> Page:
        title = self.frame.label.plain("menu.plants" if self.frame.is_botanical else "menu.kinds")
        return Page("taxa.html", title, self.frame.render("taxa.html", "taxa.html", title=title, taxa=self.frame.sorted_taxa, harm=harm_words))

    def _taxon(self, taxon: Taxon) -> Page:
        address = taxon_address(taxon.id)
        context = {
            "taxon": taxon,
            "profile": taxon.profile,
            "fewest": self._fewest(taxon),
            "states": states_through_year(self.workspace, taxon, self.frame.region) if taxon.profile.seasons else (),
            "care": self.frame.care(tuple(with_look_alikes(self.frame.pairs, (taxon.id,)))),
            "alike": {other: self._best_lines(taxon, other) for other in look_alikes_of(self.frame.pairs, taxon.id)},
            "drawn": self.frame.drawings.of_taxon(taxon),
            "figures": figures(self.workspace, taxon, self.frame.photographs),
            "organs": self.frame.profile_words.organs(taxon),
            "seasons": self.frame.profile_words.seasons(taxon),
            "forms": self.frame.profile_words.forms(taxon),
            "group": self.workspace.groups.get(taxon.profile.group or ""),
            "title": capital(taxon.common_name),
        }
        return Page(address, capital(taxon.common_name), self.frame.render("taxon.html", address, **context))

    def _fewest(self, taxon: Taxon) -> tuple[FewestThen, ...]:
        """The fewest signs of a taxon on each day of the year against every other taxon of the site."""
        everyone = (taxon.id, *(t.id for t in self.frame.sorted_taxa if t.id != taxon.id))
        return fewest_through_year(self.workspace, taxon, replace(self.frame.any_day, taxa=everyone))

    def _best_lines(self, taxon: Taxon, other: str) -> tuple[tuple[Line | None, Markup], ...]:
        return best_lines(self.workspace, self.frame.tables[frozenset((taxon.id, other))], self.frame.any_day, taxon.id)

    def _group(self, id_: str) -> Page:
        group = self.workspace.groups[id_]
        members = self.frame.members(id_)
        rows = []
        for trait_id, trait in self.workspace.traits.items():
            known = [t for t in members if trait_id in t.values]
            if len(known) * 2 > len(members) and not self.frame.profile_words.is_unsafe(trait_id, tuple(members)):
                cells = [self.frame.profile_words.values(t, trait_id) for t in members]
                rows.append((trait, cells, len(set(cells)) > 1))
        address = f"groups/{id_}.html"
        care = self.frame.care(with_look_alikes(self.frame.pairs, tuple(t.id for t in members)))
        return Page(
            address,
            capital(group.name),
            self.frame.render(
                "group.html", address, group=group, members=members, rows=rows, drawn=self.frame.drawings.of_group(members, PLANT), care=care
            ),
        )

    def _year(self) -> Page:
        address, care = "year.html", self.frame.care(tuple(self.workspace.taxa))
        charts = year_charts(self.workspace, self.frame.sorted_taxa, self.frame.region)
        calendar = YEAR_CALENDAR if self.frame.calendar else ""
        html = self.frame.render("year.html", address, charts=charts, year=self.frame.flowering, calendar=calendar, care=care)
        return Page(address, self.frame.label.plain("menu.year"), html)

    def _glossary(self) -> Page:
        terms = sorted(self.workspace.glossary.items(), key=lambda item: item[1].term.lower())
        return Page(
            "glossary.html",
            self.frame.label.plain("menu.glossary"),
            self.frame.render(
                "glossary.html",
                "glossary.html",
                terms=terms,
                traits=self.workspace.traits,
                glossary=self.workspace.glossary,
                picture=self.frame.drawings.of_state,
            ),
        )

    def _drawings(self) -> Page:
        """The contact sheet: how drawings are made, every piece in every manner, and every taxon."""
        drawn = [(taxon, self.frame.drawings.of_taxon(taxon)) for taxon in self.frame.sorted_taxa]
        care = self.frame.care(tuple(self.workspace.taxa))
        return Page(
            "drawings.html",
            self.frame.label.plain("menu.drawings"),
            self.frame.render("drawings.html", "drawings.html", pieces=self.frame.drawings.of_pieces(), drawn=drawn, care=care),
        )
