"""What a trail may choose for its pocket key, and what is refused."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

import pytest

from twayblade.knowledge.trail import KeyChoices
from twayblade.reading.workspace import load
from twayblade.writing.key_words import write_key


def _with_key(folder: Path, written: str) -> Path:
    trail = folder / "colony_walk" / "trail.yml"
    trail.write_text(trail.read_text(encoding="utf-8") + written, encoding="utf-8")
    return folder


def test_a_trail_says_nothing_and_harm_weighs_most(penguins: Path) -> None:
    made = load(penguins).workspace
    assert made
    assert made.trails["colony_walk"].trail.key == KeyChoices()
    assert KeyChoices().harmful > KeyChoices().wrong > KeyChoices().length


def test_a_trail_sets_weights_likelihoods_and_the_size_of_couplets(penguins: Path, copy_of: Callable[[Path], Path]) -> None:
    folder = _with_key(copy_of(penguins), "key:\n  wrong: 5\n  harmful: 50.5\n  likely: {gentoo-penguin: 3}\n  most-leads: 3\n  most-signs: 1\n")
    loaded = load(folder)
    assert loaded.workspace, [p.message for p in loaded.problems]
    planned = loaded.workspace.trails["colony_walk"]
    assert planned.trail.key.harmful == Decimal("50.5")
    written = write_key(loaded.workspace, planned, planned.trail.chief_date)
    assert all(not lead.more for couplet in written.couplets for lead in couplet.leads)
    objective = written.key.objective
    assert objective.likely[written.covers.index("gentoo-penguin")] == 3


@pytest.mark.parametrize(
    ("written", "told"),
    [
        ("wrong: -3", "cannot read `-3`"),
        ("harmful: 5", "a harmful plant never weighs less"),
        ("likely: {gento-penguin: 2}", "no taxon `gento-penguin`"),
        ("likely: {gentoo-penguin: 0}", "cannot be left out of the key"),
        ("most-leads: 9", "less than or equal to 4"),
        ("most-sings: 2", "no field `most-sings`"),
    ],
)
def test_what_cannot_be_meant_is_refused_at_its_place(penguins: Path, copy_of: Callable[[Path], Path], written: str, told: str) -> None:
    folder = _with_key(copy_of(penguins), f"key:\n  {written}\n")
    found = [p for p in load(folder).problems if p.place.file == "colony_walk/trail.yml"]
    assert [told in p.message for p in found] == [True], [p.message for p in found]
