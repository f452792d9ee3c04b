"""Shortest sets of signs: exact, against brute force."""

from __future__ import annotations

from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.making import states_trait, taxon, value, workspace

from twayblade.knowledge.occasion import Occasion
from twayblade.reasoning.signs import MOST_SETS, Sign, cheapest_covers, sign_sets
from twayblade.reasoning.spread import Context

TAXA = ["a", "b", "c", "d", "e"]
SIGNS = st.lists(st.tuples(st.sets(st.sampled_from(TAXA), min_size=1), st.integers(1, 9)), min_size=1, max_size=8).map(
    lambda given: [Sign(f"t{n}", Context(), frozenset(excluded), frozenset(), float(cost)) for n, (excluded, cost) in enumerate(given)]
)


@given(SIGNS)
@settings(max_examples=200)
def test_no_set_of_signs_is_cheaper_and_none_as_cheap_is_missing(signs: list[Sign]) -> None:
    wanted = frozenset().union(*(s.excludes for s in signs))
    covers = [c for size in range(1, len(signs) + 1) for c in combinations(signs, size) if wanted <= frozenset().union(*(s.excludes for s in c))]
    least = min(sum(s.cost for s in c) for c in covers)
    expected = {frozenset(s.trait for s in c) for c in covers if sum(s.cost for s in c) == least}
    found = cheapest_covers(signs, wanted)
    assert all(sum(s.cost for s in c) == least for c in found)
    names = {frozenset(s.trait for s in c) for c in found}
    assert names <= expected
    assert names == expected or len(found) == MOST_SETS


def test_what_nothing_excludes_is_told_with_what_would() -> None:
    mark = states_trait("plain", "spotted")
    fruit = states_trait("round", "long", stages=["ripe-fruit"])
    seasons = {"flower": "May - June", "ripe-fruit": "August"}
    made = workspace(
        {"mark": mark, "fruit": fruit},
        taxon("a", {"mark": value("mark", mark, "plain"), "fruit": value("fruit", fruit, "round")}, seasons=seasons),
        taxon("b", {"mark": value("mark", mark, "plain"), "fruit": value("fruit", fruit, "long")}, seasons=seasons),
        taxon("c", {"mark": value("mark", mark, "spotted"), "fruit": value("fruit", fruit, "long")}, seasons=seasons),
    )
    from datetime import date

    found = sign_sets(made, made.taxa["a"], Occasion(date(2026, 5, 20), taxa=("a", "b", "c")))
    assert [[s.trait for s in c] for c in found.sets] == [["mark"]]
    assert [(r.taxon, [trait for trait, _ in r.later]) for r in found.remaining] == [("b", ["fruit"])]
