"""Exit 0: nothing is wrong. Exit 1: something in the content is. Exit 2: the command was used wrongly."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result

from twayblade.knowledge.rules import RULES

Run = Callable[..., Result]
Copy = Callable[[Path], Path]

LANTERN = "content/species/lantern-penguin.yml"


def change(folder: Path, file: str, old: str, new: str) -> None:
    text = (folder / file).read_text(encoding="utf-8")
    assert old in text
    (folder / file).write_text(text.replace(old, new), encoding="utf-8")


@pytest.fixture
def unsourced(copy_of: Copy, penguins: Path) -> Path:
    """Penguins with one warning: a value that names no source."""
    folder = copy_of(penguins)
    change(folder, LANTERN, "crest: crest [invented]", "crest: crest")
    return folder


@pytest.fixture
def untrue(copy_of: Copy, penguins: Path) -> Path:
    """Penguins with one error: a contrast by mass that the data do not bear out any more."""
    folder = copy_of(penguins)
    change(folder, LANTERN, "body-mass: 900-1500 g", "body-mass: 900-2900 g")
    return folder


def test_the_penguins_are_clean_even_when_warnings_count(run: Run, penguins: Path) -> None:
    result = run("-C", penguins, "check", "--strict")
    assert result.exit_code == 0
    assert result.output.splitlines()[-1] == "0 errors, 0 warnings"


def test_the_demo_is_clean_even_when_warnings_count(run: Run, demo: Path) -> None:
    assert run("-C", demo, "check", "--strict").exit_code == 0


def test_a_warning_is_shown_but_counts_only_when_strict(run: Run, unsourced: Path) -> None:
    lenient, strict = run("-C", unsourced, "check"), run("-C", unsourced, "check", "--strict")
    assert (lenient.exit_code, strict.exit_code) == (0, 1)
    assert lenient.output == strict.output
    assert lenient.output.splitlines()[-1] == "0 errors, 1 warning"


def test_an_untrue_contrast_is_a_finding(run: Run, untrue: Path) -> None:
    result = run("-C", untrue, "check")
    assert result.exit_code == 1
    assert "contrast-does-not-separate" in result.output


@pytest.mark.parametrize("command", [["compare", "adelie-penguin", "lantern-penguin"], ["script"], ["key"], ["build"]])
def test_nothing_is_made_of_content_that_is_untrue(run: Run, untrue: Path, command: list[str]) -> None:
    result = run("-C", untrue, *command)
    assert result.exit_code == 1
    assert result.stdout == ""
    assert "contrast-does-not-separate" in result.stderr
    assert result.stderr.splitlines()[-1] == "1 error, 0 warnings"
    assert not (untrue / "site").exists()


@pytest.mark.parametrize("command", [["compare", "adelie-penguin", "lantern-penguin"], ["script"], ["key"]])
def test_a_warning_hinders_no_output(run: Run, unsourced: Path, command: list[str]) -> None:
    assert run("-C", unsourced, *command).exit_code == 0


@pytest.mark.parametrize(
    "words",
    [
        pytest.param(["chek"], id="no such command"),
        pytest.param(["check", "--hard"], id="no such option"),
        pytest.param(["check", "--format", "xml"], id="no such format"),
        pytest.param(["compare"], id="compare nothing"),
        pytest.param(["compare", "adelie-penguin"], id="compare one taxon"),
        pytest.param(["compare", "adelie-penguin", "adelie-penguin"], id="one taxon twice"),
        pytest.param(["compare", "adelie-penguin", "Pygoscelis adeliae"], id="one taxon twice, by two names"),
        pytest.param(["compare", "adelie-penguin", "dodo"], id="no such taxon"),
        pytest.param(["compare", "adelie-penguin", "gentoo-penguin", "--means", "eye,taste"], id="taste is no means"),
        pytest.param(["compare", "adelie-penguin", "gentoo-penguin", "--means", ","], id="no means at all"),
        pytest.param(["compare", "adelie-penguin", "gentoo-penguin", "--on", "2026-02-30"], id="no such day"),
        pytest.param(["compare", "adelie-penguin", "gentoo-penguin", "--on", "7 June"], id="a date in words"),
        pytest.param(["script", "elsewhere"], id="no such trail for a script"),
        pytest.param(["script", "--on", ""], id="an empty date"),
        pytest.param(["key", "elsewhere"], id="no such trail for a key"),
        pytest.param(["key", "--pdf", "no/such/folder/key.pdf"], id="a PDF into no folder"),
        pytest.param(["key", "--as", "card"], id="a form without a file"),
        pytest.param(["key", "--paper", "letter"], id="a paper without a file"),
        pytest.param(["key", "--pdf", "key.pdf", "--as", "poster"], id="no such form"),
        pytest.param(["key", "--layout", "round"], id="no such layout"),
        pytest.param(["explain", "contrast"], id="no such rule"),
    ],
)
def test_wrong_usage_is_told_apart_from_findings(run: Run, penguins: Path, words: list[str]) -> None:
    result = run("-C", penguins, *words)
    assert result.exit_code == 2
    assert result.stdout == ""
    assert result.stderr.startswith("Usage:")
    assert "Error:" in result.stderr


def test_a_folder_without_content_is_no_workspace(run: Run, tmp_path: Path) -> None:
    for command in (["check"], ["script"], ["key"], ["build"], ["compare", "a", "b"]):
        result = run("-C", tmp_path, *command)
        assert result.exit_code == 2
        assert "no workspace" in result.stderr
    assert run("-C", tmp_path / "missing", "check").exit_code == 2


def test_a_workspace_without_trails_has_no_script(run: Run, copy_of: Copy, penguins: Path) -> None:
    folder = copy_of(penguins)
    (folder / "colony_walk" / "trail.yml").unlink()
    assert run("-C", folder, "check").exit_code == 0
    result = run("-C", folder, "script")
    assert result.exit_code == 2
    assert "which trail?" in result.stderr


def test_one_trail_needs_no_naming_but_one_of_two_does(run: Run, copy_of: Copy, penguins: Path) -> None:
    folder = copy_of(penguins)
    assert run("-C", folder, "key").output == run("-C", folder, "key", "colony_walk").output == run("-C", folder, "key", "colony_walk/").output
    (folder / "second_walk").mkdir()
    (folder / "second_walk" / "trail.yml").write_bytes((folder / "colony_walk" / "trail.yml").read_bytes())
    unnamed = run("-C", folder, "key")
    assert unnamed.exit_code == 2
    assert "colony_walk" in unnamed.stderr
    assert "second_walk" in unnamed.stderr
    assert run("-C", folder, "key", "second_walk").exit_code == 0


def test_every_rule_can_be_explained_and_is_listed(run: Run) -> None:
    listing = run("explain").output
    for rule in RULES:
        assert f"\n{rule} " in f"\n{listing}"
        assert run("explain", rule).exit_code == 0


def test_a_command_works_on_the_workspace_it_stands_in(run: Run, penguins: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(penguins)
    assert run("key").output == run("-C", penguins, "key").output


@pytest.mark.parametrize("options", [[], ["--as", "card"], ["--as", "large", "--layout", "indented"], ["--paper", "letter"]])
def test_a_key_can_be_written_as_a_pdf_and_says_how_it_fits(run: Run, penguins: Path, tmp_path: Path, options: list[str]) -> None:
    result = run("-C", penguins, "key", "--pdf", tmp_path / "key.pdf", *options)
    assert result.exit_code == 0
    assert str(tmp_path / "key.pdf") in result.output
    assert re.search(r"It fits one (?:sheet|card)|In large print it takes \d+ page", result.output)
    assert (tmp_path / "key.pdf").read_bytes().startswith(b"%PDF")


def test_the_layout_of_a_key_can_be_chosen(run: Run, penguins: Path) -> None:
    bracketed, indented = (run("-C", penguins, "key", "--layout", layout) for layout in ("bracketed", "indented"))
    assert bracketed.output == run("-C", penguins, "key").output
    assert sorted(bracketed.output.split()) != sorted(indented.output.split())  # the numbers that are turned to at once are not said
    assert bracketed.output.count("lantern penguin") == indented.output.count("lantern penguin")
