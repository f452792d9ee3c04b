"""How early or late a year runs: the bounds against trying out every shift, and no estimate without grounds."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.making import taxon, workspace

from twayblade.knowledge.observation import PlantSeen
from twayblade.knowledge.season import YEAR, Phase, Window, day_of
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.shift import ENOUGH, MOST_DAYS, in_order, year_shift

SHIFTS = range(-MOST_DAYS, MOST_DAYS + 1)
DAYS = st.dates(date(2024, 1, 1), date(2025, 12, 31))
MONTHS = ("January", "March", "late April", "mid June", "August", "October", "early December")


def seen(taxon_id: str, on: date | None, *stages: str | frozenset[str]) -> PlantSeen:
    return PlantSeen("here", on, "", 1, taxon_id, True, tuple(s if isinstance(s, frozenset) else frozenset({s}) for s in stages))


@st.composite
def seasons(draw: st.DrawFn) -> str:
    """A window of the year, perhaps over new year, perhaps with an outer limit on either side."""
    first = draw(st.integers(0, len(MONTHS) - 1))
    before, start, end, after = (MONTHS[(first + n) % len(MONTHS)] for n in range(4))
    left, right = draw(st.booleans()), draw(st.booleans())
    return (f"({before} -) " if left else "") + f"{start} - {end}" + (f" (- {after})" if right else "")


@st.composite
def visits(draw: st.DrawFn) -> tuple[Workspace, list[PlantSeen]]:
    """One to five taxa with windows for flowers and fruit, and what was seen of them on a day or two."""
    taxa = [taxon(f"t{n}", {}, seasons={"flower": draw(seasons()), "young-fruit": draw(seasons())}) for n in range(draw(st.integers(1, 5)))]
    on = draw(DAYS)
    choice = st.sampled_from([("flower",), ("young-fruit",), ("flower", "young-fruit"), (frozenset({"flower", "young-fruit"}),)])
    found = [seen(t.id, on + timedelta(days=draw(st.integers(0, 3))), *draw(choice)) for t in taxa]
    return workspace({}, *taxa), found


def window_of(made: Workspace, id_: str, stage: str) -> Window:
    (only,) = made.taxa[id_].profile.seasons[stage]
    return only.when


def fits(made: Workspace, plant: PlantSeen, shift: int, phases: set[Phase]) -> bool:
    """Whether everything seen of a plant falls into windows turned by a shift. Windows are turned here, days in the code."""
    assert plant.on
    day = day_of(plant.on)
    return all(any(window_of(made, plant.taxon, stage).shifted(shift).phase(day) in phases for stage in might) for might in plant.stages)


@given(visits())
def test_the_bounds_of_a_taxon_are_the_shifts_that_fit_tried_one_by_one(case: tuple[Workspace, list[PlantSeen]]) -> None:
    made, found = case
    bounds = {b.taxon: b for b in year_shift(made, found, None).bounds}
    for plant in found:
        possible = {s for s in SHIFTS if fits(made, plant, s, {Phase.POSSIBLE, Phase.EXPECTED})}
        if len(possible) == len(SHIFTS):
            assert plant.taxon not in bounds
            continue
        # with a code that may be two stages, either of them may be the one that is expected
        expected = {s for s in SHIFTS if fits(made, plant, s, {Phase.EXPECTED})}
        assert {s for s in SHIFTS if bounds[plant.taxon].possible >> s % YEAR & 1} == possible
        assert {s for s in SHIFTS if bounds[plant.taxon].expected >> s % YEAR & 1} == expected


@given(visits())
def test_those_that_agree_are_the_most_that_one_shift_explains(case: tuple[Workspace, list[PlantSeen]]) -> None:
    made, found = case
    year = year_shift(made, found, None)
    bounding = [p for p in found if p.taxon in {b.taxon for b in year.bounds}]
    sets = {s: frozenset(p.taxon for p in bounding if fits(made, p, s, {Phase.POSSIBLE, Phase.EXPECTED})) for s in SHIFTS}
    most = max(map(len, sets.values()))
    best = {chosen for chosen in sets.values() if len(chosen) == most}
    assert set(year.agree) == frozenset.intersection(*best)
    assert set(year.agree) | set(year.against) == {p.taxon for p in bounding}
    if year.agree:
        assert {s for s in SHIFTS if year.possible >> s % YEAR & 1} == {s for s in SHIFTS if sets[s] >= set(year.agree)}
    assert (year.estimate is not None) == (len(best) == 1 and most >= ENOUGH)
    if year.estimate:
        assert all(sets[s] == set(year.agree) for s in (year.estimate.lowest, year.estimate.highest))
        assert year.estimate.lowest <= year.estimate.middle <= year.estimate.highest


@given(visits(), st.integers(-20, 20))
def test_a_visit_some_days_later_moves_every_bound_by_as_many(case: tuple[Workspace, list[PlantSeen]], days: int) -> None:
    """Within one common year, whose days follow one another on the circle but for 29 February."""
    made, found = case
    moved = [PlantSeen(p.stop, date(2025, 7, 1), "", 1, p.taxon, True, p.stages) for p in found]
    later = [PlantSeen(p.stop, date(2025, 7, 1) + timedelta(days=days), "", 1, p.taxon, True, p.stages) for p in found]
    before, after = ({b.taxon: b.possible for b in year_shift(made, plants, None).bounds} for plants in (moved, later))
    for id_ in set(before) & set(after):
        for shift in SHIFTS:
            if shift + days in SHIFTS:
                assert before[id_] >> shift % YEAR & 1 == after[id_] >> (shift + days) % YEAR & 1


THREE = [taxon(id_, {}, seasons={"flower": "June", "leaf": "all year"}) for id_ in ("one", "two", "three")]


@pytest.mark.parametrize(
    ("days", "low", "high"),
    # June is 30 days: seen flowering on its first, the year may run 29 days early at most, and no day late.
    [(date(2026, 6, 1), -29, 0), (date(2026, 6, 30), 0, 29), (date(2026, 6, 15), -15, 14), (date(2026, 7, 10), 10, 39)],
)
def test_three_that_agree_give_an_estimate_with_its_spread(days: date, low: int, high: int) -> None:
    year = year_shift(workspace({}, *THREE), [seen(t.id, days, "flower") for t in THREE], None)
    assert in_order(year.possible) == ((low, high),)
    assert year.estimate
    assert (year.estimate.lowest, year.estimate.highest) == (low, high)
    assert year.estimate.middle == (low + high) / 2
    assert year.estimate.spread == (high - low) / 2


def test_two_are_not_enough() -> None:
    year = year_shift(workspace({}, *THREE), [seen(t.id, date(2026, 6, 15), "flower") for t in THREE[:2]], None)
    assert len(year.agree) == 2
    assert year.estimate is None


def test_one_that_contradicts_is_named_and_left_out() -> None:
    odd = taxon("odd", {}, seasons={"flower": "December - January"})
    year = year_shift(workspace({}, *THREE, odd), [seen(t.id, date(2026, 6, 15), "flower") for t in (*THREE, odd)], None)
    assert year.against == ("odd",)
    assert year.estimate
    assert {frozenset(pair) for pair in year.conflicts} == {frozenset({"odd", t.id}) for t in THREE}


def test_a_window_over_new_year_bounds_like_any_other() -> None:
    winter = taxon("winter", {}, seasons={"flower": "December - January"})
    year = year_shift(workspace({}, winter), [seen("winter", date(2026, 1, 31), "flower")], None)
    assert in_order(year.possible) == ((0, 60),)  # 61 days of December and January, and the cap of 60


@pytest.mark.parametrize(
    "plant",
    [
        seen("one", date(2026, 6, 15), "leaf"),  # all the year round
        seen("one", date(2026, 6, 15), "bud"),  # no window on record
        seen("one", None, "flower"),  # no day
        seen("one", date(2026, 6, 15)),  # no stage
        seen("one", date(2026, 6, 15), frozenset({"bud", "flower"})),  # it may have been the one without a window
    ],
)
def test_what_bounds_nothing_is_left_out(plant: PlantSeen) -> None:
    year = year_shift(workspace({}, *THREE), [plant], None)
    assert year.bounds == ()
    assert year.estimate is None
