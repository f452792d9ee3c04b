"""Printed matter as PDF, set by typst at exact sizes."""

from __future__ import annotations

import json
from importlib.resources import as_file, files
from typing import Any

import typst

from twayblade.knowledge.workspace import Workspace
from twayblade.writing.key_words import CARE, NONE_FITS, WrittenKey, cautions, left_out_words
from twayblade.writing.phrases import capital, date_words, listed

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
        return listed((workspace.taxa[id_].common_name for id_ in taxa), "or")

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
                    "harmful": lead.to is None and any(workspace.taxa[id_].hazard_class.is_harmful for id_ in lead.taxa),
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
        "coverage": f"covers {len(written.covers)} of the {written.recorded} plants on the list for this region",
        "care": CARE,
        "how": HOW,
        "couplets": couplets,
        "none_fits": f"{NONE_FITS}? Leave it unnamed, and treat it as harmful.",
        "settles": [{"names": capital(names(group)), "lines": [line.text for line in lines]} for group, lines in written.settles.items()],
        "cautions": list(cautions(workspace, written.covers)),
        "leaves_out": left_out_words(workspace, written),
    }
