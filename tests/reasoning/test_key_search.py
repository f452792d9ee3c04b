"""The key of least cost over plain signs, against a brute force, published bounds and a trap for greedy keys."""

from __future__ import annotations

import random
from functools import cache
from math import ceil, log2

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from twayblade.reasoning.keys import large
from twayblade.reasoning.keys.bound import huffman
from twayblade.reasoning.keys.large import best_key
from twayblade.reasoning.keys.measures import arrivals, length
from twayblade.reasoning.keys.objective import Objective, Sign, shortest
from twayblade.reasoning.keys.reader import wrong_turn
from twayblade.reasoning.keys.search import Plan, Search


def chance_by_hand(rates: list[float]) -> float:
    """One sign: its rate. Two: both wrong, or one wrong and the first wrong when looked at again. Three: two wrong at least."""
    if len(rates) == 1:
        return rates[0]
    a, b = rates[:2]
    if len(rates) == 2:
        return a * b + (a * (1 - b) + b * (1 - a)) * a
    c = rates[2]
    return a * b * (1 - c) + a * c * (1 - b) + b * c * (1 - a) + a * b * c


@pytest.mark.parametrize("rates", [[0.1], [0.05, 0.2], [0.1, 0.1], [0.05, 0.1, 0.2], [0.0, 0.3, 0.3]])
def test_a_reader_goes_with_the_majority_and_looks_again_where_two_disagree(rates: list[float]) -> None:
    assert wrong_turn(tuple(rates)) == pytest.approx(chance_by_hand(rates))


def by_brute_force(signs: list[Sign], o: Objective) -> float:
    """The least cost of any key, worked out with sets and without any bound. A couplet's later signs are those the rule names: in the order of
    difficulty, those of another organ first, as long as they make it cheaper."""

    def difficulty(sign: Sign) -> float:
        wrong = sum(a * b for a, b in zip(o.likely, o.wrong, strict=True)) / sum(o.likely)
        return o.length * sign.effort + sign.misread * wrong

    ranked = sorted(signs, key=difficulty)

    def leads_in(sign: Sign, taxa: frozenset[int]) -> list[frozenset[int]]:
        return [frozenset(t for t in taxa if lead >> t & 1) for lead in sign.leads]

    def couplet_cost(first: Sign, taxa: frozenset[int], leads: list[frozenset[int]]) -> float:
        weight = sum(o.likely[t] for t in taxa)
        wrong = sum(o.likely[t] * o.wrong[t] for t in taxa if not all(t in lead for lead in leads))
        quiet = any(first.silent >> t & 1 for t in taxa)
        effort, rates, chosen = first.effort + (o.not_showing if quiet else 0), [first.misread], [first]

        def fits(sign: Sign) -> bool:
            if any(sign.silent >> t & 1 for t in taxa) or sign.trait in {s.trait for s in chosen}:
                return False
            own = leads_in(sign, taxa)
            return (own[0] <= leads[0] and own[1] <= leads[1]) or (own[0] <= leads[1] and own[1] <= leads[0])

        while len(chosen) < o.most_signs:
            free = [s for s in ranked if fits(s)]
            organs = {s.organ for s in chosen}
            nexts = [s for s in free if s.organ not in organs] or free
            if not nexts:
                break
            more = effort + o.later * nexts[0].effort + (o.same_organ if nexts[0].organ in organs else 0)
            then = [*rates, nexts[0].misread]
            if o.length * weight * more + wrong * chance_by_hand(then) >= o.length * weight * effort + wrong * chance_by_hand(rates):
                break
            effort, rates = more, then
            chosen.append(nexts[0])
        return o.length * weight * effort + wrong * chance_by_hand(rates)

    @cache
    def least(taxa: frozenset[int], before: str) -> float:
        found = []
        for first in ranked:
            leads = leads_in(first, taxa)
            if all(lead and lead != taxa for lead in leads):
                again = o.again * o.length * sum(o.likely[t] for t in taxa) if first.trait == before else 0.0
                found.append(again + couplet_cost(first, taxa, leads) + sum(least(lead, first.trait) for lead in leads))
        return min(found, default=0.0)

    return least(frozenset(range(len(o.likely))), "")


@st.composite
def small_instances(draw: st.DrawFn) -> tuple[list[Sign], Objective]:
    count = draw(st.integers(2, 6))
    signs = []
    for number in range(draw(st.integers(1, 7))):
        goes = draw(st.lists(st.sampled_from([1, 1, 2, 2, 3]), min_size=count, max_size=count))
        leads = tuple(sum(1 << t for t, g in enumerate(goes) if g & side) for side in (1, 2))
        silent = draw(st.sampled_from([0, 0, 0, 1, 2]))
        # Efforts differ a little, so that no two signs are equally difficult and the order of the later ones is settled.
        effort = draw(st.sampled_from([1.0, 2.0, 3.0])) + number / 64
        signs.append(Sign(leads, f"trait {number // 2}", effort, draw(st.sampled_from([0.03, 0.1, 0.2])), draw(st.sampled_from("ab")), silent))
    likely = tuple(draw(st.lists(st.sampled_from([1.0, 2.0, 5.0]), min_size=count, max_size=count)))
    wrong = tuple(draw(st.lists(st.sampled_from([0.0, 5.0, 40.0]), min_size=count, max_size=count)))
    return signs, Objective(likely, wrong, most_signs=draw(st.integers(1, 3)), again=draw(st.sampled_from([0.0, 0.5, 3.0])))


@given(small_instances())
@settings(max_examples=400, deadline=None)
def test_the_cost_is_that_of_a_brute_force(instance: tuple[list[Sign], Objective]) -> None:
    signs, objective = instance
    plan = best_key(signs, objective)
    assert plan.cost == pytest.approx(by_brute_force(signs, objective))
    assert plan.is_optimal
    assert plan.gap == 0


@given(small_instances())
@settings(max_examples=150, deadline=None)
def test_the_lower_bound_never_lies_above_the_cost_of_any_set(instance: tuple[list[Sign], Objective]) -> None:
    signs, objective = instance
    search = Search(signs, objective)
    for taxa in range(1, 1 << len(objective.likely)):
        best = search.solve(taxa)
        assert best is not None
        assert search.least(taxa) <= best.cost + 1e-9


def total_cost(plan: Plan, signs: list[Sign], o: Objective) -> float:
    """The cost of a plan summed by hand, couplet by couplet, from its root."""

    def below(node: tuple[int, int], before: str) -> float:
        if node not in plan.couplets:
            return 0.0
        division, nodes = plan.couplets[node]
        trait = signs[division.signs[0]].trait
        taxa = [t for t in range(len(o.likely)) if node[0] >> t & 1]
        exposed = [t for t in taxa if not all(lead >> t & 1 for lead in division.leads)]
        weight = o.length * sum(o.likely[t] for t in taxa)
        own = weight * (division.effort + (o.again if trait == before else 0)) + division.chance * sum(o.likely[t] * o.wrong[t] for t in exposed)
        return own + sum(below(n, trait) for n in nodes)

    return below(plan.root, "")


def random_signs(count: int, questions: int, seed: int, variable: float = 0.1) -> list[Sign]:
    chance = random.Random(seed)
    signs = []
    for number in range(questions):
        goes = [3 if chance.random() < variable else chance.choice([1, 2]) for _ in range(count)]
        leads = tuple(sum(1 << t for t, g in enumerate(goes) if g & side) for side in (1, 2))
        signs.append(Sign(leads, f"trait {number}", chance.choice([1.0, 2.0]), chance.choice([0.05, 0.1]), chance.choice("abc")))
    return signs


@pytest.mark.parametrize("count", [9, 12])
def test_the_bounded_search_never_beats_the_proven_one_and_tells_its_gap_truly(count: int, monkeypatch: pytest.MonkeyPatch) -> None:
    signs = random_signs(count, 24, seed=count)
    objective = Objective((1.0,) * count, tuple(100.0 if t % 3 else 20.0 for t in range(count)))
    best = best_key(signs, objective)
    assert best.cost == pytest.approx(total_cost(best, signs, objective))
    monkeypatch.setattr(large, "TRIED_UP_TO", 0)
    bounded = best_key(signs, objective)
    assert bounded.cost == pytest.approx(total_cost(bounded, signs, objective))
    assert bounded.at_least <= best.cost + 1e-9 <= bounded.cost + 2e-9
    assert bounded.cost * (1 - bounded.gap) <= best.cost + 1e-9


@pytest.mark.parametrize("count", [100, 300])
def test_a_large_key_is_made_the_same_way_twice_and_divides_all(count: int) -> None:
    signs = random_signs(count, 60, seed=5, variable=0.0)
    objective = Objective((1.0,) * count, (20.0,) * count)
    one, two = (best_key(signs, objective, most_steps=500) for _ in range(2))
    assert one == two
    assert len(one.couplets) == count - 1
    assert 0 < one.gap < 1
    assert one.cost == pytest.approx(total_cost(one, signs, objective))


# Theory of strict keys in which each taxon stands once: couplets n - 1; least total way n*k + 2*(n - 2**k), k the whole part of log2 n;
# the longest way at least log2 n. For n = 3, 4, 5, 6, 7, 8, 10, 12, 16 the least totals are:
LEAST_TOTALS = {3: 5, 4: 8, 5: 12, 6: 16, 7: 20, 8: 24, 10: 34, 12: 44, 16: 64}


def every_split(count: int) -> list[Sign]:
    """Signs by the digits of a taxon's place, and by thresholds: enough for a balanced key."""
    thresholds = [(1 << n) - 1 for n in range(1, count)]
    everything = (1 << count) - 1
    return [Sign((low, everything & ~low), f"up to {n}") for n, low in enumerate(thresholds)]


@pytest.mark.parametrize(("count", "total"), LEAST_TOTALS.items())
def test_keys_of_taxa_that_stand_once_keep_the_bounds_of_theory(count: int, total: int) -> None:
    plan = best_key(every_split(count), shortest(count))
    measured = length(plan, shortest(count))
    assert plan.cost == total == huffman([1.0] * count)
    assert len(plan.couplets) == count - 1
    assert measured.longest >= ceil(log2(count))
    assert measured.mean == pytest.approx(total / count)
    assert measured.entropy == pytest.approx(log2(count))
    assert measured.entropy <= measured.mean + 1e-9


def test_a_key_that_can_only_take_one_taxon_off_at_a_time_is_a_caterpillar() -> None:
    """Its total way is (n - 1)(n + 2) / 2."""
    count, everything = 9, (1 << 9) - 1
    signs = [Sign((1 << t, everything & ~(1 << t)), f"taxon {t}") for t in range(count)]
    assert best_key(signs, shortest(count)).cost == (count - 1) * (count + 2) / 2


# Huffman 1952 and Cormen, Leiserson, Rivest & Stein, Introduction to Algorithms (224/100).
@pytest.mark.parametrize(
    ("shares", "mean", "bits"),
    [((0.4, 0.2, 0.2, 0.1, 0.1), 2.2, 2.1219), ((0.5, 0.25, 0.125, 0.125), 1.75, 1.75), ((0.45, 0.13, 0.12, 0.16, 0.09, 0.05), 2.24, 2.2199)],
)
def test_common_taxa_stand_near_the_start_where_every_split_may_be_asked(shares: tuple[float, ...], mean: float, bits: float) -> None:
    count = len(shares)
    signs = [Sign((side, ((1 << count) - 1) & ~side), f"split {side}") for side in range(1, 1 << (count - 1))]
    objective = Objective(shares, (0.0,) * count, most_signs=1, again=0.0)
    plan = best_key(signs, objective)
    assert plan.cost == pytest.approx(mean)
    assert length(plan, objective).entropy == pytest.approx(bits, abs=1e-4)


def test_the_trap_for_greedy_keys_is_solved_at_25() -> None:
    """Eight taxa by five characters, by exhaustive search 25 couplets in all; dividing as evenly as can be at each step gives 26."""
    rows = ["00000", "00010", "01001", "11101", "00001", "01101", "01111", "10000"]
    signs = [Sign(tuple(sum(1 << t for t, row in enumerate(rows) if row[c] == state) for state in "01"), f"character {c}") for c in range(5)]
    assert best_key(signs, shortest(8)).cost == 25


def test_taxa_that_no_sign_tells_apart_end_together_without_a_couplet() -> None:
    plan = best_key([Sign((0b111, 0b111), "same")], shortest(3))
    assert plan.couplets == {}
    assert plan.cost == 0


def test_simulated_readers_miss_as_often_as_the_model_says() -> None:
    """One couplet, one sign of 20 %: a share of 0.2 within three standard errors; the same seed gives the same walks."""
    signs = [Sign((1, 2), "mark", misread=0.2)]
    objective = Objective((1.0, 1.0), (10.0, 10.0))
    plan = best_key(signs, objective)
    once, twice = (arrivals(plan, signs, objective, 0b01, seed=3, walks=4000) for _ in range(2))
    assert once == twice
    assert once.wrong == pytest.approx(0.2, abs=0.014)
    assert once.harmful_wrong == pytest.approx(0.2, abs=0.02)
    assert once.steps == 1


def test_a_plant_that_shows_both_states_goes_both_ways_at_full_cost_and_cannot_turn_wrong() -> None:
    """By hand: three taxa at the couplet, of which the outer two can turn wrong; then two taxa, both at risk. Or at once, all three at risk."""
    signs = [Sign((0b011, 0b110), "mark", misread=0.2), Sign((0b001, 0b110), "low", misread=0.4)]
    objective = Objective((1.0, 1.0, 1.0), (10.0,) * 3, most_signs=1, again=0.0)
    assert best_key(signs[:1], objective).cost == pytest.approx(3 * 1 + 2 * 10 * 0.2)
    assert best_key(signs, objective).cost == pytest.approx(min((3 + 4) + (2 + 2 * 10 * 0.4), 3 + 3 * 10 * 0.4)), "taxa 1 and 2 stay together"
