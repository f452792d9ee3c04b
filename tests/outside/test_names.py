"""Scientific names as the Code writes and cites them (articles of the Shenzhen and Madrid Codes; examples restated, no text taken)."""

from __future__ import annotations

import pytest
from pydantic import ValidationError

from twayblade.knowledge.library import Recorded
from twayblade.knowledge.name import ScientificName
from twayblade.knowledge.workspace import Workspace

COMMON = "common practice, no source"


def read(text: str) -> ScientificName:
    return ScientificName.model_validate(text)


@pytest.mark.parametrize(
    ("text", "name", "authors", "source"),
    [
        ("Rosa gallica L.", "Rosa gallica", "L.", "ICN Art. 46, example"),
        ("Capsella bursa-pastoris (L.) Medik.", "Capsella bursa-pastoris", "(L.) Medik.", "ICN Art. 23.1, example; author from memory"),
        ("Adiantum capillus-veneris L.", "Adiantum capillus-veneris", "L.", "ICN Art. 23, example; author from memory"),
        ("Impatiens noli-tangere L.", "Impatiens noli-tangere", "L.", "ICN Art. 23, example; author from memory"),
        ("Atropa bella-donna L.", "Atropa bella-donna", "L.", "ICN Art. 23.5 Ex. 1; author from memory"),
        ("Solanum melongena var. insanum (L.) Prain", "Solanum melongena var. insanum", "(L.) Prain", "ICN Art. 24, example; author from memory"),
        ("Daucus carota L. subsp. sativus (Hoffm.) Arcang.", "Daucus carota subsp. sativus", "(Hoffm.) Arcang.", COMMON),
        ("Daucus carota L. subsp. sativus (Hoffm.) Schübl. & G.Martens", "Daucus carota subsp. sativus", "(Hoffm.) Schübl. & G.Martens", COMMON),
        (
            "Primula vulgaris Hook. f. ex Benth.",
            "Primula vulgaris",
            "Hook. f. ex Benth.",
            "`f.` and `ex` in citations, ICN Art. 46; invented citation",
        ),
        ("Anemone nemorosa L. f. alba Invented", "Anemone nemorosa f. alba", "Invented", "`f.` for forma, ICN Art. 24; invented citation"),
    ],
)
def test_names_and_their_authors_are_told_apart(text: str, name: str, authors: str, source: str) -> None:
    found = read(text)
    assert (found.without_authors, found.authorship) == (name, authors), source
    assert found.with_authors == text, source


def test_an_autonym_has_no_author_of_its_own() -> None:
    """ICN Art. 26.1 and the example of Art. 46: in Rosa gallica L. var. gallica the author is that of the species."""
    found = read("Rosa gallica L. var. gallica")
    assert (found.without_authors, found.species_authorship, found.authorship) == ("Rosa gallica var. gallica", "L.", "")
    assert found.with_authors == "Rosa gallica L. var. gallica"


def test_all_ranks_of_a_long_name_are_read() -> None:
    """ICN Art. 24, example: Saxifraga aizoon with four ranks below the species, each with authors of its own or none."""
    found = read("Saxifraga aizoon var. aizoon subvar. brevifolia Engl. & Irmsch. f. multicaulis Engl. & Irmsch. subf. surculosa Engl. & Irmsch.")
    assert found.lower_ranks == "var. aizoon subvar. brevifolia f. multicaulis subf. surculosa"
    assert found.authorship == "Engl. & Irmsch."
    assert found.words == ("Saxifraga", "aizoon", "aizoon", "brevifolia", "multicaulis", "surculosa")


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Salix ×capreola", "Salix ×capreola"),
        ("Mentha × smithiana", "Mentha ×smithiana"),
        ("Mentha ×\N{NO-BREAK SPACE}smithiana", "Mentha ×smithiana"),
        ("×Agropogon littoralis", "×Agropogon littoralis"),
        ("× Agropogon littoralis", "×Agropogon littoralis"),
        ("Mentha ×piperita L. nothosubsp. pyramidalis (Ten.) Harley", "Mentha ×piperita nothosubsp. pyramidalis"),
        ("Agrostis stolonifera × Polypogon monspeliensis", "Agrostis stolonifera × Polypogon monspeliensis"),
        ("Agrostis stolonifera L. × Polypogon monspeliensis (L.) Desf.", "Agrostis stolonifera × Polypogon monspeliensis"),
    ],
)
def test_hybrids_are_read_with_their_sign_or_as_a_formula(text: str, name: str) -> None:
    """ICN Art. H.1 to H.3, examples; Rec. H.3A.1 leaves the space after the sign open. The nothosubspecies is from memory."""
    assert read(text).without_authors == name


@pytest.mark.parametrize("text", ["Mentha x smithiana", "x Agropogon littoralis", "Salix x capreola J.Kern. ex Andersson"])
def test_the_letter_x_is_not_taken_for_an_author(text: str) -> None:
    """ICN Art. H.3: the sign is ×; a letter x would be read as a word of the name or as an author."""
    with pytest.raises(ValidationError, match="write `×`"):
        read(text)
    with pytest.raises(ValidationError, match="write `×`"):
        Recorded(name=text)


def test_the_list_of_the_demonstration_holds_names_that_can_be_read(demo_workspace: Workspace) -> None:
    """Common practice, no source: a binomial, perhaps with authors, and nothing else."""
    listed = [entry.name for region in demo_workspace.regions.values() for entry in region.recorded if entry.name]
    assert len(listed) > 30
    assert all(read(name).epithet and not read(name).authorship for name in listed)
