"""No comparative sentence without a verdict behind it, and the reader can see the evidence and its source."""

from __future__ import annotations

import re

from bs4 import Tag
from tests.site.built import Built

from twayblade.knowledge.workspace import Workspace

Site = dict[str, Built]


def pair_pages(built: Site) -> dict[tuple[str, str], Built]:
    found = {}
    for address, page in built.items():
        if address.startswith("compare/"):
            first, second = address.removeprefix("compare/").removesuffix(".html").split("--")
            found[first, second] = page
    return found


def section(page: Built, heading: str) -> list[Tag]:
    """The claims under the heading that begins with some words."""
    for found in page.main.select("h2"):
        if found.get_text().startswith(heading):
            following = found.find_next_sibling(["ol", "ul", "h2"])
            return following.select("li.claim") if following and following.name != "h2" else []
    return []


def test_every_claim_of_a_pair_page_is_about_its_two_taxa_and_a_trait_that_exists(built: Site, demo_workspace: Workspace) -> None:
    pages = pair_pages(built)
    assert len(pages) > 20
    for pair, page in pages.items():
        claims = page.main.select("li.claim")
        assert claims, page.address
        for claim in claims:
            trait, *taxa = str(claim["data-claim"]).split("/")
            assert trait in demo_workspace.traits
            assert tuple(sorted(taxa)) == pair


def test_every_claim_shows_what_both_profiles_say(built: Site, demo_workspace: Workspace) -> None:
    for page in pair_pages(built).values():
        for claim in page.main.select("li.claim"):
            trait, *taxa = str(claim["data-claim"]).split("/")
            shown = " ".join(claim.select_one("details").get_text(" ").split())  # type: ignore[union-attr]
            assert "Verdict:" in shown
            for taxon in taxa:
                value = demo_workspace.taxa[taxon].values[trait]
                assert " ".join(value.written.split()) in shown, page.address


def test_what_separates_now_holds_and_what_not_to_rely_on_does_not(built: Site) -> None:
    for page in pair_pages(built).values():
        for heading, verdict in (("What separates", "Verdict: holds"), ("At another time", "Verdict: holds"), ("With a lens", "Verdict: holds")):
            for claim in section(page, heading):
                assert verdict in claim.get_text(" ")
        for claim in section(page, "Do not rely on"):
            assert "Verdict: holds" not in claim.get_text(" ")


def test_usually_is_said_where_it_is_meant(built: Site) -> None:
    """`Holds usually`: the text must say so."""
    hedges = re.compile(r"\b(?:usually|mostly|rarely|sometimes|often|some|at the (?:most|least)|or more)\b")
    for page in pair_pages(built).values():
        for claim in page.main.select("li.claim"):
            if "Verdict: holds usually" in claim.get_text(" ") and claim.p:
                assert hedges.search(claim.p.get_text(" ")), (page.address, claim.p.get_text(" "))


def test_what_an_author_marks_in_a_profile_or_a_group_leads_to_its_evidence(built: Site) -> None:
    page = built["groups/umbellifers.html"]
    anchors = page.main.select(".claimed")
    assert anchors
    for anchor in anchors:
        assert "{" not in page.words
        number = str(anchor["id"]).removeprefix("claim-")
        evidence = page.main.find(id=f"evidence-{number}")
        assert isinstance(evidence, Tag)
        assert evidence["data-claim"] == anchor["data-claim"]
        assert "Verdict: holds" in evidence.get_text(" ")
        assert evidence.select(".sources a")
