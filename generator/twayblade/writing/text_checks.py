"""Checks of finished text: what can be said only when the words stand."""

from __future__ import annotations

from collections.abc import Iterator

from twayblade.knowledge.problem import Finding, Spot
from twayblade.knowledge.workspace import PlannedTrail, Workspace
from twayblade.reasoning.lookalikes import look_alikes
from twayblade.writing.clock_words import cuts_words
from twayblade.writing.phrases import date_words, listed
from twayblade.writing.script import Script, clock, write_script

_TAKES = {"film": "the film runs", "on site": "the filming takes", "on foot": "the walking takes"}


def check_scripts(workspace: Workspace) -> tuple[Finding, ...]:
    """Walks that take longer than they allow; authors' words that no date uses, or that use a term before it is explained."""
    pairs = look_alikes(workspace)
    found: list[Finding] = []
    for planned in workspace.trails.values():
        scripts = [write_script(workspace, planned, on, pairs) for on in planned.trail.dates]
        found += [*_too_long(planned, scripts), *_unused(planned, scripts), *_unexplained(workspace, planned, scripts)]
    return tuple(found)


def _too_long(planned: PlannedTrail, scripts: list[Script]) -> Iterator[Finding]:
    for place, script in enumerate(scripts):
        over = [("the walk takes", script.seconds, script.seconds_over, script.cuts)]
        over += [(_TAKES[name], run.likely, run.over, run.cuts) for name, run in script.clocks.named]
        for takes, seconds, too_much, cuts in over:
            if too_much:
                message = f"on {date_words(script.on)} {takes} {clock(seconds)}, {clock(too_much)} longer than it allows"
                yield Finding("walk-too-long", Spot(planned.document, ("dates", place)), message, (cuts_words(cuts, too_much),))


def _unused(planned: PlannedTrail, scripts: list[Script]) -> Iterator[Finding]:
    for number, stop in enumerate(planned.trail.stops):
        for part in stop.words:
            if not any(p.by_author and p.kind == part for script in scripts for p in script.stops[number].parts):
                message = f"the words for `{part}` at `{stop.id}` are used on no date: there is no such part"
                yield Finding("words-unused", Spot(planned.document, ("stops", number, "words", part), on_key=True), message)


def _unexplained(workspace: Workspace, planned: PlannedTrail, scripts: list[Script]) -> Iterator[Finding]:
    for number, stop in enumerate(planned.trail.stops):
        parts = [part for script in scripts for part in script.stops[number].parts]
        for kind in stop.words:
            left = dict.fromkeys(id_ for part in parts if part.by_author and part.kind == kind for id_ in part.unexplained)
            if left:
                terms = listed(f"`{workspace.glossary[id_].term}`" for id_ in left)
                message = f"the words for `{kind}` at `{stop.id}` say {terms} before the walk has explained it"
                hint = "say there what it is, as in `an umbel is ...` or `spokes, called rays`; or mark it `everyday: true` in the glossary"
                yield Finding("term-unexplained", Spot(planned.document, ("stops", number, "words", kind)), message, (hint,))
