"""Commands for the site: build, serve."""

from __future__ import annotations

from pathlib import Path

import click

from twayblade.cli.common import (
    Here,
    in_workspace,
    workspace_of,
)


@click.command()
@click.option("--to", type=click.Path(path_type=Path, file_okay=False), help="Where to put the site; `site` in the workspace if not given.")
@in_workspace
def build(context: Here, to: Path | None) -> None:
    """Check, then make the site. With errors nothing is published and the old site stays as it was."""
    from twayblade.site.publish import PublishError, publish

    workspace_of(context)
    try:
        folder = publish(context.folder, to)
    except PublishError as reason:
        raise click.ClickException(str(reason)) from None
    click.echo(f"the site is in {folder}")


@click.command()
@click.option("--port", type=int, default=8000, show_default=True, help="The port on this machine.")
@in_workspace
def serve(context: Here, port: int) -> None:
    """Show the site on this machine and make it anew when a file changes."""
    from twayblade.site.publish import PublishError, serve_site

    workspace_of(context)
    try:
        serve_site(context.folder, port)
    except PublishError as reason:
        raise click.ClickException(str(reason)) from None
