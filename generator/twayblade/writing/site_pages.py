"""The site worked out from a workspace: its pages, the files beside them, and what the author's own pages are given."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import PurePosixPath

from twayblade.writing.about_pages import AboutPages
from twayblade.writing.addresses import (
    MANIFEST,
    NAMING,
    OFFLINE_DATA,
    YEAR_CALENDAR,
    chapters_address,
    key_address,
    reading_address,
    recce_address,
    script_print_address,
    walk_addresses,
)
from twayblade.writing.author_pages import Anchoring
from twayblade.writing.browser_data import assigned
from twayblade.writing.cautions import harm_words
from twayblade.writing.chapters import chapters_vtt
from twayblade.writing.name_table import name_table
from twayblade.writing.naming_page import NamingPage
from twayblade.writing.offline import keeping, manifest
from twayblade.writing.phrases import capital
from twayblade.writing.plant_pages import PlantPages
from twayblade.writing.site_frame import Download, Frame, Page
from twayblade.writing.structured import Structured
from twayblade.writing.walk_pages import WalkPages


@dataclass(frozen=True)
class Entry:
    """What a menu leads to: the words of the link, and the address of the page.

    is_told: whether the words are told (`Labels.told`) and no label. under: how the addresses of the pages begin that belong to it.
    """

    words: str
    address: str
    is_told: bool = False
    under: tuple[str, ...] = ()

    def holds(self, address: str) -> bool:
        """Whether a page is the one it leads to, or belongs to that."""
        return address == self.address or address.startswith(self.under)


class Site:
    """All the pages and files of a workspace, as a frame shows it."""

    def __init__(self, frame: Frame) -> None:
        self.workspace, self.frame = frame.workspace, frame
        self.plants, self.walks, self.about = PlantPages(self.frame), WalkPages(self.frame), AboutPages(self.frame)
        self.structured = Structured(self.frame)
        self.naming = NamingPage(self.frame)

    def pages(self) -> Iterator[Page]:
        """Every page, in a fixed order."""
        yield from self.plants.pages()
        yield from self.walks.pages()
        yield from self.naming.pages()
        yield from self.about.pages()

    def downloads(self) -> Iterator[Download]:
        """Labels and tables for scripts, drawings, photographs, printed keys, recce sheets in print and as tables; of each script its reading page,
        chapters and prints; the calendar of the year, and what a device must know to put the site among its programs."""
        yield Download("data/labels.js", assigned("labels", self.frame.label.section("browser")))
        yield Download("data/tell.js", assigned("tell", self.frame.tell_tables))
        yield Download("data/names.js", assigned("names", name_table(self.frame.sorted_taxa)))
        self.plants.ask_for_drawings()
        yield from self.naming.downloads()
        yield from (Download(picture.address, picture.svg.encode()) for picture in self.frame.drawings.files())
        for published in self.frame.photographs.values():
            yield from (Download(copy.address, copy.content) for copy in published.copies)
        for (trail, on), prints in self.frame.printed_keys.items():
            for form, printed in prints.items():
                yield Download(key_address(trail, on, "pdf", form.marked), printed.pdf)
        for (trail, on), (sheet, table) in self.frame.recce_files.items():
            yield Download(recce_address(trail, on, "pdf"), sheet)
            yield Download(recce_address(trail, on, "csv"), table)
        for (trail, on), script in self.frame.scripts.items():
            yield Download(reading_address(trail, on), self.walks.reading(script).encode())
            yield Download(chapters_address(trail, on), chapters_vtt(script).encode())
        for (trail, on), scripts in self.frame.printed_scripts.items():
            yield from (Download(script_print_address(trail, on, form.value), pdf) for form, pdf in scripts.items())
        if self.frame.calendar:
            yield Download(YEAR_CALENDAR, self.frame.calendar)
        facts = self.frame.facts
        yield Download(MANIFEST, manifest(facts.name, facts.description, self.frame.label.language))

    def keeping(self, finished: Mapping[str, bytes]) -> Iterator[Download]:
        """The files by which a device keeps the site, made of all its finished files by address."""
        yield from (Download(address, content) for address, content in keeping(finished, self.frame.label).items())

    def not_keeping(self) -> Iterator[Download]:
        """What tells the pages of a site in the making that nothing of it is kept."""
        yield Download(OFFLINE_DATA, assigned("offline", None))

    def home(self) -> str:
        """The HTML that follows the author's words on the home page."""
        return self.frame.render(
            "home.html",
            "index.html",
            trails=list(self.workspace.trails.values()),
            taxa=self.frame.sorted_taxa,
            groups=self.workspace.groups,
            year=self.frame.flowering,
            of_plants=self.menu()[0].words,
            harm=harm_words,
        )

    def author_page(self, source: str, markdown: str) -> tuple[str, str]:
        """A page of the author's, in Markdown, at `source`: that with its claims anchored, and the HTML of their evidence."""
        marked = Anchoring(self.workspace, self.frame.region, self.frame.label)
        text = marked.markdown(markdown)
        return text, self.frame.render("claims.html", str(PurePosixPath(source).with_suffix(".html")), marked=marked)

    def foot(self) -> tuple[Entry, ...]:
        """What the foot of every page leads to, besides the author's own pages."""
        label = self.frame.label.plain
        return (Entry(label("printed.title"), "printed.html"), Entry(label("coverage.title"), "coverage.html"))

    def menu(self) -> tuple[Entry, ...]:
        """What the head of every page leads to."""
        label = self.frame.label.plain
        groups = (Entry(capital(group.name), f"groups/{id_}.html", is_told=True) for id_, group in self.workspace.groups.items() if group.values)
        trails = (
            Entry(t.trail.title, f"trails/{id_}.html", is_told=True, under=walk_addresses(id_, t.trail.dates))
            for id_, t in self.workspace.trails.items()
        )
        return (
            Entry(label("menu.plants" if self.frame.is_botanical else "menu.kinds"), "taxa.html", under=("taxa/",)),
            Entry(label("menu.compare"), "compare.html", under=("compare/",)),
            *((Entry(self.naming.title, NAMING),) if self.naming.is_there else ()),
            *groups,
            Entry(label("menu.year"), "year.html"),
            *trails,
            Entry(label("menu.glossary"), "glossary.html"),
        )
