"""A key never leads a plant astray, and leaves together only what no allowed question divides."""

from __future__ import annotations

import random
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.making import states_trait, taxon, value, workspace
from tests.reasoning.random_plants import allowed_states, small_workspaces

from twayblade.knowledge.numbers import Interval
from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.trail import KeyChoices
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.compare import differences, surely_applies
from twayblade.reasoning.key import Asked, Couplet, Key, Lead, make_key
from twayblade.reasoning.keys.large import EXACT_UP_TO
from twayblade.reasoning.relation import Relation
from twayblade.reasoning.scope import covered, occasion_of
from twayblade.reasoning.seeing import difference_bars

DEMO_DATES = [date(2026, 5, 16), date(2026, 6, 7), date(2026, 7, 15), date(2026, 9, 16)]


def read(made: Workspace, plant: Taxon, asked: Asked, choose: random.Random) -> int:
    """The place of the lead that a sign of an individual plant speaks for, its state chosen among all that the taxon may show."""
    every = range(len(asked.sides))
    if asked.question.trait not in plant.values:
        return choose.choice(every)
    trait, sides = made.traits[asked.question.trait], asked.question.sides
    if trait.kind.is_numeric:
        spans = [s.span.outer for a in plant.values[asked.question.trait].alternatives for s in a.statements if s.span]
        shown = _reaches(choose.choice(spans), choose)
        fitting = [n for n in every if (sides[asked.sides[n]][1] is None or shown <= sides[asked.sides[n]][1])]
        return min(fitting, key=lambda n: asked.sides[n])
    atom = choose.choice(sorted(allowed_states(made, plant, asked.question.trait, asked.question.at)))
    fitting = [n for n in every if atom in sides[asked.sides[n]]]
    return fitting[0] if fitting else choose.choice(every)


def _reaches(span: Interval, choose: random.Random) -> int | float:
    low, high = float(span.low or 0), float(span.high if span.high is not None else (span.low or 0) * 3 + 5)
    return choose.choice([low, high])


def leads_of(made: Workspace, plant: Taxon, couplet: Couplet, choose: random.Random) -> Lead:
    """The lead a reader takes who makes no mistake: by the majority of the signs, by the first where two disagree."""
    if plant.id in couplet.unanswerable:
        return choose.choice(couplet.leads)
    spoken = [read(made, plant, asked, choose) for asked in couplet.signs]
    most = max(set(spoken), key=lambda n: (spoken.count(n), n == spoken[0]))
    return couplet.leads[most if spoken.count(most) > 1 else spoken[0]]


def follow(made: Workspace, key: Key, plant: Taxon, choose: random.Random) -> tuple[str, ...]:
    couplets = {c.number: c for c in key.couplets}
    if not couplets:
        return key.occasion.taxa
    at = couplets[1]
    while True:
        lead = leads_of(made, plant, at, choose)
        if lead.to is None:
            return lead.taxa
        at = couplets[lead.to]


def assert_later_signs_agree(key: Key) -> None:
    """For every taxon still possible the leads of a later sign are among those of the first; no trait is asked twice in a couplet."""
    for couplet in key.couplets:
        assert len({asked.question.trait for asked in couplet.signs}) == len(couplet.signs) <= 3
        for asked in couplet.signs[1:]:
            for id_ in couplet.among:
                goes = asked.question.goes[key.occasion.taxa.index(id_)]
                assert all(id_ in lead.taxa for lead, side in zip(couplet.leads, asked.sides, strict=True) if goes >> side & 1)


def assert_sound(made: Workspace, key: Key, seed: int = 7, walks: int = 60) -> None:
    choose = random.Random(seed)
    for id_ in key.occasion.taxa:
        for _ in range(walks):
            assert id_ in follow(made, key, made.taxa[id_], choose)


def assert_divided_as_far_as_may_be(made: Workspace, key: Key) -> None:
    for group in key.inseparable:
        region = key.occasion.region
        asked = [t for t, trait in made.traits.items() if all(surely_applies(made, made.taxa[id_], trait, region) for id_ in group)]
        for place, first in enumerate(group):
            for second in group[place + 1 :]:
                for trait in asked:  # of a plant that may lack the organ no lead would be true, so the trait is not asked there
                    for d in differences(made, made.taxa[first], made.taxa[second], trait, region):
                        barred = difference_bars(made, d, key.occasion)
                        assert d.relation is not Relation.SEPARATE or d.disputed or barred, (first, second, trait)


@pytest.mark.parametrize("on", DEMO_DATES)
def test_the_demo_keys_are_sound_and_hold_every_harmful_plant(demo_workspace: Workspace, on: date) -> None:
    trail = demo_workspace.trails["demo_trail"].trail
    held, left = covered(demo_workspace, trail, on)
    key = make_key(demo_workspace, occasion_of(trail, on, taxa=held))
    assert_sound(demo_workspace, key)
    assert_later_signs_agree(key)
    assert key.plan.is_optimal
    assert_divided_as_far_as_may_be(demo_workspace, key)
    harmful = {t.id for t in demo_workspace.taxa.values() if t.hazard_class.is_harmful}
    assert harmful <= set(held)
    assert {lead_taxon for c in key.couplets for lead in c.leads if lead.to is None for lead_taxon in lead.taxa} == set(held)
    region = demo_workspace.regions[trail.region].recorded
    assert len(held) + len({o.taxon or o.recorded.name for o in left if o.taxon or o.recorded}) >= len(region)


def test_a_harmful_plant_stays_in_the_key_when_it_is_not_to_be_seen(demo_workspace: Workspace) -> None:
    """Fool's parsley has no leaves in January (plants/SEASONS_AND_GROUPS: April to October), and stays all the same."""
    trail = demo_workspace.trails["demo_trail"].trail
    held, _ = covered(demo_workspace, trail, date(2026, 1, 10))
    assert {"aethusa-cynapium", "heracleum-mantegazzianum", "conium-maculatum"} <= set(held)


def test_two_identical_taxa_share_a_last_lead() -> None:
    mark = states_trait("plain", "spotted")
    made = workspace({"mark": mark}, *(taxon(n, {"mark": value("mark", mark, s)}) for n, s in [("a", "plain"), ("b", "plain"), ("c", "spotted")]))
    key = make_key(made, Occasion(None, taxa=("a", "b", "c")))
    assert key.inseparable == (("a", "b"),)
    assert len(key.couplets) == 1


@given(small_workspaces(), st.integers(0, 1000), st.integers(2, 4))
@settings(max_examples=80, deadline=None)
def test_every_plant_arrives_at_its_own_name(made: Workspace, seed: int, most_leads: int) -> None:
    key = make_key(made, Occasion(None, taxa=tuple(made.taxa)), KeyChoices(most_leads=most_leads))
    assert all(2 <= len(c.leads) <= most_leads for c in key.couplets)
    assert_sound(made, key, seed, walks=12)
    assert_later_signs_agree(key)
    assert_divided_as_far_as_may_be(made, key)


def test_a_couplet_of_three_leads_is_asked_only_where_the_trail_allows_it() -> None:
    mark = states_trait("red", "blue", "green")
    made = workspace({"mark": mark}, *(taxon(s, {"mark": value("mark", mark, s)}) for s in mark.states))
    occasion = Occasion(None, taxa=tuple(made.taxa))
    assert [len(c.leads) for c in make_key(made, occasion).couplets] == [2, 2]
    (couplet,) = make_key(made, occasion, KeyChoices(most_leads=3)).couplets
    assert [lead.taxa for lead in couplet.leads] == [("red",), ("blue",), ("green",)]


def test_a_second_sign_of_another_organ_stands_after_the_first_and_never_the_same_trait() -> None:
    traits = {
        "stem": states_trait("smooth", "ribbed", ease="easy", misread="5 %"),
        "leaf": states_trait("broad", "narrow", organ="leaf", ease="moderate", misread="10 %"),
        "other-stem": states_trait("green", "red", ease="easy", misread="9 %"),
    }
    states = {"a": ("smooth", "broad", "green"), "b": ("ribbed", "narrow", "red")}
    made = workspace(traits, *(taxon(n, {t: value(t, traits[t], s) for t, s in zip(traits, shown, strict=True)}) for n, shown in states.items()))
    (couplet,) = make_key(made, Occasion(None, taxa=("a", "b"))).couplets
    assert [asked.question.trait for asked in couplet.signs][:2] == ["stem", "leaf"], "the surest and easiest first, then another organ"
    (alone,) = make_key(made, Occasion(None, taxa=("a", "b")), KeyChoices(most_signs=1)).couplets
    assert len(alone.signs) == 1


@given(small_workspaces(most=5))
@settings(max_examples=40, deadline=None)
def test_couplets_are_numbered_and_refer_back(made: Workspace) -> None:
    key = make_key(made, Occasion(None, taxa=tuple(made.taxa)))
    numbers = [c.number for c in key.couplets]
    assert numbers == list(range(1, len(numbers) + 1))
    for c in key.couplets:
        assert set(c.back) == {other.number for other in key.couplets for lead in other.leads if lead.to == c.number}
        assert bool(c.back) == (c.number > 1)
        assert len(c.leads[0].taxa) <= len(c.leads[1].taxa), "the lead with fewer taxa stands first (Flora of China guide, section 6)"


def test_more_taxa_than_can_be_solved_exactly_still_get_a_sound_key() -> None:
    bits = {f"bit{n}": states_trait("yes", "no") for n in range(5)}
    taxa = [
        taxon(f"t{n:02}", {f"bit{b}": value(f"bit{b}", bits[f"bit{b}"], "yes" if n >> b & 1 else "no") for b in range(5)})
        for n in range(EXACT_UP_TO + 8)
    ]
    made = workspace(bits, *taxa)
    key = make_key(made, Occasion(None, taxa=tuple(made.taxa)))
    assert_sound(made, key, walks=2)
    assert len(key.couplets) == len(taxa) - 1, "a dichotomous key in which each taxon stands once has n-1 couplets (theory of keys)"
