"""The pages about walks: each trail and its plan, and for each of its dates script, pictures, key and recce sheet."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

from twayblade.knowledge.workspace import PlannedTrail
from twayblade.reasoning.scope import trail_taxa
from twayblade.writing.addresses import (
    key_address,
    pictures_address,
    plan_address,
    reading_address,
    recce_address,
    script_address,
    trail_address,
)
from twayblade.writing.cautions import with_look_alikes
from twayblade.writing.key_layout import Layout
from twayblade.writing.key_page import key_context
from twayblade.writing.key_words import WrittenKey
from twayblade.writing.plan_page import plan_context
from twayblade.writing.recce_words import DEFERS, HOW, NO_PLACES, WrittenSheet
from twayblade.writing.script import Script
from twayblade.writing.script_page import pictures_context, reading_context, script_context
from twayblade.writing.site_frame import Frame, Page
from twayblade.writing.trail_page import trail_context


class WalkPages:
    """The pages about the trails of a site."""

    def __init__(self, frame: Frame) -> None:
        self.frame, self.workspace = frame, frame.workspace

    def pages(self) -> Iterator[Page]:
        """Every page, in a fixed order."""
        for planned in self.workspace.trails.values():
            yield self._trail(planned)
            yield self._plan(planned)
            for on in planned.trail.dates:
                yield self._script(self.frame.scripts[planned.id, on])
                yield self._pictures(self.frame.scripts[planned.id, on])
                yield from (self._key(self.frame.written_keys[planned.id, on], layout) for layout in Layout)
                yield self._recce(self.frame.recce_sheets[planned.id, on])

    def _trail(self, planned: PlannedTrail) -> Page:
        address = trail_address(planned.id)
        care = self.frame.care(tuple(with_look_alikes(self.frame.pairs, trail_taxa(planned.trail))))
        context = trail_context(planned, self.frame.years[planned.id], self.frame.scripts, self.frame.label)
        html = self.frame.render("trail.html", address, care=care, **context)
        return Page(address, planned.trail.title, html)

    def _plan(self, planned: PlannedTrail) -> Page:
        address = plan_address(planned.id)
        title = self.frame.label.plain("plan.title", trail=planned.trail.title)
        care = self.frame.care(tuple(with_look_alikes(self.frame.pairs, trail_taxa(planned.trail))))
        context = plan_context(self.workspace, self.frame.years[planned.id], self.frame.scripts)
        return Page(address, title, self.frame.render("plan.html", address, planned=planned, trail=planned.trail, care=care, **context))

    def _script(self, script: Script) -> Page:
        return self._of_script(script_address(script.trail.id, script.on), "script", script_context(self.workspace, script), script)

    def reading(self, script: Script) -> str:
        """A page of its own, which needs no other file: a script to be read aloud from a screen."""
        address = reading_address(script.trail.id, script.on)
        care = self.frame.care(tuple(with_look_alikes(self.frame.pairs, trail_taxa(script.trail.trail))))
        return self.frame.render("read.html", address, care=care, look=self.frame.look, **reading_context(self.workspace, script))

    def _pictures(self, script: Script) -> Page:
        return self._of_script(pictures_address(script.trail.id, script.on), "pictures", pictures_context(self.workspace, script), script)

    def _title(self, key: str, planned: PlannedTrail, on: date) -> str:
        return self.frame.label.plain(key, trail=planned.trail.title, date=self.frame.label.date(on))

    def _of_script(self, address: str, kind: str, context: dict[str, Any], script: Script) -> Page:
        care = self.frame.care(tuple(with_look_alikes(self.frame.pairs, trail_taxa(script.trail.trail))))
        title = self._title(f"{kind}.title", script.trail, script.on)
        return Page(address, title, self.frame.render(f"{kind}.html", address, care=care, **context))

    def _key(self, written: WrittenKey, layout: Layout) -> Page:
        indented = layout is Layout.INDENTED
        address = key_address(written.planned.id, written.on, marked="indented" if indented else "")
        title = self._title("key.title_indented" if indented else "key.title", written.planned, written.on)
        prints = self.frame.printed_keys[written.planned.id, written.on]
        context = key_context(self.workspace, written, layout, self.frame.key_signs[written.planned.id, written.on], self.frame.drawings)
        return Page(address, title, self.frame.render("key.html", address, prints=prints, **context))

    def _recce(self, written: WrittenSheet) -> Page:
        planned, on = written.sheet.trail, written.sheet.on
        address = recce_address(planned.id, on)
        care = written.cautions
        words = {"how": HOW, "defers": DEFERS, "no_places": NO_PLACES, "care": care}
        html = self.frame.render("recce.html", address, **words, written=written, planned=planned, trail=planned.trail, on=on)
        return Page(address, self._title("recce.title", planned, on), html)
