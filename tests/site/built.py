"""A page of a finished site, read back: its address, its source, its tree and where it leads."""

from __future__ import annotations

import posixpath
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from urllib.parse import unquote, urldefrag

from bs4 import BeautifulSoup, Tag


@dataclass(frozen=True)
class Built:
    """A page of a finished site."""

    address: str
    source: str

    @cached_property
    def tree(self) -> BeautifulSoup:
        return BeautifulSoup(self.source, "html.parser")

    @cached_property
    def main(self) -> Tag:
        found = self.tree.main
        assert found, self.address
        return found

    @cached_property
    def words(self) -> str:
        """The text of the page's own part, without what every page shares."""
        return " ".join(self.main.get_text(" ").split())

    def led_to(self, within: Tag) -> list[tuple[str, str]]:
        """Address and anchor of everything in this site that a part of the page links to."""
        found = []
        for element in within.select("[href], [src]"):
            link = str(element.get("href") or element.get("src"))
            if ":" not in link.split("/")[0]:
                address, anchor = urldefrag(link)
                path = address.partition("?")[0]  # the day that a page is asked for
                joined = posixpath.normpath(posixpath.join("/", posixpath.dirname(self.address), unquote(path))) if path else self.address
                found.append((joined.removeprefix("/"), unquote(anchor)))
        return found

    @cached_property
    def taxa(self) -> frozenset[str]:
        """The taxa it shows: those whose pages it links to, and the one it is about."""
        addresses = [self.address, *(address for address, _ in self.led_to(self.main))]
        return frozenset(a.removeprefix("taxa/").removesuffix(".html") for a in addresses if a.startswith("taxa/"))


def read_site(folder: Path) -> dict[str, Built]:
    """Every page of a finished site by address."""
    addresses = sorted(file.relative_to(folder).as_posix() for file in folder.rglob("*.html"))
    return {address: Built(address, (folder / address).read_text(encoding="utf-8")) for address in addresses}


def lost_links(folder: Path, pages: dict[str, Built]) -> list[tuple[str, str, str]]:
    """Links and anchors that lead nowhere: the page they stand on, the address, the anchor."""
    lost = []
    for page in pages.values():
        for address, anchor in page.led_to(page.tree):
            target = pages.get(address)
            if not (folder / address).is_file() or (anchor and not (target and target.tree.find(id=anchor))):
                lost.append((page.address, address, anchor))
    return lost
