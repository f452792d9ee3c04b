"""What the page of a pocket key shows: the same key as on paper, as links that need no script and no network."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, TypeAlias

from twayblade.knowledge.workspace import Workspace
from twayblade.writing.cautions import cautions, mistaken_for
from twayblade.writing.drawings import Drawings, Picture
from twayblade.writing.evidence import fewest_signs
from twayblade.writing.key_ends import end_caution, how_words, none_fits
from twayblade.writing.key_layout import Layout, Placed, placed
from twayblade.writing.key_pictures import Pictures, lead_pictures
from twayblade.writing.key_words import CARE, LACKING, Apart, WrittenKey, WrittenLead, coverage_words, left_out_words, words_of
from twayblade.writing.phrases import sentence


@dataclass(frozen=True)
class ShownLead:
    """A lead on the page: the couplet to go to; at an end its short caution, what tells its taxa apart, and `none of these fits`.

    fewest: at an end in one taxon, the claim and the sentence of each of the fewest signs that tell it from all others in the key.
    pictures: what its first sign asks for, drawn.
    """

    lead: WrittenLead
    to: int | None
    caution: str
    settles: tuple[Apart, ...]
    none: str
    fewest: tuple[tuple[str, str], ...]
    pictures: tuple[Picture, ...] = ()


@dataclass(frozen=True)
class ShownBlock:
    """Leads of a couplet that stand together on the page."""

    block: Placed
    leads: tuple[ShownLead, ...]


Fewest: TypeAlias = Mapping[str, tuple[tuple[str, str], ...]]


def fewest_at_ends(workspace: Workspace, written: WrittenKey) -> Fewest:
    """For each taxon that a lead ends in alone, claim and sentence of its fewest signs against all others in the key."""
    alone = dict.fromkeys(lead.taxa[0] for c in written.couplets for lead in c.leads if lead.to is None and len(lead.taxa) == 1)
    found = {}
    for id_ in alone:
        sets = fewest_signs(workspace, workspace.taxa[id_], written.key.occasion).sets
        found[id_] = tuple((claim, text) for claim, text, _ in sets[0]) if sets else ()
    return found


def key_context(workspace: Workspace, written: WrittenKey, layout: Layout, fewest: Fewest, drawings: Drawings) -> dict[str, Any]:
    """What the template of the key's page needs."""
    pictures = lead_pictures(drawings, written)
    together = WrittenLead("", "", None, written.covers)
    return {
        "key": written,
        "trail": written.planned.trail,
        "indented": layout is Layout.INDENTED,
        "blocks": [ShownBlock(block, _leads(workspace, written, block, fewest, pictures)) for block in placed(written, layout)],
        "undivided": () if written.couplets else (_lead(workspace, written, together, None, fewest, ()),),
        "care_text": CARE,
        "how": how_words(written),
        "lacking": LACKING,
        "coverage": coverage_words(written),
        "mistaken": mistaken_for(workspace, written.covers),
        "words": [(name, definition) for _, name, definition in words_of(workspace, written)],
        "care": cautions(workspace, written.covers),
        "left_out": left_out_words(workspace, written),
        "harmful": lambda id_: workspace.taxa[id_].hazard_class.is_harmful,
    }


def _leads(workspace: Workspace, written: WrittenKey, block: Placed, fewest: Fewest, pictures: Pictures) -> tuple[ShownLead, ...]:
    leads = zip(block.leads, block.goes_on, strict=True)
    return tuple(_lead(workspace, written, lead, to, fewest, pictures.get((block.couplet.number, lead.text), ())) for lead, to in leads)


def _lead(workspace: Workspace, written: WrittenKey, lead: WrittenLead, to: int | None, fewest: Fewest, pictures: tuple[Picture, ...]) -> ShownLead:
    ends = lead.to is None
    none = none_fits(workspace, written, (lead,))  # on a phone the next end may be off the screen, so each says its own
    caution = end_caution(workspace, lead.taxa) if ends else ""
    settles = written.settles.get(lead.taxa, ()) if ends else ()
    signs = fewest.get(lead.taxa[0], ()) if ends and len(lead.taxa) == 1 else ()
    return ShownLead(lead, to, sentence(caution) if caution else "", settles, none, signs, pictures)
