"""What all commands share: the kinds of their words, and how they find what is named, print and refuse."""

from __future__ import annotations

import json
import sys
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any, NoReturn

import click
from rapidfuzz import process

from twayblade.knowledge.problem import Problem, Severity
from twayblade.knowledge.trait import Means, parse_means
from twayblade.knowledge.workspace import PlannedTrail, Workspace
from twayblade.reading.workspace import Loaded, load
from twayblade.reasoning.checks import check_content
from twayblade.writing import terminal
from twayblade.writing.text_checks import check_scripts


@dataclass(frozen=True)
class Here:
    """Where a command works."""

    folder: Path


class Date(click.ParamType):  # type: ignore[type-arg, unused-ignore] # generic from click 8.5 on
    """A date, year-month-day."""

    name = "date"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> date:
        """Read it, or say how it is written."""
        try:
            return value if isinstance(value, date) else date.fromisoformat(value)
        except ValueError:
            self.fail(f"`{value}` is no date; expected year-month-day, as in 2026-06-07", param, ctx)


class MeansList(click.ParamType):  # type: ignore[type-arg, unused-ignore]
    """A list of means, with commas."""

    name = "means"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> frozenset[Means]:
        """Read it, or say what there is."""
        try:
            found = value if isinstance(value, frozenset) else parse_means([m.strip() for m in value.split(",") if m.strip()])
            return found or self.fail("expected one means or more, as in eye,lens", param, ctx)
        except ValueError as reason:
            self.fail(str(reason), param, ctx)


format_option = click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", help="How to print: text or JSON.")
FILE = click.Path(path_type=Path, dir_okay=False)
on_option = click.option("--on", type=Date(), help="The date, year-month-day.")
in_workspace = click.make_pass_decorator(Here)


def loaded_of(context: Here) -> Loaded:
    """What reading the workspace gave."""
    if not (context.folder / "content").is_dir():
        raise click.UsageError(f"{context.folder.resolve()} is no workspace: it has no folder content/. Go into one, or name it with -C.")
    return load(context.folder)


def problems_of(loaded: Loaded, thorough: bool = False) -> list[Problem]:
    """Everything that is wrong with it, sorted by place; thorough: what the scripts say, too."""
    found = [*loaded.problems, *(loaded.place(finding) for finding in check_content(loaded.draft))]
    if thorough and loaded.workspace and not any(p.severity is Severity.ERROR for p in found):
        found += [loaded.place(finding) for finding in check_scripts(loaded.workspace)]
    return sorted(found, key=lambda p: p.order)


def workspace_of(context: Here) -> Workspace:
    """The workspace, if nothing in it is wrong; a command never makes an output of what does not hold."""
    loaded = loaded_of(context)
    errors = [p for p in problems_of(loaded) if p.severity is Severity.ERROR]
    if errors or loaded.workspace is None:
        refuse(errors)
    return loaded.workspace


def refuse(errors: list[Problem]) -> NoReturn:
    """Print what is wrong, and end."""
    for problem in errors:
        click.echo(terminal.problem_text(problem), err=True)
    click.echo(terminal.summary_text(errors), err=True)
    sys.exit(1)


def trail_of(workspace: Workspace, name: str | None) -> PlannedTrail:
    """The trail named; without a name, the only one."""
    trails = workspace.trails
    if name is None and len(trails) == 1:
        return next(iter(trails.values()))
    if name is None:
        raise click.UsageError(f"which trail? There are {', '.join(trails) or 'none'}.")
    if name.rstrip("/") not in trails:
        raise click.UsageError(f"no trail `{name}`{near(name, list(trails))}")
    return trails[name.rstrip("/")]


def near(name: str, known: list[str]) -> str:
    """The nearest of what there is, as the end of a message."""
    found = process.extractOne(name, known, score_cutoff=55)
    shown = ", ".join(known[:8]) + (" ..." if len(known) > 8 else "")
    return f"; did you mean `{found[0]}`?" if found else f"; there are {shown or 'none'}"


def show(form: str, shape: Any, text: str) -> None:
    """Print as text, or as JSON."""
    click.echo(json.dumps(shape, indent=2, ensure_ascii=False) if form == "json" else text)


def write_file(file: Path, content: bytes) -> None:
    """Write a file and say so."""
    try:
        file.write_bytes(content)
    except OSError as reason:
        raise click.UsageError(f"cannot write {file}: {reason.strerror}") from None
    click.echo(f"wrote {file}")


def taxon_of(workspace: Workspace, name: str) -> str:
    """A taxon by its id, its scientific name or its common name."""
    if name in workspace.taxa:
        return name
    plain = name.strip().lower()
    named: dict[str, list[str]] = {}
    for taxon in workspace.taxa.values():
        for label in {taxon.id, taxon.scientific_name.lower(), *(n.lower() for names in taxon.profile.common_names.values() for n in names)}:
            named.setdefault(label, []).append(taxon.id)
    if len(named.get(plain, [])) == 1:
        return named[plain][0]
    if plain in named:
        raise click.UsageError(f"`{name}` may be {' or '.join(named[plain])}; name one of these")
    raise click.UsageError(f"no taxon `{name}`{near(name, [*workspace.taxa, *named])}")


def date_of(planned: PlannedTrail, on: date | None) -> date:
    """The date given, else the chief date of the trail."""
    return on or planned.trail.chief_date
