"""A script as PDF: pages to read from at arm's length, and cue cards to cut out."""

from __future__ import annotations

import json
from collections.abc import Iterable
from importlib.resources import as_file, files
from typing import Any

import typst

from twayblade.knowledge.workspace import Workspace
from twayblade.writing.cue_words import cue_heading, search_words
from twayblade.writing.narrator import REFUSAL
from twayblade.writing.phrases import capital, date_words
from twayblade.writing.registers import CueStop, Line, Register, ScriptForm, cue_stops
from twayblade.writing.script import CASE_WORDS, Part, Script, ScriptStop, clock

LOOK_ONLY = "Look only: do not pick, crush, cut or taste."


def script_pdf(workspace: Workspace, script: Script, form: ScriptForm = ScriptForm.PAGES) -> bytes:
    """A script as pages of A4, no text under 14 pt, each stop on a page of its own; or as cards of A6, four to a sheet of A4."""
    name, data = ("script_cards.typ", _cards(workspace, script)) if form is ScriptForm.CARDS else ("script_pages.typ", _pages(workspace, script))
    here = files("twayblade.writing")
    with as_file(here / "templates" / name) as template, as_file(here / "fonts") as fonts:
        made = typst.compile(str(template), font_paths=[str(fonts)], ignore_system_fonts=True, sys_inputs={"data": json.dumps(data)})
    assert isinstance(made, bytes)
    return made


def _pages(workspace: Workspace, script: Script) -> dict[str, Any]:
    trail, elapsed, stops = script.trail.trail, 0, []
    for number, stop in enumerate(script.stops, 1):
        elapsed += stop.walk_seconds
        stops.append(_stop(workspace, script, stop, number, elapsed))
        elapsed += stop.seconds
    return {
        "title": trail.title,
        "front": [f"{date_words(script.on)}: {clock(script.seconds)} of {clock(script.allows)} allowed.", *filter(None, [trail.invented])],
        "care": f"{LOOK_ONLY} {REFUSAL}",
        "foot": f"{trail.title}, {date_words(script.on)}",
        "stops": stops,
    }


def _stop(workspace: Workspace, script: Script, stop: ScriptStop, number: int, elapsed: int) -> dict[str, Any]:
    said = frozenset(part.text for part in stop.parts)
    arrives = elapsed + sum(part.seconds for part in stop.parts if part.kind == "opening")
    walked = f"Walk {stop.metres} m ({clock(stop.walk_seconds)}), then {clock(stop.seconds)} here." if script.trail.route else ""
    return {
        "title": f"{number}. {stop.stop.title}",
        "at": clock(elapsed),
        "way": f"{walked} {stop.stop.access}".strip(),
        "parts": list(_parts(workspace, stop.parts, elapsed)),
        "asked": [{"head": q.question, "text": q.answer} for q in stop.questions],
        "others": [
            {
                "head": f"{CASE_WORDS[branch.case]} ({clock(branch.seconds)})",
                "way": f"Look for {clock(branch.search_seconds)} at the most, then go on with this." if branch.search_seconds else "",
                "parts": list(_parts(workspace, branch.parts, arrives + branch.search_seconds, said)),
            }
            for branch in stop.branches
        ],
    }


def _parts(workspace: Workspace, parts: Iterable[Part], starts: int, said: frozenset[str] = frozenset()) -> Iterable[dict[str, Any]]:
    """The parts with the time each begins, by the clock of the whole walk. said: texts that stand above and are not printed again."""
    for part in parts:
        name = f", {workspace.taxa[part.taxon].common_name}" if part.taxon else ""
        is_above = part.text in said
        yield {
            "at": clock(starts),
            "head": f"{capital(part.kind.replace('-', ' '))}{name}",
            "text": "As above." if is_above else part.text,
            "care": part.kind == "care" and not is_above,
        }
        starts += part.seconds


def _cards(workspace: Workspace, script: Script) -> dict[str, Any]:
    trail = script.trail.trail
    front = [Line(trail.invented), Line(f"{clock(script.seconds)} of {clock(script.allows)} allowed"), Line(f"{LOOK_ONLY} {REFUSAL}", is_care=True)]
    first = {"title": trail.title, "mark": date_words(script.on), "pieces": [_piece(line) for line in front if line.text]}
    stops = [
        {"title": f"{stop.number}. {stop.stop.stop.title}", "mark": clock(stop.arrives), "pieces": _pieces(workspace, stop)}
        for stop in cue_stops(workspace, script, Register.CARDS)
    ]
    return {"title": f"{trail.title}: cue cards", "cards": [first, *stops]}


def _pieces(workspace: Workspace, stop: CueStop) -> list[dict[str, str]]:
    found = []
    for cue in stop.cues:
        found += [_heading(f"{clock(cue.starts)}  {cue_heading(workspace, cue)}"), *map(_piece, cue.lines)]
    if stop.asked:
        found += [_heading("asked"), *map(_piece, stop.asked)]
    for other in stop.others:
        found += [_heading(f"{CASE_WORDS[other.case]}{search_words(other.search_seconds)}"), *map(_piece, other.lines)]
    return found


def _heading(text: str) -> dict[str, str]:
    return {"kind": "heading", "head": "", "text": text}


def _piece(line: Line) -> dict[str, str]:
    head = line.head if not line.head or line.head.endswith("?") else f"{line.head}:"
    return {"kind": "care" if line.is_care else "line", "head": head, "text": line.text}
