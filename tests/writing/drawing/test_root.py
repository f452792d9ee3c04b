"""What is under the ground, read back from its drawings."""

from __future__ import annotations

import pytest
from tests.writing.drawing.reading import layer_points

from twayblade.writing.drawing.drawers import sketch_piece

FORMS = ("taproot", "tubers", "round-tuber", "rhizome", "rootstock")


def below(form: str) -> tuple[float, float]:
    """How wide and how deep a root is, below the ground."""
    made = sketch_piece("root", {"form": form})
    ground = max(p.imag for p in layer_points(sketch_piece("root", {}), "ground")[:9])
    found = [p for p in layer_points(made, "form") if p.imag > ground + 8]
    return max(p.real for p in found) - min(p.real for p in found), max(p.imag for p in found) - ground


@pytest.mark.parametrize("form", FORMS)
def test_the_ground_is_the_same_over_every_root(form: str) -> None:
    made, plain = (dict(sketch_piece("root", chosen).layers) for chosen in ({"form": form}, {}))
    assert made["ground"] == plain["ground"]


def test_a_taproot_is_deeper_than_wide_and_a_rhizome_runs_sideways() -> None:
    wide, deep = below("taproot")
    assert deep > 1.5 * wide
    wide, deep = below("rhizome")
    assert wide > 1.5 * deep


def test_nothing_below_the_ground_is_shown_where_nothing_is_known() -> None:
    plain = layer_points(sketch_piece("root", {}), "form")
    ground = min(p.imag for p in layer_points(sketch_piece("root", {}), "ground"))
    assert max(p.imag for p in plain) < ground + 8
