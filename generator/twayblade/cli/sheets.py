"""Commands for what goes out on paper: key, recce."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path

import click

from twayblade.cli.common import (
    FILE,
    Here,
    date_of,
    format_option,
    in_workspace,
    on_option,
    show,
    trail_of,
    workspace_of,
    write_file,
)
from twayblade.knowledge.workspace import PlannedTrail, Workspace
from twayblade.reading.recce import read_recce
from twayblade.reading.route import places_along
from twayblade.reasoning.lookalikes import look_alikes
from twayblade.reasoning.recce import findings, walk_after
from twayblade.reasoning.walk import outline
from twayblade.writing import recce_text, shapes, terminal
from twayblade.writing.fitting import PrintForm, Sheet
from twayblade.writing.key_layout import Layout
from twayblade.writing.key_words import write_key
from twayblade.writing.recce_csv import sheet_csv
from twayblade.writing.recce_words import write_recce


@click.command()
@click.argument("trail", required=False)
@on_option
@click.option("--pdf", type=FILE, help="Write the key as a PDF to this file.")
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
@format_option
@in_workspace
def key(
    context: Here, trail: str | None, on: date | None, pdf: Path | None, printed_as: str | None, paper: str | None, layout: str, form: str
) -> None:
    """The pocket key of a TRAIL for a date. One trail needs no naming."""
    if pdf is None and (printed_as or paper):
        raise click.UsageError("--as and --paper say how to print; name the file with --pdf")
    workspace = workspace_of(context)
    planned = trail_of(workspace, trail)
    written = write_key(workspace, planned, date_of(planned, on))
    if pdf:
        from twayblade.writing.print import print_key

        printed = print_key(workspace, written, PrintForm(printed_as or PrintForm.FOLD), Sheet(paper or Sheet.A4), Layout(layout))
        write_file(pdf, printed.pdf)
        click.echo("\n".join(printed.remarks))
        return
    show(form, shapes.key_shape(workspace, written), terminal.key_text(workspace, written, Layout(layout)))


@click.command()
@click.argument("trail", required=False)
@on_option
@click.option("--pdf", type=FILE, help="Write the sheet as a PDF (A4, each stop on a page of its own) to this file.")
@click.option("--csv", "table", type=FILE, help="Write the sheet as a table to fill in to this file.")
@click.option("--coordinates", is_flag=True, help="Put the stops' coordinates into the table. Without it the sheet has none.")
@click.option("--read", "filled", type=click.Path(path_type=Path, dir_okay=False, exists=True), help="Read a table that was filled in.")
@format_option
@in_workspace
def recce(
    context: Here, trail: str | None, on: date | None, pdf: Path | None, table: Path | None, coordinates: bool, filled: Path | None, form: str
) -> None:
    """The sheet for a visit before the walk of a TRAIL; with --read, what a filled one says. One trail needs no naming."""
    workspace = workspace_of(context)
    planned = trail_of(workspace, trail)
    if filled:
        _read_recce(workspace, planned, on, filled, form)
        return
    if coordinates and not (table and planned.route):
        raise click.UsageError("--coordinates goes with --csv, and with a trail that has a route")
    pairs = look_alikes(workspace)
    written = write_recce(workspace, outline(workspace, planned, date_of(planned, on), pairs, branches=False), pairs)
    if pdf:
        from twayblade.writing.recce_print import recce_pdf

        write_file(pdf, recce_pdf(written))
    if table:
        ids = [stop.id for stop in planned.trail.stops]
        places = dict(zip(ids, places_along(planned.route), strict=True)) if coordinates and planned.route else None
        write_file(table, sheet_csv(written, places))
    if not pdf and not table:
        click.echo(recce_text.sheet_text(written))


def _read_recce(workspace: Workspace, planned: PlannedTrail, on: date | None, filled: Path, form: str) -> None:
    """What a filled sheet says; what cannot be read of it goes first, and makes the exit code 1."""
    read, problems = read_recce(Path(), str(filled), planned, workspace)
    found = findings(workspace, planned, read, on or walk_after(planned, read))
    for problem in problems if form == "text" else ():
        click.echo(terminal.problem_text(problem) + "\n", err=True)
    show(form, shapes.recce_shape(workspace, found, problems), recce_text.findings_text(workspace, found))
    sys.exit(1 if problems else 0)
