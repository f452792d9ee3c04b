"""The front door of drawing: a piece by its name and settings, as SVG."""

from __future__ import annotations

from collections.abc import Mapping

from twayblade.knowledge.pieces import PIECES, Setting
from twayblade.writing.drawing.plant import PLANT
from twayblade.writing.drawing.sketch import SEED, Drawer, Sketch, sketch
from twayblade.writing.drawing.stem import STEM
from twayblade.writing.drawing.svg import as_svg

DRAWERS: dict[str, Drawer] = {drawer.piece.name: drawer for drawer in (PLANT, STEM)}
"""How each built-in piece is drawn, by its name."""


def sketch_piece(name: str, settings: Mapping[str, Setting], seed: str = SEED) -> Sketch:
    """A piece drawn. `settings`: by the names that content uses."""
    return sketch(DRAWERS[name], PIECES[name].model_validate(dict(settings)), seed)


def draw_piece(name: str, settings: Mapping[str, Setting], title: str, description: str, pointers: Mapping[str, int] | None = None) -> str:
    """A piece drawn, as SVG."""
    return as_svg(sketch_piece(name, settings), title, description, pointers)
