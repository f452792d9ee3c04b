"""Latin of scientific names: the gender of a genus, and the form an adjectival epithet takes beside it (ICN Art. 23.5, 62).

Everything here would rather say nothing than be wrong: a gender is given only where the Code or an unmistakable ending fixes
it, and an epithet is taken for an adjective only by an ending that makes adjectives or by a word on the list. Genitives,
nouns in apposition and indeclinable words are thereby left alone.
"""

from __future__ import annotations

import re
from enum import StrEnum
from typing import NamedTuple


class Gender(StrEnum):
    """The grammatical gender of a genus."""

    MASCULINE = "masculine"
    FEMININE = "feminine"
    NEUTER = "neuter"


class Declined(NamedTuple):
    """The nominative forms of an adjective; several are equally right where a tuple holds several, the best first."""

    masculine: tuple[str, ...]
    feminine: tuple[str, ...]
    neuter: tuple[str, ...]

    def fitting(self, gender: Gender) -> tuple[str, ...]:
        """The forms that go with a gender."""
        return {Gender.MASCULINE: self.masculine, Gender.FEMININE: self.feminine, Gender.NEUTER: self.neuter}[gender]


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


# ---- genera -------------------------------------------------------------------------------------------------

_LISTED: dict[Gender, str] = {
    Gender.MASCULINE: """
        Aster Cotoneaster Cucumis Echinops Erigeron Lotus Melilotus Rumex Senecio Sicyos Symphoricarpos Ulex""",
    Gender.FEMININE: """
        Abies Adonis Aesculus Agave Agrostis Ailanthus Alnus Aloe Amygdalus Anemone Arbutus Arundo Atriplex Bellis Berberis
        Borago Buxus Calamagrostis Cannabis Capparis Carex Carpinus Celtis Cerasus Cercis Chamaecyparis Citrus Clematis
        Cocos Cornus Corylus Crataegus Crepis Cupressus Cycas Dactylis Daphne Digitalis Diospyros Elaeagnus Eleocharis
        Eucalyptus Ficus Filago Fraxinus Hemerocallis Hippophae Hydrocotyle Hypochaeris Ilex Iris Isatis Juglans Juniperus
        Larix Laurocerasus Laurus Lychnis Malus Mercurialis Morus Myosotis Myrrhis Nardus Oenanthe Ononis Ophrys Orchis
        Oxalis Padus Phlox Phoenix Pinus Plantago Platanus Populus Prunus Pteris Pyrus Quercus Rhamnus Rhus Salix Sambucus
        Scandix Silene Smilax Solidago Sorbus Stachys Strychnos Tamarindus Tamarix Torilis Trigonobalanus Tussilago Ulmus
        Venus Vitex Vitis Ziziphus Zizyphus""",
    Gender.NEUTER: """
        Abutilon Acer Alisma Ammi Cicer Cyclamen Papaver Phyteuma Piper Ribes Secale Seseli Siler Theobroma Zingiber""",
}
_UNSETTLED = _words("Anthriscus Arctous Aspalathus Balanites Cotinus Gymnocladus Onosma Paliurus Poncirus Sapindus Schinus")
"""Genera whose ending misleads or which authors treat differently: nothing is said of them."""

_ENDINGS: tuple[tuple[str, Gender | None], ...] = (
    ("carpos", Gender.MASCULINE),
    ("carpon", Gender.NEUTER),
    ("pogon", Gender.MASCULINE),
    ("stemon", Gender.MASCULINE),
    ("odon", Gender.MASCULINE),
    ("geton", Gender.MASCULINE),
    ("panax", Gender.MASCULINE),
    ("myces", Gender.MASCULINE),
    ("ites", Gender.MASCULINE),
    ("anthes", Gender.FEMININE),
    ("oides", Gender.FEMININE),
    ("odes", Gender.FEMININE),
    ("opsis", Gender.FEMININE),
    ("charis", Gender.FEMININE),
    ("achne", Gender.FEMININE),
    ("daphne", Gender.FEMININE),
    ("osma", Gender.FEMININE),
    ("dendron", Gender.NEUTER),
    ("zoon", Gender.NEUTER),
    ("ceras", Gender.NEUTER),
    ("nema", Gender.NEUTER),
    ("stigma", Gender.NEUTER),
    ("stoma", Gender.NEUTER),
    ("sperma", Gender.NEUTER),
    ("derma", Gender.NEUTER),
    ("ma", None),  # Greek neuters and Latin feminines look alike
    ("cola", None),
    ("narcissus", Gender.MASCULINE),
    ("cissus", Gender.FEMININE),
    ("cedrus", Gender.FEMININE),
    ("fagus", Gender.FEMININE),
    ("mespilus", Gender.FEMININE),
    ("myrtus", Gender.FEMININE),
    ("taxus", Gender.FEMININE),
    ("um", Gender.NEUTER),
    ("us", Gender.MASCULINE),
    ("a", Gender.FEMININE),
)
"""The first ending that fits decides; compounds follow their last word (Art. 62.2, 62.4)."""

_BY_NAME = {name: gender for gender, names in _LISTED.items() for name in names.split()}


def gender_of(genus: str) -> Gender | None:
    """The gender of a genus, where its name or the Code settles it."""
    name = genus.removeprefix("×").strip()
    if name in _BY_NAME or name in _UNSETTLED:
        return _BY_NAME.get(name)
    return next((gender for ending, gender in _ENDINGS if name.lower().endswith(ending)), None)


def genders_of(genus: str) -> frozenset[Gender]:
    """The genders a genus may have; none where nothing can be said.

    A name in -us of which authors make now a masculine, now a feminine is at least no neuter (from memory).
    """
    if gender := gender_of(genus):
        return frozenset({gender})
    return frozenset({Gender.MASCULINE, Gender.FEMININE}) if genus.removeprefix("×").strip() in _UNSETTLED and genus.endswith("us") else frozenset()


# ---- epithets -----------------------------------------------------------------------------------------------

_SUFFIXES_US = re.compile(
    r"\w{2,}(?:os|at|ic|ace|ulent|bund|issim|errim|illim|[eioy]an)"
    r"|(?:angusti|lati|rotundi|longi|tenui|parvi|grandi|alterni|oppositi|crassi|acuti|obtusi|integri|brevi)foli"
    r"|(?:nodi|parvi|grandi|multi|pauci|uni|longi|albi|lati|densi|laxi|brevi|tenui)flor"
    r"|(?:macro|micro|hetero|lepto|platy|brachy|steno|pachy|poly|tri|di|tetra)phyll"
)
"""Stems of adjectives in -us, -a, -um, known by how they are built."""

_WORDS_US = _words("""
    acid aestiv alb alpin american african angust annu arcan arctic argente aure barbat candid canin carne coccine caerule
    coerule crisp croce didym erect europae farin flav florid foetid fulv fusc glauc graminee gramine hirsut hirt hispid humid
    hybrid insan lax limpid long lucid lurid lute magn marin maritim mexican mir montan nan nitid nive obtus odor pallid parv
    peregrin pulchell purpure rect rigid roman rotund sanguine sativ serotin splendid tenell tinctori tumid turgid
    urban ursin vern viscid vulpin
    """)
"""Other stems of adjectives in -us, -a, -um."""

_SUFFIXES_IS = re.compile(r"\w{2,}(?:ens|al|ar|bil|atil|form|estr|ustr)")
_WORDS_IS = _words("acr agrest commun perenn bienn trist gracil humil util fertil steril viridi virid dulc tenu grand fragil rival")
"""Stems of adjectives in -is, -e."""

_WORDS_ER = {"nig": "nigr", "rub": "rubr", "glab": "glabr", "scab": "scabr", "pulch": "pulchr", "sac": "sacr", "integ": "integr"}
_WORDS_ER |= {stem: f"{stem}er" for stem in ("asp", "ten", "lac")}
"""Adjectives in -er: what stands before it, and the stem of the other forms."""

_COMPARATIVES = frozenset({"maj", "min", "elati", "excelsi"})
"""Stems of comparatives in -or, -us."""

_NOUNS = _words("""
    acetosa ageratum angelica arnica arquata balata basilicum batata betonica capsicum carica cerefolium colchicum cruciata diana erica
    formica gentiana granatum lactuca levisticum ligusticum mastica medica mimosa myrica nicotiana panacea panicum polygonatum ptarmica
    rosa spica triticum tulipifera valeriana veronica
    acer adonis caesaris capparis caucalis digitalis eleocharis hydrocharis mercurialis molle nectaris oxalis phalaris physalis
    caricum corticum filicum fruticum ilicum radicum salicum tamaricum
    """)
"""Nouns that look like adjectives: plants and things in apposition, and genitives of the many."""


def declined(epithet: str, is_adjective: bool = False) -> Declined | None:
    """All forms of an epithet that is clearly an adjective which declines; None where it is not, or may be a noun.

    `is_adjective` says that the author knows it to be one: then its ending is enough.
    """
    if not is_adjective and (epithet in _NOUNS or "-" in epithet):
        return None
    for way in (_comparative, _in_er, _in_us, _in_is):
        if found := way(epithet, is_adjective):
            return found
    return None


def _comparative(epithet: str, is_adjective: bool) -> Declined | None:
    match = re.fullmatch(r"(\w+)(or|us)", epithet)
    if not match or match[1] not in _COMPARATIVES:
        return None
    return Declined((f"{match[1]}or",), (f"{match[1]}or",), (f"{match[1]}us",))


def _in_er(epithet: str, is_adjective: bool) -> Declined | None:
    for short, stem in _WORDS_ER.items():
        if epithet in (f"{short}er", f"{stem}a", f"{stem}um"):
            return Declined((f"{short}er",), (f"{stem}a",), (f"{stem}um",))
    if match := re.fullmatch(r"(\w{2,}i[fg]er)(a|um|)", epithet):
        return Declined((match[1],), (f"{match[1]}a",), (f"{match[1]}um",))
    return None


def _in_us(epithet: str, is_adjective: bool) -> Declined | None:
    match = re.fullmatch(r"(\w{2,})(us|a|um)", epithet)
    if not match or not (is_adjective or match[1] in _WORDS_US or _SUFFIXES_US.fullmatch(match[1])):
        return None
    return Declined((f"{match[1]}us",), (f"{match[1]}a",), (f"{match[1]}um",))


def _in_is(epithet: str, is_adjective: bool) -> Declined | None:
    match = re.fullmatch(r"(\w{2,}?)(is|e|er)", epithet)
    if not match:
        return None
    stem, ending = match.groups()
    if ending == "er":  # acer, campester: the masculine of -ris
        if not re.fullmatch(r"\w+(?:est|ust)", stem):
            return None
        stem += "r"
    if not (is_adjective or stem in _WORDS_IS or _SUFFIXES_IS.fullmatch(stem)):
        return None
    also = (f"{stem[:-1]}er",) if re.search(r"(?:est|ust|ac)r$", stem) else ()
    return Declined((f"{stem}is", *also), (f"{stem}is",), (f"{stem}e",))


def mended(epithet: str, gender: Gender, is_adjective: bool = False) -> str | None:
    """The form an epithet should have beside a genus of this gender, if it is clearly an adjective in another form."""
    forms = declined(epithet.removeprefix("×"), is_adjective)
    if forms is None or epithet.removeprefix("×") in forms.fitting(gender):
        return None
    return forms.fitting(gender)[0]
