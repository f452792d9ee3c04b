"""Hazards: recorded, never softened, and with a caution wherever harm is on record."""

from __future__ import annotations

import re
from collections.abc import Iterator

from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.problem import Finding, Path, Spot
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.checks.texts import said_texts
from twayblade.reasoning.seeing import handling_forbidden

_SOFTENING = re.compile(
    r"\b(harmless|edible|non-?toxic|non-?poisonous|(?:not|isn't|aren't|never) (?:at all )?(?:poisonous|toxic|dangerous|harmful)|"
    r"safe to (?:eat|touch|pick|handle)|"
    r"(?:it|this|that|they|these|plants?|herbs?|lea(?:f|ves)|roots?|berr(?:y|ies)|fruits?|flowers?|stems?|sap|parts?|one) "
    r"(?:is|are) (?:\w+ly |quite |therefore )?safe|do(?:es)? (?:you |us |people )?no harm|no danger|good to eat|can be eaten)\b",
    re.IGNORECASE,
)


_HANDLING = re.compile(
    r"(?<![\w-])(?:pick|pluck|crush|rub|squeeze|smell|sniff|touch|feel|stroke|cut|slice|snap|break|tear|pull|dig|taste|lick|chew|eat|try)"
    r"\s+(?:it|them|one|some|this|these|that|those|the|a|an|off|up|open|into|part|your|its|their|how|whether)\b|"
    r"\bmay (?:touch|pick|taste|eat|smell)\b",
    re.IGNORECASE,
)
_NEGATED = re.compile(r"\b(?:not|never|nor|no|nobody|nothing|without|don't|neither|avoid|whoever|anyone who|if|by accident)\b", re.IGNORECASE)


def asks_to_handle(text: str) -> str | None:
    """The first sentence of a text that asks to touch, crush, smell, cut, dig, open or eat, unless it says not to."""
    for said in re.split(r"(?<=[.!?;])\s+", text):
        if _HANDLING.search(said) and not _NEGATED.search(said):
            return said.strip()
    return None


def softened(text: str) -> str | None:
    """The words of a text that call a plant safe, harmless or edible, if there are any."""
    found = _SOFTENING.search(text)
    return found[0] if found else None


def check_hazards(workspace: Workspace) -> Iterator[Finding]:
    """Hazard records that are missing, cautions that are missing, and words that soften."""
    forbidden = handling_forbidden(workspace, Occasion(None))
    for taxon in workspace.taxa.values():
        if taxon.profile.hazard is None:
            hint = "add `hazard:` with a class; where nobody looked into it, `not-assessed`"
            yield Finding("hazard-missing", Spot(taxon.document), f"`{taxon.id}` has no hazard record", (hint,))
        if taxon.hazard_class.is_harmful and not any(care.text for care in taxon.profile.care):
            spot = Spot(taxon.document, ("hazard",), on_key=True)
            yield Finding("care-missing", spot, f"`{taxon.id}` is {taxon.hazard_class}, but has no `care`", ("add a caution under `care:`",))
    for document, path, text in said_texts(workspace):
        yield from _said(document, path, text, forbidden)


def _said(document: str, path: Path, text: str, forbidden: bool) -> Iterator[Finding]:
    if forbidden and (asked := asks_to_handle(text)):
        message = f"`{asked}` asks people to handle what may be harmful"
        yield Finding("handling-asked", Spot(document, path), message, ("say what can be seen without coming near",))
    if words := softened(text):
        yield Finding(
            "hazard-softened",
            Spot(document, path),
            f"`{words}` is never said of anything here",
            ("say what is on record and where it was looked for",),
        )
