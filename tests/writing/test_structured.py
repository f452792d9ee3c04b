"""What pages say of themselves to machines is what is recorded, in words that schema.org has, and leads nobody to a plant."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from twayblade.knowledge.name import ScientificName
from twayblade.knowledge.workspace import Workspace
from twayblade.writing.site_frame import Frame, SiteFacts
from twayblade.writing.structured import Structured, taxon_data

FACTS = SiteFacts("A site", "What it is", "https://example.org/plants/", date(2026, 6, 5))

# Types and their properties, inherited ones included, as schema.org 30.0 has them (schemaorg/schemaorg, data/releases/30.0; Taxon is pending there).
SCHEMA = {
    "WebSite": {"name", "url", "description", "inLanguage", "dateModified"},
    "WebPage": {"name", "url", "description", "inLanguage", "dateModified", "isPartOf", "about"},
    "Taxon": {"name", "alternateName", "taxonRank", "parentTaxon"},
    "TouristTrip": {"name", "description", "touristType", "itinerary"},
    "ItemList": {"numberOfItems", "itemListElement"},
    "ListItem": {"position", "name"},
}


@pytest.fixture(scope="module")
def said(demo_workspace: Workspace) -> Structured:
    return Structured(Frame(demo_workspace, facts=FACTS))


def parts(found: Any) -> Iterator[dict[str, Any]]:
    """Every thing that is described, those within others included."""
    if isinstance(found, list):
        for each in found:
            yield from parts(each)
    elif isinstance(found, dict):
        yield found
        for each in found.values():
            yield from parts(each)


def read(said: Structured, address: str, title: str = "A title") -> dict[str, Any]:
    found: dict[str, Any] = json.loads(said.data(address, title))
    return found


PAGES = (
    "index.html",
    "taxa/conium-maculatum.html",
    "compare/anthriscus-sylvestris--conium-maculatum.html",
    "trails/demo_trail.html",
    "glossary.html",
)


@pytest.mark.parametrize("address", PAGES)
def test_only_types_and_properties_of_the_vocabulary_are_used(said: Structured, address: str) -> None:
    found = read(said, address)
    assert found.pop("@context") == "https://schema.org"
    for part in parts(found):
        assert set(part) - {"@type"} <= SCHEMA[part["@type"]]
        assert all(value for value in part.values())


def test_a_taxon_stands_with_its_names_its_rank_and_what_it_belongs_to(said: Structured) -> None:
    about = read(said, "taxa/conium-maculatum.html")["about"]
    assert (about["name"], about["taxonRank"]) == ("Conium maculatum", "species")
    assert {"hemlock", "Gefleckter Schierling"} <= set(about["alternateName"])
    assert (about["parentTaxon"]["name"], about["parentTaxon"]["parentTaxon"]["name"]) == ("Conium", "Apiaceae")


@pytest.mark.parametrize(
    ("name", "rank"),
    [
        ("Conium maculatum L.", "species"),
        ("Conium L.", "genus"),
        ("Daucus carota L. subsp. sativus (Hoffm.) Arcang.", "subspecies"),
        ("Rosa gallica L. var. gallica", "variety"),
        ("Salix alba L. × Salix fragilis L.", None),  # a formula names no rank
    ],
)
def test_the_rank_is_that_of_the_name(demo_workspace: Workspace, name: str, rank: str | None) -> None:
    taxon = demo_workspace.taxa["conium-maculatum"]
    named = replace(taxon, profile=taxon.profile.model_copy(update={"name": ScientificName.model_validate(name)}))
    assert taxon_data(named).get("taxonRank") == rank


def test_a_walk_is_told_in_the_order_of_its_stops_without_a_place_and_says_what_is_invented(said: Structured, demo_workspace: Workspace) -> None:
    trip = read(said, "trails/demo_trail.html")["about"]
    stops = [item["name"] for item in trip["itinerary"]["itemListElement"]]
    trail = demo_workspace.trails["demo_trail"].trail
    assert stops == [stop.title for stop in trail.stops]
    assert trail.invented in trip["description"]
    assert not {"geo", "address", "latitude", "longitude", "location"} & {key for part in parts(trip) for key in part}


def test_addresses_are_told_only_where_it_is_known_at_which_the_site_will_be_found(demo_workspace: Workspace, said: Structured) -> None:
    assert read(said, "glossary.html")["url"] == "https://example.org/plants/glossary.html"
    nowhere = Structured(Frame(demo_workspace, facts=SiteFacts("A site")))
    for address in PAGES:
        assert not any("url" in part or "dateModified" in part for part in parts(read(nowhere, address)))


def test_nothing_in_the_data_can_end_its_element(demo_workspace: Workspace) -> None:
    """HTML standard, 4.12.1.3: what stands in a script element must hold neither `<!--` nor `</script`."""
    found = Structured(Frame(demo_workspace, facts=replace(FACTS, name="</script><!-- & co")))
    text = found.data("glossary.html", "<b>")
    assert "<" not in text
    assert json.loads(text)["isPartOf"]["name"] == "</script><!-- & co"


def test_descriptions_come_from_the_data_where_they_say_what_a_page_holds(said: Structured, demo_workspace: Workspace) -> None:
    for id_, taxon in demo_workspace.taxa.items():
        assert taxon.profile.summary
        assert said.description(f"taxa/{id_}.html", "") == taxon.profile.summary.text
    assert "hemlock (Conium maculatum)" in said.description("compare/anthriscus-sylvestris--conium-maculatum.html", "")
    assert said.description("glossary.html", "Glossary") == "Glossary. What it is"
