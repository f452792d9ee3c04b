"""Commands that ask what is known: check, compare, explain."""

from __future__ import annotations

import sys
from datetime import date

import click

from twayblade.cli.common import (
    Here,
    MeansList,
    format_option,
    in_workspace,
    loaded_of,
    near,
    on_option,
    problems_of,
    show,
    taxon_of,
    workspace_of,
)
from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.problem import Severity
from twayblade.knowledge.rules import RULES
from twayblade.knowledge.trait import Means
from twayblade.reasoning.telling import tell_apart
from twayblade.writing import shapes, terminal


@click.command()
@click.option("--strict", is_flag=True, help="Count warnings as findings.")
@format_option
@in_workspace
def check(context: Here, strict: bool, form: str) -> None:
    """Check everything: files, names, and the truth of every contrast. Exit 0 clean, 1 findings, 2 wrong usage."""
    problems = problems_of(loaded_of(context), thorough=True)
    text = "\n\n".join([*(terminal.problem_text(p) for p in problems), terminal.summary_text(problems)])
    show(form, shapes.check_shape(problems), text)
    sys.exit(1 if any(strict or p.severity is Severity.ERROR for p in problems) else 0)


@click.command()
@click.argument("taxa", nargs=-1, required=True)
@on_option
@click.option("--means", type=MeansList(), default="eye", help="What may be used: eye, lens, ruler ... separated by commas.")
@format_option
@in_workspace
def compare(context: Here, taxa: tuple[str, ...], on: date | None, means: frozenset[Means], form: str) -> None:
    """Tell two or more TAXA apart, on a date and by the means allowed."""
    workspace = workspace_of(context)
    ids = tuple(dict.fromkeys(taxon_of(workspace, name) for name in taxa))
    if len(ids) < 2:
        raise click.UsageError("name two different taxa or more")
    telling = tell_apart(workspace, Occasion(on, means, workspace.home_region, ids))
    show(form, shapes.compare_shape(workspace, telling), terminal.compare_text(workspace, telling))


@click.command()
@click.argument("rule", required=False)
def explain(rule: str | None) -> None:
    """The page of a RULE; without one, the list of all rules."""
    if rule is None:
        click.echo("\n".join(f"{r.id:<28}{r.severity.value:<9}{r.title}" for r in RULES.values()))
        return
    if rule not in RULES:
        raise click.UsageError(f"no rule `{rule}`{near(rule, list(RULES))}")
    click.echo(RULES[rule].page.rstrip())
