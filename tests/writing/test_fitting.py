"""The order in which a key that is too long for its paper is made to fit, and that what is said of it is true."""

from __future__ import annotations

from collections.abc import Callable
from math import ceil

from hypothesis import given
from hypothesis import strategies as st

from twayblade.writing.fitting import Paper, Way, fit
from twayblade.writing.key_layout import Layout

SHEET = Paper("sheet", 8)


def pages(per_sign: float, first: float = 4.0, indented: float = 1.0, overleaf: float = 1.0) -> Callable[[Way], int]:
    """A made-up measure: pages for first signs, for each further sign, and how the indented layout and going on overleaf change them."""

    def measured(way: Way) -> int:
        length = first + per_sign * (way.signs - 1)
        return ceil(length * (indented if way.layout is Layout.INDENTED else 1.0) * (overleaf if way.overleaf else 1.0))

    return measured


def test_what_fits_is_left_as_it_is() -> None:
    found = fit(pages(1), Way(Layout.INDENTED, 3), SHEET, is_booklet=True)
    assert (found.way, found.pieces) == (Way(Layout.INDENTED, 3), 1)
    assert found.remarks == ("It fits one sheet with every sign.",)


def test_third_signs_go_before_second_signs() -> None:
    assert fit(pages(2.5), Way(Layout.BRACKETED, 3), SHEET, is_booklet=True).way.signs == 2
    found = fit(pages(5), Way(Layout.BRACKETED, 3), SHEET, is_booklet=True)
    assert found.way.signs == 1
    assert [remark[:10] for remark in found.remarks] == ["With third", "With secon", "It fits on"]
    assert "14 pages, 6 more than one sheet has" in found.remarks[0]
    assert "9 pages, 1 more than one sheet has" in found.remarks[1]


def test_a_booklet_gives_up_the_indented_layout_first_and_a_card_keeps_it() -> None:
    measured = pages(1, indented=1.5)
    booklet = fit(measured, Way(Layout.INDENTED, 3), SHEET, is_booklet=True)
    assert (booklet.way, booklet.pieces) == (Way(Layout.BRACKETED, 3), 1)
    assert booklet.remarks[0].startswith("Indented it takes 9 pages, 1 more")
    assert fit(measured, Way(Layout.INDENTED, 3), SHEET, is_booklet=False).way == Way(Layout.INDENTED, 2)


def test_couplets_go_on_overleaf_before_a_second_sheet_and_signs_come_back() -> None:
    found = fit(pages(0.1, first=9, overleaf=0.85), Way(Layout.BRACKETED, 3), SHEET, is_booklet=True)
    assert (found.way, found.pieces) == (Way(Layout.BRACKETED, 3, overleaf=True), 1)


def test_a_second_sheet_comes_last_and_every_sign_that_it_holds_comes_back() -> None:
    found = fit(pages(2, first=10), Way(Layout.BRACKETED, 3), SHEET, is_booklet=True)
    assert (found.way, found.pieces) == (Way(Layout.BRACKETED, 3), 2)
    assert found.remarks[-1] == "It stands on two sheets, with every sign."
    assert fit(pages(6, first=10), Way(Layout.BRACKETED, 3), SHEET, is_booklet=True).way.signs == 2


@given(st.floats(0, 9), st.floats(0.5, 60), st.floats(1, 3), st.floats(0.5, 1), st.integers(1, 3), st.sampled_from(Layout), st.booleans())
def test_the_key_never_takes_more_paper_than_is_said_nor_more_than_it_must(
    per_sign: float, first: float, indented: float, overleaf: float, signs: int, layout: Layout, is_booklet: bool
) -> None:
    measured = pages(per_sign, first, indented, overleaf)
    found = fit(measured, Way(layout, signs), SHEET, is_booklet)
    assert measured(found.way) <= found.pieces * SHEET.pages
    assert found.pieces == 1 or measured(Way(found.way.layout, 1)) > (found.pieces - 1) * SHEET.pages
    assert found.way.signs <= signs
    assert found.remarks
    assert ("every sign" in found.remarks[-1]) == (found.way.signs == signs)
    assert any("overleaf" in remark for remark in found.remarks) == found.way.overleaf
