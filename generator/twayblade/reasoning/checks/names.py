"""Scientific names: formed as the Code asks, and never abbreviated so that they can be read in two ways."""

from __future__ import annotations

import re
from collections.abc import Iterator

from twayblade.knowledge.latin import genders_of, mended
from twayblade.knowledge.name import ScientificName, WordKind
from twayblade.knowledge.problem import Finding, Path, Spot
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.checks.texts import said_texts


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


_ABBREVIATED = re.compile(r"(?<![\w.])(?P<initial>[A-Z])\. (?P<epithet>[a-z][a-z-]{3,})\b")
_NOT_EPITHETS = _words(
    "also although because been before both could does each emend even ever flora from have here into like more most much nomen only other over "
    "said same some subf subg subsp subvar such than that their them then there these they this those under until upon very were what when "
    "where which while will with would"
)
"""Words of four letters and more that may follow an initial and are no epithet."""
_AUTHORITY = re.compile(r"[A-Z][a-z]+ (?:×\s*)?[a-z-]+ \(?$")
_LIKE_A_GENUS = re.compile(r"\b[A-Z][a-z]+(?:us|um|is|a|on|os|es|e|ys|ix|ex|ax)\b")


def check_names(workspace: Workspace) -> Iterator[Finding]:
    """Findings about scientific names and their abbreviations."""
    of_animals = any(_is_of_animals(taxon.profile.family) for taxon in workspace.taxa.values())
    for taxon in workspace.taxa.values():
        profile = taxon.profile
        kinds = {part.part: part.kind for part in profile.name_meaning}
        yield from _name(profile.name, kinds, _is_of_animals(profile.family), Spot(taxon.document, ("name",)))
    for id_, region in workspace.regions.items():
        for number, recorded in enumerate(region.recorded):
            if name := _read(recorded.name):
                yield from _name(name, {}, of_animals, Spot(f"content/regions/{id_}.yml", ("recorded", number, "name")))
    genera = _genera(workspace)
    for document, path, text in _texts(workspace):
        yield from _abbreviations(text, genera, Spot(document, path))


def _read(name: str) -> ScientificName | None:
    return ScientificName.model_validate(name) if name else None


def _is_of_animals(family: str) -> bool:
    return family.endswith("idae")


def _name(name: ScientificName, kinds: dict[str, WordKind | None], of_animals: bool, spot: Spot) -> Iterator[Finding]:
    """Findings about one name. Tautonyms and gender are matters of the Code of plants; animals follow another."""
    genus, epithet = name.genus.removeprefix("×"), name.epithet.removeprefix("×")
    if epithet == genus.lower() and not of_animals:
        message = f"`{epithet}` repeats the genus, which no plant's name may do (ICN Art. 23.4)"
        yield Finding("name-tautonym", spot, message, ("look up the name that is accepted for it",))
    if re.search(r"\bssp\.", name.lower_ranks):
        hint = f"write `{name.without_authors.replace('ssp.', 'subsp.')}`"
        yield Finding("rank-abbreviation", spot, "the rank is written `ssp.`; the Code recommends `subsp.` (ICN Rec. 5A)", (hint,))
    genders = frozenset() if of_animals else genders_of(genus)
    for word in name.words[1:]:
        kind = kinds.get(word)
        if not genders or kind is WordKind.NOUN:
            continue
        better = [mended(word, gender, kind is WordKind.ADJECTIVE) for gender in sorted(genders)]
        if all(better):
            message = f"`{word}` does not agree with the genus `{genus}`, which is {' or '.join(sorted(genders))} (ICN Art. 23.5)"
            hints = (f"write `{better[-1]}`", f"or, if `{word}` is a noun, say so: a part of `name-meaning:` with `kind: noun`")
            yield Finding("epithet-gender", spot, message, hints)


def _genera(workspace: Workspace) -> frozenset[str]:
    """Every genus of a profile or of a region's list."""
    listed = [name for region in workspace.regions.values() for recorded in region.recorded if (name := _read(recorded.name))]
    return frozenset(name.genus.removeprefix("×") for name in (*listed, *(taxon.profile.name for taxon in workspace.taxa.values())))


def _texts(workspace: Workspace) -> Iterator[tuple[str, Path, str]]:
    yield from said_texts(workspace)
    for taxon in workspace.taxa.values():
        if taxon.profile.synonyms:
            yield taxon.document, ("synonyms",), taxon.profile.synonyms.text


def _abbreviations(text: str, genera: frozenset[str], spot: Spot) -> Iterator[Finding]:
    """Abbreviated genera that stand at the start of a sentence, or that two genera of the workspace may be meant by.

    Where the text itself has named one genus of the initial in full before, that one is meant.
    """
    text = " ".join(text.split())
    for match in _ABBREVIATED.finditer(text):
        before, initial = text[: match.start()], match["initial"]
        meant = sorted(genus for genus in genera if genus.startswith(initial))
        if match["epithet"] in _NOT_EPITHETS or _AUTHORITY.search(before) or not meant:
            continue
        named = {word for word in _LIKE_A_GENUS.findall(before) if word.startswith(initial)}
        named = (named & genera) or named
        if not before or re.search(r"[.!?][\"'”’)]* $", before):
            message = f"`{match[0]}` stands at the start of a sentence, where its initial could be anybody's"
            yield Finding("abbreviation-ambiguous", spot, message, ("write the genus out",))
        elif len(named) > 1 or (not named and len(meant) > 1):
            message = f"`{match[0]}` may be read as {_listed(sorted(named) or meant)}"
            yield Finding("abbreviation-ambiguous", spot, message, ("write the genus out",))


def _listed(genera: list[str]) -> str:
    *others, last = genera[:4]
    return f"{', '.join(others)} or {last}" if len(genera) <= 4 else f"{', '.join(genera[:3])} or {len(genera) - 3} more"
