"""After one visit the whole site opens without signal, as long as the reader wants it to; it is fetched anew when it has changed."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.browser.harness import KEPT, Browser, serve

from twayblade.writing.labels import read_labels
from twayblade.writing.offline import is_kept, keeping

NOT_KEPT = "() => /^Not kept/.test(document.querySelector('footer [data-offline=state]').textContent)"
HELD = "() => caches.keys().then(names => caches.open(names[0])).then(cache => cache.keys()).then(found => found.map(each => each.url))"
OTHERS_HELD = """before => new Promise(done => {
  const look = () => caches.keys().then(names => caches.open(names[0])).then(cache => cache.keys()).then(found => {
    const now = found.map(each => each.url);
    if (now.length === before.length && now.some(each => !before.includes(each))) done(now); else setTimeout(look, 100);
  });
  look();
})"""
WORKED_OUT = "offline"  # the folder of the packs


@pytest.fixture
def site(demo_site: Path, tmp_path: Path) -> Path:
    """A copy of the demo site, which may be changed."""
    return Path(shutil.copytree(demo_site, tmp_path / "site"))


@pytest.fixture(scope="module")
def visited(running: Any, demo_site: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Browser, Any]]:
    """A browser that has been on one page of the site, when it has fetched all. Then the site is gone, its files too: nothing could be served."""
    site = Path(shutil.copytree(demo_site, tmp_path_factory.mktemp("visited") / "site"))
    with serve(site) as address:
        browser = Browser(running, site, address)
        page = browser.open("about.html", workers=True)
        page.wait_for_function(KEPT)
        shutil.rmtree(site)
    yield browser, page
    browser.close()


def test_after_one_visit_every_page_that_is_kept_opens_without_signal_whole(visited: tuple[Browser, Any], demo_site: Path) -> None:
    browser, page = visited
    kinds: dict[str, str] = {}
    for file in sorted(demo_site.rglob("*.html")):
        address = file.relative_to(demo_site).as_posix()
        if is_kept(address):
            kinds.setdefault(f"{address.partition('/')[0]} {'-read' in address} {'indented' in address}", address)
    assert len(kinds) > 8
    browser.complaints.clear()
    for address in kinds.values():
        opened = browser.open(address, beside=page)
        assert opened.inner_text("h1")
        opened.close()
    assert browser.complaints == []


def test_a_date_in_the_address_opens_the_same_page(visited: tuple[Browser, Any]) -> None:
    browser, page = visited
    opened = browser.open("year.html", on="2026-06-07", beside=page)
    assert opened.inner_text("h1") == "The year"
    assert "on=2026-06-07" in opened.url


def test_the_first_page_opens_without_its_name(visited: tuple[Browser, Any]) -> None:
    browser, page = visited
    assert browser.open("", beside=page).inner_text("h1")


def test_a_page_that_is_not_kept_says_so_and_leads_back(visited: tuple[Browser, Any]) -> None:
    browser, page = visited
    opened = browser.open("drawings.html", beside=page)
    assert opened.inner_text("h1") == read_labels().plain("unkept.title")
    opened.click("a")
    assert opened.url.endswith("index.html")
    browser.complaints.clear()


def test_the_reader_is_told_how_much_is_kept_and_may_have_it_removed_for_good(running: Any, demo_site: Path, served: str) -> None:
    browser = Browser(running, demo_site, served)
    page = browser.open("printed.html", workers=True)
    page.wait_for_function(KEPT)
    assert " kB" in page.inner_text("main [data-offline=state]")
    page.click("[data-offline=choose]")
    page.wait_for_function(NOT_KEPT)
    assert page.evaluate("caches.keys()") == []
    page.reload()
    page.wait_for_function(NOT_KEPT)
    assert page.evaluate("navigator.serviceWorker.getRegistrations().then(found => found.length)") == 0
    page.click("[data-offline=choose]")
    page.wait_for_function(KEPT)
    browser.close()
    assert browser.complaints == []


def _rewrite(site: Path, address: str, change: Callable[[str], str]) -> None:
    """Change a page of a finished site, and what a device keeps of it."""
    (site / address).write_text(change((site / address).read_text(encoding="utf-8")), encoding="utf-8")
    shutil.rmtree(site / WORKED_OUT)
    finished = {file.relative_to(site).as_posix(): file.read_bytes() for file in site.rglob("*") if file.is_file()}
    for made, content in keeping(finished, read_labels()).items():
        (site / made).parent.mkdir(exist_ok=True)
        (site / made).write_bytes(content)


def test_a_changed_site_is_fetched_anew_but_only_the_packs_that_changed(running: Any, site: Path) -> None:
    with serve(site) as address:
        browser = Browser(running, site, address)
        page = browser.open("about.html", workers=True)
        page.wait_for_function(KEPT)
        before = set(page.evaluate(HELD))
        _rewrite(site, "taxa/conium-maculatum.html", lambda text: text.replace("<h1>", "<h1>Changed: ", 1))
        page.reload()
        after = set(page.evaluate(OTHERS_HELD, sorted(before)))
        assert len(before - after) == 1
        assert browser.open("taxa/conium-maculatum.html", beside=page).inner_text("h1").startswith("Changed: ")
        browser.close()


def test_a_fetch_that_breaks_off_keeps_what_it_has_and_goes_on_at_the_next_visit(running: Any, site: Path) -> None:
    *_, broken = sorted((site / WORKED_OUT).iterdir(), key=lambda file: (site / "offline.js").read_text(encoding="utf-8").index(file.stem))
    whole = broken.read_bytes()
    with serve(site) as address:
        browser = Browser(running, site, address)
        broken.unlink()
        page = browser.open("about.html", workers=True)
        page.wait_for_function(NOT_KEPT)
        has = set(page.evaluate(HELD))
        assert len(has) == len(list((site / WORKED_OUT).iterdir()))
        broken.write_bytes(whole)
        page.reload()
        page.wait_for_function(KEPT)
        assert has < set(page.evaluate(HELD))
        browser.close()
