"""Ways to make a true workspace false at one place. An operator that breaks a stated rule by what it does says which;
for the others the enumerator decides."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

import yaml

from tests.measure.texts import Edit, Spot, Text, Way, scalar, split_keys
from twayblade.knowledge.rules import RULES

REQUIRED = {
    r"content/species": ["name", "common-names", "hazard/class", "hazard/text", "contrasts/*/from", "contrasts/*/by", "contrasts/*/by/*/trait"]
    + [f"name-meaning/*/{field}" for field in ("part", "language", "root", "meaning", "fit", "why")]
    + ["values/*/is", "values/*/*/is", "values/*/alternatives/*/is"],
    r"content/groups": ["name", "singular"],
    r"content/regions": ["name"],
    r"content/glossary": ["*/term", "*/definition"],
    r"content/sources": ["*/title"],
    r"content/traits": [f"*/{f}" for f in ("name", "organ", "kind", "subject", "verb", "definition", "ways", "unit", "one", "many", "states")]
    + ["*/states/*/phrase", "*/states/*/definition"],
    r".*/trail": ["title", "region", "dates", "stops", "stops/*/id", "stops/*/title", "stops/*/taxa"],
}
SOFTER = [
    "It is harmless.", "All of it is edible.", "It is safe to touch.", "The plant is perfectly safe.", "It is non-toxic.", "The leaves can be eaten.",
    "It is not poisonous.", "It is not dangerous.", "Nobody was ever harmed by it, so it is safe.", "It does no harm.", "It is good to eat.",
]  # fmt: skip
ASKING = [
    "Crush a leaf and smell it.", "Pick one and look at it closely.", "Touch the stem with a finger.", "Smell the leaves.", "Cut the stem across.",
    "Feel how rough the stem is.", "Dig up a root.", "Taste a fruit.", "Break off a stalk.",
]  # fmt: skip
ADJECTIVES = {"maculatum": "maculatus", "sylvestris": "sylvestre", "japonica": "japonicum", "crocata": "crocatus", "mantegazzianum": "mantegazziana"}


@dataclass(frozen=True)
class Mutant:
    """One change of one file. `breaks`: the rule it breaks whatever the data; None: the claims decide. `rests`: ways to what
    a problem may be reported at instead of the line changed, because it rests on it."""

    operator: str
    file: str
    edits: tuple[Edit, ...]
    breaks: str | None = None
    rests: tuple[Way, ...] = ()


@dataclass
class Demo:
    """The texts of the true demo and its plain data."""

    texts: dict[str, Text]
    data: dict[str, Any]

    @property
    def species(self) -> list[Text]:
        return [t for f, t in self.texts.items() if f.startswith("content/species/")]

    @property
    def valued(self) -> list[Text]:
        return [t for f, t in self.texts.items() if f.startswith(("content/species/", "content/groups/"))]

    @property
    def traits(self) -> dict[str, Any]:
        traits: dict[str, Any] = self.data["content/traits.yml"]
        return traits

    def values(self) -> Iterator[tuple[Text, Spot, str]]:
        """The scalars in which values are written, with their trait."""
        for text in self.valued:
            for spot in text.spots:
                way = spot.way
                if way[:1] == ("values",) and isinstance(spot.node, yaml.ScalarNode) and (len(way) == 2 or way[-1] == "is"):
                    yield text, spot, str(way[1])

    def names(self, trait: str) -> list[str]:
        return [n for s, d in self.traits[trait].get("states", {}).items() for n in (s, *d.get("also", []))]

    def grounds(self) -> Iterator[tuple[Text, Spot, str, dict[str, str]]]:
        """The grounds of contrasts that are mappings: the text, the spot, the other taxon and the data."""
        for text in self.species:
            for spot in text.spots:
                if len(spot.way) == 4 and spot.way[::2] == ("contrasts", "by") and isinstance(spot.node, yaml.MappingNode):
                    fields = {k.value: v.value for k, v in spot.node.value}
                    yield text, spot, text.by_way[(*spot.way[:2], "from")].text, fields


Operator = Callable[[Demo], Iterator[Mutant]]
OPERATORS: dict[str, Operator] = {}


def operator(make: Operator) -> Operator:
    OPERATORS[make.__name__.replace("_", "-")] = make
    return make


def _put(name: str, text: Text, spot: Spot, new: str, breaks: str | None = None, *rests: Way) -> Mutant:
    return Mutant(name, text.file, (text.put(spot, new),), breaks, rests)


def misspelt(name: str) -> str:
    """A name with one letter doubled."""
    at = max(1, len(name) // 2)
    return name[:at] + ("x" if name[at - 1] == "e" else "e") + name[at:]


def _words(text: str) -> list[str]:
    return re.findall(r"[^\s,;]+", text)


def _replaced(text: str, old: str, new: str) -> str:
    return re.sub(rf"(?<![\w-]){re.escape(old)}(?![\w-])", new, text, count=1)


@operator
def swap_state_to_neighbour(demo: Demo) -> Iterator[Mutant]:
    for text, spot, trait in demo.values():
        value, keys = split_keys(spot.text)
        taxon, names = text.file.split("/")[-1][:-4], set(demo.names(trait))
        pairs = [(t.file.split("/")[-1][:-4], other, g["trait"]) for t, _, other, g in demo.grounds()]
        near = {(b if a == taxon else a) for a, b, by in pairs if by == trait and taxon in (a, b)}
        theirs = {w for t, s, n in demo.values() if n == trait and t.file.split("/")[-1][:-4] in near for w in _words(split_keys(s.text)[0])}
        for old in [w for w in _words(value) if w in names]:
            for new in sorted(theirs & names - {old}):
                yield _put("swap-state-to-neighbour", text, spot, _replaced(value, old, new) + keys)


@operator
def swap_state(demo: Demo) -> Iterator[Mutant]:
    for text, spot, trait in demo.values():
        value, keys = split_keys(spot.text)
        for old in [w for w in _words(value) if w in demo.names(trait)]:
            for new in demo.names(trait):
                if new != old:
                    yield _put("swap-state", text, spot, _replaced(value, old, new) + keys)


@operator
def drop_frequency(demo: Demo) -> Iterator[Mutant]:
    for text, spot, _ in demo.values():
        for word in re.findall(r"\b(?:usually|sometimes|rarely) ", spot.text):
            yield _put("drop-frequency", text, spot, spot.text.replace(word, "", 1))


@operator
def change_frequency(demo: Demo) -> Iterator[Mutant]:
    for text, spot, trait in demo.values():
        value, keys = split_keys(spot.text)
        found = re.findall(r"\b(?:usually|sometimes|rarely|often)\b", value)
        for old in found:
            for new in ("always", "usually", "sometimes", "rarely"):
                if new != old:
                    yield _put("change-frequency", text, spot, _replaced(value, old, new) + keys)
        if not found and "states" in demo.traits[trait]:
            yield from (_put("change-frequency", text, spot, f"{new} {value}{keys}") for new in ("usually", "sometimes", "rarely", "never"))


@operator
def shift_range(demo: Demo) -> Iterator[Mutant]:
    for text, spot, trait in demo.values():
        value, keys = split_keys(spot.text)
        if "states" in demo.traits[trait]:
            continue
        for by in (2, 3, 10):
            yield _put("shift-range", text, spot, re.sub(r"\d+(\.\d+)?", lambda m, by=by: f"{float(m[0]) * by:g}", value) + keys)
        for far in (2, 4, 8, 40):
            yield _put("shift-range", text, spot, re.sub(r"\d+(\.\d+)?", lambda m, far=far: f"{float(m[0]) + far:g}", value) + keys)
        for _, neighbour, its in demo.values():
            if its == trait and (theirs := split_keys(neighbour.text)[0]) != value:
                yield _put("shift-range", text, spot, theirs + keys)


@operator
def misplace_unit(demo: Demo) -> Iterator[Mutant]:
    for text, spot, trait in demo.values():
        value, keys = split_keys(spot.text)
        if unit := demo.traits[trait].get("unit"):
            for new in ("mm", "cm", "m"):
                if new != unit and value.endswith(f" {unit}"):
                    yield _put("misplace-unit", text, spot, value[: -len(unit)] + new + keys)
            for new in ("", " g", " inches"):
                yield _put("misplace-unit", text, spot, value[: -len(unit) - 1] + new + keys, "notation")


@operator
def reverse_range(demo: Demo) -> Iterator[Mutant]:
    for text, spot, trait in demo.values():
        if (m := re.search(r"(?<![\d.(])(\d+)-(\d+)", spot.text)) and "states" not in demo.traits[trait]:
            yield _put("reverse-range", text, spot, f"{spot.text[: m.start()]}{m[2]}-{m[1]}{spot.text[m.end() :]}", "notation")


@operator
def cut_source(demo: Demo) -> Iterator[Mutant]:
    for text, spot, _ in demo.values():
        value, keys = split_keys(spot.text)
        if keys:
            yield _put("cut-source", text, spot, value, "source-missing")
        elif (source := text.by_way.get((*spot.way[:-1], "source"))) and (edit := text.drop(source)):
            yield Mutant("cut-source", text.file, (edit,), "source-missing", (spot.way, spot.way[:-1]))


@operator
def unknown_source(demo: Demo) -> Iterator[Mutant]:
    for text in demo.texts.values():
        for spot in text.spots if text.file.startswith(("content/species", "content/groups", "content/regions")) else ():
            if spot.way[-2:-1] == ("source",):
                yield _put("unknown-source", text, spot, misspelt(spot.text), "id-unknown")
            elif (key := re.search(r"\[([A-Z][\w-]+)", spot.text)) and spot.way[-1] not in ("words", "note", "why"):
                yield _put("unknown-source", text, spot, spot.text.replace(key[1], misspelt(key[1]), 1), "id-unknown")


@operator
def misspell_name(demo: Demo) -> Iterator[Mutant]:
    """A trait, state, part, stage, group, region, stop part or name part that does not exist."""
    for text, spot, trait in demo.values():
        for state in [w for w in _words(split_keys(spot.text)[0]) if w in demo.names(trait)]:
            yield _put("misspell-name", text, spot, _replaced(spot.text, state, misspelt(state)), "id-unknown")
    for text in demo.texts.values():
        for spot in text.spots:
            way, refers = spot.way, spot.way[-1:]
            is_named = refers in (("part",), ("group",), ("region",), ("trait",), ("kind-of",), ("needs",)) or way[-2:-1] == ("this",) or refers == ("other",)
            is_named = is_named or (len(way) == 3 and way[1] == "stages")
            if is_named and isinstance(spot.node, yaml.ScalarNode) and text.file != "content/sources.yml":
                rule = "notation" if refers == ("kind-of",) else "id-unknown"
                yield _put("misspell-name", text, spot, misspelt(spot.text), rule, *([way[:1]] if rule == "notation" else []))
            if spot.key and (way[:-1] in (("values",), ("seasons",)) or way[2:3] == ("words",)):
                yield Mutant("misspell-name", text.file, (text.put_key(spot, misspelt(spot.key.value)),), "id-unknown")


@operator
def misspell_field(demo: Demo) -> Iterator[Mutant]:
    for text in demo.texts.values():
        for spot in text.spots:
            own = len(spot.way) == 1 and text.file.startswith(("content/species", "content/groups", "content/regions")) or "trail.yml" in text.file
            if spot.key and (own or spot.way[-2:-1] == ("hazard",) or (spot.way[:1] == ("name-meaning",)) or spot.way[2:3] == ("by",)) and "words" not in spot.way[:-1]:
                yield Mutant("misspell-field", text.file, (text.put_key(spot, misspelt(spot.key.value)),), "field-unknown")


@operator
def rename_taxon(demo: Demo) -> Iterator[Mutant]:
    taxa = [t.file.split("/")[-1][:-4] for t in demo.species]
    for text in demo.texts.values():
        for spot in text.spots:
            if spot.text in taxa and isinstance(spot.node, yaml.ScalarNode):
                yield _put("rename-taxon", text, spot, misspelt(spot.text), "id-unknown")
                if spot.way[-1] == "from":
                    own = text.file.split("/")[-1][:-4]
                    for other in taxa:
                        if other != spot.text:
                            yield _put("rename-taxon", text, spot, other, "contrast-itself" if other == own else None)


@operator
def move_window(demo: Demo) -> Iterator[Mutant]:
    months = "January February March April May June July August September October November December".split()
    for text in demo.species:
        for spot in text.spots:
            if spot.way[:1] == ("seasons",) and len(spot.way) == 2:
                value, keys = split_keys(spot.text)
                for by in (-5, -3, -2, -1, 1, 2, 3, 5):
                    moved = re.sub("|".join(months), lambda m, by=by: months[(months.index(m[0]) + by) % 12], value)
                    if moved != value:
                        yield _put("move-window", text, spot, moved + keys)


@operator
def impossible_date(demo: Demo) -> Iterator[Mutant]:
    for text in demo.texts.values():
        for spot in text.spots:
            if text.file.endswith("trail.yml") and re.fullmatch(r"\d{4}-\d\d-\d\d", spot.text):
                yield from (_put("impossible-date", text, spot, f"{spot.text[:4]}-{day}", "date-impossible") for day in ("06-31", "02-29", "13-01", "6-7"))
                if spot.way == ("main-date",):
                    yield _put("impossible-date", text, spot, "2026-08-08", "date-impossible")
            if spot.way == ("starts",):
                yield from (_put("impossible-date", text, spot, hour, "date-impossible") for hour in ("25:00", "10:75", "ten"))
            if spot.way[:1] == ("seasons",) and (month := re.search(r"(?<![a-z] )\b(April|June|February|September|November)\b", spot.text)):
                yield _put("impossible-date", text, spot, spot.text.replace(month[1], f"31 {month[1]}", 1), "date-impossible")
                yield _put("impossible-date", text, spot, spot.text.replace(month[1], f"{month[1]}e", 1), "date-impossible")


@operator
def reverse_claims(demo: Demo) -> Iterator[Mutant]:
    for text, spot, _, fields in demo.grounds():
        this, other = (text.by_way.get((*spot.way, side)) for side in ("this", "other"))
        if this and other and "this" in fields:
            yield Mutant("reverse-claims", text.file, (text.put(this, other.text), text.put(other, this.text)))


@operator
def claim_other_state(demo: Demo) -> Iterator[Mutant]:
    for text, spot, _, fields in demo.grounds():
        for side in ("this", "other"):
            if claimed := text.by_way.get((*spot.way, side)):
                for state in demo.traits[fields["trait"]]["states"]:
                    if state != claimed.text:
                        yield _put("claim-other-state", text, claimed, state)


@operator
def claim_other_trait(demo: Demo) -> Iterator[Mutant]:
    for text, spot, _, fields in demo.grounds():
        if not {"this", "other", "part"} & set(fields):
            for trait in demo.traits:
                if trait != fields["trait"]:
                    yield _put("claim-other-trait", text, text.by_way[(*spot.way, "trait")], trait)


@operator
def strengthen_how(demo: Demo) -> Iterator[Mutant]:
    for text, spot, _, fields in demo.grounds():
        if fields.get("how") == "usually":
            how = text.by_way[(*spot.way, "how")]
            yield _put("strengthen-how", text, how, "always")
            if edit := text.drop(how):
                yield Mutant("strengthen-how", text.file, (edit,))


@operator
def harden_words(demo: Demo) -> Iterator[Mutant]:
    hedges = r"\b(?:usually|often|sometimes|rarely|most|many|some|a few|may|can)\b"
    for text, spot, _, fields in demo.grounds():
        if "words" in fields:
            words = text.by_way[(*spot.way, "words")]
            yield _put("harden-words", text, words, re.sub(hedges, "always", words.text))
            yield _put("harden-words", text, words, re.sub(hedges + " ?", "", words.text))


@operator
def remove_care(demo: Demo) -> Iterator[Mutant]:
    for text in demo.species:
        care, hazard = text.by_way.get(("care",)), text.by_way.get(("hazard",))
        harmful = text.by_way[("hazard", "class")].text not in ("none-found", "not-assessed")
        if care and hazard and (edit := text.drop(care)):
            yield Mutant("remove-care", text.file, (edit,), "care-missing" if harmful else None, (("hazard",),))
            for number in range(len(care.node.value)):
                if edit := text.drop(text.by_way[("care", number)]):
                    yield Mutant("remove-care", text.file, (edit,))
                emptied = text.put(text.by_way[("care", number)], '""')
                alone = harmful and len(care.node.value) == 1
                yield Mutant("remove-care", text.file, (emptied,), "care-missing" if alone else None, (("hazard",),) if alone else ())
        if hazard and (edit := text.drop(hazard)):
            yield Mutant("remove-care", text.file, (edit,), "hazard-missing", ((),))


def _said(demo: Demo) -> Iterator[tuple[Text, Spot]]:
    for text in demo.texts.values():
        for spot in text.spots:
            if spot.way in (("hazard", "text"), ("summary",), ("habitat",), ("say",), ("vary",)) or (spot.way[0:1] == ("care",) and len(spot.way) == 2):
                yield text, spot
            elif spot.way[-1:] == ("words",) and isinstance(spot.node, yaml.ScalarNode) or (spot.way[2:3] == ("words",) and len(spot.way) == 4):
                yield text, spot


def _added(name: str, rule: str, demo: Demo, sentences: list[str]) -> Iterator[Mutant]:
    for text, spot in _said(demo):
        value, keys = split_keys(spot.text)
        for said in sentences:
            yield _put(name, text, spot, f"{value} {said}{keys}", rule)


@operator
def soften_hazard(demo: Demo) -> Iterator[Mutant]:
    yield from _added("soften-hazard", "hazard-softened", demo, SOFTER)


@operator
def ask_to_handle(demo: Demo) -> Iterator[Mutant]:
    yield from _added("ask-to-handle", "handling-asked", demo, ASKING)


@operator
def duplicate_key(demo: Demo) -> Iterator[Mutant]:
    for text in demo.texts.values():
        for spot in text.spots:
            if spot.key and isinstance(spot.node, yaml.ScalarNode) and spot.node.style not in ("|", ">") and not text.in_flow(spot):
                yield Mutant("duplicate-key", text.file, (text.below(spot, f"{spot.key.value}: {scalar(spot.text)}"),), "yaml-duplicate-key")


@operator
def drop_field(demo: Demo) -> Iterator[Mutant]:
    for text in demo.texts.values():
        for files, fields in REQUIRED.items():
            for pattern in fields if re.match(files, text.file) else ():
                for spot in text.spots:
                    if re.fullmatch(pattern.replace("*", "[^/]+"), "/".join(map(str, spot.way))) and (edit := text.drop(spot)):
                        yield Mutant("drop-field", text.file, (edit,), "field-missing", (spot.way[:-1],))


@operator
def name_apt(demo: Demo) -> Iterator[Mutant]:
    for text in demo.species:
        values = demo.data[text.file]["values"]
        for spot in text.spots:
            if spot.way[:1] != ("name-meaning",) or spot.way[-1] != "fit":
                continue
            rests = text.by_way.get((*spot.way[:-1], "rests-on"))
            for trait in ("stem-blotches", "stem-hairs", "stem-relief", "fruit-clothing", "petal-colour", "leaf-hairs", "leaf-smell"):
                for state in demo.traits[trait]["states"] if trait in values else ():
                    if rests:
                        yield _put("name-apt", text, rests, f"{trait} = {state}")
                    else:
                        line = text.below(spot, f"rests-on: {trait} = {state}")
                        yield Mutant("name-apt", text.file, (text.put(spot, "apt"), line))


@operator
def break_gender(demo: Demo) -> Iterator[Mutant]:
    for text in demo.species:
        name = text.by_way[("name",)]
        for epithet, wrong in ADJECTIVES.items():
            if f" {epithet} " in name.text:
                parts = [s for s in text.spots if s.way[-1:] == ("part",) and s.text == epithet]
                edits = (text.put(name, name.text.replace(epithet, wrong)), *(text.put(s, wrong) for s in parts))
                yield Mutant("break-gender", text.file, edits, "epithet-gender" if "epithet-gender" in RULES else None)
