"""The edge of a leaf seen close: flanks of lobes that run into a tip, with teeth on them."""

from __future__ import annotations

from dataclasses import dataclass

from twayblade.writing.drawing.pen import Fill, Pen, Point, Weight


@dataclass(frozen=True)
class Flank:
    """One side of a lobe, as a cubic Bezier curve from its foot to its tip. out: the sign that turns its direction out of the leaf."""

    foot: Point
    first: Point
    second: Point
    tip: Point
    out: int

    def at(self, u: float) -> Point:
        """The point at a parameter from 0 at the foot to 1 at the tip."""
        v = 1 - u
        return v**3 * self.foot + 3 * v * v * u * self.first + 3 * v * u * u * self.second + u**3 * self.tip

    def outwards(self, u: float) -> Point:
        """The direction out of the leaf, of length one."""
        v = 1 - u
        along = v * v * (self.first - self.foot) + 2 * u * v * (self.second - self.first) + u * u * (self.tip - self.second)
        return along / abs(along) * 1j * self.out if along else 0j

    @property
    def length(self) -> float:
        """Length in units, nearly."""
        return sum(abs(self.at((n + 1) / 8) - self.at(n / 8)) for n in range(8))


_TIPS: dict[str | None, tuple[float, float, float]] = {
    "blunt": (-0.03, 0.0, 0.24),
    None: (0.0, 0.14, 0.14),
    "pointed": (0.06, 0.4, 0.1),
    "drawn-out": (0.24, 0.56, 0.02),
}
"""How far the tip is pushed out, how far the flank is held back before it, and how far aside: shares of the length of the lobe."""


def flanks(root: Point, tip: Point, feet: tuple[Point, Point], manner: str | None, bulge: float, reach: float = 1.0) -> tuple[Flank, Flank]:
    """Both sides of a lobe: the one from the first foot, with the leaf's outside on its right, and the other.

    root: where the lobe's vein leaves the midrib. manner: of the tip. reach: how much of a drawn out tip this lobe has.
    """
    ahead = (tip - root) / abs(tip - root)
    size = abs(tip - root)
    out, held, aside = _TIPS[manner]
    end = tip + ahead * size * out * (reach if manner == "drawn-out" else 1.0)
    made = []
    for foot, side in zip(feet, (1, -1), strict=True):
        span = abs(end - foot)
        first = foot + (end - foot) * 0.24 + (end - foot) * 1j * side * bulge
        second = end - ahead * span * held + ahead * 1j * side * span * aside
        made.append(Flank(foot, first, second, end, side))
    return made[0], made[1]


@dataclass(frozen=True)
class _Teeth:
    """How long a tooth is along the edge in units, how far it stands out, and how far its point lies ahead (0.5 is in its middle)."""

    pitch: float
    height: float
    ahead: float


_TEETH = {
    "some": _Teeth(13.0, 2.6, 0.5),
    "blunt": _Teeth(14.0, 4.2, 0.5),
    "sharp": _Teeth(10.0, 3.6, 1.04),
    "fine": _Teeth(4.8, 2.1, 0.95),
    "jagged": _Teeth(10.0, 5.2, 1.08),
}
_LARGE_AND_SMALL = (1.5, 0.5, 0.75, 0.4)
"""Jagged teeth against the middle size, in turn."""


def edge(flank: Flank, manner: str | None, pen: Pen, start: float = 0.05, end: float = 0.93) -> list[list[Point]]:
    """The flank from its foot to its tip as smooth sides that meet in corners. manner: of the teeth."""
    shape = _TEETH.get(manner or "")
    if not shape or flank.length * (end - start) < 4:
        return [[flank.at(n / 4) for n in range(5)]]
    smaller = min(1.0, (flank.length / 75) ** 0.6)
    number = max(1, round(flank.length * (end - start) / (shape.pitch * smaller)))
    spans = [_LARGE_AND_SMALL[n % 4] if manner == "jagged" else 1.0 for n in range(number)]
    total = sum(spans)
    sides: list[list[Point]] = [[flank.foot, flank.at(start)]]
    notch, u = flank.at(start), start
    for span in spans:
        after = u + (end - start) * span / total
        height = shape.height * smaller * span * pen.between(0.85, 1.15) * (1.0 if after < 0.8 else 0.7)
        peak = u + (after - u) * shape.ahead
        tip = flank.at(peak) + flank.outwards(peak) * height
        behind = flank.at(after)
        if manner == "blunt":
            shoulder = flank.at(u + (after - u) * 0.16) + flank.outwards(u) * height * 0.85
            other = flank.at(u + (after - u) * 0.84) + flank.outwards(u) * height * 0.85
            sides.append([notch, shoulder, other, behind])
        else:
            sides += [[notch, tip], [tip, behind]]
        notch, u = behind, after
    sides.append([notch, flank.tip])
    return sides


def backwards(sides: list[list[Point]]) -> list[list[Point]]:
    """The same edge from its tip to its foot."""
    return [side[::-1] for side in reversed(sides)]


def trace(pen: Pen, sides: list[list[Point]], weight: Weight) -> None:
    """Draw the edge all round: with straight lines where it has nothing but corners."""
    if all(len(side) == 2 for side in sides):
        pen.corner([side[0] for side in sides], weight, Fill.PAPER, closed=True)
    else:
        pen.outline(*sides, weight=weight)
