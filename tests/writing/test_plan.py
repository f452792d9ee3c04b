"""The plan as people read it: the chart in 80 columns, the walk in the time allowed, the light, the JSON shape."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
from click.testing import Result

from twayblade.knowledge.season import parse_window
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.choice import choose
from twayblade.writing.choice_words import ChoiceWords, choose_walk, way_of
from twayblade.writing.phrases import days_words
from twayblade.writing.plan_terminal import CELLS, EXPECTED, NAMES, POSSIBLE, walk_text, year_text
from twayblade.writing.plan_words import Plan, plan_shape, write_plan
from twayblade.writing.script import ScriptStop

Run = Callable[..., Result]
ON = date(2026, 6, 7)


@pytest.fixture(scope="module")
def plan(demo_workspace: Workspace) -> Plan:
    """The plan of the demonstration, with 45 minutes for its main date."""
    return write_plan(demo_workspace, demo_workspace.trails["demo_trail"], ON, 45 * 60)


@pytest.fixture(scope="module")
def year(plan: Plan, demo_workspace: Workspace) -> str:
    return year_text(demo_workspace, plan.year)


@pytest.fixture(scope="module")
def walk(plan: Plan, demo_workspace: Workspace) -> str:
    return walk_text(demo_workspace, plan)


def test_the_plan_is_as_wide_as_a_terminal(year: str, walk: str) -> None:
    assert max(len(line) for line in [*year.splitlines(), *walk.splitlines()]) <= 80


def test_the_command_prints_the_year_or_with_minutes_the_walk_of_the_main_date(run: Run, penguins: Path) -> None:
    assert "Dates (* of the walk)" in run("-C", penguins, "plan").stdout
    assert run("-C", penguins, "plan", "--allows", 10).stdout.startswith("The colony walk, 12 December 2026\n")


def test_the_chart_shows_each_month_of_each_plant_without_colour(year: str) -> None:
    """Cow parsley: flowers April to June, sometimes in July, as its profile says."""
    assert "\x1b" not in year
    head = next(line for line in year.splitlines() if "Jan Feb Mar" in line)
    line = next(line for line in year.splitlines() if line.startswith("cow parsley"))
    cells = line[NAMES + 1 :].ljust(12 * CELLS)
    months = {head[NAMES + 1 :].split()[n]: cells[n * CELLS : (n + 1) * CELLS] for n in range(12)}
    assert {m for m, c in months.items() if c == EXPECTED * CELLS} == {"Apr", "May", "Jun"}
    assert {m for m, c in months.items() if c == POSSIBLE * CELLS} == {"Jul"}
    assert months["Mar"].strip() == months["Aug"].strip() == ""


def test_the_whole_walk_is_kept_where_there_is_time_and_takes_what_the_script_says(demo_workspace: Workspace, plan: Plan) -> None:
    planned, script = demo_workspace.trails["demo_trail"], plan.walk.script
    way = way_of(demo_workspace, script)
    choice = choose(way, 10 * script.seconds)
    assert choice
    assert choice.items == frozenset(range(len(way.items)))
    walk = choose_walk(demo_workspace, planned, ON, 10 * script.seconds, script=script)
    assert [(kept.comes, kept.seconds) for kept in walk.stops] == _times(script.stops)
    assert walk.spared == ()


def _times(stops: tuple[ScriptStop, ...]) -> list[tuple[int, int]]:
    """When each stop of a script begins and what it takes, added up here."""
    elapsed, found = 0, []
    for stop in stops:
        elapsed += stop.walk_seconds
        found.append((elapsed, stop.seconds))
        elapsed += stop.seconds
    return found


@pytest.mark.parametrize("minutes", [10, 30, 50])
def test_the_walk_kept_fits_and_every_harmful_plant_one_stands_by_is_warned_of(demo_workspace: Workspace, plan: Plan, minutes: int) -> None:
    planned = demo_workspace.trails["demo_trail"]
    walk = choose_walk(demo_workspace, planned, ON, minutes * 60, script=plan.walk.script)
    assert walk.choice.seconds <= minutes * 60
    assert walk.stops[-1].comes + walk.stops[-1].seconds == walk.choice.seconds
    items = walk.way.items
    for kept in walk.stops:
        warned = {items[i].taxon for i in kept.items if items[i].kind == "care"}
        shown = {items[i].taxon for i in kept.items if items[i].kind == "recognise"}
        assert shown, "nobody walks to a stop to see nothing"
        for id_ in planned.trail.stops[kept.number].taxa:
            taxon = demo_workspace.taxa[id_]
            if taxon.hazard_class.is_harmful or (id_ in shown and (taxon.profile.hazard or taxon.profile.care)):
                assert id_ in warned
    met = [items[i].taxon for kept in walk.stops for i in kept.items if items[i].kind == "recognise"]
    words = ChoiceWords(demo_workspace, walk)
    for kept in walk.stops:
        for i in kept.items:
            if items[i].kind == "tell":
                other = words.parts[i].other
                assert met.index(other) < met.index(items[i].taxon)


def test_what_is_left_out_is_said_with_its_reason_and_what_goes_next(walk: str, plan: Plan) -> None:
    text = " ".join(walk.split())
    assert "Left out" in text
    assert "would cost" in text
    assert "With a minute less" in text
    assert all(out.instead or out.misses or out.is_draw for out in plan.walk.spared)


def test_what_fits_in_no_way_and_a_time_too_short_for_any_stop_are_said_to_be(demo_workspace: Workspace, plan: Plan) -> None:
    planned = demo_workspace.trails["demo_trail"]
    short, none = (ChoiceWords(demo_workspace, choose_walk(demo_workspace, planned, ON, m * 60, script=plan.walk.script)) for m in (12, 1))
    assert "no walk that holds any of them fits into the time" in " ".join(short.left_out())
    assert none.heading() == "Nothing fits into 1:00 minutes."
    assert none.next_words() == ""


def test_the_light_is_told_and_the_warning_where_the_camera_looks_towards_a_low_sun(demo_workspace: Workspace, walk: str) -> None:
    """The plank bridge is filmed to the south-east; in September the morning sun is low there, in June high."""
    september = walk_text(demo_workspace, write_plan(demo_workspace, demo_workspace.trails["demo_trail"], date(2026, 9, 16)))
    assert "The sun rises at 04:4" in walk
    assert "warning:" not in walk
    assert "warning: Facing south-east is filming towards the sun" in " ".join(september.split())


def test_without_zone_and_route_the_plan_says_what_is_missing(penguin_workspace: Workspace) -> None:
    found = write_plan(penguin_workspace, penguin_workspace.trails["colony_walk"], date(2026, 12, 12))
    text = " ".join(walk_text(penguin_workspace, found).split())
    assert "gives no time zone (`zone`) and no route with the places of its stops (`route`)" in text
    assert plan_shape(penguin_workspace, found)["light"] is None


def test_the_json_shape_is_as_documented(demo_workspace: Workspace, plan: Plan) -> None:
    shape = json.loads(json.dumps(plan_shape(demo_workspace, plan)))
    assert set(shape) >= {"trail", "flowering", "pairs", "dates", "borrowed", "day", "walk", "light"}
    assert shape["day"]["on"] == shape["walk"]["on"] == ON.isoformat()
    assert set(shape["walk"]) >= {"on", "allows_seconds", "seconds", "worth", "stops", "left_out", "next", "assumes"}
    assert sum(date_["of_trail"] for date_ in shape["dates"]) == 4
    assert all({"on", "of_trail", "in_flower", "perhaps", "pairs", "not_to_be_missed"} <= set(date_) for date_ in shape["dates"])
    assert all({"stop", "kind", "taxon", "other", "seconds"} == set(out["part"]) and out["why"] for out in shape["walk"]["left_out"])
    assert {"rises", "sets", "stops"} == set(shape["light"])
    assert [s["id"] for s in shape["light"]["stops"]] == [s["id"] for s in shape["walk"]["stops"]]


@pytest.mark.parametrize(
    ("window", "words"),
    [
        ("late May", "in late May"),
        ("early May", "in early May"),
        ("mid May - late May", "from mid May to late May"),
        ("May", "in May"),
        ("late May - June", "from late May to June"),
        ("20 May - 10 May", "from mid May to early May"),  # nearly all year
    ],
)
def test_a_part_of_one_month_is_said_as_that_part(window: str, words: str) -> None:
    found = parse_window(window)
    assert days_words(((found.start, found.end),)) == words


def test_a_wrong_time_is_wrong_usage(run: Run, penguins: Path) -> None:
    assert run("-C", penguins, "plan", "--allows", "-5").exit_code == 2
    assert run("-C", penguins, "plan", "--allows", "long").exit_code == 2
