"""Printed matter as PDF, set by typst at exact sizes."""

from __future__ import annotations

import json
from importlib.resources import as_file, files
from typing import Any

import typst

from twayblade.knowledge.workspace import Workspace
from twayblade.writing.cautions import cautions, mistaken_for
from twayblade.writing.key_words import CARE, HARM_MARK, LACKING, NONE_FITS, WrittenKey, coverage_words, left_out_words, words_of
from twayblade.writing.phrases import capital, date_words, listed
from twayblade.writing.terminal import marked_name

HOW = (
    "Start at 1. Read both leads, look, choose one, and go on to the number at its end until it ends in a name. A dark triangle marks harm on record."
)


def key_pdf(workspace: Workspace, written: WrittenKey) -> bytes:
    """The pocket key on pages of A6 (105 by 148 mm), no text under 9 pt."""
    with as_file(files("twayblade.writing") / "templates" / "key.typ") as template:
        made = typst.compile(str(template), sys_inputs={"data": json.dumps(_key_data(workspace, written))})
    assert isinstance(made, bytes)
    return made


def _key_data(workspace: Workspace, written: WrittenKey) -> dict[str, Any]:
    trail = written.planned.trail

    def names(taxa: tuple[str, ...]) -> str:
        return listed((marked_name(workspace, id_).replace(f" {HARM_MARK}", f"\N{NO-BREAK SPACE}{HARM_MARK}") for id_ in taxa), "or")

    couplets = [
        {
            "number": c.number,
            "back": ", ".join(map(str, c.back)),
            "note": c.note,
            "leads": [
                {
                    "text": lead.text,
                    "to": lead.to,
                    "ends": names(lead.taxa),
                }
                for lead in c.leads
            ],
        }
        for c in written.couplets
    ]
    return {
        "title": f"Pocket key: {trail.title}",
        "place_line": "An invented walk past real plants" if trail.invented else trail.place,
        "date": date_words(written.on),
        "coverage": coverage_words(written),
        "care": CARE,
        "how": HOW,
        "lacking": LACKING,
        "couplets": couplets,
        "none_fits": NONE_FITS,
        "settles": [{"names": capital(names(group)), "lines": [line.text for line in lines]} for group, lines in written.settles.items()],
        "cautions": list(cautions(workspace, written.covers)),
        "mistaken": list(mistaken_for(workspace, written.covers)),
        "words": [list(pair) for pair in words_of(workspace, written)],
        "leaves_out": left_out_words(workspace, written),
    }
