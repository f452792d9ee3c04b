"""Every declared contrast against the data."""

from __future__ import annotations

from collections.abc import Iterator

from twayblade.knowledge.problem import Finding, Spot
from twayblade.knowledge.profile import Contrast
from twayblade.knowledge.values import is_option
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.claims import Judged, Verdict, judge_contrast
from twayblade.reasoning.compare import Difference
from twayblade.reasoning.lookalikes import pair_differences
from twayblade.reasoning.relation import Relation
from twayblade.reasoning.wording import HEDGE_HINT, too_strong

_MOST_HINTS = 4


def check_contrasts(workspace: Workspace) -> Iterator[Finding]:
    """A finding for every ground of a contrast whose verdict is not good."""
    for taxon in workspace.taxa.values():
        for number, contrast in enumerate(taxon.profile.contrasts):
            if not _is_linked(workspace, contrast):
                continue
            for place, judged in enumerate(judge_contrast(workspace, taxon, contrast)):
                words = judged.ground.words
                if words and judged.verdict is Verdict.HOLDS_USUALLY and (wrong := too_strong(words)):
                    where = Spot(taxon.document, ("contrasts", number, "by", place, "words"))
                    yield Finding("contrast-words", where, f"the contrast holds only usually, but its words {wrong}", (HEDGE_HINT,))
                if not judged.verdict.is_good:
                    spot = Spot(taxon.document, ("contrasts", number, "by", place, "trait"))
                    yield Finding(f"contrast-{judged.verdict}", spot, _message(workspace, judged), _hints(workspace, judged))


def _is_linked(workspace: Workspace, contrast: Contrast) -> bool:
    """Whether everything it names exists; what does not has been reported by reading."""
    traits = workspace.traits
    if contrast.from_ not in workspace.taxa or any(ground.trait not in traits for ground in contrast.by):
        return False
    named = [(traits[g.trait], option) for g in contrast.by for option in (*g.this, *g.other)]
    return all(is_option(option, trait) for trait, option in named)


def _message(workspace: Workspace, judged: Judged) -> str:
    first, second = workspace.taxa[judged.first], workspace.taxa[judged.second]
    trait = judged.ground.trait
    values = f"{first.id} is {_written(workspace, first, trait)}, {second.id} is {_written(workspace, second, trait)}"
    relation = max((d.relation for d in judged.differences), key=lambda r: r.rank)
    if judged.verdict is Verdict.WRONG:
        claimed = judged.ground.this if judged.side == first.id else judged.ground.other
        return f"`{', '.join(claimed)}` is claimed of {judged.side} by `{trait}`, but {values}"
    if judged.verdict is Verdict.NO_DATA:
        return f"`{trait}` cannot tell them apart ({relation.replace('-', ' ')}): {values}"
    if judged.verdict is Verdict.DISPUTED:
        return f"`{trait}` tells them apart by some sources and not by others: {values}"
    if judged.verdict is Verdict.OVERSTATED and judged.side:
        return f"the state claimed of {judged.side} by `{trait}` is not all it shows: {values}"
    if judged.verdict is Verdict.OVERSTATED:
        return f"`{trait}` tells them apart only usually: {values}"
    return f"`{trait}` does not separate them ({relation.replace('-', ' ')}): {values}"


def _written(workspace: Workspace, taxon: Taxon, trait: str) -> str:
    value = taxon.values.get(trait)
    if value is None:
        return "without a value"
    inherited = f" (from the group {value.origin})" if value.origin != taxon.id else ""
    return f"`{value.written}`{inherited}"


def _hints(workspace: Workspace, judged: Judged) -> tuple[str, ...]:
    if judged.verdict is Verdict.OVERSTATED and not judged.side:
        return ("write `how: usually`",)
    firm = [d for d in pair_differences(workspace, workspace.taxa[judged.first], workspace.taxa[judged.second]) if d.is_firm_contrast]
    firm = [d for d in firm if d.trait != judged.ground.trait]
    names = list(dict.fromkeys(f"`{d.trait}`" for d in sorted(firm, key=lambda d: _strength(workspace, d))))
    return (f"these do tell them apart: {', '.join(names[:_MOST_HINTS])}",) if names else ()


def _strength(workspace: Workspace, difference: Difference) -> tuple[bool, int]:
    return (difference.relation is not Relation.SEPARATE, workspace.traits[difference.trait].ease.effort)
