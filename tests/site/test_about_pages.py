"""The pages about the site keep nothing back: everything there is to print, everything that is not known, everything a device keeps."""

from __future__ import annotations

import base64
import gzip
import json
import re
from pathlib import Path

import icalendar
import pytest
from pypdf import PdfReader
from tests.site.built import Built

from twayblade.knowledge.workspace import Workspace
from twayblade.writing.offline import is_kept

Site = dict[str, Built]


def test_everything_made_for_paper_is_listed_with_its_size_and_pages(built: Site, demo_site: Path) -> None:
    """Pages counted by pypdf, sizes by the disk."""
    page, listed = built["printed.html"], {}
    for item in page.main.select("ul.links li"):
        link = item.a
        assert link
        listed[str(link["href"])] = item.get_text(" ")
    files = {file.relative_to(demo_site).as_posix(): file for kind in ("*.pdf", "*.csv") for file in demo_site.rglob(kind)}
    assert {address for address in listed if not address.endswith(".html")} == set(files)
    for address, file in files.items():
        size = re.search(r"(\d+) kB", listed[address])
        assert size
        assert 0 <= int(size[1]) * 1000 - file.stat().st_size < 1000
        if file.suffix == ".pdf":
            assert re.search(rf"\b{len(PdfReader(file).pages)} pages?, ", listed[address]), address


def test_what_is_said_of_pages_in_large_print_is_what_the_file_has(built: Site, demo_site: Path) -> None:
    said = [item.get_text(" ") for item in built["printed.html"].main.select("li") if "In large print it takes" in item.get_text()]
    assert said
    for text in said:
        found = re.findall(r"(\d+) pages", text)
        assert len(set(found)) == 1, text


def test_the_calendar_is_there_and_led_to(built: Site, demo_site: Path) -> None:
    assert icalendar.Calendar.from_ical((demo_site / "year.ics").read_bytes()).events
    for address in ("year.html", "printed.html"):
        assert ("year.ics", "") in built[address].led_to(built[address].main)


def test_every_plant_on_the_list_of_the_region_is_on_the_page_of_what_is_covered(built: Site, demo_workspace: Workspace) -> None:
    words = built["coverage.html"].words
    region = demo_workspace.regions["north-west-lowlands"]
    for entry in region.recorded:
        assert (demo_workspace.taxa[entry.taxon].common_name if entry.taxon else entry.name).lower() in words.lower()
    assert f"{len(region.recorded)} plants" in words


def test_harmful_plants_without_a_page_come_first_with_their_harm(built: Site, demo_workspace: Workspace) -> None:
    page = built["coverage.html"]
    heading = page.main.find("h3")
    assert heading
    harmful = [e for e in demo_workspace.regions["north-west-lowlands"].recorded if not e.taxon and e.hazard.is_harmful]
    items = heading.find_next("ul")
    assert items
    assert len(items.select("li .harm")) == len(harmful)


@pytest.fixture(scope="module")
def packed(demo_site: Path) -> dict[str, bytes]:
    """What a device keeps of the site, by address, out of its packs."""
    found = {}
    for file in (demo_site / "offline").iterdir():
        for address, (_, text, is_64) in json.loads(gzip.decompress(file.read_bytes())).items():
            found[address] = base64.b64decode(text) if is_64 else text.encode()
    return found


def test_what_is_kept_are_the_files_of_the_site_as_they_are(packed: dict[str, bytes], demo_site: Path) -> None:
    assert set(packed) == {a for file in demo_site.rglob("*") if file.is_file() and is_kept(a := file.relative_to(demo_site).as_posix())}
    assert all((demo_site / address).read_bytes() == content for address, content in packed.items())


def test_whatever_a_kept_page_is_made_of_is_kept_too(packed: dict[str, bytes], built: Site) -> None:
    for address in packed:
        if address.endswith(".html"):
            page = built[address]
            parts = {target for part in page.tree.select("link[href], img, script[src]") for target, _ in page.led_to(part.parent or part)}
            assert {part for part in parts if not part.endswith((".html", ".pdf", ".csv", ".vtt", ".ics"))} <= set(packed), address


def test_a_copy_for_the_field_is_small_enough_to_be_fetched_and_its_size_is_told(demo_site: Path) -> None:
    """Project goal for the demo: 2,048 kB."""
    told = re.search(r'"size":(\d+)', (demo_site / "data" / "offline.js").read_text(encoding="utf-8"))
    assert told
    size = sum(file.stat().st_size for file in (demo_site / "offline").iterdir())
    assert size <= int(told[1]) * 1000 <= size + 20_000
    assert int(told[1]) <= 2048
