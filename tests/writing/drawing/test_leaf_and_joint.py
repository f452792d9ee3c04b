"""What holds of the drawings of the leaf, its last pieces and the joint of the stem, whatever is set."""

from __future__ import annotations

from decimal import Decimal
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.writing.drawing.strokes import Drawn

from twayblade.knowledge.pieces import PIECES, ParameterKind, Settings


def settings_of(name: str) -> st.SearchStrategy[Settings]:
    """Any settings, odd ones too; a length within a frame or alone."""
    kinds = PIECES[name].kind().parameters.values()
    chosen: dict[str, st.SearchStrategy[str]] = {p.name: st.sampled_from(p.manners) for p in kinds if p.kind is ParameterKind.MANNER}
    manners = st.fixed_dictionaries({}, optional=chosen)
    if not PIECES[name].ruler:
        return manners
    millimetres = st.decimals("0.1", "4000", places=1)
    lengths = st.one_of(
        st.just({}),
        st.builds(lambda mm: {"length": mm}, millimetres),
        st.builds(lambda a, b: {"length": min(a, b), "frame": max(a, b)}, millimetres, millimetres),
    )
    return st.builds(lambda a, b: {**a, **b}, manners, lengths)


# -- the leaf ----------------------------------------------------------------------------------------------
@settings(max_examples=30, deadline=None)
@given(chosen=settings_of("leaf"), mm=st.decimals("1", "4000", places=0), longer=st.decimals("1", "4", places=1))
def test_a_leaf_is_as_long_as_its_scale_says(chosen: Settings, mm: Decimal, longer: Decimal) -> None:
    drawn = Drawn("leaf", {**chosen, "length": mm, "frame": mm * longer})
    heights = [p.imag for p in drawn.points]
    scale = drawn.sketch.units_per_mm
    assert scale
    # the edges of the stalk's foot and the bow of a drawn curve reach a little beyond its ends
    assert max(heights) - min(heights) == pytest.approx(float(mm) * scale, rel=0.03, abs=1.0)


@pytest.mark.parametrize("outline", ["feather", "triangle", "lance"])
@pytest.mark.parametrize("blade", ["whole", "divided"])
def test_the_outline_of_the_leaf_is_that_of_its_definition(outline: str, blade: str) -> None:
    """A feather is several times longer than wide, a triangle about as wide as long (content/traits.yml, leaf-outline)."""
    rest = {"division": "twice", "segments": "lacy"} if blade == "divided" else {}
    points = [p for way in Drawn("leaf", {"blade": blade, "outline": outline, **rest}).layers["blade"] for p in way]
    wide = max(p.real for p in points) - min(p.real for p in points)
    long = max(p.imag for p in points) - min(p.imag for p in points)
    if outline == "triangle":
        assert 0.7 < wide / long < 1.3
    elif outline == "feather":
        assert wide / long < 0.4
    else:
        assert wide / long < 0.62


@pytest.mark.parametrize("segments", ["broad-lobed", "egg-shaped", "wedge-shaped", "lacy", "linear"])
def test_a_leaf_divided_in_threes_has_nine_leaflets(segments: str) -> None:
    """Three branches with three leaflets each: closed lines, the branches being open ones."""
    drawn = Drawn("leaf", {"blade": "divided", "division": "in-threes", "segments": segments})
    assert sum(data.count("z") for data, *_ in drawn.data["blade"]) == 9


@pytest.mark.parametrize("segments", ["broad-lobed", "egg-shaped", "wedge-shaped", "lacy", None])
def test_a_leaf_has_more_pieces_the_more_often_it_is_divided(segments: str | None) -> None:
    rest = {"segments": segments} if segments else {}
    counts = []
    for division in ("once", "twice", "thrice"):
        drawn = Drawn("leaf", {"blade": "divided", "outline": "triangle", "division": division, **rest})
        counts.append(sum(data.count("z") for data, *_ in drawn.data["blade"]))
    assert counts == sorted(set(counts))
    assert counts[0] < 12


def test_the_lowest_branches_are_as_large_as_the_rest_or_much_smaller() -> None:
    """How far the lowest branch reaches to the right; that of three equal parts reaches far (content/traits.yml, lowest-leaf-branches)."""
    reach = {}
    for manner in ("much-smaller", "as-large"):
        drawn = Drawn("leaf", {"blade": "divided", "outline": "triangle", "division": "twice", "segments": "lacy", "lowest-pair": manner})
        reach[manner] = max(p.real for way in drawn.layers["blade"] for p in way if p.imag > 90) - 85
    assert reach["as-large"] > 1.6 * reach["much-smaller"]


def test_pale_flecks_hide_what_lies_below() -> None:
    drawn = Drawn("leaf", {"blade": "divided", "division": "once", "flecks": "flecks"})
    assert {fill for *_, fill in drawn.data["flecks"]} == {"#fff"}
    assert "flecks" not in Drawn("leaf", {"blade": "divided", "division": "once", "flecks": "none"}).layers


def test_of_a_leaf_of_which_nothing_is_said_only_the_shape_is_drawn_in_a_broken_line() -> None:
    """A whole edge would say that the leaf is not divided."""
    blade = Drawn("leaf").data["blade"]
    assert all("z" not in data for data, *_ in blade)
    assert blade[0][0].lower().count("m") > 20


# -- the last pieces ---------------------------------------------------------------------------------------
def _edge(chosen: Settings) -> list[complex]:
    return Drawn("leaflet", {"outline": "egg-shaped", **chosen}).layers["blade"][0]


def test_teeth_are_as_many_and_as_sharp_as_their_names_say() -> None:
    """Corners of the edge: none on a smooth one; more and smaller teeth on a finely toothed edge; rounded ones have curves."""
    data = {
        teeth: Drawn("leaflet", {"outline": "egg-shaped", "teeth": teeth}).data["blade"][0][0]
        for teeth in ("none", "blunt", "sharp", "fine", "jagged")
    }
    assert "c" in data["none"]
    assert "c" in data["blunt"]
    for sharp in ("sharp", "fine", "jagged"):
        assert "c" not in data[sharp]
    assert len(_edge({"teeth": "fine"})) > 1.5 * len(_edge({"teeth": "sharp"}))


def test_jagged_teeth_are_of_very_different_sizes_and_fine_teeth_of_one() -> None:
    def spread(teeth: str) -> float:
        """Longest against middling side of the teeth on the right."""
        edge = _edge({"teeth": teeth})
        tip = min(range(len(edge)), key=lambda n: edge[n].imag)
        long_sides = sorted(abs(b - a) for a, b in pairwise(edge[1 : tip - 1]))
        return long_sides[-1] / long_sides[len(long_sides) // 3]

    assert spread("jagged") > 1.25 * spread("fine")


def test_a_drawn_out_tip_reaches_further_than_a_pointed_one_and_a_blunt_one_least() -> None:
    tips = {tip: min(p.imag for p in _edge({"tip": tip})) for tip in ("blunt", "pointed", "drawn-out")}
    assert tips["drawn-out"] < tips["pointed"] < tips["blunt"]


@pytest.mark.parametrize("outline", ["broad-lobed", "egg-shaped", "wedge-shaped", "lacy", "linear", None])
def test_felt_is_much_denser_than_hairs_on_edge_and_veins(outline: str | None) -> None:
    rest = {"outline": outline} if outline else {}
    some, felt = (Drawn("leaflet", {**rest, "hairs": hairs}).count("hairs") for hairs in ("some", "felt"))
    assert felt > 2 * some
    assert Drawn("leaflet", {**rest, "hairs": "none"}).count("hairs") == 0


# -- the joint ---------------------------------------------------------------------------------------------
@pytest.mark.parametrize(("leaves", "stipules"), [("one", 2), ("pair", 4)])
def test_each_leaf_has_its_pair_of_stipules(leaves: str, stipules: int) -> None:
    assert Drawn("joint", {"leaves": leaves, "stipules": "pair"}).count("stipules") == stipules
    assert Drawn("joint", {"leaves": leaves, "stipules": "none"}).count("stipules") == 0


@pytest.mark.parametrize("foot", ["sheath", "no-sheath", "rounded"])
def test_leaves_stand_on_one_side_on_both_or_all_round(foot: str) -> None:
    def reach(leaves: str) -> tuple[float, float]:
        points = [p.real - 80 for way in Drawn("joint", {"leaves": leaves, "leaf-foot": foot}).layers["leaves"] for p in way]
        return -min(points), max(points)

    left, right = reach("one")
    assert left < 24 < 30 < right
    left, right = reach("pair")
    assert left == pytest.approx(right, abs=2.5)
    assert "behind" in Drawn("joint", {"leaves": "ring", "leaf-foot": foot}).layers


def test_an_inflated_sheath_stands_off_the_stem_and_a_narrow_one_does_not() -> None:
    def off(sheath: str) -> float:
        """How far it stands off on the outer side, below the stalk."""
        return max(p.real for way in Drawn("joint", {"leaves": "one", "sheath": sheath}).layers["leaves"] for p in way if p.imag > 85) - 96

    assert off("narrow") < 5
    assert off("inflated") > 20


def test_a_stem_is_thicker_below_a_swollen_joint() -> None:
    def widest(swelling: str) -> float:
        points = [p.real for way in Drawn("joint", {"swelling": swelling}).layers["stem"] for p in way]
        return max(points) - min(points)

    assert widest("swollen") > 1.3 * widest("plain")
