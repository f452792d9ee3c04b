"""The drawings that go with the leads of a key."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeAlias

from twayblade.writing.drawings import Drawings, Picture
from twayblade.writing.key_words import WrittenKey

Pictures: TypeAlias = Mapping[tuple[int, str], tuple[Picture, ...]]
"""For a couplet's number and the words of one of its leads, what its first sign asks for, drawn."""


def lead_pictures(drawings: Drawings, written: WrittenKey) -> Pictures:
    """The pictures of each lead; none where the first sign of a couplet cannot be drawn on each of its leads."""
    found: dict[tuple[int, str], tuple[Picture, ...]] = {}
    asked = {couplet.number: couplet for couplet in written.key.couplets}
    for words in written.couplets:
        if (couplet := asked.get(words.number)) is None:
            continue
        drawn = [drawings.of_lead(couplet.signs[0], place) for place in range(len(couplet.leads))]
        if all(drawn):
            found |= {(couplet.number, lead.text): pictures for lead, pictures in zip(words.leads, drawn, strict=True)}
    return found
