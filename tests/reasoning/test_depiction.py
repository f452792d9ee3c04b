"""What drawings show: usual values, and beside one another a difference only where a verdict stands behind it."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.making import disputed, number_trait, states_trait, taxon, value, workspace

from twayblade.knowledge.library import Recorded, Region
from twayblade.knowledge.numbers import Numbers
from twayblade.knowledge.profile import HazardClass
from twayblade.knowledge.trait import Trait
from twayblade.knowledge.values import Value
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.compare import differences
from twayblade.reasoning.depiction import depict, depict_beside, depict_condition, depict_state, pieces_of
from twayblade.reasoning.spread import Context, States, extent_of_states, lies_in, spreads


def drawn(trait: Trait, *draws: str, **manners: str) -> Trait:
    """The trait with what it and its states set in drawings."""
    states = {name: state.model_copy(update={"drawn": manners.get(name.replace("-", "_"))}) for name, state in trait.states.items()}
    return Trait.model_validate({**dict(trait), "states": states, "draws": draws})


RELIEF = drawn(
    states_trait("smooth", "ribbed", "ridged", "furrowed", kind="ordered"),
    "stem relief",
    smooth="smooth",
    ribbed="fine-ribs",
    ridged="ridges",
    furrowed="furrows",
)
BLOTCHES = drawn(states_trait("plain", "blotched"), "stem blotches", plain="none", blotched="blotches")
COUNT = drawn(number_trait("count"), "umbel bracts")
STANCE = drawn(states_trait("up", "down", needs="bracts"), "umbel bract-stance", up="along-rays", down="turned-down")
LENGTH = drawn(number_trait(), "fruit length")
TRAITS = {"relief": RELIEF, "blotches": BLOTCHES, "bracts": COUNT, "stance": STANCE, "length": LENGTH}
PIECES = {"relief": "stem", "blotches": "stem", "bracts": "umbel", "stance": "umbel", "length": "fruit"}

TEXTS = {
    "relief": ["smooth", "ribbed", "smooth to ribbed", "usually furrowed", "usually smooth, rarely furrowed", "ridged or furrowed", "usually ridged"],
    "blotches": ["plain", "blotched", "usually blotched", "sometimes blotched", "plain or blotched", "rarely blotched"],
    "bracts": ["0", "0-2", "3-6", "4-8(-12)", "(0-)1(-2)", "5"],
    "length": ["2-4 mm", "3-5 mm", "4.1-8 mm", "1-2 cm", "-3 mm", "(2-)5-6 mm"],
}
CASES = [(trait, a, b) for trait, texts in TEXTS.items() for a in texts for b in texts]


def two(trait: str, a: str | None, b: str | None) -> Workspace:
    sides = {id_: {trait: value(trait, TRAITS[trait], text)} if text else {} for id_, text in (("a", a), ("b", b))}
    return workspace(TRAITS, *(taxon(id_, values) for id_, values in sides.items()))


@pytest.mark.parametrize(("trait", "a", "b"), CASES)
def test_two_drawings_differ_exactly_where_the_verdict_is_separate_or_usually_separate(trait: str, a: str, b: str) -> None:
    made = two(trait, a, b)
    (difference,) = differences(made, made.taxa["a"], made.taxa["b"], trait)
    beside = depict_beside(made, made.taxa["a"], made.taxa["b"], PIECES[trait])
    assert (beside is not None) == difference.is_firm_contrast
    if beside:
        assert beside.differing == (difference,)
        assert beside.first.shown[0].condition != beside.second.shown[0].condition


@pytest.mark.parametrize(("trait", "a", "b"), CASES)
def test_beside_another_contrast_what_is_shared_is_drawn_alike_and_all_else_left_out(trait: str, a: str, b: str) -> None:
    """A second trait of the same piece always tells the two apart, so that there are drawings to look at."""
    other, first, second = ("relief", "smooth", "furrowed") if trait == "blotches" else ("blotches", "plain", "blotched")
    if PIECES[trait] != "stem":
        return
    values = [{trait: value(trait, TRAITS[trait], text), other: value(other, TRAITS[other], told)} for text, told in ((a, first), (b, second))]
    made = workspace(TRAITS, taxon("a", values[0]), taxon("b", values[1]))
    beside = depict_beside(made, made.taxa["a"], made.taxa["b"], "stem")
    assert beside
    shown = [[s.condition for s in side.shown if s.trait == trait] for side in (beside.first, beside.second)]
    (difference,) = differences(made, made.taxa["a"], made.taxa["b"], trait)
    if not difference.is_firm_contrast:
        assert shown[0] == shown[1]
        assert (shown[0] != []) == (difference.relation in ("same", "nested", "overlap"))


@given(st.sampled_from([(t, text) for t, texts in TEXTS.items() for text in texts]))
def test_what_is_drawn_is_usual_and_never_rare(case: tuple[str, str]) -> None:
    trait, text = case
    made = two(trait, text, None)
    found = depict(made, made.taxa["a"], PIECES[trait])
    (spread,) = spreads(made, made.taxa["a"], made.taxa["a"].values[trait], Context(), None)
    assert found
    condition = found.shown[0].condition
    if isinstance(condition, Decimal):
        assert isinstance(spread.usual, Numbers)
        assert any((i.low is None or i.low <= condition) and (i.high is None or condition <= i.high) for i in spread.usual.intervals)
    else:
        assert lies_in(extent_of_states([condition], TRAITS[trait]), spread.usual)
        assert isinstance(spread.usual, States)
        assert found.shown[0].is_one_of_several == (len(spread.usual.atoms) > 1)


def test_an_unknown_value_is_left_out_of_both() -> None:
    known = {"relief": value("relief", RELIEF, "smooth"), "blotches": value("blotches", BLOTCHES, "blotched")}
    made = workspace(TRAITS, taxon("a", known), taxon("b", {"relief": value("relief", RELIEF, "furrowed")}))
    beside = depict_beside(made, made.taxa["a"], made.taxa["b"], "stem")
    assert beside
    assert "blotches" not in beside.first.settings
    assert "blotches" not in beside.second.settings


@pytest.mark.parametrize(("sides", "expected"), [(("plain", "blotched"), None), (("plain", "usually plain"), "none")])
def test_what_sources_disagree_about_is_drawn_only_as_far_as_they_agree(sides: tuple[str, str], expected: str | None) -> None:
    values: dict[str, Value] = {"blotches": disputed("blotches", BLOTCHES, *sides), "relief": value("relief", RELIEF, "smooth")}
    made = workspace(TRAITS, taxon("a", values))
    found = depict(made, made.taxa["a"], "stem")
    assert found
    assert found.settings.get("blotches") == expected


def test_the_shape_of_an_organ_that_one_of_two_lacks_goes_with_the_organ() -> None:
    bearing = {"bracts": value("bracts", COUNT, "3-6"), "stance": value("stance", STANCE, "down")}
    made = workspace(TRAITS, taxon("a", bearing), taxon("b", {"bracts": value("bracts", COUNT, "0")}))
    beside = depict_beside(made, made.taxa["a"], made.taxa["b"], "umbel")
    assert beside
    assert beside.first.settings == {"bracts": 4, "bract-stance": "turned-down"}
    assert beside.second.settings == {"bracts": 0}
    assert [d.trait for d in beside.differing] == ["bracts"]


def test_two_lengths_are_drawn_to_one_scale() -> None:
    made = two("length", "2-4 mm", "1-2 cm")
    beside = depict_beside(made, made.taxa["a"], made.taxa["b"], "fruit")
    assert beside
    assert (beside.first.settings["length"], beside.second.settings["length"]) == (Decimal(3), Decimal(15))
    assert beside.first.frame == beside.second.frame == Decimal(15)


def test_no_plant_is_drawn_with_one_forms_value_beside_anothers() -> None:
    forms = {"long": {"name": "long", "frequency": "sometimes"}, "short": {"name": "short", "frequency": "sometimes"}}
    said = [{"is": "smooth", "form": "long"}, {"is": "furrowed", "form": "short"}]
    spots = [{"is": "blotched", "form": "long"}, {"is": "plain", "form": "short"}]
    made = workspace(TRAITS, taxon("a", {"relief": value("relief", RELIEF, *said), "blotches": value("blotches", BLOTCHES, *spots)}, forms=forms))
    found = pieces_of(made, made.taxa["a"])
    assert [(depiction.settings, form) for depiction, form in found] == [
        ({"relief": "smooth", "blotches": "blotches"}, "long"),
        ({"relief": "furrows", "blotches": "none"}, "short"),
    ]


def test_a_rare_form_changes_nothing_in_the_drawing_of_all_and_has_one_of_its_own() -> None:
    forms = {"pale": {"name": "pale", "frequency": "rarely"}}
    made = workspace(TRAITS, taxon("a", {"blotches": value("blotches", BLOTCHES, "blotched", {"is": "plain", "form": "pale"})}, forms=forms))
    assert [(d.settings["blotches"], form) for d, form in pieces_of(made, made.taxa["a"])] == [("blotches", None), ("none", "pale")]


def test_what_only_a_hand_could_show_is_not_drawn_where_no_hand_may_be_laid() -> None:
    filling = drawn(states_trait("hollow", "solid", ways=["cutting"]), "stem filling", hollow="hollow", solid="solid")
    values = {"filling": value("filling", filling, "hollow")}
    harmful = Region(name="home", home=True, recorded=(Recorded(name="Planta mala", hazard=HazardClass.DEADLY),))
    for regions, expected in ((None, {"filling": "hollow"}), ({"home": harmful}, None)):
        made = workspace({"filling": filling}, taxon("a", values, hazard={"class": "none-found", "text": "nothing on record"}), regions=regions)
        found = depict(made, made.taxa["a"], "stem")
        assert (found.settings if found else None) == expected


def test_a_state_by_itself_is_drawn_with_what_it_needs_to_be_seen() -> None:
    made = workspace(TRAITS)
    found = depict_state(made, "stance", "down")
    assert found
    assert found.settings == {"rays": 8, "bracts": 4, "bract-stance": "turned-down"}


def test_a_wide_state_is_drawn_as_itself_and_a_narrow_one_where_only_it_is_shared() -> None:
    hairs = states_trait("bare", "hairy", "stiff", "soft")
    hairs = hairs.model_copy(
        update={"states": {n: s.model_copy(update={"kind_of": "hairy"}) if n in ("stiff", "soft") else s for n, s in hairs.states.items()}}
    )
    hairs = drawn(hairs, "stem lower-hairs", bare="none", hairy="some", stiff="bristles", soft="shaggy")
    for text, expected in (("hairy", "some"), ("stiff", "bristles"), ("stiff or soft", "bristles"), ("usually hairy", "some")):
        made = workspace({"hairs": hairs}, taxon("a", {"hairs": value("hairs", hairs, text)}))
        found = depict(made, made.taxa["a"], "stem")
        assert found
        assert found.settings["lower-hairs"] == expected


def test_a_state_without_a_manner_is_not_drawn() -> None:
    smell = drawn(states_trait("sweet", "foul"), "stem flush", sweet="even")
    made = workspace({"smell": smell})
    assert depict_state(made, "smell", "foul") is None
    assert depict_condition(made, "smell", extent_of_states(["sweet"], smell))


def test_what_cannot_be_drawn_without_a_length_that_is_not_known_is_not_told_of_the_drawing(penguin_workspace: Workspace) -> None:
    lantern = penguin_workspace.taxa["lantern-penguin"]
    short = replace(lantern, values={id_: made for id_, made in lantern.values.items() if id_ != "bill-length"})
    made = penguin_workspace.with_taxa({"short": replace(short, id="short")})
    whole, left = (depict(made, taxon, "penguin-head") for taxon in (lantern, made.taxa["short"]))
    assert whole
    assert left
    assert [s.trait for s in whole.shown] == ["bill-length", "bill-depth", "crest", "cheek-mark"]
    assert [s.trait for s in left.shown] == ["crest", "cheek-mark"]
    beside = depict_beside(made, made.taxa["short"], made.taxa["gentoo-penguin"], "penguin-head")
    assert beside
    assert [d.trait for d in beside.differing] == ["crest", "cheek-mark"]
