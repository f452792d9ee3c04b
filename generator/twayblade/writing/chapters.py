"""The film of a walk in chapters, one a stop: as WebVTT, and as a description with time marks."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from twayblade.knowledge.text import MEMORY
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.lookalikes import look_alikes
from twayblade.reasoning.scope import trail_taxa
from twayblade.writing.cautions import NO_GUIDE, cautions, with_look_alikes
from twayblade.writing.phrases import capital, date_words, listed
from twayblade.writing.script import Script, ScriptStop, clock


@dataclass(frozen=True)
class Chapter:
    """A stop in the film. starts, ends: seconds of the film, which leaves out walking and gathering."""

    stop: ScriptStop
    starts: int
    ends: int


def chapters(script: Script) -> tuple[Chapter, ...]:
    """The chapters of a script's film, in order; a stop that nothing is filmed at has none."""
    found, elapsed = [], 0
    for stop in script.stops:
        ends = elapsed + sum(part.seconds - part.gathering for part in stop.parts)
        if ends > elapsed:
            found.append(Chapter(stop, elapsed, ends))
        elapsed = ends
    return tuple(found)


def chapters_vtt(script: Script) -> str:
    """The chapters as a WebVTT file (W3C, WebVTT: The Web Video Text Tracks Format): the title of each stop over its seconds."""
    cues = (f"{c.stop.stop.id}\n{timestamp(c.starts)} --> {timestamp(c.ends)}\n{_escaped(c.stop.stop.title)}\n" for c in chapters(script))
    return "\n".join(["WEBVTT\n", *cues])


def timestamp(seconds: Decimal | float) -> str:
    """Seconds as a WebVTT timestamp, `01:02:03.500`: hours always, three digits after the full stop."""
    thousandths = int((Decimal(str(seconds)) * 1000).to_integral_value(ROUND_HALF_UP))
    minutes, rest = divmod(thousandths, 60_000)
    return f"{minutes // 60:02d}:{minutes % 60:02d}:{rest // 1000:02d}.{rest % 1000:03d}"


def _escaped(text: str) -> str:
    """Text of a cue on one line; `-->` cannot stand in it, since `>` is escaped."""
    return " ".join(text.split()).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def description(workspace: Workspace, script: Script) -> str:
    """What stands beside the film: what is shown when, the scientific names, cautions, the sources of what is said, what is invented."""
    trail = script.trail.trail
    shown = tuple(dict.fromkeys(p.taxon for stop in script.stops for p in stop.parts if p.kind == "recognise" and p.taxon))
    care = cautions(workspace, with_look_alikes(look_alikes(workspace), trail_taxa(trail)))
    head = [f"{trail.title}, {date_words(script.on)}", *([trail.say] if trail.say else [])]
    sections = {
        "What is shown": [f"{_mark(c.starts)} {_shown(workspace, c.stop)}" for c in chapters(script)],
        "Scientific names": [f"{capital(workspace.taxa[id_].common_name)}: {workspace.taxa[id_].profile.name.with_authors}" for id_ in shown],
        "Take care": ["Look only: do not pick, crush, cut or taste. " + NO_GUIDE, *care],
        "Sources of what is said": list(_sources(workspace, script)),
    }
    invented = [f"Invented: {trail.invented}"] if trail.invented else []
    blocks = ["\n".join(head), *invented, *("\n".join([f"{name}:", *lines]) for name, lines in sections.items() if lines)]
    return "\n\n".join(blocks) + "\n"


def _mark(seconds: int) -> str:
    """A time mark: minutes and seconds, with hours before them if there are any."""
    return f"{seconds // 3600}:{clock(seconds % 3600).zfill(5)}" if seconds >= 3600 else clock(seconds)


def _shown(workspace: Workspace, stop: ScriptStop) -> str:
    """A stop's title, and what is shown there."""
    names = [workspace.taxa[p.taxon].common_name for p in stop.parts if p.kind == "recognise" and p.taxon]
    return f"{stop.stop.title}: {listed(dict.fromkeys(names))}" if names else stop.stop.title


def _sources(workspace: Workspace, script: Script) -> Iterable[str]:
    """The titles and addresses of the sources behind what the parts say of plants, each once, in the order they are first needed."""
    keys = dict.fromkeys(_keys(workspace, script))
    for key in keys:
        if known := workspace.sources.get(key):
            yield f"{known.title}{f', {known.address}' if known.address else ''}"
    if MEMORY in keys:
        yield "Some of it is from memory, without a published source."


def _keys(workspace: Workspace, script: Script) -> Iterable[str]:
    for stop, plan in zip(script.stops, script.plan.stops, strict=True):
        for id_ in plan.groups:
            yield from say.source if (say := workspace.groups[id_].say) else ()
        for planned in plan.parts:
            for id_ in planned.warned:
                yield from _keys_of(workspace, "care", id_)
        for part in stop.parts:
            yield from plan.stop.words[part.kind].source if part.by_author else ()
            for claim in part.claims:
                for id_ in claim.taxa:
                    value = workspace.taxa[id_].values.get(claim.trait)
                    yield from value.source if value else ()
            if part.taxon:
                yield from _keys_of(workspace, part.kind, part.taxon)


def _keys_of(workspace: Workspace, kind: str, taxon: str) -> Iterable[str]:
    """The sources of what a part says of a plant beside its claims."""
    profile = workspace.taxa[taxon].profile
    if kind == "name":
        for meaning in profile.name_meaning:
            yield from meaning.source
    elif kind == "habitat" and profile.habitat:
        yield from profile.habitat.source
    elif kind == "care":
        yield from profile.hazard.text.source if profile.hazard else ()
        for care in profile.care:
            yield from care.source
