"""What the tests share: the two workspaces, copies of them to break, the command, and the demo site, built once."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from hypothesis import settings

from twayblade.cli import main
from twayblade.knowledge.workspace import Workspace
from twayblade.reading.workspace import load

settings.register_profile("unhurried", deadline=None)  # how long a case takes says nothing on a busy machine
settings.load_profile("unhurried")

ROOT = Path(__file__).resolve().parent.parent
DEMO_DATES = (date(2026, 5, 16), date(2026, 6, 7), date(2026, 7, 15), date(2026, 9, 16))


@pytest.fixture(scope="session")
def demo() -> Path:
    """The workspace of the demonstration: the top of the repository."""
    return ROOT


@pytest.fixture(scope="session")
def penguins() -> Path:
    """A small workspace about something that is not a plant."""
    return ROOT / "tests" / "penguins"


def _loaded(folder: Path) -> Workspace:
    loaded = load(folder)
    assert loaded.workspace, [f"{p.place.file}:{p.place.line} {p.message}" for p in loaded.problems]
    return loaded.workspace


@pytest.fixture(scope="session")
def demo_workspace(demo: Path) -> Workspace:
    return _loaded(demo)


@pytest.fixture(scope="session")
def penguin_workspace(penguins: Path) -> Workspace:
    return _loaded(penguins)


def copy_workspace(folder: Path, to: Path) -> Path:
    """Copy what makes a workspace and nothing else: mkdocs.yml, content/, and the folders that hold a trail."""
    to.mkdir(parents=True)
    shutil.copy2(folder / "mkdocs.yml", to)
    shutil.copytree(folder / "content", to / "content")
    for trail in folder.glob("*/trail.yml"):
        shutil.copytree(trail.parent, to / trail.parent.name)
    return to


@pytest.fixture
def copy_of(tmp_path: Path) -> Callable[[Path], Path]:
    """Copies a workspace into a folder of this test's own, where it may be changed or broken."""

    def copied(folder: Path) -> Path:
        number = sum(1 for entry in tmp_path.iterdir() if entry.name.startswith("copy-"))
        return copy_workspace(folder, tmp_path / f"copy-{number}")

    return copied


@pytest.fixture(scope="session")
def run() -> Callable[..., Result]:
    """Runs the command in this process: `run("-C", folder, "check")`. An unforeseen exception fails the test."""

    def ran(*words: object) -> Result:
        result = CliRunner().invoke(main, [str(word) for word in words])
        if result.exception and not isinstance(result.exception, SystemExit):
            raise result.exception
        return result

    return ran


@pytest.fixture(scope="session")
def demo_site(demo: Path, tmp_path_factory: pytest.TempPathFactory, run: Callable[..., Result]) -> Path:
    """The site of the demonstration, built once."""
    folder = tmp_path_factory.mktemp("demo") / "site"
    result = run("-C", demo, "build", "--to", folder)
    assert result.exit_code == 0, result.output
    return folder


def _printed(run: Callable[..., Result], demo: Path, command: str) -> dict[date, dict[str, Any]]:
    found = {}
    for on in DEMO_DATES:
        result = run("-C", demo, command, "--on", on, "--format", "json")
        assert result.exit_code == 0, result.output
        found[on] = json.loads(result.stdout)
    return found


@pytest.fixture(scope="session")
def demo_scripts(demo: Path, run: Callable[..., Result]) -> dict[date, dict[str, Any]]:
    """The script of the demonstration as `script --format json` prints it, for each of its dates."""
    return _printed(run, demo, "script")


@pytest.fixture(scope="session")
def demo_keys(demo: Path, run: Callable[..., Result]) -> dict[date, dict[str, Any]]:
    """The pocket key of the demonstration as `key --format json` prints it, for each of its dates."""
    return _printed(run, demo, "key")
