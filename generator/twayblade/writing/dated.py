"""The days of what stands on a page, as attributes of its elements that the scripts of the site read."""

from __future__ import annotations

from markupsafe import Markup

from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.seeing import runs
from twayblade.reasoning.tables import Dated
from twayblade.reasoning.telling import observation, strength


def run_marks(days: int) -> str:
    """Days (bits of the circle) as runs of first and last day, both included: `120-200 350-10`; empty for none."""
    return " ".join(f"{first}-{last}" for first, last in runs(days))


def days_attribute(days: int, name: str = "days") -> Markup:
    """The days of an element."""
    return Markup(' data-{}="{}"').format(name, run_marks(days))


def contrast_attributes(workspace: Workspace, dated: Dated) -> Markup:
    """The days of a contrast, how it ranks on a day (see `tell_tables`), and the observation it is."""
    relation, _, effort = strength(workspace, dated.difference)
    expected = "/".join(run_marks(days) for days in dated.expected)
    return Markup('{} data-grade="{}" data-expected="{}" data-look="{}"').format(
        days_attribute(dated.usable), 3 * relation + effort, expected, observation(workspace, dated.difference.trait)
    )
