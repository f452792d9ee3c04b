"""Claims: statements that can be true or false of the data, and the light notation in which authors mark them.

    hemlock is stem-blotches = blotched, usually
    hemlock from cow-parsley by stem-relief, usually
    stem-blotches = blotched + stem-hairs = hairless means hemlock among umbellifers
    only hemlock is stem-blotches = blotched among trail
    giant-hogweed has most height among umbellifers
    cow-parsley before hedge-parsley in flower
    all umbellifers are stamens = 5
    no umbellifers are stipules = stipules

Taxa, traits, groups and stages are ids. A scope is a group, `region`, `trail` or `all`; `any` without one is refused.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal, TypeAlias

Strength = Literal["always", "usually", "sometimes"]


@dataclass(frozen=True)
class Condition:
    """A trait, perhaps at one part, in one of some states (or ranges)."""

    trait: str
    states: tuple[str, ...]
    part: str | None = None


@dataclass(frozen=True)
class Statement:
    """A taxon shows a condition."""

    taxon: str
    condition: Condition
    how: Strength = "always"


@dataclass(frozen=True)
class Told:
    """A taxon is told from another by a trait."""

    taxon: str
    other: str
    trait: str
    part: str | None = None
    how: Strength = "always"


@dataclass(frozen=True)
class Sign:
    """Some conditions together mean a taxon, one way, within a scope."""

    conditions: tuple[Condition, ...]
    taxon: str
    scope: str
    how: Strength = "always"


@dataclass(frozen=True)
class Superlative:
    """A taxon is the one with most or least of a number within a scope."""

    taxon: str
    extreme: Literal["most", "least"]
    trait: str
    scope: str
    how: Strength = "always"


@dataclass(frozen=True)
class Earlier:
    """A taxon comes before another in a stage. Never above holds usually."""

    taxon: str
    other: str
    stage: str


@dataclass(frozen=True)
class OfGroup:
    """All members of a group show a condition, or none does."""

    quantity: Literal["all", "none"]
    group: str
    condition: Condition
    how: Strength = "always"


Claim: TypeAlias = Statement | Told | Sign | Superlative | Earlier | OfGroup

_ID = r"[a-z0-9][a-z0-9-]*"
_STRENGTH = re.compile(r"(?P<claim>.*?)(?:,\s*(?P<how>always|usually|sometimes))?\s*", re.DOTALL)
_CONDITION = re.compile(rf"(?P<trait>{_ID})(?:\s*@\s*(?P<part>{_ID}))?\s*=\s*(?P<states>.+)", re.DOTALL)
_FORMS = {
    "sign": re.compile(rf"(?P<conditions>.+?)\s+means\s+(?P<taxon>{_ID})\s+among\s+(?P<scope>{_ID})", re.DOTALL),
    "only": re.compile(rf"only\s+(?P<taxon>{_ID})\s+is\s+(?P<conditions>.+?)\s+among\s+(?P<scope>{_ID})", re.DOTALL),
    "superlative": re.compile(rf"(?P<taxon>{_ID})\s+has\s+(?P<extreme>most|least)\s+(?P<trait>{_ID})\s+among\s+(?P<scope>{_ID})"),
    "group": re.compile(rf"(?P<quantity>all|no)\s+(?P<group>{_ID})\s+are\s+(?P<conditions>.+)", re.DOTALL),
    "told": re.compile(rf"(?P<taxon>{_ID})\s+from\s+(?P<other>{_ID})\s+by\s+(?P<trait>{_ID})(?:\s*@\s*(?P<part>{_ID}))?"),
    "earlier": re.compile(rf"(?P<taxon>{_ID})\s+before\s+(?P<other>{_ID})\s+in\s+(?P<stage>{_ID})"),
    "statement": re.compile(rf"(?P<taxon>{_ID})\s+is\s+(?P<conditions>.+)", re.DOTALL),
}


def _condition(text: str) -> Condition:
    match = _CONDITION.fullmatch(text.strip())
    if not match:
        raise ValueError(f"cannot read `{text.strip()}` as a condition; expected `trait = state` or `trait @ part = state or state`")
    return Condition(match["trait"], tuple(s.strip() for s in re.split(r"\s+or\s+", match["states"].strip())), match["part"])


def parse_claim(text: str) -> Claim:
    """Read a claim. Raises ValueError with a clause."""
    strength = _STRENGTH.fullmatch(" ".join(text.split()))
    assert strength  # the pattern matches any text
    plain = strength["claim"]
    how: Strength = {"usually": "usually", "sometimes": "sometimes"}.get(strength["how"], "always")  # type: ignore[assignment]
    for name, form in _FORMS.items():
        if match := form.fullmatch(plain):
            return _made(name, match, how)
    raise ValueError(f"cannot read `{plain}` as a claim; expected for example `TAXON is TRAIT = STATE` or `TAXON from TAXON by TRAIT`")


def _made(name: str, match: re.Match[str], how: Strength) -> Claim:
    found = match.groupdict()
    conditions = tuple(_condition(piece) for piece in found["conditions"].split("+")) if "conditions" in found else ()
    if name in ("sign", "only"):
        return Sign(conditions, found["taxon"], found["scope"], how)
    if name == "superlative":
        return Superlative(found["taxon"], "most" if found["extreme"] == "most" else "least", found["trait"], found["scope"], how)
    if name == "told":
        return Told(found["taxon"], found["other"], found["trait"], found["part"], how)
    if name == "earlier":
        return Earlier(found["taxon"], found["other"], found["stage"])
    if len(conditions) != 1:
        raise ValueError("one condition at a time here; only signs take several, joined by `+`")
    if name == "group":
        return OfGroup("all" if found["quantity"] == "all" else "none", found["group"], conditions[0], how)
    return Statement(found["taxon"], conditions[0], how)


def taxa_of(claim: Claim) -> tuple[str, ...]:
    """The taxa a claim names."""
    if isinstance(claim, OfGroup):
        return ()
    return (claim.taxon, claim.other) if isinstance(claim, (Told, Earlier)) else (claim.taxon,)


def conditions_of(claim: Claim) -> tuple[Condition, ...]:
    """The conditions a claim names."""
    if isinstance(claim, Sign):
        return claim.conditions
    return (claim.condition,) if isinstance(claim, (Statement, OfGroup)) else ()


def traits_of(claim: Claim) -> tuple[str, ...]:
    """The traits a claim rests on; an order in time rests on none."""
    if isinstance(claim, (Told, Superlative)):
        return (claim.trait,)
    return tuple(dict.fromkeys(condition.trait for condition in conditions_of(claim)))


_MARK = re.compile(r"\{(?P<words>[^{}|]*)\|(?P<claim>[^{}|]*)\}")


@dataclass(frozen=True)
class Mark:
    """A marked claim in an author's text: `{words | claim}`, from `start` to before `end` in the text."""

    words: str
    claim: str
    start: int
    end: int


def marks(text: str) -> tuple[Mark, ...]:
    """The marked claims of a text."""
    return tuple(Mark(m["words"].strip(), m["claim"].strip(), m.start(), m.end()) for m in _MARK.finditer(text))


def unclosed(text: str) -> int | None:
    """Where a mark begins that has no end, if there is one: it would be read aloud with its brace."""
    found = re.search(r"\{[^{}|\n]*\|", _MARK.sub(lambda m: " " * len(m[0]), text))
    return found.start() if found else None


def unmarked(text: str) -> str:
    """The text as it is read: marks give way to their words."""
    return _MARK.sub(lambda m: m["words"].strip(), text)
