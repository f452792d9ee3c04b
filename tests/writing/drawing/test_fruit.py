"""Fruits, read back from their drawings."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.writing.drawing.reading import layer_points, subpaths

from twayblade.writing.drawing.drawers import sketch_piece

OUTLINES = ("long", "cylinder", "narrow-egg", "egg", "flat-oval", "twisted")


def extent(layer: str = "outline", **chosen: object) -> tuple[float, float]:
    found = layer_points(sketch_piece("fruit", {k.replace("_", "-"): v for k, v in chosen.items()}), layer)
    across, down = [p.real for p in found], [p.imag for p in found]
    return max(across) - min(across), max(down) - min(down)


@pytest.mark.parametrize("outline", [None, *OUTLINES])
@pytest.mark.parametrize("beak", ["none", "short"])
@settings(max_examples=10, deadline=None)
@given(length=st.decimals("0.5", "60", places=1), longer=st.decimals("1", "4", places=1))
def test_a_fruit_is_as_long_as_its_scale_says(outline: str | None, beak: str, length: Decimal, longer: Decimal) -> None:
    chosen = {"length": length, "frame": length * longer, "beak": beak, **({"outline": outline} if outline else {})}
    made = sketch_piece("fruit", chosen)
    heights = [p.imag for p in layer_points(made, "outline")]
    drawn = (max(heights) - min(heights)) / made.units_per_mm
    assert drawn == pytest.approx(float(length), abs=(3 if outline else 14) / made.units_per_mm)


def test_outlines_are_as_slender_as_their_definitions_say() -> None:
    """The definitions of the states in traits.yml: long at least two and a half times as long as wide, egg less than twice."""
    slender = {outline: extent(outline=outline)[1] / extent(outline=outline)[0] for outline in OUTLINES}
    assert slender["long"] >= 2.5
    assert slender["cylinder"] >= 2.5
    assert slender["egg"] < 2
    assert slender["flat-oval"] < 2


def test_a_narrow_egg_is_widest_below_its_middle_and_a_cylinder_nowhere() -> None:
    def width_at(outline: str, low: float, high: float) -> float:
        found = layer_points(sketch_piece("fruit", {"outline": outline}), "outline")
        foot, top = max(p.imag for p in found), min(p.imag for p in found)
        near = [p.real for p in found if low <= (foot - p.imag) / (foot - top) <= high]
        return max(near) - min(near)

    assert width_at("narrow-egg", 0.2, 0.5) > 1.3 * width_at("narrow-egg", 0.75, 0.9)
    assert width_at("cylinder", 0.2, 0.4) == pytest.approx(width_at("cylinder", 0.6, 0.8), rel=0.06)


def test_long_styles_are_half_as_long_as_the_fruit_and_short_ones_much_shorter() -> None:
    """The definitions of the states in traits.yml."""
    length = extent(outline="cylinder")[1]
    assert extent("styles", outline="cylinder", styles="long")[1] >= 0.5 * length
    assert extent("styles", outline="cylinder", styles="short")[1] < 0.2 * length


def test_a_beak_is_a_neck_at_the_top_of_the_same_length() -> None:
    plain, beaked = (layer_points(sketch_piece("fruit", {"outline": "egg", "beak": beak}), "outline") for beak in ("none", "short"))
    top = min(p.imag for p in plain)
    assert min(p.imag for p in beaked) == pytest.approx(top, abs=1)

    def neck(found: list[complex]) -> float:
        near = [p.real for p in found if top + 4 < p.imag < top + 16]
        return max(near) - min(near)

    assert neck(beaked) < 0.4 * neck(plain)


def test_broad_wings_leave_the_body_as_wide_as_each_of_them() -> None:
    """The definition in traits.yml: margins as wide as the body."""
    edge = extent(outline="flat-oval")[0]
    found = [p.real for p in layer_points(sketch_piece("fruit", {"outline": "flat-oval", "wings": "thin"}), "wings")]
    assert max(found) - min(found) > 0.7 * edge
    core = sketch_piece("fruit", {"outline": "flat-oval", "wings": "broad", "ridges": "low"})
    ridges = [p.real for p in layer_points(core, "ridges")]
    assert max(ridges) - min(ridges) < 0.4 * edge


def test_bristles_and_spines_stand_out_all_round_and_a_bare_fruit_has_none() -> None:
    wide = extent(outline="egg")[0]
    for clothing in ("bristles", "spine-rows"):
        assert extent("clothing", outline="egg", clothing=clothing)[0] > wide + 20
    assert subpaths("fruit", "clothing", outline="egg", clothing="bare") == 0
    assert sketch_piece("fruit", {"outline": "egg", "clothing": "bare"}).places["clothing"]


def test_absent_ridges_wings_and_beak_draw_nothing() -> None:
    bare = sketch_piece("fruit", {"outline": "egg"}).layers
    assert sketch_piece("fruit", {"outline": "egg", "ridges": "none", "wings": "none", "beak": "none"}).layers == bare


def test_a_fruit_of_which_nothing_is_said_is_an_oval_of_dashes() -> None:
    assert subpaths("fruit", "outline") > 8
    assert subpaths("fruit", "outline", outline="egg") == 1
