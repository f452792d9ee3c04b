"""Flowers from above, read back from their drawings."""

from __future__ import annotations

import re
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.writing.drawing.reading import layer_points, subpaths

from twayblade.writing.drawing.drawers import draw_piece, sketch_piece

MIDDLE = complex(70, 70)
TINTS = ("white", "cream", "pink", "green", "yellow", "purple")


@pytest.mark.parametrize(("layer", "parameter"), [("petals", "petals"), ("ray-florets", "ray_florets"), ("stamens", "stamens"), ("styles", "styles")])
@settings(max_examples=30, deadline=None)
@given(number=st.integers(0, 60))
def test_as_many_are_drawn_as_there_are(layer: str, parameter: str, number: int) -> None:
    assert subpaths("flower", layer, **{parameter: number}) == number


@settings(max_examples=40, deadline=None)
@given(width=st.decimals("0.5", "300", places=1), wider=st.decimals("1", "3", places=1), petals=st.integers(1, 30))
def test_a_flower_is_as_wide_as_its_scale_says(width: Decimal, wider: Decimal, petals: int) -> None:
    made = sketch_piece("flower", {"width": width, "petals": petals, "frame": width * wider})
    reach = max(abs(p - MIDDLE) for p in layer_points(made, "petals"))
    assert 2 * reach / made.units_per_mm == pytest.approx(float(width), abs=2 / made.units_per_mm)


@pytest.mark.parametrize("others", [{}, {"width": 20}, {"frame": 40}])
def test_a_petal_is_as_long_as_its_scale_says(others: dict) -> None:
    made = sketch_piece("flower", {"petal-length": 8, "petals": 1, **others})
    up = [p for p in layer_points(made, "petals") if abs(p.real - MIDDLE.real) < 6]
    long = max(p.imag for p in up) - min(p.imag for p in up)
    assert long / made.units_per_mm == pytest.approx(8, abs=1 / made.units_per_mm)


def test_a_petal_longer_than_half_the_flower_hides_its_foot_and_makes_the_flower_no_wider() -> None:
    made = sketch_piece("flower", {"petal-length": 9, "width": 15, "petals": 6})
    reach = max(abs(p - MIDDLE) for p in layer_points(made, "petals"))
    assert 2 * reach / made.units_per_mm == pytest.approx(15, abs=0.3)


@pytest.mark.parametrize("piece", ["flower", "rim-flower"])
def test_each_tint_has_a_marking_of_its_own_without_grey_or_colour(piece: str) -> None:
    drawn = [dict(sketch_piece(piece, {"petals": 5, "tint": tint}).layers).get("tint", ()) for tint in TINTS]
    assert len(set(drawn)) == len(TINTS)
    assert drawn[0] == ()
    for tint in TINTS:
        drawing = draw_piece(piece, {"petals": 5, "tint": tint}, "title", "description")
        assert "opacity" not in drawing
        assert set(re.findall(r'(?:fill|stroke)="([^"]*)"', drawing)) <= {"none", "#000", "#fff"}


def test_yellow_has_more_dots_than_cream() -> None:
    few, many = (subpaths("flower", "tint", petals=5, tint=tint) for tint in ("cream", "yellow"))
    assert many > 2 * few


def test_nothing_said_of_the_petals_leaves_nothing_to_count() -> None:
    assert subpaths("flower", "petals", tint="pink") == 0
    assert subpaths("flower", "rim", tint="pink") > 8
    assert subpaths("flower", "rim", petals=5) == 0


@settings(max_examples=30, deadline=None)
@given(number=st.integers(0, 30))
def test_as_many_petals_on_the_rim_as_there_are(number: int) -> None:
    assert subpaths("rim-flower", "petals", petals=number) == number


def test_the_outer_petals_reach_further_up_the_larger_they_are() -> None:
    tops = []
    for outer in ("equal", "slightly-larger", "much-larger"):
        found = layer_points(sketch_piece("rim-flower", {"petals": 5, "outer": outer}), "petals")
        middle = complex(80, 91)
        tops.append((middle.imag - min(p.imag for p in found)) / (max(p.imag for p in found) - middle.imag))
    assert tops[0] == pytest.approx(1, abs=0.25)
    assert tops[0] < tops[1] - 0.2
    assert tops[1] < tops[2] - 0.4
