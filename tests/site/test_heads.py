"""What stands in the heads of pages for machines, and what a site says of itself once it is known where it will be found."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from datetime import date
from pathlib import Path
from xml.etree import ElementTree

import pytest
from click.testing import Result
from tests.conftest import copy_workspace
from tests.site.built import Built, read_site

Site = dict[str, Built]
ADDRESS = "https://example.org/birds/"
PROTOCOL = "{http://www.sitemaps.org/schemas/sitemap/0.9}"


def described(page: Built) -> str:
    (meta,) = page.tree.select("meta[name=description]")
    return str(meta["content"])


def in_theme(site: Site) -> dict[str, Built]:
    """All pages but those that are whole in themselves, and that for lost readers, which stands for no page."""
    return {address: page for address, page in site.items() if not address.endswith("-read.html") and address != "404.html"}


def test_every_page_says_what_it_holds_and_no_two_pages_say_the_same(built: Site) -> None:
    found = {address: described(page) for address, page in in_theme(built).items()}
    assert all(found.values())
    assert len(set(found.values())) == len(found)


def test_the_data_of_every_page_can_be_read_and_name_the_page(built: Site) -> None:
    for address, page in in_theme(built).items():
        (script,) = page.tree.select("script[type='application/ld+json']")
        data = json.loads(script.get_text())
        assert data["@context"] == "https://schema.org"
        assert data["@type"] == ("WebSite" if address == "index.html" else "WebPage")
        heading = page.main.select_one("h1")
        assert heading
        if address.startswith(("taxa/", "trails/", "groups/")):
            assert data["name"].lower() == heading.get_text().lower() or data["name"] in (page.tree.title.get_text() if page.tree.title else "")


def test_a_site_of_which_nobody_knows_where_it_will_be_found_claims_no_address(built: Site, demo_site: Path) -> None:
    assert not (demo_site / "sitemap.xml").exists()
    assert [address for address, page in built.items() if page.tree.select("link[rel=canonical]")] == []


@pytest.fixture(scope="module")
def penguin_workspace_with(penguins: Path, tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], Path]:
    def made(settings: str) -> Path:
        folder = copy_workspace(penguins, tmp_path_factory.mktemp("penguins") / "workspace")
        with (folder / "mkdocs.yml").open("a", encoding="utf-8") as config:
            config.write(settings)
        return folder

    return made


@pytest.fixture(scope="module")
def found_site(penguin_workspace_with: Callable[[str], Path], run: Callable[..., Result]) -> Path:
    """A site that says where it will be found, and as of when its data hold."""
    folder = penguin_workspace_with(f"site_url: {ADDRESS}\nextra:\n  data_date: 2026-06-05\n")
    result = run("-C", folder, "build")
    assert result.exit_code == 0, result.output
    return folder / "site"


def test_the_sitemap_has_every_page_once_as_the_protocol_wants_it(found_site: Path) -> None:
    """sitemaps.org, protocol 0.9: `urlset` of `url` with one `loc` each, absolute, under the place of the file, of fewer than 2,048 signs;
    `lastmod` in W3C date format; at most 50,000 of them; UTF-8."""
    text = (found_site / "sitemap.xml").read_text(encoding="utf-8")
    assert text.startswith('<?xml version="1.0" encoding="UTF-8"?>')
    root = ElementTree.fromstring(text)
    assert root.tag == f"{PROTOCOL}urlset"
    assert {child.tag for child in root} == {f"{PROTOCOL}url"}
    found = []
    for url in root:
        fields = {field.tag.removeprefix(PROTOCOL): field.text or "" for field in url}
        assert set(fields) <= {"loc", "lastmod", "changefreq", "priority"}
        assert fields["loc"].startswith(ADDRESS)
        assert len(fields["loc"]) < 2048
        assert date.fromisoformat(fields["lastmod"]) == date(2026, 6, 5)
        found.append(fields["loc"].removeprefix(ADDRESS))
    assert sorted(found) == sorted(in_theme(read_site(found_site)))


def test_each_page_names_its_own_address_and_so_does_its_data(found_site: Path) -> None:
    for address, page in in_theme(read_site(found_site)).items():
        (link,) = page.tree.select("link[rel=canonical]")
        assert link["href"] == ADDRESS + address
        (script,) = page.tree.select("script[type='application/ld+json']")
        assert json.loads(script.get_text())["url"] == ADDRESS + address.removesuffix("index.html")  # the first page is the site


def test_the_day_of_the_data_stands_on_every_page_that_has_a_foot(found_site: Path, built: Site) -> None:
    for page in in_theme(read_site(found_site)).values():
        assert page.tree.footer
        assert "Data as of 5 June 2026." in page.tree.footer.get_text()


@pytest.mark.parametrize("written", ["soon", "2026-06", "[2026-06-05]", "2026-06-05 10:00:00"])
def test_a_day_of_the_data_that_is_no_day_is_refused(written: str, penguin_workspace_with: Callable[[str], Path], run: Callable[..., Result]) -> None:
    result = run("-C", penguin_workspace_with(f"extra:\n  data_date: {written}\n"), "build")
    assert result.exit_code != 0
    assert re.search(r"data_date .*expected the day", result.output)
