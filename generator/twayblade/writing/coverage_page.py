"""What the page of coverage shows: what the site knows and, above all, what it does not."""

from __future__ import annotations

from typing import Any

from twayblade.knowledge.library import Recorded
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.coverage import ProfileCoverage, coverage
from twayblade.writing.cautions import hazard_words
from twayblade.writing.phrases import listed


def coverage_context(workspace: Workspace, region: str | None) -> dict[str, Any]:
    """What the template of the page needs."""
    found = coverage(workspace, region)
    known = workspace.regions.get(region or "")
    return {
        "found": found,
        "region": known,
        "there": (known.say or f"in {known.name}") if known else "",
        "profiles": sorted(found.profiles, key=lambda each: each.taxon.common_name),
        "lacking": _lacking(found.harmful, found.unassessed, found.others),
        "harm": lambda entry: hazard_words(entry.hazard),
        "recalled": lambda each: _recalled(workspace, each),
    }


def _lacking(*kinds: tuple[Recorded, ...]) -> list[tuple[str, tuple[Recorded, ...]]]:
    """What has no profile, by the hazard on its list, the harmful first."""
    return [(kind, entries) for kind, entries in zip(("harmful", "unassessed", "none_found"), kinds, strict=True) if entries]


def _recalled(workspace: Workspace, each: ProfileCoverage) -> str:
    """The names of the traits that rest on memory alone."""
    return listed(workspace.traits[id_].name for id_ in each.from_memory)
