"""What a device keeps of the site, so that it works without signal: packs of files, and what the scripts must know of them.

A site has hundreds of small files, and a weak signal carries few requests well and many badly; what is alike packs well together, and little
room is taken on the device. So files of one folder are fetched, and stay, as packs. A pack is fetched again when anything in it has changed.
Things to print are left out, but for the sheets to fold: there is no printer beside a ditch.
"""

from __future__ import annotations

import base64
import gzip
import hashlib
import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from importlib.resources import files
from math import ceil
from pathlib import PurePosixPath

import typst

from twayblade.writing.addresses import OFFLINE_DATA, OFFLINE_WORKER, icon_address, pack_address
from twayblade.writing.browser_data import assigned
from twayblade.writing.labels import Labels

_TEXT = {
    ".html": "text/html; charset=utf-8",
    ".svg": "image/svg+xml",
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
}
_BYTES = {".woff2": "font/woff2", ".png": "image/png", ".jpg": "image/jpeg", ".jpeg": "image/jpeg", ".webp": "image/webp", ".pdf": "application/pdf"}

_LEFT_OUT = re.compile(r"drawings\.html|drawings/pieces/.*|404\.html|(?!keys/[^/]+\d\.pdf$).*\.pdf")
"""For those who make the site, of use only to a server, or for the printer; the sheets to fold have the plain addresses of keys."""

HOME = "index.html"

_MOST = 256_000
"""Bytes, unpacked, beyond which a folder gets a further pack (project default): one that is opened for a single picture must open at once."""

_ROUND = 10
"""Kilobytes to which sizes are told, upwards: what tells them is among what is kept."""


@dataclass(frozen=True)
class Pack:
    """Files of a folder, those from one address to the next pack's: gzip of JSON, `{address: [type, text, whether the text is base64]}`.

    digest: of what it holds, so that the same files are the same pack.
    """

    folder: str
    first: str
    content: bytes
    digest: str


def is_kept(address: str) -> bool:
    """Whether a device keeps a file of the site."""
    known = PurePosixPath(address).suffix in (*_TEXT, *_BYTES)
    return known and address != OFFLINE_WORKER and not _LEFT_OUT.fullmatch(address)


def packs(kept: Mapping[str, bytes]) -> tuple[Pack, ...]:
    """The packs of what is kept, by address. What lies in no folder has a folder without a name."""
    groups: list[tuple[str, dict[str, bytes]]] = []
    for folder, address in sorted((address.rpartition("/")[0].partition("/")[0], address) for address in kept):
        if not groups or groups[-1][0] != folder or sum(map(len, groups[-1][1].values())) + len(kept[address]) > _MOST:
            groups.append((folder, {}))
        groups[-1][1][address] = kept[address]
    return tuple(_pack(folder, held) for folder, held in groups)


def _pack(folder: str, held: Mapping[str, bytes]) -> Pack:
    entries = {address: _entry(address, held[address]) for address in sorted(held, key=_like_with_like)}
    text = json.dumps(entries, ensure_ascii=False, separators=(",", ":")).encode()
    return Pack(folder, min(held), gzip.compress(text, 9, mtime=0), hashlib.sha256(text).hexdigest()[:16])


def _like_with_like(address: str) -> tuple[str, str]:
    """An order in which drawings of the same part of the same plant follow one another: gzip then finds again what they share."""
    return re.sub(r"-beside-.*-", "-", address), address


def _entry(address: str, content: bytes) -> list[str | int]:
    ending = PurePosixPath(address).suffix
    if ending in _TEXT:
        return [_TEXT[ending], content.decode(), 0]
    return [_BYTES[ending], base64.b64encode(content).decode(), 1]


def kilobytes(sizes: Iterable[int]) -> int:
    """Bytes together, in kB of a thousand, as they are told."""
    return ceil(sum(sizes) / 1000 / _ROUND) * _ROUND


def offline_data(made: tuple[Pack, ...], labels: Labels) -> bytes:
    """What the script of the pages tells of what is kept: how many kilobytes are fetched and stay on the device, and the words."""
    told = {"size": kilobytes(len(pack.content) for pack in made), "words": labels.section("offline")}
    return assigned("offline", told)


def worker(made: tuple[Pack, ...], labels: Labels) -> bytes:
    """The script that fetches, keeps and gives out the packs."""
    missing = {"language": labels.language, "title": labels.plain("unkept.title"), "text": labels.plain("unkept.why")}
    found: dict[str, list[list[str]]] = {}
    for pack in made:
        found.setdefault(pack.folder, []).append([pack.first, pack.digest])
    known = {
        "packs": found,
        "address": pack_address("DIGEST"),
        "missing": {**missing, "home": HOME, "start": labels.plain("site.from_first")},
    }
    code = (files("twayblade.writing") / "templates" / OFFLINE_WORKER).read_text(encoding="utf-8")
    return f"const KEPT = {json.dumps(known, ensure_ascii=False)};\n{code}".encode()


_ICONS = {"192": (192, 0.8, "any"), "512": (512, 0.8, "any"), "round": (512, 0.55, "maskable")}
"""Each icon: pixels, the share of it that the leaf takes, and its purpose. What is cut to a circle keeps the middle 80 % (W3C, Web
Application Manifest, `icons`)."""


def manifest(name: str, description: str, language: str) -> bytes:
    """What a device must know to put the site among its programs (W3C, Web Application Manifest)."""
    icons: list[dict[str, str]] = [{"src": "leaf.svg", "sizes": "any", "type": "image/svg+xml"}]
    for marked, (pixels, _, purpose) in _ICONS.items():
        icons.append({"src": icon_address(marked), "sizes": f"{pixels}x{pixels}", "type": "image/png", "purpose": purpose})
    made = {
        "name": name,
        "short_name": name,
        "description": description,
        "lang": language,
        "id": "./",
        "start_url": "index.html",
        "scope": "./",
        "display": "minimal-ui",
        "background_color": "#ffffff",
        "theme_color": "#ffffff",
        "icons": icons,
    }
    return json.dumps({key: value for key, value in made.items() if value}, ensure_ascii=False, indent=1).encode()


def keeping(files_: Mapping[str, bytes], labels: Labels) -> dict[str, bytes]:
    """All that keeping needs, by address: the packs of a finished site's files, the worker, and what the pages tell of it."""
    kept = {address: content for address, content in files_.items() if is_kept(address) and address != OFFLINE_DATA}
    told = offline_data(packs(kept), labels)
    made = packs({**kept, OFFLINE_DATA: told})
    return {OFFLINE_DATA: told, OFFLINE_WORKER: worker(made, labels), **{pack_address(pack.digest): pack.content for pack in made}}


def icons(leaf: bytes) -> dict[str, bytes]:
    """The icons by address: PNG, the leaf (an SVG) on white."""
    made = {}
    for marked, (pixels, share, _) in _ICONS.items():
        page = f"#set page(width: {pixels}pt, height: {pixels}pt, margin: 0pt, fill: white)\n"
        picture = f"#align(center + horizon, image(bytes({json.dumps(leaf.decode())}), width: {pixels * share}pt))"
        png = typst.compile((page + picture).encode(), format="png", ppi=72.0, ignore_system_fonts=True)
        assert isinstance(png, bytes)
        made[icon_address(marked)] = png
    return made
