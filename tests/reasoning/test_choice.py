"""The choice under a time allowance, against trying every subset, and what it says of the parts left out."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from twayblade.knowledge.trail import PART_KINDS
from twayblade.reasoning.choice import NOTHING, WORTH, Choice, Item, Way, choose, next_out, spared


@st.composite
def ways(draw: st.DrawFn) -> Way:
    """Small walks of up to three stops with a plant or two each, contrasts with plants met before, and cautions."""
    items: list[Item] = []
    met: list[int] = []
    seconds, worth = st.integers(0, 9), st.integers(0, 9)
    stops = draw(st.integers(1, 3))
    for stop in range(stops):
        arrival = len(items)
        items.append(Item(stop, "arrival", None, draw(seconds), draw(worth)))
        for plant in range(draw(st.integers(0, 2 if stop == 0 else 1))):
            taxon, own = f"{stop}-{plant}", len(items)
            items.append(Item(stop, "recognise", taxon, draw(seconds), draw(worth), frozenset({arrival})))
            if met and draw(st.booleans()):
                items.append(Item(stop, "tell", taxon, draw(seconds), draw(worth), frozenset({own, draw(st.sampled_from(met))})))
            if draw(st.booleans()):
                items.append(Item(stop, "name", taxon, draw(seconds), draw(worth), frozenset({own})))
            if draw(st.booleans()):
                items.append(Item(stop, "care", taxon, draw(seconds), draw(worth), bound_to=draw(st.sampled_from((own, arrival)))))
            met.append(own)
        if draw(st.booleans()):
            items.append(Item(stop, "move-on", None, draw(seconds), 0, bound_to=arrival))
    return Way(tuple(items), tuple(draw(seconds) for _ in range(stops)), draw(seconds))


def is_allowed(way: Way, items: frozenset[int]) -> bool:
    """The rules, said anew: what an item needs is chosen, and a bound item is chosen exactly where the other is."""
    for number, item in enumerate(way.items):
        if number in items and not item.needs <= items:
            return False
        if item.bound_to is not None and (number in items) != (item.bound_to in items):
            return False
    return True


def seconds_of(way: Way, items: frozenset[int]) -> int:
    """What a set of items takes: all spoken, the walk to the last stop, the opening and closing, and no words that move on at the last stop."""
    if not items:
        return 0
    last = max(way.items[i].stop for i in items)
    said = sum(way.items[i].seconds for i in items if not (way.items[i].kind == "move-on" and way.items[i].stop == last))
    return said + sum(way.walks[: last + 1]) + way.frame


def every_choice(way: Way) -> list[Choice]:
    """Every allowed set of items, by trying all subsets."""
    numbers = range(len(way.items))
    subsets = (frozenset(chosen) for size in range(len(numbers) + 1) for chosen in combinations(numbers, size))
    return [Choice(s, sum(way.items[i].worth for i in s), seconds_of(way, s)) for s in subsets if is_allowed(way, s)]


def best_of(found: list[Choice]) -> tuple[int, int]:
    return max((c.worth, -c.seconds) for c in found)


@settings(max_examples=60, deadline=None)
@given(ways(), st.integers(0, 90))
def test_no_other_choice_is_worth_more_or_as_much_in_less_time(way: Way, allows: int) -> None:
    """Brute force: every subset of up to a dozen parts."""
    found = choose(way, allows)
    assert found
    assert is_allowed(way, found.items)
    assert found.seconds == seconds_of(way, found.items) <= allows
    assert found.worth == sum(way.items[i].worth for i in found.items)
    assert (found.worth, -found.seconds) == best_of([c for c in every_choice(way) if c.seconds <= allows])


@settings(max_examples=60, deadline=None)
@given(ways(), st.integers(0, 60), st.data())
def test_nor_where_a_part_must_be_kept(way: Way, allows: int, data: st.DataObject) -> None:
    must = frozenset({data.draw(st.integers(0, len(way.items) - 1))})
    found = choose(way, allows, must)
    others = [c for c in every_choice(way) if c.seconds <= allows and must <= c.items]
    assert (found is None) == (not others)
    if found:
        assert must <= found.items
        assert is_allowed(way, found.items)
        assert (found.worth, -found.seconds) == best_of(others)


@settings(max_examples=60, deadline=None)
@given(ways(), st.integers(0, 60))
def test_more_time_is_never_worth_less(way: Way, allows: int) -> None:
    shorter, longer = choose(way, allows), choose(way, allows + 1)
    assert shorter
    assert longer
    assert shorter.worth <= longer.worth


@settings(max_examples=60, deadline=None)
@given(ways(), st.integers(0, 60))
def test_each_part_left_out_is_explained_once_and_truly(way: Way, allows: int) -> None:
    choice = choose(way, allows)
    assert choice
    explained = spared(way, choice, allows)
    assert len({s.item for s in explained}) == len(explained)
    assert not {s.item for s in explained} & choice.items
    for out in explained:
        item = way.items[out.item]
        plants = {n for n, i in enumerate(way.items) if i.stop == item.stop and i.kind == "recognise"}
        kept = plants if item.kind == "arrival" and plants else {out.item}  # a stop is kept for a plant, where it has one
        keeping = [c for c in every_choice(way) if c.seconds <= allows and kept & c.items]
        if out.misses:
            assert not out.misses & choice.items
        elif out.instead or out.is_draw:
            assert keeping
            assert max(c.worth for c in keeping) <= choice.worth
            assert out.is_draw == (max(c.worth for c in keeping) == choice.worth)
        else:
            assert not keeping
    stops_out = {item.stop for item in way.items} - set(choice.stops(way))
    assert {way.items[s.item].stop for s in explained} >= stops_out


@settings(max_examples=60, deadline=None)
@given(ways(), st.integers(1, 80))
def test_what_goes_next_is_what_the_best_choice_of_the_shorter_time_lacks(way: Way, allows: int) -> None:
    choice = choose(way, allows)
    assert choice
    after = next_out(way, choice, allows, less=5)
    assert after.allows <= max(0, allows - 5, choice.seconds - 1)
    assert after.choice.worth == best_of([c for c in every_choice(way) if c.seconds <= after.allows])[0]
    assert after.loses == choice.items - after.choice.items
    if choice.items and choice.seconds > after.allows:
        assert after.loses or after.gains


def walk() -> Way:
    """Three stops, a plant each; the third compares with the first."""
    items = (
        Item(0, "arrival", None, 10, 1),
        Item(0, "recognise", "a", 30, 10, frozenset({0})),
        Item(0, "care", "a", 20, 2, bound_to=1),
        Item(0, "move-on", None, 5, 0, bound_to=0),
        Item(1, "arrival", None, 10, 1),
        Item(1, "recognise", "b", 30, 10, frozenset({4})),
        Item(1, "name", "b", 40, 2, frozenset({5})),
        Item(1, "move-on", None, 5, 0, bound_to=4),
        Item(2, "arrival", None, 10, 1),
        Item(2, "recognise", "c", 30, 10, frozenset({8})),
        Item(2, "tell", "c", 25, 8, frozenset({9, 1})),
    )
    return Way(items, (0, 60, 60), frame=15)


def test_with_time_enough_nothing_is_left_out() -> None:
    way = walk()
    choice = choose(way, 1000)
    assert choice
    assert choice.items == frozenset(range(len(way.items)))
    assert spared(way, choice, 1000) == ()


def test_a_plant_takes_its_care_along() -> None:
    """10 to arrive, 30 to recognise, 20 of care, 15 to close: without the care it would fit into 60 seconds."""
    almost = choose(walk(), 74)
    assert almost
    assert almost.items == {0, 3}
    fits = choose(walk(), 75)
    assert fits
    assert fits.items == {0, 1, 2, 3}


def test_a_contrast_goes_when_the_plant_met_before_goes() -> None:
    way = walk()
    without_first = replace(way, items=tuple(replace(i, seconds=500) if i.kind == "recognise" and i.taxon == "a" else i for i in way.items))
    choice = choose(without_first, 300)
    assert choice
    assert 9 in choice.items
    assert 10 not in choice.items
    reasons = {s.item: s for s in spared(without_first, choice, 300)}
    assert reasons[10].misses == {1}
    assert reasons[1].instead == frozenset()  # it fits in no way
    assert not reasons[1].misses


def test_the_walk_past_a_stop_left_out_is_counted() -> None:
    """Stop 2 alone: 120 of walking, 10, 30 and 15 to close; the first stop's contrast is not to be had."""
    way = walk()
    dull = replace(way, items=tuple(replace(i, worth=0) if i.stop < 2 or i.kind == "arrival" else i for i in way.items))
    assert choose(dull, 174) == NOTHING
    alone = choose(dull, 175)
    assert alone
    assert alone.items == {8, 9}
    assert alone.seconds == 175


def test_every_kind_of_part_has_its_worth_and_telling_plants_has_most() -> None:
    assert set(WORTH) == set(PART_KINDS)
    assert sorted(WORTH, key=lambda kind: -WORTH[kind])[:2] == ["recognise", "tell"]
