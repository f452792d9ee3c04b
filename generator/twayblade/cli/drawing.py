"""The command that draws."""

from __future__ import annotations

from pathlib import Path

import click

from twayblade.cli.common import FILE, Here, in_workspace, near, taxon_of, workspace_of, write_file
from twayblade.knowledge.workspace import Taxon
from twayblade.writing.cautions import cautions_around
from twayblade.writing.drawings import Drawings, Picture


@click.command()
@click.argument("taxon")
@click.option("--part", metavar="PIECE", help="The part of the plant: plant, stem, leaf, fruit ...; the whole plant if not given.")
@click.option("--form", metavar="FORM", help="Of plants of this form.")
@click.option(
    "--beside", metavar="TAXON", help="As it is drawn beside another: what differs between the two, and nothing else, differs in the drawings."
)
@click.option("--to", type=FILE, help="Write the drawing to this file; printed here if not given.")
@in_workspace
def draw(context: Here, taxon: str, part: str | None, form: str | None, beside: str | None, to: Path | None) -> None:
    """Draw a TAXON, or a part of it, from what is recorded of it, as SVG."""
    workspace = workspace_of(context)
    drawn = workspace.taxa[taxon_of(workspace, taxon)]
    if part is not None and part not in workspace.pieces:
        raise click.UsageError(f"no part `{part}`{near(part, list(workspace.pieces))}")
    if form is not None and form not in drawn.profile.forms:
        raise click.UsageError(f"no form `{form}` of {drawn.common_name}{near(form, list(drawn.profile.forms))}")
    if form and beside:
        raise click.UsageError("--form draws one form of a taxon, --beside draws a taxon as a whole; give one of them")
    for line in cautions_around(workspace, (drawn.id,)):
        click.echo(line, err=True)
    drawings = Drawings(workspace, workspace.home_region)
    other = workspace.taxa[taxon_of(workspace, beside)] if beside else None
    svg = _beside(drawings, drawn, other, part) if other else _alone(drawings, drawn, part, form)
    if to:
        write_file(to, svg.encode())
    else:
        click.echo(svg, nl=False)


def _alone(drawings: Drawings, taxon: Taxon, part: str | None, form: str | None) -> str:
    found = [d for d in drawings.of_taxon(taxon) if form is None or d.form in (form, None)]
    wanted = [d for d in found if part in (None, d.piece)]
    if not wanted:
        raise click.UsageError(f"nothing is recorded of {taxon.common_name} that `{part}` shows; there are {_pieces(found)}")
    return next((d for d in wanted if form and d.form == form), wanted[0]).svg


def _beside(drawings: Drawings, taxon: Taxon, other: Taxon, part: str | None) -> str:
    if taxon.id == other.id:
        raise click.UsageError("name two different taxa")
    found = drawings.of_pair(taxon, other)
    wanted = [d.first for d in found if part in (None, d.piece)]
    if not wanted:
        raise click.UsageError(f"nothing that `{part or 'a drawing'}` shows tells these two apart; there are {_pieces([d.first for d in found])}")
    return wanted[0].svg


def _pieces(found: list[Picture]) -> str:
    return ", ".join(dict.fromkeys(d.piece for d in found)) or "none"
