"""Look-alikes: told apart by something, and warned of where one of them is harmful."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

from twayblade.knowledge.problem import Finding, Spot
from twayblade.knowledge.record import records_in
from twayblade.knowledge.text import Sourced
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.compare import differences
from twayblade.reasoning.wording import names


def check_look_alikes(workspace: Workspace) -> Iterator[Finding]:
    """Members of a group that nothing tells apart, and look-alikes of what is harmful without a caution or without a word of it."""
    yield from _inseparable(workspace)
    yield from _uncautioned(workspace)
    yield from _one_sided(workspace)


def _inseparable(workspace: Workspace) -> Iterator[Finding]:
    separated: Counter[str] = Counter()
    for first, fellows in _fellows(workspace):
        alike = [second.id for second in fellows if not _separated(workspace, first, second, separated)]
        if alike:
            message = f"no recorded trait tells `{first.id}` from {', '.join(f'`{id_}`' for id_ in alike)}, at any time or by any means"
            hint = "record a trait in which they differ; until then they are named together"
            yield Finding("inseparable", Spot(first.document, ("values",), on_key=True), message, (hint,))


def _fellows(workspace: Workspace) -> Iterator[tuple[Taxon, list[Taxon]]]:
    """Each taxon with values of its own, and those members of its group that come before it."""
    grouped: dict[str, list[Taxon]] = {}
    for taxon in workspace.taxa.values():
        if taxon.profile.group and any(value.origin == taxon.id for value in taxon.values.values()):
            grouped.setdefault(taxon.profile.group, []).append(taxon)
    for members in grouped.values():
        for number, taxon in enumerate(members):
            yield taxon, members[:number]


def _separated(workspace: Workspace, first: Taxon, second: Taxon, separated: Counter[str]) -> bool:
    """Whether some trait tells the two apart, at least usually and by some source.

    separated: how many pairs each trait has told apart; it grows here. Traits that did so most often are tried first,
    since one is enough.
    """
    shared = [id_ for id_ in first.values if id_ in second.values]
    for id_ in sorted(shared, key=lambda id_: -separated[id_]):
        if any(d.relation.is_contrast or d.disputed for d in differences(workspace, first, second, id_)):
            separated[id_] += 1
            return True
    return False


def _uncautioned(workspace: Workspace) -> Iterator[Finding]:
    declared = {tuple(sorted((taxon.id, c.from_))) for taxon in workspace.taxa.values() for c in taxon.profile.contrasts}
    dangerous: dict[str, set[str]] = {}
    for first, second in sorted(declared):
        for id_, other in ((first, second), (second, first)):
            if {id_, other} <= set(workspace.taxa) and workspace.taxa[other].hazard_class.is_harmful:
                dangerous.setdefault(id_, set()).add(other)
    for id_, others in dangerous.items():
        taxon = workspace.taxa[id_]
        if taxon.hazard_class.is_harmful or taxon.profile.care:
            continue
        harm = ", ".join(f"`{other}` ({workspace.taxa[other].hazard_class})" for other in sorted(others))
        spot = Spot(taxon.document, ("name",), on_key=True)
        hint = "add a caution under `care:` that holds for whoever takes the one for the other"
        yield Finding("care-look-alike", spot, f"`{id_}` is a look-alike of {harm}, but has no `care`", (hint,))


def _one_sided(workspace: Workspace) -> Iterator[Finding]:
    """Harmful taxa that are told from one without harm on record, whose own profile does not say a word of them.

    Whoever knows the harmless-looking one reads that profile, and writes from it. It says something of the other if it
    contrasts the two, or names it in any of its texts.
    """
    for harmful in workspace.taxa.values():
        if not harmful.hazard_class.is_harmful:
            continue
        for number, contrast in enumerate(harmful.profile.contrasts):
            other = workspace.taxa.get(contrast.from_)
            if other is None or other.hazard_class.is_harmful or _speaks_of(workspace, other, harmful):
                continue
            message = f"`{harmful.id}` ({harmful.hazard_class}) is told from `{other.id}`, whose own profile says nothing of it"
            hint = f"contrast the two in {other.document} as well, or name {harmful.common_name} there in a caution"
            yield Finding("look-alike-one-sided", Spot(harmful.document, ("contrasts", number, "from")), message, (hint,))


def _speaks_of(workspace: Workspace, taxon: Taxon, other: Taxon) -> bool:
    """Whether a profile contrasts its taxon with another or names that in a text; a longer name that holds it is another's."""
    if any(contrast.from_ == other.id for contrast in taxon.profile.contrasts):
        return True
    known = [name for t in workspace.taxa.values() for name in _names_of(t)]
    texts = [text.text for _, text in records_in(taxon.profile) if isinstance(text, Sourced)]
    for name in _names_of(other):
        longer = "|".join(re.escape(n) for n in known if n != name and names(n, name))
        if any(names(re.sub(longer, "", text, flags=re.IGNORECASE) if longer else text, name) for text in texts):
            return True
    return False


def _names_of(taxon: Taxon) -> tuple[str, ...]:
    return (taxon.scientific_name, *(name for listed in taxon.profile.common_names.values() for name in listed))
