"""Three clocks, each between a low and a high, and what to cut where one runs over."""

from __future__ import annotations

from decimal import Decimal
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from twayblade.knowledge.trail import Trail
from twayblade.reasoning.choice import WORTH
from twayblade.reasoning.clocks import MAY_GO, Clocks, Timed, clocks, cut_first

KINDS = ("arrival", "recognise", "tell", "name", "habitat", "look-closer", "forms", "care", "move-on")
TIMES = st.integers(0, 90).map(Decimal)
PARTS = st.lists(st.builds(Timed, st.just("gate"), st.sampled_from(KINDS), st.just("plant"), TIMES, TIMES, TIMES, st.booleans()), max_size=12)
LEGS = st.lists(TIMES, min_size=1, max_size=5).map(lambda found: [(f"stop-{n}", seconds) for n, seconds in enumerate(found)])


def trail(pace: dict[str, str] | None = None, **fields: str) -> Trail:
    stops = [{"id": "gate", "title": "The gate", "taxa": ["plant"]}]
    return Trail.model_validate({"title": "A walk", "region": "here", "dates": ["2026-06-07"], "stops": stops, "pace": pace or {}, **fields})


def run(parts: list[Timed], legs: list[tuple[str, Decimal]], set_ups: int = 0, pace: dict[str, str] | None = None, **fields: str) -> Clocks:
    return clocks(trail(pace, **fields), parts, legs, set_ups)


@given(PARTS, LEGS, st.integers(0, 30))
def test_the_likely_lies_between_the_low_and_the_high(parts: list[Timed], legs: list[tuple[str, Decimal]], set_ups: int) -> None:
    for _, clock in run(parts, legs, set_ups).named:
        assert 0 <= clock.low <= clock.likely <= clock.high
        assert clock.allows is None
        assert not clock.over
        assert not clock.cuts


def test_each_clock_counts_what_belongs_to_it() -> None:
    parts = [
        Timed("gate", "arrival", None, Decimal(40), gathering=Decimal(20)),
        Timed("gate", "recognise", "plant", Decimal(30), Decimal(10)),
    ]
    pace = {"set-up": "60 s", "second-takes": "25 %", "waiting": "10 %"}
    made = run(parts, [("gate", Decimal(100)), ("bank", Decimal(200))], set_ups=3, pace=pace)
    assert made.film.likely == 40 + 30 + 10
    assert made.on_foot.likely == 300
    assert made.on_site.likely == 80 + 3 * 60 + 20 + 8 + 20 + 300
    assert dict(made.on_site.made_of)["second takes"].likely == 20


@given(PARTS, LEGS)
def test_without_a_camera_the_time_on_site_is_that_of_the_walk(parts: list[Timed], legs: list[tuple[str, Decimal]]) -> None:
    made = run(parts, legs, 9, {"set-up": "0 s", "second-takes": "0 %", "waiting": "0 %"})
    assert made.on_site.likely == made.film.likely + made.on_foot.likely + sum(p.gathering for p in parts)


@given(PARTS, st.integers(1, 300))
def test_what_is_cut_first_is_worth_least_for_its_seconds_and_is_never_care(parts: list[Timed], over: int) -> None:
    cuts = cut_first(parts, over)
    may_go = [p for p in parts if p.may_go and p.kind in MAY_GO and p.filmed]
    assert {cut.kind for cut in cuts} <= {"habitat", "look-closer", "name", "forms", "tell"}
    worth = sorted(WORTH[p.kind] / p.filmed for p in may_go)
    assert [WORTH[cut.kind] / Decimal(cut.seconds) for cut in cuts] == worth[: len(cuts)]
    assert sum(cut.seconds for cut in cuts) >= over or len(cuts) == len(may_go)
    assert sum(cut.seconds for cut in cuts[:-1]) < over


@given(PARTS, st.integers(1, 200))
def test_no_other_cuts_of_as_many_seconds_lose_less_worth_by_more_than_the_last(parts: list[Timed], over: int) -> None:
    """Taking the least worth for its seconds first is the best there is, but for the seconds by which the last cut goes too far."""
    cuts = cut_first(parts[:8], over)
    may_go = [p for p in parts[:8] if p.may_go and p.kind in MAY_GO and p.filmed]
    others = [some for size in range(len(may_go) + 1) for some in combinations(may_go, size) if sum(p.filmed for p in some) >= over]
    if others:
        best = min(sum(WORTH[p.kind] for p in some) for some in others)
        assert sum(WORTH[cut.kind] for cut in cuts[:-1]) <= best


def test_what_may_not_go_alone_stays() -> None:
    told = Timed("gate", "tell", "hemlock", Decimal(40), may_go=False)
    shown = Timed("gate", "recognise", "hemlock", Decimal(90))
    film = run([told, shown, Timed("gate", "care", "hemlock", Decimal(30))], [("gate", Decimal(0))], film="1 min").film
    assert (film.over, film.cuts, film.cuts_suffice) == (100, (), False)


def test_an_allowance_that_is_passed_says_by_how_much_and_what_goes_first() -> None:
    parts = [Timed("gate", "name", "plant", Decimal(50)), Timed("gate", "habitat", "plant", Decimal(10)), Timed("gate", "care", "plant", Decimal(60))]
    film = run(parts, [("gate", Decimal(0))], film="1 min").film
    assert film.over == 60
    assert [(cut.kind, cut.seconds) for cut in film.cuts] == [("name", 50), ("habitat", 10)]
    assert film.cuts_suffice
    assert run(parts, [("gate", Decimal(0))], film="2.1 min").film.may_pass


def test_walking_is_shortened_at_its_end_and_never_loses_its_first_stop() -> None:
    legs = [("gate", Decimal(600)), ("bank", Decimal(100)), ("bridge", Decimal(50))]
    on_foot = run([], legs, **{"on-foot": "11 min"}).on_foot
    assert [cut.stop for cut in on_foot.cuts] == ["bridge", "bank"]
    assert not run([], legs, **{"on-foot": "1 min"}).on_foot.cuts_suffice


@pytest.mark.parametrize("kind", ["care", "arrival", "recognise", "opening", "closing", "move-on", "not-found"])
def test_some_parts_are_never_cut_alone(kind: str) -> None:
    assert kind not in MAY_GO
