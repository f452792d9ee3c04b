"""The pocket key on paper: a folded sheet, a card or large print, set by typst at exact sizes."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cached_property
from importlib.resources import as_file, files
from typing import Any

import typst

from twayblade.knowledge.workspace import Workspace
from twayblade.writing.drawings import Drawings
from twayblade.writing.fitting import Fit, Paper, PrintForm, Sheet, Way, fit, most_drawn
from twayblade.writing.key_layout import Layout, most_signs, with_signs
from twayblade.writing.key_pictures import Pictures, lead_pictures
from twayblade.writing.key_words import WrittenKey, words_of
from twayblade.writing.print_pieces import couplet_pieces, front_pieces, heading, line, note_pieces

LANGUAGE = "en"


_SHEETS = {Sheet.A4: (210.0, 297.0), Sheet.LETTER: (215.9, 279.4)}
"""Width and height in mm: ISO 216, and 8.5 by 11 inches."""

_CARDS = {Sheet.A4: (148.0, 210.0), Sheet.LETTER: (139.7, 215.9)}
"""Half a sheet, in mm: A5 (ISO 216), and 5.5 by 8.5 inches."""

_BOOKLET = Paper("sheet", 8)
_CARD = Paper("card", 2)

_TALL = {PrintForm.FOLD: 10.0, PrintForm.CARD: 12.0, PrintForm.LARGE: 26.0}
"""Height of a drawing in mm."""

_CARD_POINTS, _LARGE_POINTS = 9.0, 16.0

_HOW_TO_FOLD = (
    "Print the booklet at its full size (100 %), and this page on its back or on a sheet of its own. Fold the booklet along all dotted lines "
    "and open it again; cut along the dashed line in the middle. Fold it in half lengthwise, the print outside, push both ends together until "
    "the slit opens into a cross, and close the pages round the front."
)
_SECOND_SHEET = " A further sheet is folded the same way and goes on from page 9."
_FOOT = "Look only"
_ROOM_FOR_REMARKS = "Measured before it is known what will stand here, so that what is said of fitting stays true when it is added to the print."


@dataclass(frozen=True)
class Printed:
    """A printed key, and in sentences how it fits its paper and what was given up for that."""

    pdf: bytes
    remarks: tuple[str, ...]


def print_key(
    workspace: Workspace,
    written: WrittenKey,
    form: PrintForm = PrintForm.FOLD,
    sheet: Sheet = Sheet.A4,
    layout: Layout = Layout.BRACKETED,
    drawings: Drawings | None = None,
) -> Printed:
    """The pocket key as a PDF. No text is under 9 pt, in large print none under 16 pt; flat forms keep PDF/UA-1.

    drawings: those already made of the workspace, so that none is made twice.
    """
    setting = _Setting(workspace, written, form, sheet, drawings or Drawings(workspace, written.planned.trail.region))
    way = Way(layout, most_signs(written), drawn=any(setting.pictures.values()))
    if form is PrintForm.LARGE:
        pages = setting.measured(way, _large_remark(88))["all"]
        return setting.printed(Fit(way, pages, (_large_remark(pages),)))
    if form is PrintForm.FOLD:
        return setting.printed(setting.with_notes(fit(setting.booklet_pages, way, _BOOKLET, is_booklet=True)))
    return setting.printed(fit(setting.card_pages, way, _CARD, is_booklet=False))


def _large_remark(pages: int) -> str:
    return f"In large print it takes {pages} page{'s' if pages > 1 else ''}."


@dataclass(frozen=True)
class _Setting:
    """A key set in one form on one paper, to be measured and printed."""

    workspace: Workspace
    written: WrittenKey
    form: PrintForm
    sheet: Sheet
    drawings: Drawings

    @cached_property
    def pictures(self) -> Pictures:
        """What the leads ask for, drawn."""
        return lead_pictures(self.drawings, self.written)

    def booklet_pages(self, way: Way) -> int:
        """The pages of the booklet; the other side of its sheet is not counted."""
        return self.measured(way)["key"]

    def card_pages(self, way: Way) -> int:
        """The pages of a card; the notes are not counted where they need a card of their own."""
        measured = self.measured(way)
        return measured["all"] if measured["all"] <= _CARD.pages else measured["key"]

    def measured(self, way: Way, room: str = _ROOM_FOR_REMARKS) -> dict[str, int]:
        """How many pages the key takes, and all with the notes; of a booklet the latter are the pages of the file.

        room: what stands where remarks will stand.
        """
        with self._compiler(way, (room,)) as compiler:
            found: dict[str, int] = json.loads(compiler.query("<fit>", field="value", one=True))
        return found

    def with_notes(self, how: Fit) -> Fit:
        """The same, with as many of the things to look at drawn in the notes as the backs of its sheets hold."""
        if how.way.drawn:
            return how
        things = words_of(self.workspace, self.written, how.way.signs)
        way = most_drawn(lambda way: self.measured(way)["all"] <= 2 * how.pieces, how.way, len(things))
        left = len(things) - min(way.drawn_in_notes, len(things))
        remark = f"The notes have room for drawings of {len(things) - left} of the {len(things)} things to look at; the page of this key has all."
        return Fit(way, how.pieces, (*how.remarks, remark) if left else how.remarks)

    def printed(self, how: Fit) -> Printed:
        """The PDF of a key that has been made to fit."""
        remarks, measured = how.remarks, self.measured(how.way)
        apart = self.form is PrintForm.CARD and measured["all"] > _CARD.pages * how.pieces
        if apart:
            remarks = (*remarks, "The notes stand apart, on a card of their own.")
        if self.form is PrintForm.FOLD and measured["all"] > 2 * how.pieces:
            remarks = (*remarks, f"The notes go on beyond the back of the sheet: the file has {measured['all']} pages.")
        with self._compiler(how.way, remarks, notes_apart=apart, is_on_more=how.pieces > 1) as compiler:
            made = compiler.compile(format="pdf", pdf_standards=[] if self.form is PrintForm.FOLD else ["ua-1"])
        assert isinstance(made, bytes)
        return Printed(made, remarks)

    @contextmanager
    def _compiler(self, way: Way, remarks: tuple[str, ...], notes_apart: bool = False, is_on_more: bool = False) -> Iterator[typst.Compiler]:
        data = json.dumps(self._data(way, remarks, notes_apart, is_on_more))
        here = files("twayblade.writing")
        with as_file(here / "templates") as templates, as_file(here / "fonts") as fonts:
            template = templates / ("key_fold.typ" if self.form is PrintForm.FOLD else "key_flat.typ")
            yield typst.Compiler(str(template), font_paths=[str(fonts)], ignore_system_fonts=True, sys_inputs={"data": data})

    def _data(self, way: Way, remarks: tuple[str, ...], notes_apart: bool, is_on_more: bool) -> dict[str, Any]:
        written = with_signs(self.written, way.signs)
        remark = line(" ".join(remarks), head="How it fits")
        back = (
            [heading("To fold it", 2), line(_HOW_TO_FOLD + (_SECOND_SHEET if is_on_more else "")), remark]
            if self.form is PrintForm.FOLD
            else [remark]
        )
        return {
            "title": f"Pocket key: {written.planned.trail.title}",
            "lang": LANGUAGE,
            "foot": _FOOT,
            "paper": self._paper(),
            "front": front_pieces(written),
            "tall": _TALL[self.form],
            "blocks": couplet_pieces(self.workspace, written, way.layout, self.form is PrintForm.FOLD, self.pictures if way.drawn else None),
            "overleaf": way.overleaf,
            "notes": note_pieces(self.workspace, written, way, self.form is PrintForm.FOLD, self.drawings),
            "notes_apart": notes_apart,
            "back": back,
        }

    def _paper(self) -> dict[str, float]:
        if self.form is PrintForm.FOLD:
            height, width = _SHEETS[self.sheet]
            return {"width": width, "height": height}
        if self.form is PrintForm.CARD:
            width, height = _CARDS[self.sheet]
            return {"width": width, "height": height, "margin": 8.0, "columns": 2, "size": _CARD_POINTS}
        width, height = _SHEETS[self.sheet]
        return {"width": width, "height": height, "margin": 18.0, "columns": 1, "size": _LARGE_POINTS}
