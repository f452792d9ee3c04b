"""What a device keeps of a site: everything that is of use without signal, in packs that change when anything in them does."""

from __future__ import annotations

import base64
import gzip
import json
from io import BytesIO

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from twayblade.writing.labels import read_labels
from twayblade.writing.offline import icons, is_kept, keeping, kilobytes, manifest, packs

ON = "demo-2026-06-07"
KEPT = (
    "index.html",
    "look.css",
    "leaf.svg",
    "fonts/text.woff2",
    "js/site.js",
    "data/labels.js",
    "taxa/hemlock.html",
    f"trails/{ON}.html",
    f"trails/{ON}-read.html",
    f"keys/{ON}-indented.html",
    f"keys/{ON}.pdf",
    "drawings/hemlock-stem.svg",
    "drawings/hemlock-beside-hogweed-stem.svg",
    "photographs/small/stem.jpg",
)
NOT_KEPT = (
    "offline.js",
    "offline/0123456789abcdef.pack",
    "404.html",
    "sitemap.xml",
    "sitemap.xml.gz",
    "drawings.html",
    "drawings/pieces/stem--relief--furrows.svg",
    f"keys/{ON}-card.pdf",
    f"keys/{ON}-large.pdf",
    f"recces/{ON}.pdf",
    f"recces/{ON}.csv",
    f"trails/{ON}-pages.pdf",
    f"trails/{ON}.vtt",
    "year.ics",
)


@pytest.mark.parametrize("address", KEPT)
def test_what_serves_in_the_field_is_kept(address: str) -> None:
    assert is_kept(address)


@pytest.mark.parametrize("address", NOT_KEPT)
def test_what_is_for_the_desk_the_printer_or_the_server_is_not(address: str) -> None:
    assert not is_kept(address)


FILES = st.dictionaries(st.sampled_from(KEPT), st.text(max_size=40).map(str.encode), min_size=1)


def folder(address: str) -> str:
    return address.partition("/")[0] if "/" in address else ""


def unpacked(content: bytes) -> dict[str, bytes]:
    found = json.loads(gzip.decompress(content))
    return {address: base64.b64decode(text) if is_64 else text.encode() for address, (_, text, is_64) in found.items()}


@given(FILES)
def test_every_kept_file_comes_out_of_a_pack_of_its_folder_as_it_went_in(files: dict[str, bytes]) -> None:
    out: dict[str, bytes] = {}
    for pack in packs(files):
        held = unpacked(pack.content)
        assert {folder(address) for address in held} == {pack.folder}
        assert min(held) == pack.first
        out |= held
    assert out == files


@given(FILES, st.data())
def test_a_changed_file_changes_the_pack_of_its_folder_alone(files: dict[str, bytes], data: st.DataObject) -> None:
    changed = data.draw(st.sampled_from(sorted(files)))
    before, after = packs(files), packs({**files, changed: files[changed] + b"."})
    assert {one.folder for one, other in zip(before, after, strict=True) if one.digest != other.digest} == {folder(changed)}


def test_no_pack_grows_so_large_that_it_opens_slowly() -> None:
    """Project default: 256 kB unpacked, but for a single file that is larger."""
    files = {f"taxa/{n:03}.html": b"x" * 50_000 for n in range(20)} | {"taxa/large.html": b"x" * 300_000}
    made = packs(files)
    assert all(sum(map(len, held.values())) <= 256_000 or len(held) == 1 for held in (unpacked(pack.content) for pack in made))
    assert [pack.first for pack in made] == sorted(pack.first for pack in made)


def test_the_worker_knows_each_pack_and_the_same_site_is_the_same_worker() -> None:
    files = dict.fromkeys((*KEPT, *NOT_KEPT), b"x")
    made = keeping(files, read_labels())
    assert made == keeping(dict(reversed(files.items())), read_labels())
    assert made == keeping({**files, **made}, read_labels())  # nor does it matter what stood there before
    known = json.loads(made["offline.js"].decode().splitlines()[0].removeprefix("const KEPT = ").removesuffix(";"))
    digests = {digest for found in known["packs"].values() for _, digest in found}
    assert {f"offline/{digest}.pack" for digest in digests} == {address for address in made if address.startswith("offline/")}
    # what tells the reader of it is kept as well
    assert any("data/offline.js" in unpacked(content) for address, content in made.items() if address.endswith(".pack"))


def test_sizes_are_told_upwards() -> None:
    assert [kilobytes([size]) for size in (0, 1, 10_000, 10_001)] == [0, 10, 10, 20]


def test_the_manifest_has_what_a_device_asks_for_and_its_icons_are_of_their_sizes() -> None:
    """W3C, Web Application Manifest: name, start_url, display, icons with sizes; addresses are taken from the manifest's own."""
    made = json.loads(manifest("A site", "What it is", "de"))
    assert (made["name"], made["description"], made["lang"]) == ("A site", "What it is", "de")
    assert made["start_url"] == "index.html"
    assert made["display"] in {"standalone", "minimal-ui", "fullscreen", "browser"}
    drawn = icons(b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 32"><path d="M0 0h32v32H0z"/></svg>')
    for icon in made["icons"]:
        if icon["type"] == "image/png":
            image = Image.open(BytesIO(drawn[icon["src"]]))
            assert image.format == "PNG"
            assert icon["sizes"] == f"{image.width}x{image.height}"


def test_what_is_cut_to_a_circle_keeps_the_whole_leaf() -> None:
    """W3C, Web Application Manifest: of a maskable icon the circle of 40 % of its width round the middle is sure to be seen."""
    drawn = icons(b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 32"><path d="M0 0h32v32H0z"/></svg>')
    image = Image.open(BytesIO(drawn["icon-round.png"])).convert("L")
    dark = [(x - image.width / 2, y - image.height / 2) for x in range(image.width) for y in range(image.height) if image.getpixel((x, y)) < 128]
    assert dark
    assert max((x * x + y * y) ** 0.5 for x, y in dark) <= 0.4 * image.width
