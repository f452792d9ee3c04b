"""Seasons and bars: what can be seen, and what may be asked."""

from __future__ import annotations

from datetime import date

from hypothesis import given
from hypothesis import strategies as st
from tests.making import KNOWN, states_trait, taxon, value, workspace

from twayblade.knowledge.library import Recorded, Region
from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.season import YEAR, Phase, Window, parse_window
from twayblade.knowledge.trait import Means
from twayblade.knowledge.workspace import Taxon
from twayblade.reasoning.seeing import Bar, runs, trait_bars, trait_seen

WINDOWS = st.tuples(*[st.integers(0, 80)] * 3, st.integers(0, YEAR - 1)).map(
    lambda t: (t[3], t[3] + t[0], t[3] + t[0] + t[1], t[3] + t[0] + t[1] + t[2])
)


def _window(days: tuple[int, int, int, int]) -> Window:
    return Window(*(d % YEAR for d in days))


@given(WINDOWS, st.integers(0, YEAR - 1), st.integers(0, YEAR - 1))
def test_turning_the_year_turns_what_is_seen(days: tuple[int, int, int, int], day: int, turn: int) -> None:
    window = _window(days)
    assert window.phase(day) == window.shifted(turn).phase((day + turn) % YEAR)


@given(WINDOWS, st.integers(0, YEAR - 1))
def test_seen_days_are_those_possible_or_expected(days: tuple[int, int, int, int], day: int) -> None:
    window = _window(days)
    assert bool(window.seen_days >> day & 1) == window.phase(day).can_be_seen


@given(st.sets(st.integers(0, YEAR - 1)))
def test_runs_hold_exactly_the_days_given(days: set[int]) -> None:
    bits = sum(1 << d for d in days)
    held = {d % YEAR for start, end in runs(bits) for d in range(start, end + 1 + (YEAR if end < start else 0))}
    assert held == days


FLOWER = states_trait("white", "pink", stages=["flower"])
JUICE = states_trait("clear", "yellow", ways=["cutting", "close-eye in dry-stem"], stages=["flower", "dry-stem"])
TRAITS = {"colour": FLOWER, "juice": JUICE}


def plant(id_: str = "a", hazard: str = "none-found", **profile: object) -> Taxon:
    seasons = {"flower": "(May -) June - July (- August)", "dry-stem": "October - January"}
    values = {"colour": value("colour", FLOWER, "white"), "juice": value("juice", JUICE, "clear")}
    return taxon(id_, values, seasons=seasons, hazard={"class": hazard, "text": "What is on record."}, **profile)


def test_a_trait_is_seen_in_its_stages_only() -> None:
    made = workspace(TRAITS, plant())
    phases = {m: trait_seen(made, made.taxa["a"], FLOWER, date(2026, m, 15), None) for m in (2, 5, 6, 8, 10)}
    assert phases == {2: Phase.NOT_YET, 5: Phase.POSSIBLE, 6: Phase.EXPECTED, 8: Phase.POSSIBLE, 10: Phase.OVER}


def test_a_window_may_run_over_new_year() -> None:
    window = parse_window("October - January")
    assert [window.phase(d) for d in (0, 30, 31, 300)] == [Phase.EXPECTED, Phase.EXPECTED, Phase.OVER, Phase.EXPECTED]


def test_it_is_barred_only_if_no_way_is_left() -> None:
    made = workspace(TRAITS, plant())
    june, november = date(2026, 6, 15), date(2026, 11, 15)
    cutting = frozenset(Means)
    assert trait_bars(made, JUICE, (made.taxa["a"],), Occasion(november, taxa=("a",))) == frozenset()
    assert trait_bars(made, JUICE, (made.taxa["a"],), Occasion(june, taxa=("a",))) & {Bar.NOT_BY_THOSE_MEANS, Bar.NOT_THEN}
    assert trait_bars(made, JUICE, (made.taxa["a"],), Occasion(june, cutting, taxa=("a",))) == frozenset()


def test_handling_is_unsafe_wherever_harm_or_nothing_is_on_record() -> None:
    june = Occasion(date(2026, 6, 15), frozenset(Means), taxa=("a",))
    touched = states_trait("rough", "smooth", ways=["touch"])

    def bars(*plants: Taxon, listed: tuple[Recorded, ...] = (KNOWN,)) -> frozenset[Bar]:
        region = {"home": Region(name="home", home=True, recorded=listed)}
        made = workspace({**TRAITS, "feel": touched}, *plants, regions=region)
        return trait_bars(made, touched, (made.taxa["a"],), june)

    assert bars(plant()) == frozenset()
    assert bars(plant(hazard="deadly")) == {Bar.UNSAFE}
    assert bars(taxon("a", {})) == {Bar.UNSAFE}, "no hazard record at all"
    assert bars(plant(), listed=()) == {Bar.UNSAFE}, "no list of what stands there"
    assert bars(plant(), listed=(Recorded(name="Cicuta virosa", hazard="deadly"),)) == {Bar.UNSAFE}
    assert bars(plant(), listed=(Recorded(name="Planta ignota"),)) == {Bar.UNSAFE}, "never assessed"
    assert bars(plant(group="g"), plant("b", "phototoxic", group="g")) == {Bar.UNSAFE}, "a fellow of its group"
