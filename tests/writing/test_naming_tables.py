"""What the page for an unknown plant looks up says the same as the reasoning, in whole sentences, and asks nobody to lay a hand on a plant."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Any

import pytest
from tests.making import number_trait, states_trait

from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.lookalikes import look_alikes
from twayblade.reasoning.naming import Answer, Naming, pairs
from twayblade.reasoning.scope import nameable
from twayblade.reasoning.spread import Context
from twayblade.writing.drawings import Drawings
from twayblade.writing.key_ends_words import AGAIN
from twayblade.writing.naming_tables import answer_words, look_id, question_words, what_words, write_naming

Written = tuple[Naming, dict[str, Any]]


@pytest.fixture(scope="module")
def written(demo_workspace: Workspace) -> Written:
    trail = demo_workspace.trails["demo_trail"].trail
    taxa, _ = nameable(demo_workspace, trail.region)
    occasion = Occasion(None, frozenset(trail.means), trail.region, taxa)
    made = write_naming(demo_workspace, occasion, look_alikes(demo_workspace), Drawings(demo_workspace, trail.region))
    return made.naming, made.tables


def test_the_tables_are_those_of_the_reasoning(written: Written) -> None:
    naming, tables = written
    taxa = range(len(naming.taxa))

    def days(place: int) -> int:
        runs = tables["days"][place]
        found = 0
        for first, last in zip(runs[::2], runs[1::2], strict=True):
            for day in range(366):
                found |= (first <= day <= last if first <= last else day >= first or day <= last) << day
        return found

    assert [taxon[0] for taxon in tables["taxa"]] == list(naming.taxa)
    assert [days(place) for place in tables["present"]] == list(naming.present)
    assert len(tables["looks"]) == len(naming.looks)
    for look, table in zip(naming.looks, tables["looks"], strict=True):
        assert [[int(digit, 36) for digit in row] for row in table["against"]] == [list(row) for row in look.against]
        assert [int(digit, 36) for digit in table["worth"]] == list(look.worth)
        assert len(look.worth) == len(pairs(len(naming.taxa)))
        assert [days(place) for place in table["shown"]] == list(look.shown)
        assert [[digit != "0" for digit in row] for row in table["own"]] == [[bool(own >> n & 1) for n in taxa] for own in look.own]
        assert [[digit == "2" for digit in row] for row in table["own"]] == [[bool(seldom >> n & 1) for n in taxa] for seldom in look.seldom]


def test_every_look_and_answer_has_a_name_of_its_own_for_the_address(written: Written) -> None:
    naming, tables = written
    ids = [look_id(look) for look in naming.looks]
    assert len(set(ids)) == len(ids)
    for table in tables["looks"]:
        answers = [answer[0] for answer in table["answers"]]
        assert len(set(answers)) == len(answers) > 1
        assert not {"unsure", "none"} & set(answers)
        assert all(re.fullmatch(r"[\w.@-]+", name) for name in (table["id"], *answers)), "they stand in an address as they are"


def test_an_answer_finishes_the_sentence_that_the_question_begins() -> None:
    stem = states_trait("smooth", "furrowed", subject="the stem", parts={"lower-stem": "the lower stem"})
    assert question_words(stem, Context("lower-stem")) == "Look at the lower stem: it is …"
    assert what_words(stem, Context("lower-stem")) == "mark (the lower stem)"
    assert answer_words(stem, Answer("furrowed", "furrowed")) == "furrowed"
    leaves = states_trait("in-pairs", subject="the leaves", verb="stand")
    assert question_words(leaves, Context()) == "Look at the leaves: they stand …"


@pytest.mark.parametrize(
    ("low", "high", "words"), [("0", "0", "no spots"), ("0", "1", "at most 1 spot"), ("1", "3", "1–3 spots"), ("4", None, "4 or more spots")]
)
def test_a_span_of_a_count_is_said_whole(low: str, high: str | None, words: str) -> None:
    answer = Answer("", None, (Decimal(low), Decimal(high) if high else None))
    assert answer_words(number_trait("count"), answer) == words


@pytest.mark.parametrize(
    ("low", "high", "words"), [(None, "3.5", "up to 3.5 mm long"), ("3.5", "8", "3.5–8 mm long"), ("8", None, "more than 8 mm long")]
)
def test_a_span_of_a_measure_says_on_which_side_it_is_open(low: str | None, high: str | None, words: str) -> None:
    answer = Answer("", None, (Decimal(low) if low else None, Decimal(high) if high else None))
    assert answer_words(number_trait(), answer) == words


def test_no_question_asks_for_a_hand_on_a_plant(written: Written) -> None:
    """The means that a key may never ask for, as words: smell, taste, touch, cut, dig, crush, pick."""
    _, tables = written
    said = " ".join(f"{look['ask']} {look['help']}" for look in tables["looks"]).lower()
    assert not re.search(r"\b(smell|taste|touch|cut (?:it|the stem)|dig|crush|pick|break|rub|squeeze)\b", said)


def test_what_contradicts_a_name_is_one_sentence_also_when_it_is_looked_at_again(written: Written) -> None:
    _, tables = written
    for name, doubts in zip(tables["taxa"], tables["doubts"], strict=True):
        assert doubts, f"something contradicts {name[1]}"
        for before, after, *_ in doubts:
            for text in (before + after, before + AGAIN + after):
                assert re.fullmatch(r"Not [^.]+ if .+ .+\.", text), text


def test_every_harmful_plant_has_its_care_and_what_tells_it_from_each_other(demo_workspace: Workspace, written: Written) -> None:
    naming, tables = written
    harmful = {n for n, id_ in enumerate(naming.taxa) if demo_workspace.taxa[id_].hazard_class.is_harmful}
    assert set(tables["deadliest"]) == harmful
    assert demo_workspace.taxa[naming.taxa[tables["deadliest"][0]]].hazard_class == "deadly"
    for place in harmful:
        assert tables["taxa"][place][4]
        assert tables["taxa"][place][5]
    for a, b in pairs(len(naming.taxa)):
        if {a, b} & harmful:
            assert tables["partings"][f"{a}-{b}"], (naming.taxa[a], naming.taxa[b])
