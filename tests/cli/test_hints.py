"""A wrong name is met with the nearest right one, or with what there is to choose from."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result

Run = Callable[..., Result]


@pytest.mark.parametrize(
    ("words", "hint"),
    [
        (["compare", "adelie-pengin", "gentoo-penguin"], "`adelie-penguin`"),
        (["compare", "adelie-penguin", "gento penguin"], "`gentoo penguin`"),
        (["script", "colony-walk"], "`colony_walk`"),
        (["key", "colonywalk"], "`colony_walk`"),
        (["explain", "contrast-wrog"], "`contrast-wrong`"),
        (["explain", "source-misssing"], "`source-missing`"),
    ],
)
def test_a_misspelt_name_is_met_with_the_nearest(run: Run, penguins: Path, words: list[str], hint: str) -> None:
    assert f"did you mean {hint}?" in run("-C", penguins, *words).stderr


def test_a_name_near_to_nothing_is_met_with_all_there_are(run: Run, penguins: Path) -> None:
    assert "there are colony_walk" in run("-C", penguins, "script", "zzz").stderr


def test_an_unknown_means_is_met_with_the_means_there_are(run: Run, penguins: Path) -> None:
    message = run("-C", penguins, "compare", "adelie-penguin", "gentoo-penguin", "--means", "nose").stderr
    assert "`nose`" in message
    assert all(means in message for means in ("eye", "distant-eye", "close-eye", "lens", "ruler", "touch", "smell", "cutting", "digging", "opening"))
    assert "taste" not in message


def test_a_wrong_date_is_met_with_one_that_is_right(run: Run, penguins: Path) -> None:
    message = run("-C", penguins, "script", "--on", "07/06/2026").stderr
    assert "`07/06/2026` is no date" in message
    assert "2026-06-07" in message


@pytest.mark.parametrize("name", ["gentoo-penguin", "Pygoscelis papua", "pygoscelis PAPUA", "gentoo penguin", "Gentoo Penguin"])
def test_a_taxon_goes_by_its_id_and_by_any_of_its_names(run: Run, penguins: Path, name: str) -> None:
    result = run("-C", penguins, "compare", name, "lantern-penguin")
    assert result.exit_code == 0
    assert result.output.startswith("How to tell gentoo penguin and lantern penguin apart")
