"""What can be seen, and whether it may be asked here: seasons and bars. Truth is another matter (`claims`)."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from enum import StrEnum

from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.season import WHOLE_YEAR, YEAR, Phase, day_of
from twayblade.knowledge.trait import HANDLING, Kind, Means, Trait, Way
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.compare import Difference

_BEST_FIRST = (Phase.EXPECTED, Phase.POSSIBLE, Phase.NOT_YET, Phase.OVER)


class Bar(StrEnum):
    """Why a true claim cannot be used on an occasion."""

    NOT_THEN = "not-then"
    NOT_BY_THOSE_MEANS = "not-by-those-means"
    UNSAFE = "unsafe"
    TOO_FINE = "too-fine"


def phase_on(workspace: Workspace, taxon: Taxon, stage: str, day: int, region: str | None) -> Phase | None:
    """What can be expected of a stage on a day of the circle; None where no window is recorded."""
    key = (id(taxon), stage, day, region)
    if key not in workspace.worked_out:  # the taxon is kept with it, so that no other thing gets its id
        phases = [w.when.phase(day) for w in workspace.windows(taxon, stage, region)]
        workspace.worked_out[key] = (taxon, min(phases, key=_BEST_FIRST.index) if phases else None)
    found: Phase | None = workspace.worked_out[key][1]
    return found


def seen(workspace: Workspace, taxon: Taxon, stages: tuple[str, ...], day: int, region: str | None) -> Phase | None:
    """Whether something shown in some stages can be seen on a day: the best of its stages.

    No stages: always. None where none of the stages has a window on record.
    """
    if not stages:
        return Phase.EXPECTED
    phases = [p for stage in stages if (p := phase_on(workspace, taxon, stage, day, region)) is not None]
    return min(phases, key=_BEST_FIRST.index) if phases else None


def trait_seen(workspace: Workspace, taxon: Taxon, trait: Trait, on: date, region: str | None) -> Phase | None:
    """Whether a trait of a taxon can be seen on a date."""
    return seen(workspace, taxon, trait.stages, day_of(on), region)


def present(workspace: Workspace, taxon: Taxon, on: date, region: str | None) -> bool:
    """Whether any stage of a taxon can be seen on a date. A taxon without seasons is always there."""
    seasons = taxon.profile.seasons
    return not seasons or any((p := phase_on(workspace, taxon, stage, day_of(on), region)) and p.can_be_seen for stage in seasons)


def handling_forbidden(workspace: Workspace, occasion: Occasion) -> bool:
    """Whether people may not be asked to touch, crush, smell closely, cut, dig or open.

    So it is wherever any plant of the occasion, of its groups or of the region's list is harmful or has no hazard
    record, and wherever there is no list. It fails closed and nothing switches it off.
    """
    taxa = [workspace.taxa[id_] for id_ in occasion.taxa]
    groups = {taxon.profile.group for taxon in taxa if taxon.profile.group}
    fellows = [taxon for taxon in workspace.taxa.values() if taxon.profile.group in groups]
    region = workspace.regions.get(occasion.region or workspace.home_region or "")
    if region is None or not region.recorded:
        return True
    listed = [workspace.recorded_hazard(entry) for entry in region.recorded]
    classes = [taxon.hazard_class for taxon in (taxa or workspace.taxa.values())] + [t.hazard_class for t in fellows] + listed
    return any(c.forbids_handling for c in classes)


def _way_bars(workspace: Workspace, way: Way, taxa: tuple[Taxon, ...], occasion: Occasion, forbidden: bool) -> frozenset[Bar]:
    bars = set()
    allowed = occasion.means | ({Means.DISTANT_EYE} if Means.CLOSE_EYE in occasion.means else set())
    if not set(way.by) <= allowed:
        bars.add(Bar.NOT_BY_THOSE_MEANS)
    if forbidden and HANDLING & set(way.by):
        bars.add(Bar.UNSAFE)
    if way.stages and occasion.on and not all(_can_be_seen(workspace, taxon, way.stages, occasion) for taxon in taxa):
        bars.add(Bar.NOT_THEN)
    return frozenset(bars)


def _can_be_seen(workspace: Workspace, taxon: Taxon, stages: tuple[str, ...], occasion: Occasion) -> bool:
    assert occasion.on
    phase = seen(workspace, taxon, stages, day_of(occasion.on), occasion.region)
    return phase is not None and phase.can_be_seen


def trait_bars(workspace: Workspace, trait: Trait, taxa: tuple[Taxon, ...], occasion: Occasion, forbidden: bool | None = None) -> frozenset[Bar]:
    """Why a trait cannot be looked at on all the taxa on this occasion; empty: it can.

    A trait with several ways of seeing it is barred only if no way is left.
    """
    if forbidden is None:
        forbidden = handling_forbidden(workspace, occasion)
    ways = [_way_bars(workspace, way, taxa, occasion, forbidden) for way in trait.ways]
    fewest: frozenset[Bar] = min(ways, key=len)
    bars = set(fewest)
    if trait.stages and occasion.on and not all(_can_be_judged(workspace, taxon, trait, occasion) for taxon in taxa):
        bars.add(Bar.NOT_THEN)
    return frozenset(bars)


def _can_be_judged(workspace: Workspace, taxon: Taxon, trait: Trait, occasion: Occasion) -> bool:
    """Whether a trait may be judged on a taxon then. A count only where its stage is expected: an organ that is not out
    yet, or has fallen, would read as absent."""
    if trait.kind is Kind.COUNT and occasion.on:
        return trait_seen(workspace, taxon, trait, occasion.on, occasion.region) is Phase.EXPECTED
    return _can_be_seen(workspace, taxon, trait.stages, occasion)


def is_too_fine(trait: Trait, difference: Difference) -> bool:
    """Whether usual values lie closer together than a misreading goes: a step of an order misread is the next state."""
    if difference.gap is None or not difference.relation.is_contrast or not trait.blur:
        return False
    return difference.gap <= trait.blur if trait.kind is Kind.ORDERED else difference.gap < trait.blur


def difference_bars(workspace: Workspace, difference: Difference, occasion: Occasion, forbidden: bool | None = None) -> frozenset[Bar]:
    """Why a difference of two taxa cannot be used on an occasion; empty: it can."""
    trait = workspace.traits[difference.trait]
    taxa = (workspace.taxa[difference.first], workspace.taxa[difference.second])
    bars = trait_bars(workspace, trait, taxa, occasion, forbidden)
    return bars | {Bar.TOO_FINE} if is_too_fine(trait, difference) else bars


def seen_days(workspace: Workspace, taxon: Taxon, stages: tuple[str, ...], region: str | None, expected: bool = False) -> int:
    """The days on which something shown in some stages can be seen (or is expected) on a taxon, as bits of the circle."""
    if not stages:
        return WHOLE_YEAR
    days = 0
    for stage in stages:
        for window in workspace.windows(taxon, stage, region):
            days |= window.when.usual_days if expected else window.when.seen_days
    return days


def shared_days(workspace: Workspace, taxa: tuple[Taxon, ...], stages: tuple[str, ...], region: str | None, expected: bool = False) -> int:
    """The days on which something shown in some stages can be seen (or is expected) on all the taxa, as bits of the circle."""
    days = WHOLE_YEAR
    for taxon in taxa:
        days &= seen_days(workspace, taxon, stages, region, expected)
    return days


def days_to_look(workspace: Workspace, taxa: tuple[Taxon, ...], trait: Trait, occasion: Occasion) -> int:
    """The days of the year on which a trait can be looked at on all the taxa, as bits of the circle.

    By the ways that the occasion allows; by any safe one, if it allows none. The date of the occasion does not matter.
    """
    barred = _barred_ways(workspace, trait, taxa, occasion, handling_forbidden(workspace, occasion))
    ways = [way for way, bars in barred if not bars] or [way for way, bars in barred if Bar.UNSAFE not in bars]
    return _days_by(workspace, ways, taxa, trait, occasion)


def days_allowed(workspace: Workspace, taxa: tuple[Taxon, ...], trait: Trait, occasion: Occasion, forbidden: bool) -> int:
    """The days of the year on which nothing bars a trait on all the taxa (`trait_bars` is empty), as bits of the circle.

    The date of the occasion does not matter.
    """
    ways = [way for way, bars in _barred_ways(workspace, trait, taxa, occasion, forbidden) if not bars]
    return _days_by(workspace, ways, taxa, trait, occasion)


def _barred_ways(
    workspace: Workspace, trait: Trait, taxa: tuple[Taxon, ...], occasion: Occasion, forbidden: bool
) -> list[tuple[Way, frozenset[Bar]]]:
    """Every way of seeing a trait with its bars on any day."""
    return [(way, _way_bars(workspace, way, taxa, replace(occasion, on=None), forbidden)) for way in trait.ways]


def _days_by(workspace: Workspace, ways: list[Way], taxa: tuple[Taxon, ...], trait: Trait, occasion: Occasion) -> int:
    """The days on which a trait can be looked at on all the taxa by one of some ways, as bits of the circle."""
    days = 0
    for way in ways:
        days |= shared_days(workspace, taxa, way.stages, occasion.region)
    return days & shared_days(workspace, taxa, trait.stages, occasion.region, expected=trait.kind is Kind.COUNT)


def runs(days: int) -> tuple[tuple[int, int], ...]:
    """Days of the circle (bits) as runs of first and last day; one run may cross new year."""
    found: list[tuple[int, int]] = []
    for day in range(YEAR):
        if not days >> day & 1:
            continue
        if found and found[-1][1] == day - 1:
            found[-1] = (found[-1][0], day)
        else:
            found.append((day, day))
    if len(found) > 1 and found[0][0] == 0 and found[-1][1] == YEAR - 1:
        found[-1] = (found[-1][0], found.pop(0)[1])
    return tuple(found)
