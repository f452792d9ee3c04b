"""Pocket keys: couplets of two leads that divide the taxa of an occasion, at the least expected effort.

A taxon that may show either state stands on both leads, so a variable plant is never led astray. Taxa share a last
lead only if no allowed question divides them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import TypeAlias

from twayblade.knowledge.frequency import Frequency
from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.questions import Question, questions
from twayblade.reasoning.spread import Context

EXACT_UP_TO = 12
"""A set of up to so many taxa is solved exactly; of a larger one only the most promising divisions are followed."""

_PROMISING = 4
"""So many divisions of a large set are followed (project default)."""

_TOGETHER = 15.0
"""What it costs that a pair of taxa ends on one lead (project default): more than any question, so that dividing comes first."""

_NOT_SHOWING = 4.0
"""What a question costs more that some of the taxa cannot answer then (project default): asked only where nothing else divides."""


@dataclass(frozen=True)
class Lead:
    """One lead: which side of the question it is, the taxa on it, and the couplet it leads to (None: it ends in its taxa).

    states: for a trait with states, those of this side that the taxa still possible are said to show.
    """

    side: int
    taxa: tuple[str, ...]
    to: int | None
    states: tuple[str, ...] = ()


@dataclass(frozen=True)
class Couplet:
    """A numbered question with its two leads, and the couplets that lead here.

    among: the taxa that are still possible. unanswerable: those of them on which it cannot be looked at then, so that they stand
    on both leads. doubtful: those that may not show it yet, or no more.
    """

    number: int
    question: Question
    leads: tuple[Lead, Lead]
    among: tuple[str, ...]
    unanswerable: tuple[str, ...]
    doubtful: tuple[str, ...]
    back: tuple[int, ...]


@dataclass(frozen=True)
class Key:
    """A key for an occasion. Without couplets, all the taxa stand together: nothing allowed divides them."""

    occasion: Occasion
    couplets: tuple[Couplet, ...]
    inseparable: tuple[tuple[str, ...], ...]
    """The groups of taxa that share a last lead."""


def make_key(workspace: Workspace, occasion: Occasion) -> Key:
    """The key to the taxa of an occasion."""
    asked = questions(workspace, occasion)
    everything = (1 << len(occasion.taxa)) - 1
    choose = _Search(asked)
    plan: dict[int, tuple[Question, tuple[int, int]]] = {}
    waiting = [everything]
    while waiting:
        taxa = waiting.pop(0)
        question = choose(taxa) if taxa not in plan else None
        if question:
            plan[taxa] = (question, question.divide(taxa))
            waiting += plan[taxa][1]
    return _numbered(workspace, occasion, plan, everything)


class _Search:
    """Chooses the question with which the whole key costs least, by dynamic programming over sets of taxa.

    Exact for sets of up to EXACT_UP_TO taxa. Of questions that divide a set alike only the cheapest is followed, and none that
    cannot come out cheaper than the best found.
    """

    def __init__(self, asked: tuple[Question, ...]) -> None:
        cheapest: dict[tuple[int, int, int], Question] = {}
        for question in sorted(asked, key=lambda q: q.cost):
            first, second = question.divide(-1)
            cheapest.setdefault((first, second, question.silent), question)
        self._asked = tuple((first, second, silent, question.cost, question) for (first, second, silent), question in cheapest.items())
        self._least: float = min((question.cost for question in asked), default=0.0)
        self._best = cache(self._solve)

    def __call__(self, taxa: int) -> Question | None:
        return self._best(taxa)[1]

    def _at_least(self, taxa: int) -> float:
        """What a set costs at the least: its taxa kept together, or divided as evenly as can be by the cheapest question.

        The shortest total path of n taxa in a dichotomous key is n*k + 2*(n - 2**k), k being the whole part of log2 n.
        """
        size = taxa.bit_count()
        if size < 2:
            return 0.0
        steps = size.bit_length() - 1
        steps_of_all = size * steps + 2 * (size - (1 << steps))
        return min(self._least * steps_of_all, _TOGETHER * size * (size - 1))

    def _solve(self, taxa: int) -> tuple[float, Question | None]:
        size = taxa.bit_count()
        best: tuple[float, Question | None] = (_TOGETHER * size * (size - 1), None)
        for price, question, (first, second) in self._ways(taxa):
            if best[1] is not None and price + self._at_least(first) + self._at_least(second) >= best[0]:
                continue
            cost = price + self._best(first)[0]
            if best[1] is None or cost + self._at_least(second) < best[0]:
                cost += self._best(second)[0]
                if best[1] is None or cost < best[0]:
                    best = (cost, question)
        return best

    def _ways(self, taxa: int) -> list[tuple[float, Question, tuple[int, int]]]:
        """The ways of dividing a set, each by its cheapest question, the cheapest first."""
        ways: dict[tuple[int, int], tuple[float, Question]] = {}
        size = taxa.bit_count()
        for on_first, on_second, silent, cost, question in self._asked:  # written out: this runs a million times
            first, second = taxa & on_first, taxa & on_second
            if first and second and first != taxa and second != taxa:
                price = (cost + _NOT_SHOWING if taxa & silent else cost) * size
                known = ways.get((first, second))
                if known is None or price < known[0]:
                    ways[first, second] = (price, question)
        found = [(price, question, divided) for divided, (price, question) in ways.items()]
        if size > EXACT_UP_TO:
            found = sorted(found, key=lambda way: -_pairs_divided(taxa, way[2]) / way[0])[:_PROMISING]
        return sorted(found, key=lambda way: way[0])


def _pairs_divided(taxa: int, divided: tuple[int, int]) -> int:
    """How many pairs of a set a division sets apart."""
    first, second = divided
    return (taxa & ~second).bit_count() * (taxa & ~first).bit_count()


def _numbered(workspace: Workspace, occasion: Occasion, plan: Mapping[int, tuple[Question, tuple[int, int]]], everything: int) -> Key:
    """Couplets in reading order, the lead with fewer taxa first, each couplet as near as may be behind the one that leads to it."""
    order: list[int] = []

    def visit(taxa: int) -> None:
        if taxa in plan and taxa not in order:
            order.append(taxa)
            for side in _fewer_first(plan[taxa][1]):
                visit(plan[taxa][1][side])

    visit(everything)
    number = {taxa: place + 1 for place, taxa in enumerate(order)}
    answered = _answers(plan, everything)
    couplets = []
    for taxa in order:
        question, divided = plan[taxa]
        among = _ids(occasion, taxa)
        excluded = answered[taxa].get((question.trait, question.at), frozenset())
        leads = []
        for side in _fewer_first(divided):
            states = lead_states(workspace, question, side, among, excluded)
            leads.append(Lead(side, _ids(occasion, divided[side]), number.get(divided[side]), states))
        back = tuple(number[other] for other in order if taxa in plan[other][1])
        unanswerable = tuple(occasion.taxa[place] for place in sorted(question.unanswerable) if taxa >> place & 1)
        doubtful = tuple(occasion.taxa[place] for place in sorted(question.doubtful) if taxa >> place & 1)
        couplets.append(Couplet(number[taxa], question, (leads[0], leads[1]), among, unanswerable, doubtful, back))
    ends = {lead.taxa for couplet in couplets for lead in couplet.leads if lead.to is None} or {occasion.taxa}
    return Key(occasion, tuple(couplets), tuple(sorted(end for end in ends if len(end) > 1)))


_Answers: TypeAlias = dict[tuple[str, Context], frozenset[str]]


def _answers(plan: Mapping[int, tuple[Question, tuple[int, int]]], everything: int) -> dict[int, _Answers]:
    """For each couplet the conditions that earlier answers have excluded on every way to it, so that leads need not name them."""
    reached: dict[int, list[_Answers]] = {everything: [{}]}
    for taxa in sorted(plan, key=lambda t: -t.bit_count()):
        question, divided = plan[taxa]
        known = _common(reached[taxa])
        for side in (0, 1):
            answers = dict(known)
            other = question.sides[1 - side]
            if isinstance(other, frozenset) and not taxa & question.silent:
                key = (question.trait, question.at)
                answers[key] = answers.get(key, frozenset()) | other
            reached.setdefault(divided[side], []).append(answers)
    return {taxa: _common(ways) for taxa, ways in reached.items()}


def _common(ways: list[_Answers]) -> _Answers:
    first, *others = ways
    return {key: excluded.intersection(*(w.get(key, frozenset()) for w in others)) for key, excluded in first.items()}


def lead_states(workspace: Workspace, question: Question, side: int, among: tuple[str, ...], excluded: frozenset[str]) -> tuple[str, ...]:
    """The states that name one side of a question: the widest that say it, and only such as some of the
    taxa are said to show and earlier answers have not excluded."""
    trait = workspace.traits[question.trait]
    if trait.kind.is_numeric:
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
    chosen = question.sides[side]
    own = chosen - excluded if isinstance(chosen, frozenset) else frozenset()
    named: list[str] = []
    covered: frozenset[str] = frozenset()
    for state in sorted(trait.states, key=lambda s: (-len(trait.atoms[s]), list(trait.states).index(s))):
        shown = trait.atoms[state] & met
        says_itself = state in met or len(shown) > 1
        if shown and shown <= own and says_itself and not shown <= covered:
            named.append(state)
            covered |= shown
    return tuple(sorted(named, key=list(trait.states).index)) or tuple(s for s in trait.states if s in own)


def _fewer_first(divided: tuple[int, int]) -> tuple[int, int]:
    return (0, 1) if divided[0].bit_count() <= divided[1].bit_count() else (1, 0)


def _ids(occasion: Occasion, taxa: int) -> tuple[str, ...]:
    return tuple(id_ for place, id_ in enumerate(occasion.taxa) if taxa >> place & 1)
