"""What the page that tells any two or three taxa apart looks up: every pair's table with its words, as one JSON value.

Whatever repeats (sets of days, words) stands once and is named by its place in a list.

| key        | what it holds                                                                                                   |
|------------|-----------------------------------------------------------------------------------------------------------------|
| `taxa`     | by id: id, name, the places known from memory only, the days on which each of the sets of stages is expected,    |
|            | the drawings `[piece, width, height, places]`                                                      |
| `places`   | a trait at a part: id and name of the trait, subject and pronoun, the observation it is, its set of stages      |
| `pieces`   | a piece, the end of its drawings' addresses, its title                                                          |
| `days`     | runs of first and last day on the circle, both included: `[120, 200, 350, 10]`                                  |
| `when`     | the days of the contrasts in words; empty for every day                                                         |
| `pairs`    | `pairs[i][j - i - 1]` for taxa i < j: contrasts `[place, grade, words, words, usable, aided]`, without `aided`  |
|            | where it is the same, and what never to rely on `[place, grade, words, words, why]`                             |
| `pages`    | the pairs that have a page of their own                                                                         |
| `care`     | taxon and caution of each harmful taxon, the deadliest first                                                    |
| `say`      | sentences to fill in, and addresses                                                                             |

A grade is the better the smaller; on a day a row ranks by three times its grade and one for each of its two taxa on which the trait
is not expected then, rows of one rank in their order here. That is the order of `tell_apart`.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator
from typing import Any, Generic, TypeVar

from twayblade.knowledge.season import WHOLE_YEAR
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.compare import Difference
from twayblade.reasoning.depiction import pieces_of
from twayblade.reasoning.lookalikes import Pair
from twayblade.reasoning.seeing import runs, seen_days
from twayblade.reasoning.spread import Context
from twayblade.reasoning.tables import Dated, PairTable
from twayblade.reasoning.telling import MOST_BEST, MOST_TEMPTING, observation, strength, temptation
from twayblade.writing.addresses import drawing_address, pair_address, taxon_address, value_anchor
from twayblade.writing.cautions import cautions_of
from twayblade.writing.drawings import Drawings
from twayblade.writing.phrases import (
    CONTRAST,
    MEMORY_ONLY,
    USELESS,
    USELESS_ALIKE,
    capital,
    contrast_words,
    days_words,
    is_from_memory,
    predicate,
    pronoun,
    subject,
    why_useless,
)

_Kept = TypeVar("_Kept", bound=Hashable)


class _Once(Generic[_Kept]):
    """A list in which everything stands once, in the order in which it was first asked for."""

    def __init__(self) -> None:
        self._found: dict[_Kept, int] = {}

    def place(self, kept: _Kept) -> int:
        """The place of something in the list, to which it is added if need be."""
        return self._found.setdefault(kept, len(self._found))

    def known(self, kept: _Kept) -> bool:
        """Whether it stands in the list."""
        return kept in self._found

    def __iter__(self) -> Iterator[_Kept]:
        return iter(self._found)


class TellTables:
    """Makes the JSON value of a workspace. tables: those of every two taxa. pairs: the look-alikes."""

    def __init__(self, workspace: Workspace, region: str | None, tables: Iterable[PairTable], pairs: tuple[Pair, ...], drawings: Drawings) -> None:
        self.workspace, self.region, self.pairs, self.drawings = workspace, region, pairs, drawings
        self.ids = sorted(workspace.taxa)
        self.tables = tuple(tables)
        self.places: _Once[tuple[str, Context]] = _Once()
        self.stages: _Once[tuple[str, ...]] = _Once()
        self.days: _Once[int] = _Once()
        self.words: _Once[str] = _Once()
        self.why: _Once[str] = _Once()
        self.pieces: _Once[tuple[str, str, str]] = _Once()
        self.grades = {key: n for n, key in enumerate(sorted({strength(workspace, d.difference) for t in self.tables for d in t.contrasts}))}
        self.tempting = {key: n for n, key in enumerate(sorted({temptation(workspace, d) for t in self.tables for d in t.never}))}

    def value(self) -> dict[str, Any]:
        """The whole value. Pairs come first: they ask for what stands in the lists."""
        rows = [[self._pair(t) for t in self.tables if t.first == id_] for id_ in self.ids[:-1]]
        when = ["" if days == WHOLE_YEAR else days_words(runs(days)) for days in self.days]
        places = [self._place(trait, at) for trait, at in self.places]
        taxa = [self._taxon(self.workspace.taxa[id_]) for id_ in self.ids]
        return {
            "taxa": taxa,
            "places": places,
            "pieces": list(self.pieces),
            "days": [[day for run in runs(days) for day in run] for days in self.days],
            "when": when,
            "words": list(self.words),
            "why": list(self.why),
            "pairs": rows,
            "pages": [[self.ids.index(p.first), self.ids.index(p.second)] for p in self.pairs],
            "care": [[self.ids.index(id_), line] for id_, line in cautions_of(self.workspace, tuple(self.ids))],
            "most": {"contrasts": MOST_BEST, "never": MOST_TEMPTING},
            "say": {"contrast": CONTRAST, "useless": USELESS, "alike": USELESS_ALIKE, "memory": MEMORY_ONLY, "and": " and "},
            "address": {
                "taxon": taxon_address("{id}"),
                "value": f"{taxon_address('{id}')}#{value_anchor('{trait}')}",
                "pair": pair_address("{first}", "{second}"),
                "drawing": drawing_address("{id}", "{piece}"),
            },
        }

    def _pair(self, table: PairTable) -> list[list[list[int]]]:
        return [[self._contrast(d) for d in table.contrasts], [self._never(d) for d in table.never]]

    def _contrast(self, dated: Dated) -> list[int]:
        d = dated.difference
        words = contrast_words(self.workspace, d, region=self.region)
        said = (self.words.place(words["own"]), self.words.place(words["others"]))
        days = dict.fromkeys((self.days.place(dated.usable), self.days.place(dated.aided)))
        return [self._asked(d), self.grades[strength(self.workspace, d)], *said, *days]

    def _never(self, difference: Difference) -> list[int]:
        taxa = (self.workspace.taxa[difference.first], self.workspace.taxa[difference.second])
        own, others = (self.words.place(predicate(self.workspace, taxon, difference.trait, difference.at, self.region)) for taxon in taxa)
        grade = self.tempting[temptation(self.workspace, difference)]
        return [self._asked(difference), grade, own, others, self.why.place(why_useless(difference))]

    def _asked(self, difference: Difference) -> int:
        return self.places.place((difference.trait, difference.at))

    def _place(self, trait_id: str, at: Context) -> list[Any]:
        trait = self.workspace.traits[trait_id]
        looked_at = observation(self.workspace, trait_id)
        return [trait_id, capital(trait.name), subject(trait, at), pronoun(trait), looked_at, self.stages.place(trait.stages)]

    def _taxon(self, taxon: Taxon) -> dict[str, Any]:
        known = [n for n, (trait, _) in enumerate(self.places) if trait in taxon.values and is_from_memory(taxon, trait)]
        return {
            "id": taxon.id,
            "name": taxon.common_name,
            "memory": known,
            "expected": [self.days.place(seen_days(self.workspace, taxon, stages, self.region, expected=True)) for stages in self.stages],
            "drawn": self._drawn(taxon),
        }

    def _drawn(self, taxon: Taxon) -> list[list[Any]]:
        """The taxon's drawings, each with the places it shows. A piece of which there are drawings of forms only has one a form."""
        found = []
        for (depiction, form), picture in zip(pieces_of(self.workspace, taxon, self.region), self.drawings.of_taxon(taxon), strict=True):
            shown = [(s.trait, s.at) for s in depiction.shown]
            places = sorted({self.places.place(key) for key in shown if self.places.known(key)})
            if places:
                title = self.workspace.pieces[picture.piece].title
                of_form = (f"{picture.piece}-{form}", f"{title}, {taxon.profile.forms[form].name} form") if form else (picture.piece, title)
                size = (round(float(side)) for side in picture.size)
                found.append([self.pieces.place((picture.piece, *of_form)), *size, places])
        return found
