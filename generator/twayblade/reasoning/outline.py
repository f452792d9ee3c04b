"""The outline of a walk: which claims each stop makes on a date, in order. Words and seconds come later."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from twayblade.knowledge.profile import STAGES, Ground
from twayblade.knowledge.season import Phase, day_of
from twayblade.knowledge.trail import Case, Stop
from twayblade.knowledge.workspace import PlannedTrail, Taxon, Workspace
from twayblade.reasoning.seeing import phase_on
from twayblade.reasoning.showing import Shown
from twayblade.reasoning.signs import Remaining
from twayblade.reasoning.telling import Told


@dataclass(frozen=True)
class Contrasted:
    """A contrast of a taxon with another, and the author's ground for it, if declared."""

    told: Told
    ground: Ground | None


@dataclass(frozen=True)
class PartPlan:
    """One part of a stop: its kind, the taxon it is about, what it claims.

    other: in `tell`, the taxon already met; without contrasts, nothing that may be looked at separates the two then,
    and remaining says when or by what means something would. In `not-found`, the taxon met that is looked at instead.
    warned: in `care`, further harmful taxa whose cautions are spoken here.
    """

    kind: str
    taxon: str | None = None
    shown: tuple[Shown, ...] = ()
    other: str | None = None
    contrasts: tuple[Contrasted, ...] = ()
    warned: tuple[str, ...] = ()
    remaining: Remaining | None = None


@dataclass(frozen=True)
class Asked:
    """A question an audience is likely to ask at a stop: whether a plant is `other`, which it is not, and what tells."""

    taxon: str
    other: str
    contrast: Contrasted | None


@dataclass(frozen=True)
class StopPlan:
    """A stop with its parts.

    groups: those first met here. stages: for each of its taxa those that can be seen then; none: it is not to be seen.
    """

    stop: Stop
    groups: tuple[str, ...]
    stages: Mapping[str, tuple[tuple[str, Phase], ...]]
    parts: tuple[PartPlan, ...]
    case: Case = Case.AS_HOPED
    asked: tuple[Asked, ...] = ()


@dataclass(frozen=True)
class SeasonView:
    """How a walk's taxa stand in the year: over, in flower, perhaps so, still to come; in the order they are met."""

    over: tuple[str, ...]
    in_flower: tuple[str, ...]
    perhaps: tuple[str, ...]
    to_come: tuple[str, ...]


@dataclass(frozen=True)
class Outline:
    """What a walk says on a date. branches: for each stop the other ways it may turn out, all before it as it is here."""

    trail: PlannedTrail
    on: date
    season: SeasonView
    stops: tuple[StopPlan, ...]
    branches: tuple[tuple[StopPlan, ...], ...]


def stages_seen(workspace: Workspace, taxon: Taxon, on: date, region: str | None) -> tuple[tuple[str, Phase], ...]:
    """The stages in which a taxon can be seen on a date, in the order of its life."""
    phases = ((stage, phase_on(workspace, taxon, stage, day_of(on), region)) for stage in STAGES)
    return tuple((stage, phase) for stage, phase in phases if phase is not None and phase.can_be_seen)


def season_view(workspace: Workspace, taxa: tuple[str, ...], on: date, region: str | None) -> SeasonView:
    """How some taxa stand in the year by their flowering; those without one on record are left out."""
    phases = {id_: phase_on(workspace, workspace.taxa[id_], "flower", day_of(on), region) for id_ in taxa}
    return SeasonView(
        tuple(id_ for id_ in taxa if phases[id_] is Phase.OVER),
        tuple(id_ for id_ in taxa if phases[id_] is Phase.EXPECTED),
        tuple(id_ for id_ in taxa if phases[id_] is Phase.POSSIBLE),
        tuple(id_ for id_ in taxa if phases[id_] is Phase.NOT_YET),
    )
