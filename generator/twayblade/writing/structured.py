"""What pages say of themselves to machines: a description, and data in the words of schema.org (JSON-LD). Only what is recorded."""

from __future__ import annotations

import json
from typing import Any

from markupsafe import Markup

from twayblade.knowledge.name import ScientificName
from twayblade.knowledge.workspace import PlannedTrail, Taxon
from twayblade.writing.addresses import pair_address, taxon_address, trail_address
from twayblade.writing.site_frame import Frame

Data = dict[str, Any]

HOME = "index.html"

_RANKS = {"subsp.": "subspecies", "ssp.": "subspecies", "var.": "variety", "subvar.": "subvariety", "f.": "form", "subf.": "subform"}


class Structured:
    """The descriptions and data of a site's pages."""

    def __init__(self, frame: Frame) -> None:
        self.frame, self.workspace = frame, frame.workspace
        taxa = self.workspace.taxa
        self._taxa: dict[str, tuple[Taxon, ...]] = {taxon_address(id_): (taxon,) for id_, taxon in taxa.items()}
        self._taxa |= {pair_address(p.first, p.second): (taxa[p.first], taxa[p.second]) for p in frame.pairs}
        self._trails = {trail_address(id_): planned for id_, planned in self.workspace.trails.items()}
        self._groups = {f"groups/{id_}.html": group for id_, group in self.workspace.groups.items()}

    def description(self, address: str, title: str) -> str:
        """What a page holds, in a sentence or two: from the data where they say it, else its title and what the site is."""
        said = ""
        if address == HOME:
            return self.frame.facts.description
        if len(about := self._taxa.get(address, ())) == 1:
            said = about[0].profile.summary.text if about[0].profile.summary else ""
        elif about:
            first, second = (f"{taxon.common_name} ({taxon.scientific_name})" for taxon in about)
            return self.frame.label.plain("head.pair", first=first, second=second)
        elif address in self._trails:
            said = _trail_words(self._trails[address])
        elif address in self._groups and (summary := self._groups[address].summary):
            said = summary.text
        return said or ". ".join(filter(None, [title, self.frame.facts.description]))

    def data(self, address: str, title: str) -> Markup:
        """The data of a page as the text of a script element, in which nothing can end the element early."""
        facts = self.frame.facts
        site: Data = {"@type": "WebSite", "name": facts.name}
        site |= {"url": facts.address} if facts.address else {}
        if address == HOME:
            made = {**site, "description": facts.description, "inLanguage": self.frame.label.language, **self._dated()}
        else:
            made = {"@type": "WebPage", "name": title, "description": self.description(address, title), "inLanguage": self.frame.label.language}
            made |= {"url": facts.address + address} if facts.address else {}
            made |= {"isPartOf": site, **self._dated(), **self._about(address)}
        filled = {key: value for key, value in made.items() if value}
        text = json.dumps({"@context": "https://schema.org", **filled}, ensure_ascii=False, separators=(",", ":"))
        return Markup(text.replace("<", "\\u003c").replace("&", "\\u0026"))

    def _dated(self) -> Data:
        return {"dateModified": self.frame.facts.data_date.isoformat()} if self.frame.facts.data_date else {}

    def _about(self, address: str) -> Data:
        if address in self._taxa:
            found = self._taxa[address]
            return {"about": taxon_data(found[0]) if len(found) == 1 else [_named(taxon) for taxon in found]}
        return {"about": trail_data(self._trails[address])} if address in self._trails else {}


def taxon_data(taxon: Taxon) -> Data:
    """A taxon by its scientific name, with all its common names, its rank, and the genus and family above it."""
    name, profile = taxon.profile.name, taxon.profile
    others = [each for names in profile.common_names.values() for each in names]
    above: Data = {"@type": "Taxon", "name": name.genus, "taxonRank": "genus"}
    if profile.family:
        above["parentTaxon"] = {"@type": "Taxon", "name": profile.family, "taxonRank": "family"}
    made: Data = {"@type": "Taxon", "name": name.without_authors, "alternateName": others, "taxonRank": _rank(name), "parentTaxon": above}
    if made["taxonRank"] == "genus":
        made["parentTaxon"] = above.get("parentTaxon")
    return {key: value for key, value in made.items() if value}


def _named(taxon: Taxon) -> Data:
    """A taxon on a page that is about several: the page of each says more."""
    return {"@type": "Taxon", "name": taxon.scientific_name, "alternateName": taxon.common_name}


def _rank(name: ScientificName) -> str:
    """The rank of a name; empty where its form does not say it."""
    if name.crossed_with:
        return ""
    if name.lower_ranks:
        marks = [word for word in name.lower_ranks.split() if word.endswith(".")]
        return _RANKS.get(marks[-1].removeprefix("notho"), "")
    return "species" if name.epithet else "genus"


def trail_data(planned: PlannedTrail) -> Data:
    """A walk with its stops in order, without any place on the earth: rare plants may stand there."""
    stops = [{"@type": "ListItem", "position": n, "name": stop.title} for n, stop in enumerate(planned.trail.stops, 1)]
    itinerary = {"@type": "ItemList", "numberOfItems": len(stops), "itemListElement": stops}
    trail = planned.trail
    return {
        "@type": "TouristTrip",
        "name": trail.title,
        "description": _trail_words(planned),
        "touristType": trail.audience,
        "itinerary": itinerary,
    }


def _trail_words(planned: PlannedTrail) -> str:
    """What a walk is and, for whoever reads nothing else, what of it is invented."""
    return " ".join(filter(None, [planned.trail.say, planned.trail.invented]))
