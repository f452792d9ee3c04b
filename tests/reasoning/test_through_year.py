"""What changes through the year is worked out once a stretch and is right on every day."""

from __future__ import annotations

from datetime import date, timedelta
from functools import partial

import pytest
from tests.making import taxon, workspace

from twayblade.knowledge.season import WHOLE_YEAR, YEAR
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.outline import stages_seen
from twayblade.reasoning.through_year import through_year, turning_days

DAYS = [date(2024, 1, 1) + timedelta(day) for day in range(YEAR)]


@pytest.mark.parametrize("region", [None, "north-west-lowlands", "new-zealand"])
def test_stages_are_seen_on_the_days_that_are_worked_out_for_them(demo_workspace: Workspace, region: str | None) -> None:
    for plant in demo_workspace.taxa.values():
        found = through_year(demo_workspace, region, partial(stages_seen, demo_workspace, plant, region=region))
        for day, on in enumerate(DAYS):
            assert [value for value, days in found if days >> day & 1] == [stages_seen(demo_workspace, plant, on, region)]


def test_every_day_has_one_value_and_values_come_in_the_order_of_the_year(demo_workspace: Workspace) -> None:
    found = through_year(demo_workspace, None, lambda on: on.month > 5)
    assert [value for value, _ in found] == [False, True]
    assert sum(days for _, days in found) == WHOLE_YEAR  # disjoint, so that adding is joining
    assert turning_days(demo_workspace, None)[0] == 0


def test_without_seasons_nothing_turns() -> None:
    made = workspace({}, taxon("a", {}))
    assert through_year(made, None, lambda on: "always") == (("always", WHOLE_YEAR),)
    assert turning_days(made, None) == (0,)
