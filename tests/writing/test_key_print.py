"""The pocket key on paper, read back from the PDF: its size, its order, its letters."""

from __future__ import annotations

import shutil
import subprocess
from datetime import date
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

from twayblade.knowledge.workspace import Workspace
from twayblade.writing.key_words import CARE, WrittenKey, write_key
from twayblade.writing.print import key_pdf

# ISO 216: A6 is 105 by 148 mm. The standard lets paper be cut 1.5 mm off; the file has no such excuse.
A6 = (105.0, 148.0)
TOLERANCE = 0.5
POINTS_PER_MM = 72 / 25.4


@pytest.fixture(scope="module")
def written(demo_workspace: Workspace) -> WrittenKey:
    return write_key(demo_workspace, demo_workspace.trails["demo_trail"], date(2026, 6, 7))


@pytest.fixture(scope="module")
def made(demo_workspace: Workspace, written: WrittenKey) -> bytes:
    return key_pdf(demo_workspace, written)


@pytest.fixture(scope="module")
def pages(made: bytes) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in PdfReader(BytesIO(made)).pages]


def test_every_page_is_a6(made: bytes) -> None:
    for page in PdfReader(BytesIO(made)).pages:
        width, height = float(page.mediabox.width) / POINTS_PER_MM, float(page.mediabox.height) / POINTS_PER_MM
        assert (width, height) == pytest.approx(A6, abs=TOLERANCE)


def test_the_first_page_says_what_day_it_is_for_and_to_look_only(pages: list[str]) -> None:
    assert CARE in pages[0]
    assert "7 June 2026" in pages[0]


def test_the_couplets_are_read_in_their_order(pages: list[str], written: WrittenKey) -> None:
    text = " ".join(pages)
    at = text.index(" Key ")
    for couplet in written.couplets:
        head = f" {couplet.number} (from {', '.join(map(str, couplet.back))})" if couplet.back else " 1 "
        at = text.index(head, at)
        for lead in couplet.leads:
            at = text.index(" ".join(lead.text.split()[:2]), at)
    assert text.index("Harmful plants in this key") > at


def test_every_harmful_plant_has_its_caution_in_print(pages: list[str], written: WrittenKey, demo_workspace: Workspace) -> None:
    text = " ".join(pages)
    for id_ in written.covers:
        taxon = demo_workspace.taxa[id_]
        if taxon.hazard_class.is_harmful:
            assert taxon.profile.hazard
            opening = " ".join(taxon.profile.hazard.text.text.split()[:4])
            assert opening in text


def test_no_letter_is_smaller_than_nine_points(made: bytes) -> None:
    sizes: list[float] = []

    def note(text: str, placed: list[float], scaled: list[float], font: object, size: float) -> None:
        if text.strip():
            sizes.append(size * abs(placed[3] * scaled[3]))

    for page in PdfReader(BytesIO(made)).pages:
        page.extract_text(visitor_text=note)
    assert len(sizes) > 100
    assert min(sizes) >= 9


def test_the_same_key_makes_the_same_file(demo_workspace: Workspace, written: WrittenKey, made: bytes) -> None:
    assert key_pdf(demo_workspace, written) == made


def test_a_key_without_harm_has_no_heading_without_words(penguin_workspace: Workspace) -> None:
    written = write_key(penguin_workspace, penguin_workspace.trails["colony_walk"], date(2026, 12, 12))
    text = " ".join(page.extract_text() for page in PdfReader(BytesIO(key_pdf(penguin_workspace, written))).pages)
    assert "lantern penguin" in text
    assert "Harmful" not in text
    assert "leaves out" not in text


@pytest.mark.poppler
@pytest.mark.skipif(shutil.which("pdftoppm") is None, reason="pdftoppm (Debian: poppler-utils) is not installed, so no page can be drawn")
def test_a_page_can_be_drawn_and_is_not_empty(made: bytes, tmp_path: Path) -> None:
    (tmp_path / "key.pdf").write_bytes(made)
    subprocess.run(["pdftoppm", "-r", "50", "-gray", "-f", "1", "-l", "1", "key.pdf", "page"], cwd=tmp_path, check=True)
    (drawn,) = tmp_path.glob("page*.pgm")
    magic, width, height, _, pixels = drawn.read_bytes().split(maxsplit=4)
    assert magic == b"P5"
    assert (int(width), int(height)) == pytest.approx((A6[0] / 25.4 * 50, A6[1] / 25.4 * 50), abs=2)
    assert 0.02 < sum(level < 128 for level in pixels) / len(pixels) < 0.5
