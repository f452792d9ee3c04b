"""Cards and notes as text for the terminal and as JSON."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from twayblade.knowledge.workspace import Workspace
from twayblade.writing.narrator import REFUSAL
from twayblade.writing.registers import Cue, CueStop, Line
from twayblade.writing.script import CASE_WORDS, Script, clock, script_heading
from twayblade.writing.terminal import wrapped


def cue_text(workspace: Workspace, script: Script, stops: Iterable[CueStop], with_branches: bool = False) -> str:
    """Cards or notes as plain text; with what people may ask and the other ways each stop may turn out, if wanted."""
    lines = [script_heading(script), wrapped(REFUSAL, "")]
    for stop in stops:
        lines += ["", f"{stop.number}  {stop.stop.stop.title}   [{clock(stop.arrives)}]"]
        for cue in stop.cues:
            lines += [f"  {cue_heading(workspace, cue)} ({cue.seconds} s)", *map(_line, cue.lines)]
        if with_branches:
            lines += map(_line, stop.asked)
            for other in stop.others:
                lines += [f"  {CASE_WORDS[other.case]}{search_words(other.search_seconds)}", *map(_line, other.lines)]
    return "\n".join(lines)


def cue_heading(workspace: Workspace, cue: Cue) -> str:
    """What a part is: `look closer, hemlock`."""
    name = f", {workspace.taxa[cue.taxon].common_name}" if cue.taxon else ""
    return f"{cue.kind.replace('-', ' ')}{name}"


def search_words(seconds: int) -> str:
    """How long to look for what is not found, if it is: ` (look for 2:00 first)`."""
    return f" (look for {clock(seconds)} first)" if seconds else ""


def _line(line: Line) -> str:
    head = f"{line.head}{'' if line.head.endswith('?') else ':'} " if line.head else ""
    return wrapped(f"{'CARE  ' if line.is_care else ''}{head}{line.text}", "      ", "    - ")


def cue_shape(script: Script, stops: Iterable[CueStop]) -> dict[str, Any]:
    """{trail, on, stops: [{id, arrives, cues: [{kind, taxon, starts, seconds, lines}], asked, others: [{case, search_seconds, lines}]}]}.

    A line is {head, text, care, taxa, trait}; taxa and trait are those of the claim its catchwords say again, else null.
    """
    return {
        "trail": script.trail.id,
        "on": script.on.isoformat(),
        "stops": [
            {
                "id": stop.stop.stop.id,
                "arrives": stop.arrives,
                "cues": [
                    {"kind": c.kind, "taxon": c.taxon, "starts": c.starts, "seconds": c.seconds, "lines": list(map(_line_shape, c.lines))}
                    for c in stop.cues
                ],
                "asked": list(map(_line_shape, stop.asked)),
                "others": [{"case": o.case.value, "search_seconds": o.search_seconds, "lines": list(map(_line_shape, o.lines))} for o in stop.others],
            }
            for stop in stops
        ],
        "refusal": REFUSAL,
    }


def _line_shape(line: Line) -> dict[str, Any]:
    claim = line.claim
    return {
        "head": line.head,
        "text": line.text,
        "care": line.is_care,
        "taxa": list(claim.taxa) if claim else None,
        "trait": claim.trait if claim else None,
    }
