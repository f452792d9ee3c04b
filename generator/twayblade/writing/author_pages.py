"""Pages in the author's words, made ready for the site: marks give way to anchors, and the evidence follows."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from twayblade.knowledge.claim import Claim, Earlier, OfGroup, Sign, Superlative, marks, parse_claim, taxa_of, traits_of
from twayblade.knowledge.page import without_code
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.judging import judge_claim, members
from twayblade.writing.evidence import VERDICT_WORDS, Side, side_of
from twayblade.writing.phrases import days_words


@dataclass(frozen=True)
class MarkedClaim:
    """A claim an author has marked on a page, with its verdict and what the profiles say of each trait it rests on."""

    number: int
    words: str
    claim: str
    verdict: str
    sides: tuple[Side, ...]


@dataclass(frozen=True)
class WrittenPage:
    """An author's page: its Markdown with anchors in place of marks, and its claims in order."""

    markdown: str
    claims: tuple[MarkedClaim, ...]


_ANCHOR = Markup(
    '<span class="claimed" id="claim-{number}" data-claim="{claim}">{words}</span>'
    '<sup><a href="#evidence-{number}" aria-label="evidence {number}">{number}</a></sup>'
)


def write_author_page(workspace: Workspace, markdown: str, region: str | None) -> WrittenPage:
    """Make the Markdown of a page ready. Every claim on it must be readable and hold: checking comes first."""
    text, last, claims = "", 0, []
    prose = without_code(markdown)
    for number, mark in enumerate(marks(prose), start=1):
        claim = parse_claim(mark.claim)
        bar = prose.index("|", mark.start)
        words = markdown[mark.start + 1 : bar].strip()
        made = MarkedClaim(number, " ".join(words.split()), _named(claim), VERDICT_WORDS[judge_claim(workspace, claim)], _sides(workspace, claim, region))
        claims.append(made)
        # the words stay Markdown: they may hold emphasis or code
        text += markdown[last : mark.start] + _ANCHOR.format(number=number, claim=made.claim, words=Markup(words))
        last = mark.end
    return WrittenPage(text + markdown[last:], tuple(claims))


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
    return tuple(_side(workspace, taxon, trait) for trait in traits_of(claim) for taxon in taxa)


def _side(workspace: Workspace, taxon: Taxon, trait: str) -> Side:
    side = side_of(workspace, taxon, taxon.values.get(trait))
    return Side(f"{side.name}, {workspace.traits[trait].name}", side.value, side.source, side.group)


def _season(workspace: Workspace, taxon: Taxon, stage: str, region: str | None) -> Side:
    windows = workspace.windows(taxon, stage, region)
    sources = tuple(dict.fromkeys(key for window in windows for key in window.source))
    when = "; ".join(days_words(((w.when.start, w.when.end),)) for w in windows)
    return Side(f"{taxon.common_name}, {stage.replace('-', ' ')}", when or "nothing recorded", sources, None)
