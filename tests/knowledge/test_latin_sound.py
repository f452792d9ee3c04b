"""Which syllable of a Latin name takes the weight: by published examples, and never by a guess."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from twayblade.knowledge.latin_sound import Length, said, syllables
from twayblade.knowledge.name import NamePart, Quantity
from twayblade.knowledge.workspace import Workspace
from twayblade.writing.syllables import syllables as counted


@pytest.mark.parametrize(
    ("word", "respelled"),
    # The first two from a dictionary of plant names on liquisearch.com, arvensis from an article that cites Stearn, Botanical Latin;
    # the rest from memory.
    [
        ("Potentilla", "po-ten-TIL-la"),
        ("Althaea", "al-THAE-a"),
        ("arvensis", "ar-VEN-sis"),
        ("palustris", "pa-LUS-tris"),
        ("Oryza", "o-RY-za"),
        ("Oenanthe", "oe-NAN-the"),
        ("rosa", "RO-sa"),
        ("Yucca", "YUC-ca"),
        ("rex", "REX"),
    ],
)
def test_where_the_spelling_settles_it_no_quantity_is_needed(word: str, respelled: str) -> None:
    assert said(word) == respelled


@pytest.mark.parametrize(
    ("word", "quantity", "respelled"),
    # Anglicus from an article that cites Stearn, Botanical Latin; the quantities of the endings from memory.
    [
        ("anglicus", "short", "AN-gli-cus"),
        ("vulgaris", "long", "vul-GA-ris"),
        ("officinalis", "long", "of-fi-ci-NA-lis"),
        ("maculatum", "long", "ma-cu-LA-tum"),
        ("spinosa", "long", "spi-NO-sa"),
        ("aquaticus", "short", "a-QUA-ti-cus"),
        ("trifolium", "short", "tri-FO-li-um"),
        ("bursa-pastoris", "long", "BUR-sa-pas-TO-ris"),
        ("×capreola", "short", "ca-PRE-o-la"),
    ],
)
def test_where_it_does_not_the_quantity_decides_and_without_it_nothing_is_said(word: str, quantity: Length, respelled: str) -> None:
    assert said(word, quantity) == respelled
    assert said(word) is None


def test_a_stop_before_l_or_r_closes_nothing() -> None:
    """Stearn's exception, as restated: the weight of cathedra-like words hangs on the vowel."""
    assert said("podagra") is None
    assert said("Anthriscus") == "an-THRIS-cus"


def test_dots_on_a_vowel_part_it_from_the_one_before() -> None:
    assert syllables("Hippophaë") == ("hip", "po", "pha", "e")


@given(st.from_regex(r"[a-z]{1,12}", fullmatch=True))
def test_syllables_make_up_the_word_and_are_as_many_as_are_timed(word: str) -> None:
    found = syllables(word)
    assert "".join(found) in (word, "")
    assert max(1, len(found)) == counted(word, latin=True)


@given(st.from_regex(r"[a-z]{1,12}", fullmatch=True), st.sampled_from([None, "long", "short"]))
def test_one_syllable_at_most_takes_the_weight_and_it_is_one_of_the_last_three(word: str, quantity: Length | None) -> None:
    respelled = said(word, quantity)
    if respelled is not None:
        pieces = respelled.split("-")
        assert next(n for n, piece in enumerate(pieces[::-1]) if piece.isupper()) < 3
        assert sum(piece.isupper() for piece in pieces) == 1
        assert "".join(pieces).lower() == word


def test_a_quantity_says_where_it_is_from() -> None:
    assert Quantity.model_validate("long [memory]") == Quantity(is_="long", source=("memory",))
    with pytest.raises(ValidationError, match="names no source"):
        Quantity.model_validate("long")
    with pytest.raises(ValidationError):
        Quantity.model_validate("middling [memory]")


def test_the_demo_says_every_name_but_the_one_of_unknown_origin(demo_workspace: Workspace) -> None:
    assert demo_workspace.taxa["conium-maculatum"].profile.name_said == "co-NI-um ma-cu-LA-tum"
    silent = [part.part for t in demo_workspace.taxa.values() for part in t.profile.name_meaning if part.said is None]
    assert silent == ["Torilis"]


def test_no_quantity_is_given_where_the_spelling_settles_it(demo_workspace: Workspace) -> None:
    """It would be a fact that nothing rests on."""
    parts: list[NamePart] = [part for t in demo_workspace.taxa.values() for part in t.profile.name_meaning]
    assert [part.part for part in parts if part.quantity and said(part.part)] == []
