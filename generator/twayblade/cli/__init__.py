"""The command. It only arranges: it reads its words, calls one front door, and prints."""

from __future__ import annotations

from pathlib import Path

import click

from twayblade import __version__
from twayblade.cli.common import Here
from twayblade.cli.drawing import draw
from twayblade.cli.knowing import check, compare, explain
from twayblade.cli.publishing import build, serve
from twayblade.cli.sheets import key, recce
from twayblade.cli.walking import pictures, plan, script


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
    ctx.obj = Here(folder)


for command in (check, compare, draw, explain, script, pictures, plan, key, recce, build, serve):
    main.add_command(command)
