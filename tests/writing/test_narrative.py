"""A walk is one narrative, on every date and however its stops turn out: nothing before its time, nothing twice."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise, product

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from tests.comparing import Language

from twayblade.knowledge.trail import Case, Listeners, Stop
from twayblade.knowledge.trait import EYE, Means
from twayblade.knowledge.workspace import PlannedTrail, Workspace
from twayblade.reasoning.lookalikes import Pair, look_alikes
from twayblade.reasoning.observed import Turnout, gone_over
from twayblade.reasoning.terms import Terms
from twayblade.writing.explaining import explanation
from twayblade.writing.script import Part, Script, write_script
from twayblade.writing.terminal import pictures_text

NOT_SPOKEN = re.compile(r"[–—×&%°±≈<>/=_#*\[\]{}|~^+▲●○]|\b(?:mm|cm|km|kg|e\.g|i\.e|etc|subsp|var|cf|spp)\b")


@pytest.fixture(scope="module")
def walk(demo_workspace: Workspace) -> PlannedTrail:
    return demo_workspace.trails["demo_trail"]


@pytest.fixture(scope="module")
def pairs(demo_workspace: Workspace) -> tuple[Pair, ...]:
    return look_alikes(demo_workspace)


def ways(script: Script) -> Iterator[list[Part]]:
    """Every way through a script: as hoped all along, and up to each branch of each stop."""
    before: list[Part] = []
    for stop in script.stops:
        for branch in stop.branches:
            yield [*before, *branch.parts]
        before += stop.parts
    yield before


def holds_together(workspace: Workspace, parts: list[Part]) -> None:
    """The rules of the narrative, for parts that are spoken one after the other."""
    language, terms = Language(workspace), Terms(workspace.glossary)
    met: list[str] = []
    said: list[str] = []
    explained: set[str] = set()
    for part in parts:
        if part.kind == "recognise" and part.taxon:
            assert part.taxon not in met
            met.append(part.taxon)
        for claim in part.claims:
            assert claim.text in part.text
            if claim.kind == "contrast":
                assert set(claim.taxa) <= set(met), ("told before it is met", claim)
        sentences = re.split(r"(?<=[.!?])\s+", part.text)
        said += [s for s in sentences if len(s.split()) > 4]
        introduced = {id_ for id_, term in workspace.glossary.items() if term.term in {g.singular for g in workspace.groups.values()}}
        for sentence in sentences:
            explained |= terms.explained(sentence) | {id_ for id_ in terms.used(sentence) if explanation(workspace.glossary[id_]) in part.text}
            if part.kind == "arrival" and any(g.say and g.say.text[:40] in part.text for g in workspace.groups.values()):
                explained |= introduced
            assert not set(terms.used(sentence)) - explained, (part.kind, sentence)
        assert not NOT_SPOKEN.search(part.text), part.text
        if part.kind not in ("care", "name"):
            rest = part.text
            for claim in part.claims:
                rest = rest.replace(claim.text, " ")
            assert language.comparing_in(rest) == []
    assert [s for s in set(said) if said.count(s) > 1] == []


def test_the_demo_holds_together_on_each_of_its_dates_and_in_every_branch(
    demo_workspace: Workspace, walk: PlannedTrail, pairs: tuple[Pair, ...]
) -> None:
    for on in walk.trail.dates:
        script = write_script(demo_workspace, walk, on, pairs)
        branches = [branch for stop in script.stops for branch in stop.branches]
        assert {branch.case for branch in branches} == {Case.PAST, Case.NOT_FOUND, Case.WET}
        for parts in ways(script):
            holds_together(demo_workspace, parts)


@settings(max_examples=5, deadline=None, phases=[Phase.generate], suppress_health_check=list(HealthCheck))
@given(st.data())
def test_it_holds_together_on_any_day_however_all_its_stops_turn_out(
    demo_workspace: Workspace, walk: PlannedTrail, pairs: tuple[Pair, ...], data: st.DataObject
) -> None:
    on = date(2026, 1, 1) + timedelta(data.draw(st.integers(0, 364)))
    cases = {stop.id: data.draw(st.sampled_from(list(Case))) for stop in walk.trail.stops}
    script = write_script(demo_workspace, walk, on, pairs, Turnout(cases), branches=False)
    holds_together(demo_workspace, [part for stop in script.stops for part in stop.parts])
    missed = {stop.stop.id: stop.stop.taxa for stop in script.stops if stop.case is Case.NOT_FOUND}
    shown = {part.taxon for stop in script.stops for part in stop.parts if part.kind == "recognise"}
    only_there = [t for taxa in missed.values() for t in taxa if sum(t in s.stop.taxa for s in script.stops) == 1]
    assert not shown & set(only_there)


@settings(max_examples=5, deadline=None, phases=[Phase.generate], suppress_health_check=list(HealthCheck))
@given(st.data())
def test_any_other_walk_past_any_of_its_plants_holds_together_too(
    demo_workspace: Workspace, walk: PlannedTrail, pairs: tuple[Pair, ...], data: st.DataObject
) -> None:
    taxa = data.draw(st.lists(st.sampled_from(sorted(demo_workspace.taxa)), min_size=2, max_size=6, unique=True))
    cuts = sorted(data.draw(st.sets(st.integers(1, len(taxa) - 1), max_size=3)))
    groups = [taxa[a:b] for a, b in pairwise([0, *cuts, len(taxa)])]
    stops = tuple(Stop(id=f"stop-{n}", title=f"the place {n}", taxa=tuple(group), place=f"By the post {n}.") for n, group in enumerate(groups))
    other = replace(walk, trail=walk.trail.model_copy(update={"stops": stops}), route=None)
    on = date(2026, 1, 1) + timedelta(data.draw(st.integers(0, 364)))
    cases = {stop.id: data.draw(st.sampled_from(list(Case))) for stop in stops}
    script = write_script(demo_workspace, other, on, pairs, Turnout(cases), branches=False)
    holds_together(demo_workspace, [part for stop in script.stops for part in stop.parts])


def test_the_penguins_hold_together_too(penguin_workspace: Workspace) -> None:
    for planned in penguin_workspace.trails.values():
        for on, case in product(planned.trail.dates, Case):
            script = write_script(penguin_workspace, planned, on, None, Turnout(dict.fromkeys((stop.id for stop in planned.trail.stops), case)))
            holds_together(penguin_workspace, [part for stop in script.stops for part in stop.parts])


def test_the_same_walk_is_told_in_the_same_words(demo_workspace: Workspace, walk: PlannedTrail, pairs: tuple[Pair, ...]) -> None:
    first, second = (write_script(demo_workspace, walk, walk.trail.chief_date, pairs, branches=False) for _ in range(2))
    assert first == second


def test_a_plant_that_is_not_found_is_warned_of_all_the_same(demo_workspace: Workspace, walk: PlannedTrail, pairs: tuple[Pair, ...]) -> None:
    script = write_script(demo_workspace, walk, walk.trail.chief_date, pairs, Turnout({stop.id: Case.NOT_FOUND for stop in walk.trail.stops}), False)
    spoken = " ".join(part.text for stop in script.stops for part in stop.parts)
    for taxon in {t for stop in walk.trail.stops for t in stop.taxa}:
        profile = demo_workspace.taxa[taxon].profile
        if demo_workspace.taxa[taxon].hazard_class.is_harmful and profile.hazard:
            assert " ".join(profile.hazard.text.text.split()).rstrip(".") in spoken


def test_what_comes_after_flowering_is_fruit_and_after_fruit_the_dry_stem(demo_workspace: Workspace) -> None:
    hemlock = demo_workspace.taxa["conium-maculatum"]
    assert gone_over(hemlock, ("leaf", "flower")) == ("young-fruit", "ripe-fruit")
    assert gone_over(hemlock, ("ripe-fruit",)) == ("dry-stem",)
    assert gone_over(hemlock, ("leaf", "bud")) == ()


def test_whether_it_can_be_eaten_is_always_refused(demo_workspace: Workspace, walk: PlannedTrail, pairs: tuple[Pair, ...]) -> None:
    script = write_script(demo_workspace, walk, walk.trail.chief_date, pairs, branches=False)
    answers = [q.answer for stop in script.stops for q in stop.questions if q.question == "Can you eat it?"]
    assert len(answers) == len(script.stops)
    assert len(set(answers)) == 1
    assert "never" in answers[0]


def test_children_are_told_less_and_asked_to_use_their_eyes_alone(demo_workspace: Workspace, walk: PlannedTrail, pairs: tuple[Pair, ...]) -> None:
    changed = walk.trail.model_copy(update={"listeners": Listeners.CHILDREN, "means": (*EYE, Means.LENS, Means.RULER)})
    for_children = write_script(demo_workspace, replace(walk, trail=changed), walk.trail.chief_date, pairs, branches=False)
    for_adults = write_script(demo_workspace, walk, walk.trail.chief_date, pairs, branches=False)
    parts = [part for stop in for_children.stops for part in stop.parts]
    holds_together(demo_workspace, parts)
    assert for_children.seconds < for_adults.seconds
    assert max(len(part.claims) for part in parts if part.kind == "recognise") <= 2
    for part in parts:
        for claim in part.claims:
            assert any(set(way.by) <= set(EYE) for way in demo_workspace.traits[claim.trait].ways), claim


def test_a_day_turns_out_plant_by_plant(demo_workspace: Workspace, walk: PlannedTrail, pairs: tuple[Pair, ...]) -> None:
    """One plant of a stop is gone and another is behind: the walk says neither otherwise, and not in its opening."""
    turnout = Turnout(missing=frozenset({"filipendula-ulmaria"}), stages={"heracleum-sphondylium": ("leaf",)})
    script = write_script(demo_workspace, walk, date(2026, 6, 7), pairs, turnout, branches=False)
    parts = [part for stop in script.stops for part in stop.parts]
    holds_together(demo_workspace, parts)
    assert [part.kind for part in parts if part.taxon == "filipendula-ulmaria"] == ["not-found", "care"]
    opening = parts[0].text
    assert "meadowsweet" not in opening
    assert not re.search(r"in flower now: [^.]*(?<!giant )hogweed", opening)
    assert any(re.search(r"hogweed,(?: which is)? in leaf", part.text) for part in parts if part.kind == "arrival")


def test_each_branch_has_its_own_pictures_of_what_it_shows(demo_workspace: Workspace, walk: PlannedTrail, pairs: tuple[Pair, ...]) -> None:
    script = write_script(demo_workspace, walk, walk.trail.chief_date, pairs)
    for stop in script.stops:
        for branch in stop.branches:
            spoken_of = {(claim.taxa[0], claim.trait) for part in branch.parts for claim in part.claims if part.taxon and part.kind != "not-found"}
            in_pictures = {(p.taxon, trait) for p in branch.pictures for trait in p.traits}
            assert spoken_of <= in_pictures
            assert all(p.stop == stop.stop.id for p in branch.pictures)


def test_a_list_of_pictures_carries_the_care_of_every_harmful_plant_in_it(
    demo_workspace: Workspace, walk: PlannedTrail, pairs: tuple[Pair, ...]
) -> None:
    script = write_script(demo_workspace, walk, walk.trail.chief_date, pairs, branches=False)
    text = " ".join(pictures_text(demo_workspace, script).split())
    for taxon in {picture.taxon for picture in script.pictures}:
        profile = demo_workspace.taxa[taxon].profile
        if demo_workspace.taxa[taxon].hazard_class.is_harmful and profile.hazard:
            assert " ".join(profile.hazard.text.text.split()) in text
