"""Pocket keys: couplets that divide the taxa of an occasion, at the least expected cost (`keys.objective`).

A taxon that may show several states stands on several leads, so a variable plant is never led astray. Taxa share a last
lead only if no allowed question divides them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import permutations

from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.trail import KeyChoices
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.key_states import Known, known_on_the_way, lead_states
from twayblade.reasoning.keys.large import best_key
from twayblade.reasoning.keys.objective import Objective, Sign, places
from twayblade.reasoning.keys.search import Node, Plan
from twayblade.reasoning.questions import Question, questions


@dataclass(frozen=True)
class Asked:
    """A sign of a couplet. sides: for each lead of the couplet, in its order, which side of the question it is.

    states: for a trait with states, those that the taxa still possible are said to show on each lead.
    """

    question: Question
    sides: tuple[int, ...]
    states: tuple[tuple[str, ...], ...]


@dataclass(frozen=True)
class Lead:
    """One lead: the taxa on it, and the couplet it leads to (None: it ends in its taxa)."""

    taxa: tuple[str, ...]
    to: int | None


@dataclass(frozen=True)
class Couplet:
    """A numbered couplet: its signs, the surest and easiest first, its leads, and the couplets that lead here.

    among: the taxa that are still possible. unanswerable: those of them on which the first sign cannot be looked at then, so that
    they stand on every lead. doubtful: those that may not show it yet, or no more.
    """

    number: int
    signs: tuple[Asked, ...]
    leads: tuple[Lead, ...]
    among: tuple[str, ...]
    unanswerable: tuple[str, ...]
    doubtful: tuple[str, ...]
    back: tuple[int, ...]

    @property
    def question(self) -> Question:
        """The question that divides the taxa: the first sign."""
        return self.signs[0].question


@dataclass(frozen=True)
class Key:
    """A key for an occasion. Without couplets, all the taxa stand together: nothing allowed divides them.

    inseparable: the groups of taxa that share a last lead. plan, signs and objective: the same key in plain sets, for its measures.
    """

    occasion: Occasion
    couplets: tuple[Couplet, ...]
    inseparable: tuple[tuple[str, ...], ...]
    plan: Plan
    signs: tuple[Sign, ...]
    objective: Objective

    @cached_property
    def numbered(self) -> Mapping[int, Couplet]:
        """The couplets by number."""
        return {couplet.number: couplet for couplet in self.couplets}


AS_USUAL = KeyChoices()


def make_key(workspace: Workspace, occasion: Occasion, choices: KeyChoices = AS_USUAL) -> Key:
    """The key to the taxa of an occasion."""
    asked = questions(workspace, occasion, choices.most_leads)
    signs = tuple(_plain(workspace, question) for question in asked)
    objective = _objective(workspace, occasion, choices)
    plan = best_key(signs, objective)
    return _numbered(workspace, occasion, asked, plan, signs, objective)


def _plain(workspace: Workspace, question: Question) -> Sign:
    trait = workspace.traits[question.trait]
    return Sign(question.leads, question.trait, question.effort, float(trait.misread), trait.organ, question.silent, question.barred)


def _objective(workspace: Workspace, occasion: Occasion, choices: KeyChoices) -> Objective:
    likely = tuple(float(choices.likely.get(id_, 1)) for id_ in occasion.taxa)
    harmful = (workspace.taxa[id_].hazard_class.forbids_handling for id_ in occasion.taxa)
    wrong = tuple(float(choices.harmful if harms else choices.wrong) for harms in harmful)
    return Objective(likely, wrong, float(choices.length), choices.most_signs)


def _numbered(
    workspace: Workspace, occasion: Occasion, asked: tuple[Question, ...], plan: Plan, signs: tuple[Sign, ...], objective: Objective
) -> Key:
    """Couplets in reading order, the lead with fewer taxa first, each couplet as near as may be behind the one that leads to it."""
    order: list[Node] = []
    waiting = [plan.root]
    while waiting:
        node = waiting.pop()
        if node in plan.couplets and node not in order:
            order.append(node)
            waiting += reversed(_fewer_first(plan.couplets[node][1]))
    number = {node: place for place, node in enumerate(order, 1)}
    known = known_on_the_way(plan, asked)
    couplets = tuple(_couplet(workspace, occasion, asked, plan, node, number, known[node]) for node in order)
    ends = {lead.taxa for couplet in couplets for lead in couplet.leads if lead.to is None} or {occasion.taxa}
    return Key(occasion, couplets, tuple(sorted(end for end in ends if len(end) > 1)), plan, signs, objective)


def _couplet(
    workspace: Workspace, occasion: Occasion, asked: tuple[Question, ...], plan: Plan, node: Node, number: Mapping[Node, int], known: Known
) -> Couplet:
    division, below = plan.couplets[node]
    taxa, among = node[0], _ids(occasion, node[0])
    ordered = _fewer_first(below)
    signs = []
    for n in division.signs:
        question = asked[n]
        sides = _sides(question, taxa, tuple(lead for lead, _ in ordered))
        excluded = known.get((question.trait, question.at), frozenset())
        signs.append(Asked(question, sides, tuple(lead_states(workspace, question, side, among, excluded) for side in sides)))
    leads = tuple(Lead(_ids(occasion, lower[0]), number.get(lower)) for lower in ordered)
    back = tuple(sorted(number[other] for other in number if node in plan.couplets[other][1]))
    first = signs[0].question
    unanswerable = tuple(occasion.taxa[place] for place in sorted(first.unanswerable) if taxa >> place & 1)
    doubtful = tuple(occasion.taxa[place] for place in sorted(first.doubtful) if taxa >> place & 1)
    return Couplet(number[node], tuple(signs), leads, among, unanswerable, doubtful, back)


def _sides(question: Question, taxa: int, leads: tuple[int, ...]) -> tuple[int, ...]:
    """Which side of a question each lead of a couplet is: the one whose taxa lie within it."""
    return next(
        order
        for order in permutations(range(len(question.sides)))
        if len(order) == len(leads) and all(not taxa & question.leads[side] & ~lead for side, lead in zip(order, leads, strict=True))
    )


def _fewer_first(below: tuple[Node, ...]) -> list[Node]:
    return sorted(below, key=lambda node: node[0].bit_count())


def _ids(occasion: Occasion, taxa: int) -> tuple[str, ...]:
    return tuple(occasion.taxa[place] for place in places(taxa))
