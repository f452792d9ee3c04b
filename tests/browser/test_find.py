"""Taxa are found by any of their names, small slips forgiven, and with the keyboard alone."""

from __future__ import annotations

import random

import pytest
from tests.browser.harness import Browser

from twayblade.knowledge.workspace import Workspace
from twayblade.writing.name_table import names_of

FIND = "typed => window.twayblade.find(typed).map(([place]) => window.twayblade.names.taxa[place][0])"
FIND_ALL = f"all => all.map({FIND})"


def address(taxon: str) -> str:
    return f"taxa/{taxon}.html"


def test_every_taxon_is_found_by_each_of_its_names(browser: Browser, demo_workspace: Workspace) -> None:
    page = browser.open("taxa.html")
    names = [(name, taxon.id) for taxon in demo_workspace.taxa.values() for name, _ in names_of(taxon)]
    assert len(names) > 100
    for form in (str, str.upper, str.lower):
        found = page.evaluate(FIND_ALL, [form(name) for name, _ in names])
        assert [name for (name, taxon), places in zip(names, found, strict=True) if places[:1] != [address(taxon)]] == []


def slipped(name: str, draw: random.Random) -> str:
    """A name with one slip: a letter lost, doubled, wrong, or exchanged with the next."""
    n = draw.randrange(1, len(name) - 1)
    pair = name[n : n + 2]
    return name[:n] + draw.choice([pair[1:], pair[0] + pair, "x" + pair[1:], pair[::-1]]) + name[n + 2 :]


def test_one_slip_in_a_long_name_is_forgiven(browser: Browser, demo_workspace: Workspace) -> None:
    draw = random.Random(7)
    names = [(name, taxon.id) for taxon in demo_workspace.taxa.values() for name, _ in names_of(taxon) if len(name) > 7]
    typed = [slipped(name, draw) for name, _ in names]
    found = browser.open("taxa.html").evaluate(FIND_ALL, typed)
    assert [(t, taxon) for t, (_, taxon), places in zip(typed, names, found, strict=True) if address(taxon) not in places] == []


@pytest.mark.parametrize(
    ("typed", "taxon"),
    [
        ("schierling", "conium-maculatum"),
        ("cigue tachee", "conium-maculatum"),
        ("cowparsley", "anthriscus-sylvestris"),
        ("loosestrife", "lythrum-salicaria"),
        ("mohre", "daucus-carota"),
        ("oenanthe safranee", "oenanthe-crocata"),
        ("caucalis anth", "torilis-japonica"),
    ],
)
def test_marks_strokes_and_other_languages_are_no_hindrance(browser: Browser, typed: str, taxon: str) -> None:
    assert browser.open("taxa.html").evaluate(FIND, typed)[0] == address(taxon)


def test_what_is_no_name_finds_nothing(browser: Browser) -> None:
    page = browser.open("taxa.html")
    assert page.evaluate(FIND_ALL, ["", "  ", "xyzzy", "qq", "1234"]) == [[], [], [], [], []]


@pytest.mark.parametrize("page_address", ["taxa.html", "index.html"])
@pytest.mark.parametrize("stored", [False, True], ids=["served", "from a stick"])
def test_typing_and_the_enter_key_lead_to_the_page_on_the_same_day(browser: Browser, page_address: str, stored: bool) -> None:
    page = browser.open(page_address, on="2026-07-15", stored=stored)
    page.focus("#find")
    page.keyboard.type("poison hemlok")
    assert page.locator("[data-find] ul a").all_inner_texts()[0] == "Hemlock"
    assert page.locator("[data-find] ul li >> nth=0").inner_text().endswith("(poison hemlock)")
    assert "1" in page.inner_text("[data-find] [role=status]")
    page.keyboard.press("Enter")
    page.wait_for_url("**/taxa/conium-maculatum.html?on=2026-07-15")


def test_a_harmful_plant_is_found_with_its_warning(browser: Browser) -> None:
    page = browser.open("taxa.html")
    page.fill("#find", "hemlock")
    assert page.locator("[data-find] li strong.harm").first.inner_text().endswith("deadly")


def test_without_scripts_there_is_no_field_that_would_do_nothing(browser: Browser) -> None:
    page = browser.open("taxa.html", scripts=False)
    assert not page.locator("#find").is_visible()
    assert page.locator("ul.stand a").count() >= 18
