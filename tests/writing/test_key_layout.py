"""Bracketed and indented: two orders of the same leads."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st
from tests.writing.made_keys import made_key, plants

from twayblade.writing.key_layout import Layout, most_signs, placed, with_signs
from twayblade.writing.key_words import WrittenKey
from twayblade.writing.terminal import key_text


def leads_in(written: WrittenKey, layout: Layout) -> list[tuple[int, str]]:
    return [(block.couplet.number, lead.text) for block in placed(written, layout) for lead in block.leads]


@given(st.integers(2, 24))
def test_both_layouts_hold_every_lead_once(number: int) -> None:
    written = made_key(plants(number))
    wanted = [(couplet.number, lead.text) for couplet in written.couplets for lead in couplet.leads]
    assert leads_in(written, Layout.BRACKETED) == wanted
    assert sorted(leads_in(written, Layout.INDENTED)) == sorted(wanted)


def test_the_indented_layout_puts_each_couplet_under_the_lead_that_comes_to_it() -> None:
    """The rule of the trade (common practice, no source): what a lead comes to stands under it before the other lead of its couplet."""
    written = made_key(plants(4), signs=1, words=1)
    shown = [(block.depth, block.leads[0].text, block.goes_on[0]) for block in placed(written, Layout.INDENTED)]
    assert shown == [
        (0, "Couplet1lead1sign1", None),
        (1, "Couplet2lead1sign1", None),
        (1, "Couplet2lead2sign1", None),
        (0, "Couplet1lead2sign1", None),
        (1, "Couplet3lead1sign1", None),
        (1, "Couplet3lead2sign1", None),
    ]


def test_a_couplet_with_two_ways_to_it_stands_once_and_the_other_way_turns_to_it() -> None:
    written = made_key(plants(4), signs=1, words=1)
    first, second, third = written.couplets
    both = replace(second, leads=(replace(second.leads[0], to=3), second.leads[1]))
    written = replace(written, couplets=(first, both, replace(third, back=(1, 2))))
    shown = [(block.couplet.number, block.goes_on[0], block.opens) for block in placed(written, Layout.INDENTED)]
    assert shown == [(1, None, True), (2, None, True), (3, None, True), (3, None, False), (2, None, False), (1, 3, False)]


@given(st.integers(1, 4), st.integers(1, 4))
def test_signs_are_left_out_from_the_last(signs: int, most: int) -> None:
    written = made_key(plants(5), signs=signs)
    assert most_signs(written) == signs
    fewer = with_signs(written, most)
    assert most_signs(fewer) == min(signs, most)
    for couplet, before in zip(fewer.couplets, written.couplets, strict=True):
        assert [lead.text for lead in couplet.leads] == [lead.text for lead in before.leads]
        assert all(old.more[: len(new.more)] == new.more for new, old in zip(couplet.leads, before.leads, strict=True))


def test_the_terminal_shows_either_layout_with_the_care_in_its_first_lines() -> None:
    some = plants(5)
    written = made_key(some)
    bracketed, indented = key_text(some, written), key_text(some, written, Layout.INDENTED)
    for text in (bracketed, indented):
        assert text.index("Do not pick") < text.index("Covers") < text.index("Couplet1lead1sign1")
        assert text.count("None of these fits?") >= 3
        assert "Deadly. Not wort 1 if the stem has rings." in " ".join(text.split())
    assert bracketed.index("Couplet1lead2sign1") < bracketed.index("Couplet2lead1sign1")
    assert indented.index("Couplet2lead1sign1") < indented.index("Couplet1lead2sign1")


def test_a_key_that_nothing_divides_says_so_and_still_carries_its_cautions() -> None:
    some = plants(3)
    text = " ".join(key_text(some, replace(made_key(some), couplets=())).split())
    assert "Nothing that may be looked at tells these apart: wort 1 ▲, wort 2 or wort 3 ▲." in text
    assert "Wort 1: deadly; wort 3: can burn skin in sunlight." in text
    assert "None of these fits?" in text
