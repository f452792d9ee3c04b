"""The demo as a whole: clean, and every contrast it declares falls when what it rests on is taken away."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from twayblade.knowledge.problem import Problem
from twayblade.reading.workspace import Loaded, load
from twayblade.reasoning.checks import check_content
from twayblade.reasoning.checks.contrasts import check_contrasts
from twayblade.writing.key_words import write_key
from twayblade.writing.script import write_script

DATES = [date(2026, 5, 16), date(2026, 6, 7), date(2026, 7, 15), date(2026, 9, 16)]


@pytest.fixture(scope="module")
def loaded(demo: Path) -> Loaded:
    return load(demo)


def test_the_demo_is_clean(loaded: Loaded) -> None:
    assert loaded.problems == ()
    assert check_content(loaded.draft) == ()


def test_changing_what_a_contrast_rests_on_names_its_line(loaded: Loaded) -> None:
    """Give either taxon the other's value: the contrast that rests on it must fail, at its own line."""
    workspace, changes = loaded.draft, 0
    for taxon in workspace.taxa.values():
        for number, contrast in enumerate(taxon.profile.contrasts):
            for place, ground in enumerate(contrast.by):
                for changed, model in ((taxon.id, contrast.from_), (contrast.from_, taxon.id)):
                    values = {**workspace.taxa[changed].values, ground.trait: workspace.taxa[model].values[ground.trait]}
                    other = replace(workspace, taxa={**workspace.taxa, changed: replace(workspace.taxa[changed], values=values)})
                    found = [loaded.place(f) for f in check_contrasts(other)]
                    line = loaded.documents[taxon.document].place(("contrasts", number, "by", place, "trait")).line
                    assert any(p.place.file == taxon.document and p.place.line == line for p in found), (taxon.id, contrast.from_, ground.trait)
                    changes += 1
    assert changes > 100


def _changed(folder: Path, file: str, old: str, new: str) -> list[Problem]:
    path = folder / file
    text = path.read_text(encoding="utf-8")
    assert text.count(old) == 1, (file, old)
    path.write_text(text.replace(old, new), encoding="utf-8")
    fresh = load(folder)
    found = [*fresh.problems, *(fresh.place(f) for f in check_content(fresh.draft))]
    path.write_text(text, encoding="utf-8")
    return found


@pytest.mark.parametrize(
    ("file", "old", "new", "rule"),
    [
        ("content/species/conium-maculatum.yml", "is: usually blotched", "is: usually unblotched", "contrast-"),
        ("content/species/conium-maculatum.yml", "is: usually blotched", "is: usually unblotched, rarely unblotched", "contrast-"),
        ("content/species/anthriscus-sylvestris.yml", "stem-relief: furrowed", "stem-relief: smooth", "contrast-"),
        ("content/species/conium-maculatum.yml", "stem-relief", "stem-relif", "id-unknown"),
    ],
)
def test_a_changed_file_is_caught_at_the_contrast(tmp_path: Path, copy_of, demo: Path, file: str, old: str, new: str, rule: str) -> None:  # type: ignore[no-untyped-def]
    folder = copy_of(demo)
    if file.endswith("conium-maculatum.yml") and old == "stem-relief":
        text = (folder / file).read_text(encoding="utf-8")
        old = re.search(r"\n  stem-relief:", text)[0]  # type: ignore[index]
        new = old.replace("relief", "relif")
    found = _changed(folder, file, old, new)
    assert any(p.rule.startswith(rule) for p in found)
    contrast_lines = [p for p in found if p.rule.startswith("contrast-")]
    assert contrast_lines
    assert all("trait" in p.place.text or "- " in p.place.text for p in contrast_lines)


def test_the_four_dates_differ_in_script_and_contrasts(loaded: Loaded) -> None:
    planned = loaded.draft.trails["demo_trail"]
    scripts = [write_script(loaded.draft, planned, on) for on in DATES]
    texts = {"".join(p.text for s in script.stops for p in s.parts) for script in scripts}
    contrasts = {frozenset((c.taxa, c.trait) for s in script.stops for p in s.parts for c in p.claims if c.kind == "contrast") for script in scripts}
    assert len(texts) == len(contrasts) == len(DATES)
    assert planned.trail.dates == tuple(DATES)
    assert len(planned.trail.stops) >= 7


@pytest.mark.parametrize("on", DATES)
def test_every_key_holds_every_harmful_plant_and_names_the_others_of_the_region(loaded: Loaded, on: date) -> None:
    written = write_key(loaded.draft, loaded.draft.trails["demo_trail"], on)
    harmful = {t.id for t in loaded.draft.taxa.values() if t.hazard_class.is_harmful}
    assert harmful <= set(written.covers)
    region = loaded.draft.regions["north-west-lowlands"]
    listed_only = {f"{r.common} ({r.name})" for r in region.recorded if not r.taxon and r.hazard.is_harmful}
    assert listed_only == set(written.also_harmful)


def test_every_value_of_the_demo_names_a_source(loaded: Loaded) -> None:
    for taxon in loaded.draft.taxa.values():
        for value in taxon.values.values():
            assert all(s.source for a in value.alternatives for s in a.statements), (taxon.id, value.trait)


def test_the_route_is_about_a_kilometre_and_a_half_with_heights(loaded: Loaded) -> None:
    route = loaded.draft.trails["demo_trail"].route
    assert route
    assert 1400 < route.metres < 1600
    assert all(height is not None for _, _, height in route.points)
    assert len(route.legs) == len(loaded.draft.trails["demo_trail"].trail.stops)
