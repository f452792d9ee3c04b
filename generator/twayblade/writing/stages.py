"""The stages of a plant in words."""

from __future__ import annotations

from twayblade.knowledge.profile import MOST_TELLING
from twayblade.knowledge.season import Phase
from twayblade.writing.phrases import listed

STAGE_WORDS = {
    "seedling": "as seedlings",
    "rosette": "as leaf rosettes",
    "leaf": "in leaf",
    "bud": "in bud",
    "flower": "in flower",
    "young-fruit": "in young fruit",
    "ripe-fruit": "in ripe fruit",
    "dry-stem": "as dry stems",
}


def stage_words(stages: tuple[tuple[str, Phase], ...]) -> str:
    """The stages a taxon can be seen in, in words: `in flower and already in fruit`, `perhaps in bud`, `not to be seen`."""
    firm = [stage for stage in MOST_TELLING if (stage, Phase.EXPECTED) in stages]
    if not stages:
        return "not to be seen"
    if not firm:
        return f"perhaps {listed((STAGE_WORDS[stage] for stage, _ in stages), 'or')}"
    if firm[0] == "flower" and {"young-fruit", "ripe-fruit"} & set(firm):
        return f"{STAGE_WORDS['flower']} and already in fruit"
    if firm[0] == "dry-stem" and "leaf" in firm:
        return f"{STAGE_WORDS['dry-stem']}, with young leaves at the ground"
    return STAGE_WORDS[firm[0]]


def is_expected(stages: tuple[tuple[str, Phase], ...]) -> bool:
    """Whether one of the stages can be counted on."""
    return any(phase is Phase.EXPECTED for _, phase in stages)
