"""Terms explained in passing: by a sentence after their first use on a walk, and not again."""

from __future__ import annotations

import re

from twayblade.knowledge.library import Term
from twayblade.reasoning.terms import Terms
from twayblade.writing.phrases import capital, sentence

_A_THING = re.compile(r"(?:an?|the|one|two)\b", re.IGNORECASE)
"""How the definition of a thing begins; that of a quality does not."""


def explanation(term: Term) -> str:
    """What a walk says of a term: its own sentence, or `A ray is one of the spokes ...`, `Downy means covered ...`."""
    if term.say:
        return sentence(term.say)
    first = term.definition.split(" ")[0]
    said = term.definition if first.isupper() and len(first) > 1 else term.definition[:1].lower() + term.definition[1:]
    if _A_THING.match(said):
        return sentence(f"{'an' if term.term[0] in 'aeiou' else 'a'} {term.term} is {said}")
    return sentence(f"{capital(term.term)} means {said}")


class Explaining:
    """Keeps account, through one walk, of the terms that have been explained."""

    def __init__(self, terms: Terms) -> None:
        self.terms = terms
        self._known: set[str] = set()

    def fork(self) -> Explaining:
        """The same account, to go on in another way."""
        other = Explaining(self.terms)
        other._known = set(self._known)
        return other

    def is_known(self, text: str, more: frozenset[str] = frozenset()) -> None:
        """Note what a text explains itself; more: what else it introduces."""
        self._known |= self.terms.explained(text) | more

    def left_open(self, text: str) -> tuple[str, ...]:
        """The terms of a text that nothing has explained yet."""
        return tuple(id_ for id_ in self.terms.used(text) if id_ not in self._known)

    def explain(self, text: str) -> str:
        """The sentences that explain what a text leaves open, and what those sentences themselves leave open."""
        said: list[str] = []
        waiting = list(self.left_open(text))
        while waiting:
            id_ = waiting.pop(0)
            if id_ not in self._known:
                self._known.add(id_)
                said.append(explanation(self.terms.glossary[id_]))
                waiting = [*self.left_open(said[-1]), *waiting]
        return " ".join(said)
