"""The three forms of a flower of three levels, read back from their drawings.

Charles Darwin, "On the sexual relations of the three forms of Lythrum salicaria" (1865): the long-styled form has stamens of middle length
and short ones, the mid-styled long and short ones, the short-styled long ones and ones of middle length; style and two sets take the three levels.
"""

from __future__ import annotations

import pytest
from tests.writing.drawing.reading import layer_points, subpaths
from tests.writing.drawing.strokes import ways

from twayblade.writing.drawing.drawers import sketch_piece
from twayblade.writing.drawing.pen import Fill

FORMS = {"high": "low-and-mid", "mid": "low-and-high", "low": "mid-and-high"}


def levels(style: str, stamens: str) -> list[float]:
    made = sketch_piece("flower-tube", {"style": style, "stamens": stamens, "calyx": "tube"})
    anthers = [way[0].imag for stroke in dict(made.layers)["stamens"] for way in ways(stroke.data)]
    stigma = min(p.imag for p in layer_points(made, "style")) + 5
    anthers.sort()
    return [stigma, sum(anthers[:3]) / 3, sum(anthers[3:]) / 3]


@pytest.mark.parametrize(("style", "stamens"), FORMS.items())
def test_style_and_both_sets_of_stamens_share_out_three_levels(style: str, stamens: str) -> None:
    found = sorted(levels(style, stamens))
    assert found[1] - found[0] > 30
    assert found[2] - found[1] > 30


def test_a_level_is_at_the_same_height_whoever_takes_it() -> None:
    found = [sorted(levels(style, stamens)) for style, stamens in FORMS.items()]
    for heights in zip(*found, strict=True):
        assert max(heights) - min(heights) < 6


def test_the_low_level_is_inside_the_tube_and_the_others_are_out_of_it() -> None:
    rim = min(p.imag for p in layer_points(sketch_piece("flower-tube", {"calyx": "tube"}), "calyx"))
    high, mid, low = (levels(style, FORMS[style])[0] for style in ("high", "mid", "low"))
    assert high < rim
    assert mid < rim + 10
    assert low > rim + 30


def test_only_the_longest_anthers_are_dark() -> None:
    for stamens in FORMS.values():
        strokes = dict(sketch_piece("flower-tube", {"stamens": stamens, "pollen": "longest-dark"}).layers)["stamens"]
        dark = [p.imag for s in strokes if s.fill is Fill.INK for way in ways(s.data) for p in way]
        pale = [p.imag for s in strokes if s.fill is Fill.PAPER for way in ways(s.data) for p in way]
        assert max(dark) < min(pale)
        pale_ones = dict(sketch_piece("flower-tube", {"stamens": stamens, "pollen": "all-pale"}).layers)["stamens"]
        assert all(s.fill is Fill.PAPER for s in pale_ones)


def test_coloured_stalks_are_double() -> None:
    single = subpaths("flower-tube", "filaments", stamens="mid-and-high", filaments="all-pale")
    assert subpaths("flower-tube", "filaments", stamens="mid-and-high", filaments="longest-dark") == single + 3
