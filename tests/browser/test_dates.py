"""Pages say on a day what Python says of it; without scripts they say all, and of everything when."""

from __future__ import annotations

import re
from datetime import date
from typing import Any

import pytest
from tests.browser.harness import Browser

from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.season import Phase, day_of
from twayblade.knowledge.trait import EYE
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.lookalikes import look_alikes, look_alikes_of
from twayblade.reasoning.outline import stages_seen
from twayblade.reasoning.seeing import phase_on
from twayblade.reasoning.telling import Told, best_few, tell_apart
from twayblade.writing.evidence import fewest_signs
from twayblade.writing.phrases import contrast_sentence
from twayblade.writing.stages import stage_words

DATES = [date(2026, 6, 7), date(2026, 9, 16), date(2024, 2, 29), date(2026, 12, 31)]
REGION = "north-west-lowlands"


def told_by_eye(made: Workspace, first: str, second: str, on: date) -> tuple[Told, ...]:
    return tell_apart(made, Occasion(on, frozenset(EYE), REGION, (first, second))).told


def shown(page: Any, selector: str, what: str = "innerText") -> list[str]:
    """What can be seen on a page of all that is selected: its words, or an attribute."""
    seen = "(all, what) => all.filter(one => one.checkVisibility()).map(one => what in one ? one[what] : one.getAttribute(what))"
    found: list[str] = page.eval_on_selector_all(selector, seen, what)
    return found


def claims(page: Any, section: str) -> list[str]:
    return shown(page, f"{section} .claim", "data-claim")


def keys(found: list[Told]) -> list[str]:
    return ["/".join((t.difference.trait, t.difference.first, t.difference.second)) for t in found]


def test_pages_of_pairs_put_first_what_serves_on_the_day(browser: Browser, demo_workspace: Workspace) -> None:
    for n, pair in enumerate(look_alikes(demo_workspace)[::4]):
        on = DATES[n % len(DATES)]
        page = browser.open(f"compare/{pair.first}--{pair.second}.html", on=on.isoformat())
        told = told_by_eye(demo_workspace, pair.first, pair.second, on)
        now = list(best_few(demo_workspace, told))
        assert claims(page, "[data-takes=days][data-most]") == keys(now), (pair, on)
        assert claims(page, "[data-takes=days]:not([data-most])") == keys([t for t in told if t.is_usable and t not in now])
        assert bool(shown(page, "[data-none]")) == (not now)
        later = set(claims(page, "[data-takes=rest]"))
        assert later.isdisjoint(keys([t for t in told if t.is_usable]))
        page.context.close()


def test_a_page_of_a_pair_without_scripts_tells_everything_and_when(browser: Browser) -> None:
    address = "compare/anthriscus-sylvestris--conium-maculatum.html"
    plain, ordered = browser.open(address, scripts=False), browser.open(address, on="2026-06-07")
    assert set(claims(plain, "main")) == set(claims(ordered, "main"))
    assert "2026" not in plain.inner_text("h2 >> nth=0")
    for claim in plain.locator("[data-takes=days] .claim[data-days]").all():
        runs = claim.get_attribute("data-days")
        assert runs == "0-365" or re.search(r"Both show it (from|in) ", claim.inner_text()), claim.inner_text()


def test_pages_of_taxa_say_how_a_plant_stands_and_is_known_on_the_day(browser: Browser, demo_workspace: Workspace) -> None:
    pairs, everyone = look_alikes(demo_workspace), tuple(demo_workspace.taxa)
    for n, taxon in enumerate(list(demo_workspace.taxa.values())[::4]):
        on = DATES[n % len(DATES)]
        page = browser.open(f"taxa/{taxon.id}.html", on=on.isoformat())
        state = stage_words(stages_seen(demo_workspace, taxon, on, REGION))
        assert page.inner_text("main > [data-on-day]").endswith(f"{on.year}: {state}.")
        occasion = Occasion(on, frozenset(EYE), REGION, (taxon.id, *(id_ for id_ in everyone if id_ != taxon.id)))
        signs = [text for chosen in fewest_signs(demo_workspace, taxon, occasion).sets for _, text, _ in chosen]
        assert [text.split(" (excludes")[0] for text in shown(page, ".fewest .sign")] == signs, (taxon.id, on)
        for other in look_alikes_of(pairs, taxon.id):
            best = best_few(demo_workspace, told_by_eye(demo_workspace, taxon.id, other, on))[:1]
            lines = shown(page, f"main li:has(a[href*='{'--'.join(sorted((taxon.id, other)))}']) [data-pick] > *")
            if best:
                assert lines == [contrast_sentence(demo_workspace, best[0].difference, taxon.id, REGION)], (taxon.id, other, on)
            else:
                assert len(lines) == 1
                assert lines[0].startswith("Nothing that may be looked at")
        page.context.close()


@pytest.mark.parametrize("address", ["index.html", "year.html"])
def test_lists_by_the_day_part_all_plants_by_their_flowering_and_lose_none(browser: Browser, demo_workspace: Workspace, address: str) -> None:
    for on in DATES:
        page = browser.open(address, on=on.isoformat())
        names = {taxon.common_name: phase_on(demo_workspace, taxon, "flower", day_of(on), REGION) for taxon in demo_workspace.taxa.values()}
        for section, wanted in (("days", {Phase.EXPECTED}), ("perhaps", {Phase.POSSIBLE}), ("rest", {Phase.NOT_YET, Phase.OVER, None})):
            listed = {name.lower() for name in shown(page, f"[data-takes={section}] li a")}
            assert listed == {name.lower() for name, phase in names.items() if phase in wanted}, (section, on)
        page.context.close()


def test_the_list_of_pairs_keeps_those_apart_that_nothing_tells_apart_then(browser: Browser, demo_workspace: Workspace) -> None:
    for on in DATES[::3]:
        page = browser.open("compare.html", on=on.isoformat())
        for section, is_told in (("days", True), ("rest", False)):
            listed = {link.split("?")[0] for link in shown(page, f"[data-takes={section}] li a", "href")}
            told = {p: told_by_eye(demo_workspace, p.first, p.second, on) for p in look_alikes(demo_workspace)}
            expected = [p for p in told if any(t.is_usable for t in told[p]) == is_told]
            assert listed == {browser.address(f"compare/{p.first}--{p.second}.html") for p in expected}
        page.context.close()
