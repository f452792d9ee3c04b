"""Gender against the examples of the Code, and against the binomials of WordNet."""

from __future__ import annotations

import re

import pytest
from tests.outside.wordnet import nouns

from twayblade.knowledge.latin import Gender, declined, gender_of, mended


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


AGREEMENT = "ICN Art. 23.5, example: Helleborus niger, Brassica nigra, Verbascum nigrum; Vinca major, Tropaeolum majus"
NOUNS = "ICN Art. 23 Ex. 1: genitives, nouns in apposition and indeclinable words do not agree"
BELOW = "ICN Art. 24: the epithet of Solanum melongena var. insanum and of Saxifraga aizoon subf. surculosa agrees with the genus"


@pytest.mark.parametrize(
    ("genus", "epithet", "source"),
    [
        ("Helleborus", "niger", AGREEMENT),
        ("Brassica", "nigra", AGREEMENT),
        ("Verbascum", "nigrum", AGREEMENT),
        ("Vinca", "major", AGREEMENT),
        ("Tropaeolum", "majus", AGREEMENT),
        ("Solanum", "insanum", BELOW),
    ],
)
def test_adjectives_that_the_code_gives_agree_and_in_the_other_genders_do_not(genus: str, epithet: str, source: str) -> None:
    gender, forms = gender_of(genus), declined(epithet)
    assert gender, source
    assert forms, source
    assert mended(epithet, gender) is None, source
    for wrong in {form for other in Gender for form in forms.fitting(other)} - set(forms.fitting(gender)):
        assert mended(wrong, gender) == epithet, source


@pytest.mark.parametrize(
    "name",
    ["Fumaria gussonei", "Uromyces fabae", "Embelia sarasiniorum", "Papaver rhoeas", "Atropa bella-donna", "Spondias mombin", "Saxifraga aizoon"],
)
def test_what_the_code_says_does_not_agree_is_left_alone(name: str) -> None:
    genus, epithet = name.split()
    gender = gender_of(genus)
    assert gender is None or mended(epithet, gender) is None, NOUNS


@pytest.mark.parametrize(
    ("gender", "genera", "source"),
    [
        (
            Gender.FEMININE,
            "Adonis Atriplex Diospyros Eucalyptus Hemerocallis Orchis Stachys Strychnos Cedrus Fagus Rhamnus Taxus",
            "ICN Art. 62.1 and its examples",
        ),
        (Gender.MASCULINE, "Lotus Melilotus Erigeron Sicyos", "ICN Art. 62.1 and its examples"),
        (Gender.NEUTER, "Phyteuma", "ICN Art. 62.1 and its examples"),
        (Gender.MASCULINE, "Artocarpus Andropogon Opopanax Penstemon Platycodon", "ICN Art. 62.2 (from memory)"),
        (Gender.FEMININE, "Zephyranthes Nymphoides Omphalodes", "ICN Art. 62.4 (from memory)"),
    ],
)
def test_the_gender_of_genera_that_the_code_gives(gender: Gender, genera: str, source: str) -> None:
    assert {genus: gender_of(genus) for genus in genera.split()} == dict.fromkeys(genera.split(), gender), source


PEOPLE = "ICN Art. 60.8: epithets made from the names of people, as genitives and as adjectives"


@pytest.mark.parametrize("gender", list(Gender))
@pytest.mark.parametrize(
    "epithet", sorted(_words("lecardii wilsoniae verlotiorum brauniarum grayi scopolii hookerorum laceae trianae pojarkovae robertii"))
)
def test_genitives_of_people_do_not_agree_with_anything(epithet: str, gender: Gender) -> None:
    assert mended(epithet, gender) is None, PEOPLE


@pytest.mark.parametrize("stem", ["heynean", "lindleyan", "berteroan", "webbian"])
def test_adjectives_made_from_people_agree(stem: str) -> None:
    forms = {Gender.MASCULINE: f"{stem}us", Gender.FEMININE: f"{stem}a", Gender.NEUTER: f"{stem}um"}
    for gender, right in forms.items():
        assert {mended(form, gender) for form in forms.values()} == {None, right}, PEOPLE


def test_what_could_be_a_noun_raises_no_alarm_although_the_code_makes_it_an_adjective() -> None:
    """Art. 60.8 makes balansana an adjective; by its ending it might be a noun like lantana, so nothing is said."""
    assert mended("balansana", Gender.MASCULINE) is None


MISSPELT = _words("""
    Afrocarpus-falcata Artocarpus-odoratissima Calopogon-pulchellum Calopogon-tuberosum Celsius-scale Chamaemelum-nobilis Dictamnus-alba
    Eucalytus-stellulata Eugenia-aromaticum Eugenia-caryophyllatum Hydnocarpus-wightiana Jatropha-stimulosus Lepidium-alpina Lithocarpus-glabra
    Lysimachia-ciliatum Melicocca-bijugatus Melilotus-alba Nabalus-alba Podocarpus-spicata Polystichum-adiantiformis Pteropogon-humboltianum
    Rhamnus-californicus Rhamnus-carolinianus Rhamnus-croceus Rhamnus-purshianus Schlumbergera-truncatus Spraguea-umbellatum
    Stizolobium-deeringiana Symphoricarpos-alba Symplocus-paniculata Symplocus-tinctoria
    """)
"""Names of plants that WordNet gives in the wrong gender, or with another slip (and one that is no name)."""

ANIMALS = _words("""
    Chinchilla-laniger Cryptacanthodes-maculatus Egretta-albus Elanoides-forficatus Euderma-maculata Grus-americana Hyla-crucifer Ixodes-dentatus
    Ixodes-pacificus Ixodes-persulcatus Regulus-satrata Sebastodes-marinus Sebastodes-miniatus Sebastodes-ruberrimus Sphenodon-punctatum
    """)
"""Animals, whose names follow another code; the rule leaves their families alone."""


def test_of_the_binomials_of_wordnet_only_misspelt_ones_raise_an_alarm() -> None:
    names = {match.groups() for s in nouns().values() for word in s.words if (match := re.match(r"([A-Z][a-z]+)_([a-z]{3,})\b", word))}
    gendered = [(genus, epithet, gender) for genus, epithet in names if (gender := gender_of(genus))]
    assert sum(declined(epithet) is not None for _, epithet, _ in gendered) > 2000
    assert {f"{genus}-{epithet}" for genus, epithet, gender in gendered if mended(epithet, gender)} == MISSPELT | ANIMALS
