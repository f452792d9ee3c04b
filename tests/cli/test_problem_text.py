"""How problems are shown: place, clause, source line with a caret, help, where to read more, and a last line that counts."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result

Run = Callable[..., Result]
Copy = Callable[[Path], Path]

HEAD = re.compile(r"(?P<file>[^:\n]+):(?P<line>\d+):(?P<column>\d+) (?P<severity>error|warning) (?P<rule>[a-z-]+): (?P<message>.+)")
TRAITS, LANTERN, GENTOO = "content/traits.yml", "content/species/lantern-penguin.yml", "content/species/gentoo-penguin.yml"


def blocks(result: Result) -> list[list[str]]:
    return [block.splitlines() for block in result.output.rstrip().split("\n\n")]


@pytest.fixture
def broken(copy_of: Copy, penguins: Path) -> Path:
    """Penguins in which a file is no YAML, a trait is misspelt, and a contrast claims too much."""
    folder = copy_of(penguins)
    (folder / "content/groups/auks.yml").write_text('name: auks\nsingular: "auk\n', encoding="utf-8")
    (folder / GENTOO).write_text((folder / GENTOO).read_text(encoding="utf-8").replace("bill-depth:", "bil-depth:"), encoding="utf-8")
    return folder


def test_a_broken_file_is_shown_at_its_place_and_not_as_a_traceback(run: Run, broken: Path) -> None:
    result = run("-C", broken, "check")
    assert result.exit_code == 1
    assert "Traceback" not in result.output
    (about_auks,) = [b for b in blocks(result) if b[0].startswith("content/groups/auks.yml:")]
    head = HEAD.fullmatch(about_auks[0])
    assert head
    assert head["rule"] == "yaml-unreadable"
    assert about_auks[-1].strip() == "more: twayblade explain yaml-unreadable"


def test_every_caret_stands_under_its_column_of_the_line_that_the_file_really_has(run: Run, broken: Path) -> None:
    *problems, _ = blocks(run("-C", broken, "check"))
    carets = 0
    for head_line, *rest in problems:
        head = HEAD.fullmatch(head_line)
        assert head
        if len(rest) > 1 and rest[1].strip() == "^":
            source = (broken / head["file"]).read_text(encoding="utf-8").splitlines()[int(head["line"]) - 1]
            indent = rest[0].index(source)
            assert rest[1].index("^") == indent + int(head["column"]) - 1
            carets += 1
        assert rest[-1].strip() == f"more: twayblade explain {head['rule']}"
    assert carets


def test_all_problems_are_shown_in_one_run_sorted_by_place_and_counted(run: Run, broken: Path) -> None:
    *problems, last = blocks(run("-C", broken, "check"))
    places = [(h["file"], int(h["line"]), int(h["column"])) for head, *_ in problems if (h := HEAD.fullmatch(head))]
    assert len(places) == len(problems) >= 2
    assert places == sorted(places)
    assert last == [f"{len(problems)} errors, 0 warnings"]


def test_a_misspelt_trait_is_met_with_help(run: Run, broken: Path) -> None:
    (about,) = [b for b in blocks(run("-C", broken, "check")) if "`bil-depth`" in b[0]]
    assert "    help: did you mean `bill-depth`?" in about
    line = (broken / GENTOO).read_text(encoding="utf-8").splitlines().index("  bil-depth: 13.1-17.3 mm [GWF-2014]") + 1
    assert about[0].startswith(f"{GENTOO}:{line}:3 error id-unknown:")


def test_the_message_of_an_untrue_contrast_gives_both_values_as_the_profiles_do(run: Run, copy_of: Copy, penguins: Path) -> None:
    folder = copy_of(penguins)
    text = (folder / LANTERN).read_text(encoding="utf-8")
    (folder / LANTERN).write_text(text.replace("body-mass: 900-1500 g", "body-mass: 2500-2900 g"), encoding="utf-8")
    (about, _) = blocks(run("-C", folder, "check"))
    assert "2500-2900 g" in about[0]
    assert "2850-4775 g" in about[0]
    line = text.splitlines().index("      - body-mass") + 1
    assert about[0].startswith(f"{LANTERN}:{line}:")


@pytest.mark.parametrize(
    "content", [b"\xff\xfe\x00", b"", b"- a\n- b\n", b"name: [\n", b"\tname: x\n", b"a: &x [*x]\n", b"!!python/object:os.x {}\n", b"42"]
)
@pytest.mark.parametrize("file", [TRAITS, GENTOO, "colony_walk/trail.yml"])
def test_whatever_a_file_holds_there_is_a_finding_and_no_traceback(run: Run, copy_of: Copy, penguins: Path, file: str, content: bytes) -> None:
    folder = copy_of(penguins)
    (folder / file).write_bytes(content)
    result = run("-C", folder, "check")
    assert result.exit_code == 1
    assert HEAD.match(result.output)
    files = {found["file"] for found in json.loads(run("-C", folder, "check", "--format", "json").stdout)}
    assert file in files or not content  # of an empty file the others tell what they miss in it
