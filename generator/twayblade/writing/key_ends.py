"""What stands at the ends of a key, the same on paper, on a page and in the terminal: marked names, cautions, what remains possible."""

from __future__ import annotations

from collections.abc import Iterable

from twayblade.knowledge.workspace import Workspace
from twayblade.writing.cautions import harm_words
from twayblade.writing.key_layout import most_signs
from twayblade.writing.key_words import HARM_MARK, NONE_FITS, WrittenKey, WrittenLead
from twayblade.writing.phrases import listed

MARKED = (
    f"{HARM_MARK} marks harm on record. Where a sign speaks against a name so marked, treat your plant as harmful all the same; "
    "an unmarked name clears nothing."
)
MOST_NAMED = 3
"""How many plants that remain possible a small print names; beyond, it says `any plant marked` (project default)."""


def how_words(written: WrittenKey) -> str:
    """How the key is used."""
    words = "Start at 1. Read every lead, look, choose one, and go on to its number until you come to a name."
    if most_signs(written) > 1:
        words += " The first sign is the surest; where others follow after Also, go with most of them; if two disagree, look again at the first."
    return f"{words} {MARKED}"


def marked_name(workspace: Workspace, id_: str) -> str:
    """A taxon's name, with the mark of harm if any is on record."""
    taxon = workspace.taxa[id_]
    return f"{taxon.common_name}\N{NO-BREAK SPACE}{HARM_MARK}" if taxon.hazard_class.is_harmful else taxon.common_name


def names_words(workspace: Workspace, taxa: Iterable[str]) -> str:
    """The marked names of taxa that stand together."""
    return listed((marked_name(workspace, id_) for id_ in taxa), "or")


def signs_words(lead: WrittenLead) -> str:
    """The signs of a lead, the surest first."""
    return f"{lead.text}. Also: {'. '.join(lead.more)}." if lead.more else lead.text


def end_caution(workspace: Workspace, taxa: tuple[str, ...]) -> str:
    """The short caution of an end: `deadly`; where several taxa stand there, each harmful one with its own. Empty without harm on record."""
    harm = {id_: words for id_ in taxa if (words := harm_words(workspace.taxa[id_]))}
    if len(taxa) == 1 or (len(harm) == len(taxa) and len(set(harm.values())) == 1):
        return next(iter(harm.values()), "")
    return "; ".join(f"{workspace.taxa[id_].common_name}: {words}" for id_, words in harm.items())


def settling(written: WrittenKey, lead: WrittenLead) -> tuple[str, ...]:
    """What tells the taxa of a shared end apart all the same."""
    return tuple(apart.text for apart in written.settles.get(lead.taxa, ())) if lead.to is None else ()


def none_fits(workspace: Workspace, written: WrittenKey, leads: tuple[WrittenLead, ...], briefly: bool = False) -> str:
    """The lead `none of these fits` for the ends among leads that stand together, with all that remains possible at any; empty without an end.

    briefly: where many remain possible, `any plant marked` stands for their names.
    """
    ends = [lead for lead in leads if lead.to is None]
    if not ends:
        return ""
    possible = dict.fromkeys(id_ for lead in ends for id_ in lead.possible if id_ in workspace.taxa)
    if not possible:
        return NONE_FITS
    harmful = {id_ for id_ in written.covers if workspace.taxa[id_].hazard_class.is_harmful}
    everything = (len(possible) > 4 and harmful <= set(possible)) or (briefly and len(possible) > MOST_NAMED)
    if everything and briefly:
        return f"None of these fits? Any {HARM_MARK}{', or one not in this key' if written.also_harmful else ''}."
    names = [f"any plant marked {HARM_MARK}"] if everything else [marked_name(workspace, id_) for id_ in possible]
    beyond = ["one not in this key"] if written.also_harmful else []
    return f"None of these fits? Unnamed; it may be {listed([*names, *beyond], 'or')}."
