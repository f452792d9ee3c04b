"""The front door of drawing: a piece by its name and settings, as SVG."""

from __future__ import annotations

from collections.abc import Mapping

from twayblade.knowledge.pieces import PIECES, OwnPiece, Setting
from twayblade.writing.drawing.bract import BRACT
from twayblade.writing.drawing.flower import FLOWER
from twayblade.writing.drawing.flower_tube import FLOWER_TUBE
from twayblade.writing.drawing.fruit import FRUIT
from twayblade.writing.drawing.head import HEAD
from twayblade.writing.drawing.joint import JOINT
from twayblade.writing.drawing.leaf import LEAF
from twayblade.writing.drawing.leaflet import LEAFLET
from twayblade.writing.drawing.own import drawer_of
from twayblade.writing.drawing.plant import PLANT
from twayblade.writing.drawing.rim_flower import RIM_FLOWER
from twayblade.writing.drawing.root import ROOT
from twayblade.writing.drawing.sketch import SEED, Drawer, Sketch, sketch
from twayblade.writing.drawing.small_umbel import SMALL_UMBEL
from twayblade.writing.drawing.stem import STEM
from twayblade.writing.drawing.svg import as_svg
from twayblade.writing.drawing.umbel import UMBEL

DRAWERS: dict[str, Drawer] = {
    drawer.piece.name: drawer
    for drawer in (PLANT, HEAD, UMBEL, BRACT, SMALL_UMBEL, RIM_FLOWER, FLOWER, FLOWER_TUBE, LEAF, LEAFLET, STEM, JOINT, FRUIT, ROOT)
}
"""How each built-in piece is drawn, by its name."""


def sketch_piece(name: str, settings: Mapping[str, Setting], own: Mapping[str, OwnPiece] | None = None, seed: str = SEED) -> Sketch:
    """A piece drawn. `settings`: by the names that content uses; `own`: the pieces that content defines."""
    if own and name in own:
        return sketch(drawer_of(name, own[name]), own[name].set_to(settings), seed)
    return sketch(DRAWERS[name], PIECES[name].model_validate(dict(settings)), seed)


def draw_piece(
    name: str,
    settings: Mapping[str, Setting],
    title: str,
    description: str,
    pointers: Mapping[str, int] | None = None,
    own: Mapping[str, OwnPiece] | None = None,
) -> str:
    """A piece drawn, as SVG."""
    return as_svg(sketch_piece(name, settings, own), title, description, pointers)
