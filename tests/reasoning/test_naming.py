"""An unknown plant keeps its name through every right answer, and through one wrong one; harmful plants are never lost to the date."""

from __future__ import annotations

import random
from datetime import date
from decimal import Decimal
from itertools import combinations
from math import log2

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.making import number_trait, states_trait, taxon, value, workspace
from tests.reasoning.random_plants import allowed_states, small_workspaces

from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.season import day_of
from twayblade.knowledge.trait import HANDLING
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.compare import differences
from twayblade.reasoning.keys.objective import places
from twayblade.reasoning.naming import (
    MARGIN,
    NONE_OF_THESE,
    UNSURE,
    Look,
    Naming,
    answers_to_show,
    names,
    next_look,
    pair_at,
    pairs,
    standing,
)
from twayblade.reasoning.naming_ends import choose_doubts, choose_parting, doubts, harmful_left, partings
from twayblade.reasoning.naming_looks import make_naming, speaks_by
from twayblade.reasoning.relation import Relation
from twayblade.reasoning.scope import nameable

JUNE = day_of(date(2026, 6, 7))
DAYS = [day_of(date(2026, month, 10)) for month in (1, 5, 6, 7, 9)]


def fitting(made: Workspace, plant: Taxon, look: Look, shown: tuple[int, ...], choose: random.Random) -> int:
    """The answer of an individual plant that may show anything its taxon may: a true one of those that are shown, if there is one."""
    trait = made.traits[look.trait]
    if trait.kind.is_numeric:
        spans = [s.span.outer for a in plant.values[look.trait].alternatives for s in a.statements if s.span]
        low, high = choose.choice([(span.low, span.high) for span in spans])
        least = low or Decimal(0)
        number = choose.choice([least, high if high is not None else least * 3 + 5])
        held = [n for n in shown if _holds(look.answers[n].span, number, is_count=trait.unit == "")]
    else:
        atom = choose.choice(sorted(allowed_states(made, plant, look.trait, look.at)))
        held = [n for n in shown if atom in trait.atoms[look.answers[n].state or ""]]
    return choose.choice(held) if held else NONE_OF_THESE


def _holds(span: tuple[Decimal | None, Decimal | None], number: Decimal, is_count: bool) -> bool:
    low, high = span
    return (low is None or (number >= low if is_count else number > low)) and (high is None or number <= high)


def look_through(
    made: Workspace, naming: Naming, place: int, day: int, choose: random.Random, wrong_at: int | None = None
) -> tuple[dict[int, int], bool]:
    """All answers of a reader with a plant of a taxon, and whether one was wrong: at the look of that number, any other answer shown."""
    given: dict[int, int] = {}
    erred = False
    plant = made.taxa[naming.taxa[place]]
    while (at := next_look(naming, given, day)) is not None:
        look, now = naming.looks[at], standing(naming, given, day)
        shown = answers_to_show(naming, at, now)
        if not look.shown[place] >> day & 1 or choose.random() < 0.1:
            given[at] = UNSURE
        else:
            given[at] = fitting(made, plant, look, shown, choose)
        if wrong_at == len(given) - 1 and (others := [n for n in shown if n != given[at]]):
            given[at], erred = choose.choice(others), True
    return given, erred


def in_days(naming: Naming, place: int, day: int) -> bool:
    return bool((naming.always >> place | naming.present[place] >> day) & 1)


@given(small_workspaces(), st.integers(0, 1000))
@settings(max_examples=100, deadline=None)
def test_whoever_answers_rightly_ends_with_the_right_name_among_the_names(made: Workspace, seed: int) -> None:
    naming, choose = make_naming(made, Occasion(None, taxa=tuple(made.taxa))), random.Random(seed)
    for place in range(len(naming.taxa)):
        for _ in range(6):
            given, _ = look_through(made, naming, place, JUNE, choose)
            assert place in names(naming, standing(naming, given, JUNE))


@given(small_workspaces(), st.integers(0, 1000))
@settings(max_examples=100, deadline=None)
def test_one_wrong_answer_leaves_the_right_plant_among_those_told(made: Workspace, seed: int) -> None:
    naming, choose = make_naming(made, Occasion(None, taxa=tuple(made.taxa))), random.Random(seed)
    for place in range(len(naming.taxa)):
        for wrong_at in range(4):
            given, _ = look_through(made, naming, place, JUNE, choose, wrong_at)
            assert standing(naming, given, JUNE).possible >> place & 1


@pytest.mark.parametrize("day", DAYS)
def test_the_plants_of_the_demo_are_found_and_survive_a_wrong_answer_on_any_day(demo_workspace: Workspace, demo_naming: Naming, day: int) -> None:
    choose, erred = random.Random(day), 0
    for place in range(len(demo_naming.taxa)):
        if in_days(demo_naming, place, day):
            given, _ = look_through(demo_workspace, demo_naming, place, day, choose)
            assert place in names(demo_naming, standing(demo_naming, given, day))
            given, wrong = look_through(demo_workspace, demo_naming, place, day, choose, wrong_at=choose.randrange(5))
            assert standing(demo_naming, given, day).possible >> place & 1
            erred += wrong
    assert erred


@pytest.fixture(scope="module")
def demo_naming(demo_workspace: Workspace) -> Naming:
    trail = demo_workspace.trails["demo_trail"].trail
    taxa, _ = nameable(demo_workspace, trail.region)
    return make_naming(demo_workspace, Occasion(None, frozenset(trail.means), trail.region, taxa))


# -- what may be asked ------------------------------------------------------------------------------------------------
def test_nothing_is_asked_that_takes_a_hand_on_a_plant(demo_workspace: Workspace, demo_naming: Naming) -> None:
    for look in demo_naming.looks:
        assert any(not HANDLING & set(way.by) for way in demo_workspace.traits[look.trait].ways), look.trait
    assert not {"leaf-smell", "stem-filling", "root-form"} & {look.trait for look in demo_naming.looks}


def test_a_part_is_not_asked_about_while_a_plant_that_may_lack_it_is_possible() -> None:
    traits = {
        "bracts": number_trait("count", misread="10 %"),
        "form": states_trait("broad", "narrow", needs="bracts", misread="1 %"),
        "colour": states_trait("red", "blue", misread="10 %"),
    }
    with_some = {id_: {"bracts": value("bracts", traits["bracts"], "3-5")} for id_ in ("a", "b")}
    made = workspace(
        traits,
        taxon("a", {**with_some["a"], "form": value("form", traits["form"], "broad"), "colour": value("colour", traits["colour"], "red")}),
        taxon("b", {**with_some["b"], "form": value("form", traits["form"], "narrow"), "colour": value("colour", traits["colour"], "red")}),
        taxon("c", {"bracts": value("bracts", traits["bracts"], "0-4"), "colour": value("colour", traits["colour"], "blue")}),
    )
    naming = make_naming(made, Occasion(None, taxa=("a", "b", "c")))
    (form,) = (n for n, look in enumerate(naming.looks) if look.trait == "form")
    (colour,) = (n for n, look in enumerate(naming.looks) if look.trait == "colour")
    assert next_look(naming, {}, JUNE) != form
    red = standing(naming, {colour: 0}, JUNE)
    assert red.possible >> 2 & 1
    assert next_look(naming, {colour: 0}, JUNE) != form


def test_the_same_observation_is_asked_once_unless_nobody_could_tell(demo_workspace: Workspace, demo_naming: Naming) -> None:
    choose = random.Random(3)
    for place in range(len(demo_naming.taxa)):
        given, _ = look_through(demo_workspace, demo_naming, place, JUNE, choose)
        told = [demo_naming.looks[at].observation for at, answer in given.items() if answer != UNSURE]
        assert len(told) == len(set(told))


def test_a_count_is_judged_only_where_its_stage_is_expected(demo_workspace: Workspace, demo_naming: Naming) -> None:
    for look in demo_naming.looks:
        if demo_workspace.traits[look.trait].kind == "count":
            assert all(not shown & ~sure for shown, sure in zip(look.shown, look.sure, strict=True))


# -- what answers say -------------------------------------------------------------------------------------------------
def test_an_answer_speaks_by_the_surprise_a_misreading_would_be() -> None:
    """In bits, the surprise of what has the chance p is -log2 p (Shannon 1948, A mathematical theory of communication, section 6)."""
    for percent in range(1, 60):
        trait = states_trait("x", "y", misread=f"{percent} %")
        assert speaks_by(trait) == min(MARGIN, max(1, round(-log2(percent / 100))))
    assert speaks_by(states_trait("x", "y", misread="0 %")) == MARGIN


def test_what_is_shown_rarely_speaks_against_nothing_and_puts_a_name_later() -> None:
    mark = states_trait("x", "y")
    made = workspace({"mark": mark}, *(taxon(n, {"mark": value("mark", mark, s)}) for n, s in [("a", "usually x, rarely y"), ("b", "y"), ("c", "x")]))
    naming = make_naming(made, Occasion(None, taxa=("a", "b", "c")))
    now = standing(naming, {0: 1}, JUNE)
    assert [now.against[n] for n in range(3)][:2] == [0, 0]
    assert now.against[2] > 0
    assert names(naming, now) == (1, 0)


def test_a_wider_state_speaks_against_no_kind_of_it() -> None:
    hairs = states_trait("hairless", "hairy", "bristly")
    hairs = hairs.model_copy(update={"states": {**hairs.states, "bristly": hairs.states["bristly"].model_copy(update={"kind_of": "hairy"})}})
    taxa = [taxon(n, {"hairs": value("hairs", hairs, s)}) for n, s in [("a", "hairless"), ("b", "hairy"), ("c", "bristly")]]
    naming = make_naming(workspace({"hairs": hairs}, *taxa), Occasion(None, taxa=("a", "b", "c")))
    (look,) = naming.looks
    said = {answer.id: [n > 0 for n in against] for answer, against in zip(look.answers, look.against, strict=True)}
    assert said == {"hairless": [False, True, True], "hairy": [True, False, False], "bristly": [True, False, False]}


@pytest.mark.parametrize(("apart", "parted"), [("4-5 mm", False), ("4.5-6 mm", True)])
def test_numbers_nearer_than_a_misreading_goes_are_not_parted(apart: str, parted: bool) -> None:
    """The same rule as for contrasts: a gap that is smaller than the misreading is too fine."""
    size = number_trait(misread_by="2 mm")
    made = workspace({"size": size}, taxon("a", {"size": value("size", size, "1-2.5 mm")}), taxon("b", {"size": value("size", size, apart)}))
    assert bool(make_naming(made, Occasion(None, taxa=("a", "b"))).looks) == parted


def test_pairs_are_found_where_they_stand() -> None:
    for count in (2, 3, 7):
        assert [pair_at(a, b, count) for a, b in pairs(count)] == list(range(len(pairs(count))))
        assert pair_at(1, 0, count) == 0


# -- the date, and the end --------------------------------------------------------------------------------------------
@pytest.mark.parametrize("day", DAYS)
def test_every_harmful_plant_counts_on_any_day(demo_workspace: Workspace, demo_naming: Naming, day: int) -> None:
    now = standing(demo_naming, {}, day)
    harmful = {n for n, id_ in enumerate(demo_naming.taxa) if demo_workspace.taxa[id_].hazard_class.forbids_handling}
    assert harmful
    assert harmful <= set(places(now.possible))


@given(small_workspaces(), st.integers(0, 1000))
@settings(max_examples=60, deadline=None)
def test_names_that_stand_together_are_not_parted_by_anything_left(made: Workspace, seed: int) -> None:
    naming, choose = make_naming(made, Occasion(None, taxa=tuple(made.taxa))), random.Random(seed)
    for place in range(len(naming.taxa)):
        given, _ = look_through(made, naming, place, JUNE, choose)
        together = [naming.taxa[n] for n in names(naming, standing(naming, given, JUNE))]
        asked = {naming.looks[at].trait for at in given}
        for (first, second), trait in ((pair, trait) for pair in combinations(together, 2) for trait in made.traits if trait not in asked):
            found = differences(made, made.taxa[first], made.taxa[second], trait)
            assert all(d.relation is not Relation.SEPARATE for d in found), (first, second, trait)


def test_where_more_than_one_answer_must_be_wrong_no_name_is_given() -> None:
    traits = {f"mark{n}": states_trait("x", "y", misread="3 %") for n in range(4)}
    taxa = [taxon(n, {id_: value(id_, trait, s) for id_, trait in traits.items()}) for n, s in [("a", "x"), ("b", "y")]]
    naming = make_naming(workspace(traits, *taxa), Occasion(None, taxa=("a", "b")))
    torn = standing(naming, {0: 0, 1: 1, 2: 0, 3: 1}, JUNE)
    assert torn.least > MARGIN
    assert names(naming, torn) == ()
    assert torn.possible == 0b11


def test_a_plant_nothing_is_known_of_wins_by_no_ones_mistakes(demo_naming: Naming) -> None:
    """In January giant hogweed shows nothing that is asked; it stays possible, but is not the measure of what fits."""
    january = DAYS[0]
    hogweed = demo_naming.taxa.index("heracleum-mantegazzianum")
    shown = [n for n, look in enumerate(demo_naming.looks) if not look.shown[hogweed] >> january & 1 and any(d >> january & 1 for d in look.shown)]
    now = standing(demo_naming, dict.fromkeys(shown[:4], 0), january)
    assert now.possible >> hogweed & 1
    assert not now.known >> hogweed & 1


def test_a_contradiction_is_something_no_plant_of_the_name_shows(demo_workspace: Workspace, demo_naming: Naming) -> None:
    trail = demo_workspace.trails["demo_trail"].trail
    found = doubts(demo_workspace, Occasion(None, frozenset(trail.means), trail.region, demo_naming.taxa))
    choose = random.Random(11)
    for place, id_ in enumerate(demo_naming.taxa):
        given, _ = look_through(demo_workspace, demo_naming, place, JUNE, choose)
        now = standing(demo_naming, given, JUNE)
        chosen = [found[place][n] for n in choose_doubts(found[place], demo_naming, given, now, JUNE)]
        assert len({doubt.observation for doubt in chosen}) == len(chosen)
        for doubt in chosen:
            assert doubt.days >> JUNE & 1
            trait = demo_workspace.traits[doubt.against.trait]
            atoms = {atom for state in doubt.against.states for atom in trait.atoms[state]}
            if atoms:
                assert not atoms & allowed_states(demo_workspace, demo_workspace.taxa[id_], doubt.against.trait, doubt.against.at)


def test_a_harmful_plant_one_wrong_answer_away_is_told_with_what_tells_it_apart(demo_workspace: Workspace, demo_naming: Naming) -> None:
    """Bristly below and spotted, as rough chervil is, but said to be hairless: hemlock leads, and rough chervil stays told."""
    chervil, hemlock = (demo_naming.taxa.index(id_) for id_ in ("chaerophyllum-temulum", "conium-maculatum"))
    at = {(look.trait, look.at.part): n for n, look in enumerate(demo_naming.looks)}
    hairs, blotches = at["stem-hairs", "lower-stem"], at["stem-blotches", None]
    said = {n: next(k for k, a in enumerate(demo_naming.looks[n].answers) if a.id == id_) for n, id_ in ((hairs, "hairless"), (blotches, "blotched"))}
    now = standing(demo_naming, said, JUNE)
    assert hemlock in names(demo_naming, now)
    left = harmful_left(demo_workspace, demo_naming, now)
    assert chervil in left
    trail = demo_workspace.trails["demo_trail"].trail
    between = partings(
        demo_workspace, Occasion(None, frozenset(trail.means), trail.region, demo_naming.taxa), "chaerophyllum-temulum", "conium-maculatum"
    )
    chosen = choose_parting(between, demo_naming, said, JUNE)
    assert chosen is not None
    assert between[chosen].observation not in {demo_naming.looks[n].observation for n in said}


def test_an_unknown_plant_is_held_against_all_of_the_region_and_the_rest_is_told(demo_workspace: Workspace) -> None:
    taxa, left = nameable(demo_workspace, "north-west-lowlands")
    listed = demo_workspace.regions["north-west-lowlands"].recorded
    assert {entry.taxon for entry in listed if entry.taxon} <= set(taxa)
    assert len(taxa) + len(left) >= len(listed)
    nowhere, nothing = nameable(demo_workspace, None)
    assert set(nowhere) == set(demo_workspace.taxa)
    assert nothing == ()
