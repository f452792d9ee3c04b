"""How surely beginners name an unknown plant on the page for it, beside the pocket key: `python tests/measure/naming.py`.

Each taxon of the demonstration's key is met equally often on each of the trail's dates. A simulated beginner shows a plant that is usual for
its taxon four times in five, else anything it may be; misreads each trait as often as the trait says, and then chooses one of the other answers
shown; and cannot tell where the plant does not show the trait on the day. The readers of the key are those of `reasoning/keys/measures.py`:
they misread every sign as often, read up to three at a couplet, and look again where two disagree. All is drawn from one seed. The figures
compare the two; they promise nothing of a reader, for no measurements of readers are behind them.

`named`: the right plant is among the names at the end. `told`: among the names, or among what is told as possible beside them; the key's
is that of `remaining`, which one wrong answer would have kept from the lead. `harm missed`: of harmful plants, neither.
"""

from __future__ import annotations

import random
import sys
from dataclasses import dataclass
from datetime import date
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path[:0] = [str(ROOT), str(ROOT / "generator")]

from twayblade.knowledge.season import day_of  # noqa: E402
from twayblade.knowledge.workspace import PlannedTrail, Workspace  # noqa: E402
from twayblade.reading.workspace import load  # noqa: E402
from twayblade.reasoning.key import Key, make_key  # noqa: E402
from twayblade.reasoning.key_ends import remaining  # noqa: E402
from twayblade.reasoning.keys.reader import followed  # noqa: E402
from twayblade.reasoning.naming import NONE_OF_THESE, UNSURE, Naming, answers_to_show, names, next_look, standing  # noqa: E402
from twayblade.reasoning.naming_looks import make_naming  # noqa: E402
from twayblade.reasoning.scope import covered, occasion_of  # noqa: E402

SEED = 20260607
WALKS = 40
UNUSUAL = 0.2
HEADINGS = ("date", "way", "named", "told", "harm named", "harm missed", "looks", "names")


@dataclass
class Tally:
    """What became of some readers."""

    walks: int = 0
    named: int = 0
    told: int = 0
    harmful: int = 0
    harm_named: int = 0
    harm_told: int = 0
    looks: int = 0
    names: int = 0

    def add(self, named: bool, told: bool, harmful: bool, looks: int, names: int) -> None:
        """One reader more."""
        self.walks += 1
        self.named += named
        self.told += named or told
        self.harmful += harmful
        self.harm_named += harmful and named
        self.harm_told += harmful and (named or told)
        self.looks += looks
        self.names += names

    def join(self, other: Tally) -> None:
        """All readers of another."""
        for field in vars(self):
            setattr(self, field, getattr(self, field) + getattr(other, field))

    def cells(self) -> tuple[str, ...]:
        """The columns as text."""
        shares = (self.named / self.walks, self.told / self.walks, self.harm_named / self.harmful, 1 - self.harm_told / self.harmful)
        return (*(f"{share:.1%}" for share in shares), f"{self.looks / self.walks:.1f}", f"{self.names / self.walks:.2f}")


def one_by_one(made: Workspace, naming: Naming, on: date, chance: random.Random) -> Tally:
    """Readers of the page."""
    tally, day = Tally(), day_of(on)
    for place, id_ in enumerate(naming.taxa):
        for _ in range(WALKS):
            given: dict[int, int] = {}
            while (at := next_look(naming, given, day)) is not None:
                given[at] = _answer(made, naming, at, place, given, day, chance)
            now = standing(naming, given, day)
            named = names(naming, now)
            tally.add(place in named, bool(now.possible >> place & 1), made.taxa[id_].hazard_class.is_harmful, len(given), len(named))
    return tally


def _answer(made: Workspace, naming: Naming, at: int, place: int, given: dict[int, int], day: int, chance: random.Random) -> int:
    look = naming.looks[at]
    shown = answers_to_show(naming, at, standing(naming, given, day))
    may = [n for n, own in enumerate(look.own) if own >> place & 1]
    if not look.shown[place] >> day & 1 or not may:
        return UNSURE
    usual = [n for n in may if not look.seldom[n] >> place & 1]
    seen = chance.choice(usual if usual and chance.random() >= UNUSUAL else may)
    if chance.random() < made.traits[look.trait].misread:
        seen = chance.choice([n for n in shown if n != seen] or [seen])
    return seen if seen in shown else NONE_OF_THESE


def by_key(made: Workspace, key: Key, chance: random.Random) -> Tally:
    """Readers of the key, of whom each look at a sign counts."""
    tally, told = Tally(), remaining(key)
    for place, id_ in enumerate(key.occasion.taxa):
        for _ in range(WALKS):
            end, (couplet, lead), looks = _walk(made, key, place, chance)
            tally.add(bool(end >> place & 1), id_ in told[couplet, lead], made.taxa[id_].hazard_class.is_harmful, looks, end.bit_count())
    return tally


def _walk(made: Workspace, key: Key, place: int, chance: random.Random) -> tuple[int, tuple[int, int], int]:
    """Where a reader arrives: the taxa there, the couplet with the place of the lead, and how many signs were looked at."""
    number, looks = 1, 0
    taxa = key.occasion.taxa
    while True:
        couplet = key.numbered[number]
        own = [n for n, lead in enumerate(couplet.leads) if taxa[place] in lead.taxa]
        every = range(len(couplet.leads))
        taken = chance.choice(own or list(every))
        rates = [float(made.traits[asked.question.trait].misread) for asked in couplet.signs]
        looks += len(rates)
        if own and len(own) < len(couplet.leads):
            reads = tuple(chance.random() < rate for rate in rates)
            if followed(reads, chance.random() < rates[0]):
                taken = chance.choice([n for n in every if n != taken])
        lead = couplet.leads[taken]
        if lead.to is None:
            return sum(1 << taxa.index(id_) for id_ in lead.taxa), (number, taken), looks
        number = lead.to


def measured(made: Workspace, planned: PlannedTrail) -> tuple[Tally, Tally]:
    """Both ways over all dates of a trail, each date printed."""
    totals = Tally(), Tally()
    for on in planned.trail.dates:
        held, _ = covered(made, planned.trail, on)
        occasion = occasion_of(planned.trail, on, taxa=held)
        tallies = (
            one_by_one(made, make_naming(made, occasion), on, random.Random(SEED)),
            by_key(made, make_key(made, occasion, planned.trail.key), random.Random(SEED)),
        )
        for way, tally, total in zip(("one by one", "key"), tallies, totals, strict=True):
            _print(str(on), way, *tally.cells())
            total.join(tally)
    return totals


def _print(*cells: str) -> None:
    print("  ".join(text.ljust(width) for text, width in zip(cells, (10, 10, 7, 7, 10, 11, 5, 5), strict=True)), flush=True)


def main() -> None:
    """Print the table."""
    made = load(ROOT).workspace
    assert made
    _print(*HEADINGS)
    for planned in made.trails.values():
        page, key = measured(made, planned)
        _print("all dates", "one by one", *page.cells())
        _print("all dates", "key", *key.cells())
        (named, told, _, missed, looks, _), (key_named, key_told, _, key_missed, key_looks, _) = page.cells(), key.cells()
        print(f"named {named}, told {told}, harm missed {missed}, looks {looks}; key {key_named}, {key_told}, {key_missed}, {key_looks}")


if __name__ == "__main__":
    main()
