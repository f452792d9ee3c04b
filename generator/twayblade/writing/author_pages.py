"""An author's own words made ready for a page: marks give way to anchors, and the evidence follows."""

from __future__ import annotations

import re
from dataclasses import dataclass

from markupsafe import Markup, escape

from twayblade.knowledge.claim import Claim, Earlier, OfGroup, Sign, Superlative, marks, parse_claim, taxa_of, traits_of
from twayblade.knowledge.page import without_code
from twayblade.knowledge.text import Sourced
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.judging import judge_claim, members
from twayblade.writing.evidence import VERDICT_WORDS, Side, side_of
from twayblade.writing.labels import Labels
from twayblade.writing.phrases import days_words, listed


@dataclass(frozen=True)
class MarkedClaim:
    """A claim an author has marked in a text of a page, with its verdict and what the profiles say of each trait it rests on."""

    number: int
    words: str
    claim: str
    verdict: str
    sides: tuple[Side, ...]


_ANCHOR = Markup(
    '<span class="claimed" id="claim-{number}" data-claim="{claim}">{words}</span>'
    '<sup><a href="#evidence-{number}" aria-label="{evidence}"{labelled}>{number}</a></sup>'
)


class Anchoring:
    """Makes the texts of one page ready and collects their claims, numbered through the page.

    Every claim must be readable and hold: checking comes first.
    """

    def __init__(self, workspace: Workspace, region: str | None, label: Labels) -> None:
        self.workspace, self.region, self.label = workspace, region, label
        self.claims: list[MarkedClaim] = []

    def markdown(self, text: str) -> str:
        """Markdown with anchors in place of marks. The words stay Markdown: they may hold emphasis or code."""
        made, last = "", 0
        prose = without_code(text)
        for mark in marks(prose):
            words = text[mark.start + 1 : prose.index("|", mark.start)].strip()
            made += text[last : mark.start] + self._anchor(mark.claim, words, Markup(words))
            last = mark.end
        return made + text[last:]

    def html(self, said: Sourced) -> Markup:
        """The text of a profile or group as HTML."""
        made, last = Markup(""), 0
        for mark in marks(said.written):
            made += said.written[last : mark.start] + self._anchor(mark.claim, mark.words, escape(mark.words))
            last = mark.end
        return made + said.written[last:]

    def _anchor(self, written: str, words: str, shown: Markup) -> Markup:
        claim, number = parse_claim(written), len(self.claims) + 1
        verdict = VERDICT_WORDS[judge_claim(self.workspace, claim)]
        self.claims.append(MarkedClaim(number, _plain(words), _named(claim), verdict, _sides(self.workspace, claim, self.region)))
        evidence = self.label("claims.of", number=number)
        return _ANCHOR.format(number=number, claim=self.claims[-1].claim, words=shown, evidence=evidence, labelled=self.label.labelled)


def _plain(words: str) -> str:
    """Words of Markdown as plain text: links by their labels, no signs of emphasis or code."""
    words = re.sub(r"!?\[([^\]]*)\]\([^)]*\)", r"\1", words)
    return " ".join(re.sub(r"[*`]|(?<!\w)_|_(?!\w)", "", words).split())


def _named(claim: Claim) -> str:
    """A claim as `data-claim` names it: each trait (or stage) with the taxa or the group it is about."""
    about = "/".join((claim.group,) if isinstance(claim, OfGroup) else taxa_of(claim))
    return " ".join(f"{what}/{about}" for what in ((claim.stage,) if isinstance(claim, Earlier) else traits_of(claim)))


def _sides(workspace: Workspace, claim: Claim, region: str | None) -> tuple[Side, ...]:
    taxa = [workspace.taxa[id_] for id_ in taxa_of(claim)]
    if isinstance(claim, Earlier):
        return tuple(_season(workspace, taxon, claim.stage, region) for taxon in taxa)
    if isinstance(claim, (Sign, Superlative, OfGroup)):
        others, _ = members(workspace, claim.group if isinstance(claim, OfGroup) else claim.scope)
        taxa += [taxon for taxon in others if taxon not in taxa]
    return tuple(side for trait in traits_of(claim) for side in _sides_by(workspace, taxa, trait))


def _sides_by(workspace: Workspace, taxa: list[Taxon], trait: str) -> list[Side]:
    """What is recorded of a trait, taxa of which the same is recorded together."""
    names: dict[tuple[str, tuple[str, ...], str | None], list[str]] = {}
    for taxon in taxa:
        side = side_of(workspace, taxon, taxon.values.get(trait))
        names.setdefault((side.value, side.source, side.group), []).append(side.name)
    return [Side(f"{workspace.traits[trait].name} of {listed(found)}", *same) for same, found in names.items()]


def _season(workspace: Workspace, taxon: Taxon, stage: str, region: str | None) -> Side:
    windows = workspace.windows(taxon, stage, region)
    sources = tuple(dict.fromkeys(key for window in windows for key in window.source))
    when = "; ".join(days_words(((w.when.start, w.when.end),)) for w in windows)
    return Side(f"{taxon.common_name}, {stage.replace('-', ' ')}", when or "nothing recorded", sources, None)
