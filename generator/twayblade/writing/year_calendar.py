"""The year of the plants as a calendar that other programs read: iCalendar (RFC 5545), an event each year where a flowering begins or ends.

No place and no alarm: a calendar is passed on, and nobody is called out to a plant.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from uuid import UUID, uuid5

from twayblade.knowledge.profile import SeasonWindow
from twayblade.knowledge.season import month_and_day
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.plan import SHOWN_STAGE
from twayblade.writing.cautions import harm_words
from twayblade.writing.phrases import capital, days_words, sentence

_NAMESPACE = UUID("5a4b1f0e-7d0c-5c55-9d0e-3c9b8f5f6a21")
"""Never changes: the ids of all events follow from it, so that a calendar fetched again replaces them (RFC 5545, 3.8.4.7)."""
_LOOK_ONLY = "Look only: do not pick, crush, cut or taste. A plant that is not in flower may still be there."
_LINE = 75
"""Octets a line may have without its break (RFC 5545, 3.1)."""


@dataclass(frozen=True)
class Turn:
    """A day on which a flowering usually begins or ends, every year. id: made of what it is about, and of nothing that changes."""

    id: str
    day: int
    summary: str
    description: str


def flowering_turns(workspace: Workspace, region: str | None) -> tuple[Turn, ...]:
    """The usual beginning and end of every flowering, in the order of the year."""
    found = [
        turn
        for taxon in workspace.taxa.values()
        for number, window in enumerate(workspace.windows(taxon, SHOWN_STAGE, region), 1)
        if not window.when.is_whole_year
        for turn in _turns(workspace, taxon, window, number)
    ]
    return tuple(sorted(found, key=lambda turn: (turn.day, turn.summary)))


def year_ics(turns: tuple[Turn, ...], year: int, stamp: date, name: str) -> bytes:
    """The calendar as a file. year: that of the first of each yearly event. stamp: the day as of which it is written; no clock is read."""
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Twayblade//The year of the plants//EN", "CALSCALE:GREGORIAN", f"NAME:{_escaped(name)}"]
    for turn in turns:
        month, day = month_and_day(turn.day)
        first = date(year, month, min(day, 28) if month == 2 else day)  # each year has a 28 February
        lines += [
            "BEGIN:VEVENT",
            f"UID:{turn.id}",
            f"DTSTAMP:{stamp:%Y%m%d}T000000Z",
            f"DTSTART;VALUE=DATE:{first:%Y%m%d}",
            "RRULE:FREQ=YEARLY",
            f"SUMMARY;LANGUAGE=en:{_escaped(turn.summary)}",
            f"DESCRIPTION;LANGUAGE=en:{_escaped(turn.description)}",
            "TRANSP:TRANSPARENT",
            "END:VEVENT",
        ]
    lines.append("END:VCALENDAR")
    return b"".join(_folded(line) for line in lines)


def _turns(workspace: Workspace, taxon: Taxon, window: SeasonWindow, number: int) -> Iterator[Turn]:
    when = window.when
    region = workspace.regions.get(window.region or workspace.home_region or "")
    there = (region.say or f"in {region.name}") if region else ""
    usual, outer = days_words(((when.start, when.end),)), days_words(((when.outer_start, when.outer_end),))
    told = [sentence(f"{taxon.common_name} ({taxon.scientific_name}) is usually in flower {usual}{f' {there}' if there else ''}")]
    if usual != outer:
        told.append(sentence(f"at the outside {outer}"))
    if harm := harm_words(taxon):
        told.append(sentence(f"{taxon.common_name}: {harm}"))
    described = " ".join([*told, _LOOK_ONLY])
    for edge, day, words in (("begins", when.start, "begins to flower"), ("ends", when.end, "goes out of flower")):
        about = "/".join((window.region or workspace.home_region or "", taxon.id, SHOWN_STAGE, edge, str(number)))
        yield Turn(str(uuid5(_NAMESPACE, about)), day, f"{capital(taxon.common_name)} {words} (usual)", described)


def _escaped(text: str) -> str:
    r"""Text as RFC 5545, 3.3.11 has it: `\`, `;`, `,` and line breaks escaped."""
    return text.replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,").replace("\n", "\\n")


def _folded(line: str) -> bytes:
    """A line with its break, in pieces of 75 octets at most, none of which ends within a character; those that go on begin with a space."""
    pieces, piece = [], b""
    for sign in line:
        octets = sign.encode()
        if len(piece) + len(octets) > _LINE:
            pieces.append(piece)
            piece = b" "
        piece += octets
    return b"\r\n".join([*pieces, piece]) + b"\r\n"
