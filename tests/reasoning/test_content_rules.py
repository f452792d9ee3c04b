"""Rules about what a workspace says: for each a story that breaks it, and the same story told well."""

from __future__ import annotations

import pytest
from tests.making import disputed, number_trait, states_trait, taxon, value, workspace

from twayblade.knowledge.library import Group, Recorded, Region
from twayblade.knowledge.name import ScientificName
from twayblade.knowledge.trait import Trait
from twayblade.knowledge.values import Disagreement, Entry, Value
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.checks import check_content

MARK, SIZE = states_trait("plain", "spotted", "striped"), number_trait()
TRAITS = {"mark": MARK, "size": SIZE}
HARM = {"hazard": {"class": "poisonous", "text": "Poisonous if eaten. [A]"}, "care": ["Look only. [A]"]}


def messages(rule: str, made: Workspace) -> list[str]:
    return [f.message for f in check_content(made) if f.rule == rule]


def named(name: str, **profile: object) -> Workspace:
    return workspace(TRAITS, taxon("a", {}, name=name, **profile))


def marked(id_: str, mark: str, **profile: object) -> Taxon:
    return taxon(id_, {"mark": Value("mark", value("mark", MARK, mark).alternatives, id_, mark)}, **profile)


def of_two_minds(trait: Trait, *sides: str | dict[str, object]) -> Taxon:
    """A taxon on whose mark sources disagree, as its profile writes it and as linking reads it."""
    written = Disagreement(alternatives=tuple(Entry.model_validate(side) for side in sides))
    stated = Value("mark", disputed("mark", trait, *sides).alternatives, "a", "made")
    made = taxon("a", {"mark": stated})
    return Taxon("a", made.profile.model_copy(update={"values": {"mark": written}}), made.values)


def part(kind: str | None = None) -> dict[str, object]:
    told = {"part": "temula", "language": "Latin", "root": "temulentus", "meaning": "drunk", "fit": "obscure", "why": "unknown"}
    return told | ({"kind": kind} if kind else {})


# ---- names --------------------------------------------------------------------------------------------------


def test_an_adjective_agrees_with_its_genus() -> None:
    (message,) = messages("epithet-gender", named("Conium maculata L."))
    assert message == "`maculata` does not agree with the genus `Conium`, which is neuter (ICN Art. 23.5)"
    assert not messages("epithet-gender", named("Conium maculatum L."))
    assert not messages("epithet-gender", named("Daucus carota L."))


def test_below_the_species_it_is_the_genus_that_counts() -> None:
    assert not messages("epithet-gender", named("Solanum melongena var. insanum (L.) Prain"))
    assert messages("epithet-gender", named("Solanum melongena var. insana Invented"))


def test_an_author_who_knows_the_word_settles_whether_it_agrees() -> None:
    assert not messages("epithet-gender", named("Chaerophyllum temula L.", **{"name-meaning": [part()]}))
    assert not messages("epithet-gender", named("Chaerophyllum temula L.", **{"name-meaning": [part("noun")]}))
    assert messages("epithet-gender", named("Chaerophyllum temula L.", **{"name-meaning": [part("adjective")]}))


def test_names_of_a_region_list_agree_too_but_animals_follow_another_code() -> None:
    def listed(name: str, family: str) -> Workspace:
        regions = {"home": Region(name="home", home=True, recorded=(Recorded(name=name),))}
        return workspace(TRAITS, taxon("a", {}, name="Planta ficta", family=family), regions=regions)

    assert messages("epithet-gender", listed("Sium latifolia", "Apiaceae"))
    assert not messages("epithet-gender", listed("Sium latifolium", "Apiaceae"))
    assert not messages("epithet-gender", listed("Grus americana", "Gruidae"))


def test_an_epithet_does_not_repeat_the_genus_of_a_plant() -> None:
    assert messages("name-tautonym", named("Linaria linaria (L.) H.Karst."))
    assert not messages("name-tautonym", named("Linaria vulgaris Mill."))
    assert not messages("name-tautonym", named("Pica pica (Linnaeus)", family="Corvidae"))


def test_a_subspecies_is_written_subsp() -> None:
    made = named("Daucus carota ssp. sativus (Hoffm.) Arcang.")
    (found,) = [f for f in check_content(made) if f.rule == "rank-abbreviation"]
    assert found.hints == ("write `Daucus carota subsp. sativus`",)
    assert made.taxa["a"].profile.name.authorship == "(Hoffm.) Arcang."
    assert not messages("rank-abbreviation", named("Daucus carota subsp. sativus (Hoffm.) Arcang."))
    assert ScientificName.model_validate("Saxifraga aizoon subf. surculosa Engl.").words == ("Saxifraga", "aizoon", "surculosa")


@pytest.mark.parametrize(
    ("text", "ambiguous"),
    [
        ("It grows with H. niger in one place.", True),
        ("H. niger grows there too.", True),
        ("Seen there. H. niger as well.", True),
        ("Heracleum sphondylium, H. mantegazzianum and others.", False),
        ("Heracleum sphondylium beside Helosciadium nodiflorum, and H. niger.", True),
        ("It grows with C. maculatum in one place.", False),
        ("C. maculatum grows there too.", True),
        ("Named by Linnaeus; Conium maculatum L. with large leaves.", False),
        ("It grows with Q. robur in one place.", False),
        ("Rich in vitamin H. also in others.", False),
    ],
)
def test_an_abbreviated_genus_can_be_read_in_one_way_only(text: str, ambiguous: bool) -> None:
    names = ("Heracleum sphondylium", "Helosciadium nodiflorum", "Conium maculatum")
    made = workspace(TRAITS, *(taxon(f"t-{n}", {}, name=name, summary=text if n == 0 else "Told.") for n, name in enumerate(names)))
    assert bool(messages("abbreviation-ambiguous", made)) == ambiguous


# ---- traits and values --------------------------------------------------------------------------------------


def test_a_trait_is_there_for_some_taxon_or_group() -> None:
    assert messages("trait-unused", workspace(TRAITS, marked("a", "plain"))) == ["no taxon has a value of `size`"]
    group = Group(name="g", singular="g", values={"size": Entry.model_validate("2-3 mm")})
    assert not messages("trait-unused", workspace(TRAITS, marked("a", "plain"), groups={"g": group}))


@pytest.mark.parametrize(
    ("own", "shared", "against"),
    [
        ("spotted", "plain", True),
        ("spotted", "usually plain", False),
        ("usually spotted, rarely plain", "plain", False),
        ("striped or spotted", "plain or spotted", False),
    ],
)
def test_a_member_keeps_to_its_group_or_tells_why_not(own: str, shared: str, against: bool) -> None:
    group = Group(name="g", singular="g", values={"mark": Entry.model_validate(shared)})
    assert bool(messages("value-against-group", workspace(TRAITS, marked("a", own, group="g"), groups={"g": group}))) == against
    noted = value("mark", MARK, {"is": own, "note": "The only one."})
    told = taxon("a", {"mark": Value("mark", noted.alternatives, "a", own)}, group="g")
    assert not messages("value-against-group", workspace(TRAITS, told, groups={"g": group}))


@pytest.mark.parametrize(
    ("sides", "agree"),
    [
        (("spotted", "spotted or striped"), True),
        (("spotted or striped", "spotted"), True),
        (("spotted", "spotted"), True),
        (("spotted", "plain"), False),
        (("spotted", "usually plain"), False),
        (("spotted or plain", "spotted or striped"), False),
        (("spotted", {"is": "spotted or striped", "doubted": "the drawing shows another plant"}), False),
    ],
)
def test_sources_disagree_only_where_they_cannot_both_be_true(sides: tuple[str | dict[str, object], ...], agree: bool) -> None:
    assert bool(messages("alternatives-agree", workspace(TRAITS, of_two_minds(MARK, *sides)))) == agree


def test_alternatives_of_different_parts_are_different_matters() -> None:
    parted = states_trait("plain", "spotted", parts={"foot": "the foot", "top": "the top"})
    sides = ({"is": "spotted", "part": "foot"}, {"is": "spotted", "part": "top"})
    assert not messages("alternatives-agree", workspace({"mark": parted}, of_two_minds(parted, *sides)))


def test_never_needs_a_source() -> None:
    assert messages("never-unsourced", workspace(TRAITS, marked("a", "usually plain, never spotted"))) == [
        "`mark` says never `spotted` without a source"
    ]
    assert not messages("source-missing", workspace(TRAITS, marked("a", "usually plain, never spotted")))
    assert not messages("never-unsourced", workspace(TRAITS, marked("a", "usually plain, never spotted [A]")))
    assert not messages("never-unsourced", workspace(TRAITS, marked("a", "usually plain")))


# ---- look-alikes --------------------------------------------------------------------------------------------


def test_members_of_a_group_are_told_apart_by_something() -> None:
    group = {"g": Group(name="g", singular="g")}
    alike = workspace(TRAITS, marked("a", "plain", group="g"), marked("b", "plain or spotted", group="g"), groups=group)
    assert messages("inseparable", alike) == ["no recorded trait tells `b` from `a`, at any time or by any means"]
    for apart in (
        workspace(TRAITS, marked("a", "plain", group="g"), marked("b", "usually spotted, rarely plain", group="g"), groups=group),
        workspace(TRAITS, marked("a", "plain", group="g"), marked("b", "plain"), groups=group),
        workspace(TRAITS, marked("a", "plain", group="g"), taxon("b", {}, group="g"), groups=group),
    ):
        assert not messages("inseparable", apart)


def test_a_look_alike_of_a_harmful_plant_carries_a_caution() -> None:
    contrast = {"contrasts": [{"from": "b", "by": ["mark"]}]}
    harmful = marked("b", "spotted", **HARM)
    (message,) = messages("care-look-alike", workspace(TRAITS, marked("a", "plain", **contrast), harmful))
    assert message == "`a` is a look-alike of `b` (poisonous), but has no `care`"
    assert not messages("care-look-alike", workspace(TRAITS, marked("a", "plain", care=["Look only. [A]"], **contrast), harmful))
    assert not messages("care-look-alike", workspace(TRAITS, marked("a", "plain", **contrast), marked("b", "spotted")))
    the_other_way = marked("b", "spotted", **HARM, contrasts=[{"from": "a", "by": ["mark"]}])
    assert messages("care-look-alike", workspace(TRAITS, marked("a", "plain"), the_other_way))


# ---- values against each other ------------------------------------------------------------------------------


def stated(*entries: str | dict[str, object], trait: Trait = MARK) -> Workspace:
    """A taxon whose mark is said in several entries."""
    return workspace({"mark": trait}, taxon("a", {"mark": Value("mark", value("mark", trait, *entries).alternatives, "a", "made")}))


def test_what_occurs_cannot_never_occur() -> None:
    (message,) = messages("value-against-itself", stated("usually spotted", "never spotted [A]"))
    assert message.startswith("`mark` says of `spotted` that it occurs, and that it never does")
    assert not messages("value-against-itself", stated("usually spotted", "never plain [A]"))


def test_never_of_another_part_or_form_contradicts_nothing() -> None:
    trait = states_trait("plain", "spotted", parts={"top": "the top"})
    assert not messages("value-against-itself", stated("usually spotted", {"is": "never spotted [A]", "part": "top"}, trait=trait))


def test_a_kind_cannot_occur_where_the_wider_state_never_does_but_the_wider_may_without_it() -> None:
    trait = Trait.model_validate(
        MARK.model_dump(by_alias=True)
        | {"states": {s: {"phrase": s, "definition": f"It is {s}."} | ({"kind-of": "spotted"} if s == "striped" else {}) for s in MARK.states}}
    )
    assert messages("value-against-itself", stated("usually striped", "never spotted [A]", trait=trait))
    assert not messages("value-against-itself", stated("usually spotted", "never striped [A]", trait=trait))


def test_what_is_absent_has_no_properties() -> None:
    traits = {"spots": number_trait("count"), "mark": states_trait("plain", "spotted", needs="spots")}

    def holding(count: str) -> Workspace:
        values = {
            "spots": value("spots", traits["spots"], count),
            "mark": Value("mark", value("mark", traits["mark"], "plain").alternatives, "a", "p"),
        }
        return workspace(traits, taxon("a", values))

    assert messages("value-against-itself", holding("0"))
    assert not messages("value-against-itself", holding("0-2"))


# ---- what nobody uses, what nobody says ---------------------------------------------------------------------


def test_a_state_that_nothing_names_is_idle() -> None:
    (message,) = messages("state-unused", stated("usually plain, rarely striped"))
    assert "`spotted`" in message
    assert not messages("state-unused", stated("usually plain, rarely striped, sometimes spotted"))


def test_the_other_of_two_states_is_needed_and_so_is_what_lies_between_two_of_an_order() -> None:
    assert not messages("state-unused", stated("plain", trait=states_trait("plain", "spotted")))
    ordered = states_trait("plain", "spotted", "striped", kind="ordered")
    assert not messages("state-unused", stated("usually plain, rarely striped", trait=ordered))
    assert messages("state-unused", stated("usually plain, rarely spotted", trait=ordered))


def test_a_trait_that_nobody_uses_is_told_once_and_not_by_its_states() -> None:
    idle = workspace(TRAITS, taxon("a", {}))
    assert not messages("state-unused", idle)
    assert len(messages("trait-unused", idle)) == 2


@pytest.mark.parametrize(("definition", "found"), [("", 1), ("  ", 1), ("Mark.", 1), ("A mark on the stem.", 0)])
def test_a_definition_says_more_than_the_name(definition: str, found: int) -> None:
    assert len(messages("definition-missing", stated("plain", trait=states_trait("plain", "spotted", definition=definition)))) == found


# ---- look-alikes seen from one side -------------------------------------------------------------------------


def told_from_b(**of_b: object) -> Workspace:
    harmful = marked("a", "plain", contrasts=[{"from": "b", "by": ["mark"]}], **HARM)
    return workspace(TRAITS, harmful, marked("b", "spotted", name="Planta altera", **of_b))


def test_what_is_told_from_a_harmful_one_speaks_of_it() -> None:
    (message,) = messages("look-alike-one-sided", told_from_b())
    assert message == "`a` (poisonous) is told from `b`, whose own profile says nothing of it"
    assert not messages("look-alike-one-sided", told_from_b(contrasts=[{"from": "a", "by": ["mark"]}]))
    assert not messages("look-alike-one-sided", told_from_b(care=["Look only: Planta ficta is much like it. [A]"]))
    assert not messages("look-alike-one-sided", told_from_b(**HARM))
