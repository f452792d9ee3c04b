"""Publishing: all or nothing, over a site made here or nowhere, and the same site from the same knowledge."""

from __future__ import annotations

import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result
from tests.site.built import lost_links, read_site

Run = Callable[..., Result]
Copy = Callable[[Path], Path]

LANTERN = "content/species/lantern-penguin.yml"
DATED_BY_MKDOCS = {"sitemap.xml", "sitemap.xml.gz"}


def contents(folder: Path) -> dict[str, bytes]:
    return {file.relative_to(folder).as_posix(): file.read_bytes() for file in folder.rglob("*") if file.is_file()}


def undated(folder: Path) -> dict[str, bytes]:
    return {name: held for name, held in contents(folder).items() if name not in DATED_BY_MKDOCS}


def bare(folder: Path) -> subprocess.CompletedProcess[str]:
    """MkDocs as its users start it, without the command of this project."""
    return subprocess.run([sys.executable, "-m", "mkdocs", "build", "--quiet"], cwd=folder, capture_output=True, text=True, check=False)


def break_it(folder: Path) -> None:
    text = (folder / LANTERN).read_text(encoding="utf-8")
    (folder / LANTERN).write_text(text.replace("body-mass: 900-1500 g", "body-mass: 900-2900 g"), encoding="utf-8")


@pytest.fixture(scope="module")
def penguin_site(penguins: Path, tmp_path_factory: pytest.TempPathFactory, run: Run) -> Path:
    folder = tmp_path_factory.mktemp("penguins") / "site"
    result = run("-C", penguins, "build", "--to", folder)
    assert result.exit_code == 0, result.output
    return folder


@pytest.fixture
def colony(copy_of: Copy, penguins: Path, penguin_site: Path) -> Path:
    """A copy of the penguins with the site that has been made of them."""
    folder = copy_of(penguins)
    shutil.copytree(penguin_site, folder / "site")
    return folder


def test_the_penguins_have_a_site_without_a_lost_link(colony: Path) -> None:
    pages = read_site(colony / "site")
    assert {"index.html", "taxa/lantern-penguin.html", "trails/colony_walk.html", "keys/colony_walk-2026-12-12.html"} <= set(pages)
    assert lost_links(colony / "site", pages) == []


def test_building_again_makes_the_same_site_to_the_byte_and_leaves_nothing_beside_it(colony: Path, run: Run) -> None:
    before, beside = undated(colony / "site"), sorted(p.name for p in colony.iterdir())
    assert run("-C", colony, "build").exit_code == 0
    assert undated(colony / "site") == before
    assert sorted(p.name for p in colony.iterdir()) == beside


def test_what_is_gone_from_the_content_is_gone_from_the_site(colony: Path, run: Run) -> None:
    (colony / "content/pages/visit.md").write_text("# Visit\n", encoding="utf-8")
    assert run("-C", colony, "build").exit_code == 0
    assert (colony / "site/visit.html").is_file()
    (colony / "content/pages/visit.md").unlink()
    assert run("-C", colony, "build").exit_code == 0
    assert not (colony / "site/visit.html").exists()


def test_with_an_error_in_the_content_the_old_site_stays_as_it_was(colony: Path, run: Run) -> None:
    before = contents(colony / "site")
    break_it(colony)
    result = run("-C", colony, "build")
    assert result.exit_code == 1
    assert LANTERN in result.stderr
    assert contents(colony / "site") == before


def test_a_bare_mkdocs_refuses_the_same_error_and_leaves_the_old_site_too(colony: Path) -> None:
    before = contents(colony / "site")
    break_it(colony)
    made = bare(colony)
    assert made.returncode != 0
    assert f"{LANTERN}:" in made.stderr
    assert "contrast-does-not-separate" in made.stderr
    assert "Traceback" not in made.stderr
    assert contents(colony / "site") == before


@pytest.mark.parametrize("name", ["year.html", "taxa/lantern-penguin.md", "keys/colony_walk-2026-12-12.pdf"])
def test_a_written_page_with_the_address_of_one_worked_out_is_refused_by_name(colony: Path, run: Run, name: str) -> None:
    before = contents(colony / "site")
    page = colony / "content/pages" / name
    page.parent.mkdir(exist_ok=True)
    page.write_text("# Mine\n", encoding="utf-8")
    result = run("-C", colony, "build")
    assert result.exit_code == 1
    assert f"content/pages/{name}" in result.stderr
    assert contents(colony / "site") == before


def test_a_bare_mkdocs_refuses_such_a_page_before_it_clears_the_old_site(colony: Path) -> None:
    before = contents(colony / "site")
    (colony / "content/pages/year.md").write_text("# Mine\n", encoding="utf-8")
    made = bare(colony)
    assert made.returncode != 0
    assert "content/pages/year.md" in made.stderr
    assert contents(colony / "site") == before


def test_a_link_to_nowhere_in_a_written_page_stops_the_build(colony: Path, run: Run) -> None:
    before = contents(colony / "site")
    (colony / "content/pages/visit.md").write_text("# Visit\n\n[Lost](nowhere.md)\n", encoding="utf-8")
    result = run("-C", colony, "build")
    assert result.exit_code == 1
    assert "nowhere.md" in result.stderr
    assert contents(colony / "site") == before


def test_a_site_without_a_first_page_is_refused(colony: Path, run: Run) -> None:
    before = contents(colony / "site")
    (colony / "content/pages/index.md").unlink()
    result = run("-C", colony, "build")
    assert result.exit_code == 1
    assert "content/pages/index.md" in result.stderr
    assert contents(colony / "site") == before


@pytest.mark.parametrize("held", ["notes.txt", "sitemap.xml", "index.html"])
def test_a_folder_that_is_no_site_made_here_is_not_built_over(run: Run, penguins: Path, tmp_path: Path, held: str) -> None:
    foreign = tmp_path / "papers"
    foreign.mkdir()
    (foreign / held).write_text("not to be lost", encoding="utf-8")
    result = run("-C", penguins, "build", "--to", foreign)
    assert result.exit_code != 0
    assert str(foreign) in result.stderr
    assert contents(foreign) == {held: b"not to be lost"}


def test_a_file_in_the_place_of_the_site_is_not_built_over(run: Run, penguins: Path, tmp_path: Path) -> None:
    (tmp_path / "site").write_text("not to be lost", encoding="utf-8")
    assert run("-C", penguins, "build", "--to", tmp_path / "site").exit_code != 0
    assert (tmp_path / "site").read_text(encoding="utf-8") == "not to be lost"


@pytest.mark.parametrize("to", ["", "content", "content/pages", "content/pages/new", "..", "colony_walk"])
def test_the_sources_are_not_built_over(run: Run, copy_of: Copy, penguins: Path, to: str) -> None:
    folder = copy_of(penguins)
    before = contents(folder)
    assert run("-C", folder, "build", "--to", folder / to).exit_code != 0
    assert contents(folder) == before


def test_an_empty_folder_and_a_new_one_deep_down_may_be_built_into(run: Run, penguins: Path, tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    for to in (tmp_path / "empty", tmp_path / "quite/new"):
        assert run("-C", penguins, "build", "--to", to).exit_code == 0
        assert (to / "index.html").is_file()


def test_a_bare_mkdocs_builds_the_very_same_demo(copy_of: Copy, demo: Path, demo_site: Path) -> None:
    folder = copy_of(demo)
    made = bare(folder)
    assert made.returncode == 0, made.stderr
    one, other = undated(folder / "site"), undated(demo_site)
    assert set(one) == set(other)
    assert [name for name in one if one[name] != other[name]] == []
