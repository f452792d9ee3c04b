"""What the page that helps with an unknown plant looks up: the tables of `reasoning.naming` with their words, as one JSON value.

Per taxon there is one digit (base 36) or one place of a list, in the order of `taxa`; per pair of taxa one digit, in that of `naming.pairs`.

| key                        | what it holds                                                                                      |
|----------------------------|----------------------------------------------------------------------------------------------------|
| `margin`, `unsure`, `most` | MARGIN, NOT_SURELY_SHOWN, MOST_DOUBTS                                                              |
| `weights`                  | TELLS_NOTHING, WAS_ASKED, A_PLANT                                                                  |
| `days`                     | sets of days, named elsewhere by place: runs of first and last day on the circle `[120, 200, 350, 10]` |
| `taxa`                     | id, name, scientific name, address, caution in short, caution or harmful look-alikes, and drawings |
|                            | `[address, width, height, words]`                                                                  |
| `always`, `present`        | per taxon: whether it stays whatever the date; the days on which it can be found                   |
| `looks`                    | id, observation (`seen`), what is looked at, question, definition, effort; answers                 |
|                            | `[id, words, sentence, drawing]`; per answer and taxon `against` and `own` (0: does not show it,   |
|                            | 1: does, 2: seldom); `lacking`, `worth`, `shown` and `sure` as in `Look`                           |
| `doubts`                   | per taxon: `[words before, words after, observation, worth, days, rank, claim]` as in `Doubt`      |
| `partings`                 | per pair with a harmful taxon, as `first-second` by places: `[sentence, observation, days, claim]` |
| `pages`                    | per pair that has a page, named likewise: its address                                              |
| `deadliest`                | the places of the harmful taxa, the deadliest first                                                |
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import combinations
from typing import Any

from twayblade.knowledge.numbers import Interval
from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.profile import HazardClass
from twayblade.knowledge.trait import Kind, Trait
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.lookalikes import Pair
from twayblade.reasoning.naming import MARGIN, NOT_SURELY_SHOWN, Answer, Look, Naming
from twayblade.reasoning.naming_ends import A_PLANT, MOST_DOUBTS, TELLS_NOTHING, WAS_ASKED, Doubt, doubts, partings
from twayblade.reasoning.naming_looks import make_naming
from twayblade.reasoning.seeing import runs
from twayblade.reasoning.spread import Context
from twayblade.writing.addresses import pair_address, taxon_address
from twayblade.writing.cautions import cautions, harm_words, mistaken_for
from twayblade.writing.drawings import Drawings, Picture
from twayblade.writing.key_ends_words import against_parts
from twayblade.writing.phrases import contrast_sentence, interval_words, pronoun, sentence, subject

MOST_DRAWN = 3
"""So many drawings stand beside a name (project default)."""

_DIGITS = "0123456789abcdefghijklmnopqrstuvwxyz"


@dataclass(frozen=True)
class WrittenNaming:
    """The tables, as a page looks them up, and what they were made of."""

    naming: Naming
    tables: dict[str, Any]


def write_naming(workspace: Workspace, occasion: Occasion, pairs: tuple[Pair, ...], drawings: Drawings) -> WrittenNaming:
    """The tables for naming one of the taxa of an occasion, on any day."""
    naming = make_naming(workspace, occasion)
    days = _Days()
    own = {frozenset((pair.first, pair.second)) for pair in pairs}
    of_pairs = list(combinations(range(len(naming.taxa)), 2))
    tables = {
        "margin": MARGIN,
        "unsure": NOT_SURELY_SHOWN,
        "most": MOST_DOUBTS,
        "weights": [TELLS_NOTHING, WAS_ASKED, A_PLANT],
        "taxa": [_taxon(workspace, id_, drawings) for id_ in naming.taxa],
        "always": _digits(naming.always >> n & 1 for n in range(len(naming.taxa))),
        "present": [days.place(found) for found in naming.present],
        "looks": [_look(workspace, naming, look, drawings, days) for look in naming.looks],
        "doubts": [[_doubt(workspace, doubt, days) for doubt in found] for found in doubts(workspace, occasion)],
        "partings": {f"{a}-{b}": found for a, b in of_pairs if (found := _partings(workspace, occasion, naming.taxa[a], naming.taxa[b], days))},
        "pages": {
            f"{a}-{b}": pair_address(naming.taxa[a], naming.taxa[b]) for a, b in of_pairs if frozenset((naming.taxa[a], naming.taxa[b])) in own
        },
        "deadliest": _deadliest(workspace, naming),
    }
    return WrittenNaming(naming, {**tables, "days": days.runs})


class _Days:
    """Sets of days, each kept once."""

    def __init__(self) -> None:
        self._places: dict[int, int] = {}

    def place(self, days: int) -> int:
        """The place of a set of days (bits of the circle)."""
        return self._places.setdefault(days, len(self._places))

    @property
    def runs(self) -> list[list[int]]:
        """Each set as runs of first and last day."""
        return [[day for run in runs(days) for day in run] for days in self._places]


def _digits(numbers: Iterable[int]) -> str:
    return "".join(_DIGITS[n] for n in numbers)


def _taxon(workspace: Workspace, id_: str, drawings: Drawings) -> list[Any]:
    taxon = workspace.taxa[id_]
    pictures = [_picture(picture) for picture in drawings.of_taxon(taxon)[:MOST_DRAWN]]
    care = " ".join(cautions(workspace, (id_,)) or mistaken_for(workspace, (id_,)))
    return [id_, taxon.common_name, taxon.scientific_name, taxon_address(id_), harm_words(taxon), care, pictures]


def _picture(picture: Picture) -> list[str]:
    return [picture.address, *picture.size, picture.text]


def _deadliest(workspace: Workspace, naming: Naming) -> list[int]:
    hazards = [workspace.taxa[id_].hazard_class for id_ in naming.taxa]
    return [n for hazard in HazardClass if hazard.is_harmful for n, of_taxon in enumerate(hazards) if of_taxon is hazard]


# -- looks ------------------------------------------------------------------------------------------------------------
def look_id(look: Look) -> str:
    """What an address calls a look: `stem-hairs@lower-stem`."""
    return "@".join(part for part in (look.trait, look.at.part, look.at.stage) if part)


def _look(workspace: Workspace, naming: Naming, look: Look, drawings: Drawings, days: _Days) -> dict[str, Any]:
    trait, taxa = workspace.traits[look.trait], range(len(naming.taxa))
    own = ((1 + (seldom >> n & 1) if mine >> n & 1 else 0 for n in taxa) for mine, seldom in zip(look.own, look.seldom, strict=True))
    return {
        "id": look_id(look),
        "seen": look.observation,
        "what": what_words(trait, look.at),
        "ask": question_words(trait, look.at),
        "help": trait.definition,
        "effort": look.effort,
        "answers": [_answer(trait, look.at, answer, look.trait, drawings) for answer in look.answers],
        "against": [_digits(found) for found in look.against],
        "own": [_digits(found) for found in own],
        "lacking": _digits(look.lacking >> n & 1 for n in taxa),
        "worth": _digits(look.worth),
        "shown": [days.place(found) for found in look.shown],
        "sure": [days.place(found) for found in look.sure],
    }


def what_words(trait: Trait, at: Context) -> str:
    """What is looked at, in the midst of a sentence: `hairs of the stem (the lower stem)`."""
    return f"{trait.name} ({trait.parts[at.part]})" if at.part else trait.name


def question_words(trait: Trait, at: Context) -> str:
    """A question that its answers finish: `Look at the lower stem: it is …`"""
    return f"Look at {subject(trait, at)}: {pronoun(trait)} {trait.verb} …"


def answer_words(trait: Trait, answer: Answer) -> str:
    """An answer, as it follows subject and verb: `deeply furrowed`, `2–6 bracts`, `more than 8 mm long`."""
    if answer.state is not None:
        return trait.states[answer.state].phrase
    low, high = answer.span
    if trait.kind is Kind.MEASURE and low is not None and high is None:
        return trait.phrase.format(f"more than {low.normalize():f} {trait.unit}")
    return interval_words(trait, Interval(low, high))


def _answer(trait: Trait, at: Context, answer: Answer, trait_id: str, drawings: Drawings) -> list[Any]:
    words = answer_words(trait, answer)
    states, span = ((answer.state,), None) if answer.state is not None else ((), answer.span)
    pictures = drawings.of_conditions(trait_id, at.part, states, span)
    return [answer.id, words, sentence(f"{subject(trait, at)} {trait.verb} {words}"), _picture(pictures[0]) if pictures else None]


# -- ends -------------------------------------------------------------------------------------------------------------
def _doubt(workspace: Workspace, doubt: Doubt, days: _Days) -> list[Any]:
    claim = f"{doubt.against.trait}/{doubt.against.taxon}"
    return [*against_parts(workspace, doubt.against), doubt.observation, _digits(doubt.worth), days.place(doubt.days), doubt.rank, claim]


def _partings(workspace: Workspace, occasion: Occasion, first: str, second: str, days: _Days) -> list[list[Any]]:
    if not any(workspace.taxa[id_].hazard_class.is_harmful for id_ in (first, second)):
        return []
    return [
        [
            contrast_sentence(workspace, parting.difference, region=occasion.region),
            parting.observation,
            days.place(parting.days),
            f"{parting.difference.trait}/{first}/{second}",
        ]
        for parting in partings(workspace, occasion, first, second)
    ]
