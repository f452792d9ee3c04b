"""Every rule has a page, and the page keeps its word: its example fails by that rule, and mended it is clean."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from twayblade.knowledge.problem import Problem, Severity
from twayblade.knowledge.rules import RULES
from twayblade.reading.workspace import load
from twayblade.reasoning.checks import check_content
from twayblade.writing.text_checks import check_scripts

ROOT = Path(__file__).parents[2]
PENGUINS = ROOT / "tests" / "penguins"
FAILS, MENDED = "An example that fails", "The example mended"
FENCE = re.compile(r"^```(?P<kind>\S+) (?P<file>\S+)\n(?P<body>.*?)^```$", re.MULTILINE | re.DOTALL)


def problems_of(folder: Path) -> list[Problem]:
    """What `check` reports: the finished text is looked at only where nothing else is wrong."""
    loaded = load(folder)
    if not loaded.workspace:
        return list(loaded.problems)
    found = [*loaded.problems, *(loaded.place(f) for f in check_content(loaded.workspace))]
    if not any(p.severity is Severity.ERROR for p in found):
        found += [loaded.place(f) for f in check_scripts(loaded.workspace)]
    return found


def laid_over_penguins(rule: str, heading: str, tmp_path: Path) -> Path:
    """A copy of the penguins over which the fences of one section of a page are laid."""
    folder = tmp_path / "workspace"
    shutil.copytree(PENGUINS, folder)
    section = RULES[rule].page.split(f"\n## {heading}\n")[1].split("\n## ")[0]
    fences = list(FENCE.finditer(section))
    assert fences, f"the page of {rule} shows no file under `{heading}`"
    for fence in fences:
        file = folder / fence["file"]
        if fence["kind"] == "delete":
            assert not fence["body"]
            file.unlink()
        else:
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_bytes(bytes.fromhex(fence["body"]) if fence["kind"] == "bytes" else fence["body"].encode())
    return folder


def test_the_penguins_that_the_examples_are_laid_over_are_clean():
    assert problems_of(PENGUINS) == []


def test_there_is_no_page_without_a_rule():
    pages = {p.stem for p in (ROOT / "generator/twayblade/knowledge/rule_pages").glob("*.md")}
    assert pages == set(RULES)


@pytest.mark.parametrize("rule", RULES)
def test_a_page_has_its_four_parts_and_says_something_in_each(rule):
    page = RULES[rule].page
    assert page.startswith(f"# {rule}\n\n")
    assert re.findall(r"^## (.+)$", FENCE.sub("", page), re.MULTILINE) == ["Why it matters", FAILS, MENDED]
    meaning, why, *_ = re.split(r"^## .+$", page.partition("\n")[2], flags=re.MULTILINE)
    assert len(meaning.split()) > 8
    assert 20 < len(why.split()) < 100


@pytest.mark.parametrize("rule", RULES)
def test_the_failing_example_fails_by_that_rule_at_a_place_one_can_go_to(rule, tmp_path):
    folder = laid_over_penguins(rule, FAILS, tmp_path)
    found = problems_of(folder)
    own = [p for p in found if p.rule == rule]
    no_text = {fence["file"] for fence in FENCE.finditer(RULES[rule].page) if fence["kind"] == "bytes"}
    assert own, f"reported instead: {[(p.rule, p.message) for p in found]}"
    assert {p.rule for p in found} <= set(RULES)
    for problem in own:
        assert problem.severity is RULES[rule].severity
        assert not problem.message.endswith(".")
        assert problem.place.file in {fence["file"] for fence in FENCE.finditer(RULES[rule].page)}
        assert problem.place.line >= 1
        assert problem.place.column >= 1
        file = folder / problem.place.file
        if file.exists() and problem.place.file not in no_text:
            assert problem.place.text == file.read_text(encoding="utf-8").splitlines()[problem.place.line - 1]
            assert problem.place.column <= len(problem.place.text)


@pytest.mark.parametrize("rule", RULES)
def test_the_failing_example_fails_by_nothing_else(rule, tmp_path):
    found = {p.rule for p in problems_of(laid_over_penguins(rule, FAILS, tmp_path))}
    assert found == {rule}


@pytest.mark.parametrize("rule", RULES)
def test_the_mended_example_is_clean(rule, tmp_path):
    assert [(p.rule, p.message) for p in problems_of(laid_over_penguins(rule, MENDED, tmp_path))] == []


def test_every_rule_id_in_the_code_is_in_the_catalogue():
    """Ids stand in the code as plain text; whatever looks like a first argument of a report must be a rule."""
    reported = re.compile(r'(?:\breport|\b_made|\bProblem|\bFinding|\b_problem|\b_unreadable)\((?:file, )?f?"([a-z]+(?:-[a-z]+)+|notation)"')
    sources = [p for floor in ("reading", "reasoning") for p in (ROOT / "generator/twayblade" / floor).rglob("*.py")]
    named = {id_ for p in sources for id_ in reported.findall(p.read_text(encoding="utf-8"))}
    assert named <= set(RULES)
    assert len(named) > 15


def test_errors_stop_a_build_and_warnings_do_not():
    assert {rule.severity for rule in RULES.values()} == set(Severity)
