"""Pieces that content defines are read beside the built-in ones; what is wrong in them is told at its place, with a way out."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from twayblade.knowledge.pieces import PIECES
from twayblade.knowledge.problem import Problem
from twayblade.knowledge.workspace import Workspace
from twayblade.reading.workspace import PIECES_FILE, load

Told = list[tuple[str, str, str, tuple[str, ...]]]


@pytest.fixture
def told(copy_of: Callable[[Path], Path], penguins: Path) -> Callable[..., Told]:
    """Rule, text at the place, message and hints of every problem of the penguins with the file of their pieces changed."""

    def changed(*changes: tuple[str, str]) -> Told:
        folder = copy_of(penguins)
        text = (folder / PIECES_FILE).read_text(encoding="utf-8")
        for old, new in changes:
            assert old in text
            text = text.replace(old, new, 1)
        (folder / PIECES_FILE).write_text(text, encoding="utf-8")
        problems = load(folder).problems
        return [(p.rule, p.place.text[p.place.column - 1 :], p.message, p.hints) for p in problems]

    return changed


def test_own_pieces_stand_beside_the_built_in_ones(penguin_workspace: Workspace, demo_workspace: Workspace) -> None:
    assert set(penguin_workspace.own_pieces) == {"penguin-head"}
    assert set(penguin_workspace.pieces) == {"penguin-head", *PIECES}
    assert penguin_workspace.pieces["penguin-head"] == penguin_workspace.own_pieces["penguin-head"].kind("penguin-head")
    assert demo_workspace.own_pieces == {}


def test_the_example_for_developers_is_read_without_a_problem(tmp_path: Path, demo: Path) -> None:
    example = re.search(r"```yaml\n(bird-head:.*?)```", (demo / "DEVELOPERS.md").read_text(encoding="utf-8"), re.DOTALL)
    assert example
    (tmp_path / "content").mkdir()
    (tmp_path / "content/traits.yml").write_text("{}\n", encoding="utf-8")
    (tmp_path / PIECES_FILE).write_text(example[1], encoding="utf-8")
    loaded = load(tmp_path)
    assert not loaded.problems
    assert len(loaded.draft.own_pieces["bird-head"].parameters) == 5


WRONG = {
    "a name of a built-in piece": (("penguin-head:", "stem:"), "id-double", "stem:", "`stem` is a built-in piece"),
    "a name that is none": (("penguin-head:", "Penguin head:"), "notation", "Penguin head:", "small letters"),
    "points that cannot be read": (('"14,172 20,146', '"14;172 20,146'), "notation", '"14;172', "expected points"),
    "a size that cannot be read": (("240 x 180", "240"), "notation", "240", "as in `200 x 160`"),
    "a paper for a wall": (("240 x 180", "2400 x 1800"), "notation", "2400 x 1800", "40 to 400 units"),
    "a ruler that is not there": (("ruler: bill-length", "ruler: bill-lenght"), "id-unknown", "bill-lenght", "no parameter of `penguin-head`"),
    "a ruler that is no length": (("ruler: bill-length", "ruler: crest"), "notation", "crest", "no length with `from` and `towards`"),
    "no ruler": (("  ruler: bill-length\n", ""), "notation", "penguin-head:", "as in `ruler: bill-length`"),
    "a breadth of nothing": (("across: bill-length", "across: cheek-mark"), "notation", "cheek-mark", "no length"),
    "lines on nothing": (("stands-on: bill-length", "stands-on: bil-length"), "id-unknown", "bil-length", "no parameter"),
    "a direction to itself": (('towards: "233,98"', 'towards: "149,92"'), "notation", "description", "one point"),
    "a breadth of no breadth": (("over: 30", "over: 0"), "notation", "0", "greater than 0"),
    "nothing beside it": (("      over: 30\n      beside: {bill-length: 40}", "      over: 30"), "notation", "bill-depth:", "beside: {bill-length"),
    "an unknown thing beside it": (("beside: {bill-length: 40}", "beside: {bill-length: 40, beak: 2}"), "id-unknown", "beak: 2", "no parameter"),
    "a wrong thing beside it": (("beside: {bill-length: 40}", "beside: {bill-length: long}"), "notation", "long}", "a length in mm"),
    "a name of a layer": (("    crest:", "    pointers:"), "notation", "description", "layer of every drawing"),
    "an unknown field": (("      behind: yes", "      beneath: yes"), "field-unknown", "beneath: yes", "no field `beneath`"),
    "neither around nor along": (("      across: bill-length\n      over: 30\n", "      each: ['1,1 2,2']\n"), "notation", "description", "`around`"),
}


@pytest.mark.parametrize(("change", "rule", "at", "message"), WRONG.values(), ids=WRONG)
def test_what_is_wrong_in_a_piece_is_told_at_its_place(told: Callable[..., Told], change: tuple[str, str], rule: str, at: str, message: str) -> None:
    assert any(r == rule and text.startswith(at) and message in m for r, text, m, _ in told(change)), told(change)


OFF = {
    "a line": ('"84,58 95,53"', '"84,58 395,53"', "`395,53` lies off the paper of 240 x 180 units"),
    "a pointer": ('at: "76,30"', 'at: "76,-30"', "`76,-30` lies off"),
    "a line that a length stretches": ('"-8,0 20,1 50,3.5 84,5"', '"-8,0 20,1 50,3.5 150,5"', "`150,5` comes to"),
    "a space": ('towards: "233,98"', 'towards: "253,98"', "`253,98` lies off"),
}


@pytest.mark.parametrize(("old", "new", "message"), OFF.values(), ids=OFF)
def test_what_leaves_the_paper_is_told(told: Callable[..., Told], old: str, new: str, message: str) -> None:
    found = told((old, new))
    assert found
    assert all(rule == "notation" and "off the paper" in m for rule, _, m, _ in found)
    assert message in found[0][2]


@pytest.mark.parametrize(("tip", "number"), [("92,40", 0), ("92,10", 1)])
def test_things_that_would_leave_the_paper_for_some_number_are_told(told: Callable[..., Told], tip: str, number: int) -> None:
    spots = f"""    spots:
      description: spots in a ring
      at: "92,60"
      each: ["92,60 {tip}"]
      around: "92,100"
"""
    found = told(("    cheek-mark:\n", f"{spots}    cheek-mark:\n"))
    assert ["comes to" in message for _, _, message, _ in found] == [True] * number


def test_a_parameter_that_is_refused_is_told_once_and_not_where_traits_set_it(told: Callable[..., Told]) -> None:
    assert [(rule, text) for rule, text, _, _ in told(('at: "76,30"', "at: here"))] == [("notation", "here")]
    assert [rule for rule, _, _, _ in told(('towards: "233,98"', 'towards: "149,92"'))] == ["notation"]
    assert [rule for rule, _, _, _ in told(('through: "(50,76) 33,62', 'through: "(50;76) 33,62'))] == ["notation"]


def test_a_trait_that_sets_what_an_own_piece_has_not_is_told_with_the_nearest_name(copy_of: Callable[[Path], Path], penguins: Path) -> None:
    folder = copy_of(penguins)
    traits = folder / "content/traits.yml"
    text = traits.read_text(encoding="utf-8")
    traits.write_text(text.replace("penguin-head crest", "penguin-head crst").replace("drawn: bright", "drawn: bribht"), encoding="utf-8")
    found: list[Problem] = list(load(folder).problems)
    assert [(p.rule, p.hints) for p in found] == [("id-unknown", ("did you mean `bright`?",)), ("id-unknown", ("did you mean `crest`?",))]


FIELDS = ["title", "size", "lines", "parameters", "ruler", "description", "at", "beside", "manners", "stands-on", "each", "around", "along"]
junk = st.recursive(
    st.sampled_from(["", "1,1", "1,1 9,9", "(5,5) 8,8 3,3", "yes", "-5", "1e9", "bill", "240 x 180", "<script>"]) | st.none(),
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from([*FIELDS, "from", "towards", "across", "over", "bill"]), inner, max_size=6)
    ),
    max_leaves=25,
)


@settings(max_examples=80, deadline=None)
@given(junk, junk, junk)
def test_no_definition_whatsoever_makes_reading_raise(tmp_path_factory: pytest.TempPathFactory, lines: object, bill: object, spots: object) -> None:
    folder = tmp_path_factory.mktemp("junk")
    (folder / "content").mkdir()
    (folder / "content/traits.yml").write_text("{}\n", encoding="utf-8")
    piece = {"title": "junk", "size": "100 x 100", "lines": lines, "ruler": "bill", "parameters": {"bill": bill, "spots": spots}}
    (folder / PIECES_FILE).write_text(yaml.safe_dump({"junk": piece}), encoding="utf-8")
    for problem in load(folder).problems:
        assert problem.place.line >= 1
