"""Written keys of any size, made up, for tests of how keys are laid out and printed."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from tests.making import KNOWN, taxon, workspace

from twayblade.knowledge.library import Region
from twayblade.knowledge.trail import Stop, Trail
from twayblade.knowledge.workspace import PlannedTrail, Workspace
from twayblade.writing.key_words import WrittenCouplet, WrittenKey, WrittenLead, write_key

DAY = date(2026, 6, 7)
HAZARDS = ("deadly", "none-found", "phototoxic", "poisonous", "none-found", "irritant")


def plants(number: int) -> Workspace:
    """So many plants, of which two in three have harm on record."""
    made = []
    for place in range(number):
        class_ = HAZARDS[place % len(HAZARDS)]
        made.append(taxon(f"wort-{place + 1}", {}, hazard={"class": class_, "text": f"What wort {place + 1} does. [memory]"}))
    return workspace({}, *made, regions={"home": Region(name="home", home=True, recorded=(KNOWN,))})


def made_key(plants: Workspace, signs: int = 3, words: int = 8, **trail: object) -> WrittenKey:
    """A key to all the plants, each couplet dividing them in half, with so many signs a couplet of so many words each.

    Every sign says where it stands, as in `Couplet7lead2sign1`, so that it can be found again.
    """
    ids = tuple(plants.taxa)
    stop = Stop(id="gate", title="The gate", taxa=ids)
    planned = PlannedTrail("walk", Trail.model_validate({"title": "Nine Worts", "region": "home", "dates": (DAY,), "stops": (stop,), **trail}), None)
    return replace(write_key(plants, planned, DAY), couplets=_couplets(plants, ids, signs, words))


def _couplets(plants: Workspace, ids: tuple[str, ...], signs: int, words: int) -> tuple[WrittenCouplet, ...]:
    found: dict[int, WrittenCouplet] = {}
    harmful = tuple(id_ for id_ in ids if plants.taxa[id_].hazard_class.is_harmful)

    def divide(taxa: tuple[str, ...], back: tuple[int, ...]) -> int:
        number = len(found) + 1
        found[number] = WrittenCouplet(number, back, (), "")  # holds its place while those under it are numbered
        half = len(taxa) // 2
        leads = []
        for place, side in enumerate((taxa[:half], taxa[half:]), 1):
            ends = len(side) == 1
            names = [f"Couplet{number}lead{place}sign{s}" for s in range(1, signs + 1)]
            first, *more = (" ".join([name, *(f"mark{w}" for w in range(words - 1))]) for name in names)
            against = (f"Not {plants.taxa[side[0]].common_name} if the stem has rings.",) if ends else ()
            to = None if ends else divide(side, (number,))
            leads.append(WrittenLead(first, "mark", to, side, tuple(more), against, ("mark/made",) * len(against), harmful[:3] if ends else ()))
        found[number] = replace(found[number], leads=tuple(leads))
        return number

    if len(ids) > 1:
        divide(ids, ())
    return tuple(found[number] for number in sorted(found))
