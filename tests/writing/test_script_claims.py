"""A script says only what can be seen on its date, by the walk's means, and compares only with what has been met.

Seasons are worked out here anew from the words in the profiles, by months and thirds of months.
"""

from __future__ import annotations

import calendar
import re
from collections.abc import Callable
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml
from click.testing import Result

from twayblade.knowledge.claim import unmarked
from twayblade.knowledge.workspace import Workspace

Shapes = dict[date, dict[str, Any]]
Day = tuple[int, int]

ORDER = ("opening", "arrival", "recognise", "tell", "name", "habitat", "look-closer", "forms", "care", "move-on", "closing")
MONTHS = list(calendar.month_name)
THIRDS = {"early": (1, 10), "mid": (11, 20), "late": (21, 31), "": (1, 31)}
ROOT = Path(__file__).resolve().parents[2]


@cache
def data(file: str) -> Any:
    return yaml.safe_load((ROOT / file).read_text(encoding="utf-8"))


def end_of(words: str, last: bool) -> Day:
    *third, month = words.split()
    return MONTHS.index(month), THIRDS["".join(third)][last]


def is_within(on: Day, season: str) -> bool:
    """Whether a day lies between the outer limits of a season as profiles write it, sources left out."""
    for window in re.sub(r"\[.*?\]", "", season).split(";"):
        if " in " in window:
            continue  # of another region
        if window.strip() == "all year":
            return True
        ends = [part for part in re.split(r"[-()\s]*-[-()\s]*|[()]", window.strip()) if part.strip()]
        start, end = end_of(ends[0], last=False), end_of(ends[-1], last=True)
        if start <= on <= end if start <= end else on >= start or on <= end:
            return True
    return False


def test_the_reading_of_seasons_used_here_is_right() -> None:
    assert is_within((5, 1), "(May -) June - August (- September) [A B-C]")
    assert is_within((9, 30), "(May -) June - August (- September) [A B-C]")
    assert not is_within((10, 1), "(May -) June - August (- September)")
    assert is_within((1, 15), "(late May -) June - September (- January)")
    assert not is_within((5, 20), "late May - July")
    assert not is_within((9, 1), "June - July; July - September in alps")


def can_be_seen(taxon: str, stages: list[str], on: date) -> bool:
    seasons = data(f"content/species/{taxon}.yml")["seasons"]
    return not stages or any(is_within((on.month, on.day), seasons[stage]) for stage in stages if stage in seasons)


def can_be_looked_at(trait: str, taxa: list[str], on: date) -> bool:
    """By the eye alone, which is all the demo walk allows, on each of some taxa on a date."""
    entry = data("content/traits.yml")[trait]
    if not all(can_be_seen(taxon, entry.get("stages", []), on) for taxon in taxa):
        return False
    for way in entry["ways"]:
        means, _, stages = way.partition(" in ")
        listed = [stage.strip() for stage in stages.split(",") if stage.strip()]
        if {m.strip() for m in means.split("+")} <= {"distant-eye", "close-eye"} and all(can_be_seen(taxon, listed, on) for taxon in taxa):
            return True
    return False


def claims(script: dict[str, Any]) -> list[dict[str, Any]]:
    return [claim for stop in script["stops"] for part in stop["parts"] for claim in part["claims"]]


def test_every_claim_can_be_seen_on_its_date_on_each_plant_it_speaks_of(demo_scripts: Shapes) -> None:
    for on, script in demo_scripts.items():
        found = claims(script)
        assert len(found) > 20
        assert [c for c in found if not can_be_looked_at(c["trait"], c["taxa"], on)] == []


def test_what_is_told_apart_has_been_met_on_this_very_walk(demo_scripts: Shapes) -> None:
    for script in demo_scripts.values():
        met: list[str] = []
        for stop in script["stops"]:
            for part in stop["parts"]:
                if part["kind"] == "recognise":
                    met.append(part["taxon"])
                for claim in part["claims"]:
                    if claim["kind"] == "contrast":
                        assert part["kind"] == "tell"
                        newest, other = claim["taxa"]
                        assert met[-1] == newest == part["taxon"]
                        assert other in met[:-1]
        assert len(met) == len(set(met))


def test_only_plants_that_can_be_seen_are_shown(demo_scripts: Shapes) -> None:
    for on, script in demo_scripts.items():
        shown = {part["taxon"] for stop in script["stops"] for part in stop["parts"] if part["kind"] == "recognise"}
        every_stage = ["leaf", "rosette", "bud", "flower", "young-fruit", "ripe-fruit", "dry-stem", "seedling"]
        assert shown
        assert [taxon for taxon in shown if not can_be_seen(taxon, every_stage, on)] == []


def test_no_contrast_is_told_that_the_two_plants_do_not_bear_out(demo_scripts: Shapes) -> None:
    for script in demo_scripts.values():
        assert {c["verdict"] for c in claims(script)} <= {"holds", "holds-usually"}


def test_parts_are_of_the_known_kinds_and_in_their_order(demo_scripts: Shapes) -> None:
    for script in demo_scripts.values():
        kinds = [[part["kind"] for part in stop["parts"]] for stop in script["stops"]]
        assert kinds[0][:2] == ["opening", "arrival"]
        assert all(of_stop[0] == "arrival" for of_stop in kinds[1:])
        assert [of_stop[-1] for of_stop in kinds] == ["move-on"] * (len(kinds) - 1) + ["closing"]
        for stop in script["stops"]:
            parts = stop["parts"]
            for taxon in stop["taxa"]:
                places = [ORDER.index(part["kind"]) for part in parts if part["taxon"] == taxon]
                assert places == sorted(places)


def test_every_harmful_plant_of_the_walk_has_its_caution_spoken_where_it_stands(demo_scripts: Shapes, demo_workspace: Workspace) -> None:
    for script in demo_scripts.values():
        for stop in script["stops"]:
            for taxon in stop["taxa"]:
                hazard = demo_workspace.taxa[taxon].profile.hazard
                if demo_workspace.taxa[taxon].hazard_class.is_harmful:
                    assert hazard
                    spoken = " ".join(part["text"] for part in stop["parts"] if part["kind"] == "care")
                    assert " ".join(hazard.text.text.split()).rstrip(".") in spoken


def test_the_author_speaks_where_the_author_has_written(demo_scripts: Shapes) -> None:
    written = {stop["id"]: stop.get("words", {}) for stop in data("demo_trail/trail.yml")["stops"]}
    assert any(written.values())
    for script in demo_scripts.values():
        for stop in script["stops"]:
            for kind, words in written[stop["id"]].items():
                (part,) = [part for part in stop["parts"] if part["kind"] == kind]
                assert part["text"].startswith(unmarked(" ".join(words.split())))
                assert part["by_author"]
            assert all(not part["by_author"] for part in stop["parts"] if part["kind"] not in written[stop["id"]])


def test_each_date_has_a_script_and_contrasts_of_its_own(demo_scripts: Shapes) -> None:
    texts = {" ".join(part["text"] for stop in script["stops"] for part in stop["parts"]) for script in demo_scripts.values()}
    told = {frozenset((*c["taxa"], c["trait"]) for c in claims(script) if c["kind"] == "contrast") for script in demo_scripts.values()}
    assert len(texts) == len(told) == len(demo_scripts) == 4


@pytest.mark.parametrize(
    ("taxon", "on", "words"), [("anthriscus-sylvestris", date(2026, 5, 16), "in flower"), ("daucus-carota", date(2026, 5, 16), "in bud")]
)
def test_a_plant_is_introduced_in_the_stage_it_is_in(demo_scripts: Shapes, demo_workspace: Workspace, taxon: str, on: date, words: str) -> None:
    (arrival,) = [p["text"] for stop in demo_scripts[on]["stops"] if taxon in stop["taxa"] for p in stop["parts"] if p["kind"] == "arrival"]
    assert re.search(rf"{demo_workspace.taxa[taxon].common_name},(?: which is)? {words}", arrival)


def test_what_takes_a_ruler_is_told_only_where_rulers_are_brought(
    run: Callable[..., Result], copy_of: Callable[[Path], Path], penguins: Path
) -> None:
    folder = copy_of(penguins)
    trail = folder / "colony_walk" / "trail.yml"
    text = trail.read_text(encoding="utf-8")
    assert "millimetres long" in run("-C", folder, "script").output
    assert "grams" not in run("-C", folder, "script").output
    trail.write_text(text.replace("close-eye]", "close-eye, ruler]"), encoding="utf-8")
    assert "grams" in run("-C", folder, "script").output
