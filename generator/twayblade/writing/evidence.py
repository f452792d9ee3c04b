"""Comparative sentences with what stands behind them, and the fewest signs of a taxon, for pages."""

from __future__ import annotations

from dataclasses import dataclass

from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.values import Value
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.claims import Verdict
from twayblade.reasoning.seeing import Bar, days_to_look, runs
from twayblade.reasoning.signs import Remaining, sign_sets
from twayblade.reasoning.tables import Dated
from twayblade.reasoning.telling import Told
from twayblade.writing.dated import contrast_attributes
from twayblade.writing.narrator import Claim
from twayblade.writing.phrases import contrast_sentence, days_words, listed, rests_on_memory, sentence, sign_sentence, useless_sentence

MOST_SETS_SHOWN = 2
"""So many sets of fewest signs a page shows (project default)."""

VERDICT_WORDS = {
    Verdict.HOLDS: "holds for every plant on record",
    Verdict.HOLDS_USUALLY: "holds usually, not for every plant",
    Verdict.HOLDS_ONE_WAY: "holds one way only: the sign speaks for it, and its absence says nothing",
    Verdict.DISPUTED: "sources disagree",
    Verdict.DOES_NOT_SEPARATE: "does not tell them apart",
    Verdict.NO_DATA: "not enough is recorded",
}


@dataclass(frozen=True)
class Side:
    """One taxon's side of a comparison: its value as recorded, its sources, the group it is inherited from."""

    name: str
    value: str
    source: tuple[str, ...]
    group: str | None


@dataclass(frozen=True)
class Line:
    """A comparative sentence with its claim and evidence, when both sides can be seen, and why it is barred, if it is.

    memory: said if a side is known from memory only. words: the author's own for it, if it is declared. attributes: its days, for scripts.
    """

    claim: str
    text: str
    when: str
    bars: str
    memory: str
    words: str
    verdict: str
    sides: tuple[Side, ...]
    attributes: str = ""


@dataclass(frozen=True)
class FewestSigns:
    """Sets of fewest signs: (claim, sentence, whether it excludes some only usually) for each sign; and the others by how they fare.

    excluded, usually: the taxa that a set surely and only usually excludes. left: those it does not. mended: a sentence for each of
    these, with what would exclude it.
    claim: the signs of the first set together, `stem-hairs+bract-number/hemlock`.
    """

    sets: tuple[tuple[tuple[str, str, bool], ...], ...]
    excluded: tuple[str, ...]
    usually: tuple[str, ...]
    left: tuple[str, ...]
    mended: tuple[str, ...]
    claim: str


def evidence_line(workspace: Workspace, told: Told, occasion: Occasion, first: str | None = None, dated: Dated | None = None) -> Line:
    """A difference as a sentence with its evidence; `first` is the taxon named first. dated: the days of a contrast."""
    d = told.difference
    trait = workspace.traits[d.trait]
    taxa = (workspace.taxa[d.first], workspace.taxa[d.second])
    good = told.verdict.is_good
    return Line(
        claim=f"{d.trait}/{d.first}/{d.second}",
        text=contrast_sentence(workspace, d, first, occasion.region) if good else useless_sentence(workspace, d, occasion.region),
        when=days_words(runs(days_to_look(workspace, taxa, trait, occasion))) if trait.is_seasonal else "",
        bars=listed(sorted(bar.replace("-", " ") for bar in told.bars if bar is not Bar.NOT_THEN)),
        memory=rests_on_memory(workspace, d) if good else "",
        words=_author_words(workspace, d.first, d.second, d.trait),
        verdict=VERDICT_WORDS[told.verdict],
        sides=tuple(side_of(workspace, taxon, taxon.values.get(d.trait)) for taxon in taxa),
        attributes=contrast_attributes(workspace, dated) if dated else "",
    )


@dataclass(frozen=True)
class Passage:
    """A passage of a spoken text; with a claim, its key, its verdict in words and the sides it rests on."""

    text: str
    claim: str = ""
    verdict: str = ""
    sides: tuple[Side, ...] = ()


def passages(workspace: Workspace, text: str, claims: tuple[Claim, ...]) -> tuple[Passage, ...]:
    """A text, cut where its claims begin and end."""
    found, rest = [], text
    for claim in claims:
        before, words, after = rest.partition(claim.text)
        if words:
            taxa = tuple(workspace.taxa[id_] for id_ in claim.taxa)
            sides = tuple(side_of(workspace, taxon, taxon.values.get(claim.trait)) for taxon in taxa)
            found += [Passage(before), Passage(words, "/".join((claim.trait, *claim.taxa)), VERDICT_WORDS[Verdict(claim.verdict)], sides)]
            rest = after
    return tuple(passage for passage in (*found, Passage(rest)) if passage.text)


def _author_words(workspace: Workspace, first: str, second: str, trait: str) -> str:
    for taxon, other in ((first, second), (second, first)):
        for contrast in workspace.taxa[taxon].profile.contrasts:
            for ground in contrast.by:
                if contrast.from_ == other and ground.trait == trait and ground.words:
                    return sentence(ground.words)
    return ""


def side_of(workspace: Workspace, taxon: Taxon, value: Value | None) -> Side:
    """A taxon's value as recorded, with its sources and the group it comes from."""
    if value is None:
        return Side(taxon.common_name, "nothing recorded", (), None)
    group = workspace.groups[value.origin].name if value.origin in workspace.groups and value.origin != taxon.id else None
    return Side(taxon.common_name, value.written, value.source, group)


def fewest_signs(workspace: Workspace, taxon: Taxon, occasion: Occasion) -> FewestSigns:
    """The fewest and easiest signs that together exclude every other taxon of an occasion, and what they leave."""
    found = sign_sets(workspace, taxon, occasion)
    sets = tuple(
        tuple((f"{s.trait}/{taxon.id}", sign_sentence(workspace, taxon, s.trait, s.at, occasion.region), bool(s.usually)) for s in chosen)
        for chosen in found.sets[:MOST_SETS_SHOWN]
        if chosen  # nothing excludes anything then: the best set is that of no signs
    )
    chosen = found.sets[0] if found.sets else ()
    surely = frozenset().union(*(s.excludes - s.usually for s in chosen))
    usually = frozenset().union(*(s.usually for s in chosen)) - surely
    left = tuple(remaining.taxon for remaining in found.remaining)
    mended = tuple(_mended(workspace, remaining) for remaining in found.remaining)
    claim = f"{'+'.join(dict.fromkeys(s.trait for s in chosen))}/{taxon.id}"
    return FewestSigns(sets, tuple(sorted(surely)), tuple(sorted(usually)), left, mended, claim)


def _mended(workspace: Workspace, remaining: Remaining) -> str:
    """A taxon that nothing excludes then, and when or by what means something would."""
    name = workspace.taxa[remaining.taxon].common_name
    for trait, days in remaining.later:
        return sentence(f"{name} is not excluded then, but by the {workspace.traits[trait].name} {days_words(days)}")
    for trait in remaining.means:
        return sentence(f"{name} is not excluded by eye, but with other means by the {workspace.traits[trait].name}")
    return sentence(f"{name} is not excluded by anything on record that may be looked at")
