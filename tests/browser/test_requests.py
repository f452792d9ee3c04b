"""The site is whole in itself: it asks for nothing but its own files, finds each, and needs neither a server nor scripts.

What the browser complains of fails a test by itself (`conftest.py`).
"""

from __future__ import annotations

from tests.browser.harness import Browser

HEIGHT = "() => document.documentElement.scrollHeight"
# What does nothing without a script, unless a form sends it somewhere.
CONTROLS = """() => [...document.querySelectorAll("button, input:not([type=hidden]), select, textarea, [role=button], [contenteditable]")]
  .filter(element => element.checkVisibility() && !element.closest("form[action]")).map(element => element.outerHTML.slice(0, 120))"""


def test_every_kind_of_page_loads_whole(browser: Browser, kinds: dict[str, str]) -> None:
    """And keeps room for its pictures, so that nothing moves away from who reads when they come."""
    moved = {}
    for kind, page in browser.each(kinds):
        before = page.evaluate(HEIGHT)
        browser.load_images(page)
        if (after := page.evaluate(HEIGHT)) != before:
            moved[kind] = (before, after)
    assert moved == {}


def test_every_kind_of_page_opens_from_a_stick(browser: Browser, kinds: dict[str, str]) -> None:
    """But for the page for what is not there: a server puts that in place of a page sought anywhere, so its links start from the server's root."""
    for kind, page in browser.each({kind: address for kind, address in kinds.items() if kind != "404.html"}, stored=True):
        assert page.inner_text("h1"), kind


def test_an_address_that_leads_nowhere_says_so_with_a_way_out(browser: Browser) -> None:
    page = browser.open("taxa/no-such-plant.html")
    (complaint,) = browser.complaints  # of the page itself, and of nothing that it needs
    assert complaint.endswith(f"404 (Not Found) ({page.url})")
    browser.complaints.clear()
    page.click("main a")
    assert page.url == browser.address("index.html")


def test_without_scripts_no_control_stands_that_would_do_nothing(browser: Browser, kinds: dict[str, str]) -> None:
    found = {}
    for kind, page in browser.each(kinds, until="domcontentloaded", scripts=False):
        if idle := page.evaluate(CONTROLS):
            found[kind] = idle
    assert found == {}


def test_what_goes_wrong_is_complained_of(browser: Browser) -> None:
    """So that the silence of the other tests means something."""
    page = browser.open("about.html")
    page.evaluate(
        """() => new Promise(done => {
          console.error("said");
          setTimeout(() => { throw new Error("thrown"); });
          const images = ["not-here.png", "http://elsewhere.invalid/dot.png"].map(address => Object.assign(new Image(), { src: address }));
          Promise.all(images.map(image => new Promise(lost => { image.onerror = lost; }))).then(() => setTimeout(done, 100));
        })"""
    )
    complaints = "\n".join(browser.complaints)
    for said in ("on the console: said", "breaks: thrown", "404 (Not Found)", "cannot load http://elsewhere.invalid/dot.png"):
        assert said in complaints
    browser.complaints.clear()
