"""Every comparing sentence of every output of the demo carries its claim, and the claim is of what the sentence names."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from datetime import date
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest
from bs4 import Tag
from click.testing import Result
from tests.comparing import Language
from tests.site.built import Built

from twayblade.knowledge.workspace import Workspace

Site = dict[str, Built]

SUMS_UP = re.compile(r"none of these|It is usually not")
"""What a page says of the signs that stand above it, without naming them again."""


@pytest.fixture(scope="module")
def language(demo_workspace: Workspace) -> Language:
    return Language(demo_workspace)


def passages(page: Built) -> Iterator[Tag]:
    """The smallest pieces of a page that hold whole sentences."""
    for piece in page.main.find_all(["p", "li", "dd", "td", "figcaption"]):
        if not piece.find(["p", "li", "dd", "td"]) and not piece.find_parent("nav"):
            yield piece


def bare(piece: Tag) -> str:
    """The text of a piece without what carries a claim or is folded away as its evidence."""
    texts = (t for t in piece.find_all(string=True) if not t.find_parent(attrs={"data-claim": True}) and not t.find_parent("details"))
    return " ".join(texts)


def is_care(piece: Tag) -> bool:
    """Whether it is a caution: these state what a plant does, and are never comparisons."""
    return any(parent.get("id") == "care" or "care" in (parent.get("class") or []) for parent in piece.parents)


def test_no_page_compares_without_a_claim(built: Site, language: Language) -> None:
    found = [(p.address, said) for p in built.values() for piece in passages(p) if not is_care(piece) for said in language.comparing_in(bare(piece))]
    assert found == []


def test_cautions_are_stated_and_never_compared(built: Site) -> None:
    """A caution may say what its plant is taken for, not how it differs."""
    cautions = [piece.get_text(" ") for page in built.values() for piece in passages(page) if is_care(piece)]
    assert len(cautions) > 100
    assert [said for said in cautions if re.search(r"\b(?:unlike|whereas|than (?:in|that|those|the))\b", said)] == []


def test_what_a_claim_is_about_is_what_its_sentence_names(built: Site, demo_workspace: Workspace, language: Language) -> None:
    counted, comparing = 0, 0
    for page in built.values():
        for element in page.main.select("[data-claim]"):
            words = element.p.get_text(" ") if element.p else element.get_text(" ")
            for key in str(element["data-claim"]).split():
                traits, *taxa = key.split("/")
                if len(taxa) == 2:
                    assert language.taxa_in(words) <= set(taxa), (page.address, key, words)
                for trait in traits.split("+"):
                    if "+" not in traits and not SUMS_UP.search(words):
                        assert language.speaks_of(words, demo_workspace.traits[trait]), (page.address, key, words)
                        counted += 1
                comparing += bool(language.comparing_in(words))
    assert counted > 500
    assert comparing > 300


def test_every_claim_of_a_script_is_a_passage_of_its_text_and_nothing_else_compares(
    demo_scripts: dict[date, dict[str, Any]], demo_workspace: Workspace, language: Language
) -> None:
    for script in demo_scripts.values():
        for part in (part for stop in script["stops"] for part in stop["parts"]):
            rest = part["text"]
            for claim in part["claims"]:
                assert claim["text"] in part["text"]
                assert language.taxa_in(claim["text"]) <= set(claim["taxa"]), claim
                assert language.speaks_of(claim["text"], demo_workspace.traits[claim["trait"]]), claim
                rest = rest.replace(claim["text"], " ")
            if part["kind"] not in ("care", "name"):
                assert language.comparing_in(rest) == [], (part["kind"], part["taxon"])


def test_every_row_of_a_comparison_names_its_two_taxa_and_its_trait(
    run: Callable[..., Result], demo: Path, demo_workspace: Workspace, language: Language
) -> None:
    for taxa in list(combinations(demo_workspace.taxa, 3))[::160]:
        for row in json.loads(run("-C", demo, "compare", *taxa, "--on", "2026-07-15", "--format", "json").output)["traits"]:
            if row["text"]:
                assert language.taxa_in(row["text"]) == set(row["taxa"])
                assert language.speaks_of(row["text"], demo_workspace.traits[row["trait"]])
                assert row["verdict"] in ("holds", "holds-usually", "disputed", "does-not-separate")


def test_the_words_of_the_demo_are_of_the_kind_that_is_looked_for(language: Language) -> None:
    assert language.is_comparing("In hemlock the stem is hairless; in rough chervil it is bristly.")
    assert language.is_comparing("Only hemlock has spots on the stem.")
    assert language.taxa_in("Hemlock water-dropwort and hogweed") == {"oenanthe-crocata", "heracleum-sphondylium"}
    assert not language.is_comparing("Hemlock stands by the culvert.")
