"""Authors' own texts, those of the site's pages included: claims they mark, and comparisons they do not."""

from __future__ import annotations

import re
from collections.abc import Iterator

from rapidfuzz import process

from twayblade.knowledge.claim import (
    Claim,
    Earlier,
    Mark,
    OfGroup,
    Sign,
    Superlative,
    Told,
    conditions_of,
    marks,
    parse_claim,
    taxa_of,
    traits_of,
    unclosed,
    unmarked,
)
from twayblade.knowledge.problem import Finding, Spot
from twayblade.knowledge.profile import STAGES
from twayblade.knowledge.record import records_in
from twayblade.knowledge.text import Sourced
from twayblade.knowledge.values import is_option
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.claims import Verdict
from twayblade.reasoning.judging import NoSuchScope, judge_claim
from twayblade.reasoning.wording import names, too_strong

_COMPARES = re.compile(
    r"\b(unlike|whereas|in contrast|compared (?:with|to)|differs?|than (?:in|that|those|the)|more \w+ than|\w+er than|"
    r"tell (?:it|them|this|one)? ?(?:apart|from)|told from|distinguish\w*|only (?:this|it|the)|the only)\b",
    re.IGNORECASE,
)
_SENTENCE = re.compile(r"\S.*?(?:[.!?](?=\s)|\Z)", re.DOTALL)
_UNCLOSED = "a mark begins here and does not end; expected `{words | claim}`"
_MARK_IT = "mark it: `{words | TAXON from TAXON by TRAIT}`"
_EXEMPT = {"hazard", "care", "name-meaning", "status", "life-form", "synonyms"}
"""Fields whose comparisons are of danger or of names, not of how to tell plants apart."""
_OF_CARE = {"hazard", "care"}
"""Fields that state a danger and never compare it."""


def check_prose(workspace: Workspace) -> Iterator[Finding]:
    """Marked claims that cannot be read or are refused; unmarked comparisons of named taxa."""
    documents = {taxon.document: taxon.profile for taxon in workspace.taxa.values()}
    texts = [
        *((document, way, text) for document, profile in documents.items() for way, text in records_in(profile)),
        *((f"content/groups/{id_}.yml", way, text) for id_, group in workspace.groups.items() for way, text in records_in(group)),
        *((planned.document, way, text) for planned in workspace.trails.values() for way, text in records_in(planned.trail)),
    ]
    for document, way, found in texts:
        if isinstance(found, Sourced):
            for mark in marks(found.written):
                yield from _marked(workspace, mark, Spot(document, way))
            if unclosed(found.written) is not None:
                yield Finding("claim-unreadable", Spot(document, way), _UNCLOSED)
            if not _EXEMPT & set(way):
                for _, message in _unmarked(workspace, found.written):
                    yield Finding("comparison-unmarked", Spot(document, way), message, (_MARK_IT,))
            elif _OF_CARE & set(way):
                for said in _compared(workspace, found.written):
                    yield Finding("care-compared", Spot(document, way), said, ("say what this plant does, and leave the other to its own caution",))
    for page in workspace.pages.values():
        for mark in marks(page.prose):
            yield from _marked(workspace, mark, Spot(page.document, (mark.start,)))
        if (start := unclosed(page.prose)) is not None:
            yield Finding("claim-unreadable", Spot(page.document, (start,)), _UNCLOSED)
        for start, text in page.paragraphs():
            for at, message in _unmarked(workspace, text):
                yield Finding("comparison-unmarked", Spot(page.document, (start + at,)), message, (_MARK_IT,))


def _compared(workspace: Workspace, text: str) -> Iterator[str]:
    """Sentences of a caution that compare, whether marked or not."""
    plain = unmarked(text)
    for found in _SENTENCE.finditer(plain):
        if _COMPARES.search(found[0]) and any(names(found[0], t.common_name) for t in workspace.taxa.values()):
            yield f"`{_on_one_line(found[0])}` compares what is harmful"


def _marked(workspace: Workspace, mark: Mark, spot: Spot) -> Iterator[Finding]:
    try:
        claim = parse_claim(mark.claim)
        _refuse_unknown(workspace, claim)
        verdict = judge_claim(workspace, claim)
    except (ValueError, NoSuchScope) as reason:
        yield Finding("claim-unreadable", spot, str(reason))
        return
    if not verdict.is_good:
        message = f"`{mark.words}`: the claim `{mark.claim}` comes out as {verdict.replace('-', ' ')}"
        yield Finding("claim-refused", spot, _on_one_line(message), _values(workspace, claim))
    elif complaint := _words_against(workspace, mark, claim, verdict):
        yield Finding("claim-refused", spot, _on_one_line(f"`{mark.words}`: {complaint}"))


def _on_one_line(text: str) -> str:
    return " ".join(text.split())


def _refuse_unknown(workspace: Workspace, claim: Claim) -> None:
    """Raises ValueError for a name in a claim that refers to nothing."""
    named: list[tuple[str, str, list[str]]] = [("taxon", id_, list(workspace.taxa)) for id_ in taxa_of(claim)]
    named += [("trait", c.trait, list(workspace.traits)) for c in conditions_of(claim)]
    named += [("trait", claim.trait, list(workspace.traits))] if isinstance(claim, (Told, Superlative)) else []
    named += [("stage", claim.stage, list(STAGES))] if isinstance(claim, Earlier) else []
    named += [("group", claim.group, list(workspace.groups))] if isinstance(claim, OfGroup) else []
    for kind, name, known in named:
        if name not in known:
            near = process.extractOne(name, known, score_cutoff=65)
            raise ValueError(f"no {kind} `{name}` in the claim" + (f"; did you mean `{near[0]}`?" if near else ""))
    for condition in conditions_of(claim):
        trait = workspace.traits[condition.trait]
        wrong = [state for state in condition.states if not is_option(state, trait)]
        if wrong or (condition.part and condition.part not in trait.parts):
            raise ValueError(
                f"`{condition.trait}` has no `{wrong[0] if wrong else condition.part}`; it has {', '.join([*trait.states, *trait.parts])}"
            )


def _values(workspace: Workspace, claim: Claim) -> tuple[str, ...]:
    values = [(trait, id_, workspace.taxa[id_].values.get(trait)) for trait in traits_of(claim) for id_ in taxa_of(claim)]
    said = [f"`{trait}` of {id_} is `{value.written}`" for trait, id_, value in values if value]
    return ("; ".join(said),) if said else ()


def _words_against(workspace: Workspace, mark: Mark, claim: Claim, verdict: Verdict) -> str | None:
    """What in the words does not fit the claim: other taxa, or more strength than the data allow."""
    own = set(taxa_of(claim))
    strangers = [t.common_name for t in workspace.taxa.values() if t.id not in own and names(mark.words, t.common_name)]
    strangers = [n for n in strangers if not any(n in workspace.taxa[id_].common_name for id_ in own)]
    if strangers and not isinstance(claim, (Sign, OfGroup, Superlative)):
        return f"the words name {', '.join(strangers)}, the claim does not"
    if verdict is Verdict.HOLDS_USUALLY and not isinstance(claim, Earlier) and (wrong := too_strong(mark.words)):
        return f"the claim holds only usually, but the words {wrong}"
    return None


def _unmarked(workspace: Workspace, text: str) -> Iterator[tuple[int, str]]:
    """Sentences outside marks that compare and name a taxon: where each begins, and what is wrong."""
    bare = text
    for mark in marks(text):
        bare = bare[: mark.start] + " " * (mark.end - mark.start) + bare[mark.end :]
    for found in _SENTENCE.finditer(bare):
        said = _on_one_line(found[0])
        if _COMPARES.search(said) and any(names(said, t.common_name) for t in workspace.taxa.values()):
            yield found.start(), f"`{said}` compares, and no marked claim stands behind it"
