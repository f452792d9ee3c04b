"""Which words of the glossary a text uses, and which of them it explains itself."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from twayblade.knowledge.library import Term
from twayblade.knowledge.workspace import Workspace

_EXPLAINS = (
    r"(?<![\w-])(?:{0})(?: (?:is|are) (?:an?|one|the|what|where|how)\b| means?\b|, that is,| \()"
    r"|\b(?:called|call (?:it|this|these|them)|known as) (?:an? |the )?(?:{0})(?![\w-])"
)
"""Words by which a sentence says what a term is: `a ray is a spoke`, `ray means ...`, `called rays`, `rays (spokes)`."""


class Terms:
    """The glossary as words to be found in texts. A longer term goes before a shorter one in it."""

    def __init__(self, glossary: Mapping[str, Term]) -> None:
        self.glossary = glossary
        self._ids = {form.lower(): id_ for id_, term in glossary.items() for form in _forms(term)}
        spelled = sorted(self._ids, key=lambda form: (-len(form), form))
        self._any = re.compile(rf"(?<![\w-])(?:{'|'.join(map(re.escape, spelled))})(?![\w-])", re.IGNORECASE) if spelled else None

    def places(self, text: str) -> Iterator[tuple[str, int]]:
        """Every use of a term that needs explaining, with where it begins."""
        for found in self._any.finditer(text) if self._any else ():
            id_ = self._ids[found[0].lower()]
            if not self.glossary[id_].everyday:
                yield id_, found.start()

    def used(self, text: str) -> tuple[str, ...]:
        """The terms a text uses that need explaining, each once, in order."""
        return tuple(dict.fromkeys(id_ for id_, _ in self.places(text)))

    def explained(self, text: str) -> frozenset[str]:
        """The terms of which a text says itself what they are."""
        return frozenset(id_ for id_ in self.used(text) if self._says_what_it_is(id_, text))

    def _says_what_it_is(self, id_: str, text: str) -> bool:
        forms = "|".join(re.escape(form) for form in _forms(self.glossary[id_]))
        return re.search(_EXPLAINS.format(forms), text, re.IGNORECASE) is not None


def of_group(workspace: Workspace, group: str) -> frozenset[str]:
    """The terms that are the name of a group: its spoken paragraph introduces them."""
    named = {workspace.groups[group].name.lower(), workspace.groups[group].singular.lower()}
    return frozenset(id_ for id_, term in workspace.glossary.items() if named & {form.lower() for form in _forms(term)})


def _forms(term: Term) -> tuple[str, ...]:
    return term.term, term.plural or f"{term.term}s"
