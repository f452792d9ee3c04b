"""Random small workspaces, and what an individual plant of a taxon may show, worked out without the reasoning floor."""

from __future__ import annotations

from collections.abc import Mapping

from hypothesis import strategies as st
from tests.making import number_trait, states_trait, taxon, value, workspace

from twayblade.knowledge.frequency import Frequency
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.spread import Context

MARKS = {"one": states_trait("x", "y"), "two": states_trait("p", "q", "r"), "count": number_trait("count"), "size": number_trait()}
TEXTS: Mapping[str, list[str]] = {
    "one": ["x", "y", "usually x", "usually y, rarely x", "x or y"],
    "two": ["p", "q", "r", "usually p, rarely q", "q or r", "usually r"],
    "count": ["0", "0(-2)", "3-6", "(2-)4-12", "7-?"],
    "size": ["1-2 mm", "2.5-4 mm", "(1-)3-5 mm", "6-9 mm", "-3(-?) mm"],
}


@st.composite
def small_workspaces(draw: st.DrawFn, most: int = 7) -> Workspace:
    taxa = []
    for n in range(draw(st.integers(2, most))):
        given_traits = draw(st.sets(st.sampled_from(sorted(MARKS)), min_size=1))
        taxa.append(taxon(f"t{n}", {id_: value(id_, MARKS[id_], draw(st.sampled_from(TEXTS[id_]))) for id_ in sorted(given_traits)}))
    return workspace(MARKS, *taxa)


def allowed_states(made: Workspace, plant: Taxon, trait_id: str, at: Context) -> set[str]:
    """Every state a plant of the taxon may show."""
    trait = made.traits[trait_id]
    statements = [s for a in plant.values[trait_id].alternatives for s in a.statements if s.where.part in (None, at.part)]
    said = {atom for s in statements if s.frequency is not Frequency.NEVER for state in s.states for atom in trait.atoms[state]}
    never = {atom for s in statements if s.frequency is Frequency.NEVER for state in s.states for atom in trait.atoms[state]}
    leaves_rest_open = {s.frequency for s in statements} - {Frequency.NEVER} <= {Frequency.USUALLY} and not any(s.complete for s in statements)
    return (said | (set(trait.states) if leaves_rest_open else set())) - never
