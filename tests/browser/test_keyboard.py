"""Everything that can be used can be used from a keyboard, in the order in which it stands, and one sees where one is.

WCAG 2.2: 2.1.1 keyboard, 2.4.1 bypass blocks, 2.4.3 focus order, 2.4.7 focus visible, 2.4.11 focus not obscured.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tests.browser.harness import Browser

if TYPE_CHECKING:
    from playwright.sync_api import Page

# Fills `walk`: which elements should be reached, and what was found where the focus came. An element is looked at again when Tab
# is pressed to leave it, as the page has then moved to show it: a point of it must be on the screen, with nothing else in front.
WATCH = """() => {
  const usable = `a[href], area[href], button, input:not([type=hidden]), select, textarea, summary, iframe, [controls], [contenteditable],
    [tabindex]`;
  const first = element => element.type !== "radio" || element.checked || !document.querySelector(`[name="${element.name}"]:checked`) &&
    element === document.querySelector(`[name="${element.name}"]`);
  const all = [...document.querySelectorAll(usable)].filter(element => element.tabIndex >= 0 && !element.disabled &&
    element.checkVisibility({ visibilityProperty: true }) && !element.closest("[inert]") && first(element));
  const walk = { all: all.length, order: [], unmarked: [], hidden: [] };
  const words = element => element.outerHTML.slice(0, 120);
  const shown = element => [...element.getClientRects()].some(box => {
    const x = (box.left + box.right) / 2, y = Math.min(Math.max((box.top + box.bottom) / 2, 1), innerHeight - 1);
    const top = document.elementFromPoint(x, y);
    return box.bottom > 0 && box.top < innerHeight && top && (element.contains(top) || top.contains(element));
  });
  const leave = event => {
    const left = document.activeElement;
    if (event.key === "Tab" && left !== document.body && !shown(left)) { walk.hidden.push(words(left)); }
  };
  const come = event => {
    const style = getComputedStyle(event.target), at = all.indexOf(event.target);
    walk.order.push(at >= 0 ? at : words(event.target));
    if (style.outlineStyle === "none" || parseFloat(style.outlineWidth) < 2) { walk.unmarked.push(words(event.target)); }
  };
  document.addEventListener("focusin", come);
  document.addEventListener("keydown", leave, true);
  window.walk = walk;
  return all.length;
}"""
# Whether the focus has come to as many as it should, or a good way on: a date's day, month, year and calendar are come to singly, without an event.
ARRIVED = "() => window.walk.order.length >= window.walk.all || (window.walk.more = (window.walk.more || 0) + 1) > 20"


def walked(page: Page) -> dict[str, Any]:
    """What Tab comes to, from the top of a page to its end."""
    for _ in range(page.evaluate(WATCH)):
        page.keyboard.down("Tab")  # held down, which goes on as well as pressing anew, in half the time
    while not page.evaluate(ARRIVED):
        page.keyboard.down("Tab")
    page.keyboard.up("Tab")
    found: dict[str, Any] = page.evaluate("() => window.walk")
    return found


def test_tab_comes_to_everything_in_order_and_shows_where_it_is(browser: Browser, kinds: dict[str, str]) -> None:
    faults = {}
    for kind, page in browser.each(kinds):
        found = walked(page)
        assert found["all"], f"{kind} has nothing to use"
        if found["order"] != list(range(found["all"])) or found["unmarked"] or found["hidden"]:
            faults[kind] = found
    assert faults == {}


def test_the_first_thing_leads_past_the_head_of_the_page(browser: Browser, kinds: dict[str, str]) -> None:
    """Where a page has a head. What Tab comes to next then stands in the page's own part."""
    within = "() => document.activeElement.closest('main') !== null"
    for kind, page in browser.each(kinds):
        if page.query_selector("header nav"):
            page.keyboard.press("Tab")
            assert page.evaluate("() => document.activeElement.getBoundingClientRect().left >= 0"), f"{kind}: the way past the head is not seen"
            page.keyboard.press("Enter")
            assert page.evaluate(within), kind
            page.keyboard.press("Tab")
            assert page.evaluate(within) or not page.query_selector("main a[href]"), kind
