"""The table of relations, row by row, as the design states it."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.making import disputed, number_trait, states_trait, taxon, value, workspace

from twayblade.reasoning.compare import Settling, differences, directions
from twayblade.reasoning.relation import Relation

MARK = states_trait("plain", "spotted", "striped", "blotched")
RELIEF = states_trait("smooth", "ribbed", "ridged", "furrowed", kind="ordered")
TOOTH = states_trait("entire", "toothed", "fine", "coarse")
TOOTH = TOOTH.model_copy(
    update={"states": {n: s.model_copy(update={"kind_of": "toothed"}) if n in ("fine", "coarse") else s for n, s in TOOTH.states.items()}}
)
SIZE, SPOTS = number_trait(), number_trait("count")
TRAITS = {"mark": MARK, "relief": RELIEF, "tooth": TOOTH, "size": SIZE, "spots": SPOTS}


def relation(trait: str, a: str, b: str) -> Relation:
    made = workspace(TRAITS, taxon("a", {trait: value(trait, TRAITS[trait], a)}), taxon("b", {trait: value(trait, TRAITS[trait], b)}))
    (found,) = differences(made, made.taxa["a"], made.taxa["b"], trait)
    return found.relation


@pytest.mark.parametrize(
    ("trait", "a", "b", "expected"),
    [
        ("mark", "plain", "spotted", "separate"),
        ("mark", "usually plain, rarely striped", "spotted", "separate"),
        ("mark", "usually plain", "spotted", "usually-separate"),
        ("mark", "plain", "usually spotted", "usually-separate"),
        ("mark", "usually plain, rarely spotted", "spotted", "usually-separate"),
        ("mark", "usually plain", "usually spotted", "tendency"),
        ("mark", "usually plain, sometimes spotted", "usually spotted, sometimes plain", "tendency"),
        ("mark", "usually plain, sometimes spotted", "usually spotted, rarely plain", "usually-separate"),
        ("mark", "plain or spotted", "spotted or striped", "overlap"),
        ("mark", "plain", "plain or spotted", "nested"),
        ("mark", "plain", "usually plain, rarely spotted", "same"),
        ("relief", "smooth to ribbed", "ridged to furrowed", "separate"),
        ("relief", "smooth to ridged", "ridged to furrowed", "overlap"),
        ("tooth", "fine", "coarse", "separate"),
        ("tooth", "fine", "toothed", "nested"),
        ("tooth", "entire", "toothed", "separate"),
        ("size", "2.5-4 mm", "4-8 mm", "overlap"),
        ("size", "2.5-4 mm", "4.1-8 mm", "separate"),
        ("size", "2.5-4 mm", "0.5-1 cm", "separate"),
        ("size", "2-4(-6) mm", "5-8 mm", "usually-separate"),
        ("size", "2-4(-6) mm", "(3-)5-8 mm", "tendency"),
        ("size", "-20(-?) mm", "50-100 mm", "usually-separate"),
        ("size", "5-9 mm", "5-9 mm", "same"),
        ("size", "5-9 mm", "6-7 mm", "nested"),
        ("spots", "0-2", "3-6", "separate"),
        ("spots", "0-2", "2-6", "overlap"),
        ("spots", "0(-2)", "(2-)4-12", "usually-separate"),
        ("spots", "3-?", "0", "separate"),
    ],
)
def test_each_row_of_the_table(trait: str, a: str, b: str, expected: str) -> None:
    assert relation(trait, a, b) == expected
    assert relation(trait, b, a) == expected


def test_a_side_without_a_value_is_unknown() -> None:
    made = workspace(TRAITS, taxon("a", {"mark": value("mark", MARK, "plain")}), taxon("b", {}))
    assert [d.relation for d in differences(made, made.taxa["a"], made.taxa["b"], "mark")] == [Relation.UNKNOWN]


def test_only_like_parts_compare() -> None:
    stem = states_trait("bare", "hairy", parts={"lower": "the lower stem", "upper": "the upper stem"})
    low = {"is": "hairy", "part": "lower"}
    made = workspace(
        {"hairs": stem},
        taxon("a", {"hairs": value("hairs", stem, low, {"is": "bare", "part": "upper"})}),
        taxon("b", {"hairs": value("hairs", stem, "bare")}),
        taxon("c", {"hairs": value("hairs", stem, {"is": "bare", "part": "upper"})}),
        taxon("d", {"hairs": value("hairs", stem, low)}),
    )
    found = {d.at.part: d.relation for d in differences(made, made.taxa["a"], made.taxa["b"], "hairs")}
    assert found == {"lower": Relation.SEPARATE, "upper": Relation.SAME}
    assert [d.relation for d in differences(made, made.taxa["c"], made.taxa["d"], "hairs")] == [Relation.NOT_COMPARABLE]


def test_the_shape_of_an_absent_organ_is_not_comparable() -> None:
    shape = states_trait("forked", "whole", needs="spots")
    made = workspace(
        {"spots": SPOTS, "shape": shape},
        taxon("a", {"spots": value("spots", SPOTS, "0"), "shape": value("shape", shape, "whole")}),
        taxon("b", {"spots": value("spots", SPOTS, "3-6"), "shape": value("shape", shape, "forked")}),
    )
    assert [d.relation for d in differences(made, made.taxa["a"], made.taxa["b"], "shape")] == [Relation.NOT_COMPARABLE]


def test_a_disagreement_counts_only_if_the_contrast_hangs_on_it() -> None:
    good = disputed("mark", MARK, "spotted", "striped")
    mixed = disputed("mark", MARK, "spotted", "plain")
    doubted = disputed("mark", MARK, "spotted", {"is": "plain", "doubted": "one old text"})
    made = workspace(
        TRAITS,
        taxon("plain", {"mark": value("mark", MARK, "plain")}),
        *(taxon(n, {"mark": v}) for n, v in [("good", good), ("mixed", mixed), ("doubted", doubted)]),
    )

    def found(name: str) -> tuple[str, bool]:
        (d,) = differences(made, made.taxa["plain"], made.taxa[name], "mark")
        return d.relation.value, d.disputed

    assert found("good") == ("separate", False)
    assert found("mixed")[1] is True
    assert found("doubted") == ("usually-separate", False)


def test_a_form_weighs_no_more_than_its_frequency() -> None:
    pale = {"is": "plain", "form": "pale"}
    forms = {"pale": {"name": "pale form", "frequency": "rarely"}}
    a = taxon("a", {"mark": value("mark", MARK, "spotted", pale)}, forms=forms)
    made = workspace(TRAITS, a, taxon("b", {"mark": value("mark", MARK, "plain")}))
    (found,) = differences(made, made.taxa["a"], made.taxa["b"], "mark")
    assert found.relation is Relation.USUALLY_SEPARATE


def test_a_sign_may_settle_one_way_only() -> None:
    """A dark flower in the middle confirms wild carrot; its absence proves nothing (Goulson et al. 2009, by way of the facts)."""
    dark = states_trait("dark", "none")
    made = workspace(
        {"dark": dark}, taxon("carrot", {"dark": value("dark", dark, "often dark")}), taxon("other", {"dark": value("dark", dark, "none")})
    )
    (d,) = differences(made, made.taxa["carrot"], made.taxa["other"], "dark")
    said = {(x.taxon, x.state): x.settles for x in directions(made, d)}
    assert said["carrot", "dark"] is Settling.SETTLES
    assert said["carrot", "none"] is Settling.OPEN
    assert said["other", "none"] is Settling.OPEN


STATE_VALUES = st.sampled_from(
    [
        "plain",
        "spotted",
        "striped",
        "usually plain",
        "usually spotted, rarely plain",
        "usually plain, sometimes striped",
        "plain or spotted",
        "usually striped, sometimes blotched",
    ]
)


@given(STATE_VALUES, STATE_VALUES)
def test_relations_are_symmetric(a: str, b: str) -> None:
    assert relation("mark", a, b) == relation("mark", b, a)


@given(st.sampled_from(["usually plain, sometimes spotted", "usually spotted, sometimes plain", "usually plain, sometimes striped"]), STATE_VALUES)
def test_adding_a_rare_state_never_strengthens(a: str, b: str) -> None:
    before, after = relation("mark", a, b), relation("mark", f"{a}, rarely blotched", b)
    assert after.rank >= before.rank or not before.is_contrast


TENTHS = st.integers(0, 500).map(lambda n: Decimal(n) / 10)


@given(TENTHS, TENTHS, TENTHS, TENTHS)
def test_a_change_of_unit_changes_nothing(low: Decimal, more: Decimal, other_low: Decimal, other_more: Decimal) -> None:
    other = f"{other_low}-{other_low + other_more} mm"
    in_mm, in_cm = f"{low}-{low + more} mm", f"{low / 10}-{(low + more) / 10} cm"
    assert relation("size", in_mm, other) == relation("size", in_cm, other)


def test_what_is_said_of_a_part_goes_before_what_is_said_in_general() -> None:
    wing = states_trait("spots", "no-spots", parts={"front": "the front half", "back": "the back half"})
    mostly = value("wing", wing, "spots", {"is": "no-spots", "part": "front"})
    made = workspace({"wing": wing}, taxon("a", {"wing": mostly}), taxon("b", {"wing": value("wing", wing, "no-spots")}))
    found = {d.at.part: d.relation for d in differences(made, made.taxa["a"], made.taxa["b"], "wing")}
    assert found == {"front": Relation.SAME, None: Relation.SEPARATE}


def test_the_shape_of_an_organ_that_may_be_absent_tells_only_usually() -> None:
    shape = states_trait("curved", "straight", needs="spots")
    made = workspace(
        {"spots": SPOTS, "shape": shape},
        taxon("a", {"spots": value("spots", SPOTS, "0(-2)"), "shape": value("shape", shape, "curved")}),
        taxon("b", {"spots": value("spots", SPOTS, "1"), "shape": value("shape", shape, "straight")}),
    )
    assert [d.relation for d in differences(made, made.taxa["a"], made.taxa["b"], "shape")] == [Relation.USUALLY_SEPARATE]


def test_never_alone_is_no_difference() -> None:
    assert relation("mark", "never spotted", "never spotted") == "same"
    assert relation("mark", "never spotted", "spotted") == "separate"
    assert not relation("mark", "never spotted", "plain").is_contrast
