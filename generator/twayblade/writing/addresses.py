"""The addresses of pages and files in the site. They never change: signs carry them."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date


def taxon_address(id_: str) -> str:
    """The address of a taxon's page. Addresses never change: signs carry them."""
    return f"taxa/{id_}.html"


def value_anchor(trait: str) -> str:
    """The anchor on a taxon's page where its value of a trait stands with its sources."""
    return f"value-{trait}"


def pair_address(first: str, second: str) -> str:
    """The address of the page that tells two taxa apart."""
    return f"compare/{'--'.join(sorted((first, second)))}.html"


NAMING = "naming.html"
"""The address of the page that helps with an unknown plant."""

NAMING_TABLES = "data/naming.js"
"""The address of what that page looks up."""


def script_address(trail: str, on: date) -> str:
    """The address of a script."""
    return f"trails/{trail}-{on.isoformat()}.html"


def trail_address(trail: str) -> str:
    """The address of a trail's page."""
    return f"trails/{trail}.html"


def plan_address(trail: str) -> str:
    """The address of a trail's plan."""
    return f"plans/{trail}.html"


def pictures_address(trail: str, on: date) -> str:
    """The address of the pictures to take."""
    return f"trails/{trail}-{on.isoformat()}-pictures.html"


def key_address(trail: str, on: date, ending: str = "html", marked: str = "") -> str:
    """The address of a pocket key; marked: its layout or form, if it is not the first of them."""
    return f"keys/{trail}-{on.isoformat()}{f'-{marked}' if marked else ''}.{ending}"


def recce_address(trail: str, on: date, ending: str = "html") -> str:
    """The address of a recce sheet."""
    return f"recces/{trail}-{on.isoformat()}.{ending}"


def reading_address(trail: str, on: date) -> str:
    """The address of the page that a script is read aloud from."""
    return f"trails/{trail}-{on.isoformat()}-read.html"


def chapters_address(trail: str, on: date) -> str:
    """The address of the chapters of a script's film."""
    return f"trails/{trail}-{on.isoformat()}.vtt"


def walk_addresses(trail: str, dates: Iterable[date]) -> tuple[str, ...]:
    """The addresses of the pages about a trail besides its own: its plan, and what is made for each of its dates."""
    found = [plan_address(trail)]
    for on in dates:
        found += [script_address(trail, on), pictures_address(trail, on), recce_address(trail, on)]
        found += [key_address(trail, on), key_address(trail, on, marked="indented")]
    return tuple(found)


def drawing_address(taxon: str, piece: str, form: str | None = None) -> str:
    """The address of the drawing of a piece of a taxon, or of one of its forms."""
    return f"drawings/{taxon}-{piece}{f'-{form}' if form else ''}.svg"


def scaled_address(taxon: str, piece: str) -> str:
    """The address of the drawing of a piece of a taxon to the scale of its group."""
    return f"drawings/{taxon}-{piece}-in-group.svg"


def beside_address(taxon: str, other: str, piece: str) -> str:
    """The address of the drawing of a piece of a taxon as it stands beside another."""
    return f"drawings/{taxon}-beside-{other}-{piece}.svg"


def condition_address(trait: str, condition: str, part: str | None = None) -> str:
    """The address of the drawing of a condition of a trait: a state, or a number."""
    return f"drawings/shown/{trait}{f'-{part}' if part else ''}--{condition}.svg"


def setting_address(piece: str, parameter: str, setting: str) -> str:
    """The address of the drawing of a piece with one parameter set."""
    return f"drawings/pieces/{piece}--{parameter}--{setting}.svg"


def photograph_address(stem: str, small: bool = False) -> str:
    """The address of a copy of a photograph, made of its file's name without the ending; small copies have a folder, lest two names meet."""
    return f"photographs/{'small/' if small else ''}{stem}.jpg"


YEAR_CALENDAR = "year.ics"
OFFLINE_WORKER = "offline.js"
"""Stands at the top, because a worker serves only what lies in its folder and below."""
OFFLINE_DATA = "data/offline.js"
MANIFEST = "manifest.webmanifest"


def pack_address(digest: str) -> str:
    """The address of a pack of files that a device keeps; not for people, and another one when what it holds is another."""
    return f"offline/{digest}.pack"


def icon_address(marked: str) -> str:
    """The address of an icon of the site."""
    return f"icon-{marked}.png"


def script_print_address(trail: str, on: date, form: str) -> str:
    """The address of a script to print, as pages or as cards."""
    return f"trails/{trail}-{on.isoformat()}-{form}.pdf"
