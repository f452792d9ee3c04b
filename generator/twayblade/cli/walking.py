"""Commands for a walk: script, pictures, plan."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import click

from twayblade.cli.common import (
    FILE,
    Here,
    date_of,
    format_option,
    in_workspace,
    near,
    on_option,
    refuse,
    show,
    trail_of,
    workspace_of,
    write_file,
)
from twayblade.knowledge.trail import Case
from twayblade.knowledge.workspace import PlannedTrail
from twayblade.reading.recce import read_recce
from twayblade.reasoning.observed import Turnout
from twayblade.reasoning.recce import findings, turnout_of, walk_after
from twayblade.writing import shapes, terminal
from twayblade.writing.chapters import chapters_vtt
from twayblade.writing.chapters import description as film_description
from twayblade.writing.cue_words import cue_shape, cue_text
from twayblade.writing.plan_terminal import walk_text, year_text
from twayblade.writing.plan_words import plan_shape, write_plan
from twayblade.writing.registers import Register, ScriptForm, cue_stops
from twayblade.writing.script import write_script


@click.command()
@click.argument("trail", required=False)
@on_option
@click.option("--case", "cases", multiple=True, metavar="STOP=CASE", help=f"How a stop turned out: {', '.join(Case)}.")
@click.option("--recce", "filled", type=click.Path(path_type=Path, dir_okay=False, exists=True), help="A filled recce sheet that chooses the cases.")
@click.option("--branches", is_flag=True, help="Print the other ways each stop may turn out, and what people may ask.")
@click.option(
    "--register", type=click.Choice([r.value for r in Register]), default=Register.PROSE.value, help="Prose to speak, cards of catchwords, or notes."
)
@click.option("--pdf", type=FILE, help="Write the script as a PDF to this file.")
@click.option(
    "--as",
    "printed",
    type=click.Choice([f.value for f in ScriptForm]),
    default=ScriptForm.PAGES.value,
    help="The PDF: pages to read, or cards of A6.",
)
@click.option("--chapters", type=FILE, help="Write the chapters of the film as WebVTT to this file.")
@click.option("--description", type=FILE, help="Write a description of the film with time marks to this file.")
@format_option
@in_workspace
def script(
    context: Here,
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
    workspace = workspace_of(context)
    planned = trail_of(workspace, trail)
    turnout = Turnout(_cases(planned, cases))
    if filled:
        read, problems = read_recce(Path(), str(filled), planned, workspace)
        if problems:
            refuse(problems)
        on = on or walk_after(planned, read)
        seen = turnout_of(findings(workspace, planned, read, on))
        turnout = replace(seen, cases={**seen.cases, **turnout.cases})
    written = write_script(workspace, planned, date_of(planned, on), turnout=turnout)
    if pdf:
        from twayblade.writing.script_print import script_pdf

        write_file(pdf, script_pdf(workspace, written, ScriptForm(printed)))
    if chapters:
        write_file(chapters, chapters_vtt(written).encode())
    if description:
        write_file(description, film_description(workspace, written).encode())
    if pdf or chapters or description:
        return
    if Register(register) is Register.PROSE:
        show(form, shapes.script_shape(written), terminal.script_text(written, branches))
    else:
        stops = cue_stops(workspace, written, Register(register))
        show(form, cue_shape(written, stops), cue_text(workspace, written, stops, branches))


def _cases(planned: PlannedTrail, written: tuple[str, ...]) -> dict[str, Case]:
    """How stops turned out, as written `STOP=CASE`."""
    found = {}
    for text in written:
        stop, _, case = text.partition("=")
        stops = [s.id for s in planned.trail.stops]
        if stop not in stops:
            raise click.UsageError(f"no stop `{stop}`{near(stop, stops)}")
        if case not in list(Case):
            raise click.UsageError(f"no case `{case}`; there are {', '.join(Case)}")
        found[stop] = Case(case)
    return found


@click.command()
@click.argument("trail", required=False)
@on_option
@format_option
@in_workspace
def pictures(context: Here, trail: str | None, on: date | None, form: str) -> None:
    """The pictures to take on a TRAIL, each set-up of the camera once, with boxes for the takes."""
    workspace = workspace_of(context)
    planned = trail_of(workspace, trail)
    written = write_script(workspace, planned, date_of(planned, on), branches=False)
    show(form, shapes.pictures_shape(written), terminal.pictures_text(workspace, written))


@click.command()
@click.argument("trail", required=False)
@on_option
@click.option("--allows", type=click.IntRange(min=0, max=24 * 60), help="Minutes the walk may take; what the trail allows if not given.")
@format_option
@in_workspace
def plan(context: Here, trail: str | None, on: date | None, allows: int | None, form: str) -> None:
    """The plan of a TRAIL: what each date gives; with a date or minutes, the walk of that date within its time."""
    workspace = workspace_of(context)
    planned = trail_of(workspace, trail)
    written = write_plan(workspace, planned, date_of(planned, on), None if allows is None else allows * 60)
    text = year_text(workspace, written.year) if on is None and allows is None else walk_text(workspace, written)
    show(form, plan_shape(workspace, written), text)
