"""A printed key read back with pypdf: its words with their places, its sizes of letters, its fonts."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from io import BytesIO
from typing import Any

from pypdf import PdfReader
from pypdf.generic import IndirectObject

POINTS_PER_MM = 72 / 25.4


@dataclass(frozen=True)
class Run:
    """A run of text as it was drawn: mm from the left and from the foot of the page, its size in points, and whether it stands on its head."""

    text: str
    left: float
    up: float
    points: float
    is_turned: bool


class Print:
    """A PDF, read back."""

    def __init__(self, pdf: bytes) -> None:
        self.reader = PdfReader(BytesIO(pdf))

    @property
    def sizes(self) -> list[tuple[float, float]]:
        """Width and height of each page in mm."""
        return [(float(p.mediabox.width) / POINTS_PER_MM, float(p.mediabox.height) / POINTS_PER_MM) for p in self.reader.pages]

    def runs(self, page: int = 0) -> list[Run]:
        """What is drawn on a page, in the order of the file."""
        found: list[Run] = []

        def note(text: str, placed: list[float], scaled: list[float], font: object, size: float) -> None:
            if text.strip():
                upright = placed[3] * scaled[3] + placed[2] * scaled[1]
                left = placed[0] * scaled[4] + placed[2] * scaled[5] + placed[4]
                up = placed[1] * scaled[4] + placed[3] * scaled[5] + placed[5]
                found.append(Run(" ".join(text.split()), left / POINTS_PER_MM, up / POINTS_PER_MM, size * abs(upright), upright * size < 0))

        self.reader.pages[page].extract_text(visitor_text=note)
        return found

    @cached_property
    def texts(self) -> list[str]:
        """The text of each page, with single spaces."""
        return [" ".join(page.extract_text().split()) for page in self.reader.pages]

    @property
    def text(self) -> str:
        """All its text."""
        return " ".join(self.texts)

    @property
    def root(self) -> Any:
        """The catalogue of the document."""
        return self.reader.trailer["/Root"]

    @property
    def fonts(self) -> dict[str, bool]:
        """Each font's name, without the letters of its subset, and whether its file is embedded."""
        found: dict[str, bool] = {}
        for page in self.reader.pages:
            for reference in page["/Resources"].get("/Font", {}).values():  # type: ignore[attr-defined]
                font = _got(_got(reference)["/DescendantFonts"][0])
                descriptor = _got(font["/FontDescriptor"])
                name = str(font["/BaseFont"]).removeprefix("/").partition("+")[2].partition("-Identity")[0]
                found[name] = any(key in descriptor for key in ("/FontFile", "/FontFile2", "/FontFile3"))
        return found


def _got(thing: Any) -> Any:
    return thing.get_object() if isinstance(thing, IndirectObject) else thing
