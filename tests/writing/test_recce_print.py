"""The recce sheet on paper and as a table, read back."""

from __future__ import annotations

import csv
import shutil
import subprocess
from datetime import date
from io import BytesIO, StringIO
from pathlib import Path

import pytest
from pypdf import PdfReader
from tests.making import sheet_of

from twayblade.knowledge.observation import ASPECTS
from twayblade.knowledge.recce_columns import COLUMNS, PLACE
from twayblade.knowledge.workspace import Workspace
from twayblade.writing.recce_csv import sheet_csv
from twayblade.writing.recce_print import recce_pdf
from twayblade.writing.recce_words import CARE, LOCAL_FIRST, NO_PLACES, WrittenSheet

# ISO 216: A4 is 210 by 297 mm.
A4 = (210.0, 297.0)
POINTS_PER_MM = 72 / 25.4


@pytest.fixture(scope="module")
def written(demo_workspace: Workspace) -> WrittenSheet:
    return sheet_of(demo_workspace, demo_workspace.trails["demo_trail"], date(2026, 6, 7))


@pytest.fixture(scope="module")
def made(written: WrittenSheet) -> bytes:
    return recce_pdf(written)


@pytest.fixture(scope="module")
def pages(made: bytes) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in PdfReader(BytesIO(made)).pages]


def test_every_page_is_a4(made: bytes) -> None:
    for page in PdfReader(BytesIO(made)).pages:
        width, height = float(page.mediabox.width) / POINTS_PER_MM, float(page.mediabox.height) / POINTS_PER_MM
        assert (width, height) == pytest.approx(A4, abs=0.5)


def test_the_first_page_says_to_look_only_and_what_comes_first_and_warns(pages: list[str], demo_workspace: Workspace) -> None:
    for words in (CARE, LOCAL_FIRST, NO_PLACES):
        assert words in pages[0]
    hazard = demo_workspace.taxa["conium-maculatum"].profile.hazard
    assert hazard
    assert hazard.text.text[:40] in pages[0]


def test_every_stop_begins_a_page_of_its_own_and_takes_no_more_unless_it_has_several_plants(pages: list[str], written: WrittenSheet) -> None:
    starts = []
    for stop in written.stops:
        (page,) = (n for n, text in enumerate(pages) if text.startswith(f"{stop.asked.number}. {stop.asked.stop.title}"))
        starts.append(page)
    assert starts[0] == 1
    for stop, first, after in zip(written.stops, starts, [*starts[1:], len(pages)], strict=True):
        assert after - first == 1 or len(stop.plants) > 1


def test_a_stop_prints_its_plants_their_traits_with_boxes_and_what_is_asked_of_it(pages: list[str], written: WrittenSheet) -> None:
    text = " ".join(pages)
    at = 0
    for stop in written.stops:
        at = text.index(f"{stop.asked.number}. {stop.asked.stop.title}", at)
        for plant in stop.plants:
            at = text.index(plant.taxon.scientific_name, at)
            assert "not found" in text[at : at + 200].replace("\N{NO-BREAK SPACE}", " ")
            for trait in plant.traits:
                at = text.index(f"{trait.name}.", at)
                for _, printed in trait.answers.choices:
                    assert " ".join(printed.split()) in text[at : at + 900].replace("\N{NO-BREAK SPACE}", " ")
        for questions in stop.topics.values():
            for question in questions:
                at = text.index(question.name, at)


def test_a_harmful_plant_has_its_caution_on_its_own_page(pages: list[str], demo_workspace: Workspace, written: WrittenSheet) -> None:
    for stop in written.stops:
        (page,) = (text for text in pages if text.startswith(f"{stop.asked.number}. {stop.asked.stop.title}"))
        for plant in stop.plants:
            if plant.taxon.hazard_class.is_harmful:
                assert plant.taxon.profile.hazard
                assert " ".join(plant.taxon.profile.hazard.text.text.split()[:6]) in page


def test_no_letter_is_smaller_than_nine_points(made: bytes) -> None:
    sizes: list[float] = []

    def note(text: str, placed: list[float], scaled: list[float], font: object, size: float) -> None:
        if text.strip():
            sizes.append(size * abs(placed[3] * scaled[3]))

    for page in PdfReader(BytesIO(made)).pages:
        page.extract_text(visitor_text=note)
    assert len(sizes) > 100
    assert min(sizes) >= 9


def test_the_same_sheet_makes_the_same_file(written: WrittenSheet, made: bytes) -> None:
    assert recce_pdf(written) == made
    assert sheet_csv(written) == sheet_csv(written)


def test_a_sheet_about_what_has_no_seasons_asks_for_no_stage(penguin_workspace: Workspace) -> None:
    written = sheet_of(penguin_workspace, penguin_workspace.trails["colony_walk"], date(2026, 12, 12))
    text = " ".join(page.extract_text() for page in PdfReader(BytesIO(recce_pdf(written))).pages)
    assert "lantern penguin" in text.lower()
    assert "BBCH" not in text
    assert "Harmful" not in text
    assert b"BBCH" not in sheet_csv(written)


def rows_of(table: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(StringIO(table.decode("utf-8-sig"), newline="")))


def test_the_table_has_a_row_for_each_plant_trait_and_question_with_empty_cells_to_fill(written: WrittenSheet) -> None:
    rows = rows_of(sheet_csv(written))
    wanted = [
        (stop.asked.stop.id, plant.taxon.id if plant else "", what)
        for stop in written.stops
        for plant, what in [
            *((p, w) for p in stop.plants for w in ["", *(t.id for t in p.traits)]),
            *((None, a) for a in ASPECTS),
        ]
    ]
    assert [(row["locationID"], row["taxonID"], row["measurementType"]) for row in rows] == wanted
    for row in rows:
        assert row["question"]
        assert row["answers"]
        assert not any(row[c] for c in ("occurrenceStatus", "lifeStage", "measurementValue", "occurrenceRemarks", "measurementRemarks", "eventDate"))
        assert not row["question"].startswith(("=", "+", "-", "@"))  # no spreadsheet takes it for a formula


def test_the_table_carries_no_place_unless_it_is_asked_for(written: WrittenSheet) -> None:
    assert tuple(rows_of(sheet_csv(written))[0]) == COLUMNS
    placed = rows_of(sheet_csv(written, {"culvert": (51.5, -0.25)}))
    assert tuple(placed[0]) == (*COLUMNS, *PLACE)
    assert {row["decimalLatitude"] for row in placed if row["locationID"] == "culvert"} == {"51.50000"}
    assert {row["decimalLatitude"] for row in placed if row["locationID"] != "culvert"} == {""}
    # Darwin Core: coordinateUncertaintyInMeters may not be zero, and is empty if unknown.
    assert {row["coordinateUncertaintyInMeters"] for row in placed} == {""}


@pytest.mark.poppler
@pytest.mark.skipif(shutil.which("pdftoppm") is None, reason="pdftoppm (Debian: poppler-utils) is not installed, so no page can be drawn")
def test_a_page_can_be_drawn_and_is_not_empty(made: bytes, tmp_path: Path) -> None:
    (tmp_path / "recce.pdf").write_bytes(made)
    subprocess.run(["pdftoppm", "-r", "50", "-gray", "-f", "2", "-l", "2", "recce.pdf", "page"], cwd=tmp_path, check=True)
    (drawn,) = tmp_path.glob("page*.pgm")
    magic, width, height, _, pixels = drawn.read_bytes().split(maxsplit=4)
    assert magic == b"P5"
    assert (int(width), int(height)) == pytest.approx((A4[0] / 25.4 * 50, A4[1] / 25.4 * 50), abs=2)
    assert 0.02 < sum(level < 128 for level in pixels) / len(pixels) < 0.5
