"""What scripts look up is small, always the same, and leads back to what it was made of."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from twayblade.knowledge.season import YEAR, day_of
from twayblade.knowledge.workspace import Workspace
from twayblade.writing.browser_data import assigned
from twayblade.writing.name_table import name_table, names_of, scientific_names
from twayblade.writing.site_frame import Frame
from twayblade.writing.year_words import fewest_through_year

GOAL = 60_000
"""Bytes of the demo's table as it is sent, before it is packed (the project's own goal)."""


@pytest.fixture(scope="module")
def frame(demo_workspace: Workspace) -> Frame:
    return Frame(demo_workspace)


@pytest.fixture(scope="module")
def table(frame: Frame) -> dict[str, Any]:
    return frame.tell_tables


def test_the_table_of_the_demo_is_light(table: dict[str, Any]) -> None:
    assert len(assigned("tell", table)) < GOAL


def test_the_same_knowledge_makes_the_same_table(demo_workspace: Workspace, table: dict[str, Any]) -> None:
    assert json.dumps(Frame(demo_workspace).tell_tables) == json.dumps(table)


def test_every_row_of_every_pair_leads_to_something(frame: Frame, table: dict[str, Any]) -> None:
    taxa, places = table["taxa"], table["places"]
    assert [taxon["id"] for taxon in taxa] == sorted(frame.workspace.taxa)
    assert [len(row) for row in table["pairs"]] == list(range(len(taxa) - 1, 0, -1))
    rows = [row for of_first in table["pairs"] for contrasts, never in of_first for row in (*contrasts, *never)]
    assert {row[0] for row in rows} == set(range(len(places)))
    assert {word for row in rows for word in row[2:4]} == set(range(len(table["words"])))
    assert all(0 <= n < len(table["when"]) for of_first in table["pairs"] for contrasts, _ in of_first for row in contrasts for n in row[4:])
    for taxon in taxa:
        assert len(taxon["expected"]) == 1 + max(place[5] for place in places)
        for piece, _, _, shown in taxon["drawn"]:
            assert table["pieces"][piece][0] in frame.workspace.pieces
            assert set(shown) <= set(range(len(places)))


def test_days_are_runs_on_the_circle(table: dict[str, Any]) -> None:
    for runs in table["days"]:
        assert len(runs) % 2 == 0
        assert all(0 <= day < YEAR for day in runs)


def test_every_drawing_named_is_a_file_of_the_site(frame: Frame, table: dict[str, Any]) -> None:
    named = {
        table["address"]["drawing"].format(id=taxon["id"], piece=table["pieces"][piece][1]): (width, height)
        for taxon in table["taxa"]
        for piece, width, height, _ in taxon["drawn"]
    }
    assert len(named) > 50
    made = {picture.address: picture for taxon in frame.workspace.taxa.values() for picture in frame.drawings.of_taxon(taxon)}
    for address, size in named.items():
        assert size == tuple(round(float(side)) for side in made[address].size)


def test_harmful_taxa_carry_their_cautions_the_deadliest_first(frame: Frame, table: dict[str, Any]) -> None:
    harmful = {taxon.id for taxon in frame.workspace.taxa.values() if taxon.hazard_class.is_harmful}
    assert {table["taxa"][place]["id"] for place, _ in table["care"]} == harmful
    assert [line for _, line in table["care"]] == list(frame.care(tuple(sorted(frame.workspace.taxa))))


def test_a_plant_is_found_by_its_common_names_in_every_language_and_by_its_scientific_ones(demo_workspace: Workspace) -> None:
    names = dict(names_of(demo_workspace.taxa["conium-maculatum"]))
    assert {"hemlock": "en", "Gefleckter Schierling": "de", "Conium maculatum": "la", "Cicuta major": "la"}.items() <= names.items()
    table = name_table(list(demo_workspace.taxa.values()))
    assert {taxon for _, _, taxon in table["names"]} == set(range(len(demo_workspace.taxa)))
    hemlock = table["taxa"][list(demo_workspace.taxa).index("conium-maculatum")]
    assert hemlock == ["taxa/conium-maculatum.html", "hemlock", "Conium maculatum", "deadly"]


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("Apium podagraria, Pimpinella angelicifolia Lam., Carum podagraria", ["Apium podagraria", "Pimpinella angelicifolia", "Carum podagraria"]),
        ("Angelica montana and A. elatior, both old", ["Angelica montana", "Angelica elatior"]),
        ("Torilis anthriscus (L.) C.C.Gmel., Caucalis japonica Houtt.", ["Torilis anthriscus", "Caucalis japonica"]),
        ("Heracleum giganteum, H. caucasicum; close to H. sosnowskyi", ["Heracleum giganteum", "Heracleum caucasicum"]),
        ("taken here in the wide sense, with several close species", []),
    ],
)
def test_synonyms_are_read_out_of_what_an_author_wrote(text: str, names: list[str]) -> None:
    assert list(scientific_names(text)) == names


def test_lists_by_the_day_have_every_taxon_and_its_state_on_every_day(frame: Frame) -> None:
    assert [line.taxon.id for line in frame.flowering] == [taxon.id for taxon in frame.sorted_taxa]
    hemlock = next(line for line in frame.flowering if line.taxon.id == "conium-maculatum")
    assert hemlock.flowering == "in flower from June to August; perhaps in May and in September"  # content/species/conium-maculatum.yml
    first, last = day_of(date(2026, 6, 1)), day_of(date(2026, 8, 31))
    assert hemlock.days == f' data-days="{first}-{last}" data-perhaps="{day_of(date(2026, 5, 1))}-{first - 1} {last + 1}-{day_of(date(2026, 9, 30))}"'
    assert "in flower" in dict(hemlock.states)


def test_a_group_without_flowers_has_no_list_of_flowering(penguin_workspace: Workspace) -> None:
    assert Frame(penguin_workspace).flowering == ()


def test_on_every_day_the_fewest_signs_are_told_and_never_none_as_if_they_were_some(frame: Frame) -> None:
    elder = frame.workspace.taxa["sambucus-nigra"]
    everyone = (elder.id, *(id_ for id_ in frame.workspace.taxa if id_ != elder.id))
    found = fewest_through_year(frame.workspace, elder, replace(frame.any_day, taxa=everyone))
    assert all(chosen for then in found for chosen in then.signs.sets)
    days = [day for then in found for day in re.findall(r"\d+-\d+", then.days)]
    assert len(days) == len(set(days))
