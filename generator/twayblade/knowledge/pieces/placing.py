"""Where lines that have coordinates of their own come to stand on the paper."""

from __future__ import annotations

from cmath import rect
from dataclasses import dataclass
from itertools import pairwise
from math import pi

from twayblade.knowledge.pieces.line import Run


@dataclass(frozen=True)
class Placing:
    """Stretches along and across the lines' own x axis, turns (`turn` has length 1) and moves. As it stands it changes nothing."""

    origin: complex = 0j
    turn: complex = 1 + 0j
    along: float = 1.0
    across: float = 1.0

    def place(self, point: complex) -> complex:
        """A point of the lines on the paper."""
        return self.origin + self.turn * complex(point.real * self.along, point.imag * self.across)


def around(centre: complex, number: int) -> tuple[Placing, ...]:
    """Turned round a centre at equal angles, the first as it stands."""
    turns = (rect(1, 2 * pi * n / number) for n in range(number))
    return tuple(Placing(centre - turn * centre, turn) for turn in turns)


def beside(line: Run, number: int) -> tuple[Placing, ...]:
    """Moved to equal steps along the straight pieces of a line, the own x axis turned along it; half a step is left at each end."""
    pieces = [(a.at, b.at) for a, b in pairwise(line) if a.at != b.at]
    total = sum(abs(b - a) for a, b in pieces)
    made = []
    for n in range(number if pieces else 0):
        left = total * (n + 0.5) / number
        for start, end in pieces:
            turn = (end - start) / abs(end - start)
            if left <= abs(end - start):
                break
            left -= abs(end - start)
        made.append(Placing(start + turn * min(left, abs(end - start)), turn))
    return tuple(made)
