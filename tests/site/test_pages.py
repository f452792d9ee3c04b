"""Every page of the finished site is sound HTML, of use on a phone and to one who listens, and asks nothing of strangers."""

from __future__ import annotations

import re
from collections import Counter
from datetime import date
from itertools import pairwise
from pathlib import Path

import html5lib
from tests.site.built import Built, lost_links

Site = dict[str, Built]


def test_every_page_is_html_without_a_fault(built: Site) -> None:
    """html5lib follows the parsing rules of the HTML standard and notes every parse error they define."""
    faults = {}
    for page in built.values():
        parser = html5lib.HTMLParser(strict=False)
        parser.parse(page.source)
        if parser.errors:
            faults[page.address] = parser.errors
    assert faults == {}


def test_every_page_says_its_language_fits_a_phone_and_has_one_heading_and_a_title_of_its_own(built: Site) -> None:
    for page in built.values():
        assert page.tree.html
        assert page.tree.html.get("lang") == "en"
        assert page.tree.select_one("meta[name=viewport][content*='width=device-width']")
        assert len(page.tree.select("h1")) == 1, page.address
        assert page.tree.title
    titles = Counter(page.tree.title.get_text() for page in built.values() if page.tree.title and page.address != "404.html")
    assert [title for title, times in titles.items() if times > 1] == []


def test_headings_step_down_one_level_at_a_time(built: Site) -> None:
    """WCAG 2.2, 1.3.1: what the eye takes from the size of headings, others take from their levels."""
    for page in built.values():
        levels = [int(heading.name[1]) for heading in page.tree.select("h1, h2, h3, h4")]
        assert levels[0] == 1
        assert all(after <= before + 1 for before, after in pairwise(levels)), page.address


def test_no_id_stands_twice_on_a_page(built: Site) -> None:
    for page in built.values():
        ids = Counter(str(element["id"]) for element in page.tree.select("[id]"))
        assert [id_ for id_, times in ids.items() if times > 1] == [], page.address


def test_every_link_of_the_site_leads_to_something_that_is_there(built: Site, demo_site: Path) -> None:
    assert lost_links(demo_site, built) == []


def test_every_page_but_the_one_for_lost_readers_can_be_reached_from_the_first(built: Site) -> None:
    reached, waiting = {"index.html"}, ["index.html"]
    while waiting:
        page = built[waiting.pop()]
        for address, _ in page.led_to(page.tree):
            if address in built and address not in reached:
                reached.add(address)
                waiting.append(address)
    assert set(built) - reached == {"404.html"}


def test_addresses_are_files_so_that_the_site_opens_from_a_stick_or_a_card(built: Site) -> None:
    for page in built.values():
        for address, _ in page.led_to(page.tree):
            assert address.rpartition(".")[2] in {"html", "pdf", "csv", "css", "svg", "vtt", "js", "ics"}, (page.address, address)


def test_only_the_page_for_lost_readers_counts_from_the_top(built: Site) -> None:
    """It is shown under any address, so it cannot count from its own; all others must work wherever the site is put."""
    assert {page.address for page in built.values() if page.tree.select("[href^='/'], [src^='/']")} <= {"404.html"}


def test_nothing_is_fetched_from_elsewhere(built: Site, demo_site: Path) -> None:
    for page in built.values():
        assert page.tree.select("iframe, object, embed, form, base") == []
        assert len(page.tree.select("script:not([src]):not([type='application/ld+json'])")) == page.address.endswith("-read.html"), page.address
        assert [
            e for e in page.tree.select("link[href], [src], [srcset], [poster]") if re.match(r"(\w+:)?//", str(e.get("href") or e.get("src")))
        ] == []
        assert [e for e in page.tree.select("[style]") if "url(" in str(e["style"])] == []
        outward = [e for e in page.tree.select("[href]") if re.match(r"(\w+:)?//", str(e["href"]))]
        assert all(e.name == "a" for e in outward)
    for style in demo_site.rglob("*.css"):
        text = style.read_text(encoding="utf-8")
        assert not re.search(r"@import|//\w", text)
        assert all((style.parent / name).is_file() for name in re.findall(r"url\(\"?([^\")]*)", text))


def test_latin_names_are_marked_as_latin(built: Site) -> None:
    page = built["taxa/conium-maculatum.html"]
    assert any(i.get_text() == "Conium maculatum" for i in page.main.select("i[lang=la]"))


def test_what_the_issue_promises_is_there(built: Site, demo_site: Path) -> None:
    """A page a taxon, a page a pair, the group, the year, the trail, its plan, scripts, keys and recce sheets of each date, and so on."""
    taxa = {path.stem for path in (Path(__file__).resolve().parents[2] / "content" / "species").glob("*.yml")}
    dates = [date(2026, 5, 16), date(2026, 6, 7), date(2026, 7, 15), date(2026, 9, 16)]
    wanted = {f"taxa/{taxon}.html" for taxon in taxa}
    wanted |= {f"{kind}/demo_trail-{on}.html" for kind in ("trails", "keys", "recces") for on in dates}
    wanted |= {f"trails/demo_trail-{on}-read.html" for on in dates}
    wanted |= {"index.html", "taxa.html", "compare.html", "groups/umbellifers.html", "year.html", "trails/demo_trail.html", "plans/demo_trail.html"}
    wanted |= {
        "printed.html",
        "coverage.html",
        "glossary.html",
        "about.html",
        "cautions.html",
        "compare/anthriscus-sylvestris--conium-maculatum.html",
    }
    assert wanted <= set(built)
    assert all((demo_site / f"keys/demo_trail-{on}.pdf").read_bytes().startswith(b"%PDF") for on in dates)
    assert all((demo_site / f"recces/demo_trail-{on}.pdf").read_bytes().startswith(b"%PDF") for on in dates)
    assert all((demo_site / f"trails/demo_trail-{on}.vtt").read_bytes().startswith(b"WEBVTT") for on in dates)
    assert not list(demo_site.rglob("*.yml"))  # knowledge is published as pages, not as files
