"""Counts and places in drawings of flowers, fruits and roots, and any settings of a piece."""

from __future__ import annotations

from decimal import Decimal

from hypothesis import strategies as st
from tests.writing.drawing.strokes import Drawn, ways

from twayblade.knowledge.pieces import PIECES, ParameterKind
from twayblade.writing.drawing.sketch import Sketch


def subpaths(name: str, layer: str, **settings: object) -> int:
    """How many lines the layer of that name has."""
    return Drawn(name, {key.replace("_", "-"): value for key, value in settings.items()}).count(layer)


def points(data: str) -> list[complex]:
    """The points that the lines of path data run through or towards."""
    return [point for way in ways(data) for point in way]


def layer_points(made: Sketch, layer: str) -> list[complex]:
    """All points of one layer."""
    return [p for name, strokes in made.layers if name == layer for stroke in strokes for p in points(stroke.data)]


def all_points(made: Sketch) -> list[complex]:
    """All points of a drawing."""
    return [p for name, _ in made.layers for p in layer_points(made, name)]


def settings_of(name: str, most: int = 60) -> st.SearchStrategy[dict]:
    """Any settings of a piece, odd ones too; lengths within a frame, if there is one."""
    choices = {}
    for parameter in PIECES[name].kind().parameters.values():
        if parameter.kind is ParameterKind.MANNER:
            choices[parameter.name] = st.sampled_from(parameter.manners)
        elif parameter.kind is ParameterKind.COUNT:
            choices[parameter.name] = st.integers(0, most)
        else:
            choices[parameter.name] = st.decimals("0.1", "4000", places=1)
    if PIECES[name].ruler:
        choices["frame"] = st.sampled_from([Decimal(4000), Decimal(9999)])
    return st.fixed_dictionaries({}, optional=choices)
