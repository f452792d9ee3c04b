"""Photographs as they are published: small, in sRGB, and with nothing in them but what is to be seen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

from PIL import Image, ImageCms

from twayblade.knowledge.claim import marks
from twayblade.knowledge.photograph import Photograph
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reading.photographs import open_photograph
from twayblade.writing.addresses import photograph_address
from twayblade.writing.phrases import listed, sentence
from twayblade.writing.stages import STAGE_WORDS

LARGE, SMALL = 1200, 480
"""Pixels of the longest side of the two copies; the small one is for phones."""
_QUALITY = 82
"""Of JPEG: no flaw is seen at arm's length (project default)."""
_WIDEST, _TALLEST = 792, 612
"""CSS pixels that a photograph takes on a page at the most: the column of text, and what fits a screen at once."""
_MODES = {"GRAY": "L", "RGB": "RGB", "CMYK": "CMYK"}
"""The colour spaces of profiles (ICC.1:2022, 7.2.6) as images have them."""


@dataclass(frozen=True)
class PhotographCopy:
    """A copy of a photograph: its address in the site, its size in pixels, and the file."""

    address: str
    width: int
    height: int
    content: bytes


@dataclass(frozen=True)
class Published:
    """The copies of a photograph, the largest first. made_smaller: whether even that one has fewer pixels than the photograph."""

    copies: tuple[PhotographCopy, ...]
    made_smaller: bool


@dataclass(frozen=True)
class Figure:
    """A photograph on a page. seen: its stage and traits in words; claims: whether its words hold claims, which need a place to be opened at."""

    photograph: Photograph
    published: Published
    seen: str
    claims: bool

    @property
    def width(self) -> int:
        """CSS pixels it takes where there is room: never more than it has pixels."""
        large = self.published.copies[0]
        return max(1, min(large.width, _WIDEST, round(_TALLEST * large.width / large.height)))


def publish_photograph(file: Path) -> Published:
    """The copies of the photograph a file holds: never larger than it is, and the same bytes for the same file."""
    photograph = _flattened(whole := open_photograph(file))
    sizes = dict.fromkeys(_fitted(whole.size, longest) for longest in (LARGE, SMALL))
    copies = [
        PhotographCopy(photograph_address(file.stem, small=number > 0), *size, _jpeg(photograph, size, whole.info.get("icc_profile")))
        for number, size in enumerate(sizes)
    ]
    return Published(tuple(copies), next(iter(sizes)) != whole.size)


def figures(workspace: Workspace, taxon: Taxon, published: Mapping[str, Published]) -> tuple[Figure, ...]:
    """What the page of a taxon shows of its photographs, in the order of the profile."""
    found = []
    for photograph in taxon.profile.photographs:
        traits = listed(workspace.traits[trait].name for trait in photograph.traits)
        seen = sentence(STAGE_WORDS[photograph.stage]) + (f" To be seen: {traits}." if traits else "")
        found.append(Figure(photograph, published[photograph.file], seen, bool(list(marks(photograph.shows.written)))))
    return tuple(found)


def _fitted(size: tuple[int, int], longest: int) -> tuple[int, int]:
    scale = min(1.0, longest / max(size))
    return max(1, round(size[0] * scale)), max(1, round(size[1] * scale))


def _flattened(image: Image.Image) -> Image.Image:
    """The image in one of the modes of colour that can be resized, what is clear in it over white."""
    if image.mode.startswith("I"):  # sixteen bits of grey
        image = image.point(lambda light: light * (1 / 256)).convert("L")
    if image.has_transparency_data:
        over = image.convert("RGBA")
        ground = Image.new("RGBA", over.size, "white")
        ground.alpha_composite(over)
        return ground.convert("RGB")
    return image if image.mode in _MODES.values() else image.convert("RGB")


def _jpeg(image: Image.Image, size: tuple[int, int], profile: bytes | None) -> bytes:
    resized = image if image.size == size else image.resize(size, Image.Resampling.LANCZOS, reducing_gap=3.0)
    bare = Image.new("RGB", size)  # pixels alone are carried over: whatever else an image holds would be written along
    bare.paste(_in_srgb(resized, profile))
    made = BytesIO()
    bare.save(made, "JPEG", quality=_QUALITY, optimize=True, progressive=True)
    return made.getvalue()


def _in_srgb(image: Image.Image, profile: bytes | None) -> Image.Image:
    """The colours by their profile; without one, or with one that cannot be used, they are taken as sRGB, as browsers do."""
    if profile:
        try:
            known = ImageCms.ImageCmsProfile(BytesIO(profile))
            mode = _MODES.get(known.profile.xcolor_space.strip(), image.mode)
            fitting = image.convert("L") if mode == "L" else image
            made = ImageCms.profileToProfile(fitting, known, ImageCms.createProfile("sRGB"), outputMode="RGB")
        except (ImageCms.PyCMSError, OSError, ValueError):
            made = None
        if made:
            return made
    return image.convert("RGB")
