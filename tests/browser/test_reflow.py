"""A page fits its window: on the narrowest phone, and enlarged.

WCAG 2.2, 1.4.10: no scrolling sideways at 320 CSS pixels, but in what needs two dimensions for its meaning, which here stands in `.wide`.
200 per cent of a window 1280 pixels wide leaves 640 CSS pixels (1.4.4).
"""

from __future__ import annotations

from tests.browser.harness import Browser

# What sticks out to the right, if it can be seen. A region that scrolls by itself must be no wider than the window.
STICKS_OUT = """() => {
  const edge = document.documentElement.clientWidth + 1;
  const out = [...document.body.querySelectorAll("*")].filter(element => element.checkVisibility() && !element.parentElement.closest(".wide") &&
    element.getBoundingClientRect().right > edge && !element.closest("svg *"));
  const found = out.map(element => element.outerHTML.slice(0, 120));
  if (document.documentElement.scrollWidth > edge) { found.push(`${document.documentElement.scrollWidth} pixels wide`); }
  return found;
}"""


def test_no_kind_of_page_scrolls_sideways(browser: Browser, kinds: dict[str, str]) -> None:
    """Neither as it comes nor with all unfolded."""
    faults = {}
    for kind, page in browser.each(kinds):
        for unfolded in (False, True):
            if unfolded:
                browser.unfold(page)
            for width in (320, 640):
                page.set_viewport_size({"width": width, "height": 512})
                if found := page.evaluate(STICKS_OUT):
                    faults[kind, width] = found
    assert faults == {}


def test_a_page_that_is_too_wide_is_found(browser: Browser) -> None:
    page = browser.open("about.html", width=320)
    assert page.evaluate(STICKS_OUT) == []
    page.evaluate("() => document.querySelector('main').insertAdjacentHTML('beforeend', '<p style=\"width: 400px\">wide</p>')")
    assert len(page.evaluate(STICKS_OUT)) == 2
