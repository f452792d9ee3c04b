"""Common names and families of the library against WordNet 3.0, which is a hint and no authority."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from tests.outside.wordnet import Synset, nouns

from twayblade.knowledge.workspace import Workspace


@pytest.fixture(scope="module")
def wordnet() -> dict[str, Synset]:
    return nouns()


def _plants(workspace: Workspace) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Scientific name and English names of every profile and every plant on a region's list."""
    for taxon in workspace.taxa.values():
        yield taxon.scientific_name, taxon.profile.common_names["en"]
    for region in workspace.regions.values():
        yield from ((entry.name, (entry.common,)) for entry in region.recorded if entry.name)


def _plain(name: str) -> str:
    return " ".join(re.sub(r"[-_]", " ", name).replace("'", "").lower().split())


def _is_called(ours: str, theirs: str) -> bool:
    """Equal, or one the last words of the other: `elder` and `common elder`, `wild parsnip` and `parsnip`."""
    a, b = f" {_plain(ours)}", f" {_plain(theirs)}"
    return a.endswith(b) or b.endswith(a)


OTHER_NAMES = {"Oenanthe aquatica": "WordNet has only its other name, water fennel"}


def test_common_names_are_those_that_wordnet_gives_to_the_binomial(wordnet: dict[str, Synset], demo_workspace: Workspace) -> None:
    by_binomial = {word.lower(): synset for synset in wordnet.values() for word in synset.words if re.fullmatch(r"[A-Z][a-z]+_[A-Za-z-]+", word)}
    known = {name: (common, by_binomial[key]) for name, common in _plants(demo_workspace) if (key := name.lower().replace(" ", "_")) in by_binomial}
    assert len(known) > 20
    strange = {name for name, (common, synset) in known.items() if not any(_is_called(ours, word) for ours in common for word in synset.words)}
    assert strange == OTHER_NAMES.keys()


OLD_FAMILIES = {"Sambucus": "WordNet follows older books, which put elder among the Caprifoliaceae; now it is placed in the Viburnaceae"}


def test_families_are_those_that_wordnet_gives_to_the_genus(wordnet: dict[str, Synset], demo_workspace: Workspace) -> None:
    families: dict[str, set[str]] = {}
    for synset in wordnet.values():
        genera = {word.removeprefix("genus_") for word in synset.words if word[0].isupper() or word.startswith("genus_")}
        above = {word for offset in synset.member_of for word in wordnet[offset].words if word.endswith("aceae") and "_" not in word}
        for genus in genera if above else ():
            families.setdefault(genus, set()).update(above)
    profiles = {taxon.profile.name.genus: taxon.profile.family for taxon in demo_workspace.taxa.values()}
    known = {genus for genus in profiles if genus in families}
    assert len(known) >= 10
    assert {genus for genus in known if profiles[genus] not in families[genus]} == OLD_FAMILIES.keys()


def test_a_gloss_that_is_known_to_be_wrong_has_not_been_believed(wordnet: dict[str, Synset], demo_workspace: Workspace) -> None:
    """WordNet calls hemlock water-dropwort yellow-flowered; its petals are white (Coste, and other floras in the profile)."""
    (gloss,) = (s.gloss for s in wordnet.values() if "Oenanthe_crocata" in s.words)
    assert "yellow" in gloss
    value = demo_workspace.taxa["oenanthe-crocata"].values["petal-colour"]
    assert {state for a in value.alternatives for s in a.statements for state in s.states} == {"white", "pinkish"}
