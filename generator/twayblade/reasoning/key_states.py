"""Which states a lead names: those the taxa still possible show, without what earlier answers have excluded."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeAlias

from twayblade.knowledge.frequency import Frequency
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.keys.search import Division, Node, Plan
from twayblade.reasoning.questions import Question
from twayblade.reasoning.spread import Context

Known: TypeAlias = Mapping[tuple[str, Context], frozenset[str]]
"""For a trait at a part and stage, the conditions that no plant that comes here rightly can show."""


def known_on_the_way(plan: Plan, asked: tuple[Question, ...]) -> dict[Node, Known]:
    """For each couplet the conditions that earlier answers have excluded on every way to it, so that leads need not name them."""
    reached: dict[Node, list[Known]] = {plan.root: [{}]}
    for node in sorted(plan.couplets, key=lambda n: -n[0].bit_count()):
        division, below = plan.couplets[node]
        known = _common(reached[node])
        for lower in below:
            reached.setdefault(lower, []).append(_with_answer(known, asked[division.signs[0]], node[0], lower[0], division))
    return {node: _common(ways) for node, ways in reached.items()}


def _with_answer(known: Known, question: Question, taxa: int, lead: int, division: Division) -> Known:
    """What is known on a lead: the other leads' states are excluded, unless some of the taxa may not show the sign, or a variable one may
    have come here because later signs outvoted what it shows."""
    side = next((n for n, on in enumerate(question.leads) if taxa & on == lead), None)
    variable = any(lead & other for other in division.leads if other != lead)
    if side is None or taxa & question.silent or (variable and len(division.signs) > 1):
        return known
    key = (question.trait, question.at)
    other = frozenset[str]().union(*(s for n, s in enumerate(question.sides) if n != side and isinstance(s, frozenset)))
    return {**known, key: known.get(key, frozenset()) | other} if other else known


def _common(ways: list[Known]) -> Known:
    first, *others = ways
    return {key: excluded.intersection(*(w.get(key, frozenset()) for w in others)) for key, excluded in first.items()}


def lead_states(workspace: Workspace, question: Question, side: int, among: tuple[str, ...], excluded: frozenset[str]) -> tuple[str, ...]:
    """The states that name one side of a question: the widest that say it, and only such as some of the
    taxa are said to show and earlier answers have not excluded."""
    trait = workspace.traits[question.trait]
    chosen = question.sides[side]
    if trait.kind.is_numeric or not isinstance(chosen, frozenset):
        return ()
    values = [v for id_ in among if (v := workspace.taxa[id_].values.get(question.trait))]
    said = {
        state
        for value in values
        for alternative in value.alternatives
        for s in alternative.statements
        if question.at.holds(s) and s.frequency is not Frequency.NEVER
        for state in s.states
    }
    met = frozenset(atom for state in said for atom in trait.atoms[state]) - excluded
    own = chosen - excluded
    named: list[str] = []
    covered: frozenset[str] = frozenset()
    for state in sorted(trait.states, key=lambda s: (-len(trait.atoms[s]), list(trait.states).index(s))):
        shown = trait.atoms[state] & met
        says_itself = state in met or len(shown) > 1
        if shown and shown <= own and says_itself and not shown <= covered:
            named.append(state)
            covered |= shown
    return tuple(sorted(named, key=list(trait.states).index)) or tuple(s for s in trait.states if s in own)
