"""Trails and regions: something to see at each stop on each date, and a home for the seasons."""

from __future__ import annotations

from collections.abc import Iterator

from twayblade.knowledge.problem import Finding, Spot
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.seeing import present


def check_trails(workspace: Workspace) -> Iterator[Finding]:
    """Stops of which nothing can be seen on a date of the walk."""
    for planned in workspace.trails.values():
        trail = planned.trail
        for place, on in enumerate(trail.dates):
            for stop in trail.stops:
                if not any(present(workspace, workspace.taxa[id_], on, trail.region) for id_ in stop.taxa):
                    message = f"on {on} nothing of the stop `{stop.id}` can be seen: {', '.join(stop.taxa)}"
                    yield Finding("stop-empty", Spot(planned.document, ("dates", place)), message)


def check_seasons_used(workspace: Workspace) -> Iterator[Finding]:
    """Trails in a region for which no windows of the year are recorded."""
    home = workspace.regions.get(workspace.home_region or "")
    for planned in workspace.trails.values():
        trail = planned.trail
        if home is None or trail.region == workspace.home_region:
            continue
        taxa = [workspace.taxa[id_] for stop in trail.stops for id_ in stop.taxa]
        foreign = [
            t for t in taxa if t.profile.seasons and not any(w.region == trail.region for windows in t.profile.seasons.values() for w in windows)
        ]
        if foreign:
            there = workspace.regions[trail.region]
            rule = "seasons-elsewhere" if there.hemisphere == home.hemisphere else "seasons-other-hemisphere"
            message = f"no seasons are recorded for {there.name}; those of {home.name} are used for {', '.join(sorted({t.id for t in foreign}))}"
            hint = f"give their windows `in {trail.region}`, as in `flower: June - July; December - January in {trail.region}`"
            yield Finding(rule, Spot(planned.document, ("region",)), message, (hint,))


def check_regions(workspace: Workspace) -> Iterator[Finding]:
    """Windows of the year that name no region need one home region."""
    homes = [id_ for id_, region in workspace.regions.items() if region.home]
    if len(homes) > 1 or (not homes and workspace.regions):
        document = f"content/regions/{homes[1] if homes else min(workspace.regions)}.yml"
        message = f"{len(homes)} regions are marked `home: true`; windows that name no region need exactly one"
        yield Finding("home-region", Spot(document), message)
