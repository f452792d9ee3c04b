"""A walk explains each term of the glossary once, when it is first used, and takes the time for it."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from twayblade.knowledge.library import Term
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.terms import Terms
from twayblade.writing.explaining import explanation
from twayblade.writing.script import write_script
from twayblade.writing.text_checks import check_scripts

Shapes = dict[date, dict[str, Any]]


@pytest.mark.parametrize(
    ("term", "definition", "said"),
    [
        ("ray", "One of the spokes of an umbel.", "A ray is one of the spokes of an umbel."),
        ("umbel", "A cluster of flowers.", "An umbel is a cluster of flowers."),
        ("downy", "Covered with fine hairs.", "Downy means covered with fine hairs."),
        ("key", "DNA in a list.", "Key means DNA in a list."),
    ],
)
def test_things_are_and_qualities_mean(term: str, definition: str, said: str) -> None:
    assert explanation(Term(term=term, definition=definition)) == said


def test_the_authors_own_sentence_goes_before() -> None:
    assert explanation(Term(term="ray", definition="One of the spokes.", say="by rays we mean the spokes")) == "By rays we mean the spokes."


def test_every_term_is_explained_before_its_first_use_and_not_again(demo_scripts: Shapes, demo_workspace: Workspace) -> None:
    terms, glossary = Terms(demo_workspace.glossary), demo_workspace.glossary
    introduced = {"umbellifer"}  # by the spoken paragraph on the group
    for script in demo_scripts.values():
        parts = [part["text"] for stop in script["stops"] for part in stop["parts"]]
        whole = " ".join(parts)
        first: dict[str, int] = {}
        for number, text in enumerate(parts):
            for id_ in terms.used(text):
                first.setdefault(id_, number)
        assert len(first) > 6
        for id_, number in first.items():
            said = explanation(glossary[id_])
            assert whole.count(said) <= 1
            first_use = next(start for used, start in terms.places(parts[number]) if used == id_)
            is_explained = said in parts[number] and parts[number].index(said) <= first_use
            assert id_ in introduced or is_explained or id_ in terms.explained(parts[number]), (id_, parts[number])


def test_explaining_takes_its_time(demo_workspace: Workspace) -> None:
    planned = demo_workspace.trails["demo_trail"]
    silent = replace(demo_workspace, glossary={id_: t.model_copy(update={"everyday": True}) for id_, t in demo_workspace.glossary.items()})
    with_terms, without = (write_script(made, planned, planned.trail.chief_date) for made in (demo_workspace, silent))
    words = [len(re.findall(r"\w+", " ".join(p.text for s in script.stops for p in s.parts))) for script in (with_terms, without)]
    assert with_terms.seconds - without.seconds == pytest.approx((words[0] - words[1]) / 2, rel=0.15)  # 120 words a minute


def test_the_authors_words_are_not_added_to_but_warned_of(demo_workspace: Workspace) -> None:
    planned = demo_workspace.trails["demo_trail"]
    stop = planned.trail.stops[0]
    own = stop.words["opening"].model_copy(update={"written": "Look at the bracteoles."})
    stops = (stop.model_copy(update={"words": {"opening": own}}), *planned.trail.stops[1:])
    told = replace(planned, trail=planned.trail.model_copy(update={"stops": stops}))
    found = check_scripts(replace(demo_workspace, trails={"demo_trail": told}))
    assert [(f.rule, f.spot.path) for f in found] == [("term-unexplained", ("stops", 0, "words", "opening"))]
    assert "`bracteole`" in found[0].message
    opening = write_script(demo_workspace, told, planned.trail.chief_date).stops[0].parts[0]
    assert opening.text.startswith("Look at the bracteoles. ")
    assert "A bracteole is" not in opening.text
