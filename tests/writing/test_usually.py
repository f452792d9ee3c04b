"""`Usually` is said exactly where the data say so: of a side whose value has lesser conditions, and of no other."""

from __future__ import annotations

import re
from itertools import combinations

from twayblade.knowledge.frequency import Frequency
from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.claims import Verdict
from twayblade.reasoning.compare import Difference
from twayblade.reasoning.relation import Relation
from twayblade.reasoning.spread import spreads
from twayblade.reasoning.telling import tell_apart
from twayblade.writing.phrases import contrast_sentence

HEDGES = re.compile(r"\b(?:usually|sometimes|rarely|at the (?:most|least)|some (?:plants|sources))\b")

LACKING = "though some plants have none"


def sides(workspace: Workspace) -> list[tuple[Difference, Verdict, Taxon, str]]:
    """Each side of each contrast of a workspace: the difference, its verdict, the taxon and its half of the sentence."""
    found = []
    for pair in combinations(workspace.taxa, 2):
        for told in tell_apart(workspace, Occasion(None, taxa=pair)).told:
            d = told.difference
            if d.relation.is_contrast and not d.disputed:
                halves = contrast_sentence(workspace, d).split("; in ")
                assert len(halves) == 2, halves
                found += [(d, told.verdict, workspace.taxa[id_], half) for id_, half in zip((d.first, d.second), halves, strict=True)]
    return found


def test_a_side_is_hedged_exactly_if_some_plants_are_otherwise(demo_workspace: Workspace, penguin_workspace: Workspace) -> None:
    wrong, seen = [], set()
    for workspace in (demo_workspace, penguin_workspace):
        for d, _, taxon, half in sides(workspace):
            found = spreads(workspace, taxon, taxon.values[d.trait], d.at, None)
            said = {s.frequency for a in taxon.values[d.trait].alternatives for s in a.statements if d.at.holds(s)}
            varies = any(s.lesser or s.rare for s in found) or len(found) > 1 or Frequency.USUALLY in said or LACKING in half
            told_whole = workspace.traits[d.trait].kind.is_numeric and d.relation is Relation.SEPARATE and len(found) == 1
            hedged = bool(HEDGES.search(half))
            seen.add(hedged)
            if hedged != (varies and not told_whole):
                wrong.append((taxon.id, half, taxon.values[d.trait].written))
    assert seen == {True, False}
    assert wrong == []


def test_a_contrast_that_holds_usually_is_hedged_on_one_side_at_the_least(demo_workspace: Workspace) -> None:
    by_difference: dict[Difference, list[str]] = {}
    for d, verdict, _, half in sides(demo_workspace):
        if verdict is Verdict.HOLDS_USUALLY:
            by_difference.setdefault(d, []).append(half)
    assert len(by_difference) > 50
    assert [halves for halves in by_difference.values() if not any(map(HEDGES.search, halves))] == []
