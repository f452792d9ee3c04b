"""The words that go with a drawing, made from what it shows: its title, and the text that stands for it."""

from __future__ import annotations

from decimal import Decimal

from twayblade.knowledge.numbers import Interval
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.depiction import Depiction, Shown
from twayblade.writing.phrases import capital, interval_words, sentence, subject


def condition_words(workspace: Workspace, shown: Shown) -> str:
    """One condition that is drawn: `deeply furrowed`, `5 bracts`."""
    trait, condition = workspace.traits[shown.trait], shown.condition
    return interval_words(trait, Interval(condition, condition)) if isinstance(condition, Decimal) else trait.states[condition].phrase


def shown_words(workspace: Workspace, shown: Shown) -> str:
    """One condition that is drawn, said of its organ, without a full stop: `the stem is deeply furrowed`."""
    trait = workspace.traits[shown.trait]
    return f"{subject(trait, shown.at)} {trait.verb} {condition_words(workspace, shown)}"


def drawing_title(workspace: Workspace, depiction: Depiction, taxon: Taxon | None = None, form: str | None = None) -> str:
    """Whose drawing it is, and of what: `Hemlock: a length of the stem`."""
    piece = workspace.pieces[depiction.piece].title
    return f"{capital(taxon.common_name)}{_of_form(taxon, form)}: {piece}" if taxon else capital(piece)


def drawing_caption(workspace: Workspace, piece: str, taxon: Taxon, form: str | None) -> str:
    """What stands beneath a drawing among others of its taxon: `A length of the stem, white form`."""
    return f"{capital(workspace.pieces[piece].title)}{_of_form(taxon, form)}"


def _of_form(taxon: Taxon, form: str | None) -> str:
    return f", {taxon.profile.forms[form].name} form" if form else ""


def drawing_text(workspace: Workspace, depiction: Depiction, taxon: Taxon | None = None, form: str | None = None) -> str:
    """What stands for the drawing where it cannot be seen: what it is of, and every condition that it shows."""
    told = "; ".join(shown_words(workspace, s) + (" (one of several)" if s.is_one_of_several and taxon else "") for s in depiction.shown)
    title = drawing_title(workspace, depiction, taxon, form)
    return f"Drawing. {title}. {'As is usual: ' + told + '.' if taxon else sentence(told)}"
