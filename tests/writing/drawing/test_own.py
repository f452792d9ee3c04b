"""Pieces that content defines, drawn: whatever they hold, what is drawn is what was set, and nothing but numbers reaches the SVG."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Any
from xml.etree import ElementTree

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from twayblade.knowledge.pieces import OwnPiece, Setting
from twayblade.knowledge.pieces.own import MOST
from twayblade.knowledge.workspace import Workspace
from twayblade.writing.drawing.drawers import draw_piece, sketch_piece
from twayblade.writing.drawing.pen import Stroke

FLOWER = OwnPiece.model_validate(
    {
        "title": "a flower head from above, and a hooked fruit of it",
        "size": "200 x 160",
        "lines": [{"through": "80,64 96,80 80,96 64,80", "closed": "yes", "weight": "outline", "fill": "paper"}],
        "ruler": "fruit",
        "parameters": {
            "rays": {
                "description": "strap-shaped florets, each drawn",
                "at": "80,30",
                "behind": "yes",
                "around": "80,80",
                "each": [{"through": "(76,66) 72,40 (80,20) 88,40 (84,66)", "closed": "yes", "fill": "paper"}],
            },
            "dots": {"description": "dots along a bract", "at": "30,150", "along": "10,150 60,150 110,140", "each": ["0,0"]},
            "fruit": {
                "description": "length in mm",
                "at": "50,0",
                "from": "150,20",
                "towards": "150,140",
                "each": [{"through": "(0,-8) 40,-10 (100,0) 40,10 (0,8)", "straight": "yes", "closed": "yes"}],
                "otherwise": ["140,20 160,20"],
            },
            "thickness": {"description": "thickness in mm", "at": "40,10", "across": "fruit", "over": "20", "beside": {"fruit": "5"}},
            "disc": {"description": "the middle", "at": "80,80", "manners": {"flat": [], "domed": [{"through": ["72,80", "80,80", "88,80"]}]}},
            "hairs": {
                "description": "hairs on the fruit",
                "at": "50,-10",
                "stands-on": "fruit",
                "beside": {"fruit": "5"},
                "manners": {"none": [], "some": ["30,-10 30,-16", "60,-7 60,-13"]},
            },
        },
    }
)
OWN = {"head": FLOWER}
ALL: dict[str, Setting] = {"rays": 5, "dots": 3, "fruit": Decimal(4), "thickness": Decimal(1), "disc": "domed", "hairs": "some"}
OTHER: dict[str, Setting] = {"rays": 8, "dots": 4, "fruit": Decimal(3), "thickness": Decimal("0.5"), "disc": "flat", "hairs": "none"}


def layers(piece: OwnPiece, set_to: dict[str, Any]) -> dict[str, tuple[Stroke, ...]]:
    return dict(sketch_piece("head", set_to, {"head": piece}).layers)


def subpaths(strokes: tuple[Stroke, ...]) -> int:
    return sum(stroke.data.lower().count("m") for stroke in strokes)


@given(rays=st.integers(0, MOST), dots=st.integers(0, MOST))
def test_counts_read_back_from_the_drawing(rays: int, dots: int) -> None:
    made = layers(FLOWER, {"rays": rays, "dots": dots})
    assert (subpaths(made.get("rays", ())), subpaths(made.get("dots", ()))) == (rays, dots)


@given(fruit=st.decimals("0.5", "90", places=1), frame=st.none() | st.decimals("0.5", "90", places=1), thickness=st.decimals("0.1", "1", places=1))
def test_lengths_read_back_from_the_drawing(fruit: Decimal, frame: Decimal | None, thickness: Decimal) -> None:
    longest = max(fruit, frame or fruit)
    made = sketch_piece("head", {"fruit": fruit, "thickness": thickness * fruit / 4, **({"frame": longest} if frame else {})}, OWN)
    corners = [complex(0, 0)]
    start = re.match(r"M(-?[\d.]+) ?(-?[\d.]+)l", dict(made.layers)["fruit"][0].data)
    assert start
    numbers = [float(n) for n in re.findall(r"-?\d*\.?\d+", dict(made.layers)["fruit"][0].data[start.end() :])]
    for dx, dy in zip(numbers[::2], numbers[1::2], strict=True):
        corners.append(corners[-1] + complex(dx, dy))
    tall = max(c.imag for c in corners) - min(c.imag for c in corners)
    broad = max(c.real for c in corners) - min(c.real for c in corners)
    assert made.units_per_mm
    assert tall == pytest.approx(float(fruit) * made.units_per_mm, abs=0.21)  # points are written to a tenth of a unit
    assert broad == pytest.approx(float(thickness * fruit / 4) * made.units_per_mm, abs=0.41)


@pytest.mark.parametrize("name", ALL)
def test_a_parameter_changes_only_the_layers_that_depend_on_it(name: str) -> None:
    before, after = layers(FLOWER, {**ALL, "frame": 5}), layers(FLOWER, {**ALL, name: OTHER[name], "frame": 5})
    changed = {layer for layer in before | after if before.get(layer) != after.get(layer)}
    assert name == "thickness" or name in changed  # a breadth has no lines of its own
    assert changed <= {other for other in FLOWER.parameters if name in FLOWER.reads(other)}


@pytest.mark.parametrize("name", ALL)
def test_what_is_not_known_is_not_drawn_and_not_pointed_to(name: str) -> None:
    rest = {other: setting for other, setting in ALL.items() if other != name}
    made = sketch_piece("head", {**rest, "frame": 5}, OWN)
    assert name not in made.places
    assert name not in dict(made.layers) or name == "fruit"  # what is drawn otherwise


def test_what_is_absent_is_pointed_to() -> None:
    made = sketch_piece("head", {"rays": 0, "disc": "flat"}, OWN)
    assert set(made.places) == {"rays", "disc"}
    assert set(dict(made.layers)) == {"lines", "fruit"}


def test_a_length_that_would_be_cut_off_at_the_edge_is_left_out() -> None:
    made = sketch_piece("head", {"fruit": Decimal(9), "frame": Decimal(4)}, OWN)
    assert "fruit" not in made.places
    assert subpaths(dict(made.layers)["fruit"]) == 1


def test_layers_lie_behind_the_lines_only_where_content_says_so() -> None:
    assert [name for name, _ in sketch_piece("head", ALL, OWN).layers] == ["rays", "lines", "dots", "fruit", "disc", "hairs"]


numbers = st.decimals(-500, 500, places=2).map(lambda n: f"{n:f}")
points = st.tuples(numbers, numbers, st.booleans()).map(lambda p: f"({p[0]},{p[1]})" if p[2] else f"{p[0]},{p[1]}")
lines = st.fixed_dictionaries(
    {"through": st.lists(st.lists(points, min_size=3, max_size=6).map(" ".join) | points, min_size=1, max_size=2)},
    optional={"straight": st.booleans(), "weight": st.sampled_from(["outline", "inner", "fine"]), "fill": st.sampled_from(["none", "paper", "ink"])},
) | st.fixed_dictionaries({"through": st.lists(points, min_size=3, max_size=6).map(" ".join), "closed": st.just(True)})
several = st.lists(lines, min_size=1, max_size=3)
WORDS = '"><script>alert(1)</script>&'


@st.composite
def definitions(draw: st.DrawFn) -> OwnPiece:
    """Pieces of any valid numbers: those that leave their paper too, of which reading makes no drawing."""
    base = {"description": WORDS, "at": draw(points)}
    start, end = (f"{x},{draw(st.integers(-500, 500))}" for x in draw(st.lists(st.integers(-500, 500), min_size=2, max_size=2, unique=True)))
    written = {
        "title": WORDS,
        "size": f"{draw(st.integers(40, 400))} x {draw(st.integers(40, 400))}",
        "lines": draw(several),
        "ruler": "long",
        "parameters": {
            "long": {**base, "from": start, "towards": end, "each": draw(several), "otherwise": draw(several)},
            "broad": {**base, "across": "long", "over": draw(st.integers(1, 99))},
            "ring": {**base, "around": draw(points), "each": draw(several), "behind": draw(st.booleans())},
            "row": {**base, "along": f"{start} {end}", "each": draw(several)},
            "manner": {**base, "stands-on": draw(st.sampled_from([None, "long"])), "manners": {"none": [], "some": draw(several)}},
        },
    }
    return OwnPiece.model_validate(written)


any_length = st.decimals("0.0001", "1000000", places=4)
any_settings: st.SearchStrategy[dict[str, Setting]] = st.fixed_dictionaries(
    {},
    optional={
        "long": any_length,
        "broad": any_length,
        "frame": any_length,
        "ring": st.integers(0, 10**6),
        "row": st.integers(0, 10**6),
        "manner": st.sampled_from(["none", "some"]),
    },
)
PATH = re.compile(r"[Mmlcsqazh\d .-]*")


@settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(definitions(), any_settings)
def test_any_definition_of_valid_numbers_draws_and_only_numbers_reach_the_svg(piece: OwnPiece, set_to: dict[str, Setting]) -> None:
    fitting = {name: setting for name, setting in set_to.items() if name in piece.parameters or name == "frame"}
    svg = draw_piece("own", fitting, WORDS, WORDS, {name: n + 1 for n, name in enumerate(fitting)}, {"own": piece})
    assert svg == draw_piece("own", fitting, WORDS, WORDS, {name: n + 1 for n, name in enumerate(fitting)}, {"own": piece})
    root = ElementTree.fromstring(svg)
    assert {element.tag.rpartition("}")[2] for element in root.iter()} <= {"svg", "title", "desc", "g", "path"}
    for element in root.iter("{http://www.w3.org/2000/svg}path"):
        assert set(element.attrib) <= {"d", "stroke-width", "fill"}
        assert PATH.fullmatch(element.attrib["d"])
    classes = {element.attrib["class"] for element in root.iter("{http://www.w3.org/2000/svg}g") if "class" in element.attrib}
    assert classes <= {*piece.parameters, "lines", "scale-bar", "pointers"}


# -- the penguins ------------------------------------------------------------------------------------------
def test_every_manner_of_the_penguins_head_looks_its_own_way(penguin_workspace: Workspace) -> None:
    piece = penguin_workspace.own_pieces["penguin-head"]
    for name, parameter in penguin_workspace.pieces["penguin-head"].parameters.items():
        looks = [sketch_piece("head", {**parameter.beside, name: manner}, {"head": piece}).layers for manner in parameter.manners]
        assert len(set(looks)) == len(parameter.manners)


def test_the_penguins_heads_are_small_and_stay_on_their_paper(penguin_workspace: Workspace) -> None:
    settings_of = {"bill-length": Decimal(50), "bill-depth": Decimal(17), "bill-colour": "dark", "crest": "upright", "cheek-mark": "round"}
    svg = draw_piece("penguin-head", settings_of, "a head", "a head", None, penguin_workspace.own_pieces)
    assert len(svg) < 6000
    made = sketch_piece("penguin-head", settings_of, penguin_workspace.own_pieces)
    assert set(made.places) == set(settings_of)
