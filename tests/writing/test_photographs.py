"""Published photographs: nothing in them but what is to be seen, never enlarged, and the same bytes every time."""

from __future__ import annotations

import struct
from collections.abc import Callable, Iterator
from io import BytesIO
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import Image, ImageCms
from PIL.PngImagePlugin import PngInfo
from PIL.TiffImagePlugin import IFDRational

from twayblade.writing.photographs import LARGE, SMALL, publish_photograph

SECRET = b"nobody must read this"
LATITUDE = (54321, 1000)
"""A rational of the block for GPS, found again by its bytes."""
XMP = b'<x:xmpmeta xmlns:x="adobe:ns:meta/">' + SECRET + b"</x:xmpmeta>"
SRGB = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()


def exif() -> bytes:
    """EXIF 2.32: an artist, a comment of the user's, a place and a maker's note."""
    made = Image.Exif()
    made[0x013B] = SECRET.decode()
    made.get_ifd(0x8769).update({0x9286: SECRET, 0x927C: SECRET})
    made.get_ifd(0x8825).update({1: "N", 2: (IFDRational(*LATITUDE), 0, 0), 3: "W", 4: (IFDRational(*LATITUDE), 0, 0)})
    return made.tobytes()


def segment(marker: int, data: bytes) -> bytes:
    return bytes([0xFF, marker]) + struct.pack(">H", len(data) + 2) + data


def jpeg_with_everything(image: Image.Image, profile: bytes | None = SRGB) -> bytes:
    made = BytesIO()
    iptc = segment(0xED, b"Photoshop 3.0\x008BIM\x04\x04\0\0" + struct.pack(">I", len(SECRET)) + SECRET)  # captions and names of the press
    image.save(made, "JPEG", exif=exif(), xmp=XMP, comment=SECRET, icc_profile=profile, extra=iptc, quality=95)
    return made.getvalue() + SECRET  # phones put short films behind the picture


def png_with_everything(image: Image.Image, profile: bytes | None = SRGB) -> bytes:
    made, info = BytesIO(), PngInfo()
    info.add_text("Author", SECRET.decode())
    info.add_itxt("XML:com.adobe.xmp", XMP.decode())
    image.save(made, "PNG", exif=exif(), pnginfo=info, icc_profile=profile)
    return made.getvalue() + SECRET


def webp_with_everything(image: Image.Image, profile: bytes | None = SRGB) -> bytes:
    made = BytesIO()
    image.save(made, "WEBP", exif=exif(), xmp=XMP, icc_profile=profile)
    return made.getvalue()


def segments(content: bytes) -> Iterator[tuple[int, bytes]]:
    """Marker and data of every segment of a JPEG file (ITU-T T.81, annex B), coded pixels passed over; 0 for what follows the end."""
    at = 2
    while at < len(content):
        marker = content[at + 1]
        if content[at] != 0xFF or marker in (0x00, *range(0xD0, 0xD8)):
            at += 1
        elif marker == 0xD9:
            yield marker, b""
            if content[at + 2 :]:
                yield 0, content[at + 2 :]
            return
        else:
            length = struct.unpack(">H", content[at + 2 : at + 4])[0]
            yield marker, content[at + 4 : at + 2 + length]
            at += 2 + length


FRAME, TABLES, SCAN, END, JFIF = {0xC0, 0xC2}, {0xDB, 0xC4}, 0xDA, 0xD9, 0xE0


@pytest.mark.parametrize("made", [jpeg_with_everything, png_with_everything, webp_with_everything])
@pytest.mark.parametrize("size", [(1500, 1000), (300, 200)])
@pytest.mark.parametrize("profile", [SRGB, None], ids=["with a profile", "without"])
def test_nothing_is_left_of_what_cameras_and_programs_write_along(
    tmp_path: Path, made: Callable[..., bytes], size: tuple[int, int], profile: bytes | None
) -> None:
    content = made(Image.effect_noise(size, 60).convert("RGB"), profile)
    rational = {struct.pack(f"{order}II", *LATITUDE) for order in "<>"}
    assert content.count(SECRET) >= 3, "there is something to leave out"
    assert any(place in content for place in rational)
    file = tmp_path / "walk.jpg"
    file.write_bytes(content)
    for copy in publish_photograph(file).copies:
        held = list(segments(copy.content))
        assert SECRET not in copy.content
        assert not any(place in copy.content for place in rational)
        assert {marker for marker, _ in held} <= {*FRAME, *TABLES, SCAN, END, JFIF}, "no APP1 to APP15, no COM, nothing behind the end"
        # JFIF 1.02: five letters, version, unit, densities, and the size of a thumbnail: none.
        assert [data for marker, data in held if marker == JFIF] == [b"JFIF\0\x01\x01\0\0\x01\0\x01\0\0"]
        with Image.open(BytesIO(copy.content)) as opened:
            opened.load()
            assert dict(opened.getexif()) == {}
            assert set(opened.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density", "progressive", "progression"}


TOP, BOTTOM, LEFT, RIGHT = "top", "bottom", "left", "right"
ROW_AND_COLUMN = {
    # TIFF 6.0, tag 274 (Orientation): which side of what is to be seen the 0th row and the 0th column stand for.
    1: (TOP, LEFT),
    2: (TOP, RIGHT),
    3: (BOTTOM, RIGHT),
    4: (BOTTOM, LEFT),
    5: (LEFT, TOP),
    6: (RIGHT, TOP),
    7: (RIGHT, BOTTOM),
    8: (LEFT, BOTTOM),
}
OPPOSITE = {TOP: BOTTOM, BOTTOM: TOP, LEFT: RIGHT, RIGHT: LEFT}


def colour_at(image: Image.Image, *sides: str) -> str:
    """The colour in the middle of the quarter where two sides meet."""
    x, y = image.width // 4 * (3 if RIGHT in sides else 1), image.height // 4 * (3 if BOTTOM in sides else 1)
    found = image.getpixel((x, y))
    assert isinstance(found, tuple)
    red, green, blue = found[:3]
    return "white" if min(red, green, blue) > 200 else "red" if red > 200 else "blue" if blue > 200 else str(found)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
@pytest.mark.parametrize("orientation", ROW_AND_COLUMN)
def test_a_photograph_stands_upright_without_being_told_to(tmp_path: Path, orientation: int, kind: str) -> None:
    stored = Image.new("RGB", (800, 600), "white")
    stored.paste("red", (0, 0, 400, 300))  # where row 0 and column 0 meet
    stored.paste("blue", (400, 0, 800, 300))  # row 0, last column
    tag = Image.Exif()
    tag[274] = orientation
    file = tmp_path / "turned.jpg"
    stored.save(file, kind, exif=tag.tobytes())
    row, column = ROW_AND_COLUMN[orientation]
    for copy in publish_photograph(file).copies:
        with Image.open(BytesIO(copy.content)) as seen:
            assert seen.size == (copy.width, copy.height)
            assert (seen.width > seen.height) == (row in (TOP, BOTTOM))
            assert colour_at(seen, row, column) == "red"
            assert colour_at(seen, row, OPPOSITE[column]) == "blue"
            assert colour_at(seen, OPPOSITE[row], column) == colour_at(seen, OPPOSITE[row], OPPOSITE[column]) == "white"


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(width=st.integers(1, 2600), height=st.integers(1, 2600))
def test_no_copy_is_larger_than_the_photograph_and_each_keeps_its_shape(tmp_path: Path, width: int, height: int) -> None:
    file = tmp_path / "any.png"
    Image.new("1", (width, height)).save(file)
    published = publish_photograph(file)
    sizes = [(copy.width, copy.height) for copy in published.copies]
    assert sizes == sorted(set(sizes), reverse=True), "no two of one size"
    for (wide, high), longest in zip(sizes, (LARGE, SMALL), strict=False):
        assert max(wide, high) == min(longest, max(width, height))
        scale = max(wide, high) / max(width, height)
        assert abs(wide - width * scale) <= 1
        assert abs(high - height * scale) <= 1
    assert len(sizes) == (2 if max(width, height) > SMALL else 1)
    assert published.made_smaller == (sizes[0] != (width, height))
    for copy in published.copies:
        with Image.open(BytesIO(copy.content)) as opened:
            assert opened.size == (copy.width, copy.height)


def test_the_same_file_gives_the_same_bytes_whatever_it_is_called_and_written_along(tmp_path: Path) -> None:
    image = Image.effect_noise((900, 700), 60).convert("RGB")
    one, other = tmp_path / "one.png", tmp_path / "other.png"
    one.write_bytes(png_with_everything(image))
    image.save(other)
    first = [copy.content for copy in publish_photograph(one).copies]
    assert [copy.content for copy in publish_photograph(one).copies] == first
    assert [copy.content for copy in publish_photograph(other).copies] == first


def test_addresses_are_made_of_the_name_alone_and_no_two_meet(tmp_path: Path) -> None:
    found = []
    for name in ("stem.png", "small-stem.jpg", "stem-small.jpg"):
        Image.new("RGB", (600, 600)).save(tmp_path / name)
        found += [copy.address for copy in publish_photograph(tmp_path / name).copies]
    assert found[:2] == ["photographs/stem.jpg", "photographs/small/stem.jpg"]
    assert len(set(found)) == 6


# -- colours -------------------------------------------------------------------------------------------------
def exchanged(profile: bytes) -> bytes:
    """A profile in which what the screen shows as red and as blue have changed places (ICC.1:2022, 7.3: signature, offset and size of each tag)."""
    count = struct.unpack(">I", profile[128:132])[0]
    table = profile[132 : 132 + 12 * count]
    tags = [table[n : n + 12] for n in range(0, len(table), 12)]
    names = {b"rXYZ": b"bXYZ", b"bXYZ": b"rXYZ"}
    return profile[:132] + b"".join(names.get(tag[:4], tag[:4]) + tag[4:] for tag in tags) + profile[132 + 12 * count :]


def middle_of(file: Path) -> tuple[int, ...]:
    with Image.open(BytesIO(publish_photograph(file).copies[0].content)) as made:
        assert made.mode == "RGB"
        found = made.getpixel((made.width // 2, made.height // 2))
    assert isinstance(found, tuple)
    return found


def near(colour: tuple[int, ...]) -> object:
    return pytest.approx(colour, abs=4)  # what JPEG and the rounding of a profile leave open


def test_colours_are_those_that_the_profile_of_the_file_means(tmp_path: Path) -> None:
    red = Image.new("RGB", (60, 40), (255, 0, 0))
    for name, profile, seen in [("a.png", SRGB, (255, 0, 0)), ("b.png", exchanged(SRGB), (0, 0, 255)), ("c.png", b"no profile", (255, 0, 0))]:
        red.save(tmp_path / name, icc_profile=profile)
        assert middle_of(tmp_path / name) == near(seen), name


def test_a_profile_of_another_kind_of_colour_is_passed_over(tmp_path: Path) -> None:
    for mode in ("L", "LA", "P", "1"):
        Image.new(mode, (60, 40), 255 if mode in ("L", "1") else (255, 255) if mode == "LA" else 0).save(tmp_path / "odd.png", icc_profile=SRGB)
        assert len(publish_photograph(tmp_path / "odd.png").copies) == 1


MODES = {
    "grey": (Image.new("L", (60, 40), 100), "PNG", (100, 100, 100)),
    "sixteen bits of grey": (Image.new("I;16", (60, 40), 100 * 256), "PNG", (100, 100, 100)),
    "black and white": (Image.new("1", (60, 40), 1), "PNG", (255, 255, 255)),
    "a palette": (Image.new("RGB", (60, 40), (200, 30, 30)).quantize(4), "PNG", (200, 30, 30)),
    "glass over nothing is white": (Image.new("RGBA", (60, 40), (200, 30, 30, 0)), "PNG", (255, 255, 255)),
    "half clear": (Image.new("RGBA", (60, 40), (0, 0, 0, 128)), "WEBP", (127, 127, 127)),
    "grey and clear": (Image.new("LA", (60, 40), (0, 0)), "PNG", (255, 255, 255)),
    "inks": (Image.new("CMYK", (60, 40), (0, 255, 255, 0)), "JPEG", (255, 0, 0)),
}


@pytest.mark.parametrize(("image", "kind", "seen"), MODES.values(), ids=MODES)
def test_however_colours_are_kept_the_same_is_to_be_seen(tmp_path: Path, image: Image.Image, kind: str, seen: tuple[int, ...]) -> None:
    image.save(tmp_path / "any.png", kind)
    assert middle_of(tmp_path / "any.png") == near(seen)
