"""The tables for a browser say of every pair on every day what `tell_apart` says of it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, timedelta
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.making import number_trait, states_trait, taxon, value, workspace

from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.season import YEAR, Phase, day_of
from twayblade.knowledge.trait import HANDLING, Means
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.seeing import Bar, difference_bars, runs
from twayblade.reasoning.tables import AIDS, Dated, PairTable, best_through_year, date_contrast, pair_table, pair_tables
from twayblade.reasoning.telling import Told, strength, tell_apart, temptation, tempting

SPRING = date(2024, 1, 1)
"""The first day of a leap year: each of its days is one of the circle."""


def usable_on(made: Workspace, table: PairTable, day: int) -> list[Dated]:
    """What may be used on a day in the order of the table, with what a day changes in it: how many of the two are not sure to show it."""
    found = [d for d in table.contrasts if d.usable >> day & 1]
    return sorted(found, key=lambda d: (strength(made, d.difference), d.unsure(day)))


def told_on(made: Workspace, table: PairTable, on: date, means: Iterable[Means], region: str | None) -> tuple[Told, ...]:
    return tell_apart(made, Occasion(on, frozenset(means), region, (table.first, table.second))).told


def disagreements(made: Workspace, table: PairTable, on: date, means: frozenset[Means], region: str | None = None) -> list[object]:
    day, found = day_of(on), []
    told = told_on(made, table, on, means, region)
    if [d.difference for d in usable_on(made, table, day)] != [t.difference for t in told if t.is_usable]:
        found.append(("usable", table.first, table.second, on))
    best = [d.difference for d, days in best_through_year(made, table) if d and days >> day & 1]
    if best != [t.difference for t in told if t.is_usable][:1]:
        found.append(("best", table.first, table.second, on))
    wider = {t.difference for t in told_on(made, table, on, means | AIDS, region) if t.verdict.is_good and t.bars <= {Bar.TOO_FINE}}
    if {d.difference for d in table.contrasts if d.aided >> day & 1} != wider:
        found.append(("aided", table.first, table.second, on))
    expected = {t.difference: tuple(t.seen[id_] is Phase.EXPECTED for id_ in (table.first, table.second)) for t in told}
    for dated in table.contrasts:
        if tuple(bool(days >> day & 1) for days in dated.expected) != expected[dated.difference]:
            found.append(("expected", dated.difference, on))
    return found


def test_the_demo_is_told_apart_as_tell_apart_does_for_all_pairs_through_the_year(demo_workspace: Workspace) -> None:
    means = frozenset({Means.DISTANT_EYE, Means.CLOSE_EYE})
    tables = pair_tables(demo_workspace, Occasion(None, means, "north-west-lowlands"))
    assert [(t.first, t.second) for t in tables] == list(combinations(sorted(demo_workspace.taxa), 2))
    found = []
    for n, table in enumerate(tables):  # each pair on two days, of which no other pair has one
        for day in (n, n + YEAR // 2):
            found += disagreements(demo_workspace, table, SPRING + timedelta(day), means, "north-west-lowlands")
    assert found == []


def test_the_days_of_every_contrast_of_the_demo_begin_and_end_where_its_bars_do(demo_workspace: Workspace) -> None:
    for table in pair_tables(demo_workspace, Occasion(None)):
        for dated in table.contrasts:
            edges = {day % YEAR for run in (*runs(dated.usable), *runs(dated.aided)) for day in (run[0] - 1, *run, run[1] + 1)}
            for day in edges:
                eye = Occasion(SPRING + timedelta(day), taxa=(table.first, table.second))
                by_eye, by_aid = (
                    difference_bars(demo_workspace, dated.difference, occasion, forbidden=True)
                    for occasion in (eye, replace(eye, means=eye.means | AIDS))
                )
                assert bool(dated.usable >> day & 1) == (not by_eye), (dated, day)
                assert bool(dated.aided >> day & 1) == (by_aid <= {Bar.TOO_FINE}), (dated, day)


def test_the_penguins_are_too(penguin_workspace: Workspace) -> None:
    means = frozenset({Means.DISTANT_EYE, Means.CLOSE_EYE})
    for table in pair_tables(penguin_workspace, Occasion(None, means)):
        for day in range(0, YEAR, 5):
            assert disagreements(penguin_workspace, table, SPRING + timedelta(day), means) == []


def test_what_never_to_rely_on_is_what_tempts_on_every_day(demo_workspace: Workspace) -> None:
    means = frozenset({Means.DISTANT_EYE, Means.CLOSE_EYE})
    for n, table in enumerate(pair_tables(demo_workspace, Occasion(None, means))):
        for day in (n, n + YEAR // 2):
            told = told_on(demo_workspace, table, SPRING + timedelta(day), means, None)
            unseen = {t.difference: sum(phase is not Phase.EXPECTED for phase in t.seen.values()) for t in told}
            ordered = sorted(table.never, key=lambda d: (temptation(demo_workspace, d), unseen[d]))
            assert [t.difference for t in tempting(demo_workspace, told)] == ordered[: len(tempting(demo_workspace, told))]


WAYS = ["close-eye", "distant-eye", "lens", "ruler", "cutting", "close-eye in dry-stem", "lens in flower", "touch in flower, dry-stem"]
STAGES = ["bud", "flower", "dry-stem"]
MONTHS = ["January", "April", "June", "July", "September", "December"]


@st.composite
def two_plants(draw: st.DrawFn) -> Workspace:
    """Two plants with seasons, a trait of states and a count or measure, each with ways and stages."""
    seasons = st.tuples(*[st.sampled_from(MONTHS)] * 2).map(" - ".join)
    ways, stages = st.lists(st.sampled_from(WAYS), min_size=1, max_size=3), st.lists(st.sampled_from(STAGES), max_size=2, unique=True)
    mark = states_trait("a", "b", ways=draw(ways), stages=draw(stages))
    size = number_trait(draw(st.sampled_from(["count", "measure"])), ways=draw(ways), stages=draw(stages), **{"misread-by": "3"})
    traits = {"mark": mark, "size": size}
    unit = " mm" if size.unit else ""
    plants = []
    for id_ in ("p", "q"):
        low = draw(st.integers(0, 9))
        values = {
            "mark": value("mark", mark, draw(st.sampled_from(["a", "b", "usually a", "a or b"]))),
            "size": value("size", size, f"{low}-{low + draw(st.integers(0, 3))}{unit}"),
        }
        recorded = draw(st.lists(st.sampled_from(STAGES), unique=True))
        plants.append(taxon(id_, values, seasons={stage: draw(seasons) for stage in recorded}))
    return workspace(traits, *plants)


@settings(max_examples=150, deadline=None)
@given(two_plants(), st.sets(st.sampled_from(list(Means))), st.integers(0, YEAR - 1))
def test_any_two_plants_are_told_apart_as_tell_apart_does(made: Workspace, means: set[Means], day: int) -> None:
    table = pair_table(made, "q", "p", Occasion(None, frozenset(means)))
    assert disagreements(made, table, SPRING + timedelta(day), frozenset(means)) == []


def test_what_takes_a_hand_where_none_may_be_asked_for_is_in_no_table(demo_workspace: Workspace) -> None:
    everything = Occasion(None, frozenset(Means))
    for table in pair_tables(demo_workspace, everything):
        for dated in table.contrasts:
            ways = demo_workspace.traits[dated.difference.trait].ways
            assert any(not HANDLING & set(way.by) for way in ways), dated.difference


@pytest.mark.parametrize("first", ["p", "q"])
def test_what_lies_too_close_to_be_seen_is_for_the_practised_eye(first: str) -> None:
    size = number_trait(**{"misread-by": "1 mm"})
    made = workspace({"size": size}, *(taxon(id_, {"size": value("size", size, is_)}) for id_, is_ in (("p", "2-4 mm"), ("q", "4.5-5 mm"))))
    (dated,) = pair_table(made, first, "q" if first == "p" else "p", Occasion(None)).contrasts
    assert dated.usable == 0
    assert dated.aided == (1 << YEAR) - 1
    assert date_contrast(made, dated.difference, Occasion(None), forbidden=False) == dated
