"""Ways to write the same thing otherwise: nothing said changes, so nothing may be reported."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from decimal import Decimal

import yaml
from tests.measure.copies import Demo, Mutant
from tests.measure.texts import Edit, Text, split_keys

Variation = Callable[[Demo], Iterator[Mutant]]
VARIATIONS: dict[str, Variation] = {}


def variation(make: Variation) -> Variation:
    VARIATIONS[make.__name__.replace("_", "-")] = make
    return make


@variation
def reordered_keys(demo: Demo) -> Iterator[Mutant]:
    for text in demo.texts.values():
        for spot in text.spots:
            if not isinstance(spot.node, yaml.MappingNode) or spot.node.flow_style or spot.way[-1:] == ("states",) or len(spot.node.value) < 2:
                continue
            starts = [text.offset(key.start_mark) for key, _ in spot.node.value]
            column = spot.node.value[0][0].start_mark.column
            if any(text.text[s - column - 1 : s] not in ("\n" + " " * column, "") for s in starts[1:]) or text.text[: starts[0]].endswith("- "):
                continue
            for a, b, c in zip(starts, starts[1:], starts[2:], strict=False):
                first, second = text.text[a:b], text.text[b:c]
                yield Mutant("reordered-keys", text.file, (Edit(a, c, second + first),))


@variation
def equivalent_unit(demo: Demo) -> Iterator[Mutant]:
    for text, spot, _ in demo.values():
        value, keys = split_keys(spot.text)
        for unit, other, by in (("cm", "mm", 10), ("mm", "cm", Decimal("0.1")), ("cm", "m", Decimal("0.01"))):
            if value.endswith(f" {unit}"):
                pieces = re.split(r"(\d+(?:\.\d+)?)", value[: -len(unit)])
                new = "".join(f"{(Decimal(p) * by).normalize():f}" if n % 2 else p for n, p in enumerate(pieces)) + other
                yield Mutant("equivalent-unit", text.file, (text.put(spot, new + keys),))


@variation
def synonym(demo: Demo) -> Iterator[Mutant]:
    for text, spot, trait in demo.values():
        for state, described in demo.traits[trait].get("states", {}).items():
            for other in described.get("also", []):
                value, keys = split_keys(spot.text)
                if re.search(rf"(?<![\w-]){state}(?![\w-])", value):
                    yield Mutant("synonym", text.file, (text.put(spot, re.sub(rf"(?<![\w-]){state}(?![\w-])", other, value) + keys),))
    for text, spot, _, fields in demo.grounds():
        for side in ("this", "other"):
            if claimed := text.by_way.get((*spot.way, side)):
                for other in demo.traits[fields["trait"]].get("states", {}).get(claimed.text, {}).get("also", []):
                    yield Mutant("synonym", text.file, (text.put(claimed, other),))


@variation
def reversed_or(demo: Demo) -> Iterator[Mutant]:
    for text, spot, _ in demo.values():
        value, keys = split_keys(spot.text)
        if m := re.fullmatch(r"((?:usually |sometimes )?)([\w-]+) or ([\w-]+)", value):
            yield Mutant("reversed-or", text.file, (text.put(spot, f"{m[1]}{m[3]} or {m[2]}{keys}"),))
        if len(phrases := value.split(", ")) > 1:
            yield Mutant("reversed-or", text.file, (text.put(spot, ", ".join(reversed(phrases)) + keys),))


@variation
def spelled_otherwise(demo: Demo) -> Iterator[Mutant]:
    """`always` said, dashes long, keys parted by commas, months short."""
    for text, spot, trait in demo.values():
        value, keys = split_keys(spot.text)
        if "states" in demo.traits[trait] and re.fullmatch(r"[\w-]+", value):
            yield Mutant("spelled-otherwise", text.file, (text.put(spot, f"always {value}{keys}"),))
        if "states" not in demo.traits[trait]:
            yield Mutant("spelled-otherwise", text.file, (text.put(spot, value.replace("-", "–") + keys),))
        if keys:
            yield Mutant("spelled-otherwise", text.file, (text.put(spot, value + " " + ", ".join(keys.split())),))
    for text in demo.species:
        for spot in text.spots:
            if spot.way[:1] == ("seasons",) and len(spot.way) == 2:
                yield Mutant("spelled-otherwise", text.file, (text.put(spot, re.sub(r"\b([A-Z][a-z]{2})[a-z]+\b(?![^\[]*\])", r"\1", spot.text)),))


@variation
def quoted(demo: Demo) -> Iterator[Mutant]:
    for text in demo.texts.values():
        for spot in text.spots:
            if isinstance(spot.node, yaml.ScalarNode) and not spot.node.style and spot.node.value and "\n" not in spot.node.value:
                start, end = text.offset(spot.node.start_mark), text.offset(spot.node.end_mark)
                yield Mutant("quoted", text.file, (Edit(start, end, "'" + spot.node.value.replace("'", "''") + "'"),))


@variation
def comment_or_blank(demo: Demo) -> Iterator[Mutant]:
    for text in demo.texts.values():
        for spot in text.spots:
            if spot.key and not text.in_flow(spot):
                line = text.starts[spot.key.start_mark.line]
                yield Mutant("comment-or-blank", text.file, (Edit(line, line, "# a remark: `usually` [and] more\n"),))
                yield Mutant("comment-or-blank", text.file, (Edit(line, line, "\n\n"),))


@variation
def long_form(demo: Demo) -> Iterator[Mutant]:
    for text, spot, _ in demo.values():
        value, keys = split_keys(spot.text)
        if spot.key and len(spot.way) == 2 and keys:
            listed = ", ".join(keys.strip(" []").replace(",", " ").split())
            yield Mutant("long-form", text.file, (_in_place(text, spot.way, f"{{is: '{value}', source: [{listed}]}}"),))


def _in_place(text: Text, way: tuple[str | int, ...], new: str) -> Edit:
    node = text.by_way[way].node
    return Edit(text.offset(node.start_mark), text.offset(node.end_mark), new)


@variation
def line_ends(demo: Demo) -> Iterator[Mutant]:
    for text in demo.texts.values():
        yield Mutant("line-ends", text.file, (Edit(0, len(text.text), text.text.replace("\n", "\r\n")),))
        yield Mutant("line-ends", text.file, (Edit(0, 0, "\ufeff"),))
