"""What a profile says, in words and tables, for the pages that show it."""

from __future__ import annotations

from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.profile import STAGES, Form
from twayblade.knowledge.trait import Means
from twayblade.knowledge.values import Value
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.seeing import Bar, trait_bars
from twayblade.reasoning.spread import Context, contexts
from twayblade.writing.evidence import side_of
from twayblade.writing.phrases import (
    days_words,
    form_sentence,
    predicate,
    sentence,
    subject,
)
from twayblade.writing.stages import STAGE_WORDS


class ProfileWords:
    """The words of profiles in a region."""

    def __init__(self, workspace: Workspace, region: str | None) -> None:
        self.workspace, self.region = workspace, region

    def organs(self, taxon: Taxon) -> dict[str, list[tuple[str, str, Value, str | None]]]:
        """Every value in words, by organ, with the value itself and the group it is inherited from."""
        found: dict[str, list[tuple[str, str, Value, str | None]]] = {}
        for id_, trait in self.workspace.traits.items():
            value = taxon.values.get(id_)
            if value is None or self.is_unsafe(id_, (taxon,)):
                continue
            places = contexts([value], trait)
            text = " ".join(sentence(f"{subject(trait, at)} {predicate(self.workspace, taxon, id_, at, self.region)}") for at in places)
            found.setdefault(trait.organ, []).append((trait.name, text, value, side_of(self.workspace, taxon, value).group))
        return found

    def forms(self, taxon: Taxon) -> list[tuple[Form, list[str]]]:
        """Every form with what is recorded of it alone, in words."""
        said = [
            (id_, s.where)
            for id_ in self.workspace.traits
            if id_ in taxon.values and not self.is_unsafe(id_, (taxon,))
            for a in taxon.values[id_].alternatives
            for s in a.statements
        ]
        found = []
        for id_, form in taxon.profile.forms.items():
            places = dict.fromkeys((trait, Context(where.part, where.stage)) for trait, where in said if where.form == id_)
            found.append((form, [form_sentence(self.workspace, taxon, trait, id_, at, self.region) for trait, at in places]))
        return found

    def is_unsafe(self, trait_id: str, taxa: tuple[Taxon, ...]) -> bool:
        """Whether looking at a trait would take a hand where none may be asked for: it is not published then."""
        occasion = Occasion(None, frozenset(Means), self.region, tuple(t.id for t in taxa))
        return Bar.UNSAFE in trait_bars(self.workspace, self.workspace.traits[trait_id], taxa, occasion)

    def seasons(self, taxon: Taxon) -> list[tuple[str, str]]:
        """Every window of a taxon: the stage and the time of the year."""
        found = []
        for stage in STAGES:
            windows = self.workspace.windows(taxon, stage, self.region)
            for window in windows:
                usual = days_words(((window.when.start, window.when.end),))
                outer = days_words(((window.when.outer_start, window.when.outer_end),))
                found.append((STAGE_WORDS[stage], usual if usual == outer or window.when.is_whole_year else f"{usual}; at the outside {outer}"))
        return found

    def values(self, taxon: Taxon, trait_id: str) -> str:
        """What a taxon's value says, part by part; empty where nothing is recorded."""
        value, trait = taxon.values.get(trait_id), self.workspace.traits[trait_id]
        places = contexts([value], trait) if value else ()
        told = [(trait.parts[at.part] + " " if at.part else "") + predicate(self.workspace, taxon, trait_id, at, self.region) for at in places]
        return "; ".join(told)
