"""Stages against the general BBCH scale (Hack et al. 1992; Meier ed. 2001, as given on the published page on the scale)."""

from __future__ import annotations

import pytest

from twayblade.knowledge.bbch import PRINCIPAL_STAGES, parse_stages, principal_stages
from twayblade.knowledge.profile import STAGES

# Principal growth stages of the general scale: 5 inflorescence emergence, 6 flowering (60 first flowers open, 65 full flowering,
# 69 end of flowering), 7 development of fruit, 8 ripening or maturity of fruit and seed, 9 senescence, beginning of dormancy.
PUBLISHED = {"51": "bud", "60": "flower", "65": "flower", "69": "flower", "71": "young-fruit", "81": "ripe-fruit", "97": "dry-stem"}


@pytest.mark.parametrize(("code", "stage"), PUBLISHED.items())
def test_the_codes_of_the_scale_are_the_stages_of_the_same_name(code: str, stage: str) -> None:
    assert parse_stages(code) == parse_stages(f"BBCH {code}") == (frozenset({stage}),)
    assert int(code[0]) in principal_stages(stage)


@pytest.mark.parametrize(
    ("number", "word"), [(0, "germination"), (1, "leaf"), (5, "inflorescence"), (6, "flowering"), (8, "ripening"), (9, "senescence")]
)
def test_the_principal_stages_have_their_published_names(number: int, word: str) -> None:
    assert word in PRINCIPAL_STAGES[number]
    assert len(PRINCIPAL_STAGES) == 10


def test_every_stage_can_be_noted_and_every_code_is_some_stage() -> None:
    for stage in STAGES:
        assert principal_stages(stage)
        assert parse_stages(stage) == parse_stages(stage.replace("-", " ").upper()) == (frozenset({stage}),)
    for code in range(10):
        (might,) = parse_stages(str(code))
        assert might <= set(STAGES)
        assert all(code in principal_stages(stage) for stage in might)


def test_a_code_that_leaves_the_stage_open_is_read_as_all_it_may_be() -> None:
    """Leaf development (1) has no stage of its own for rosettes, nor for seedlings."""
    assert parse_stages("14") == (frozenset({"seedling", "rosette", "leaf"}),)


@pytest.mark.parametrize("text", ["bud | flower", "bud, flower", "bud; flower", "bud and flower", "5|60", "bud (BBCH 5) | flower (BBCH 6)"])
def test_several_stages_stand_side_by_side(text: str) -> None:
    assert parse_stages(text) == (frozenset({"bud"}), frozenset({"flower"}))


@pytest.mark.parametrize("text", ["flowerin", "605", "-6", "6.5", "BBCH", "(flower)"])
def test_anything_else_is_refused_with_what_is_expected(text: str) -> None:
    with pytest.raises(ValueError, match="expected some of seedling"):
        parse_stages(text)


@pytest.mark.parametrize("text", [";", "|", " , ", "and", "+;"])
def test_separators_alone_are_no_answer(text: str) -> None:
    with pytest.raises(ValueError, match="no stage"):
        parse_stages(text)
