"""What holds of the drawing of every piece, whatever is set."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.writing.drawing.reading import all_points, settings_of

from twayblade.knowledge.pieces import PIECES
from twayblade.writing.drawing.drawers import DRAWERS, draw_piece, sketch_piece


@pytest.mark.parametrize("name", DRAWERS)
@settings(max_examples=50, deadline=None)
@given(data=st.data())
def test_no_stroke_leaves_the_paper_and_every_parameter_set_can_be_pointed_to(name: str, data: st.DataObject) -> None:
    chosen = data.draw(settings_of(name))
    made = sketch_piece(name, chosen)
    for point in all_points(made):
        assert 0 <= point.real <= made.width
        assert 0 <= point.imag <= made.height
    assert set(made.places) == set(chosen) - {"frame"}
    for place in made.places.values():
        assert 0 <= place.real <= made.width
        assert 0 <= place.imag <= made.height


@pytest.mark.parametrize("name", DRAWERS)
@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_a_parameter_changes_only_the_layers_that_read_it(name: str, data: st.DataObject) -> None:
    before = data.draw(settings_of(name))
    changed = data.draw(st.sampled_from(sorted(PIECES[name].kind().parameters)))
    after = {**before, **data.draw(settings_of(name))}
    after = {k: v for k, v in after.items() if k == changed} | {k: v for k, v in before.items() if k != changed}
    strokes = [dict(sketch_piece(name, chosen).layers) for chosen in (before, after)]
    for layer in DRAWERS[name].layers:
        if changed.replace("-", "_") not in layer.reads:
            assert strokes[0].get(layer.name) == strokes[1].get(layer.name)


@pytest.mark.parametrize("name", DRAWERS)
def test_each_manner_is_drawn_unlike_every_other(name: str) -> None:
    for parameter in PIECES[name].kind().parameters.values():
        drawn = [sketch_piece(name, {**parameter.beside, parameter.name: manner}).layers for manner in parameter.manners]
        assert len(set(drawn)) == len(parameter.manners), parameter.name


@pytest.mark.parametrize("name", DRAWERS)
@settings(max_examples=50, deadline=None)
@given(data=st.data())
def test_a_drawing_is_the_same_every_time_and_small(name: str, data: st.DataObject) -> None:
    chosen = data.draw(settings_of(name, most=12))
    if "ray-florets" in chosen:
        chosen.pop("petals", None)  # a head has no petals of its own
    first = draw_piece(name, chosen, "title", "description")
    assert first == draw_piece(name, chosen, "title", "description")
    assert len(first.encode()) < 12_000


def test_every_piece_has_its_drawer() -> None:
    assert set(DRAWERS) == set(PIECES)
