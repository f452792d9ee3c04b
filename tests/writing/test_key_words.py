"""The words of a pocket key, after the rules that published guides to writing keys give."""

from __future__ import annotations

import re
from datetime import date
from typing import Any

from twayblade.knowledge.workspace import Workspace

Keys = dict[date, dict[str, Any]]

# Lab page on keys of Botany 400, University of Wisconsin-Madison: leads contrast by name and measure, never by `not so`;
# Taxacom list, September 1995: state the characters instead of `without the above combination`.
EMPTY_CONTRAST = re.compile(r"not as above|without the above|the above combination|otherwise|not so\b|unlike|plants? different", re.IGNORECASE)
RELATIVE = re.compile(r"\b(short|long|large|small|few|many|larger|smaller|taller|shorter)\b", re.IGNORECASE)
NUMBER = re.compile(r"\d+(?:\.\d+)?")


def couplets(key: dict[str, Any]) -> dict[int, dict[str, Any]]:
    return {couplet["number"]: couplet for couplet in key["couplets"]}


def ends_of(key: dict[str, Any], to: int | list[str], above: tuple[int, ...] = ()) -> set[str]:
    """The taxa that a lead comes to in the end. A key that turned in a circle would be caught here."""
    if isinstance(to, list):
        return set(to)
    assert to not in above
    return set().union(*(ends_of(key, lead["to"], (*above, to)) for lead in couplets(key)[to]["leads"]))


def test_couplets_are_numbered_from_one_in_reading_order(demo_keys: Keys) -> None:
    for key in demo_keys.values():
        assert [couplet["number"] for couplet in key["couplets"]] == list(range(1, len(key["couplets"]) + 1))


def test_both_leads_name_the_same_thing_first(demo_keys: Keys) -> None:
    """Botany 400, University of Wisconsin-Madison: the same initial word in both leads."""
    for key in demo_keys.values():
        for couplet in key["couplets"]:
            first, second = (lead["text"] for lead in couplet["leads"])
            assert first.split()[0] == second.split()[0]
            assert first != second


def test_both_leads_of_a_couplet_are_of_one_trait(demo_keys: Keys) -> None:
    """Flora of China, guide to mosses, section 7: every feature of the first lead is contrasted in the second."""
    for key in demo_keys.values():
        for couplet in key["couplets"]:
            first, second = (lead["traits"] for lead in couplet["leads"])
            assert first == second
            assert len(first) == 1


def test_no_lead_contrasts_by_mere_denial_of_the_other(demo_keys: Keys) -> None:
    for key in demo_keys.values():
        assert [lead["text"] for c in key["couplets"] for lead in c["leads"] if EMPTY_CONTRAST.search(lead["text"])] == []


def test_leads_about_numbers_give_numbers_that_do_not_meet(demo_keys: Keys, demo_workspace: Workspace) -> None:
    """Botany 400 again: measurements in place of relative words."""
    seen = 0
    for key in demo_keys.values():
        for couplet in key["couplets"]:
            trait = demo_workspace.traits[couplet["leads"][0]["traits"][0]]
            if not trait.kind.is_numeric:
                continue
            seen += 1
            texts = [lead["text"] for lead in couplet["leads"]]
            told = ["0" if re.search(r"\bno\b", text) else NUMBER.search(text)[0] for text in texts]  # type: ignore[index]
            assert told[0] != told[1] or "more than" in " ".join(texts)
            assert {"more" in text for text in texts} == {True, False}
            if trait.kind == "count":
                assert not RELATIVE.search(" ".join(text.partition(" with ")[2] for text in texts))
    assert seen


def test_the_lead_with_fewer_plants_comes_first(demo_keys: Keys) -> None:
    """Flora of China, guide of 1994, section 6."""
    for key in demo_keys.values():
        for couplet in key["couplets"]:
            first, second = (ends_of(key, lead["to"]) for lead in couplet["leads"])
            assert len(first) <= len(second)


def test_every_couplet_but_the_first_is_reached_and_says_from_where(demo_keys: Keys) -> None:
    for key in demo_keys.values():
        assert key["couplets"][0]["back"] == []
        for couplet in key["couplets"]:
            leading = [c["number"] for c in key["couplets"] for lead in c["leads"] if lead["to"] == couplet["number"]]
            assert couplet["back"] == sorted(set(leading))
            assert couplet["back"] or couplet["number"] == 1


def test_every_plant_the_key_covers_is_an_end_of_it(demo_keys: Keys) -> None:
    for key in demo_keys.values():
        assert ends_of(key, 1) == set(key["covers"])


def test_every_harmful_plant_is_in_every_key_with_its_caution(demo_keys: Keys, demo_workspace: Workspace) -> None:
    harmful = {id_: taxon for id_, taxon in demo_workspace.taxa.items() if taxon.hazard_class.is_harmful}
    assert len(harmful) > 5
    for key in demo_keys.values():
        assert set(harmful) <= set(key["covers"])
        for taxon in harmful.values():
            assert taxon.profile.hazard
            assert any(taxon.profile.hazard.text.text in line for line in key["care"])


def test_plants_that_share_an_end_are_named_as_staying_together(demo_keys: Keys) -> None:
    for key in demo_keys.values():
        shared = {tuple(lead["to"]) for c in key["couplets"] for lead in c["leads"] if isinstance(lead["to"], list) and len(lead["to"]) > 1}
        assert shared == {tuple(group["taxa"]) for group in key["inseparable"]}


def test_no_lead_asks_for_a_hand_or_a_knife(demo_keys: Keys) -> None:
    for key in demo_keys.values():
        for couplet in key["couplets"]:
            for lead in couplet["leads"]:
                assert not re.search(r"\b(crush\w*|smell\w*|juice|sap|section|dig|pull|taste)\b", lead["text"], re.IGNORECASE)
