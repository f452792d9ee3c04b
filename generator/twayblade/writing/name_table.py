"""Every name by which a taxon may be looked for, as one JSON value for the script that finds names.

`taxa`: address of the page, common name, scientific name, and the shortest caution, if there is one. `names`: a name, its language
(BCP 47), and the place of its taxon.
"""

from __future__ import annotations

import re
from typing import Any

from twayblade.knowledge.workspace import Taxon
from twayblade.writing.addresses import taxon_address
from twayblade.writing.cautions import harm_words

LATIN = "la"

_NAME = re.compile(r"\b(?P<genus>[A-Z](?:[a-zë-]+|\.)) (?P<epithet>[a-zë-]{3,})")
"""A name of a species in a list of names, the genus perhaps as its first letter."""


def name_table(taxa: list[Taxon]) -> dict[str, Any]:
    """The JSON value of some taxa, in their order."""
    return {
        "taxa": [[taxon_address(t.id), t.common_name, t.scientific_name, harm_words(t)] for t in taxa],
        "names": [[name, language, n] for n, taxon in enumerate(taxa) for name, language in names_of(taxon)],
    }


def names_of(taxon: Taxon) -> tuple[tuple[str, str], ...]:
    """Every name of a taxon with its language: common names, scientific name, synonyms."""
    common = [(name, language) for language, names in taxon.profile.common_names.items() for name in names]
    synonyms = scientific_names(taxon.profile.synonyms.text) if taxon.profile.synonyms else ()
    return tuple(dict.fromkeys((*common, *((name, LATIN) for name in (taxon.scientific_name, *synonyms)))))


def scientific_names(text: str) -> tuple[str, ...]:
    """The names of species in a list of synonyms, `H. caucasicum` under the genus last named by that letter. What follows a semicolon is a remark."""
    genera: dict[str, str] = {}
    found = []
    for match in _NAME.finditer(text.partition(";")[0]):
        genus = genera.get(match["genus"][0], match["genus"]) if match["genus"].endswith(".") else match["genus"]
        genera[genus[0]] = genus
        found.append(f"{genus} {match['epithet']}")
    return tuple(dict.fromkeys(found))
