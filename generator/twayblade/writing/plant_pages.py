"""The pages about plants: each taxon, each pair, groups, lists, the year, the glossary, the drawings."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.season import day_of
from twayblade.knowledge.workspace import Taxon
from twayblade.reasoning.lookalikes import Pair, look_alikes_of
from twayblade.reasoning.outline import stages_seen
from twayblade.reasoning.seeing import Bar
from twayblade.reasoning.telling import best_few, tell_apart, tempting
from twayblade.writing.addresses import (
    pair_address,
    taxon_address,
)
from twayblade.writing.cautions import harm_words, with_look_alikes
from twayblade.writing.evidence import FewestSigns, evidence_line, fewest_signs
from twayblade.writing.key_pictures import lead_pictures
from twayblade.writing.photographs import figures
from twayblade.writing.phrases import capital, date_words, days_words, listed, sentence
from twayblade.writing.site_frame import Frame, Page
from twayblade.writing.stages import stage_words

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
        others = {on: self._names_then(pair, on) for on in (self.frame.trail.trail.dates if self.frame.trail else ()) if on != self.frame.on}
        address = pair_address(pair.first, pair.second)
        title = self.frame.label.plain("pair.title", first=capital(first.common_name), second=second.common_name)
        care = self.frame.care(with_look_alikes(self.frame.pairs, (pair.first, pair.second)))
        return Page(
            address,
            title,
            self.frame.render(
                "pair.html",
                address,
                pair=pair,
                first=first,
                second=second,
                care=care,
                own_care=self.frame.care((pair.first, pair.second)),
                others=others,
                beside=self.frame.drawings.of_pair(first, second),
                **lines,
            ),
        )

    def _names_then(self, pair: Pair, on: date) -> str:
        """The names of the traits that tell a pair apart on another date of the walk."""
        telling = tell_apart(self.workspace, Occasion(on, self.frame.means, self.frame.region, (pair.first, pair.second)))
        names = dict.fromkeys(self.workspace.traits[t.difference.trait].name for t in telling.told if t.is_usable)
        return listed(names) if names else "nothing that may be looked at"

    def _pairs(self) -> Page:
        return Page("compare.html", self.frame.label.plain("menu.compare"), self.frame.render("pairs.html", "compare.html", pairs=self.frame.pairs))

    def _taxa(self) -> Page:
        title = self.frame.label.plain("menu.plants" if self.frame.is_botanical else "menu.kinds")
        return Page("taxa.html", title, self.frame.render("taxa.html", "taxa.html", title=title, taxa=self.frame.sorted_taxa, harm=harm_words))

    def _taxon(self, taxon: Taxon) -> Page:
        address = taxon_address(taxon.id)
        alike = look_alikes_of(self.frame.pairs, taxon.id)
        best = {}
        for other in alike:
            telling = self.frame.telling(taxon.id, other)
            usable = best_few(self.workspace, telling.told)
            best[other] = evidence_line(self.workspace, usable[0], telling.occasion, taxon.id) if usable else None
        stages = stages_seen(self.workspace, taxon, self.frame.on, self.frame.region) if self.frame.on else ()
        context = {
            "taxon": taxon,
            "profile": taxon.profile,
            "fewest": self._fewest(taxon),
            "now": sentence(f"on {date_words(self.frame.on)}: {stage_words(stages)}") if self.frame.on and taxon.profile.seasons else "",
            "care": self.frame.care(tuple(with_look_alikes(self.frame.pairs, (taxon.id,)))),
            "alike": best,
            "drawn": self.frame.drawings.of_taxon(taxon),
            "figures": figures(self.workspace, taxon, self.frame.photographs),
            "organs": self.frame.profile_words.organs(taxon),
            "seasons": self.frame.profile_words.seasons(taxon),
            "forms": self.frame.profile_words.forms(taxon),
            "group": self.workspace.groups.get(taxon.profile.group or ""),
            "title": capital(taxon.common_name),
        }
        return Page(address, capital(taxon.common_name), self.frame.render("taxon.html", address, **context))

    def _fewest(self, taxon: Taxon) -> FewestSigns:
        """The fewest signs of a taxon on the day of the walk (without a walk, at any time) against every other taxon of the site."""
        everyone = (taxon.id, *(t.id for t in self.frame.sorted_taxa if t.id != taxon.id))
        return fewest_signs(self.workspace, taxon, Occasion(self.frame.on, self.frame.means, self.frame.region, everyone))

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
        months = [day_of(date(2024, month, 1)) for month in range(1, 13)]
        rows = []
        for taxon in self.frame.sorted_taxa:
            if taxon.profile.seasons:
                marks = [self.frame.profile_words.month_mark(taxon, start) for start in months]
                flowering = self.workspace.windows(taxon, "flower", self.frame.region)
                words = "; ".join(days_words(((w.when.start, w.when.end),)) for w in flowering)
                rows.append((taxon, marks, words))
        return Page(
            "year.html",
            self.frame.label.plain("menu.year"),
            self.frame.render("year.html", "year.html", rows=rows, care=self.frame.care(tuple(self.workspace.taxa))),
        )

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
