"""The notation of values: frequency words, options, orders, and what is left open."""

from __future__ import annotations

import pytest
from tests.making import number_trait, states_trait

from twayblade.knowledge.frequency import Frequency
from twayblade.knowledge.values import Entry, UnknownState, statements_of

MARK = states_trait("plain", "spotted", "striped")
PAIR = states_trait("plain", "spotted")
RELIEF = states_trait("smooth", "ribbed", "ridged", "furrowed", kind="ordered")
SPOTS = number_trait("count")


def said(text: str, trait=MARK) -> dict[frozenset[str], str]:  # type: ignore[no-untyped-def]
    return {s.states: s.frequency.word for s in statements_of(Entry.model_validate(text), trait)}


def test_a_state_without_a_word_is_always() -> None:
    assert said("spotted [KEY]") == {frozenset({"spotted"}): "always"}


def test_a_state_without_a_word_beside_others_is_usual() -> None:
    assert said("plain, rarely spotted") == {frozenset({"plain"}): "usually", frozenset({"spotted"}): "rarely"}


def test_options_share_their_word() -> None:
    assert said("usually plain or spotted, rarely striped") == {frozenset({"plain", "spotted"}): "usually", frozenset({"striped"}): "rarely"}
    assert said("plain or spotted") == said("plain, spotted") == {frozenset({"plain", "spotted"}): "always"}


def test_often_makes_both_states_of_two_sometimes() -> None:
    assert said("often spotted", PAIR) == {frozenset({"spotted"}): "sometimes", frozenset({"plain"}): "sometimes"}


def test_a_lone_rare_state_makes_the_other_of_two_usual() -> None:
    assert said("rarely spotted", PAIR) == {frozenset({"spotted"}): "rarely", frozenset({"plain"}): "usually"}


def test_a_lone_rare_state_of_three_is_incomplete() -> None:
    with pytest.raises(ValueError, match="does not say what the other plants are"):
        said("rarely spotted")


def test_a_span_names_all_states_between() -> None:
    assert said("smooth to ridged", RELIEF) == {frozenset({"smooth", "ribbed", "ridged"}): "always"}
    with pytest.raises(ValueError, match="backwards"):
        said("ridged to smooth", RELIEF)
    with pytest.raises(ValueError, match="no order"):
        said("plain to striped")


def test_sources_stand_in_brackets_at_the_end() -> None:
    entry = Entry.model_validate("usually plain [AB-1 CD]")
    assert (entry.is_, entry.source) == ("usually plain", ("AB-1", "CD"))


@pytest.mark.parametrize("text", ["always plain, rarely spotted", "plain, usually plain", "usually", "plain or", ",", "5-7 mm"])
def test_contradictions_and_fragments_are_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"\w"):
        said(text)


def test_an_unknown_state_names_what_there_is() -> None:
    with pytest.raises(UnknownState) as caught:
        said("usually spoted")
    assert "spotted" in caught.value.known


def test_a_count_is_whole() -> None:
    with pytest.raises(ValueError, match="whole number"):
        statements_of(Entry.model_validate("1.5-3"), SPOTS)
    with pytest.raises(ValueError, match="goes with states"):
        statements_of(Entry.model_validate("never 3"), SPOTS)


def test_frequencies_are_an_order() -> None:
    assert sorted(Frequency) == [Frequency.NEVER, Frequency.RARELY, Frequency.SOMETIMES, Frequency.USUALLY, Frequency.ALWAYS]
