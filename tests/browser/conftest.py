"""The demo site in Debian's Chromium: one browser, one server and one site for all tests of this folder."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.browser.harness import Browser, chromium, kinds_of, serve
from tests.outside import data


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        if item.path.parent == Path(__file__).parent:
            item.add_marker(pytest.mark.browser)


@pytest.fixture(scope="session")
def served(demo_site: Path) -> Iterator[str]:
    """The address at which the demo site is served."""
    with serve(demo_site) as address:
        yield address


@pytest.fixture(scope="session")
def running() -> Iterator[Any]:
    """Chromium, started."""
    program = data.program("chromium", of="chromium")
    with data.package("playwright.sync_api", extra="browser").sync_playwright() as playwright, chromium(playwright, program) as browser:
        yield browser


@pytest.fixture
def browser(running: Any, demo_site: Path, served: str) -> Iterator[Browser]:
    """Opens pages of the demo site; a test fails if one of them said an error, or asked for what is not there or not the site's.

    A test that means a page to fail reads `browser.complaints` and clears them.
    """
    browser = Browser(running, demo_site, served)
    yield browser
    browser.close()
    assert browser.complaints == []


@pytest.fixture(scope="session")
def kinds(demo_site: Path) -> dict[str, str]:
    """Every kind of page of the demo site, and the address of the largest page of the kind. New kinds join by themselves."""
    return kinds_of(demo_site)
