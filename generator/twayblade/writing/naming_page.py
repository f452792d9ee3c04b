"""The page that helps with an unknown plant, and the file of tables that its script looks up."""

from __future__ import annotations

from collections.abc import Iterator

from twayblade.knowledge.occasion import Occasion
from twayblade.reasoning.scope import nameable
from twayblade.writing.addresses import NAMING, NAMING_TABLES
from twayblade.writing.browser_data import assigned
from twayblade.writing.key_ends_words import AGAIN
from twayblade.writing.key_words import absent_words, covers_words
from twayblade.writing.naming_tables import write_naming
from twayblade.writing.site_frame import Download, Frame, Page


class NamingPage:
    """The page for an unknown plant of the site's region; none where fewer than two are known there."""

    def __init__(self, frame: Frame) -> None:
        self.frame, self.workspace = frame, frame.workspace
        self.taxa, self.left_out = nameable(frame.workspace, frame.region)

    @property
    def is_there(self) -> bool:
        """Whether there is anything to choose from."""
        return len(self.taxa) > 1

    @property
    def title(self) -> str:
        """What the page is called, also in menus."""
        return self.frame.label.plain("naming.title_plant" if self.frame.is_botanical else "naming.title_kind")

    def pages(self) -> Iterator[Page]:
        """The page, complete without a script: what it is for, what it covers, and the keys that need none."""
        if not self.is_there:
            return
        region = self.workspace.regions.get(self.frame.region or "")
        context = {
            "keys": [(planned, on) for planned in self.workspace.trails.values() for on in planned.trail.dates],
            "covers": covers_words(len(self.taxa), len(region.recorded) if region else 0),
            "left_out": absent_words(self.workspace, self.left_out, "on this page"),
            "care": self.frame.care(self.taxa),
        }
        yield Page(NAMING, self.title, self.frame.render("naming.html", NAMING, title=self.title, **context))

    def downloads(self) -> Iterator[Download]:
        """The tables, with the labels that the script needs."""
        if not self.is_there:
            return
        occasion = Occasion(None, self.frame.means, self.frame.region, self.taxa)
        written = write_naming(self.workspace, occasion, self.frame.pairs, self.frame.drawings)
        yield Download(NAMING_TABLES, assigned("namingTables", {**written.tables, "again": AGAIN, "words": self.frame.label.section("naming")}))
