"""A workspace as the day shows it: taxa that stand in stages other than those the date would let one expect."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from twayblade.knowledge.profile import STAGES, SeasonWindow
from twayblade.knowledge.season import ALL_YEAR
from twayblade.knowledge.trail import Case
from twayblade.knowledge.workspace import Taxon, Workspace

_FLOWER = STAGES.index("flower")


@dataclass(frozen=True)
class Turnout:
    """How a day turns out. cases: of stops, by id; the others as hoped. missing: taxa that are not found, whatever the stop does.
    stages: taxa that are in certain stages and no other."""

    cases: Mapping[str, Case] = field(default_factory=dict)
    missing: frozenset[str] = frozenset()
    stages: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


def as_observed(workspace: Workspace, stages: Mapping[str, tuple[str, ...]]) -> Workspace:
    """The workspace in which some taxa are in certain stages, on whatever day, and in no other."""
    return workspace.with_taxa({id_: _in_stages(workspace.taxa[id_], found) for id_, found in stages.items()})


def _in_stages(taxon: Taxon, stages: tuple[str, ...]) -> Taxon:
    seasons = {stage: (SeasonWindow(when=ALL_YEAR),) for stage in stages}
    return replace(taxon, profile=taxon.profile.model_copy(update={"seasons": seasons}))


def gone_over(taxon: Taxon, seen: tuple[str, ...]) -> tuple[str, ...]:
    """The stages a taxon is in when it is past those in which it was hoped for: in fruit, or a dry stem. None: nothing comes after."""
    at_best = [STAGES.index(stage) for stage in seen if STAGES.index(stage) >= _FLOWER]
    if not at_best:
        return ()
    last = _FLOWER if _FLOWER in at_best else max(at_best)
    later = [stage for stage in STAGES[last + 1 :] if stage in taxon.profile.seasons and stage not in ("seedling", "rosette")]
    fruit = tuple(stage for stage in later if stage.endswith("fruit"))
    return fruit or tuple(later[:1])
