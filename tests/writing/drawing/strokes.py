"""Drawings read back: the subpaths of each layer, with the points that their lines run through or towards."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cached_property

from twayblade.knowledge.pieces import Setting
from twayblade.writing.drawing.drawers import sketch_piece
from twayblade.writing.drawing.pen import Weight
from twayblade.writing.drawing.sketch import Sketch
from twayblade.writing.drawing.svg import as_svg

_STEP = re.compile(r"([A-Za-z])([^A-Za-z]*)")
_NUMBER = re.compile(r"-?(?:\d+\.?\d*|\.\d+)")
_TAKES = {"c": 6, "s": 4, "q": 4, "l": 2, "a": 7, "h": 1}


class Drawn:
    """A piece drawn with some settings."""

    def __init__(self, piece: str, settings: Mapping[str, Setting] | None = None, seed: str = "1") -> None:
        self.sketch: Sketch = sketch_piece(piece, settings or {}, seed=seed)
        self.svg = as_svg(self.sketch, "title", "description")

    @cached_property
    def layers(self) -> dict[str, list[list[complex]]]:
        """The subpaths of each layer: every point of the way, those that bend a curve included."""
        return {name: [way for stroke in strokes for way in ways(stroke.data)] for name, strokes in self.sketch.layers}

    @cached_property
    def data(self) -> dict[str, list[tuple[str, Weight, str]]]:
        """The strokes of each layer as they are written."""
        return {name: [(s.data, s.weight, str(s.fill)) for s in strokes] for name, strokes in self.sketch.layers}

    def count(self, layer: str) -> int:
        """How many lines a layer has."""
        return len(self.layers.get(layer, []))

    @property
    def points(self) -> list[complex]:
        return [p for ways_of_layer in self.layers.values() for way in ways_of_layer for p in way]

    def is_on_paper(self) -> bool:
        return all(0 <= p.real <= self.sketch.width and 0 <= p.imag <= self.sketch.height for p in self.points)


def ways(data: str) -> list[list[complex]]:
    """The subpaths of SVG path data made of moves and relative steps."""
    found: list[list[complex]] = []
    at = 0j
    for letter, text in _STEP.findall(data):
        numbers = [float(n) for n in _NUMBER.findall(text)]
        if letter in "Mm":
            at = complex(*numbers) + (at if letter == "m" else 0j)
            found.append([at])
            continue
        if letter == "z":
            at = found[-1][0]
            continue
        size = _TAKES[letter]
        for start in range(0, len(numbers), size):
            step = numbers[start : start + size]
            if letter == "h":
                pairs = [complex(step[0])]
            else:
                step = step[5:] if letter == "a" else step
                pairs = [complex(x, y) for x, y in zip(step[::2], step[1::2], strict=True)]
            found[-1] += [at + p for p in pairs]
            at = found[-1][-1] if pairs else at
    return found
