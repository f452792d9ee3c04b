"""Photographs in profiles: what is refused, where, and with which way out; whatever a file holds, nothing is raised."""

from __future__ import annotations

import itertools
import os
import struct
import zlib
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import Image

from twayblade.knowledge.problem import Problem
from twayblade.reading.photographs import MOST_BYTES, PhotographError, open_photograph
from twayblade.reading.workspace import load
from twayblade.reasoning.checks import check_content
from twayblade.writing.photographs import publish_photograph

Copy = Callable[[Path], Path]
CRESS = "content/species/stone-cress.yml"
HEAD = """name: Petrocardamum fictum Invented
common-names: {en: [stone cress]}
hazard: {class: none-found, text: "No harm is on record, because the plant is made up. [invented]"}
"""
ENTRY = {"file": "flower.png", "maker": "An invented author", "licence": "CC BY 4.0", "stage": "flower", "shows": "White flowers."}


def profile(*entries: dict[str, str]) -> str:
    written = ("\n    ".join(f"{key}: {said}" for key, said in entry.items()) for entry in entries)
    return HEAD + "photographs:\n" + "".join(f"  - {entry}\n" for entry in written)


def encoded(image: Image.Image, kind: str = "PNG") -> bytes:
    made = BytesIO()
    image.save(made, kind)
    return made.getvalue()


SMALL = encoded(Image.new("RGB", (40, 30), "green"))


@pytest.fixture
def garden(copy_of: Copy, penguins: Path) -> Path:
    """The penguins beside an invented plant with one photograph, which is as it should be."""
    folder = copy_of(penguins)
    (folder / "content/photographs").mkdir()
    (folder / "content/photographs/flower.png").write_bytes(SMALL)
    (folder / CRESS).write_text(profile(ENTRY), encoding="utf-8")
    return folder


def problems(folder: Path) -> list[Problem]:
    loaded = load(folder)
    return [*loaded.problems, *(loaded.place(f) for f in check_content(loaded.draft))]


def told(folder: Path) -> list[tuple[str, str, tuple[str, ...]]]:
    """Rule, what the caret points at, and hints, of every problem; all of them stand in the profile."""
    found = problems(folder)
    assert {p.place.file for p in found} <= {CRESS}
    return [(p.rule, p.place.text[p.place.column - 1 :], p.hints) for p in found]


def rewritten(folder: Path, *entries: dict[str, str]) -> Path:
    (folder / CRESS).write_text(profile(*entries), encoding="utf-8")
    return folder


def test_a_photograph_as_it_should_be_is_known_by_its_name(garden: Path) -> None:
    assert problems(garden) == []
    workspace = load(garden).workspace
    assert workspace
    assert workspace.photographs == {"flower.png": str(garden / "content/photographs/flower.png")}


@pytest.mark.parametrize("field", ENTRY)
def test_none_goes_without_its_maker_its_licence_its_stage_and_words_for_those_who_cannot_see_it(garden: Path, field: str) -> None:
    (found,) = problems(rewritten(garden, {key: said for key, said in ENTRY.items() if key != field}))
    assert (found.rule, found.message, found.place.file, found.place.line) == ("field-missing", f"`{field}` is missing", CRESS, 5)


@pytest.mark.parametrize(("field", "said"), [*itertools.product(["maker", "licence", "shows"], ['""', '"  "']), ("shows", '"[invented]"')])
def test_an_empty_field_is_as_good_as_none(garden: Path, field: str, said: str) -> None:
    ((rule, place, _),) = told(rewritten(garden, ENTRY | {field: said}))
    assert (rule, place) == ("notation", said)


NAMES = ("../flower.png", "/etc/passwd", "sub/flower.png", "..", ".hidden.png", "IMG_0001.JPG", "flower", "flower.svg", "flower.png/", "c:flower.png")


@pytest.mark.parametrize("name", NAMES)
def test_a_file_is_a_plain_name_and_leads_nowhere(garden: Path, name: str) -> None:
    ((rule, place, _),) = told(rewritten(garden, ENTRY | {"file": name}))
    assert (rule, place) == ("notation", name)


@pytest.mark.parametrize("address", ["javascript:alert(1)", "creativecommons.org", "file:///etc/passwd", "https://a b"])
def test_the_address_of_a_licence_leads_to_the_web(garden: Path, address: str) -> None:
    ((rule, place, _),) = told(rewritten(garden, ENTRY | {"licence-address": address}))
    assert (rule, place) == ("notation", address)


def test_stages_traits_fields_and_files_that_do_not_exist_are_told_with_the_nearest_that_do(garden: Path) -> None:
    wrong = ENTRY | {"stage": "flwer", "traits": "[bill-colour, chek-mark]", "file": "flowers.png"}
    assert sorted(told(rewritten(garden, wrong))) == [
        ("id-unknown", "chek-mark]", ("did you mean `cheek-mark`?",)),
        ("id-unknown", "flwer", ("did you mean `flower`?",)),
        ("photograph-unusable", "flowers.png", ("did you mean `flower.png`?",)),
    ]
    assert told(rewritten(garden, ENTRY | {"trait": "crest"})) == [("field-unknown", "trait: crest", ("did you mean `traits`?",))]


def test_one_address_is_not_given_twice(garden: Path) -> None:
    (garden / "content/photographs/flower.jpg").write_bytes(encoded(Image.new("RGB", (40, 30)), "JPEG"))
    assert [rule for rule, _, _ in told(rewritten(garden, ENTRY, ENTRY))] == ["id-double"]
    ((rule, place, hints),) = told(rewritten(garden, ENTRY, ENTRY | {"file": "flower.jpg"}))
    assert (rule, place) == ("id-double", "flower.jpg")
    assert hints


def test_a_photograph_of_two_plants_may_stand_with_both(garden: Path) -> None:
    (garden / "content/species/pebble-cress.yml").write_text(profile(ENTRY).replace("stone cress", "pebble cress"), encoding="utf-8")
    assert {p.rule for p in problems(garden)} <= {"inseparable"}


def test_words_about_a_photograph_are_held_to_what_all_words_are_held_to(garden: Path) -> None:
    rewritten(
        garden,
        ENTRY | {"shows": "An edible herb. [nobody]"},
        ENTRY | {"file": "x.png", "shows": "A bird smaller than that gentoo penguin, larger than the gentoo penguin."},
    )
    (garden / "content/photographs/x.png").write_bytes(SMALL)
    assert {rule for rule, _, _ in told(garden)} == {"hazard-softened", "id-unknown", "comparison-unmarked"}


def test_what_no_profile_shows_is_a_warning_at_the_file_itself(garden: Path) -> None:
    for name in ("left-over.jpg", "notes.txt", ".keep"):
        (garden / "content/photographs" / name).write_bytes(b"")
    (garden / "content/photographs/older").mkdir()
    assert [(p.rule, p.severity, p.place.file) for p in problems(garden)] == [
        ("photograph-unused", "warning", f"content/photographs/{name}") for name in ("left-over.jpg", "notes.txt", "older")
    ]
    assert load(garden).workspace


def test_nothing_is_called_left_over_while_a_profile_has_mistakes(garden: Path) -> None:
    assert [rule for rule, _, _ in told(rewritten(garden, {"file": "flower.png"}))] == ["field-missing"] * 4


# -- files ---------------------------------------------------------------------------------------------------
def chunk(kind: bytes, data: bytes) -> bytes:
    """A chunk of PNG (W3C PNG, Third Edition, 5.3)."""
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def promising(width: int, height: int) -> bytes:
    """A PNG of some hundred bytes that promises that many pixels."""
    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", zlib.compress(b"\0" * 999)) + chunk(b"IEND", b"")


def moving() -> bytes:
    made = BytesIO()
    frames = [Image.new("RGB", (9, 9), colour) for colour in ("red", "green")]
    frames[0].save(made, "PNG", save_all=True, append_images=frames[1:])
    return made.getvalue()


def with_bad_orientation() -> bytes:
    """An EXIF block that breaks off in its directory."""
    made = BytesIO()
    Image.new("RGB", (9, 9)).save(made, "JPEG", exif=b"Exif\0\0MM\0*\0\0\0\x08\0\x05\x01\x12")
    return made.getvalue()


UNUSABLE = {
    "nothing": b"",
    "text": b"no image",
    "another kind": encoded(Image.new("RGB", (9, 9)), "GIF"),
    "a drawing": b'<svg xmlns="http://www.w3.org/2000/svg"/>',
    "what starts a program elsewhere": b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 9 9\n",
    "half a PNG": encoded(Image.effect_noise((200, 200), 50))[:9000],
    "half a JPEG": encoded(Image.effect_noise((200, 200), 50), "JPEG")[:9000],
    "half a WebP": encoded(Image.effect_noise((200, 200), 50).convert("RGB"), "WEBP")[:4000],
    "a head without a body": encoded(Image.new("RGB", (9, 9)))[:33],
    "the promise of 400 million pixels": promising(20000, 20000),
    "the promise of ten thousand million pixels": promising(100_000, 100_000),
    "81 million pixels in ten thousand bytes": encoded(Image.new("1", (9000, 9000))),
    "moving pictures": moving(),
}


@pytest.mark.parametrize("content", UNUSABLE.values(), ids=UNUSABLE)
def test_what_cannot_be_shown_is_told_where_it_is_named_with_a_way_out(garden: Path, content: bytes) -> None:
    (garden / "content/photographs/flower.png").write_bytes(content)
    ((rule, place, hints),) = told(garden)
    assert (rule, place) == ("photograph-unusable", "flower.png")
    assert hints
    assert load(garden).workspace is None


def test_a_file_of_too_many_bytes_is_not_even_opened(garden: Path) -> None:
    with (garden / "content/photographs/flower.png").open("r+b") as file:
        file.truncate(MOST_BYTES + 1)
    assert [rule for rule, _, _ in told(garden)] == ["photograph-unusable"]


def away(file: Path) -> None:
    file.unlink()


def folder(file: Path) -> None:
    file.unlink()
    file.mkdir()


def pipe(file: Path) -> None:
    """Opening it would wait for ever."""
    file.unlink()
    os.mkfifo(file)


def link_out(file: Path) -> None:
    file.rename(file.parents[2] / "elsewhere.png")
    file.symlink_to(file.parents[2] / "elsewhere.png")


def link_in_a_circle(file: Path) -> None:
    file.unlink()
    file.symlink_to(file.name)


@pytest.mark.parametrize("change", [away, folder, pipe, link_out, link_in_a_circle])
def test_what_is_no_file_of_the_folder_is_told_too(garden: Path, change: Callable[[Path], None]) -> None:
    change(garden / "content/photographs/flower.png")
    ((rule, place, hints),) = told(garden)
    assert (rule, place) == ("photograph-unusable", "flower.png")
    assert hints


def test_a_flaw_in_what_is_not_kept_is_no_reason_to_refuse_a_photograph(tmp_path: Path) -> None:
    (tmp_path / "a.jpg").write_bytes(with_bad_orientation())
    assert publish_photograph(tmp_path / "a.jpg").copies


GOOD = [encoded(Image.effect_noise((60, 40), 40).convert("RGB"), kind) for kind in ("JPEG", "PNG", "WEBP")] + [
    encoded(Image.effect_noise((60, 40), 40).convert("CMYK"), "JPEG"),
    encoded(Image.effect_noise((60, 40), 40).convert("LA")),
    encoded(Image.effect_noise((60, 40), 40).convert("P")),
]
often = settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])


@st.composite
def damaged(draw: st.DrawFn) -> bytes:
    """A good file with some of its bytes exchanged, put in or taken out."""
    content = draw(st.sampled_from(GOOD))
    for _ in range(draw(st.integers(1, 5))):
        start, gone = draw(st.integers(0, len(content))), draw(st.sampled_from([0, 1, 2, 30]))
        content = content[:start] + draw(st.binary(max_size=6)) + content[start + gone :]
    return content


@often
@given(content=st.one_of(st.binary(), st.sampled_from(GOOD).flatmap(lambda good: st.binary().map(lambda junk: good[:24] + junk)), damaged()))
def test_whatever_a_file_holds_it_is_refused_in_a_clause_or_can_be_published(tmp_path: Path, content: bytes) -> None:
    """So that no site breaks off over a photograph that `check` has passed."""
    file = tmp_path / "any.jpg"
    file.write_bytes(content)
    said = ""
    try:
        open_photograph(file, coarse=True)
    except PhotographError as reason:
        said = str(reason)
    assert "\n" not in said
    assert said or publish_photograph(file).copies


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(content=st.binary(max_size=60))
def test_reading_a_workspace_with_any_bytes_for_a_photograph_never_raises(garden: Path, content: bytes) -> None:
    (garden / "content/photographs/flower.png").write_bytes(content)
    assert [rule for rule, _, _ in told(garden)] == ["photograph-unusable"]
