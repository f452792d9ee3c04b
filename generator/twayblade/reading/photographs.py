"""Photographs: whether a file can be shown, and which files nobody shows. Whatever a file holds, nothing else comes of it than a clause."""

from __future__ import annotations

import warnings
from collections.abc import Collection, Iterator, Mapping
from pathlib import Path

from PIL import Image, ImageOps, UnidentifiedImageError

from twayblade.knowledge.photograph import PHOTOGRAPHS, Photograph
from twayblade.knowledge.problem import Place, Problem, Severity
from twayblade.knowledge.profile import Profile
from twayblade.reading.nodes import Document
from twayblade.reading.records import nearest

KINDS = ("JPEG", "PNG", "WEBP")
"""The decoders that are tried. Others stay shut: some of them start programs."""
MOST_BYTES = 64_000_000
MOST_PIXELS = 64_000_000
"""What is read of a file, and how many pixels are laid out in memory, at the most (project default): a small file may unpack to an enormous image."""

_SMALLER = "save it smaller; the site shows no more than 1200 pixels a side"


class PhotographError(ValueError):
    """The photograph cannot be shown; says why in one clause, and what would mend it, if anything is known to."""

    def __init__(self, message: str, *hints: str) -> None:
        super().__init__(message)
        self.hints = hints


def open_photograph(file: Path, coarse: bool = False) -> Image.Image:
    """The image a file holds, decoded to its last byte and the right way up.

    coarse: smaller than it is, where that is quicker, for those who only ask whether it can be opened. Raises PhotographError and nothing else.
    """
    try:
        if not file.is_file():
            raise PhotographError("is no file that could be read", "put a photograph there")
        if file.stat().st_size > MOST_BYTES:
            raise PhotographError(f"has more than {MOST_BYTES // 1_000_000} million bytes", _SMALLER)
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of flaws in metadata, which are not kept, and of sizes, which are looked at here
            with Image.open(file, formats=KINDS) as image:
                return _decoded(image, coarse)
    except PhotographError:
        raise
    except UnidentifiedImageError:
        raise PhotographError("is no JPEG, PNG or WebP", "save it as one of these") from None
    except Image.DecompressionBombError:
        raise _too_large() from None
    except OSError as reason:
        raise PhotographError(f"cannot be read: {reason.strerror or reason}", "save it anew") from None
    except Exception as reason:  # decoders raise whatever they stumble over: struct.error, SyntaxError, MemoryError ...
        raise PhotographError(f"cannot be read: {' '.join(str(reason).split()) or type(reason).__name__}", "save it anew") from None


def _decoded(image: Image.Image, coarse: bool) -> Image.Image:
    if image.width * image.height > MOST_PIXELS:
        raise _too_large()
    if getattr(image, "is_animated", False) and image.format != "MPO":  # MPO holds several stills, of which the first is the photograph
        raise PhotographError("holds moving pictures", "save one of them")
    if coarse:
        image.draft(None, (1, 1))
    image.load()  # before orientation is asked for: PNG may give it after the pixels
    return ImageOps.exif_transpose(image)


def _too_large() -> PhotographError:
    return PhotographError(f"has more than {MOST_PIXELS // 1_000_000} million pixels", _SMALLER)


def read_photographs(folder: Path, profiles: Mapping[str, Profile], documents: Mapping[str, Document]) -> tuple[dict[str, str], list[Problem]]:
    """Where the file of each photograph lies, by its name, and what is wrong with them."""
    here = folder / PHOTOGRAPHS
    there = _names(here)
    found: dict[str, str] = {}
    problems: list[Problem] = []
    by_stem: dict[str, str] = {}
    for id_, profile in profiles.items():
        document, own = documents[f"content/species/{id_}.yml"], set()
        for number, photograph in enumerate(profile.photographs):
            place = document.place(("photographs", number, "file"))
            file = photograph.file
            if file in own:
                problems.append(Problem("id-double", Severity.ERROR, place, f"`{file}` stands twice among the photographs"))
            elif by_stem.setdefault(photograph.stem, file) != file:
                message = f"`{by_stem[photograph.stem]}` and `{file}` would have one address"
                problems.append(Problem("id-double", Severity.ERROR, place, message, ("give one of them another name before the dot",)))
            elif file not in found:
                try:
                    found[file] = _usable(here, photograph, there)
                except PhotographError as reason:
                    problems.append(Problem("photograph-unusable", Severity.ERROR, place, f"`{PHOTOGRAPHS}/{file}` {reason}", reason.hints))
            own.add(file)
    return found, problems


def _usable(here: Path, photograph: Photograph, there: tuple[str, ...]) -> str:
    file = here / photograph.file
    if photograph.file not in there:
        raise PhotographError("is not there", *(nearest(photograph.file, there) or ("put it there, or take the entry out",)))
    try:
        inside = file.resolve().is_relative_to(here.resolve())
    except (OSError, RuntimeError):  # links that lead in a circle
        inside = False
    if not inside:
        raise PhotographError("leads out of its folder", "put a copy there instead of a link")
    open_photograph(file, coarse=True)
    return str(file)


def unused_photographs(folder: Path, used: Collection[str]) -> Iterator[Problem]:
    """Files in the folder of the photographs that no profile shows."""
    hint = "name it under `photographs:` of a profile, or take it away"
    for name in _names(folder / PHOTOGRAPHS):
        if name not in used:
            shown = " ".join(name.encode(errors="replace").decode().split())
            yield Problem("photograph-unused", Severity.WARNING, Place(f"{PHOTOGRAPHS}/{shown}"), "no profile shows it", (hint,))


def _names(here: Path) -> tuple[str, ...]:
    """What lies in the folder, but for what is hidden."""
    try:
        return tuple(sorted(entry.name for entry in here.iterdir() if not entry.name.startswith(".")))
    except OSError:
        return ()
