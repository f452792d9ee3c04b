"""Pieces that content defines: their notation, what depends on what, and where their lines stand."""

from __future__ import annotations

from decimal import Decimal
from itertools import pairwise
from math import isclose
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from twayblade.knowledge.pieces import OwnPiece, ParameterKind
from twayblade.knowledge.pieces.line import Knot, Line, parse_run
from twayblade.knowledge.pieces.own import MOST
from twayblade.knowledge.pieces.placing import around, beside

FRUIT: dict[str, Any] = {
    "title": "a fruit",
    "size": "120 x 100",
    "lines": ["10,50 60,45 110,50"],
    "ruler": "length",
    "parameters": {
        "length": {"description": "length", "at": "50,0", "from": "10,50", "towards": "110,50", "each": ["(0,0) 50,-20 (100,0) 50,20"]},
        "breadth": {"description": "breadth", "at": "50,20", "across": "length", "over": "40", "beside": {"length": "5"}},
        "spots": {"description": "spots", "at": "60,50", "along": "20,50 60,20 100,50", "each": ["0,0"]},
        "wings": {"description": "wings", "at": "60,90", "around": "60,50", "each": ["60,80 60,90"]},
        "clothing": {
            "description": "hairs",
            "at": "50,0",
            "stands-on": "length",
            "beside": {"length": "5"},
            "manners": {"bare": [], "hairs": ["20,0 20,-10"]},
        },
    },
}


@pytest.fixture(scope="module")
def fruit() -> OwnPiece:
    return OwnPiece.model_validate(FRUIT)


def test_a_point_in_brackets_is_a_corner() -> None:
    assert parse_run("20,80 (-6.5,.5)".replace(",.5", ",0.5")) == (Knot(20 + 80j), Knot(-6.5 + 0.5j, corner=True))


@pytest.mark.parametrize("text", ["", "20", "20;80", "20,80,", "(20,80", "20,80)", "1e3,5", "nan,0", "20 80", "99999,1", "20,80 <b>"])
def test_what_is_no_list_of_points_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="expected points"):
        parse_run(text)


@pytest.mark.parametrize(
    ("written", "told"),
    [
        ({"through": "1,1 2,2", "closed": "yes"}, "three points"),
        ({"through": []}, "at least 1"),
        ({"through": "1,1", "weight": "thick"}, "outline"),
        ({"through": "1,1", "fill": "red"}, "paper"),
    ],
)
def test_a_line_is_of_few_kinds(written: dict[str, Any], told: str) -> None:
    with pytest.raises(ValidationError, match=told):
        Line.model_validate(written)


def test_it_is_seen_like_a_built_in_piece(fruit: OwnPiece) -> None:
    kind = fruit.kind("ficta-fruit")
    assert (kind.name, kind.title, kind.ruler) == ("ficta-fruit", "a fruit", "length")
    assert {name: p.kind for name, p in kind.parameters.items()} == {
        "length": ParameterKind.LENGTH,
        "breadth": ParameterKind.LENGTH,
        "spots": ParameterKind.COUNT,
        "wings": ParameterKind.COUNT,
        "clothing": ParameterKind.MANNER,
    }
    assert kind.parameters["clothing"].manners == ("bare", "hairs")
    assert kind.parameters["clothing"].beside == {"length": "5"}


def test_only_what_stands_on_a_length_depends_on_other_parameters(fruit: OwnPiece) -> None:
    reads = {name: fruit.reads(name) for name in fruit.parameters}
    assert reads["spots"] == {"spots"}
    assert reads["wings"] == {"wings"}
    assert reads["length"] == {"length", "breadth", "frame"}
    assert reads["clothing"] == {"clothing", "length", "breadth", "frame"}
    assert fruit.needs("clothing") == {"length"}


@pytest.mark.parametrize(
    ("name", "setting", "told"),
    [
        ("clothing", "wool", "expected one of bare, hairs"),
        ("spots", "two", "a number of things"),
        ("spots", "1.5", "a number of things"),
        ("spots", -1, "a number of things"),
        ("length", "long", "a length in mm"),
        ("length", "NaN", "a length in mm"),
        ("length", "Infinity", "a length in mm"),
        ("colour", "red", "no parameter `colour`"),
    ],
)
def test_a_setting_that_its_parameter_does_not_take_is_refused(fruit: OwnPiece, name: str, setting: Any, told: str) -> None:
    with pytest.raises(ValueError, match=told):
        fruit.set_to({name: setting})


lengths = st.decimals("0.1", "1000", places=1)


@given(length=lengths, breadth=lengths, frame=st.none() | lengths)
def test_lengths_and_breadths_are_to_one_scale(fruit: OwnPiece, length: Decimal, breadth: Decimal, frame: Decimal | None) -> None:
    made = fruit.set_to({"length": length, "breadth": breadth, **({"frame": frame} if frame else {})})
    scale, placings = fruit.scale(made), fruit.placings("length", made)
    assert scale
    assert placings
    place = placings[0].place
    assert isclose(abs(place(100) - place(0)) / scale, length, rel_tol=1e-9)
    assert isclose(abs(place(20j) - place(-20j)) / scale, breadth, rel_tol=1e-9)
    assert isclose(scale * float(frame or length), 100, rel_tol=1e-9)  # the space between `from` and `towards`


@pytest.mark.parametrize("longest", ["0.001", "1e-400", "0", "1e7", "1e999999"])
def test_what_no_bar_can_measure_has_no_scale(fruit: OwnPiece, longest: str) -> None:
    made = fruit.set_to({"length": longest})
    assert fruit.scale(made) is None
    assert fruit.placings("length", made) is None


@given(st.integers(1, MOST))
def test_things_round_a_centre_stand_at_equal_angles(number: int) -> None:
    tips = [placing.place(60 + 80j) for placing in around(60 + 50j, number)]
    assert tips[0] == 60 + 80j
    assert all(isclose(abs(tip - (60 + 50j)), 30) for tip in tips)
    gaps = [abs(a - b) for a, b in pairwise([*tips, tips[0]])]
    assert max(gaps) - min(gaps) < 1e-9


@given(st.integers(1, MOST))
def test_things_along_a_line_stand_at_equal_steps_with_half_a_step_at_each_end(number: int) -> None:
    places = [placing.place(0) for placing in beside(parse_run("0,0 70,0 100,0"), number)]
    assert len(places) == number
    assert all(isclose(place.real, 100 * (n + 0.5) / number, abs_tol=1e-9) and place.imag == 0 for n, place in enumerate(places))


def test_things_along_a_line_that_turns_turn_with_it() -> None:
    first, second = beside(parse_run("0,0 50,0 50,50"), 2)
    assert (first.place(1j), second.place(1j)) == (25 + 1j, 49 + 25j)


def test_more_than_can_be_counted_is_not_drawn(fruit: OwnPiece) -> None:
    assert fruit.placings("spots", fruit.set_to({"spots": MOST + 1})) is None
    assert fruit.placings("spots", fruit.set_to({"spots": 0})) == ()
