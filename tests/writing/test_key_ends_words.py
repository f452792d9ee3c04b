"""What a key says at its ends, and the words it never uses: over the demonstration's keys, the penguins', and made ones."""

from __future__ import annotations

import re
from datetime import date

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.making import states_trait, taxon, value, workspace

from twayblade.knowledge.frequency import Frequency
from twayblade.knowledge.trail import KeyChoices, Stop, Trail
from twayblade.knowledge.workspace import PlannedTrail, Workspace
from twayblade.reasoning.key_ends import contradictions
from twayblade.reasoning.wording import speaks_of_lack
from twayblade.writing.key_ends import how_words, none_fits
from twayblade.writing.key_words import WrittenKey, write_key

# Lab page on keys of Botany 400, University of Wisconsin-Madison (positive statements, no `not so`, no relative words); Taxacom list,
# September 1995 (no `without the above combination`); and the rule of this project that nothing is called harmless, edible or safe.
UNSUITABLE = re.compile(
    r"not as above|without the above|combination|otherwise|\bnot so\b|unlike|\bdiffers?\b|plants? different|\betc\b|and/or|"
    r"\bharmless\b|\bedible\b|\bsafe\b|\bsafely\b|"
    r"\b(larger|smaller|taller|shorter|longer) than (usual|most|others)",
    re.IGNORECASE,
)


def lines_of(written: WrittenKey) -> list[str]:
    return [line for c in written.couplets for lead in c.leads for line in (lead.text, *lead.more, *lead.against)]


def assert_well_worded(made: Workspace, written: WrittenKey) -> None:
    assert [line for line in lines_of(written) if UNSUITABLE.search(line)] == []
    for couplet in written.couplets:
        assert len({len(lead.more) for lead in couplet.leads}) == 1, "every sign of a lead has its counterpart in the others"
        for signs in zip(*((lead.text, *lead.more) for lead in couplet.leads), strict=True):
            assert len(set(signs)) == len(signs), "leads exclude each other"
            assert len({sign.split()[0] for sign in signs}) == 1, "the same word first"
        for lead in couplet.leads:
            if lead.to is None:
                says = none_fits(made, written, (lead,))
                assert says.startswith("None of these fits?")
                assert "▲" in says or "harmful" in says
                assert {id_ for id_ in lead.taxa if made.taxa[id_].hazard_class.is_harmful} <= set(lead.possible)
            else:
                assert not lead.against
                assert not lead.possible


def assert_contradictions_hold(made: Workspace, written: WrittenKey) -> None:
    """No plant of the taxon shows what would contradict its name: judged from its statements, without the reasoning floor."""
    for found in contradictions(made, written.key).values():
        for against in found:
            trait, its = made.traits[against.trait], made.taxa[against.taxon].values[against.trait]
            said = [s for a in its.alternatives for s in a.statements if s.where.part in (None, against.at.part)]
            if not against.states:
                assert all(s.span and s.span.outer.high is not None and s.span.outer.high <= float(against.above) for s in said if s.span)
                continue
            shown = {atom for s in said if s.frequency is not Frequency.NEVER for state in s.states for atom in trait.atoms[state]}
            assert not shown & {atom for state in against.states for atom in trait.atoms[state]}
            assert not any(speaks_of_lack(trait.states[state].phrase) for state in against.states)


def test_the_demo_keys_are_well_worded_and_contradict_rightly(demo_workspace: Workspace) -> None:
    planned = demo_workspace.trails["demo_trail"]
    for on in planned.trail.dates:
        written = write_key(demo_workspace, planned, on)
        assert_well_worded(demo_workspace, written)
        assert_contradictions_hold(demo_workspace, written)
        ends = [lead for c in written.couplets for lead in c.leads if lead.to is None]
        assert all(lead.against for lead in ends)
        assert all("one not in this key" in none_fits(demo_workspace, written, (lead,)) for lead in ends)
        assert any("proven" in line for line in written.report)
        measures = written.measures
        assert measures.arrivals.harmful_wrong < measures.shortest_arrivals.harmful_wrong
        assert measures.length.entropy <= measures.length.mean <= measures.length.longest


def test_a_harmful_plant_is_treated_as_one_even_where_its_name_is_contradicted(demo_workspace: Workspace) -> None:
    planned = demo_workspace.trails["demo_trail"]
    written = write_key(demo_workspace, planned, planned.trail.chief_date)
    assert any(line.startswith("Not hemlock if") for line in lines_of(written))
    assert "treat your plant as harmful all the same" in how_words(written)


def test_the_penguins_key_is_well_worded(penguin_workspace: Workspace) -> None:
    for planned in penguin_workspace.trails.values():
        for on in planned.trail.dates:
            written = write_key(penguin_workspace, planned, on)
            assert_well_worded(penguin_workspace, written)
            assert_contradictions_hold(penguin_workspace, written)


MARKS = {
    "stem": states_trait("smooth", "ribbed", "furrowed", name="relief"),
    "leaf": states_trait("broad", "narrow", organ="leaf", name="outline", subject="the leaf"),
    "hairs": states_trait("hairless", "hairy", organ="leaf", name="hairs", subject="the underside"),
}
TEXTS = {
    "stem": ["smooth", "ribbed", "furrowed", "usually smooth, rarely ribbed", "ribbed or furrowed"],
    "leaf": ["broad", "narrow", "usually broad"],
    "hairs": ["hairless", "hairy", "usually hairy, rarely hairless"],
}
HAZARDS = ["deadly", "irritant", "none-found"]


@st.composite
def made_trails(draw: st.DrawFn) -> tuple[Workspace, PlannedTrail]:
    taxa = []
    for n in range(draw(st.integers(2, 6))):
        hazard = {"class": draw(st.sampled_from(HAZARDS)), "text": "What it does is written here."}
        values = {t: value(t, trait, draw(st.sampled_from(TEXTS[t]))) for t, trait in MARKS.items() if draw(st.booleans())}
        taxa.append(taxon(f"plant {n}", values, hazard=hazard))
    stop = Stop(id="here", title="Here", taxa=tuple(t.id for t in taxa))
    choices = KeyChoices(most_leads=draw(st.integers(2, 3)), most_signs=draw(st.integers(1, 3)))
    trail = Trail(title="A walk", region="home", dates=(date(2026, 6, 7),), stops=(stop,), key=choices)
    return workspace(MARKS, *taxa), PlannedTrail("walk", trail, None)


@given(made_trails())
@settings(max_examples=60, deadline=None)
def test_made_keys_are_well_worded(instance: tuple[Workspace, PlannedTrail]) -> None:
    made, planned = instance
    written = write_key(made, planned, planned.trail.dates[0])
    assert_well_worded(made, written)
    assert_contradictions_hold(made, written)
