"""Ways to make a true workspace false at one place. An operator that breaks a stated rule by what it does says which;
for the others the enumerator decides."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

import yaml
from tests.measure.copies import Demo, Mutant
from tests.measure.texts import Spot, Text, Way, renumbered, scalar, split_keys

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
        bears = (text.file, trait) in demo.bearing
        for by in (2, 3, 10) if bears else (4,):
            yield _put("shift-range", text, spot, renumbered(value, times=by) + keys)
        for far in (2, 4, 8, 40) if bears else ():
            yield _put("shift-range", text, spot, renumbered(value, plus=far) + keys)
        for _, neighbour, its in demo.values():
            if bears and its == trait and (theirs := split_keys(neighbour.text)[0]) != value:
                yield _put("shift-range", text, spot, theirs + keys)


@operator
def drop_value(demo: Demo) -> Iterator[Mutant]:
    for text in demo.valued:
        for spot in text.spots:
            if len(spot.way) == 2 and spot.way[0] == "values" and (edit := text.drop(spot)):
                yield Mutant("drop-value", text.file, (edit,))


@operator
def drop_qualifier(demo: Demo) -> Iterator[Mutant]:
    """That a value is complete, or doubted, or of one part only."""
    for text in demo.valued:
        for spot in text.spots:
            if spot.way[:1] == ("values",) and spot.way[-1] in ("complete", "doubted", "part") and (edit := text.drop(spot)):
                yield Mutant("drop-qualifier", text.file, (edit,))


@operator
def add_state(demo: Demo) -> Iterator[Mutant]:
    for text, spot, trait in demo.values():
        value, keys = split_keys(spot.text)
        for state in [n for n in demo.names(trait) if n not in _words(value)]:
            for word in ("rarely", "sometimes"):
                yield _put("add-state", text, spot, f"{value}, {word} {state}{keys}")


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
        if (m := re.search(r"(?<![\d.(])(\d+(?:\.\d+)?)-(\d+(?:\.\d+)?)", spot.text)) and m[1] != m[2] and "states" not in demo.traits[trait]:
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
            is_named = refers in (("part",), ("group",), ("region",), ("trait",), ("kind-of",), ("needs",), ("other",)) or way[-2:-1] == ("this",)
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
            own = text.file.endswith("trail.yml") or (len(spot.way) == 1 and text in (*demo.valued, demo.texts["content/regions/alps.yml"]))
            own = own or spot.way[-2:-1] == ("hazard",) or spot.way[:1] == ("name-meaning",) or spot.way[2:3] == ("by",)
            if spot.key and own and "words" not in spot.way[:-1]:
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
    months = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"]
    for text in demo.species:
        for spot in text.spots:
            if spot.way[:1] == ("seasons",) and len(spot.way) == 2:
                value, keys = split_keys(spot.text)
                for by in (-5, -3, -2, -1, 1, 2, 3, 5):
                    turned = {month: months[(n + by) % 12] for n, month in enumerate(months)}
                    moved = "".join(turned.get(piece, piece) for piece in re.split(r"\b", value))
                    if moved != value:
                        yield _put("move-window", text, spot, moved + keys)


@operator
def impossible_date(demo: Demo) -> Iterator[Mutant]:
    for text in demo.texts.values():
        for spot in text.spots:
            if text.file.endswith("trail.yml") and re.fullmatch(r"\d{4}-\d\d-\d\d", spot.text):
                for day in ("06-31", "02-29", "13-01", "6-7"):
                    yield _put("impossible-date", text, spot, f"{spot.text[:4]}-{day}", "date-impossible")
                if spot.way == ("main-date",):
                    yield _put("impossible-date", text, spot, "2026-08-08", "date-impossible")
            if spot.way == ("starts",):
                yield from (_put("impossible-date", text, spot, hour, "date-impossible") for hour in ("25:00", "10:75", "ten"))
            if spot.way[:1] == ("seasons",) and (month := re.search(r"(?<![a-z] )\b(April|June|February|September|November)\b", spot.text)):
                yield _put("impossible-date", text, spot, spot.text.replace(month[1], f"31 {month[1]}", 1), "date-impossible")
                yield _put("impossible-date", text, spot, spot.text.replace(month[1], f"{month[1]}e", 1), "date-impossible")


@operator
def reverse_claims(demo: Demo) -> Iterator[Mutant]:
    for text, spot, _, _ in demo.grounds():
        this, other = (text.by_way.get((*spot.way, side)) for side in ("this", "other"))
        if this and other and this.text and other.text:
            yield Mutant("reverse-claims", text.file, (text.put(this, other.text), text.put(other, this.text)))


@operator
def claim_other_state(demo: Demo) -> Iterator[Mutant]:
    for text, spot, _, fields in demo.grounds():
        for side in ("this", "other"):
            if claimed := text.by_way.get((*spot.way, side)):
                for state in demo.traits[fields["trait"]].get("states", ()):
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
    """The texts that are spoken or read: of hazard, care, habitat, groups, contrasts and stops."""
    ways = (("hazard", "text"), ("summary",), ("habitat",), ("say",), ("vary",))
    for text in demo.texts.values():
        for spot in text.spots if text in demo.valued or text.file.endswith("trail.yml") else ():
            of_stop = spot.way[2:3] == ("words",) and len(spot.way) == 4
            words = spot.way[-1:] == ("words",) and isinstance(spot.node, yaml.ScalarNode)
            if spot.way in ways or words or of_stop or (spot.way[:1] == ("care",) and len(spot.way) == 2):
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
