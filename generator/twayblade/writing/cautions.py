"""Cautions: the line of each harmful taxon, which every output carries that shows it or a look-alike of it."""

from __future__ import annotations

from twayblade.knowledge.profile import HazardClass
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.lookalikes import Pair, look_alikes, look_alikes_of
from twayblade.writing.phrases import capital, listed

NO_GUIDE = "Nothing here decides what to eat or to handle."

_WORST_FIRST = tuple(HazardClass)

_HARM = {
    HazardClass.DEADLY: "deadly",
    HazardClass.POISONOUS: "poisonous",
    HazardClass.PHOTOTOXIC: "can burn skin in sunlight",
    HazardClass.IRRITANT: "can irritate skin",
}


def harm_words(taxon: Taxon) -> str:
    """The shortest caution, for the end of a key or a list of names; empty without harm on record, which clears nothing."""
    return hazard_words(taxon.hazard_class)


def short_caution(taxon: Taxon) -> str:
    """The shortest caution as a sentence: `Hemlock: deadly. Look only.`; empty without harm on record, which clears nothing."""
    words = harm_words(taxon)
    return f"{capital(taxon.common_name)}: {words}. Look only." if words else ""


def hazard_words(hazard: HazardClass) -> str:
    """The shortest caution of a kind of harm; empty without harm on record, which clears nothing."""
    return _HARM.get(hazard, "")


def cautions(workspace: Workspace, taxa: tuple[str, ...]) -> tuple[str, ...]:
    """A line for each harmful taxon, the deadliest first: its name and what it does."""
    return tuple(line for _, line in cautions_of(workspace, taxa))


def cautions_of(workspace: Workspace, taxa: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
    """Each harmful taxon with its line, the deadliest first."""
    harmful = [taxon for id_ in taxa if (taxon := workspace.taxa[id_]).hazard_class.is_harmful]
    harmful.sort(key=lambda taxon: _WORST_FIRST.index(taxon.hazard_class))
    return tuple((t.id, f"{capital(t.common_name)}: {t.profile.hazard.text.text}") for t in harmful if t.profile.hazard)


def cautions_around(workspace: Workspace, taxa: tuple[str, ...]) -> tuple[str, ...]:
    """A line for each harmful taxon among some taxa and their look-alikes."""
    return cautions(workspace, with_look_alikes(look_alikes(workspace), taxa))


def with_look_alikes(pairs: tuple[Pair, ...], taxa: tuple[str, ...]) -> tuple[str, ...]:
    """The taxa and their look-alikes, each once."""
    return tuple(dict.fromkeys((*taxa, *(other for id_ in taxa for other in look_alikes_of(pairs, id_)))))


def mistaken_for(workspace: Workspace, taxa: tuple[str, ...]) -> tuple[str, ...]:
    """For each taxon without harm on record the harmful ones that are declared to be mistaken for it."""
    found = []
    for id_ in taxa:
        taxon = workspace.taxa[id_]
        declared = {c.from_ for c in taxon.profile.contrasts} | {
            other.id for other in workspace.taxa.values() if any(c.from_ == id_ for c in other.profile.contrasts)
        }
        harmful = [t.common_name for t in workspace.taxa.values() if t.id in declared and t.hazard_class.is_harmful]
        if harmful and not taxon.hazard_class.is_harmful:
            found.append(f"{capital(taxon.common_name)} is easily taken for {listed(harmful, 'or')}.")
    return tuple(found)
