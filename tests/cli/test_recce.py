"""`recce`: the sheet goes out, comes back filled in, and says what it means."""

from __future__ import annotations

import csv
import json
from collections.abc import Callable
from io import StringIO
from pathlib import Path

from click.testing import Result

from twayblade.knowledge.trail import Case

Run = Callable[..., Result]
DEMO_RECCE = "demo_trail/recce-2026-06-05.csv"


def test_the_sheet_is_printed_for_the_terminal(run: Run, penguins: Path) -> None:
    result = run("-C", penguins, "recce")
    assert result.exit_code == 0
    assert result.output.startswith("Recce sheet: The colony walk, 12 December 2026")
    assert "Length of the flipper: a number, or from - to, in mm" in result.output
    assert "Noise: quiet, some or loud" in result.output
    assert max(map(len, result.output.splitlines())) <= 88


def test_a_sheet_filled_in_on_a_phone_comes_back(run: Run, penguins: Path, tmp_path: Path) -> None:
    table, paper = tmp_path / "out.csv", tmp_path / "out.pdf"
    result = run("-C", penguins, "recce", "--csv", table, "--pdf", paper)
    assert result.output == f"wrote {paper}\nwrote {table}\n"
    assert paper.read_bytes().startswith(b"%PDF")
    rows = list(csv.DictReader(StringIO(table.read_text(encoding="utf-8-sig"), newline="")))
    for row in rows:
        if not row["measurementType"]:
            row["occurrenceStatus"] = "absent" if row["taxonID"] == "lantern-penguin" else "present"
    rows[0]["eventDate"] = "2026-12-10"
    text = StringIO(newline="")
    writer = csv.DictWriter(text, rows[0], delimiter=";")
    writer.writeheader()
    writer.writerows(rows)
    filled = tmp_path / "back.csv"
    filled.write_text(text.getvalue(), encoding="utf-8")
    result = run("-C", penguins, "recce", "--read", filled, "--format", "json")
    assert result.exit_code == 0
    shape = json.loads(result.stdout)
    assert shape["days"] == ["2026-12-10"]
    assert {stop["id"]: stop["case"] for stop in shape["stops"]} == {"pebble-beach": "as-hoped", "upper-stones": "not-found"}
    assert shape["problems"] == []


def test_what_cannot_be_read_is_told_and_is_a_finding(run: Run, penguins: Path, tmp_path: Path) -> None:
    filled = tmp_path / "back.csv"
    filled.write_text("locationID,taxonID,measurementType,occurrenceStatus\nupper-stones,lantern-penguin,,perhaps\n", encoding="utf-8")
    result = run("-C", penguins, "recce", "--read", filled)
    assert result.exit_code == 1
    assert f"{filled}:2:31 warning recce-answer: expected present or absent, found `perhaps`" in result.stderr
    assert "Which way each stop goes" in result.stdout
    assert run("-C", penguins, "recce", "--read", filled, "--format", "json").exit_code == 1


def test_the_demo_recce_says_that_it_is_invented_and_shows_every_way_of_a_stop(run: Run, demo: Path) -> None:
    assert "Invented, like every observation in this file" in (demo / DEMO_RECCE).read_text(encoding="utf-8")
    result = run("-C", demo, "recce", "--read", demo / DEMO_RECCE, "--format", "json")
    assert result.exit_code == 0
    shape = json.loads(result.stdout)
    assert shape["on"] == "2026-06-07"
    assert {stop["case"] for stop in shape["stops"]} == {case.value for case in Case}
    (odd,) = (trait for trait in shape["traits"] if trait["fit"] == "disagrees")
    assert odd["profile"]
    assert odd["sources"]
    assert 0 < odd["misread"] < 1
    estimate = shape["year"]["estimate"]
    assert estimate["lowest"] <= estimate["middle"] <= estimate["highest"]
    assert len(shape["year"]["agree"]) >= 3


def test_a_report_says_both_values_the_source_and_that_nothing_was_changed(run: Run, demo: Path) -> None:
    text = " ".join(run("-C", demo, "recce", "--read", demo / DEMO_RECCE).output.split())
    assert "cow parsley, bracts: seen `3`; the profile says `0(-2)` (Flora Helvetica" in text
    assert "A finding, or a slip: about 12 in 100 beginners misread this trait" in text
    assert "The profile stays as it is." in text
    assert "Nothing is shifted by this" in text


def test_a_visit_leaves_what_is_made_for_the_walk_as_it_was(run: Run, copy_of: Callable[[Path], Path], penguins: Path) -> None:
    folder = copy_of(penguins)
    before = run("-C", folder, "script").output
    (folder / "colony_walk/recce-2026-12-10.csv").write_text(
        "locationID,taxonID,measurementType,occurrenceStatus\nupper-stones,lantern-penguin,,absent\n", encoding="utf-8"
    )
    assert run("-C", folder, "script").output == before
    assert "recce-" not in run("-C", folder, "check").output


def test_coordinates_are_given_only_when_asked_for(run: Run, demo: Path, tmp_path: Path) -> None:
    plain, placed = tmp_path / "plain.csv", tmp_path / "placed.csv"
    run("-C", demo, "recce", "--csv", plain)
    run("-C", demo, "recce", "--csv", placed, "--coordinates")
    assert "Latitude" not in plain.read_text(encoding="utf-8-sig")
    assert all(row["decimalLatitude"] for row in csv.DictReader(StringIO(placed.read_text(encoding="utf-8-sig"), newline="")))
    assert run("-C", demo, "recce", "--coordinates").exit_code == 2
