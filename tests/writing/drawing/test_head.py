"""What is drawn of the flower head is what was asked for: numbers, sides, lengths and manners can be read back from the lines.

That a count, a side or a stance must be seen follows from the definitions of the traits that set them; no outside source.
"""

from __future__ import annotations

from itertools import pairwise, product
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.writing.drawing.strokes import Drawn

from twayblade.knowledge.pieces import PIECES, ParameterKind

OWN = ("head", "umbel", "small-umbel", "bract")
often = settings(max_examples=100, deadline=None)
counts = st.integers(0, 40)


def manners(piece: str, name: str) -> tuple[str, ...]:
    return PIECES[piece].kind().parameters[name].manners


def any_settings(piece: str) -> st.SearchStrategy[dict[str, Any]]:
    """Any combination of what can be set, odd ones included."""
    takes = {ParameterKind.COUNT: st.integers(0, 60), ParameterKind.LENGTH: st.decimals("0.1", "9000", places=1)}
    optional = {}
    for parameter in PIECES[piece].kind().parameters.values():
        optional[parameter.name] = st.sampled_from(parameter.manners) if parameter.manners else takes[parameter.kind]
    return st.fixed_dictionaries({}, optional=optional)


pieces = st.sampled_from(OWN).flatmap(lambda piece: st.tuples(st.just(piece), any_settings(piece)))


# -- numbers -----------------------------------------------------------------------------------------------
@often
@given(counts)
def test_every_ray_is_drawn_once(number: int) -> None:
    assert Drawn("umbel", {"rays": number}).count("rays") == number


@often
@given(counts, st.sampled_from([None, "undivided", "forked"]), st.sampled_from([None, "along-rays", "turned-down"]))
def test_every_bract_is_drawn_once(number: int, division: str | None, stance: str | None) -> None:
    chosen = {"bracts": number, "bract-division": division, "bract-stance": stance}
    assert Drawn("umbel", {k: v for k, v in chosen.items() if v is not None}).count("bracts") == number


@often
@given(any_settings("small-umbel"))
def test_every_bracteole_is_drawn_once(chosen: dict[str, Any]) -> None:
    assert Drawn("small-umbel", chosen).count("bracteoles") == chosen.get("bracteoles", 0)


@often
@given(st.integers(2, 40))
def test_rays_can_be_told_apart_at_their_tips(number: int) -> None:
    """No two end above one another, and they keep their order from left to right."""
    drawn = Drawn("umbel", {"rays": number})
    tips = sorted(min(ray, key=lambda p: p.imag).real for ray in drawn.layers["rays"])
    assert min(b - a for a, b in pairwise(tips)) > 164 / number * 0.6


def test_rays_that_are_not_known_are_not_there_to_be_counted() -> None:
    """The reach of the umbel is a broken line: no stroke of it is long enough to be taken for a ray."""
    assert all(abs(way[-1] - way[0]) < 6 for way in Drawn("umbel").layers["rays"])
    assert Drawn("umbel").count("umbellets") == 0


# -- sides and stances -------------------------------------------------------------------------------------
FOOT = 100
bracteoles = st.integers(2, 12)
looks = st.fixed_dictionaries({}, optional={n: st.sampled_from(manners("small-umbel", n)) for n in ("stance", "reach", "outline")})


@often
@given(bracteoles, looks)
def test_bracteoles_of_the_outer_side_leave_the_inner_side_bare(number: int, look: dict[str, str]) -> None:
    """The middle of the main umbel lies to the left, so the outer side is the right."""
    drawn = Drawn("small-umbel", {"bracteoles": number, "side": "outer-side", **look})
    assert all(way[0].real >= FOOT - 3 and sum(p.real for p in way) / len(way) > FOOT for way in drawn.layers["bracteoles"])


@often
@given(bracteoles, looks)
def test_bracteoles_all_round_stand_on_both_sides_alike(number: int, look: dict[str, str]) -> None:
    drawn = Drawn("small-umbel", {"bracteoles": number, "side": "all-round", **look})
    right = [max(p.real for p in way) for way in drawn.layers["bracteoles"]]
    left = [min(p.real for p in way) for way in drawn.layers["bracteoles"]]
    assert abs((max(right) - FOOT) - (FOOT - min(left))) < 12
    assert max(right) - FOOT > 10


@often
@given(bracteoles, st.sampled_from(["all-round", "outer-side"]), st.sampled_from(["strip", "lance"]), st.sampled_from(["shorter", "longer"]))
def test_bent_bracteoles_point_down_and_spread_ones_point_aside(number: int, side: str, outline: str, reach: str) -> None:
    def lowest(stance: str) -> list[float]:
        chosen = {"bracteoles": number, "side": side, "outline": outline, "reach": reach, "stance": stance}
        return [max(p.imag for p in way) for way in Drawn("small-umbel", chosen).layers["bracteoles"]]

    assert min(lowest("bent-down")) > 98 + 15
    assert min(lowest("spread-out")) < 98 + 12


@often
@given(st.integers(1, 12), st.sampled_from(["undivided", "forked"]))
def test_bracts_along_the_rays_point_up_and_turned_ones_down(number: int, division: str) -> None:
    def heights(stance: str) -> list[float]:
        ways = Drawn("umbel", {"bracts": number, "bract-division": division, "bract-stance": stance}).layers["bracts"]
        return [sum(p.imag for p in way) / len(way) - 142 for way in ways]

    assert max(heights("along-rays")) < -3
    # the outermost large ones start out level before they bend
    assert sorted(heights("turned-down"))[0] > -3
    assert sum(heights("turned-down")) > 5


@often
@given(st.integers(1, 10), st.sampled_from(["all-round", "outer-side"]), st.sampled_from(["strip", "lance", "three-forked"]))
def test_long_bracteoles_reach_past_the_florets_and_short_ones_do_not(number: int, side: str, outline: str) -> None:
    """Each is set against the stalks of the florets, from the foot where both begin."""

    def reaches(reach: str) -> float:
        chosen = {"bracteoles": number, "side": side, "outline": outline, "reach": reach, "stance": "bent-down"}
        return max(abs(p - way[0]) for way in Drawn("small-umbel", chosen).layers["bracteoles"] for p in way)

    stalks = Drawn("small-umbel").layers["pedicels"]
    longest = max(abs(way[-1] - way[0]) for way in stalks)
    assert reaches("shorter") < longest < reaches("longer")


@pytest.mark.parametrize("manner", ["equal", "slightly-larger", "much-larger"])
def test_the_larger_the_rim_petals_are_the_further_they_stand_out(manner: str) -> None:
    def width(manner: str) -> float:
        points = [p.real for way in Drawn("umbel", {"rays": 9, "rim-petals": manner}).layers["rim-petals"] for p in way]
        return max(points) - min(points)

    order = ["equal", "slightly-larger", "much-larger"]
    assert all(width(smaller) + 4 < width(manner) for smaller in order[: order.index(manner)])


def test_a_nodding_bud_hangs_below_the_bend_of_its_stalk_and_an_upright_one_tops_it() -> None:
    def lowest_and_highest(manner: str) -> tuple[float, float]:
        drawn = Drawn("head", {"in-bud": manner})
        stalk, *rest = drawn.layers["bud"]
        buds = [p.imag for way in rest[1:] for p in way]
        return max(buds) - min(p.imag for p in stalk), min(p.imag for p in stalk) - min(buds)

    assert lowest_and_highest("nodding")[0] > 15
    assert lowest_and_highest("nodding")[1] < 0
    assert lowest_and_highest("upright")[1] > 10


def test_the_rays_of_a_nest_close_over_it_and_loose_ones_keep_apart() -> None:
    """`nest`: the outer rays bend inwards, so their ends stand closer together than their middles."""

    def spreads(manner: str) -> tuple[float, float]:
        ways = Drawn("head", {"in-fruit": manner}).layers["fruit"]
        rays = [way for way in ways if abs(way[0] - (180 + 158j)) < 0.1]
        ends = [way[-1].real for way in rays]
        everywhere = [p.real for way in rays for p in way]
        return max(ends) - min(ends), max(everywhere) - min(everywhere)

    nest, loose = spreads("nest"), spreads("loose")
    assert nest[0] < nest[1] * 0.75
    assert loose[0] == pytest.approx(loose[1])


# -- lengths -----------------------------------------------------------------------------------------------
@often
@given(st.decimals("0.5", "300", places=1), st.sampled_from([None, "undivided", "forked"]), st.decimals("1", "8", places=1))
def test_a_bract_is_drawn_to_the_scale_of_the_bar(length: Any, division: str | None, share: Any) -> None:
    chosen: dict[str, Any] = {"length": length, "frame": length * share}
    if division:
        chosen["division"] = division
    drawn = Drawn("bract", chosen)
    tip = min(p.imag for way in drawn.layers["bract"] for p in way)
    assert drawn.sketch.units_per_mm is not None
    assert (186 - tip) / drawn.sketch.units_per_mm == pytest.approx(float(length), abs=0.8 / drawn.sketch.units_per_mm)


# -- manners and layers ------------------------------------------------------------------------------------
BESIDE: dict[tuple[str, str], dict[str, Any]] = {}
for _piece in OWN:
    for _parameter in PIECES[_piece].kind().parameters.values():
        if _parameter.manners:
            BESIDE[_piece, _parameter.name] = dict(_parameter.beside)


@often
@given(pieces)
def test_the_same_values_give_the_same_bytes_and_another_seed_the_same_numbers(piece: tuple[str, dict[str, Any]]) -> None:
    name, chosen = piece
    assert Drawn(name, chosen).svg == Drawn(name, chosen).svg
    for layer in ("rays", "bracts", "bracteoles"):
        assert Drawn(name, chosen, "2").count(layer) == Drawn(name, chosen).count(layer)


def full(piece: str, numbers: dict[str, tuple[int, ...]]) -> list[dict[str, Any]]:
    """Settings of a piece with everything set."""
    ways = [[(p.name, m) for m in p.manners or numbers.get(p.name, (30,))] for p in PIECES[piece].kind().parameters.values()]
    return [dict(way) for way in product(*ways)]


@pytest.mark.parametrize("number", [1, 9, 15, 21, 25, 28, 45, 60])
def test_no_umbel_is_larger_than_twelve_kilobytes(number: int) -> None:
    """With up to 14 bracts, as many as the plants of the demo bear."""
    for chosen in full("umbel", {"rays": (number,), "bracts": (8, 12, 14)}):
        assert len(Drawn("umbel", chosen).svg.encode()) <= 12_000, chosen


@pytest.mark.parametrize(("piece", "numbers"), [("head", {}), ("bract", {}), ("small-umbel", {"bracteoles": (9, 14, 16, 30)})])
def test_no_other_drawing_of_the_head_is_larger_either(piece: str, numbers: dict[str, tuple[int, ...]]) -> None:
    for chosen in full(piece, numbers):
        assert len(Drawn(piece, chosen).svg.encode()) <= 12_000, chosen


@pytest.mark.parametrize("piece", OWN)
def test_the_picture_of_a_state_is_small(piece: str) -> None:
    found = [len(Drawn(piece, {**BESIDE[key], key[1]: manner}).svg) for key in BESIDE if key[0] == piece for manner in manners(*key)]
    assert sorted(found)[len(found) // 2] <= 6_200
    assert max(found) <= 9_000
