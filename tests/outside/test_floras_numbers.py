"""Numbers and frequency as floras write them: the guide for authors of the Flora of China, section 11, and the Flora of Nepal's on measurements."""

from __future__ import annotations

import re
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.making import number_trait, states_trait, taxon, value, workspace

from twayblade.knowledge.claim import Told
from twayblade.knowledge.numbers import looks_like_range, parse_range
from twayblade.knowledge.values import Entry, statements_of
from twayblade.reasoning.claims import Verdict
from twayblade.reasoning.judging import judge_claim
from twayblade.reasoning.spread import Context, spreads

NUMBER = r"\d+(?:\.\d+)?"
GRAMMAR = re.compile(rf"(?:\((?P<min>{NUMBER})[-–]\))?(?P<low>{NUMBER})(?:[-–](?P<high>{NUMBER}))?(?:\([-–](?P<max>{NUMBER})\))?")
"""`(min–)low–high(–max)`: the notation of the guide, written down once more and without the code under test."""

FIGURES = st.integers(0, 12)


def _written(least: int | None, low: int, high: int | None, most: int | None, dash: str) -> str:
    before = "" if least is None else f"({least}{dash})"
    after = "" if most is None else f"({dash}{most})"
    return before + str(low) + ("" if high is None else f"{dash}{high}") + after


@given(st.none() | FIGURES, FIGURES, st.none() | FIGURES, st.none() | FIGURES, st.sampled_from("-–"))
def test_every_range_of_the_grammar_is_read_as_it_is_meant_or_refused(
    least: int | None, low: int, high: int | None, most: int | None, dash: str
) -> None:
    """Refused are a high end below the low one, and extremes that do not lie beyond the usual ends."""
    text = _written(least, low, high, most, dash)
    match = GRAMMAR.fullmatch(text)
    assert match
    top = low if high is None else high
    if top < low or (least is not None and least >= low) or (most is not None and most <= top):
        with pytest.raises(ValueError, match=re.escape(text)):
            parse_range(text)
        return
    read = parse_range(text)
    expected = (match["min"] or match["low"], match["low"], match["high"] or match["low"], match["max"] or match["high"] or match["low"])
    assert (read.outer_low, read.low, read.high, read.outer_high) == tuple(map(Decimal, expected))


def test_five_or_ten_is_two_numbers_and_nothing_between() -> None:
    """Flora of China guide, section 11: `5 or 10` for states that do not run into one another."""
    trait = number_trait("count")
    made = workspace({"spots": trait}, taxon("a", {"spots": value("spots", trait, "5 or 10")}))
    (spread,) = spreads(made, made.taxa["a"], made.taxa["a"].values["spots"], Context(), None)
    assert [(i.low, i.high) for i in spread.all.in_order()] == [(5, 5), (10, 10)]  # type: ignore[union-attr]


@pytest.mark.parametrize("text", ["5(or 10)", "(3 or)4", "1.5–2 × 0.5–1 mm", "5 dm"])
def test_what_the_guide_writes_and_we_do_not_read_is_refused_not_misread(text: str) -> None:
    """Section 11: exceptional numbers after `or` in parentheses, length and width in one figure, decimetres (which it forbids as well)."""
    trait = number_trait("measure" if "m" in text else "count")
    assert looks_like_range(text)
    with pytest.raises(ValueError, match="`"):
        statements_of(Entry.model_validate(text), trait)


def test_words_never_stand_in_parentheses() -> None:
    """Section 11: `lanceolate to rarely ovate`, never `lanceolate (to ovate)`; here `lanceolate, rarely ovate`."""
    trait = states_trait("lanceolate", "ovate", kind="ordered")
    with pytest.raises(ValueError, match="no state"):
        statements_of(Entry.model_validate("lanceolate (to ovate)"), trait)
    assert [s.frequency.word for s in statements_of(Entry.model_validate("lanceolate, rarely ovate"), trait)] == ["usually", "rarely"]


@pytest.mark.parametrize(
    ("first", "second", "plain", "hedged"),
    [
        ("3-5 mm", "6-9 mm", Verdict.HOLDS, Verdict.HOLDS_USUALLY),
        ("3-5(-7) mm", "6-9 mm", Verdict.OVERSTATED, Verdict.HOLDS_USUALLY),
        ("3-6 mm", "5-9 mm", Verdict.DOES_NOT_SEPARATE, Verdict.DOES_NOT_SEPARATE),
        ("3-5 mm", "5-9 mm", Verdict.DOES_NOT_SEPARATE, Verdict.DOES_NOT_SEPARATE),
    ],
)
def test_usual_figures_carry_usually_and_extremes_carry_always(first: str, second: str, plain: Verdict, hedged: Verdict) -> None:
    """What a flora's parentheses mean (Flora of China guide, sections 6.4 and 11): usual ranges that meet tell nothing apart, and where
    only the extremes meet, the contrast holds usually."""
    trait = number_trait()
    made = workspace({"size": trait}, taxon("a", {"size": value("size", trait, first)}), taxon("b", {"size": value("size", trait, second)}))
    assert judge_claim(made, Told("a", "b", "size")) is plain
    assert judge_claim(made, Told("a", "b", "size", how="usually")) is hedged


def test_frequency_words_stand_in_the_order_of_usage() -> None:
    """always > usually > sometimes > rarely > never, the order in which floras use them; no standard gives percentages, and none are made up here."""
    trait = states_trait("x", "y", "z")
    said = statements_of(Entry.model_validate("usually x, sometimes y, rarely z"), trait)
    assert sorted(said, key=lambda s: s.frequency, reverse=True) == list(said)
