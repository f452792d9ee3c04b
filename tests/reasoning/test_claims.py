"""Truth verdicts: one for each claim, the first that applies."""

from __future__ import annotations

import pytest
from tests.making import disputed, number_trait, states_trait, taxon, value, workspace

from twayblade.knowledge.profile import Ground
from twayblade.reasoning.claims import judge

MARK, SIZE = states_trait("plain", "spotted", "striped"), number_trait()
TRAITS = {"mark": MARK, "size": SIZE}


def verdict(a: object, b: object, trait: str = "mark", **ground: object) -> str:
    def values(given: object) -> dict[str, object]:
        if given is None:
            return {}
        return {trait: value(trait, TRAITS[trait], given) if isinstance(given, str) else given}

    made = workspace(TRAITS, taxon("a", values(a)), taxon("b", values(b)))  # type: ignore[arg-type]
    return judge(made, made.taxa["a"], made.taxa["b"], Ground.model_validate({"trait": trait, **ground})).verdict.value


@pytest.mark.parametrize(
    ("a", "b", "ground", "expected"),
    [
        ("spotted", "plain", {}, "holds"),
        ("usually spotted", "plain", {"how": "usually"}, "holds-usually"),
        ("usually spotted", "plain", {}, "overstated"),
        ("spotted", "plain", {"how": "usually"}, "holds-usually"),
        ("spotted", "plain", {"this": "striped"}, "wrong"),
        ("spotted", "plain", {"other": "spotted"}, "wrong"),
        ("spotted", None, {}, "no-data"),
        ("usually spotted", "usually plain", {"how": "usually"}, "does-not-separate"),
        ("spotted", "spotted", {}, "does-not-separate"),
        ("spotted or striped", "plain", {"this": "spotted"}, "overstated"),
        ("spotted or striped", "plain", {"this": ["spotted", "striped"]}, "holds"),
        (disputed("mark", MARK, "spotted", "plain"), "plain", {}, "disputed"),
        (disputed("mark", MARK, "spotted", "plain"), "plain", {"this": "striped"}, "wrong"),
        (disputed("mark", MARK, "plain", "plain"), "plain", {}, "does-not-separate"),
    ],
)
def test_the_first_verdict_that_applies(a: object, b: object, ground: dict[str, object], expected: str) -> None:
    assert verdict(a, b, **ground) == expected


def test_a_claimed_range_may_not_leave_the_outer_limits() -> None:
    assert verdict("5-10 mm", "2-4 mm", trait="size", this="5-12 mm") == "wrong"
    assert verdict("(4-)5-10 mm", "1-3 mm", trait="size", this="4-10 mm") == "holds"


def test_removing_data_never_makes_a_claim_hold() -> None:
    for a, b in (("spotted", "plain"), ("usually spotted", "plain"), ("spotted", "spotted")):
        assert verdict(a, None) == verdict(None, b) == "no-data"
