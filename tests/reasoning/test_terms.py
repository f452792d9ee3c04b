"""Terms of the glossary in texts: found by their longest form, and known to be explained where a text says what they are."""

from __future__ import annotations

import pytest

from twayblade.knowledge.library import Term
from twayblade.reasoning.terms import Terms

TERMS = Terms(
    {
        "umbel": Term(term="umbel", definition="A cluster."),
        "compound-umbel": Term(term="compound umbel", definition="An umbel of umbels."),
        "ray": Term(term="ray", definition="A spoke."),
        "genus": Term(term="genus", plural="genera", definition="A group."),
        "fruit": Term(term="fruit", definition="What holds the seeds.", everyday=True),
    }
)


@pytest.mark.parametrize(
    ("text", "used"),
    [
        ("The flower head is a compound umbel.", ("compound-umbel",)),
        ("Rays of an umbel, compound umbels", ("ray", "umbel", "compound-umbel")),
        ("An array of X-rays", ()),
        ("Several genera with fruits", ("genus",)),
        ("", ()),
    ],
)
def test_terms_are_found_as_whole_words_in_any_number(text: str, used: tuple[str, ...]) -> None:
    assert TERMS.used(text) == used


@pytest.mark.parametrize(
    "text",
    [
        "A ray is one of the spokes.",
        "Rays are the spokes of the umbrella.",
        "The spokes, called rays, spring from one point.",
        "The spokes are called the rays.",
        "Its rays (the spokes) are long.",
        "The rays, that is, the spokes, are long.",
    ],
)
def test_a_text_that_says_what_a_term_is_explains_it(text: str) -> None:
    assert "ray" in TERMS.explained(text)


@pytest.mark.parametrize("text", ["The rays are hairy.", "A ray is long.", "It has twelve rays.", "The call of rays."])
def test_a_text_that_only_uses_a_term_does_not(text: str) -> None:
    assert not TERMS.explained(text)


def test_without_a_glossary_nothing_needs_explaining() -> None:
    assert Terms({}).used("A compound umbel") == ()
