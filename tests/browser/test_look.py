"""The head, the foot and the look at work: the menu, the day, dark on request, paper, and how long a line of text is."""

from __future__ import annotations

from typing import Any

from tests.browser.harness import Browser

PAIR = "compare/anthriscus-sylvestris--conium-maculatum.html"
TAXON = "taxa/conium-maculatum.html"
GROUND = "() => getComputedStyle(document.body).backgroundColor"
WHITE, DARK = "rgb(255, 255, 255)", "rgb(17, 17, 17)"


def test_the_menu_is_opened_on_a_phone_and_stands_as_links_in_a_wide_window(browser: Browser) -> None:
    for scripts in (True, False):
        phone = browser.open(TAXON, width=390, height=844, scripts=scripts)
        link = phone.locator("nav a", has_text="Glossary")
        assert not link.is_visible()
        phone.locator(".menu summary").press("Enter")
        assert link.is_visible()
        wide = browser.open(TAXON, scripts=scripts)
        assert wide.locator("nav a", has_text="Glossary").is_visible()
        assert not wide.locator(".menu summary").is_visible()


def test_dark_is_as_the_system_has_it_until_the_reader_chooses_and_the_choice_is_kept(browser: Browser) -> None:
    for dark in (False, True):
        page = browser.open(TAXON, dark=dark)
        button = page.locator("[data-dark] button")
        assert (page.evaluate(GROUND), button.get_attribute("aria-pressed")) == ((DARK, "true") if dark else (WHITE, "false"))
        button.click()
        chosen = (WHITE, "false") if dark else (DARK, "true")
        assert (page.evaluate(GROUND), button.get_attribute("aria-pressed")) == chosen
        page.goto(browser.address(PAIR))
        assert (page.evaluate(GROUND), page.locator("[data-dark] button").get_attribute("aria-pressed")) == chosen


def links(page: Any) -> list[str]:
    """Where the links within the site lead, as they stand."""
    found: list[str] = page.eval_on_selector_all("a[href]", "all => all.map(one => one.getAttribute('href')).filter(to => !/^\\w+:/.test(to))")
    return found


def test_the_day_of_the_address_is_shown_can_be_changed_and_goes_along_with_links(browser: Browser) -> None:
    page = browser.open(f"{PAIR}#care", on="2026-06-07")
    field, today = page.locator("#day"), page.locator("[data-day-today]")
    assert (field.input_value(), page.evaluate("twayblade.day.number")) == ("2026-06-07", 158)  # 7 June on a circle of 366 days
    page.evaluate("document.addEventListener('twayblade:day', () => { window.heard = twayblade.day.iso; })")
    field.fill("2028-02-29")
    field.dispatch_event("change")
    assert page.url.endswith("?on=2028-02-29#care")
    assert (page.evaluate("window.heard"), page.evaluate("twayblade.day.number")) == ("2028-02-29", 59)
    within = [link for link in links(page) if ".html" in link]
    assert within
    assert all("?on=" in link for link in within)
    assert not any("on=" in link for link in links(page) if ".html" not in link)
    today.click()
    assert page.url.endswith(".html#care")
    assert not today.is_visible()
    assert not any("on=2028" in link for link in links(page))


def test_what_is_no_date_is_taken_for_today(browser: Browser) -> None:
    for wrong in ("2026-02-30", "7 June", "2026-6-7"):
        page = browser.open(PAIR, on=wrong)
        assert page.evaluate("new Date().toDateString() === twayblade.day.date.toDateString()")
        assert not page.locator("[data-day-today]").is_visible()


def test_pages_that_no_day_changes_have_no_control_of_the_day(browser: Browser) -> None:
    assert not browser.open("glossary.html").locator("[data-day]").is_visible()
    assert not browser.open(PAIR, scripts=False).locator("[data-day]").is_visible()


def test_a_line_of_text_is_as_long_as_can_be_read_with_ease(browser: Browser) -> None:
    """WCAG 2.2, 1.4.8 (AAA) has 80 characters at the most; 45 to 75 are common practice in books, no source."""
    count = """all => all.map(one => {
      const range = document.createRange();
      range.selectNodeContents(one);
      return one.textContent.length / new Set([...range.getClientRects()].map(box => Math.round(box.bottom / 12))).size;
    })"""
    page = browser.open("about.html", width=1280)
    lengths = page.eval_on_selector_all("main p", count)
    longest = sorted(lengths)[len(lengths) // 2 :]
    assert all(45 <= length <= 75 for length in longest), lengths


def test_paper_is_white_whatever_the_screen_is_and_bears_no_controls(browser: Browser) -> None:
    page = browser.open(PAIR, dark=True)
    page.locator("[data-dark] button").click()
    page.locator("[data-dark] button").click()  # dark, chosen
    page.emulate_media(media="print")
    assert page.evaluate(GROUND) == WHITE
    assert page.locator("body").evaluate("body => getComputedStyle(body).color") == "rgb(0, 0, 0)"
    for gone in (".menu", "[data-day]", ".foot ul", ".skip", "main .claim details"):
        assert not page.locator(gone).first.is_visible(), gone
    assert page.locator("main .two img").first.is_visible()
