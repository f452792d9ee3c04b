"""A key cut into the pieces that are set on paper: the least parts that are kept together, as plain data for the templates."""

from __future__ import annotations

from typing import Any, TypeAlias

from twayblade.knowledge.workspace import Workspace
from twayblade.writing.cautions import cautions, mistaken_for
from twayblade.writing.key_ends import end_caution, how_words, names_words, none_fits, settling, signs_words
from twayblade.writing.key_layout import Layout, Placed, placed
from twayblade.writing.key_words import CARE, LACKING, WrittenKey, WrittenLead, coverage_words, left_out_words, words_of
from twayblade.writing.phrases import capital, date_words, sentence

Piece: TypeAlias = dict[str, Any]
"""A kind (sign, against, settles, none, note, line, heading, care) and its text; the templates say how each kind looks."""


def heading(text: str, level: int) -> Piece:
    """A heading."""
    return {"kind": "heading", "level": level, "text": text}


def line(text: str, head: str = "") -> Piece:
    """A paragraph, with a head set before it."""
    return {"kind": "line", "head": head, "text": text}


def front_pieces(written: WrittenKey) -> list[Piece]:
    """The front page: title, place, date, care, how to use the key, what it covers."""
    trail = written.planned.trail
    lacks = len(written.also_harmful)
    harmful = f" {lacks} harmful plant{'s' if lacks > 1 else ''} of the region {'are' if lacks > 1 else 'is'} not in it." if lacks else ""
    return [
        heading(f"Pocket key: {trail.title}", 1),
        line(f"For {date_words(written.on)}. {'An invented walk past real plants' if trail.invented else trail.place}".rstrip(". ") + "."),
        {"kind": "care", "text": CARE},
        line(f"{coverage_words(written)}{harmful}", head="Coverage"),
        line(how_words(written)),
        line(LACKING),
    ]


def couplet_pieces(workspace: Workspace, written: WrittenKey, layout: Layout) -> list[list[Piece]]:
    """Each couplet, or in the indented layout each lead, as its pieces."""
    if not written.couplets:
        end = WrittenLead("", "", None, written.covers)
        names = capital(names_words(workspace, written.covers))
        words = f"{names}: nothing that may be looked at tells these apart."
        return [[line(words), *_end(workspace, written, end, none_fits(workspace, written, (end,))[0], 0)]]
    return [_block(workspace, written, layout, block) for block in placed(written, layout)]


def _block(workspace: Workspace, written: WrittenKey, layout: Layout, block: Placed) -> list[Piece]:
    couplet = block.couplet
    pieces: list[Piece] = []
    unfitting = none_fits(workspace, written, block.leads)
    for place, (lead, to, none) in enumerate(zip(block.leads, block.goes_on, unfitting, strict=True)):
        opens = block.opens and place == 0
        pieces.append(
            {
                "kind": "sign",
                "number": couplet.number,
                "mark": str(couplet.number) if opens or layout is Layout.INDENTED else "–",
                "opens": opens,
                "back": ", ".join(map(str, couplet.back)) if opens else "",
                "text": signs_words(lead),
                "to": to,
                "name": capital(names_words(workspace, lead.taxa)) if lead.to is None else "",
                "depth": block.depth,
            }
        )
        if opens and couplet.note:
            pieces.append({"kind": "note", "text": couplet.note, "depth": block.depth})
        if lead.to is None:
            pieces += _end(workspace, written, lead, none, block.depth)
    return pieces


def _end(workspace: Workspace, written: WrittenKey, lead: WrittenLead, none: str, depth: int) -> list[Piece]:
    caution = end_caution(workspace, lead.taxa)
    pieces = [{"kind": "against", "caution": sentence(caution) if caution else "", "text": " ".join(lead.against), "depth": depth}]
    pieces += [{"kind": "settles", "text": text, "depth": depth} for text in settling(written, lead)]
    pieces.append({"kind": "none", "text": none, "depth": depth})
    return [piece for piece in pieces if piece["text"] or piece.get("caution")]


def note_pieces(workspace: Workspace, written: WrittenKey) -> list[list[Piece]]:
    """What is read before the walk: cautions in full, names easily confused, what to look at, what the key leaves out."""
    left_out = left_out_words(workspace, written)
    sections = {
        "Harmful plants in this key": [_headed(text) for text in cautions(workspace, written.covers)],
        "Before you trust a name": [line(text) for text in mistaken_for(workspace, written.covers)],
        "What to look at": [line(definition, head=name) for name, definition in words_of(workspace, written)],
        "What it leaves out": [line(left_out)] if left_out else [],
    }
    blocks = []
    for title, lines in sections.items():
        if lines:
            blocks += [[heading(title, 2), lines[0]], *([other] for other in lines[1:])]
    return blocks


def _headed(caution: str) -> Piece:
    name, _, text = caution.partition(": ")
    return line(text, head=name)
