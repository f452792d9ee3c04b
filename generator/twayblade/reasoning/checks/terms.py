"""Words of the glossary: none without a definition, none on a page that leaves its reader alone with it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from twayblade.knowledge.problem import Finding, Path, Spot
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.terms import Terms

_TO_GLOSSARY = re.compile(r"\]\((?:\.{1,2}/)*glossary\.(?:html|md)[#)]|href=[\"'](?:\.{1,2}/)*glossary\.html")


def check_terms(workspace: Workspace) -> Iterator[Finding]:
    """Definitions that say nothing, and terms that an author's page uses and neither explains nor leads to the glossary for."""
    yield from _definitions(workspace)
    terms = Terms(workspace.glossary)
    for page in workspace.pages.values():
        if _TO_GLOSSARY.search(page.prose):
            continue
        explained = terms.explained(page.prose)
        first = {id_: start for id_, start in reversed(list(terms.places(page.prose))) if id_ not in explained}
        for id_, start in first.items():
            message = f"`{workspace.glossary[id_].term}` is a term of the glossary; the page neither says what it is nor leads to the glossary"
            hint = "say what it is where it stands first, or make it a link to `glossary.html#" + id_ + "`"
            yield Finding("term-unexplained", Spot(page.document, (start,)), message, (hint,))


def _definitions(workspace: Workspace) -> Iterator[Finding]:
    """Traits, states and terms of which the definition is empty or says again what they are called."""
    traits, glossary = "content/traits.yml", "content/glossary.yml"
    defined: list[tuple[str, Path, str, tuple[str, ...], str]] = []
    for id_, trait in workspace.traits.items():
        defined.append((traits, (id_,), f"trait `{id_}`", (id_, trait.name), trait.definition))
        for state, described in trait.states.items():
            defined.append((traits, (id_, "states", state), f"state `{state}` of `{id_}`", (state,), described.definition))
    for id_, term in workspace.glossary.items():
        defined.append((glossary, (id_,), f"term `{id_}`", (id_, term.term), term.definition))
    for document, way, what, names, definition in defined:
        if not _plain(definition) or _plain(definition) in {_plain(name) for name in names}:
            said = "says only what it is called" if definition.strip() else "is empty"
            hint = "say in one line what to look at, so that two people mean the same by it"
            yield Finding("definition-missing", Spot(document, (*way, "definition")), f"the definition of the {what} {said}", (hint,))


def _plain(text: str) -> str:
    return re.sub(r"[\W_]+", " ", text).strip().lower()
