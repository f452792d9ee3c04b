"""A key cut into the pieces that are set on paper: the least parts that are kept together, as plain data for the templates."""

from __future__ import annotations

from typing import Any, TypeAlias

from twayblade.knowledge.workspace import Workspace
from twayblade.writing.cautions import cautions, mistaken_for
from twayblade.writing.drawings import Drawings, Picture
from twayblade.writing.fitting import Way
from twayblade.writing.key_ends import end_caution, how_words, names_words, none_fits, settling, signs_words
from twayblade.writing.key_layout import Layout, Placed, placed
from twayblade.writing.key_pictures import Pictures
from twayblade.writing.key_words import CARE, LACKING, WrittenKey, WrittenLead, coverage_words, left_out_words, words_of
from twayblade.writing.phrases import capital, date_words, sentence

Piece: TypeAlias = dict[str, Any]
"""A kind (sign, against, settles, none, note, line, heading, care) and its text; the templates say how each kind looks."""


def heading(text: str, level: int) -> Piece:
    """A heading."""
    return {"kind": "heading", "level": level, "text": text}


def line(text: str, head: str = "", pictures: tuple[Picture, ...] = ()) -> Piece:
    """A paragraph, with a head set before it and pictures after it."""
    return {"kind": "line", "head": head, "text": text, "pictures": drawn(pictures)}


def drawn(pictures: tuple[Picture, ...]) -> list[Piece]:
    """Pictures as the templates take them."""
    return [{"svg": picture.svg, "text": picture.text} for picture in pictures]


def front_pieces(written: WrittenKey) -> list[Piece]:
    """The front page: title, place, date, care, how to use the key, what it covers."""
    trail = written.planned.trail
    lacks = len(written.also_harmful)
    harmful = f" {lacks} harmful plant{'s' if lacks > 1 else ''} of the region {'are' if lacks > 1 else 'is'} not in it." if lacks else ""
    return [
        heading(f"Pocket key: {trail.title}", 1),
        line(f"For {date_words(written.on)}. {'An invented walk' if trail.invented else trail.place}".rstrip(". ") + "."),
        {"kind": "care", "text": CARE},
        line(f"{coverage_words(written)}{harmful}", head="Coverage"),
        line(f"{how_words(written)} If none fits, leave it unnamed: a line says what it may be."),
        line(LACKING),
    ]


def couplet_pieces(
    workspace: Workspace, written: WrittenKey, layout: Layout, briefly: bool = False, pictures: Pictures | None = None
) -> list[list[Piece]]:
    """Each couplet, or in the indented layout each lead, as its pieces; with pictures, drawn.

    briefly: what settles names that stay together is left to the notes, and what remains possible is not named one by one.
    """
    if not written.couplets:
        end = WrittenLead("", "", None, written.covers)
        words = f"{capital(names_words(workspace, written.covers))}: nothing that may be looked at tells these apart."
        return [[line(words), *_end(workspace, written, end, 0, briefly), _none(workspace, written, (end,), 0, briefly)]]
    return [_block(workspace, written, layout, block, briefly, pictures or {}) for block in placed(written, layout)]


def _block(workspace: Workspace, written: WrittenKey, layout: Layout, block: Placed, briefly: bool, pictures: Pictures) -> list[Piece]:
    couplet, depth = block.couplet, block.depth
    back = ", ".join(map(str, couplet.back)) if block.opens else ""
    number = {"number": couplet.number, "mark": str(couplet.number), "back": back, "opens": block.opens, "depth": depth, "to": None, "name": ""}
    goes_before = block.opens and couplet.note != ""
    pieces: list[Piece] = [{"kind": "note", **number, "text": couplet.note}] if goes_before else []
    for place, (lead, to) in enumerate(zip(block.leads, block.goes_on, strict=True)):
        bears_number = layout is Layout.INDENTED or (place == 0 and not goes_before)
        shown: Piece = {"mark": str(couplet.number) if bears_number else "–"}
        if goes_before or place > 0:
            shown |= {"opens": False, "back": ""}
        name = capital(names_words(workspace, lead.taxa)) if lead.to is None else ""
        shown["pictures"] = drawn(pictures.get((couplet.number, lead.text), ()))
        pieces.append({"kind": "sign", **number, **shown, "text": signs_words(lead), "to": to, "name": name})
        if lead.to is None:
            pieces += _end(workspace, written, lead, depth, briefly)
    if any(lead.to is None for lead in block.leads):
        pieces.append(_none(workspace, written, block.leads, depth, briefly))
    return pieces


def _end(workspace: Workspace, written: WrittenKey, lead: WrittenLead, depth: int, briefly: bool) -> list[Piece]:
    caution = end_caution(workspace, lead.taxa)
    against = {"kind": "against", "caution": sentence(caution) if caution else "", "text": " ".join(lead.against), "depth": depth}
    told = settling(written, lead)
    told = ("What tells them apart stands in the notes.",) if told and briefly else told
    settles = [{"kind": "settles", "text": text, "depth": depth} for text in told]
    return [against, *settles] if caution or lead.against else settles


def _none(workspace: Workspace, written: WrittenKey, leads: tuple[WrittenLead, ...], depth: int, briefly: bool) -> Piece:
    return {"kind": "none", "text": none_fits(workspace, written, leads, briefly), "depth": depth}


def note_pieces(workspace: Workspace, written: WrittenKey, way: Way, with_settling: bool, drawings: Drawings) -> list[list[Piece]]:
    """What is read before the walk: cautions in full, names easily confused, what to look at, what the key leaves out.

    with_settling: also what tells names apart that stay together. What to look at is drawn, as far as the way of setting the key has it so.
    """
    looks = words_of(workspace, written, way.signs)
    drawn_here = 0 if way.drawn else way.drawn_in_notes
    left_out = left_out_words(workspace, written)
    together = [line(" ".join(a.text for a in apart), head=capital(names_words(workspace, ids))) for ids, apart in written.settles.items() if apart]
    sections = {
        "Names that stay together": together if with_settling else [],
        "Harmful plants in this key": [_headed(text) for text in cautions(workspace, written.covers)],
        "Before you trust a name": [line(text) for text in mistaken_for(workspace, written.covers)],
        "What to look at": [
            _looked_at(definition, name, drawings.of_asked(trait, written.key, way.signs) if place < drawn_here else ())
            for place, (trait, name, definition) in enumerate(looks)
        ],
        "What it leaves out": [line(left_out)] if left_out else [],
    }
    blocks = []
    for title, lines in sections.items():
        if lines:
            blocks += [[heading(title, 2), lines[0]], *([other] for other in lines[1:])]
    return blocks


def _looked_at(definition: str, name: str, pictures: tuple[Picture, ...]) -> Piece:
    """What to look at, with what it may show, drawn and in the order of the drawings named."""
    told = f" Drawn: {'; '.join(picture.condition for picture in pictures)}." if pictures else ""
    return line(definition + told, name, pictures)


def _headed(caution: str) -> Piece:
    name, _, text = caution.partition(": ")
    return line(text, head=name)
