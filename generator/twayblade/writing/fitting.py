"""How a key is made to fit its paper, in a stated order, and what is said of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from enum import StrEnum
from math import ceil

from twayblade.writing.key_layout import Layout


class PrintForm(StrEnum):
    """What a key is printed as."""

    FOLD = "fold"  # one sheet, folded to a booklet of eight pages
    CARD = "card"  # a flat card of half a sheet's size, printed on both sides
    LARGE = "large"  # flat pages of a sheet's size in large print

    @property
    def words(self) -> str:
        """What it is, in words."""
        return {"fold": "One sheet to fold to a booklet", "card": "Flat cards", "large": "Large print"}[self.value]

    @property
    def marked(self) -> str:
        """What its address adds to that of the key: nothing for the first form, whose address signs carry."""
        return "" if self is PrintForm.FOLD else self.value


class Sheet(StrEnum):
    """The paper in the printer."""

    A4 = "a4"
    LETTER = "letter"


_ORDINALS = {2: "second", 3: "third", 4: "fourth", 5: "fifth"}
_NUMBERS = {1: "one", 2: "two", 3: "three", 4: "four"}


@dataclass(frozen=True)
class Paper:
    """What one piece of paper holds: its name, and how many pages."""

    name: str
    pages: int


@dataclass(frozen=True)
class Way:
    """A way of setting a key: its layout, its signs a couplet at the most, whether a couplet may go on overleaf, whether what the leads ask
    for is drawn beside them, and if not, how many of the things to look at are drawn in the notes."""

    layout: Layout
    signs: int
    overleaf: bool = False
    drawn: bool = False
    drawn_in_notes: int = 1000


@dataclass(frozen=True)
class Fit:
    """How a key fits: the way it is set, its pieces of paper, and in sentences what was given up and why."""

    way: Way
    pieces: int
    remarks: tuple[str, ...]


def fit(pages_of: Callable[[Way], int], way: Way, paper: Paper, is_booklet: bool) -> Fit:
    """Fits a key onto one piece of paper if that can be.

    The order of what is given up: first the drawings beside the leads; in a booklet then the indented layout; then third signs, then
    second signs; in a booklet then whole couplets, which may go on overleaf; at last one piece of paper. After the last two every sign
    comes back for which there is room.
    pages_of: measures how many pages a way takes.
    """
    remarks: list[str] = []
    needed = pages_of(way)
    if needed > paper.pages and way.drawn:
        remarks.append(f"With drawings beside the leads it takes {_over(needed, paper)}, so they stand in the notes.")
        way = replace(way, drawn=False)
        needed = pages_of(way)
    if needed > paper.pages and way.layout is Layout.INDENTED and is_booklet:
        remarks.append(f"Indented it takes {_over(needed, paper)}, so the leads of each couplet stand together instead.")
        way = replace(way, layout=Layout.BRACKETED)
        needed = pages_of(way)
    signs, bare, given_up = way.signs, way, []
    while needed > paper.pages and bare.signs > 1:
        given_up.append(f"With {_ordinal(bare.signs)} signs it takes {_over(needed, paper)}, so they are left out.")
        bare = replace(bare, signs=bare.signs - 1)
        needed = pages_of(bare)
    if needed <= paper.pages:
        return Fit(bare, 1, (*remarks, *given_up, f"It fits one {paper.name} with {_signs(bare.signs, signs)}."))
    remarks.append(f"With {_signs(1, 0)} it takes {_over(needed, paper)}.")
    if is_booklet:
        bare = replace(bare, overleaf=True)
        needed = pages_of(bare)
        if needed <= paper.pages:
            bare = _refilled(pages_of, bare, signs, paper.pages)
            remarks.append(f"With couplets that go on overleaf it fits one {paper.name}, with {_signs(bare.signs, signs)}.")
            return Fit(bare, 1, tuple(remarks))
        bare = replace(bare, overleaf=False)
        needed = pages_of(bare)
    pieces = ceil(needed / paper.pages)
    bare = _refilled(pages_of, bare, signs, pieces * paper.pages)
    remarks.append(f"It stands on {_NUMBERS.get(pieces, str(pieces))} {paper.name}s, with {_signs(bare.signs, signs)}.")
    return Fit(bare, pieces, tuple(remarks))


def most_drawn(fits: Callable[[Way], bool], way: Way, most: int) -> Way:
    """The way with the most things drawn in its notes that still fits; with all of them, if it does not fit with none either."""
    low, high = 0, most
    if fits(replace(way, drawn_in_notes=high)) or not fits(replace(way, drawn_in_notes=low)):
        return way
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if fits(replace(way, drawn_in_notes=middle)) else (low, middle)
    return replace(way, drawn_in_notes=low)


def _refilled(pages_of: Callable[[Way], int], bare: Way, signs: int, pages: int) -> Way:
    """The way with the most signs that so many pages hold; the bare one is known to fit."""
    ways = (replace(bare, signs=more) for more in range(signs, bare.signs, -1))
    return next((way for way in ways if pages_of(way) <= pages), bare)


def _over(needed: int, paper: Paper) -> str:
    more = needed - paper.pages
    return f"{needed} pages, {more} more than one {paper.name} has"


def _signs(held: int, wanted: int) -> str:
    if held == wanted:
        return "every sign"
    return "one sign a couplet" if held == 1 else f"up to {_NUMBERS.get(held, str(held))} signs a couplet"


def _ordinal(number: int) -> str:
    return _ORDINALS.get(number, f"{number}th")
