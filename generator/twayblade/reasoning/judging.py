"""Verdicts of every kind of claim. Scopes are three-valued: a counterexample decides even where others lack data."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from twayblade.knowledge.claim import Claim, Condition, Earlier, OfGroup, Sign, Statement, Superlative, Told
from twayblade.knowledge.numbers import Numbers
from twayblade.knowledge.profile import Ground
from twayblade.knowledge.season import YEAR, Window
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.claims import Verdict, claimed_extent, judge
from twayblade.reasoning.compare import applies
from twayblade.reasoning.spread import Extent, Spread, contexts, lies_in, meets, spreads

_A_MONTH = 29
"""Days: the shortest month of the circle, so that windows a calendar month apart count."""


class NoSuchScope(ValueError):
    """The scope of a claim is neither a group nor `region`, `trail` or `all`."""


def members(workspace: Workspace, scope: str) -> tuple[tuple[Taxon, ...], bool]:
    """The taxa of a scope, and whether others without data belong to it. Raises NoSuchScope."""
    if scope in workspace.groups:
        return tuple(t for t in workspace.taxa.values() if t.profile.group == scope), False
    if scope == "all":
        return tuple(workspace.taxa.values()), False
    if scope == "trail":
        shown = {id_ for planned in workspace.trails.values() for stop in planned.trail.stops for id_ in stop.taxa}
        return tuple(t for t in workspace.taxa.values() if t.id in shown), False
    if scope == "region" and workspace.home_region:
        recorded = workspace.regions[workspace.home_region].recorded
        listed = {entry.taxon for entry in recorded if entry.taxon}
        return tuple(t for t in workspace.taxa.values() if t.id in listed), any(not entry.taxon for entry in recorded)
    raise NoSuchScope(f"no scope `{scope}`; expected region, trail, all or a group: {', '.join(workspace.groups) or 'none'}")


def judge_claim(workspace: Workspace, claim: Claim, region: str | None = None) -> Verdict:
    """The verdict of a claim: one, the first that applies. Raises NoSuchScope."""
    if isinstance(claim, Statement):
        return _statement(workspace, workspace.taxa[claim.taxon], claim.condition, claim.how, region)
    if isinstance(claim, Told):
        how = "always" if claim.how == "always" else "usually"
        ground = Ground.model_validate({"trait": claim.trait, "part": claim.part, "how": how})
        return judge(workspace, workspace.taxa[claim.taxon], workspace.taxa[claim.other], ground, region).verdict
    if isinstance(claim, Sign):
        return _sign(workspace, claim, region)
    if isinstance(claim, Superlative):
        return _superlative(workspace, claim, region)
    if isinstance(claim, Earlier):
        return _earlier(workspace, workspace.taxa[claim.taxon], workspace.taxa[claim.other], claim.stage, region)
    return _of_group(workspace, claim, region)


def _spreads(workspace: Workspace, taxon: Taxon, condition: Condition, region: str | None) -> list[Spread]:
    """What the taxon's value allows where the condition speaks of it, once for each side of a disagreement and each part."""
    value, trait = taxon.values.get(condition.trait), workspace.traits[condition.trait]
    if value is None or not applies(workspace, taxon, trait, region):
        return []
    places = [at for at in contexts([value], trait) if condition.part is None or at.part in (condition.part, None)]
    exact = [at for at in places if at.part == condition.part] or places
    return [s for at in exact for s in spreads(workspace, taxon, value, at, region)]


def _extent(workspace: Workspace, condition: Condition) -> Extent:
    return claimed_extent(workspace.traits[condition.trait], condition.states)


def _statement(workspace: Workspace, taxon: Taxon, condition: Condition, how: str, region: str | None) -> Verdict:
    found = _spreads(workspace, taxon, condition, region)
    claimed = _extent(workspace, condition)
    if not found:
        return Verdict.NO_DATA
    if not any(meets(claimed, s.all) for s in found):
        return Verdict.WRONG
    if not all(meets(claimed, s.all) for s in found):
        return Verdict.DISPUTED
    if all(lies_in(s.all, claimed) for s in found):
        return Verdict.HOLDS if how == "always" else Verdict.HOLDS_USUALLY
    usual = all(lies_in(s.usual, claimed) for s in found)
    if how == "sometimes" or (usual and how == "usually"):
        return Verdict.HOLDS_USUALLY
    return Verdict.OVERSTATED


def _sign(workspace: Workspace, claim: Sign, region: str | None) -> Verdict:
    """A sign or a combination: each other member must be excluded by at least one of the conditions."""
    taxon = workspace.taxa[claim.taxon]
    own = [_statement(workspace, taxon, c, "sometimes", region) for c in claim.conditions]
    if bad := [v for v in own if not v.is_good]:
        return min(bad, key=lambda v: v.rank)
    others, more_without_data = members(workspace, claim.scope)
    verdicts = [_excluded(workspace, other, claim.conditions, region) for other in others if other.id != taxon.id]
    worst = _worst([*verdicts, *([Verdict.NO_DATA] if more_without_data else [])])
    if not worst.is_good:
        return worst
    if worst is Verdict.HOLDS_USUALLY:
        return Verdict.OVERSTATED if claim.how == "always" else Verdict.HOLDS_USUALLY
    always = all(_statement(workspace, taxon, c, "always", region) is Verdict.HOLDS for c in claim.conditions)
    return Verdict.HOLDS if always and claim.how == "always" else Verdict.HOLDS_ONE_WAY


def _excluded(workspace: Workspace, other: Taxon, conditions: tuple[Condition, ...], region: str | None) -> Verdict:
    """How surely a member cannot show all of some conditions."""
    return max((_cannot_show(workspace, other, c, region) for c in conditions), key=lambda v: v.rank)


def _cannot_show(workspace: Workspace, other: Taxon, condition: Condition, region: str | None) -> Verdict:
    trait = workspace.traits[condition.trait]
    if not applies(workspace, other, trait, region):
        return Verdict.HOLDS
    found = _spreads(workspace, other, condition, region)
    claimed = _extent(workspace, condition)
    if not found:
        return Verdict.NO_DATA
    clear = [not meets(claimed, s.all) for s in found]
    nearly = [not meets(claimed, s.without_rare) for s in found]
    if all(clear):
        return Verdict.HOLDS
    if all(nearly):
        return Verdict.HOLDS_USUALLY
    return Verdict.DISPUTED if any(nearly) and len(found) > 1 else Verdict.DOES_NOT_SEPARATE


def _worst(verdicts: Iterable[Verdict]) -> Verdict:
    """The worst over a scope; a counterexample goes before what lacks data."""
    found = list(verdicts)
    counter = [v for v in found if not v.is_good and v is not Verdict.NO_DATA]
    return min(counter or found or [Verdict.HOLDS], key=lambda v: v.rank)


def _superlative(workspace: Workspace, claim: Superlative, region: str | None) -> Verdict:
    taxon, trait = workspace.taxa[claim.taxon], workspace.traits[claim.trait]
    if not trait.kind.is_numeric:
        return Verdict.NO_DATA
    everything = Condition(claim.trait, ())
    own = _spreads(workspace, taxon, everything, region)
    others, more_without_data = members(workspace, claim.scope)
    verdicts = [Verdict.NO_DATA] if more_without_data or not own else []
    for other in others:
        if other.id != taxon.id:
            theirs = _spreads(workspace, other, everything, region)
            verdicts.append(min((_beyond(a, b, claim.extreme == "most") for a in own for b in theirs), key=lambda v: v.rank, default=Verdict.NO_DATA))
    worst = _worst(verdicts)
    return Verdict.OVERSTATED if worst is Verdict.HOLDS_USUALLY and claim.how == "always" else worst


def _beyond(a: Spread, b: Spread, above: bool) -> Verdict:
    """Whether one number lies above (or below) another with all its values, or with its usual ones."""
    if _clear(a.all, b.all, above):
        return Verdict.HOLDS
    return Verdict.HOLDS_USUALLY if _clear(a.usual, b.usual, above) else Verdict.DOES_NOT_SEPARATE


def _clear(a: Extent, b: Extent, above: bool) -> bool:
    if not (isinstance(a, Numbers) and isinstance(b, Numbers) and a and b):
        return False
    low, high = (a.hull().low, b.hull().high) if above else (b.hull().low, a.hull().high)
    return isinstance(low, Decimal) and isinstance(high, Decimal) and low > high


def _earlier(workspace: Workspace, first: Taxon, second: Taxon, stage: str, region: str | None) -> Verdict:
    """Earlier if start and end both come earlier and the middles differ by a month or more along the shorter arc."""
    one, two = workspace.windows(first, stage, region), workspace.windows(second, stage, region)
    if not one or not two:
        return Verdict.NO_DATA
    verdicts = [_before(a.when, b.when) for a in one for b in two if a.region == b.region]
    return min(verdicts, key=lambda v: v.rank, default=Verdict.NO_DATA)


def _before(a: Window, b: Window) -> Verdict:
    if a.is_whole_year or b.is_whole_year:
        return Verdict.DOES_NOT_SEPARATE
    ahead = [(b.start - a.start) % YEAR, (b.end - a.end) % YEAR]
    middle = (b.middle - a.middle) % YEAR
    if all(0 < days < YEAR / 2 for days in ahead) and _A_MONTH <= middle < YEAR / 2:
        return Verdict.HOLDS_USUALLY
    behind = all(days > YEAR / 2 for days in ahead) and YEAR / 2 < middle <= YEAR - _A_MONTH
    return Verdict.WRONG if behind else Verdict.DOES_NOT_SEPARATE


def _of_group(workspace: Workspace, claim: OfGroup, region: str | None) -> Verdict:
    taxa, _ = members(workspace, claim.group)
    if claim.quantity == "all":
        return _worst(_statement(workspace, t, claim.condition, claim.how, region) for t in taxa)
    verdict = _worst(_cannot_show(workspace, t, claim.condition, region) for t in taxa)
    if verdict is Verdict.DOES_NOT_SEPARATE:
        return Verdict.WRONG
    return Verdict.OVERSTATED if verdict is Verdict.HOLDS_USUALLY and claim.how == "always" else verdict
