"""All checks of content, in one list."""

from __future__ import annotations

from twayblade.knowledge.problem import Finding
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.checks.contrasts import check_contrasts
from twayblade.reasoning.checks.hazards import check_hazards
from twayblade.reasoning.checks.lookalikes import check_look_alikes
from twayblade.reasoning.checks.names import check_names
from twayblade.reasoning.checks.profiles import check_profiles
from twayblade.reasoning.checks.prose import check_prose
from twayblade.reasoning.checks.terms import check_terms
from twayblade.reasoning.checks.trails import check_regions, check_seasons_used, check_trails
from twayblade.reasoning.checks.traits import check_traits
from twayblade.reasoning.checks.values import check_values

_CHECKS = (
    check_contrasts,
    check_hazards,
    check_look_alikes,
    check_names,
    check_profiles,
    check_prose,
    check_terms,
    check_traits,
    check_values,
    check_trails,
    check_seasons_used,
    check_regions,
)


def check_content(workspace: Workspace) -> tuple[Finding, ...]:
    """Everything that is wrong with what a workspace says. Truth only: it needs no date."""
    return tuple(finding for check in _CHECKS for finding in check(workspace))
