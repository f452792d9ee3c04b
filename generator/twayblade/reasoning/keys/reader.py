"""The model of a reader: how the signs of a couplet are read, and how often that ends on a wrong lead.

A reader looks at the signs of a couplet in turn. Each is misread at its own rate, one independently of another; a sign misread
points to a wrong lead. With one sign the reader follows it. With three the majority decides. With two that disagree the
reader looks once more at the first, which is misread as often as before, and follows what it says then. The price of a couplet
(`objective`) and the walks of simulated readers (`arrivals`) both come from `followed`. Project defaults: no measurements of readers
are behind the model.
"""

from __future__ import annotations

from functools import cache
from itertools import product


def followed(read_wrong: tuple[bool, ...], again_wrong: bool) -> bool:
    """Whether a reader goes wrong whose first, second and third signs were read so, and the first, if looked at again, as `again_wrong`."""
    wrong = sum(read_wrong)
    if 2 * wrong == len(read_wrong):
        return again_wrong
    return 2 * wrong > len(read_wrong)


@cache
def wrong_turn(misread: tuple[float, ...]) -> float:
    """The chance of a wrong turn at a couplet whose signs are misread at these rates."""
    chance = 0.0
    for *reads, again in product((False, True), repeat=len(misread) + 1):
        if followed(tuple(reads), again):
            share = misread[0] if again else 1 - misread[0]
            for wrong, rate in zip(reads, misread, strict=True):
                share *= rate if wrong else 1 - rate
            chance += share
    return chance
