"""What words name, and whether they are as strong as what they claim."""

from __future__ import annotations

import re

_HEDGE = re.compile(r"\b(usual|usually|mostly|often|sometimes|rarely|seldom|most|many|few|some|may|might|can|hardly ever|as a rule)\b", re.IGNORECASE)
_ABSOLUTE = re.compile(r"\b(all|every|always|without exception|invariably)\b(?! (?:over|round|year|at the|the way))", re.IGNORECASE)

HEDGE_HINT = "say `usually`, `often`, `rarely` or the like, and leave out `all` and `always`"


def too_strong(words: str) -> str | None:
    """What makes words too strong for a claim that holds only usually, if they are."""
    if found := _ABSOLUTE.search(words):
        return f"say `{found[0]}`"
    return None if _HEDGE.search(words) else "say neither `usually` nor anything like it"


def names(text: str, name: str) -> bool:
    """Whether a text holds a name, singular or plural, as a word of its own."""
    return re.search(rf"(?<![\w-]){re.escape(name)}s?(?![\w-])", text, re.IGNORECASE) is not None


_LACK = re.compile(r"^(no|not|none|nothing|never|without|free of|lacking|absent|bare|hardly|scarcely)\b|^\w+less\b|^un\w+ed\b", re.IGNORECASE)


def speaks_of_lack(words: str) -> bool:
    """Whether words for a state say that something is not there: seeing nothing rules no harmful plant out."""
    return bool(_LACK.search(words.strip()))
