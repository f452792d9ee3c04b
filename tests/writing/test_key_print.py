"""The pocket key on paper, read back from the PDF: sizes, order of pages and words, letters, and that nothing is lost or cut off."""

from __future__ import annotations

import re
import shutil
import subprocess
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from tests.writing.made_keys import made_key, plants
from tests.writing.reading import Print, Run

from twayblade.knowledge.workspace import Workspace
from twayblade.writing.fitting import PrintForm, Sheet
from twayblade.writing.key_layout import Layout, with_signs
from twayblade.writing.key_words import CARE, WrittenKey, write_key
from twayblade.writing.print import Printed, print_key

# ISO 216: A4 is 210 by 297 mm, A5 148 by 210. US Letter is 8.5 by 11 inches, half of it 5.5 by 8.5.
# ISO 216 lets paper be cut 1.5 mm off; the file has no such excuse.
SIZES = {
    (PrintForm.FOLD, Sheet.A4): (297, 210),
    (PrintForm.CARD, Sheet.A4): (148, 210),
    (PrintForm.LARGE, Sheet.A4): (210, 297),
    (PrintForm.FOLD, Sheet.LETTER): (279.4, 215.9),
    (PrintForm.CARD, Sheet.LETTER): (139.7, 215.9),
    (PrintForm.LARGE, Sheet.LETTER): (215.9, 279.4),
}
TOLERANCE = 0.1
FORMS = list(PrintForm)
FLAT = (PrintForm.CARD, PrintForm.LARGE)
SIGN = re.compile(r"Couplet\d+lead\d+sign\d+")


@pytest.fixture(scope="module")
def written(demo_workspace: Workspace) -> WrittenKey:
    return write_key(demo_workspace, demo_workspace.trails["demo_trail"], date(2026, 6, 7))


@pytest.fixture(scope="module")
def printed(demo_workspace: Workspace, written: WrittenKey) -> dict[PrintForm, Printed]:
    return {form: print_key(demo_workspace, written, form) for form in PrintForm}


@pytest.fixture(scope="module")
def prints(printed: dict[PrintForm, Printed]) -> dict[PrintForm, Print]:
    return {form: Print(made.pdf) for form, made in printed.items()}


def made(number: int, form: PrintForm = PrintForm.FOLD, layout: Layout = Layout.BRACKETED, signs: int = 3, words: int = 8) -> tuple[Printed, Print]:
    some = plants(number)
    found = print_key(some, made_key(some, signs, words), form, layout=layout)
    return found, Print(found.pdf)


def signs_in(written: WrittenKey) -> list[str]:
    """The first word of every sign, couplet by couplet."""
    return [sign.split()[0] for couplet in written.couplets for lead in couplet.leads for sign in (lead.text, *lead.more)]


def page_of(run: Run, width: float, height: float) -> tuple[int, int]:
    """Column from the left and row from the foot of the small page that a run starts on; a turned run starts at its right edge."""
    return int((run.left - (0.01 if run.is_turned else 0)) // (width / 4)), int(run.up // (height / 2))


@pytest.mark.parametrize(("form", "sheet"), SIZES)
def test_pages_have_the_size_of_the_paper(form: PrintForm, sheet: Sheet) -> None:
    some = plants(4)
    for size in Print(print_key(some, made_key(some), form, sheet).pdf).sizes:
        assert size == pytest.approx(SIZES[form, sheet], abs=TOLERANCE)


@pytest.mark.parametrize("sheet", Sheet)
def test_the_booklet_is_imposed_so_that_folding_and_slitting_puts_its_pages_in_order(sheet: Sheet) -> None:
    """Folded lengthwise and slit in the middle, the eight pages form a ring: along the lower row from left to right, and back along the
    upper row. Closed, they follow one another round the ring, and right-hand pages are odd. Derived by folding a sheet (no source)."""
    some = plants(16)
    width, height = SIZES[PrintForm.FOLD, sheet]
    read = Print(print_key(some, made_key(some, signs=1, words=24), PrintForm.FOLD, sheet).pdf)
    feet = {int(run.text): run for run in read.runs() if run.text.isdigit() and min(run.up, height - run.up) < 8}
    assert sorted(feet) == [2, 3, 4, 5, 6, 7, 8]  # the front page bears its title in place of a number
    feet[1] = next(run for run in read.runs() if run.text.startswith("Pocket key"))
    stands = {page_of(run, width, height): number for number, run in feet.items()}
    lower, upper = [stands[column, 0] for column in range(4)], [stands[column, 1] for column in range(4)]
    assert (lower, upper) == ([6, 7, 8, 1], [5, 4, 3, 2])
    ring = [*lower, *reversed(upper)]
    assert all(after % 8 == (before + 1) % 8 for before, after in zip(ring, [*ring[1:], ring[0]], strict=True))
    assert all(run.is_turned == (stands_up == 1) for run, stands_up in ((run, page_of(run, width, height)[1]) for run in read.runs()))


def test_the_pages_of_the_booklet_follow_one_another_in_the_file() -> None:
    """Whoever listens or copies meets page 1 to 8, however they lie on the sheet."""
    width, height = SIZES[PrintForm.FOLD, Sheet.A4]
    order = [(3, 0), (3, 1), (2, 1), (1, 1), (0, 1), (0, 0), (1, 0), (2, 0)]
    _, read = made(16, signs=1, words=24)
    visited = list(dict.fromkeys(page_of(run, width, height) for run in read.runs()))
    assert visited == order


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("layout", Layout)
def test_signs_are_read_in_the_order_of_the_layout(form: PrintForm, layout: Layout) -> None:
    some = plants(6)
    written = made_key(some)
    read = Print(print_key(some, written, form, layout=layout).pdf)
    found = SIGN.findall(read.text)
    assert sorted(found) == sorted(signs_in(written))
    if layout is Layout.BRACKETED:
        assert found == signs_in(written)
    else:
        assert found.index("Couplet2lead1sign1") < found.index("Couplet1lead2sign1")


@pytest.mark.parametrize("number", [1, 2, 5, 9, 16, 24, 40])
@pytest.mark.parametrize("form", FORMS)
def test_nothing_is_lost_whatever_the_size_of_the_key(form: PrintForm, number: int) -> None:
    """Every sign that the key is said to keep, every name, every warning is on paper, once for each time it stands in the key."""
    some = plants(number)
    written = made_key(some)
    found = print_key(some, written, form)
    text = Print(found.pdf).text
    kept = next(signs for signs in (3, 2, 1) if f"sign{signs}" in text or signs == 1)
    assert sorted(SIGN.findall(text)) == sorted(signs_in(with_signs(written, kept)))
    assert "every sign" in found.remarks[-1] or form is PrintForm.LARGE or kept < 3 or "card of their own" in found.remarks[-1]
    for id_, entry in some.taxa.items():
        name = entry.common_name.capitalize()
        assert name in text or id_ in text
        if entry.hazard_class.is_harmful:
            assert f"{name} ▲" in text or number == 1
            assert f"What wort {id_[5:]} does." in text
    ends = sum(lead.to is None for couplet in written.couplets for lead in couplet.leads)
    assert text.count("None of these fits?") >= ends / 2
    assert CARE in text


@pytest.mark.parametrize("number", [5, 16, 24])
def test_nothing_is_printed_outside_its_small_page(number: int) -> None:
    """Printers leave 4 mm at the edge of a sheet white (common practice, no source)."""
    width, height = SIZES[PrintForm.FOLD, Sheet.A4]
    _, read = made(number)
    for run in read.runs():
        left, up = run.left % (width / 4), run.up % (height / 2)
        assert 4 < left < width / 4 - 4 or run.is_turned
        assert 4 < up < height / 2 - 4
    pages: dict[tuple[int, int], set[float]] = {}
    for run in read.runs():
        column, row = page_of(run, width, height)
        above = run.up % (height / 2)
        pages.setdefault((column, row), set()).add(height / 2 - above if row else above)
    for place, lines in pages.items():
        foot, last, *_ = sorted(lines)
        assert last - foot > 3 or place == (3, 0)  # the front has no foot


def test_a_small_key_takes_its_notes_into_the_booklet_and_a_large_one_has_them_on_the_back() -> None:
    for number, page in ((3, 0), (16, 1)):
        _, read = made(number)
        assert "Harmful plants in this key" in read.texts[page]
        assert "To fold it" in read.texts[1]
        assert len(read.sizes) == 2


def test_signs_then_a_second_sheet_are_given_up_when_the_key_grows_and_the_print_says_so() -> None:
    seen = []
    for number in (4, 12, 16, 20, 24, 40):
        found, read = made(number)
        assert " ".join(found.remarks) in read.text
        signs = max(sign for sign in (1, 2, 3) if f"sign{sign}" in read.text)
        assert ("third signs it takes" in read.text) == (signs < 3 and len(read.sizes) == 2)
        assert ("second signs it takes" in read.text) == (signs < 2 and len(read.sizes) == 2)
        seen.append((len(read.sizes), signs))
    assert list(dict.fromkeys(seen))[:3] == [(2, 3), (2, 2), (2, 1)]
    assert [sheets for sheets, _ in seen] == sorted(sheets for sheets, _ in seen)
    assert seen[-1][0] > 2


def test_a_booklet_falls_back_to_leads_together_where_the_indented_layout_does_not_fit() -> None:
    found, read = made(16, layout=Layout.INDENTED)
    assert found.remarks[0].startswith("Indented it takes")
    assert "Indented it takes" in read.text
    small, _ = made(4, layout=Layout.INDENTED)
    assert small.remarks == ("It fits one sheet with every sign.",)


def test_couplets_stay_whole_on_what_lies_open_together() -> None:
    """Both leads must be seen to choose. Pages 2 and 3, 4 and 5, 6 and 7 lie open together."""
    found, read = made(10, signs=1)
    assert "overleaf" not in " ".join(found.remarks)
    opening: dict[str, set[int]] = {}
    width, height = SIZES[PrintForm.FOLD, Sheet.A4]
    order = [(3, 0), (3, 1), (2, 1), (1, 1), (0, 1), (0, 0), (1, 0), (2, 0)]
    for run in read.runs():
        for sign in SIGN.findall(run.text):
            opening.setdefault(sign.partition("lead")[0], set()).add((order.index(page_of(run, width, height)) + 1) // 2)
    assert len(opening) == 9
    assert all(len(pages) == 1 for pages in opening.values())


def test_a_lead_longer_than_a_page_is_parted_between_words_and_loses_none() -> None:
    some = plants(2)
    written = made_key(some, signs=1, words=1)
    (couplet,) = written.couplets
    long = " ".join(f"mark{number}" for number in range(600))
    leads = (replace(couplet.leads[0], text=f"Couplet1lead1sign1 {long}"), couplet.leads[1])
    read = Print(print_key(some, replace(written, couplets=(replace(couplet, leads=leads),))).pdf)
    assert re.findall(r"mark\d+", read.text) == long.split()
    assert read.text.index("mark599") < read.text.index("Wort 1 ▲ Deadly.")


@pytest.mark.parametrize("form", FORMS)
def test_no_letter_is_smaller_than_nine_points_and_in_large_print_than_sixteen(form: PrintForm, prints: dict[PrintForm, Print]) -> None:
    read = prints[form]
    points = [run.points for page in range(len(read.sizes)) for run in read.runs(page)]
    assert len(points) > 100
    assert min(points) >= (16 if form is PrintForm.LARGE else 9) - 1e-6


@pytest.mark.parametrize("form", FORMS)
def test_only_the_fonts_that_are_shipped_are_used_and_they_are_embedded(form: PrintForm, prints: dict[PrintForm, Print]) -> None:
    assert prints[form].fonts
    assert all(name.startswith("SourceSansPro-") and embedded for name, embedded in prints[form].fonts.items())


def test_the_licence_of_the_fonts_is_shipped_with_them() -> None:
    fonts = Path(__file__).resolve().parents[2] / "generator" / "twayblade" / "writing" / "fonts"
    assert {file.suffix for file in fonts.iterdir()} == {".otf", ".txt"}
    assert "SIL OPEN FONT LICENSE Version 1.1" in (fonts / "OFL.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("form", FORMS)
def test_every_form_has_a_title_and_a_language_and_is_tagged(form: PrintForm, prints: dict[PrintForm, Print]) -> None:
    read = prints[form]
    assert read.reader.metadata
    assert read.reader.metadata.title == "Pocket key: Nine Gates Drove"
    assert read.root["/Lang"] == "en"
    assert bool(read.root["/MarkInfo"]["/Marked"])
    assert "/StructTreeRoot" in read.root


@pytest.mark.parametrize("form", FLAT)
def test_flat_forms_say_that_they_keep_to_pdf_ua(form: PrintForm, prints: dict[PrintForm, Print]) -> None:
    """ISO 14289-1: the identifier in the metadata, and the title shown in place of the file's name. typst refuses to write the
    identifier where it finds a breach."""
    read = prints[form]
    stream = read.root["/Metadata"].get_data().decode()
    assert re.search(r"<pdfuaid:part>1</pdfuaid:part>", stream)
    assert read.root["/ViewerPreferences"]["/DisplayDocTitle"]


@pytest.mark.parametrize("form", FORMS)
def test_the_same_key_makes_the_same_file(form: PrintForm, demo_workspace: Workspace, written: WrittenKey, printed: dict[PrintForm, Printed]) -> None:
    assert print_key(demo_workspace, written, form) == printed[form]


@pytest.mark.parametrize("form", FORMS)
def test_the_front_carries_day_care_and_coverage_before_the_first_couplet(
    form: PrintForm, prints: dict[PrintForm, Print], written: WrittenKey
) -> None:
    text = prints[form].texts[0]
    first = text.index(" ".join(written.couplets[0].leads[0].text.split()[:4]))
    assert text.index("Pocket key: Nine Gates Drove") < text.index("7 June 2026") < text.index(CARE) < text.index("Covers 16 of the 51") < first


@pytest.mark.parametrize("form", FORMS)
def test_a_harmful_plant_carries_its_mark_and_short_caution_where_it_stands(
    form: PrintForm, prints: dict[PrintForm, Print], written: WrittenKey, demo_workspace: Workspace
) -> None:
    text = prints[form].text
    alone = {lead.taxa[0] for couplet in written.couplets for lead in couplet.leads if lead.to is None and len(lead.taxa) == 1}
    harmful = {id_ for id_ in alone if demo_workspace.taxa[id_].hazard_class.is_harmful}
    assert harmful
    short = {"deadly": "Deadly.", "poisonous": "Poisonous.", "phototoxic": "Can burn skin in sunlight.", "irritant": "Can irritate skin."}
    for id_ in harmful:
        entry = demo_workspace.taxa[id_]
        assert f"{entry.common_name.capitalize()} ▲ {short[entry.hazard_class.value]}" in text


@pytest.mark.parametrize("form", FORMS)
def test_every_harmful_plant_has_its_whole_caution_in_print(
    form: PrintForm, prints: dict[PrintForm, Print], written: WrittenKey, demo_workspace: Workspace
) -> None:
    text = prints[form].text
    for id_ in written.covers:
        entry = demo_workspace.taxa[id_]
        if entry.hazard_class.is_harmful:
            assert entry.profile.hazard
            assert " ".join(entry.profile.hazard.text.text.split()[:4]) in text


def test_a_key_without_harm_has_no_heading_without_words(penguin_workspace: Workspace) -> None:
    written = write_key(penguin_workspace, penguin_workspace.trails["colony_walk"], date(2026, 12, 12))
    for form in PrintForm:
        text = Print(print_key(penguin_workspace, written, form).pdf).text
        assert "Lantern penguin" in text
        assert "Harmful" not in text
        assert "leaves out" not in text


@pytest.mark.poppler
@pytest.mark.skipif(shutil.which("pdftoppm") is None, reason="pdftoppm (Debian: poppler-utils) is not installed, so no page can be drawn")
@pytest.mark.parametrize("form", FORMS)
def test_a_page_can_be_drawn_and_is_neither_empty_nor_grey(form: PrintForm, printed: dict[PrintForm, Printed], tmp_path: Path) -> None:
    (tmp_path / "key.pdf").write_bytes(printed[form].pdf)
    subprocess.run(
        ["pdftoppm", "-r", "100", "-gray", "-aa", "no", "-aaVector", "no", "-f", "1", "-l", "1", "key.pdf", "page"], cwd=tmp_path, check=True
    )
    (drawn,) = tmp_path.glob("page*.pgm")
    magic, width, height, _, pixels = drawn.read_bytes().split(maxsplit=4)
    assert magic == b"P5"
    wanted = [side / 25.4 * 100 for side in SIZES[form, Sheet.A4]]
    assert (int(width), int(height)) == pytest.approx(wanted, abs=2)
    assert 0.02 < sum(level < 128 for level in pixels) / len(pixels) < 0.5
    assert set(pixels) <= {0, 255}  # no grey and no colour: it survives a copier
