"""The line along which a leaf, or a part of it, is built."""

from __future__ import annotations

from cmath import exp, phase
from dataclasses import dataclass
from math import pi, sin

from twayblade.writing.drawing.pen import Point

UPWARDS = -pi / 2


@dataclass(frozen=True)
class Axis:
    """An arc of a circle. heading: its direction at the start, in radians, growing clockwise as seen. turn: how far it bends in all."""

    start: Point
    heading: float
    length: float
    turn: float = 0.0

    @staticmethod
    def between(start: Point, end: Point, turn: float = 0.0) -> Axis:
        """The arc from one point to another."""
        chord = abs(end - start)
        stretched = chord * (turn / 2) / sin(turn / 2) if turn else chord
        return Axis(start, phase(end - start) - turn / 2, stretched, turn)

    def at(self, share: float) -> Point:
        """The point at a share of the length."""
        along = exp(1j * self.heading) * self.length
        if abs(self.turn) < 1e-6:
            return self.start + along * share
        return self.start + along * (exp(1j * self.turn * share) - 1) / (1j * self.turn)

    def off(self, share: float, aside: float) -> Point:
        """A point beside the axis: `aside` units to the right of one who goes along it."""
        return self.at(share) + 1j * exp(1j * self.facing(share)) * aside

    def facing(self, share: float) -> float:
        """The direction at a share of the length, in radians."""
        return self.heading + self.turn * share

    def branch(self, share: float, side: int, angle: float, length: float, bend: float = 0.0) -> Axis:
        """An axis that leaves this one to the right (side 1) or left (-1) at an angle, and bends towards its tip again."""
        return Axis(self.at(share), self.facing(share) + side * angle, length, -side * bend)

    def part(self, start: float, end: float) -> Axis:
        """The axis from one share of its length to another."""
        return Axis(self.at(start), self.facing(start), self.length * (end - start), self.turn * (end - start))
