"""Every kind of page can be read and used by whoever comes: axe-core finds nothing, in light and in dark.

Outside check: axe-core, which holds pages to WCAG 2.2 at the levels A and AA and to the ARIA practices. Two of its rules are off unless
asked for, and are asked for here: contrast of 7:1 (1.4.6, AAA), which this project promises, and targets of 24 CSS pixels (2.5.8, AA).
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from tests.browser.harness import Browser
from tests.outside import data

ALL_RULES = {"rules": {"color-contrast-enhanced": {"enabled": True}, "target-size": {"enabled": True}}}
OF_SIZE = {"runOnly": ["target-size"]}
OF_COLOUR = {"runOnly": ["color-contrast", "color-contrast-enhanced"]}
SPOILT = """
<img src="leaf.svg">
<p style="color: #777">4.48 to one</p>
<p style="color: #767676">4.54 to one</p>
<ul style="line-height: 10px; font-size: 10px"><li><button style="all: unset">a</button><li><button style="all: unset">b</button></ul>
"""

Axe = Callable[..., list[str]]


@pytest.fixture(scope="module")
def axe() -> Axe:
    """What axe-core finds wrong with a page as it stands: rule, and where."""
    source = data.npm_file("axe-core/axe.min.js").read_text(encoding="utf-8")

    def found(page: Any, options: dict[str, Any]) -> list[str]:
        if not page.evaluate("() => 'axe' in window"):
            page.evaluate(source)
        ran = page.evaluate("options => axe.run(document, { resultTypes: ['violations'], ...options })", options)
        return [f"{rule['id']}: {node['html'][:160]}" for rule in ran["violations"] for node in rule["nodes"]]

    return found


def test_axe_finds_what_is_wrong(browser: Browser, axe: Axe) -> None:
    """So that its silence below means something, a page is spoilt. The ratios are those of the formula of WCAG 2.2, as in tests/site/test_look.py."""
    page = browser.open("about.html")
    assert axe(page, ALL_RULES) == []
    page.evaluate("spoilt => document.querySelector('main').insertAdjacentHTML('beforeend', spoilt)", SPOILT)
    assert {fault.split(":")[0] for fault in axe(page, ALL_RULES)} == {"image-alt", "color-contrast", "color-contrast-enhanced", "target-size"}


def test_no_kind_of_page_breaks_a_rule_of_access(browser: Browser, kinds: dict[str, str], axe: Axe) -> None:
    """As it comes on a phone, and with all unfolded that can be, in light and in dark."""
    faults = {}
    for kind, page in browser.each(kinds, width=390):
        page.emulate_media(color_scheme="light")
        found = axe(page, OF_SIZE)
        browser.unfold(page)
        found += axe(page, ALL_RULES)
        page.emulate_media(color_scheme="dark")
        found += axe(page, OF_COLOUR)
        if found:
            faults[kind] = sorted(set(found))
    assert faults == {}


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_what_pages_show_only_once_they_are_used_breaks_none_either(browser: Browser, axe: Axe, scheme: str) -> None:
    page = browser.open("tell.html?a=conium-maculatum&b=anthriscus-sylvestris&c=sambucus-nigra", on="2026-06-07", width=390, dark=scheme == "dark")
    assert page.locator("#told .claim").count() > 10
    assert axe(page, ALL_RULES) == []
    page = browser.open("taxa.html", width=390, dark=scheme == "dark")
    page.fill("#find", "hemlock")
    assert page.locator("[data-find] li").count() > 1
    assert axe(page, ALL_RULES) == []
