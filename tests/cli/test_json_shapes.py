"""The documented shapes of `--format json`: every field is there, of its kind, and spelt as promised. Fields may be added."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from click.testing import Result

Run = Callable[..., Result]
Copy = Callable[[Path], Path]

RELATIONS = {"separate", "usually-separate", "tendency", "overlap", "nested", "same", "unknown", "not-comparable"}
PHASES = {"not-yet", "possible", "expected", "over"}
PART_KINDS = {"opening", "arrival", "not-found", "recognise", "tell", "name", "habitat", "look-closer", "forms", "care", "move-on", "closing"}


def has(shape: dict[str, Any], **kinds: type | tuple[type, ...]) -> None:
    for field, kind in kinds.items():
        assert field in shape, f"`{field}` is missing"
        assert isinstance(shape[field], kind), f"`{field}` is {shape[field]!r}"
        assert not (kind is int and isinstance(shape[field], bool))


def is_date(text: str) -> bool:
    return date.fromisoformat(text).isoformat() == text


def printed(result: Result) -> Any:
    return json.loads(result.stdout)


def test_check_lists_nothing_where_nothing_is_wrong(run: Run, penguins: Path) -> None:
    assert printed(run("-C", penguins, "check", "--format", "json")) == []


def test_check_lists_problems_with_place_rule_and_hints(run: Run, copy_of: Copy, penguins: Path) -> None:
    folder = copy_of(penguins)
    file = folder / "content/species/lantern-penguin.yml"
    file.write_text(file.read_text(encoding="utf-8").replace("flipper-length: 120-150 mm [", "flipper-length: 120-180 mm ["), encoding="utf-8")
    result = run("-C", folder, "check", "--format", "json")
    assert result.exit_code == 1
    problems = printed(result)
    assert problems
    for problem in problems:
        has(problem, file=str, line=int, column=int, rule=str, severity=str, message=str, hints=list)
        assert problem["severity"] in {"error", "warning"}
        assert all(isinstance(hint, str) for hint in problem["hints"])
        assert (folder / problem["file"]).is_file()
        assert 1 <= problem["line"] <= len((folder / problem["file"]).read_text(encoding="utf-8").splitlines())
        assert problem["column"] >= 1
        assert run("explain", problem["rule"]).exit_code == 0


def check_compare(shape: dict[str, Any], taxa: list[str], dated: bool) -> None:
    has(shape, taxa=list, means=list, traits=list)
    assert shape["taxa"] == taxa
    assert is_date(shape["on"]) if dated else shape["on"] is None
    for row in shape["traits"]:
        has(row, trait=str, part=(str, type(None)), relation=str, values=dict, seen=dict, bars=list, settles=list)
        assert row["relation"] in RELATIONS
        assert set(row["values"]) == set(row["seen"]) <= set(taxa)
        assert len(row["values"]) == 2
        assert all(value is None or isinstance(value, str) for value in row["values"].values())
        assert set(row["seen"].values()) <= PHASES | {None}
        assert all(isinstance(bar, str) for bar in row["bars"])
        for direction in row["settles"]:
            has(direction, state=str, taxon=str, settles=str)
            assert direction["taxon"] in taxa


@pytest.mark.parametrize("on", ["2026-05-16", "2026-09-16", None])
def test_compare_of_two_plants(run: Run, demo: Path, on: str | None) -> None:
    words = ["--on", on] if on else []
    shape = printed(run("-C", demo, "compare", "hemlock", "cow parsley", *words, "--means", "lens,eye", "--format", "json"))
    check_compare(shape, ["conium-maculatum", "anthriscus-sylvestris"], dated=bool(on))
    assert shape["means"] == ["close-eye", "distant-eye", "lens"]
    relations = {row["trait"]: row["relation"] for row in shape["traits"]}
    assert relations["fruit-length"] == "separate"  # 2.5-4 mm and 5-10 mm: nothing in common
    fruit = next(row for row in shape["traits"] if row["trait"] == "fruit-length")
    assert ("not-then" in fruit["bars"]) == bool(on)
    assert None not in fruit["seen"].values() if on else set(fruit["seen"].values()) == {None}


def test_compare_of_three_gives_a_row_for_each_pair(run: Run, penguins: Path) -> None:
    taxa = ["adelie-penguin", "gentoo-penguin", "lantern-penguin"]
    shape = printed(run("-C", penguins, "compare", *taxa, "--means", "eye,ruler", "--format", "json"))
    check_compare(shape, taxa, dated=False)
    relations = {(row["trait"], *row["values"]): row["relation"] for row in shape["traits"]}
    # Gorman, Williams & Fraser 2014, PLoS ONE 9(3):e90081 (ranges computed from their data): flippers 172-210 and 203-231 mm.
    assert relations["flipper-length", "adelie-penguin", "gentoo-penguin"] == "overlap"
    assert relations["flipper-length", "adelie-penguin", "lantern-penguin"] == "separate"
    assert relations["body-mass", "gentoo-penguin", "lantern-penguin"] == "separate"


def check_script(shape: dict[str, Any]) -> None:
    has(shape, trail=str, on=str, stops=list, seconds=int, allows_seconds=int, seconds_over=int, cuts=list, set_ups=int, clocks=dict)
    assert is_date(shape["on"])
    has(shape["clocks"], film=dict, on_site=dict, on_foot=dict)
    for clock in shape["clocks"].values():
        has(clock, low=int, likely=int, high=int, allows=(int, type(None)), over=int, made_of=dict, cuts=list)
        assert clock["low"] <= clock["likely"] <= clock["high"]
        for cut in clock["cuts"]:
            has(cut, stop=str, kind=str, taxon=(str, type(None)), seconds=int)
    for stop in shape["stops"]:
        has(stop, id=str, taxa=list, parts=list, seconds=int, walk_seconds=int)
        assert stop["parts"]
        for part in stop["parts"]:
            has(part, kind=str, text=str, seconds=int, claims=list)
            assert part["kind"] in PART_KINDS
            assert all(isinstance(claim, dict) for claim in part["claims"])
        for branch in stop["branches"]:
            has(branch, case=str, parts=list, seconds=int, search_seconds=int, pictures=list)
            assert branch["case"] in {"past-it", "not-found", "wet-or-windy"}
        for question in stop["questions"]:
            has(question, question=str, answer=str, claims=list)


def check_key(shape: dict[str, Any]) -> None:
    has(shape, trail=str, on=str, covers=list, leaves_out=list, couplets=list)
    assert is_date(shape["on"])
    for couplet in shape["couplets"]:
        has(couplet, number=int, leads=list)
        assert len(couplet["leads"]) == 2
        for lead in couplet["leads"]:
            has(lead, text=str, traits=list, to=(int, list))
            assert lead["text"]
            assert all(isinstance(trait, str) for trait in lead["traits"])
            if isinstance(lead["to"], list):
                assert set(lead["to"]) <= set(shape["covers"])
                assert lead["to"]


def test_script_and_key_of_the_penguins(run: Run, penguins: Path) -> None:
    script = printed(run("-C", penguins, "script", "--format", "json"))
    check_script(script)
    assert [stop["id"] for stop in script["stops"]] == ["pebble-beach", "upper-stones"]
    key = printed(run("-C", penguins, "key", "--format", "json"))
    check_key(key)
    assert set(key["covers"]) == {"adelie-penguin", "gentoo-penguin", "lantern-penguin"}


def test_script_and_key_of_the_demo(demo_scripts: dict[date, dict[str, Any]], demo_keys: dict[date, dict[str, Any]]) -> None:
    for on in demo_scripts:
        check_script(demo_scripts[on])
        check_key(demo_keys[on])
        assert demo_scripts[on]["on"] == demo_keys[on]["on"] == on.isoformat()
        assert demo_scripts[on]["trail"] == demo_keys[on]["trail"] == "demo_trail"


def test_without_a_date_the_main_date_is_meant(run: Run, demo: Path, demo_keys: dict[date, dict[str, Any]]) -> None:
    assert printed(run("-C", demo, "key", "--format", "json")) == demo_keys[date(2026, 6, 7)]
