"""Every kind of claim with its verdict, and scopes that are three-valued."""

from __future__ import annotations

import pytest
from tests.making import KNOWN, number_trait, states_trait, taxon, value, workspace

from twayblade.knowledge.claim import Sign, marks, parse_claim, unmarked
from twayblade.knowledge.library import Group, Recorded, Region
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.judging import NoSuchScope, judge_claim

MARK, SIZE = states_trait("plain", "spotted", "striped"), number_trait()
TRAITS = {"mark": MARK, "size": SIZE}


def made(recorded: tuple[Recorded, ...] = (Recorded(taxon="a"), Recorded(taxon="b"), Recorded(taxon="c"))) -> Workspace:
    def plant(id_: str, mark: str | None, size: str, flower: str):  # type: ignore[no-untyped-def]
        values = {"size": value("size", SIZE, size), **({"mark": value("mark", MARK, mark)} if mark else {})}
        return taxon(id_, values, group="g", seasons={"flower": flower})

    plants = (
        plant("a", "spotted", "20-30 mm", "April - May"),
        plant("b", "usually plain, rarely striped", "5-10 mm", "May - June"),
        plant("c", "plain", "8-12(-25) mm", "November - January"),
    )
    groups = {"g": Group(name="things", singular="thing")}
    return workspace(TRAITS, *plants, groups=groups, regions={"home": Region(name="home", home=True, recorded=recorded)})


@pytest.mark.parametrize(
    ("claim", "verdict"),
    [
        ("a is mark = spotted", "holds"),
        ("b is mark = plain", "overstated"),
        ("b is mark = plain, usually", "holds-usually"),
        ("b is mark = striped, sometimes", "holds-usually"),
        ("b is mark = spotted, sometimes", "wrong"),
        ("a from b by mark", "holds"),
        ("b from c by mark", "does-not-separate"),
        ("mark = spotted means a among g", "holds"),
        ("mark = striped means b among g", "holds-one-way"),
        ("mark = plain means c among g", "does-not-separate"),
        ("only a is mark = spotted among all", "holds"),
        ("mark = plain + size = 5-7 mm means b among g", "holds-one-way"),
        ("a has most size among g", "overstated"),
        ("a has most size among g, usually", "holds-usually"),
        ("b has most size among g", "does-not-separate"),
        ("a before b in flower", "holds-usually"),
        ("b before a in flower", "wrong"),
        ("c before a in flower", "holds-usually"),
        ("a before b in ripe-fruit", "no-data"),
        ("all g are mark = plain", "wrong"),
        ("no g are mark = striped", "overstated"),
        ("no g are mark = striped, usually", "holds-usually"),
        ("all g are size = 1-40 mm", "holds"),
    ],
)
def test_each_kind_of_claim(claim: str, verdict: str) -> None:
    assert judge_claim(made(), parse_claim(claim)).value == verdict


def test_a_counterexample_decides_even_where_others_lack_data() -> None:
    with_unknown = made((Recorded(taxon="a"), Recorded(taxon="b"), Recorded(taxon="c"), KNOWN))
    assert judge_claim(with_unknown, parse_claim("mark = spotted means a among region")).value == "no-data"
    assert judge_claim(with_unknown, parse_claim("mark = plain means c among region")).value == "does-not-separate"
    assert judge_claim(made(), parse_claim("mark = spotted means a among region")).value == "holds"


def test_any_without_a_scope_is_refused() -> None:
    with pytest.raises(NoSuchScope):
        judge_claim(made(), parse_claim("mark = spotted means a among anything"))
    with pytest.raises(ValueError, match="cannot read"):
        parse_claim("mark = spotted means a")


def test_claims_about_use_are_of_no_kind() -> None:
    """Claims that infer safety or use ("hairy, so harmless") are refused, as no form of claim can say them."""
    for text in ("a is harmless", "mark = plain means safe among", "eat a"):
        with pytest.raises(ValueError, match="cannot read"):
            parse_claim(text)


def test_marks_give_way_to_their_words() -> None:
    text = "Look: {it is spotted | a is mark = spotted}, you see."
    assert unmarked(text) == "Look: it is spotted, you see."
    (mark,) = marks(text)
    assert (mark.words, mark.claim) == ("it is spotted", "a is mark = spotted")


def test_a_combination_is_read_condition_by_condition() -> None:
    claim = parse_claim("mark @ front = plain or striped + size = 5-7 mm means b among g, usually")
    assert isinstance(claim, Sign)
    assert [(c.trait, c.part, c.states) for c in claim.conditions] == [("mark", "front", ("plain", "striped")), ("size", None, ("5-7 mm",))]
    assert claim.how == "usually"
