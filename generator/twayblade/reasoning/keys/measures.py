"""How long a key is and how sure: exact figures from the plan, and shares from the walks of simulated readers."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass
from math import log2

from twayblade.reasoning.keys.objective import Objective, Sign, places
from twayblade.reasoning.keys.reader import followed
from twayblade.reasoning.keys.search import Node, Plan


@dataclass(frozen=True)
class Length:
    """How many couplets a plant passes: on average, each taxon weighted by how likely it is met and a variable one taking each of its
    ways equally often; and at the most. cost: what an identification costs on average, counted so, in units of effort.

    entropy: the bits it takes to tell the names apart; with two leads a couplet no key has a shorter mean.
    """

    mean: float
    longest: int
    cost: float
    entropy: float


def length(plan: Plan, objective: Objective) -> Length:
    """The length of a key."""
    total = sum(objective.likely) or 1.0
    order = sorted(plan.couplets, key=lambda node: -node[0].bit_count())
    shares: dict[Node, dict[int, float]] = {node: {} for node in order}
    depth: dict[Node, int] = dict.fromkeys(order, 0)
    if order:
        shares[plan.root] = {place: weight / total for place, weight in enumerate(objective.likely)}
    mean = cost = 0.0
    longest = 0
    ends: set[int] = set() if order else {plan.root[0]}
    for node in order:
        division, below = plan.couplets[node]
        longest = max(longest, depth[node] + 1)
        for place, share in shares[node].items():
            own = [n for n, lead in enumerate(division.leads) if lead >> place & 1]
            mean += share
            cost += share * objective.length * division.effort
            if len(own) < len(division.leads):
                cost += share * division.chance * objective.wrong[place]
            for n in own:
                if below[n] in shares:
                    shares[below[n]][place] = shares[below[n]].get(place, 0.0) + share / len(own)
        for lower in below:
            if lower in depth:
                depth[lower] = max(depth[lower], depth[node] + 1)
            else:
                ends.add(lower[0])
    return Length(mean, longest, cost, _entropy(objective, ends))


def _entropy(objective: Objective, ends: set[int]) -> float:
    """The entropy of the names in bits, taxa that share an end, directly or through others, counting as one name."""
    joined: list[int] = []
    for end in ends:
        apart = [group for group in joined if not group & end]
        for group in joined:
            if group & end:
                end |= group
        joined = [*apart, end]
    total = sum(objective.likely) or 1.0
    shares = [objective.weight(group) / total for group in joined]
    return -sum(share * log2(share) for share in shares if share)


@dataclass(frozen=True)
class Arrivals:
    """What became of simulated readers: the share of walks that ended on a lead that does not hold the plant, for all plants and for
    the harmful ones, each taxon weighted by how likely it is met; and the mean number of couplets passed."""

    wrong: float
    harmful_wrong: float
    steps: float


def arrivals(plan: Plan, signs: Sequence[Sign], objective: Objective, harmful: int, seed: int, walks: int) -> Arrivals:
    """The walks of simulated readers, so many for each taxon, drawn from a seed: the same seed gives the same walks."""
    chance = random.Random(seed)
    wrong = harmful_wrong = steps = 0.0
    for place, weight in enumerate(objective.likely):
        for _ in range(walks):
            end, passed = _walk(plan, signs, place, chance)
            missed = weight * (not end >> place & 1)
            wrong += missed
            harmful_wrong += missed * (harmful >> place & 1)
            steps += weight * passed
    total = walks * sum(objective.likely) or 1.0
    among_harmful = walks * sum(objective.likely[place] for place in places(harmful)) or 1.0
    return Arrivals(wrong / total, harmful_wrong / among_harmful, steps / total)


def _walk(plan: Plan, signs: Sequence[Sign], place: int, chance: random.Random) -> tuple[int, int]:
    """Where a reader arrives with a plant of a taxon, and after how many couplets."""
    node, passed = plan.root, 0
    while node in plan.couplets:
        division, below = plan.couplets[node]
        passed += 1
        every = range(len(division.leads))
        own = [n for n in every if division.leads[n] >> place & 1]
        taken = chance.choice(own) if own else chance.choice(every)
        if own and len(own) < len(division.leads):
            rates = [signs[n].misread for n in division.signs]
            reads = tuple(chance.random() < rate for rate in rates)
            if followed(reads, chance.random() < rates[0]):
                taken = chance.choice([n for n in every if n != taken])
        node = below[taken]
    return node[0], passed
