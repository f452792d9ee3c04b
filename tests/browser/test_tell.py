"""What the browser says of any two taxa is what Python says, and the page that tells two or three apart can be used in every way."""

from __future__ import annotations

from datetime import date
from itertools import combinations
from typing import Any

import pytest
from tests.browser.harness import Browser

from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.season import day_of
from twayblade.knowledge.trait import EYE, Means
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.seeing import Bar
from twayblade.reasoning.telling import Told, best_few, tell_apart, tempting
from twayblade.writing.cautions import cautions
from twayblade.writing.phrases import contrast_sentence, rests_on_memory, useless_sentence

DATES = [date(2026, 6, 7), date(2026, 9, 16), date(2024, 2, 29), date(2026, 12, 31)]
REGION = "north-west-lowlands"
AIDED = frozenset({*EYE, Means.LENS, Means.RULER})

ALL_PAIRS = """day => {
  const { tables, tell } = window.twayblade, found = {};
  const said = rows => rows.map(row => [row.trait, tables.sentence(row), "why" in row ? "" : tables.memory(row)]);
  tell.taxa.forEach((one, i) => tell.taxa.forEach((other, j) => {
    if (i === j) return;
    const parts = tables.tell(i, j, day);
    found[`${one.id} ${other.id}`] = Object.fromEntries(Object.entries(parts).map(([name, rows]) => [name, said(rows)]));
  }));
  return found;
}"""


def python_says(made: Workspace, first: str, second: str, on: date) -> dict[str, list[list[str]]]:
    """What the tables must say of two taxa: `tell_apart` by eye, and with aids, of each part that a reader is shown."""
    by_eye, with_aids = (tell_apart(made, Occasion(on, frozenset(means), REGION, (first, second))).told for means in (EYE, AIDED))

    def said(found: list[Told]) -> list[list[str]]:
        return [[t.difference.trait, contrast_sentence(made, t.difference, first, REGION), rests_on_memory(made, t.difference)] for t in found]

    now = list(best_few(made, by_eye))
    usable = [t for t in by_eye if t.is_usable]
    used = {t.difference for t in usable}
    aided = [t for t in with_aids if t.verdict.is_good and t.bars <= {Bar.TOO_FINE} and t.difference not in used]
    return {
        "now": said(now),
        "more": said([t for t in usable if t not in now]),
        "aided": sorted(said(aided)),  # those too fine come last in Python, among the others on the page
        "never": [[t.difference.trait, useless_sentence(made, t.difference, REGION), ""] for t in tempting(made, by_eye)],
    }


@pytest.mark.parametrize("on", DATES, ids=str)
def test_the_browser_says_of_all_pairs_what_python_says(browser: Browser, demo_workspace: Workspace, on: date) -> None:
    found = browser.open("tell.html").evaluate(ALL_PAIRS, day_of(on))
    assert len(found) == len(demo_workspace.taxa) * (len(demo_workspace.taxa) - 1)
    wrong = []
    for n, (first, second) in enumerate(combinations(sorted(demo_workspace.taxa), 2)):
        turned = n % 2 == 1  # either may be named first; what not to rely on names them as Python does
        one, other = (second, first) if turned else (first, second)
        says, expected = found[f"{one} {other}"], python_says(demo_workspace, one, other, on)
        says["aided"] = sorted(says["aided"][: len(expected["aided"])])  # after these, what does at another time
        wrong += [(one, other, part) for part in ("now", "more", "aided") if says[part] != expected[part]]
        if not turned and says["never"] != expected["never"]:
            wrong.append((one, other, "never"))
    assert wrong == []


def test_what_is_no_good_now_is_not_lost_but_told_for_another_time(browser: Browser, demo_workspace: Workspace) -> None:
    page = browser.open("tell.html")
    by_day = [page.evaluate(ALL_PAIRS, day_of(on)) for on in DATES]
    for pair in by_day[0]:
        every = [{trait for part in ("now", "more", "aided", "later") for trait, _, _ in found[pair][part]} for found in by_day]
        assert all(traits == every[0] for traits in every), pair


def shown(page: Any, part: str) -> list[str]:
    return page.locator(f"[data-part={part}] li [data-text]").all_inner_texts()


@pytest.mark.parametrize("stored", [False, True], ids=["served", "from a stick"])
def test_a_choice_in_the_address_is_told_at_once(browser: Browser, demo_workspace: Workspace, stored: bool) -> None:
    page = browser.open("tell.html?a=conium-maculatum&b=myrrhis-odorata", on="2026-06-07", stored=stored)
    expected = python_says(demo_workspace, "conium-maculatum", "myrrhis-odorata", date(2026, 6, 7))
    assert [text.split(" (from memory")[0] for text in shown(page, "now")] == [text for _, text, _ in expected["now"]]
    assert "7 June 2026" in page.inner_text("#told h3 >> nth=0")
    care = page.inner_text("#told .care")
    assert all(line in care for line in cautions(demo_workspace, ("conium-maculatum",)))
    drawn = page.locator("#told .two img")
    assert drawn.count() >= 2
    assert drawn.nth(0).get_attribute("alt").startswith("Hemlock: ")  # and what is compared, in words
    assert len(drawn.nth(0).get_attribute("alt").split(". ")) > 1
    lost = page.evaluate("() => [...document.querySelectorAll('#told img')].filter(i => i.complete && !i.naturalWidth).map(i => i.src)")
    assert lost == []


def test_two_or_three_are_chosen_by_keys_alone_and_the_address_carries_them(browser: Browser) -> None:
    page = browser.open("tell.html", on="2026-07-15")
    page.focus("#a")
    page.keyboard.type("Heml")
    page.keyboard.press("Tab")
    page.keyboard.type("Cow")
    page.keyboard.press("Tab")
    assert page.locator("#told h2").all_inner_texts() == ["Hemlock or cow parsley?"]
    page.keyboard.type("Eld")
    assert page.locator("#told h2").all_inner_texts() == ["Hemlock or cow parsley?", "Hemlock or elder?", "Cow parsley or elder?"]
    assert "a=conium-maculatum&b=anthriscus-sylvestris&c=sambucus-nigra" in page.url
    assert "on=2026-07-15" in page.url
    again = browser.open(page.url.removeprefix(browser.root))
    assert again.locator("#told h2").all_inner_texts() == page.locator("#told h2").all_inner_texts()


def test_the_same_plant_twice_is_one_plant_and_a_name_unknown_is_none(browser: Browser) -> None:
    page = browser.open("tell.html?a=conium-maculatum&b=conium-maculatum&c=no-such-plant")
    assert page.locator("#told > *").count() == 0
    assert page.input_value("#c") == ""


def test_a_pair_with_a_page_leads_to_it_on_the_same_day(browser: Browser) -> None:
    page = browser.open("tell.html?a=conium-maculatum&b=anthriscus-sylvestris", on="2026-07-15")
    page.click("#told [data-page] a")
    assert page.url == browser.address("compare/anthriscus-sylvestris--conium-maculatum.html", on="2026-07-15")
    page = browser.open("tell.html?a=achillea-millefolium&b=lythrum-salicaria")
    assert page.locator("#told h2").count() == 1
    assert page.locator("#told [data-page]").count() == 0


def test_every_value_told_leads_to_where_it_stands_with_its_sources(browser: Browser, demo_site: Any) -> None:
    page = browser.open("tell.html?a=conium-maculatum&b=oenanthe-crocata&c=aethusa-cynapium", on="2026-07-15")
    links = {link.get_attribute("href").replace("?on=2026-07-15", "") for link in page.locator("[data-sources] a").all()}
    assert len(links) > 10
    for link in links:
        address, anchor = link.split("#")
        assert f'id="{anchor}"' in (demo_site / address).read_text(encoding="utf-8"), link


def test_without_scripts_it_says_so_and_leads_to_the_pairs(browser: Browser) -> None:
    page = browser.open("tell.html", scripts=False)
    assert page.locator("[data-plain]").is_visible()
    assert not page.locator("#choice").is_visible()
    assert page.locator("main ul.links a").count() >= 30
    assert not browser.open("tell.html").locator("[data-plain]").is_visible()
