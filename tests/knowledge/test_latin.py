"""Latin of names: what is said is sure, and what is not sure is left alone."""

from __future__ import annotations

import pytest

from twayblade.knowledge.latin import Gender, declined, gender_of, mended

M, F, N = Gender.MASCULINE, Gender.FEMININE, Gender.NEUTER


@pytest.mark.parametrize(
    ("gender", "genera"),
    [
        (M, "Daucus Helleborus Melilotus Tragopogon Leontodon Potamogeton Penstemon Panax Opopanax Petasites Narcissus Erigeron"),
        (F, "Oenanthe Sambucus Ulmus Nardus Ailanthus Nothofagus Calocedrus Parthenocissus Zephyranthes Nymphoides Hydrocharis Achillea"),
        (N, "Heracleum Conium Acer Ammi Rhododendron Aglaonema Ceratostigma Theobroma ×Chitalpum"),
        (None, "Anthriscus Cotinus Onosma Trema Retama Sassafras Thlaspi"),
    ],
)
def test_the_gender_of_a_genus(gender: Gender | None, genera: str) -> None:
    assert {genus: gender_of(genus) for genus in genera.split()} == dict.fromkeys(genera.split(), gender)


@pytest.mark.parametrize(
    "forms",
    [
        ("albus", "alba", "album"),
        ("niger", "nigra", "nigrum"),
        ("asper", "aspera", "asperum"),
        ("somnifer", "somnifera", "somniferum"),
        ("perennis", "perennis", "perenne"),
        ("arvensis", "arvensis", "arvense"),
        ("sylvestris", "sylvestris", "sylvestre"),
        ("campester", "campestris", "campestre"),
        ("acris", "acris", "acre"),
        ("major", "major", "majus"),
        ("elatior", "elatior", "elatius"),
        ("altissimus", "altissima", "altissimum"),
        ("angustifolius", "angustifolia", "angustifolium"),
    ],
)
def test_each_form_of_an_adjective_fits_its_own_gender_and_is_mended_to_it(forms: tuple[str, str, str]) -> None:
    for form, gender in zip(forms, (M, F, N), strict=True):
        assert mended(form, gender) is None
        for other in forms:
            assert mended(other, gender) in (None, form, declined(form).fitting(gender)[0])  # type: ignore[union-attr]
    assert mended(forms[2], M) == declined(forms[2]).masculine[0]  # type: ignore[union-attr]
    assert mended(forms[2], F) == forms[1]
    assert mended(forms[1], N) == forms[2]


@pytest.mark.parametrize(
    "epithet",
    ["repens", "elegans", "bicolor", "praecox", "simplex", "deltoides", "rhoeas", "robertii", "fabae", "murorum", "sanguis", "noli-tangere"],
)
def test_words_of_one_form_genitives_and_indeclinables_are_left_alone(epithet: str) -> None:
    assert declined(epithet) is None


@pytest.mark.parametrize(
    "name",
    [
        "Achillea millefolium",
        "Achillea ageratum",
        "Campanula medium",
        "Galium cruciata",
        "Salvia rosmarinus",
        "Viburnum lantana",
        "Rumex acetosa",
        "Schinus molle",
        "Punica granatum",
        "Sedum rosea",
        "Liriodendron tulipifera",
        "Lythrum hyssopifolia",
        "Pimpinella saxifraga",
        "Prunus cerasus",
        "Rhus cotinus",
        "Sorbus aria",
        "Milesina filicum",
        "Antirrhinum asarina",
        "Aegopodium podagraria",
        "Aethusa cynapium",
        "Chaerophyllum temulum",
        "Senecio jacobaea",
    ],
)
def test_nouns_that_look_like_adjectives_raise_no_alarm(name: str) -> None:
    genus, epithet = name.split()
    gender = gender_of(genus)
    assert gender is None or mended(epithet, gender) is None


def test_an_author_may_settle_that_a_word_is_an_adjective() -> None:
    assert mended("temula", N) is None
    assert mended("temula", N, is_adjective=True) == "temulum"
    assert mended("×album", F) == "alba"
