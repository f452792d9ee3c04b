"""What the pages say about harm: always there where it is needed, and never an invitation to handle anything."""

from __future__ import annotations

import re

from tests.site.built import Built

from twayblade.knowledge.workspace import Workspace

Site = dict[str, Built]

SHOWING = ("taxa/", "compare/", "groups/", "trails/", "plans/", "keys/", "recces/")
"""Where the pages stand that show plants: taxon, pair, group, trail and script, plan, key, recce sheet."""

VERBS = r"touch|crush|smell|sniff|cut|dig|open|pick|taste|eat|rub|squeeze|break|pull|snap|scratch|uproot|slice"
ASKS = re.compile(
    rf"(?:(?:^|[.:;!?]\s+|\b(?:please|then|and|or|you can|you may|try to|to see it,?)\s+)(?:{VERBS})"
    r"\s+(?:up |into |open |off )?(?:the|a|an|it|its|them|one|this|some)\b)",
    re.IGNORECASE | re.MULTILINE,
)
NEGATED = re.compile(r"\b(?:do not|don't|never|not to|without|nobody|no one|should not|must not)\b[^.;:]*", re.IGNORECASE)
SOFTENED = re.compile(r"\b(?:harmless|edible|safe to|good to eat|non-?poisonous|nontoxic)\b", re.IGNORECASE)


def asks(text: str) -> list[str]:
    return ASKS.findall(NEGATED.sub(" ", text))


def test_the_patterns_used_here_find_what_they_look_for() -> None:
    assert asks("Crush the leaf and look.")
    assert asks("Look, then cut the stem across.")
    assert asks("The stem is hollow: open it to see.")
    assert not asks("Do not pick, crush or cut the stem.")
    assert not asks("Leaf cut into coarse lobes.")


def test_no_page_asks_anyone_to_lay_hands_on_a_plant(built: Site) -> None:
    assert {page.address: found for page in built.values() if (found := asks(page.words))} == {}


def test_no_page_calls_a_plant_safe(built: Site) -> None:
    assert {page.address: found for page in built.values() if (found := SOFTENED.findall(page.words))} == {}


def test_every_page_that_shows_a_harmful_plant_or_a_look_alike_of_one_carries_its_caution(
    built: Site, alike: dict[str, frozenset[str]], demo_workspace: Workspace
) -> None:
    missing = []
    for page in built.values():
        if not page.address.startswith(SHOWING):
            continue
        shown = page.taxa
        if page.address.startswith("trails/demo_trail-"):
            shown = built["trails/demo_trail.html"].taxa
        assert shown, page.address
        for taxon in shown | {other for id_ in shown for other in alike.get(id_, ())}:
            entry = demo_workspace.taxa[taxon]
            if entry.hazard_class.is_harmful:
                assert entry.profile.hazard
                if " ".join(entry.profile.hazard.text.text.split()) not in page.words:
                    missing.append((page.address, taxon))
    assert missing == []


def test_cautions_stand_before_what_tells_the_plants_apart(built: Site) -> None:
    for page in built.values():
        if page.address.startswith("compare/"):
            care, claim = page.source.find('class="care"'), page.source.find('class="claim"')
            assert care > 0, page.address
            assert claim == -1 or care < claim


def test_every_page_says_that_it_is_no_guide_to_eating(built: Site) -> None:
    for page in built.values():
        assert page.tree.footer
        assert "guide to eating" in page.tree.footer.get_text()


def test_a_sign_that_is_absent_is_never_said_to_clear_a_plant(built: Site) -> None:
    clears = re.compile(r"\b(?:cannot be|is not|rules? out|so not|therefore not)\s+(?:hemlock|fool's parsley|cowbane|hemlock water-dropwort)\b", re.I)
    assert {page.address: found for page in built.values() if (found := clears.findall(page.words))} == {}
