"""The house stands on its floors: a module imports from its own floor and from those below it, never from above."""

from __future__ import annotations

import ast
import tomllib
from pathlib import Path

import pytest

SOURCE = Path(__file__).resolve().parent.parent / "generator" / "twayblade"
FLOORS = {"knowledge": 1, "reading": 2, "reasoning": 3, "writing": 4, "cli": 5, "site": 5}
MODULES = sorted(SOURCE.rglob("*.py"))


def name_of(module: Path) -> str:
    parts = module.relative_to(SOURCE.parent).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def imports(module: Path) -> set[str]:
    """Every module a module imports, those that it imports only when needed included."""
    found = set()
    for node in ast.walk(ast.parse(module.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{name_of(module)} imports relatively"
            assert node.module
            found |= {f"{node.module}.{alias.name}" for alias in node.names}
    return found


def floor(name: str) -> int:
    """The floor of a module of the house; the top package itself only carries the version."""
    parts = name.split(".")
    return FLOORS.get(parts[1], 0) if len(parts) > 1 else 0


def test_every_module_lives_on_a_floor() -> None:
    assert len(MODULES) > 30
    assert {name_of(m) for m in MODULES if floor(name_of(m)) == 0} == {"twayblade"}


@pytest.mark.parametrize("module", MODULES, ids=name_of)
def test_a_module_imports_from_its_own_floor_and_below(module: Path) -> None:
    own = floor(name_of(module))
    assert [name for name in imports(module) if name.startswith("twayblade.") and floor(name) > own] == []


@pytest.mark.parametrize(("package", "only"), [("mkdocs", "twayblade.site.plugin"), ("click", "twayblade.cli")])
def test_one_place_alone_speaks_to_each_of_the_frameworks(package: str, only: str) -> None:
    speaking = {name_of(m) for m in MODULES if any(name.split(".")[0] == package for name in imports(m))}
    assert speaking
    assert [name for name in speaking if name != only and not name.startswith(f"{only}.")] == []


def test_knowledge_reads_no_files_and_no_yaml() -> None:
    """Files are the business of the floor above; knowledge is nouns and their algebra."""
    for module in MODULES:
        if floor(name_of(module)) == 1 and name_of(module) != "twayblade.knowledge.rules":  # it reads the pages that stand beside it
            assert not {name.split(".")[0] for name in imports(module)} & {"yaml", "os", "pathlib", "io", "gpxpy"}


def test_every_file_that_is_no_python_goes_into_the_wheel() -> None:
    """What the package reads at run time must be named among its data, or it is there only where the source tree is."""
    patterns = tomllib.loads((SOURCE.parents[1] / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["setuptools"]["package-data"]["twayblade"]
    named = {file for pattern in patterns for file in SOURCE.glob(pattern)}
    others = {f for f in SOURCE.rglob("*") if f.is_file() and f.suffix not in (".py", ".pyc")}
    assert others - named == set()
