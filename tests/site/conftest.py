"""The finished demo site, page by page, read once."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.site.built import Built, read_site


@pytest.fixture(scope="session")
def built(demo_site: Path) -> dict[str, Built]:
    """Every page of the demo site by address."""
    return read_site(demo_site)


@pytest.fixture(scope="session")
def alike(built: dict[str, Built]) -> dict[str, frozenset[str]]:
    """The look-alikes of each taxon, as the pages that tell pairs apart have it."""
    pairs = [address.removeprefix("compare/").removesuffix(".html").split("--") for address in built if address.startswith("compare/")]
    assert pairs
    return {taxon: frozenset(other for pair in pairs if taxon in pair for other in pair if other != taxon) for pair in pairs for taxon in pair}
