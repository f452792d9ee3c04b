"""What a site covers is counted from what is written, and nothing recorded in the region is passed over."""

from __future__ import annotations

from pathlib import Path

import yaml

from twayblade.knowledge.profile import HazardClass
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.coverage import coverage

REGION = "north-west-lowlands"


def test_all_that_is_recorded_is_described_or_named_as_lacking(demo: Path, demo_workspace: Workspace) -> None:
    """Counted in the list itself, by another reader of YAML."""
    listed = yaml.safe_load((demo / "content" / "regions" / f"{REGION}.yml").read_text(encoding="utf-8"))["recorded"]
    found = coverage(demo_workspace, REGION)
    assert found.recorded == len(listed)
    assert found.described == sum("taxon" in entry for entry in listed)
    lacking = [*found.harmful, *found.unassessed, *found.others]
    assert sorted(entry.name for entry in lacking) == sorted(entry["name"] for entry in listed if "name" in entry)


def test_a_plant_never_assessed_is_not_counted_among_those_without_harm(demo_workspace: Workspace) -> None:
    found = coverage(demo_workspace, REGION)
    assert {entry.hazard for entry in found.others} <= {HazardClass.NONE_FOUND}
    assert {entry.hazard for entry in found.unassessed} <= {HazardClass.NOT_ASSESSED}
    assert "Cicuta virosa" in {entry.name for entry in found.harmful}


def test_values_that_rest_on_memory_alone_are_told_apart_from_those_with_a_source_besides(demo_workspace: Workspace) -> None:
    for each in coverage(demo_workspace, REGION).profiles:
        assert each.traits == len(each.taxon.values)
        for trait, value in each.taxon.values.items():
            assert (trait in each.from_memory) == (value.source == ("memory",))


def test_a_workspace_without_a_list_of_its_region_says_so_by_having_none(penguin_workspace: Workspace) -> None:
    found = coverage(penguin_workspace, None)
    assert (found.recorded, found.described, found.not_listed) == (0, 0, ())
    assert len(found.profiles) == 3
