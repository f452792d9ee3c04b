"""The script on paper, read back from the PDF: its sizes, its letters, and all that must stand on it."""

from __future__ import annotations

import re
import shutil
import subprocess
from datetime import date
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.lookalikes import look_alikes
from twayblade.writing.narrator import REFUSAL
from twayblade.writing.registers import Register, ScriptForm, cue_stops
from twayblade.writing.script import CASE_WORDS, Script, clock, write_script
from twayblade.writing.script_print import script_pdf

A4 = (210.0, 297.0)  # mm, ISO 216
POINTS_PER_MM = 72 / 25.4
SMALLEST = 14  # points, for what is read at arm's length outdoors (common practice, no source)


@pytest.fixture(scope="module")
def scripts(demo_workspace: Workspace) -> dict[date, Script]:
    pairs, walk = look_alikes(demo_workspace), demo_workspace.trails["demo_trail"]
    return {on: write_script(demo_workspace, walk, on, pairs) for on in walk.trail.dates}


@pytest.fixture(scope="module")
def made(demo_workspace: Workspace, scripts: dict[date, Script]) -> dict[tuple[date, ScriptForm], bytes]:
    return {(on, form): script_pdf(demo_workspace, script, form) for on, script in scripts.items() for form in ScriptForm}


def letters(text: str) -> str:
    """Only the letters: lines are broken, and words divided, as the paper has it."""
    return re.sub(r"[\W_]+", "", text).lower()


def texts(pdf: bytes) -> list[str]:
    return [page.extract_text() for page in PdfReader(BytesIO(pdf)).pages]


def test_every_sheet_is_a4_and_no_letter_is_smaller_than_is_read_at_arms_length(made: dict[tuple[date, ScriptForm], bytes]) -> None:
    for key, pdf in made.items():
        sizes: list[float] = []

        def note(text: str, placed: list[float], scaled: list[float], font: object, size: float, sizes: list[float] = sizes) -> None:
            if text.strip():
                sizes.append(size * abs(placed[3] * scaled[3]))

        for page in PdfReader(BytesIO(pdf)).pages:
            assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx([mm * POINTS_PER_MM for mm in A4], abs=0.5)
            page.extract_text(visitor_text=note)
        assert len(sizes) > 100
        assert min(sizes) >= SMALLEST - 0.01, key


def test_every_stop_starts_a_page_and_says_all_its_words(made: dict[tuple[date, ScriptForm], bytes], scripts: dict[date, Script]) -> None:
    for on, script in scripts.items():
        pages = [letters(text) for text in texts(made[on, ScriptForm.PAGES])]
        # Its title, the time of arrival in the margin, and how far it was to walk.
        heads = [re.compile(rf"(?:^|{letters(REFUSAL)}){n}{letters(stop.stop.title)}\d+walk{stop.metres}m") for n, stop in enumerate(script.stops, 1)]
        starts = [n for n, text in enumerate(pages) for head in heads if head.search(text)]
        assert len(starts) == len(set(starts)) == len(script.stops)
        foot = letters(f"{script.trail.trail.title}, 7")[:-1]
        whole = re.sub(rf"{foot}\d{{1,2}}[a-z]+{on.year}\d+", "", "".join(pages))
        for stop in script.stops:
            for part in stop.parts:
                assert letters(part.text) in whole, (stop.stop.id, part.kind)
            for asked in stop.questions:
                assert letters(asked.question + asked.answer) in whole
            for branch in stop.branches:
                assert letters(f"{CASE_WORDS[branch.case]} ({clock(branch.seconds)})") in whole
                for part in branch.parts:
                    assert letters(part.text) in whole


def test_each_part_has_its_time_beside_it(made: dict[tuple[date, ScriptForm], bytes], scripts: dict[date, Script]) -> None:
    for on, script in scripts.items():
        found = " ".join(texts(made[on, ScriptForm.PAGES]))
        marks, elapsed = set(re.findall(r"\b\d+:\d\d\b", found)), 0
        for stop in script.stops:
            elapsed += stop.walk_seconds
            for part in stop.parts:
                assert clock(elapsed) in marks
                elapsed += part.seconds


def test_cards_hold_every_line_and_each_sheet_four_cards_with_the_stop_on_each(
    demo_workspace: Workspace, made: dict[tuple[date, ScriptForm], bytes], scripts: dict[date, Script]
) -> None:
    for on, script in scripts.items():
        pages = texts(made[on, ScriptForm.CARDS])
        whole = letters(" ".join(pages))
        titles = [stop.stop.title for stop in script.stops]
        heads = [sum(len(re.findall(rf"^{n}\. ", text, re.MULTILINE)) for n in range(1, len(titles) + 1)) for text in pages]
        assert heads[0] == 3  # beside the first card, which is the walk's own
        assert all(count == 4 for count in heads[1:-1])
        assert 1 <= heads[-1] <= 4
        for stop in cue_stops(demo_workspace, script, Register.CARDS):
            for line in (line for cue in stop.cues for line in cue.lines):
                words = letters(line.text)
                # A line taller than a card goes on under the title of the next one.
                assert words in whole or (letters(line.text[:120]) in whole and letters(line.text[-60:]) in whole), line.text


@pytest.mark.parametrize("form", list(ScriptForm))
def test_it_says_to_look_only_and_what_is_invented_first(
    made: dict[tuple[date, ScriptForm], bytes], scripts: dict[date, Script], form: ScriptForm
) -> None:
    for on, script in scripts.items():
        first = letters(texts(made[on, form])[0])
        assert letters(REFUSAL) in first
        assert letters(script.trail.trail.invented) in first


@pytest.mark.parametrize("form", list(ScriptForm))
def test_the_same_script_makes_the_same_file(
    demo_workspace: Workspace, made: dict[tuple[date, ScriptForm], bytes], scripts: dict[date, Script], form: ScriptForm
) -> None:
    on = date(2026, 6, 7)
    assert script_pdf(demo_workspace, scripts[on], form) == made[on, form]


def test_penguins_can_be_printed_too(penguin_workspace: Workspace) -> None:
    walk = penguin_workspace.trails["colony_walk"]
    script = write_script(penguin_workspace, walk, walk.trail.chief_date)
    for form in ScriptForm:
        assert "lantern penguin" in " ".join(" ".join(texts(script_pdf(penguin_workspace, script, form))).split())


@pytest.mark.poppler
@pytest.mark.skipif(shutil.which("pdftoppm") is None, reason="pdftoppm (Debian: poppler-utils) is not installed, so no page can be drawn")
def test_a_sheet_of_cards_has_cut_marks_at_its_middle_and_at_its_edges(made: dict[tuple[date, ScriptForm], bytes], tmp_path: Path) -> None:
    (tmp_path / "cards.pdf").write_bytes(made[date(2026, 6, 7), ScriptForm.CARDS])
    subprocess.run(["pdftoppm", "-r", "100", "-gray", "-f", "2", "-l", "2", "cards.pdf", "sheet"], cwd=tmp_path, check=True, capture_output=True)
    (drawn,) = tmp_path.glob("sheet*.pgm")
    magic, wide, high, _, pixels = drawn.read_bytes().split(maxsplit=4)
    width, height = int(wide), int(high)
    assert magic == b"P5"

    def is_dark(x: float, y: float) -> bool:
        """Whether anything is drawn within a pixel of a place."""
        near = [(int(x) + dx, int(y) + dy) for dx in (-2, -1, 0, 1, 2) for dy in (-2, -1, 0, 1, 2)]
        return any(pixels[row * width + column] < 160 for column, row in near if 0 <= column < width and 0 <= row < height)

    for x, y in ((width / 2, 5), (width / 2, height / 2), (width / 2, height - 6), (5, height / 2), (width - 6, height / 2)):
        assert is_dark(x, y), (x, y)
    assert not is_dark(width / 2, height / 4)  # between the marks there is no line
