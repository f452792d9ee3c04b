"""The chart of the year shows each day as the profiles have it, usual or perhaps, wherever the chart begins."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from twayblade.knowledge.season import WHOLE_YEAR, YEAR, Phase
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.seeing import phase_on
from twayblade.writing.year_chart import along, first_day, month_starts, spans, year_chart, year_charts


def shown(found: tuple[tuple[int, int], ...]) -> list[int]:
    return [start + n for start, days in found for n in range(days)]


@given(st.integers(0, WHOLE_YEAR), st.sampled_from([0, 182]))
def test_spans_show_just_the_days_each_once_and_none_breaks_where_the_chart_does_not(days: int, first: int) -> None:
    found = spans(days, first)
    drawn = shown(found)
    assert sorted(along(day, first) for day in range(YEAR) if days >> day & 1) == drawn
    assert all(start + days < later for (start, days), (later, _) in pairwise(found))


def test_months_begin_where_the_calendar_has_them() -> None:
    """Days of a leap year before each month: 0, 31, 60 ... (Gregorian calendar)."""
    assert month_starts(0)[:4] == ((1, 0), (2, 31), (3, 60), (4, 91))
    assert month_starts(first_day(7))[0] == (7, 0)
    assert month_starts(first_day(7))[6] == (1, 184)
    assert [number for number, _ in month_starts(first_day(7))] == [7, 8, 9, 10, 11, 12, 1, 2, 3, 4, 5, 6]


@pytest.mark.parametrize("stage", ["flower", "ripe-fruit"])
def test_every_day_of_every_plant_is_shown_as_it_is_on_record(demo_workspace: Workspace, stage: str) -> None:
    region = "north-west-lowlands"
    chart = year_chart(demo_workspace, list(demo_workspace.taxa.values()), stage, region)
    assert {row.taxon.id for row in chart.rows} == {t.id for t in demo_workspace.taxa.values() if t.profile.seasons.get(stage)}
    for row in chart.rows:
        usual, perhaps = set(shown(row.usual)), set(shown(row.perhaps))
        for day in range(YEAR):
            phase = phase_on(demo_workspace, row.taxon, stage, day, region)
            assert (day in usual, day in perhaps) == (phase is Phase.EXPECTED, phase is Phase.POSSIBLE), (row.taxon.id, day)


def test_plants_come_in_the_order_in_which_they_begin(demo_workspace: Workspace) -> None:
    flower, *others = year_charts(demo_workspace, list(demo_workspace.taxa.values()), "north-west-lowlands")
    assert flower.stage == "flower"
    assert "flower" not in [chart.stage for chart in others]
    begins = [row.usual[0][0] for row in flower.rows]
    assert begins == sorted(begins)
    assert flower.rows[0].taxon.id == "anthriscus-sylvestris"


def test_what_has_no_seasons_has_no_chart(penguin_workspace: Workspace) -> None:
    assert year_charts(penguin_workspace, list(penguin_workspace.taxa.values()), None) == ()
