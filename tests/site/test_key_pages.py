"""The pocket key as a page: it is followed by links alone, on a phone, and every end says what it must."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from bs4 import Tag
from tests.conftest import DEMO_DATES
from tests.site.built import Built

from twayblade.knowledge.workspace import Workspace
from twayblade.writing.key_words import CARE, WrittenKey, write_key

Site = dict[str, Built]


@pytest.fixture(scope="module")
def written(demo_workspace: Workspace) -> WrittenKey:
    return write_key(demo_workspace, demo_workspace.trails["demo_trail"], DEMO_DATES[1])


def address(on: date, layout: str = "") -> str:
    return f"keys/demo_trail-{on}{layout}.html"


def taxa_in(end: Tag) -> list[str]:
    return [str(link["href"]).removeprefix("../taxa/").removesuffix(".html") for link in end.select(".name a")]


def test_following_the_links_from_the_first_couplet_comes_to_every_plant(built: Site, written: WrittenKey) -> None:
    page = built[address(written.on)]
    reached: set[str] = set()
    waiting, seen = ["couplet-1"], set()
    while waiting:
        couplet = page.main.find(id=waiting.pop())
        assert isinstance(couplet, Tag)
        seen.add(couplet["id"])
        for end in couplet.select(".end"):
            reached |= set(taxa_in(end))
        leads = [str(link["href"]).removeprefix("#") for link in couplet.select("a.lead-to")]
        waiting += [id_ for id_ in leads if id_ not in seen]
    assert reached == set(written.covers)
    assert len(seen) == len(written.couplets)


def test_every_couplet_leads_back_to_where_it_is_come_from(built: Site, written: WrittenKey) -> None:
    page = built[address(written.on)]
    for couplet in written.couplets:
        shown = page.main.find(id=f"couplet-{couplet.number}")
        assert isinstance(shown, Tag)
        assert [str(link["href"]) for link in shown.select(".number a")] == [f"#couplet-{number}" for number in couplet.back]


@pytest.mark.parametrize("layout", ["", "-indented"])
@pytest.mark.parametrize("on", DEMO_DATES)
def test_every_end_says_none_of_these_fits_and_a_harmful_one_its_short_caution(built: Site, demo_workspace: Workspace, on: date, layout: str) -> None:
    page = built[address(on, layout)]
    ends = page.main.select(".end")
    assert len(ends) >= 10
    for end in ends:
        assert "None of these fits?" in end.get_text()
        harmful = [id_ for id_ in taxa_in(end) if demo_workspace.taxa[id_].hazard_class.is_harmful]
        assert bool(end.select(".short-care")) == bool(harmful)
        assert len(end.select(".name [role=img]")) == len(harmful)


@pytest.mark.parametrize("layout", ["", "-indented"])
def test_the_care_stands_before_the_first_couplet(built: Site, written: WrittenKey, layout: str) -> None:
    page = built[address(written.on, layout)]
    assert page.words.index(CARE) < page.words.index("Covers 16 of the 51") < page.words.index(written.couplets[0].leads[0].text)


def test_both_layouts_hold_the_same_leads(built: Site) -> None:
    for on in DEMO_DATES:
        bracketed, indented = (built[address(on, layout)] for layout in ("", "-indented"))
        for part in (".end .name", ".short-care"):
            assert sorted(e.get_text() for e in bracketed.main.select(part)) == sorted(e.get_text() for e in indented.main.select(part))


def test_all_printed_forms_can_be_had_and_say_how_they_fit(built: Site, demo_site: Path) -> None:
    for on in DEMO_DATES:
        for layout in ("", "-indented"):
            page = built[address(on, layout)]
            links = {str(link["href"]): link.find_parent("li") for link in page.main.select("a[href$='.pdf']")}
            assert list(links) == [f"../keys/demo_trail-{on}{form}.pdf" for form in ("", "-card", "-large")]
            for file, entry in links.items():
                assert (demo_site / "keys" / Path(file).name).read_bytes().startswith(b"%PDF")
                assert entry
                assert any(word in entry.get_text() for word in ("sheet", "card", "pages"))
