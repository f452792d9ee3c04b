"""Pictures to take: everything that must be seen is seen, each set-up of the camera comes once, and what is cut together matches."""

from __future__ import annotations

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.pictures import Scale, ToSee, set_ups

SLOW_MACHINES = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow])
STOPS = ("gate", "bank", "ditch")


@st.composite
def wanted(draw: st.DrawFn, workspace: Workspace) -> list[ToSee]:
    taxa = draw(st.lists(st.sampled_from(sorted(workspace.taxa)), min_size=1, max_size=5, unique=True))
    places = sorted(draw(st.integers(0, 2)) for _ in taxa)
    found = []
    for number, taxon in enumerate(taxa):
        for trait in draw(st.lists(st.sampled_from(sorted(workspace.traits)), max_size=4)):
            other = draw(st.sampled_from([None, *taxa[:number]]))
            found.append(ToSee(STOPS[places[number]], taxon, trait, draw(st.booleans()), f"{taxon} {trait}", other))
    return found


def test_everything_said_is_in_one_set_up_and_no_set_up_comes_twice(demo_workspace: Workspace) -> None:
    @SLOW_MACHINES
    @given(wanted(demo_workspace))
    def holds(asked: list[ToSee]) -> None:
        made = set_ups(demo_workspace, asked)
        assert len({s.key for s in made}) == len(made)
        stop_of: dict[str, str] = {}
        for see in asked:
            stop_of.setdefault(see.taxon, see.stop)
            showing = [s for s in made if (s.stop, s.taxon) == (see.stop, see.taxon) and see.trait in s.traits]
            assert len(showing) == 1
            assert see.line in [line.text for line in showing[0].lines]
            assert showing[0].must or not see.must

    holds()


def test_the_two_plants_of_a_contrast_are_taken_from_the_same_side_at_the_same_distance(demo_workspace: Workspace) -> None:
    @SLOW_MACHINES
    @given(wanted(demo_workspace))
    def holds(asked: list[ToSee]) -> None:
        made = set_ups(demo_workspace, asked)
        for see in asked:
            if see.other:
                (own,) = [s for s in made if (s.stop, s.taxon) == (see.stop, see.taxon) and see.trait in s.traits]
                others = [s for s in made if s.taxon == see.other and see.trait in s.traits]
                assert any((s.side, s.distance, s.organ) == (own.side, own.distance, own.organ) for s in others)
                assert any((s.stop, s.taxon) in own.matches for s in others)
                assert any((own.stop, own.taxon) in s.matches for s in others)

    holds()


def test_what_is_measured_has_its_size_in_the_picture(demo_workspace: Workspace) -> None:
    sizes = {"height": Scale.PERSON, "fruit-length": Scale.BAR, "stem-thickness": Scale.HAND, "stem-hairs": Scale.NONE}
    for trait, scale in sizes.items():
        (made,) = set_ups(demo_workspace, [ToSee("gate", "anthriscus-sylvestris", trait, must=True)])
        assert made.scale is scale


def test_nothing_is_held_beside_what_is_harmful(demo_workspace: Workspace) -> None:
    for taxon in (t for t in demo_workspace.taxa.values() if t.hazard_class.is_harmful):
        for trait in demo_workspace.traits:
            (made,) = set_ups(demo_workspace, [ToSee("gate", taxon.id, trait, must=True)])
            assert made.scale in (Scale.NONE, Scale.PERSON)


def test_pictures_that_the_walk_cannot_do_without_come_first_at_each_stop(demo_workspace: Workspace) -> None:
    asked = [ToSee("gate", "conium-maculatum", "petal-colour", must=False), ToSee("gate", "conium-maculatum", "stem-hairs", must=True)]
    assert [s.must for s in set_ups(demo_workspace, asked)] == [True, False]
