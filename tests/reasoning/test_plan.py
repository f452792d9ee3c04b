"""The year of a walk against a day by day account, on both hemispheres; what must not be missed; the dates that are compared."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.making import KNOWN, states_trait, taxon, value
from tests.making import workspace as made

from twayblade.knowledge.library import Region
from twayblade.knowledge.profile import SeasonWindow
from twayblade.knowledge.season import YEAR, Phase, Window, day_of
from twayblade.knowledge.trail import Stop, Trail
from twayblade.knowledge.workspace import PlannedTrail, Workspace
from twayblade.reasoning.claims import verdict_of
from twayblade.reasoning.lookalikes import Pair, look_alikes, pair_differences
from twayblade.reasoning.plan import SOON, Year, best_days, plan_date, plan_year
from twayblade.reasoning.scope import occasion_of
from twayblade.reasoning.seeing import difference_bars, handling_forbidden, trait_seen

MARK = states_trait("plain", "spotted", ways=["distant-eye"], stages=["flower"])


def windows_of(*days: tuple[int, int]) -> tuple[SeasonWindow, ...]:
    return tuple(SeasonWindow(when=Window(start, start, end, end)) for start, end in days)


def meadow(flowering: Sequence[tuple[int, int]], turned: int = 0, hemisphere: str = "north") -> Workspace:
    """A meadow of plants that flower from one day of the circle to another, turned by some days; every other one spotted."""
    turns = [tuple((d + turned) % YEAR for d in span) for span in flowering]
    taxa = [
        taxon(f"plant-{n}", {"mark": value("mark", MARK, "spotted" if n % 2 else "plain")}, seasons={"flower": windows_of((span[0], span[1]))})
        for n, span in enumerate(turns)
    ]
    region = Region.model_validate({"name": "home", "home": True, "hemisphere": hemisphere, "recorded": (KNOWN,)})
    return made({"mark": MARK}, *taxa, regions={"home": region})


def walk_of(workspace: Workspace, *dates: date) -> PlannedTrail:
    stops = tuple(Stop(id=id_, title=id_, taxa=(id_,)) for id_ in workspace.taxa)
    return PlannedTrail("walk", Trail(title="A walk", region="home", dates=dates or (date(2028, 6, 7),), stops=stops), None)


def all_pairs(workspace: Workspace) -> tuple[Pair, ...]:
    ids = list(workspace.taxa)
    return tuple(Pair(a, b, True) for n, a in enumerate(ids) for b in ids[n + 1 :])


def year_of(workspace: Workspace, *dates: date) -> Year:
    return plan_year(workspace, walk_of(workspace, *dates), all_pairs(workspace))


spans = st.tuples(st.integers(0, YEAR - 1), st.integers(1, 200)).map(lambda s: (s[0], (s[0] + s[1]) % YEAR))


@settings(max_examples=40, deadline=None)
@given(st.lists(spans, min_size=1, max_size=4), st.integers(0, YEAR - 1))
def test_turning_the_year_turns_the_plan_and_changes_nothing_else(flowering: list[tuple[int, int]], turned: int) -> None:
    """A walk in the other hemisphere is the same walk half a year later; new year is a day like any other."""
    year, other = year_of(meadow(flowering)), year_of(meadow(flowering, turned))
    start = date(2028, 1, 1)  # a leap year: each day has its own place on the circle
    for n in range(0, YEAR, 15):
        here, there = plan_date(year, start + timedelta(n)), plan_date(other, start + timedelta((n + turned) % YEAR))
        assert here.expected == there.expected
        assert [p.pair for p in here.pairs] == [p.pair for p in there.pairs]
        assert here.fleeting == there.fleeting


@settings(max_examples=40, deadline=None)
@given(st.lists(spans, min_size=2, max_size=4))
def test_a_pair_is_at_its_best_where_both_flower_and_one_is_spotted(flowering: list[tuple[int, int]]) -> None:
    year = year_of(meadow(flowering))
    by_id = {t.taxon: t for t in year.taxa}
    for found in year.pairs:
        first, second = by_id[found.pair.first], by_id[found.pair.second]
        differ = int(first.taxon[-1]) % 2 != int(second.taxon[-1]) % 2
        assert found.best_days == (first.expected & second.expected if differ else 0)


def test_the_days_of_a_contrast_are_those_on_which_it_may_be_used_and_is_expected_on_both(demo_workspace: Workspace) -> None:
    """Day by day, with the bars of each date, on the pairs of the demonstration."""
    workspace, planned = demo_workspace, demo_workspace.trails["demo_trail"]
    occasion = occasion_of(planned.trail, planned.trail.chief_date)
    forbidden = handling_forbidden(workspace, occasion)
    counted = 0
    for pair in look_alikes(workspace)[:6]:
        taxa = (workspace.taxa[pair.first], workspace.taxa[pair.second])
        for difference in pair_differences(workspace, *taxa, planned.trail.region):
            if not verdict_of(difference).is_good:
                continue
            trait = workspace.traits[difference.trait]
            days = best_days(workspace, difference, occasion)
            for n in range(0, YEAR, 9):
                on = date(2028, 1, 1) + timedelta(n)
                usable = not difference_bars(workspace, difference, replace(occasion, on=on), forbidden)
                expected = all(trait_seen(workspace, t, trait, on, planned.trail.region) is Phase.EXPECTED for t in taxa)
                assert bool(days >> day_of(on) & 1) == (usable and expected), (pair, difference.trait, on)
                counted += usable and expected
    assert counted > 100


def test_what_ends_soon_or_flowers_briefly_must_not_be_missed() -> None:
    year = year_of(meadow([(100, 199), (100, 199), (150, 169)]))
    early = {f.taxon: f for f in plan_date(year, date(2028, 1, 1) + timedelta(155)).fleeting}
    assert early["plant-2"].is_short
    assert early["plant-2"].days_left == 14
    assert set(early) == {"plant-2"}
    late = plan_date(year, date(2028, 1, 1) + timedelta(199 - SOON + 1)).fleeting
    assert [(f.taxon, f.days_left, f.is_short) for f in late] == [("plant-0", SOON - 1, False), ("plant-1", SOON - 1, False)]
    assert plan_date(year, date(2028, 1, 1) + timedelta(199 - SOON)).fleeting == ()
    assert plan_date(year, date(2028, 1, 1) + timedelta(199)).fleeting[0].days_left == 0


def test_a_flowering_over_new_year_ends_when_it_ends() -> None:
    year = year_of(meadow([(340, 20)], hemisphere="south"))
    assert year.first_month == 7
    assert [f.days_left for f in plan_date(year, date(2028, 12, 31)).fleeting] == []
    assert [f.days_left for f in plan_date(year, date(2028, 1, 15)).fleeting] == [6]  # 15 January is day 14 of the circle


def test_what_flowers_all_year_is_never_missed() -> None:
    year = year_of(meadow([(0, YEAR - 1)]))
    assert all(found.fleeting == () and found.expected == ("plant-0",) for found in year.dates)


def test_the_dates_are_the_halves_of_the_months_and_those_of_the_walk_each_once() -> None:
    workspace = meadow([(100, 199)])
    dates = [found.on for found in year_of(workspace, date(2026, 6, 16), date(2026, 6, 7), date(2027, 1, 2)).dates]
    assert len(dates) == 26
    assert dates == sorted(set(dates))
    assert {date(2026, 1, 1), date(2026, 6, 7), date(2026, 6, 16), date(2026, 12, 16), date(2027, 1, 2)} <= set(dates)


def test_seasons_recorded_only_elsewhere_are_named() -> None:
    workspace = meadow([(100, 199)])
    south = Region.model_validate({"name": "south", "hemisphere": "south", "recorded": (KNOWN,)})
    both = replace(workspace, regions={**workspace.regions, "south": south})
    planned = walk_of(both)
    there = replace(planned, trail=planned.trail.model_copy(update={"region": "south"}))
    year = plan_year(both, there, ())
    assert year.borrowed == ("plant-0",)
    assert year.taxa[0].expected == year_of(workspace).taxa[0].expected  # never shifted by guess
    assert year_of(workspace).borrowed == ()


@pytest.mark.parametrize("count", [0, 1])
def test_a_walk_without_pairs_or_seasons_has_a_plan_too(count: int, penguin_workspace: Workspace) -> None:
    pairs = look_alikes(penguin_workspace)[:count]
    year = plan_year(penguin_workspace, penguin_workspace.trails["colony_walk"], pairs)
    assert year.taxa == ()
    assert len(year.pairs) == count
    assert {len(found.pairs) for found in year.dates} == {count}
