"""Photographs on the site: with words for those who cannot see them, with their credit, and where there is none with nothing."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from bs4 import Tag
from click.testing import Result
from PIL import Image
from tests.conftest import copy_workspace
from tests.site.built import Built, lost_links, read_site

Run = Callable[..., Result]
CRESS = """name: Petrocardamum fictum Invented
common-names: {en: [stone cress]}
summary: A low plant of stony places. [invented]
hazard: {class: none-found, text: "No harm is on record, because the plant is made up. [invented]"}
values: {flipper-length: "1-2 mm [invented]"}
photographs:
  - file: wide.jpg
    maker: Smith & <Sons>
    licence: CC BY 4.0
    licence-address: https://creativecommons.org/licenses/by/4.0/
    stage: flower
    traits: [bill-colour, crest]
    shows: White "flowers" & leaves.
  - file: high.png
    maker: An invented author
    licence: all rights reserved
    stage: ripe-fruit
    shows: "Its parts are {shorter than in the Adélie penguin | stone-cress from adelie-penguin by flipper-length}. [invented]"
  - file: little.webp
    maker: An invented author
    licence: CC0 1.0
    stage: dry-stem
    shows: A stem.
"""
SIZES = {"wide.jpg": (2400, 1600), "high.png": (600, 900), "little.webp": (200, 100)}


@pytest.fixture(scope="module")
def garden(penguins: Path, tmp_path_factory: pytest.TempPathFactory, run: Run) -> Path:
    """The penguins beside an invented plant with photographs, and the site made of them."""
    folder = copy_workspace(penguins, tmp_path_factory.mktemp("garden") / "workspace")
    (folder / "content/species/stone-cress.yml").write_text(CRESS, encoding="utf-8")
    (folder / "content/photographs").mkdir()
    for name, size in SIZES.items():
        Image.linear_gradient("L").resize(size).convert("RGB").save(folder / "content/photographs" / name)
    result = run("-C", folder, "build")
    assert result.exit_code == 0, result.output
    return folder


@pytest.fixture(scope="module")
def page(garden: Path) -> Built:
    return read_site(garden / "site")["taxa/stone-cress.html"]


def figures(page: Built) -> list[tuple[Tag, str]]:
    """The image of each figure, and the words of its caption."""
    found = []
    for figure in page.main.select("figure"):
        (image,), (caption,) = figure.select("img"), figure.select("figcaption")
        found.append((image, " ".join(caption.get_text().split())))
    return found


def test_each_has_words_that_stand_for_it(page: Built) -> None:
    """HTML Living Standard, 4.8.4.4: the words that replace an image; they do not say again what the caption says."""
    assert [image["alt"] for image, _ in figures(page)] == [
        'White "flowers" & leaves.',
        "Its parts are shorter than in the Adélie penguin.",
        "A stem.",
    ]
    assert "White" not in figures(page)[0][1]


def test_each_is_credited_as_its_licence_asks_and_says_in_which_stage_and_what_to_look_at(page: Built) -> None:
    """CC BY 4.0, section 3(a)(1): the maker, the licence with a link to it, and whether it was changed."""
    first, second, third = (caption for _, caption in figures(page))
    assert first == ("In flower. To be seen: colour of the bill and crest of the head. Photograph: Smith & <Sons>, CC BY 4.0, made smaller.")
    (link,) = page.main.select("figure a[rel~=license]")
    assert (link["href"], link.get_text()) == ("https://creativecommons.org/licenses/by/4.0/", "CC BY 4.0")
    assert second.startswith("In ripe fruit.")
    assert "Photograph: An invented author, all rights reserved." in second
    assert third == "As dry stems. Photograph: An invented author, CC0 1.0."


def test_a_claim_in_its_words_can_be_opened_like_any_other(page: Built) -> None:
    (anchor,) = page.main.select("figcaption .claimed")
    assert anchor["data-claim"] == "flipper-length/stone-cress/adelie-penguin"
    assert page.main.select("#evidence-1")


def test_they_stand_in_a_section_of_their_own_before_the_traits(page: Built) -> None:
    headings = [heading.get_text() for heading in page.main.select("h2")]
    assert headings.index("How to know it") == headings.index("Photographs") + 1


def candidates(image: Tag) -> list[tuple[str, int]]:
    return [(a, int(w.removesuffix("w"))) for a, w in (one.split() for one in str(image.get("srcset", "")).split(", ") if one)]


def test_every_copy_a_page_offers_is_there_and_as_wide_as_it_says(garden: Path, page: Built) -> None:
    """HTML Living Standard, 4.8.4.2: `srcset`; a width and a height keep the text from jumping."""
    offered = set()
    for image, _ in figures(page):
        with Image.open(garden / "site/taxa" / str(image["src"])) as opened:
            assert opened.size == (int(str(image["width"])), int(str(image["height"])))
        for address, width in candidates(image):
            with Image.open(garden / "site/taxa" / address) as opened:
                assert opened.width == width
        offered |= {str(image["src"]), *(address for address, _ in candidates(image))}
    there = {f"../{file.relative_to(garden / 'site').as_posix()}" for file in (garden / "site/photographs").rglob("*.jpg")}
    assert offered == there
    assert [len(candidates(image)) for image, _ in figures(page)] == [2, 2, 0]


def test_a_page_asks_for_no_more_than_a_photograph_has(page: Built) -> None:
    """By `sizes` a browser lays an image out: a size above its width in pixels would enlarge it."""
    for image, _ in figures(page):
        if candidates(image):
            laid_out = int(str(image["sizes"]).rsplit(", ", 1)[1].removesuffix("px"))
            assert 0 < laid_out <= int(str(image["width"]))


def test_the_files_of_the_author_stay_at_home(garden: Path) -> None:
    own = {(garden / "content/photographs" / name).read_bytes() for name in SIZES}
    assert not own & {file.read_bytes() for file in (garden / "site").rglob("*") if file.is_file()}
    assert lost_links(garden / "site", read_site(garden / "site")) == []


def test_the_same_site_comes_out_again(garden: Path, run: Run, tmp_path: Path) -> None:
    again = copy_workspace(garden, tmp_path / "again")
    shutil.rmtree(again / "site", ignore_errors=True)
    assert run("-C", again, "build").exit_code == 0
    for file in (garden / "site/photographs").rglob("*.jpg"):
        assert (again / file.relative_to(garden)).read_bytes() == file.read_bytes()


def test_where_there_is_no_photograph_nothing_is_shown(garden: Path, penguins: Path) -> None:
    for page in read_site(garden / "site").values():
        if page.address != "taxa/stone-cress.html":
            assert not page.main.select("img[src*='photographs/']")
            assert "Photographs" not in [heading.get_text() for heading in page.main.select("h2")]
