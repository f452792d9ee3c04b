"""What `compare` says in the terminal."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result

from twayblade.knowledge.workspace import Workspace

Run = Callable[..., Result]

EVERY_MEANS = "eye,lens,ruler,touch,smell,cutting,digging,opening"
HANDLING = re.compile(r"\b(crush|touch|cut|smell|sniff|dig|rub|pull|break|open|scratch|squeeze)\w*\b", re.IGNORECASE)


def unwrapped(text: str) -> str:
    return " ".join(text.split())


def test_asked_by_every_means_it_still_asks_nobody_to_handle_a_plant(run: Run, demo: Path, demo_workspace: Workspace) -> None:
    for on in ("2026-06-07", "2026-07-15"):
        output = unwrapped(run("-C", demo, "compare", *demo_workspace.taxa, "--on", on, "--means", EVERY_MEANS).output)
        advice, _, cautions = output.partition(" Take care ")
        described = advice.partition("may stand among these.")[2]
        assert described
        assert cautions
        for word in ("smell", "broken", "rubbed", "section", "root"):
            assert word not in described
        assert not HANDLING.search(re.sub(r"cut into coarse lobes|finely cut", "", described))


def test_cautions_of_look_alikes_are_told_with_those_of_the_two(run: Run, demo: Path, demo_workspace: Workspace) -> None:
    result = run("-C", demo, "compare", "anthriscus-sylvestris", "aegopodium-podagraria")
    hemlock = demo_workspace.taxa["conium-maculatum"].profile.hazard
    assert hemlock
    assert unwrapped(hemlock.text.text) in unwrapped(result.output)


@pytest.mark.parametrize(("on", "heading"), [("2026-06-07", "At another time"), ("2026-07-15", "Look at")])
def test_the_beak_of_the_fruit_is_for_july_and_not_for_june(run: Run, demo: Path, on: str, heading: str) -> None:
    output = run("-C", demo, "compare", "conium-maculatum", "anthriscus-sylvestris", "--on", on).output
    before = unwrapped(output).partition("the fruit has no beak")[0]
    assert before != unwrapped(output)
    headings = ("Look at", "At another time", "Do not rely on")
    assert max(headings, key=before.rfind) == heading


def test_what_is_alike_stands_under_what_not_to_rely_on(run: Run, penguins: Path) -> None:
    output = run("-C", penguins, "compare", "adelie-penguin", "gentoo-penguin").output
    assert "Length of the flipper: they overlap" in unwrapped(output.partition("Do not rely on")[2])
