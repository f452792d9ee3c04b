"""The true demo as texts and data, and what a change of one of its files is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import yaml
from tests.measure.texts import Edit, Spot, Text, Way


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

    @cached_property
    def bearing(self) -> set[tuple[str, str]]:
        """The files and traits of values on which a declared contrast rests."""
        found = set()
        for text, _, other, fields in self.grounds():
            found |= {(text.file, fields["trait"]), (f"content/species/{other}.yml", fields["trait"])}
        return found

    def names(self, trait: str) -> list[str]:
        return [n for s, d in self.traits[trait].get("states", {}).items() for n in (s, *d.get("also", []))]

    def grounds(self) -> Iterator[tuple[Text, Spot, str, dict[str, str]]]:
        """The grounds of contrasts that are mappings: the text, the spot, the other taxon and the data."""
        for text in self.species:
            for spot in text.spots:
                if len(spot.way) == 4 and spot.way[::2] == ("contrasts", "by") and isinstance(spot.node, yaml.MappingNode):
                    fields = {k.value: v.value for k, v in spot.node.value}
                    yield text, spot, text.by_way[(*spot.way[:2], "from")].text, fields
