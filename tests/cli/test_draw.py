"""The command that draws."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from xml.etree import ElementTree

import pytest
from click.testing import Result


def test_it_draws_the_whole_plant_if_no_part_is_named(run: Callable[..., Result], demo: Path) -> None:
    result = run("-C", demo, "draw", "hemlock")
    assert result.exit_code == 0
    root = ElementTree.fromstring(result.stdout)
    assert root[0].text == "Hemlock: the whole plant beside a person"


def test_the_cautions_of_the_plant_and_its_look_alikes_are_told_beside_the_drawing(run: Callable[..., Result], demo: Path) -> None:
    result = run("-C", demo, "draw", "cow parsley")
    assert "Hemlock: Deadly poisonous if eaten" in result.stderr
    assert "Look only" not in result.stdout


def test_it_writes_a_part_to_a_file(run: Callable[..., Result], demo: Path, tmp_path: Path) -> None:
    result = run("-C", demo, "draw", "conium-maculatum", "--part", "stem", "--to", tmp_path / "stem.svg")
    assert result.exit_code == 0, result.output
    assert "spotted or blotched with purple" in (tmp_path / "stem.svg").read_text(encoding="utf-8")


def test_beside_another_it_numbers_what_differs(run: Callable[..., Result], demo: Path) -> None:
    drawn = run("-C", demo, "draw", "hemlock", "--beside", "cow parsley", "--part", "stem").stdout
    assert 'class="pointers"' in drawn
    assert 'class="pointers"' not in run("-C", demo, "draw", "hemlock", "--part", "stem").stdout


def test_a_form_has_a_drawing_of_its_own(run: Callable[..., Result], demo: Path) -> None:
    drawn = {
        form: run("-C", demo, "draw", "purple-loosestrife", "--part", "flower-tube", "--form", form).stdout
        for form in ("long-styled", "short-styled")
    }
    assert drawn["long-styled"] != drawn["short-styled"]
    assert "long-styled form" in drawn["long-styled"]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("hemlok",), "did you mean `hemlock`?"),
        (("hemlock", "--part", "stam"), "did you mean `stem`?"),
        (("hemlock", "--part", "flower-tube"), "there are plant, head, umbel"),
        (("purple-loosestrife", "--form", "long"), "did you mean `long-styled`?"),
        (("hemlock", "--beside", "hemlock"), "name two different taxa"),
        (("purple-loosestrife", "--form", "mid-styled", "--beside", "hemlock"), "give one of them"),
        (("hemlock", "--beside", "cow parsley", "--part", "plant"), "tells these two apart"),
    ],
)
def test_what_cannot_be_drawn_is_told_with_a_way_out(run: Callable[..., Result], demo: Path, words: tuple[str, ...], told: str) -> None:
    result = run("-C", demo, "draw", *words)
    assert result.exit_code == 2
    assert told in " ".join(result.output.split())
