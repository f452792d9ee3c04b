"""How long and how sure a pocket key is, beside the merely shortest key to the same plants."""

from __future__ import annotations

from dataclasses import dataclass, replace

from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.key import Key
from twayblade.reasoning.keys.large import best_key
from twayblade.reasoning.keys.measures import Arrivals, Length, arrivals, length
from twayblade.reasoning.keys.objective import shortest

SEED = 1
WALKS = 400
"""So many walks for each taxon (project default): shares of some percent are then sure to about one percent."""


@dataclass(frozen=True)
class KeyReport:
    """The measures of a key. gap: by what share of its cost it may be dearer than the best; 0: it is proven the best.

    arrivals, shortest_arrivals: of simulated readers with this key, and with the key of fewest couplets, one sign each, in which
    errors count nothing. seed: from which the walks are drawn.
    """

    taxa: int
    gap: float
    length: Length
    shortest_length: Length
    arrivals: Arrivals
    shortest_arrivals: Arrivals
    seed: int


def key_report(workspace: Workspace, key: Key, seed: int = SEED, walks: int = WALKS) -> KeyReport:
    """The measures of a key; the same seed gives the same report."""
    taxa = key.occasion.taxa
    harmful = sum(1 << place for place, id_ in enumerate(taxa) if workspace.taxa[id_].hazard_class.is_harmful)
    plain = replace(shortest(len(taxa)), likely=key.objective.likely)
    equal = tuple(replace(sign, effort=1.0) for sign in key.signs)
    short = best_key(equal, plain)
    return KeyReport(
        len(taxa),
        key.plan.gap,
        length(key.plan, key.objective),
        length(short, plain),
        arrivals(key.plan, key.signs, key.objective, harmful, seed, walks),
        arrivals(short, equal, plain, harmful, seed, walks),
        seed,
    )
