"""The command. It only arranges: it reads its words, calls one front door, and prints."""

from __future__ import annotations

import json
import sys
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any, NoReturn

import click
from rapidfuzz import process

from twayblade import __version__
from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.problem import Problem, Severity
from twayblade.knowledge.rules import RULES
from twayblade.knowledge.trail import Case
from twayblade.knowledge.trait import Means, parse_means
from twayblade.knowledge.workspace import PlannedTrail, Workspace
from twayblade.reading.recce import read_recce
from twayblade.reading.route import places_along
from twayblade.reading.workspace import Loaded, load
from twayblade.reasoning.checks import check_content
from twayblade.reasoning.lookalikes import look_alikes
from twayblade.reasoning.observed import Turnout
from twayblade.reasoning.recce import findings, turnout_of, walk_after
from twayblade.reasoning.telling import tell_apart
from twayblade.reasoning.walk import outline
from twayblade.writing import recce_text, shapes, terminal
from twayblade.writing.chapters import chapters_vtt
from twayblade.writing.chapters import description as film_description
from twayblade.writing.cue_words import cue_shape, cue_text
from twayblade.writing.fitting import PrintForm, Sheet
from twayblade.writing.key_layout import Layout
from twayblade.writing.key_words import write_key
from twayblade.writing.plan_terminal import walk_text, year_text
from twayblade.writing.plan_words import plan_shape, write_plan
from twayblade.writing.recce_csv import sheet_csv
from twayblade.writing.recce_words import write_recce
from twayblade.writing.registers import Register, ScriptForm, cue_stops
from twayblade.writing.script import write_script
from twayblade.writing.text_checks import check_scripts


@dataclass(frozen=True)
class _Context:
    folder: Path


class _Date(click.ParamType):  # type: ignore[type-arg, unused-ignore] # generic from click 8.5 on
    name = "date"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> date:
        try:
            return value if isinstance(value, date) else date.fromisoformat(value)
        except ValueError:
            self.fail(f"`{value}` is no date; expected year-month-day, as in 2026-06-07", param, ctx)


class _MeansList(click.ParamType):  # type: ignore[type-arg, unused-ignore]
    name = "means"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> frozenset[Means]:
        try:
            found = value if isinstance(value, frozenset) else parse_means([m.strip() for m in value.split(",") if m.strip()])
            return found or self.fail("expected one means or more, as in eye,lens", param, ctx)
        except ValueError as reason:
            self.fail(str(reason), param, ctx)


_format = click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", help="How to print: text or JSON.")
_FILE = click.Path(path_type=Path, dir_okay=False)
_on = click.option("--on", type=_Date(), help="The date, year-month-day.")
_in_workspace = click.make_pass_decorator(_Context)


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.option(
    "-C",
    "folder",
    type=click.Path(path_type=Path, file_okay=False, exists=True),
    default=".",
    help="The workspace: a folder with mkdocs.yml and content/.",
)
@click.version_option(__version__)
@click.pass_context
def main(ctx: click.Context, folder: Path) -> None:
    """Checked scripts, trail guides and pocket keys from structured species profiles."""
    ctx.obj = _Context(folder)


def _loaded(context: _Context) -> Loaded:
    if not (context.folder / "content").is_dir():
        raise click.UsageError(f"{context.folder.resolve()} is no workspace: it has no folder content/. Go into one, or name it with -C.")
    return load(context.folder)


def _problems(loaded: Loaded, thorough: bool = False) -> list[Problem]:
    found = [*loaded.problems, *(loaded.place(finding) for finding in check_content(loaded.draft))]
    if thorough and loaded.workspace and not any(p.severity is Severity.ERROR for p in found):
        found += [loaded.place(finding) for finding in check_scripts(loaded.workspace)]
    return sorted(found, key=lambda p: p.order)


def _workspace(context: _Context) -> Workspace:
    """The workspace, if nothing in it is wrong; a command never makes an output of what does not hold."""
    loaded = _loaded(context)
    errors = [p for p in _problems(loaded) if p.severity is Severity.ERROR]
    if errors or loaded.workspace is None:
        _refuse(errors)
    return loaded.workspace


def _refuse(errors: list[Problem]) -> NoReturn:
    for problem in errors:
        click.echo(terminal.problem_text(problem), err=True)
    click.echo(terminal.summary_text(errors), err=True)
    sys.exit(1)


def _trail(workspace: Workspace, name: str | None) -> PlannedTrail:
    trails = workspace.trails
    if name is None and len(trails) == 1:
        return next(iter(trails.values()))
    if name is None:
        raise click.UsageError(f"which trail? There are {', '.join(trails) or 'none'}.")
    if name.rstrip("/") not in trails:
        raise click.UsageError(f"no trail `{name}`{_near(name, list(trails))}")
    return trails[name.rstrip("/")]


def _near(name: str, known: list[str]) -> str:
    found = process.extractOne(name, known, score_cutoff=55)
    shown = ", ".join(known[:8]) + (" ..." if len(known) > 8 else "")
    return f"; did you mean `{found[0]}`?" if found else f"; there are {shown or 'none'}"


def _print(form: str, shape: Any, text: str) -> None:
    click.echo(json.dumps(shape, indent=2, ensure_ascii=False) if form == "json" else text)


def _write(file: Path, content: bytes) -> None:
    try:
        file.write_bytes(content)
    except OSError as reason:
        raise click.UsageError(f"cannot write {file}: {reason.strerror}") from None
    click.echo(f"wrote {file}")


@main.command()
@click.option("--strict", is_flag=True, help="Count warnings as findings.")
@_format
@_in_workspace
def check(context: _Context, strict: bool, form: str) -> None:
    """Check everything: files, names, and the truth of every contrast. Exit 0 clean, 1 findings, 2 wrong usage."""
    problems = _problems(_loaded(context), thorough=True)
    text = "\n\n".join([*(terminal.problem_text(p) for p in problems), terminal.summary_text(problems)])
    _print(form, shapes.check_shape(problems), text)
    sys.exit(1 if any(strict or p.severity is Severity.ERROR for p in problems) else 0)


@main.command()
@click.argument("taxa", nargs=-1, required=True)
@_on
@click.option("--means", type=_MeansList(), default="eye", help="What may be used: eye, lens, ruler ... separated by commas.")
@_format
@_in_workspace
def compare(context: _Context, taxa: tuple[str, ...], on: date | None, means: frozenset[Means], form: str) -> None:
    """Tell two or more TAXA apart, on a date and by the means allowed."""
    workspace = _workspace(context)
    ids = tuple(dict.fromkeys(_taxon(workspace, name) for name in taxa))
    if len(ids) < 2:
        raise click.UsageError("name two different taxa or more")
    telling = tell_apart(workspace, Occasion(on, means, workspace.home_region, ids))
    _print(form, shapes.compare_shape(workspace, telling), terminal.compare_text(workspace, telling))


def _taxon(workspace: Workspace, name: str) -> str:
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
    raise click.UsageError(f"no taxon `{name}`{_near(name, [*workspace.taxa, *named])}")


def _date_of(planned: PlannedTrail, on: date | None) -> date:
    return on or planned.trail.chief_date


@main.command()
@click.argument("trail", required=False)
@_on
@click.option("--case", "cases", multiple=True, metavar="STOP=CASE", help=f"How a stop turned out: {', '.join(Case)}.")
@click.option("--recce", "filled", type=click.Path(path_type=Path, dir_okay=False, exists=True), help="A filled recce sheet that chooses the cases.")
@click.option("--branches", is_flag=True, help="Print the other ways each stop may turn out, and what people may ask.")
@click.option(
    "--register", type=click.Choice([r.value for r in Register]), default=Register.PROSE.value, help="Prose to speak, cards of catchwords, or notes."
)
@click.option("--pdf", type=_FILE, help="Write the script as a PDF to this file.")
@click.option(
    "--as",
    "printed",
    type=click.Choice([f.value for f in ScriptForm]),
    default=ScriptForm.PAGES.value,
    help="The PDF: pages to read, or cards of A6.",
)
@click.option("--chapters", type=_FILE, help="Write the chapters of the film as WebVTT to this file.")
@click.option("--description", type=_FILE, help="Write a description of the film with time marks to this file.")
@_format
@_in_workspace
def script(
    context: _Context,
    trail: str | None,
    on: date | None,
    cases: tuple[str, ...],
    filled: Path | None,
    branches: bool,
    register: str,
    pdf: Path | None,
    printed: str,
    chapters: Path | None,
    description: Path | None,
    form: str,
) -> None:
    """The script of a TRAIL on a date, with times, printed here or written to files. One trail needs no naming."""
    workspace = _workspace(context)
    planned = _trail(workspace, trail)
    turnout = Turnout(_cases(planned, cases))
    if filled:
        read, problems = read_recce(Path(), str(filled), planned, workspace)
        if problems:
            _refuse(problems)
        on = on or walk_after(planned, read)
        seen = turnout_of(findings(workspace, planned, read, on))
        turnout = replace(seen, cases={**seen.cases, **turnout.cases})
    written = write_script(workspace, planned, _date_of(planned, on), turnout=turnout)
    if pdf:
        from twayblade.writing.script_print import script_pdf

        _write(pdf, script_pdf(workspace, written, ScriptForm(printed)))
    if chapters:
        _write(chapters, chapters_vtt(written).encode())
    if description:
        _write(description, film_description(workspace, written).encode())
    if pdf or chapters or description:
        return
    if Register(register) is Register.PROSE:
        _print(form, shapes.script_shape(written), terminal.script_text(written, branches))
    else:
        stops = cue_stops(workspace, written, Register(register))
        _print(form, cue_shape(written, stops), cue_text(workspace, written, stops, branches))


@main.command()
@click.argument("trail", required=False)
@_on
@_format
@_in_workspace
def pictures(context: _Context, trail: str | None, on: date | None, form: str) -> None:
    """The pictures to take on a TRAIL, each set-up of the camera once, with boxes for the takes."""
    workspace = _workspace(context)
    planned = _trail(workspace, trail)
    written = write_script(workspace, planned, _date_of(planned, on), branches=False)
    _print(form, shapes.pictures_shape(written), terminal.pictures_text(workspace, written))


def _cases(planned: PlannedTrail, written: tuple[str, ...]) -> dict[str, Case]:
    """How stops turned out, as written `STOP=CASE`."""
    found = {}
    for text in written:
        stop, _, case = text.partition("=")
        stops = [s.id for s in planned.trail.stops]
        if stop not in stops:
            raise click.UsageError(f"no stop `{stop}`{_near(stop, stops)}")
        if case not in list(Case):
            raise click.UsageError(f"no case `{case}`; there are {', '.join(Case)}")
        found[stop] = Case(case)
    return found


@main.command()
@click.argument("trail", required=False)
@_on
@click.option("--allows", type=click.IntRange(min=0, max=24 * 60), help="Minutes the walk may take; what the trail allows if not given.")
@_format
@_in_workspace
def plan(context: _Context, trail: str | None, on: date | None, allows: int | None, form: str) -> None:
    """The plan of a TRAIL: what each date gives; with a date or minutes, the walk of that date within its time."""
    workspace = _workspace(context)
    planned = _trail(workspace, trail)
    written = write_plan(workspace, planned, _date_of(planned, on), None if allows is None else allows * 60)
    text = year_text(workspace, written.year) if on is None and allows is None else walk_text(workspace, written)
    _print(form, plan_shape(workspace, written), text)


@main.command()
@click.argument("trail", required=False)
@_on
@click.option("--pdf", type=_FILE, help="Write the key as a PDF to this file.")
@click.option(
    "--as",
    "printed_as",
    type=click.Choice([each.value for each in PrintForm]),
    help="What the PDF is: a sheet to fold (the default), a card, or large print.",
)
@click.option(
    "--paper", type=click.Choice([each.value for each in Sheet]), help="The paper of the PDF: A4 (the default) or US Letter; a card is half of it."
)
@click.option(
    "--layout",
    type=click.Choice([each.value for each in Layout]),
    default=Layout.BRACKETED.value,
    help="Leads of a couplet together (bracketed), or each couplet under the lead that comes to it (indented).",
)
@_format
@_in_workspace
def key(
    context: _Context, trail: str | None, on: date | None, pdf: Path | None, printed_as: str | None, paper: str | None, layout: str, form: str
) -> None:
    """The pocket key of a TRAIL for a date. One trail needs no naming."""
    if pdf is None and (printed_as or paper):
        raise click.UsageError("--as and --paper say how to print; name the file with --pdf")
    workspace = _workspace(context)
    planned = _trail(workspace, trail)
    written = write_key(workspace, planned, _date_of(planned, on))
    if pdf:
        from twayblade.writing.print import print_key

        printed = print_key(workspace, written, PrintForm(printed_as or PrintForm.FOLD), Sheet(paper or Sheet.A4), Layout(layout))
        _write(pdf, printed.pdf)
        click.echo("\n".join(printed.remarks))
        return
    _print(form, shapes.key_shape(workspace, written), terminal.key_text(workspace, written, Layout(layout)))


@main.command()
@click.argument("trail", required=False)
@_on
@click.option("--pdf", type=_FILE, help="Write the sheet as a PDF (A4, each stop on a page of its own) to this file.")
@click.option("--csv", "table", type=_FILE, help="Write the sheet as a table to fill in to this file.")
@click.option("--coordinates", is_flag=True, help="Put the stops' coordinates into the table. Without it the sheet has none.")
@click.option("--read", "filled", type=click.Path(path_type=Path, dir_okay=False, exists=True), help="Read a table that was filled in.")
@_format
@_in_workspace
def recce(
    context: _Context, trail: str | None, on: date | None, pdf: Path | None, table: Path | None, coordinates: bool, filled: Path | None, form: str
) -> None:
    """The sheet for a visit before the walk of a TRAIL; with --read, what a filled one says. One trail needs no naming."""
    workspace = _workspace(context)
    planned = _trail(workspace, trail)
    if filled:
        _read_recce(workspace, planned, on, filled, form)
        return
    if coordinates and not (table and planned.route):
        raise click.UsageError("--coordinates goes with --csv, and with a trail that has a route")
    pairs = look_alikes(workspace)
    written = write_recce(workspace, outline(workspace, planned, _date_of(planned, on), pairs, branches=False), pairs)
    if pdf:
        from twayblade.writing.recce_print import recce_pdf

        _write(pdf, recce_pdf(written))
    if table:
        ids = [stop.id for stop in planned.trail.stops]
        places = dict(zip(ids, places_along(planned.route), strict=True)) if coordinates and planned.route else None
        _write(table, sheet_csv(written, places))
    if not pdf and not table:
        click.echo(recce_text.sheet_text(written))


def _read_recce(workspace: Workspace, planned: PlannedTrail, on: date | None, filled: Path, form: str) -> None:
    """What a filled sheet says; what cannot be read of it goes first, and makes the exit code 1."""
    read, problems = read_recce(Path(), str(filled), planned, workspace)
    found = findings(workspace, planned, read, on or walk_after(planned, read))
    for problem in problems if form == "text" else ():
        click.echo(terminal.problem_text(problem) + "\n", err=True)
    _print(form, shapes.recce_shape(workspace, found, problems), recce_text.findings_text(workspace, found))
    sys.exit(1 if problems else 0)


@main.command()
@click.option("--to", type=click.Path(path_type=Path, file_okay=False), help="Where to put the site; `site` in the workspace if not given.")
@_in_workspace
def build(context: _Context, to: Path | None) -> None:
    """Check, then make the site. With errors nothing is published and the old site stays as it was."""
    from twayblade.site.publish import PublishError, publish

    _workspace(context)
    try:
        folder = publish(context.folder, to)
    except PublishError as reason:
        raise click.ClickException(str(reason)) from None
    click.echo(f"the site is in {folder}")


@main.command()
@click.option("--port", type=int, default=8000, show_default=True, help="The port on this machine.")
@_in_workspace
def serve(context: _Context, port: int) -> None:
    """Show the site on this machine and make it anew when a file changes."""
    from twayblade.site.publish import PublishError, serve_site

    _workspace(context)
    try:
        serve_site(context.folder, port)
    except PublishError as reason:
        raise click.ClickException(str(reason)) from None


@main.command()
@click.argument("rule", required=False)
def explain(rule: str | None) -> None:
    """The page of a RULE; without one, the list of all rules."""
    if rule is None:
        click.echo("\n".join(f"{r.id:<28}{r.severity.value:<9}{r.title}" for r in RULES.values()))
        return
    if rule not in RULES:
        raise click.UsageError(f"no rule `{rule}`{_near(rule, list(RULES))}")
    click.echo(RULES[rule].page.rstrip())
