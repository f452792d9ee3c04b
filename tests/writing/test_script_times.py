"""How long a script takes: a part by its words, a stop by its parts, a walk by its stops."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from click.testing import Result

from twayblade.knowledge.workspace import Workspace
from twayblade.writing.script import write_script
from twayblade.writing.voice import voice_of

Shapes = dict[date, dict[str, Any]]


def test_the_parts_make_the_stop_and_the_stops_and_the_walking_make_the_walk(demo_scripts: Shapes) -> None:
    for script in demo_scripts.values():
        for stop in script["stops"]:
            assert stop["seconds"] == sum(part["seconds"] for part in stop["parts"])
        assert script["seconds"] == sum(stop["seconds"] + stop["walk_seconds"] for stop in script["stops"])


def test_the_walking_covers_the_kilometre_and_a_half_of_the_route(demo_scripts: Shapes) -> None:
    for script in demo_scripts.values():
        metres = sum(stop["metres"] for stop in script["stops"])
        assert metres == pytest.approx(1500, rel=0.05)
        flat = metres / 3000 * 3600  # the trail's pace: 3 km/h on the flat
        assert flat <= sum(stop["walk_seconds"] for stop in script["stops"]) <= flat + 60 * 6


def test_a_part_takes_as_long_as_its_syllables_and_pauses_and_looking(demo_scripts: Shapes, demo_workspace: Workspace) -> None:
    voice = voice_of(demo_workspace, demo_workspace.trails["demo_trail"].trail.pace)
    for script in demo_scripts.values():
        for stop in script["stops"]:
            for part in stop["parts"]:
                said = float(voice.seconds(part["text"]))
                assert part["seconds"] >= said - 0.5
                assert part["kind"] in ("arrival", "recognise", "tell", "look-closer", "forms") or part["seconds"] <= said + 0.5


def test_the_demo_keeps_within_its_allowances_on_each_of_its_dates(demo_scripts: Shapes) -> None:
    for script in demo_scripts.values():
        assert script["seconds"] <= script["allows_seconds"]
        assert {name: clock["over"] for name, clock in script["clocks"].items() if clock["over"]} == {}
        assert all(clock["allows"] for clock in script["clocks"].values())


def test_a_walk_that_takes_longer_than_it_may_warns_by_how_much(run: Callable[..., Result], copy_of: Callable[[Path], Path], penguins: Path) -> None:
    folder = copy_of(penguins)
    trail = folder / "colony_walk" / "trail.yml"
    assert "warning" not in run("-C", folder, "script").output
    trail.write_text(trail.read_text(encoding="utf-8").replace("allows: 20 min", "allows: 2 min"), encoding="utf-8")
    assert "warning: the walk takes" in run("-C", folder, "script").output.splitlines()[1]


def test_the_clocks_of_the_demo_are_made_of_its_parts(demo_scripts: Shapes) -> None:
    for script in demo_scripts.values():
        film, on_site, on_foot = (script["clocks"][name]["likely"] for name in ("film", "on_site", "on_foot"))
        gathering = script["clocks"]["on_site"]["made_of"]["gathering"]["likely"]
        assert film + gathering + on_foot == script["seconds"]
        assert on_foot == sum(stop["walk_seconds"] for stop in script["stops"])
        assert on_site > script["seconds"]


def test_what_runs_over_says_what_to_cut_first(run: Callable[..., Result], copy_of: Callable[[Path], Path], demo: Path) -> None:
    folder = copy_of(demo)
    trail = folder / "demo_trail" / "trail.yml"
    trail.write_text(re.sub(r"(?m)^film: .*", "film: 38 min", trail.read_text(encoding="utf-8")), encoding="utf-8")
    printed = json.loads(run("-C", folder, "script", "--on", "2026-07-15", "--format", "json").stdout)
    film = printed["clocks"]["film"]
    assert film["over"] == film["likely"] - 38 * 60 > 0
    assert sum(cut["seconds"] for cut in film["cuts"]) >= film["over"]
    shown = run("-C", folder, "script", "--on", "2026-07-15").output
    assert "too long" in shown
    assert "cut first: " in shown
    problems = json.loads(run("-C", folder, "check", "--format", "json").stdout)
    said = [p for p in problems if p["rule"] == "walk-too-long"]
    assert any("the film runs" in p["message"] and p["hints"][0].startswith("cut first: ") for p in said)


def test_a_part_that_tells_a_plant_from_one_that_can_harm_is_never_cut_alone(demo_workspace: Workspace) -> None:
    planned = demo_workspace.trails["demo_trail"]
    tight = replace(planned, trail=planned.trail.model_copy(update={"film": Decimal(1)}))
    for on in planned.trail.dates:
        script = write_script(demo_workspace, tight, on)
        film = script.clocks.film
        assert not film.cuts_suffice
        told = {(p.taxon, p.other) for stop in script.stops for p in stop.parts if p.kind == "tell"}
        harmful = {id_ for id_, taxon in demo_workspace.taxa.items() if taxon.hazard_class.is_harmful}
        kept = {taxon for taxon, other in told if {taxon, other} & harmful}
        assert kept
        assert not {cut.taxon for cut in film.cuts if cut.kind == "tell"} & harmful
        assert not any(cut.kind in ("care", "recognise", "opening", "arrival") for cut in film.cuts)
