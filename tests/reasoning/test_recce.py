"""What a visit means for the walk: the way of each stop, and what the profiles do not say."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from itertools import product

import pytest
from tests.making import disputed, number_trait, states_trait, taxon, value, workspace

from twayblade.knowledge.numbers import parse_range
from twayblade.knowledge.observation import PlantSeen, Recce, StopSeen, TraitSeen
from twayblade.knowledge.profile import STAGES
from twayblade.knowledge.trail import Case, Trail
from twayblade.knowledge.values import Value
from twayblade.knowledge.workspace import PlannedTrail, Workspace
from twayblade.reasoning.lookalikes import look_alikes
from twayblade.reasoning.recce import Fit, StopWay, Why, findings, judge_trait, stop_ways, walk_after
from twayblade.reasoning.recce_sheet import hoped_stage, recce_sheet
from twayblade.reasoning.walk import outline

JUNE = date(2026, 6, 7)
SEASONS = {"leaf": "April - September", "flower": "June", "young-fruit": "July", "dry-stem": "September"}
WALK = Trail.model_validate(
    {
        "title": "A walk",
        "region": "home",
        "dates": ["2026-05-01", "2026-06-07", "2026-09-01"],
        "stops": [{"id": "gate", "title": "The gate", "taxa": ["one", "two"]}],
    }
)
PLANNED = PlannedTrail("walk", WALK, None)
MADE = workspace({}, taxon("one", {}, seasons=SEASONS), taxon("two", {}, seasons=SEASONS))


def plant(id_: str, found: bool | None, *stages: str) -> PlantSeen:
    return PlantSeen("gate", JUNE, "", 1, id_, found, tuple(frozenset({s}) for s in stages))


def aspect(id_: str, answer: str) -> StopSeen:
    return StopSeen("gate", JUNE, "", 1, id_, answer)


def way(*seen: PlantSeen | StopSeen, on: date = JUNE) -> StopWay:
    plants = tuple(s for s in seen if isinstance(s, PlantSeen))
    stops = tuple(s for s in seen if isinstance(s, StopSeen))
    (only,) = stop_ways(MADE, PLANNED, Recce("walk", "recce.csv", plants, (), stops), on)
    return only


def test_a_walk_hopes_for_the_stage_that_shows_most() -> None:
    assert hoped_stage(MADE, MADE.taxa["one"], JUNE, "home") == "flower"
    assert hoped_stage(MADE, MADE.taxa["one"], date(2026, 5, 1), "home") == "leaf"
    assert hoped_stage(MADE, MADE.taxa["one"], date(2026, 1, 1), "home") is None


@pytest.mark.parametrize(
    ("seen", "case", "why"),
    [
        (plant("one", True, "flower"), Case.AS_HOPED, Why.SEEN_SO),
        (plant("one", True, "flower", "young-fruit"), Case.AS_HOPED, Why.SEEN_SO),
        (plant("one", True, "bud"), Case.AS_HOPED, Why.NOT_YET),
        (plant("one", True, "bud", "young-fruit"), Case.AS_HOPED, Why.NOT_YET),
        (plant("one", True, "young-fruit"), Case.PAST, Why.OVER),
        (plant("one", True, "dry-stem"), Case.PAST, Why.OVER),
        (plant("one", True), Case.AS_HOPED, Why.STAGE_OPEN),
        (plant("one", False), Case.NOT_FOUND, Why.ABSENT),
        (plant("one", None), None, Why.OPEN),
    ],
)
def test_a_plant_goes_by_its_stage(seen: PlantSeen, case: Case | None, why: Why) -> None:
    one = way(seen).plants[0]
    assert (one.case, one.why) == (case, why)


@pytest.mark.parametrize(("cut", "answer"), [("mown", "all"), ("grazed", "all"), ("sprayed", "yes")])
def test_what_was_cut_and_not_noted_as_found_is_not_found(cut: str, answer: str) -> None:
    assert way(aspect(cut, answer)).case is Case.NOT_FOUND
    assert way(aspect(cut, answer), plant("one", True, "flower")).case is Case.AS_HOPED  # it stands all the same
    assert way(aspect(cut, "partly" if answer == "all" else "perhaps")).case is None


def test_a_stop_goes_as_hoped_while_one_of_its_plants_does() -> None:
    hoped, over, gone = (True, "flower"), (True, "dry-stem"), (False,)
    expected = {hoped: Case.AS_HOPED, over: Case.PAST, gone: Case.NOT_FOUND}
    order = list(expected)
    for first, second in product(order, repeat=2):
        found = way(plant("one", *first), plant("two", *second))
        assert found.case is expected[min(first, second, key=order.index)]


@pytest.mark.parametrize(("what", "answer"), [("ground", "wet"), ("ground", "flooded"), ("wind", "strong")])
def test_wet_ground_or_wind_sends_a_stop_another_way_unless_nothing_is_there(what: str, answer: str) -> None:
    rough = way(aspect(what, answer), plant("one", True, "flower"))
    assert (rough.case, rough.rough) == (Case.WET, ((what, answer),))
    assert way(aspect(what, answer), plant("one", False), plant("two", False)).case is Case.NOT_FOUND


def test_what_the_walk_does_not_hope_for_does_not_count() -> None:
    assert way(plant("one", False), on=date(2026, 1, 1)).plants == ()
    assert way(plant("one", False), on=date(2026, 1, 1)).case is None


def test_every_way_is_taken_by_some_visit() -> None:
    ways = [way(plant("one", True, s), plant("two", True, s)).case for s in STAGES] + [way(plant("one", False), plant("two", False)).case]
    ways.append(way(aspect("wind", "strong"), plant("one", True, "flower")).case)
    assert {w for w in ways if w} == set(Case)


@pytest.mark.parametrize(
    ("day", "walk"), [(date(2026, 4, 2), date(2026, 5, 1)), (date(2026, 6, 5), JUNE), (JUNE, JUNE), (date(2026, 12, 1), date(2026, 9, 1))]
)
def test_a_visit_is_for_the_next_walk(day: date, walk: date) -> None:
    assert walk_after(PLANNED, Recce("walk", "r.csv", (replace(plant("one", True), on=day),))) == walk


# -- traits seen -------------------------------------------------------------------------------------------
HAIRS = states_trait("hairless", "bristly", "downy", parts={"low": "the lower stem", "high": "the upper stem"})
RELIEF = states_trait("smooth", "finely-ribbed", "ridged", "furrowed", **{"kind": "ordered", "misread-by": "1"})
LENGTH = number_trait(**{"misread-by": "0.5 mm"})


def judged(trait_id: str, seen: str, said: Value | None, part: str | None = None) -> tuple[Fit, bool]:
    traits = {"hairs": HAIRS, "relief": RELIEF, "length": LENGTH}
    made: Workspace = workspace(traits, taxon("one", {trait_id: said} if said else {}))
    span = parse_range(f"{seen} mm") if trait_id == "length" else None
    states = frozenset() if span else frozenset(seen.split(" | "))
    found = judge_trait(made, TraitSeen("gate", JUNE, "", 1, "one", trait_id, part, states, span, seen), None)
    return found.fit, found.slight


@pytest.mark.parametrize(
    ("seen", "said", "fit"),
    [
        ("bristly", "bristly", Fit.AGREES),
        ("bristly", "usually bristly", Fit.AGREES),
        ("hairless", "usually bristly", Fit.UNUSUAL),  # `usually` leaves the rest open
        ("hairless", "bristly, rarely hairless", Fit.UNUSUAL),
        ("bristly | hairless", "bristly, rarely hairless", Fit.UNUSUAL),
        ("hairless", "bristly", Fit.DISAGREES),
        ("bristly | hairless", "bristly", Fit.DISAGREES),  # each state seen must be allowed for
    ],
)
def test_a_state_seen_stands_to_the_profile(seen: str, said: str, fit: Fit) -> None:
    assert judged("hairs", seen, value("hairs", HAIRS, said)) == (fit, False)


@pytest.mark.parametrize(
    ("seen", "fit", "slight"),
    [
        ("3", Fit.AGREES, False),
        ("2-4", Fit.AGREES, False),
        ("4.5", Fit.UNUSUAL, False),
        ("3-4.5", Fit.UNUSUAL, False),
        ("5.4", Fit.DISAGREES, True),
        ("4-5.4", Fit.DISAGREES, True),
        ("6", Fit.DISAGREES, False),
        ("1.4-6", Fit.DISAGREES, False),
    ],
)
def test_a_number_seen_stands_to_the_profile(seen: str, fit: Fit, slight: bool) -> None:
    """The profile says 2-4(-5) mm, and a misreading goes half a millimetre."""
    assert judged("length", seen, value("length", LENGTH, "2-4(-5) mm")) == (fit, slight)


def test_a_step_of_an_order_beside_the_profile_is_what_a_misreading_goes() -> None:
    assert judged("relief", "ridged", value("relief", RELIEF, "furrowed")) == (Fit.DISAGREES, True)
    assert judged("relief", "smooth", value("relief", RELIEF, "furrowed")) == (Fit.DISAGREES, False)


def test_one_source_that_agrees_is_enough() -> None:
    assert judged("hairs", "downy", disputed("hairs", HAIRS, "bristly", "downy"))[0] is Fit.AGREES
    assert judged("hairs", "hairless", disputed("hairs", HAIRS, "bristly", "downy"))[0] is Fit.DISAGREES


def test_parts_are_judged_by_what_is_said_of_them() -> None:
    of_parts = value("hairs", HAIRS, {"is": "bristly", "part": "low"}, {"is": "hairless", "part": "high"})
    assert judged("hairs", "bristly", of_parts, "low")[0] is Fit.AGREES
    assert judged("hairs", "bristly", of_parts, "high")[0] is Fit.DISAGREES
    assert judged("hairs", "hairless", of_parts)[0] is Fit.AGREES  # of no part in particular
    assert judged("hairs", "bristly", value("hairs", HAIRS, "bristly"), "low")[0] is Fit.AGREES
    assert judged("hairs", "bristly", value("hairs", HAIRS, {"is": "bristly", "part": "low"}), "high")[0] is Fit.NEW


def test_what_no_profile_speaks_of_is_new() -> None:
    assert judged("hairs", "downy", None) == (Fit.NEW, False)


def test_reading_a_visit_changes_no_profile_and_shifts_no_window(demo_workspace: Workspace) -> None:
    planned = demo_workspace.trails["demo_trail"]
    before = (dict(demo_workspace.taxa), {id_: t.profile.model_dump() for id_, t in demo_workspace.taxa.items()})
    found = findings(demo_workspace, planned, planned.recces[0], JUNE)
    assert found.year.estimate
    assert before == (dict(demo_workspace.taxa), {id_: t.profile.model_dump() for id_, t in demo_workspace.taxa.items()})
    assert {w.case for w in found.stops} == set(Case)  # the demonstration shows each of them
    assert Fit.DISAGREES in {j.fit for j in found.traits}


# -- the sheet ---------------------------------------------------------------------------------------------
@pytest.mark.parametrize("on", [date(2026, 5, 16), JUNE, date(2026, 7, 15), date(2026, 9, 16)])
def test_a_sheet_asks_for_both_sides_of_every_contrast_and_for_every_sign(demo_workspace: Workspace, on: date) -> None:
    plan = outline(demo_workspace, demo_workspace.trails["demo_trail"], on, look_alikes(demo_workspace))
    sheet = recce_sheet(demo_workspace, plan)
    assert [[p.taxon for p in stop.plants] for stop in sheet.stops] == [list(stop.stop.taxa) for stop in plan.stops]
    asked = {p.taxon: p.traits for stop in sheet.stops for p in stop.plants}
    for part in (part for stop in plan.stops for part in stop.parts):
        for contrast in part.contrasts:
            d = contrast.told.difference
            for own, other in ((d.first, d.second), (d.second, d.first)):
                assert any((t.trait, t.part) == (d.trait, d.at.part) and other in t.against for t in asked[own])
        for shown in part.shown:
            assert any(t.trait == shown.trait and t.part in (shown.at.part, None) for t in asked[shown.taxon])


def test_a_sheet_asks_nothing_that_takes_a_hand(demo_workspace: Workspace) -> None:
    for on in demo_workspace.trails["demo_trail"].trail.dates:
        sheet = recce_sheet(demo_workspace, outline(demo_workspace, demo_workspace.trails["demo_trail"], on, look_alikes(demo_workspace)))
        for trait in (t for stop in sheet.stops for p in stop.plants for t in p.traits):
            ways = demo_workspace.traits[trait.trait].ways
            assert any(set(way.by) <= {"distant-eye", "close-eye"} for way in ways), trait
