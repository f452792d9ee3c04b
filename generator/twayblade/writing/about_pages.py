"""The pages about the site itself: what there is to print and to keep, and what the site covers."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from twayblade.writing.addresses import YEAR_CALENDAR
from twayblade.writing.coverage_page import coverage_context
from twayblade.writing.printed_page import Printable, kilobytes, printables
from twayblade.writing.site_frame import Frame, Page


class AboutPages:
    """The pages about a site."""

    def __init__(self, frame: Frame) -> None:
        self.frame, self.workspace = frame, frame.workspace

    def pages(self) -> Iterator[Page]:
        """Every page, in a fixed order."""
        yield self._printed()
        yield self._coverage()

    def _printed(self) -> Page:
        frame, address = self.frame, "printed.html"
        trails = [(planned, [(on, self._printables(planned.id, on)) for on in planned.trail.dates]) for planned in self.workspace.trails.values()]
        calendar = (YEAR_CALENDAR, kilobytes(frame.calendar)) if frame.calendar else None
        title = frame.label.plain("printed.title")
        return Page(
            address,
            title,
            frame.render("printed.html", address, title=title, trails=trails, calendar=calendar, care=frame.care(tuple(self.workspace.taxa))),
        )

    def _printables(self, trail: str, on: date) -> tuple[Printable, ...]:
        frame, of = self.frame, (trail, on)
        return printables(trail, on, frame.printed_keys[of], frame.printed_scripts[of], frame.recce_files[of], frame.label)

    def _coverage(self) -> Page:
        address, title = "coverage.html", self.frame.label.plain("coverage.title")
        context = coverage_context(self.workspace, self.frame.region)
        return Page(
            address, title, self.frame.render("coverage.html", address, title=title, care=self.frame.care(tuple(self.workspace.taxa)), **context)
        )
