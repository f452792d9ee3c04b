"""Values: in keeping with each other and with their group, disputed only where sources exclude each other, and never `never` without a source."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from twayblade.knowledge.frequency import Frequency
from twayblade.knowledge.problem import Finding, Path, Spot
from twayblade.knowledge.trait import Trait
from twayblade.knowledge.values import Alternative, Disagreement, Entry, Value, Written, as_written, statements_of
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.compare import applies
from twayblade.reasoning.spread import contexts, extent_of_states, lies_in, meets, spreads


def check_values(workspace: Workspace) -> Iterator[Finding]:
    """Findings about single values of profiles and groups."""
    shown: set[tuple[str, str]] = set()
    for taxon in workspace.taxa.values():
        for id_, value in taxon.values.items():
            own = value.origin == taxon.id
            if not own and (value.origin, id_) in shown:
                continue
            shown.add((value.origin, id_))
            document = taxon.document if own else f"content/groups/{value.origin}.yml"
            holder = taxon.profile if own else workspace.groups.get(value.origin)
            yield from _never(value, Spot(document, ("values", id_)))
            yield from _against_itself(workspace, value, Spot(document, ("values", id_)))
            if holder and id_ in holder.values:
                yield from _alternatives(workspace, taxon, id_, holder.values[id_], document)
            if own:
                yield from _of_what_is_absent(workspace, taxon, value)
                yield from _against_group(workspace, taxon, value)


def _never(value: Value, spot: Spot) -> Iterator[Finding]:
    denied = {state for a in value.alternatives for s in a.statements if s.frequency is Frequency.NEVER and not s.source for state in s.states}
    if denied:
        message = f"`{value.trait}` says never `{', '.join(sorted(denied))}` without a source"
        hint = "add the keys of its sources in brackets, `[memory]` for what is known from memory only; or leave `never` out"
        yield Finding("never-unsourced", spot, message, (hint,))


# ---- the profile itself -------------------------------------------------------------------------------------


def _against_itself(workspace: Workspace, value: Value, spot: Spot) -> Iterator[Finding]:
    """A state that is said to occur, and said never to occur, of the same plants and parts at the same time."""
    trait, told = workspace.traits[value.trait], set[str]()
    for said in [a.statements for a in value.alternatives]:
        for denial in [s for s in said if s.frequency is Frequency.NEVER]:
            denied = extent_of_states(denial.states, trait)
            fellows = [s for s in said if s.frequency is not Frequency.NEVER and s.where == denial.where]
            told |= {state for s in fellows for state in s.states if lies_in(extent_of_states([state], trait), denied)}
    if told:
        message = f"`{value.trait}` says of `{', '.join(sorted(told))}` that it occurs, and that it never does: `{value.written}`"
        hint = "correct one of the two, say of which part or form each holds, or record them as `alternatives`"
        yield Finding("value-against-itself", spot, message, (hint,))


def _of_what_is_absent(workspace: Workspace, taxon: Taxon, value: Value) -> Iterator[Finding]:
    """A value of something that, by another value of the taxon, is never there."""
    trait = workspace.traits[value.trait]
    if trait.needs and not applies(workspace, taxon, trait, None):
        needed = taxon.values[trait.needs.trait]
        message = f"`{value.trait}` is `{value.written}`, but `{trait.needs.trait}` is `{needed.written}`, so there is nothing it could be said of"
        yield Finding("value-against-itself", Spot(taxon.document, ("values", value.trait)), message, ("correct one of the two",))


# ---- alternatives -------------------------------------------------------------------------------------------


def _alternatives(workspace: Workspace, taxon: Taxon, id_: str, written: Written, document: str) -> Iterator[Finding]:
    """Alternatives that nobody doubts and of which one lies wholly inside another."""
    several = isinstance(written, tuple)
    for number, item in enumerate(written if isinstance(written, tuple) else (written,)):
        if not isinstance(item, Disagreement):
            continue
        way: Path = ("values", id_, number) if several else ("values", id_)
        sides = [(n, entry, _value(id_, workspace.traits[id_], (entry,))) for n, entry in enumerate(item.alternatives) if entry.doubted is None]
        for (n, one, a), (m, other, b) in combinations(sides, 2):
            if a is None or b is None:
                continue
            if _inside(workspace, taxon, a, b):
                place, inner, outer = n, one, other
            elif _inside(workspace, taxon, b, a):
                place, inner, outer = m, other, one
            else:
                continue
            message = f"`{as_written(inner)}` lies wholly inside `{as_written(outer)}`, so both can be true"
            hint = "write one value with frequency words and the sources of both, and what they differ in as a `note`"
            yield Finding("alternatives-agree", Spot(document, (*way, "alternatives", place)), message, (hint,))


def _inside(workspace: Workspace, taxon: Taxon, inner: Value, outer: Value) -> bool:
    """Whether all that one value allows, its usual conditions among the usual ones, is allowed by another of the same conditions."""
    trait = workspace.traits[inner.trait]
    where = [{(s.where.part, s.where.stage, s.where.form, s.where.region) for a in v.alternatives for s in a.statements} for v in (inner, outer)]
    if where[0] != where[1]:
        return False
    regions = {region for *_, region in where[0]}
    pairs = [
        (x, y)
        for region in regions
        for at in contexts([inner, outer], trait)
        for x in spreads(workspace, taxon, inner, at, region)
        for y in spreads(workspace, taxon, outer, at, region)
    ]
    return bool(pairs) and all(lies_in(x.usual, y.usual) and lies_in(x.all, y.all) for x, y in pairs)


# ---- the group ----------------------------------------------------------------------------------------------


def _against_group(workspace: Workspace, taxon: Taxon, value: Value) -> Iterator[Finding]:
    """A member's own value that shares nothing with the group's, rare and open conditions included, and no note says why."""
    group = workspace.groups.get(taxon.profile.group or "")
    written = group.values.get(value.trait) if group else None
    if written is None or any(s.note for a in value.alternatives for s in a.statements):
        return
    trait = workspace.traits[value.trait]
    shared = _value(value.trait, trait, written if isinstance(written, tuple) else (written,))
    if shared is None:
        return
    pairs = [
        (x, y)
        for at in contexts([value, shared], trait)
        for x in spreads(workspace, taxon, value, at, None)
        for y in spreads(workspace, taxon, shared, at, None)
    ]
    if pairs and not any(meets(x.all, y.all) for x, y in pairs):
        message = f"`{value.trait}` is `{value.written}`, but of the group `{taxon.profile.group}` it is `{as_written(written)}`"
        hints = ("correct one of the two, let the group's say `usually`, or add a `note` that tells why this member differs",)
        yield Finding("value-against-group", Spot(taxon.document, ("values", value.trait)), message, hints)


def _value(id_: str, trait: Trait, items: tuple[Entry | Disagreement, ...]) -> Value | None:
    """Items as one value, the sides of a disagreement beside each other; None where reading has refused any of them."""
    entries = [entry for item in items for entry in (item.alternatives if isinstance(item, Disagreement) else (item,))]
    try:
        said = tuple(statement for entry in entries for statement in statements_of(entry, trait))
    except ValueError:
        return None
    return Value(id_, (Alternative(said),), "")
