"""Rules about content beyond single claims, worked out a second time. Nothing of twayblade is imported."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from tests.measure.conditions import Broken, Said, Set, relation

if TYPE_CHECKING:
    from tests.measure.enumerator import World

HARMLESS = ("none-found", "not-assessed")
TEXTS = ("summary", "synonyms", "life-form", "habitat", "status")
TRAITS = "content/traits.yml"
Unread = set[tuple[str, str]]


def broken_rules(world: World, only: str | None, unread: Unread) -> Iterator[Broken]:
    """What is false of look-alikes, of values beside others, and of traits and states nobody uses. `only`: as for claims."""
    for id_ in world.taxa:
        yield from _cautions(world, id_)
        if only in (None, id_):
            yield from _values(world, id_, unread)
    yield from _inseparable(world, only, unread)
    yield from _unused(world, unread)


# -- look-alikes ---------------------------------------------------------------------------------------------
def _is_harmful(profile: Any) -> bool:
    return ((profile.get("hazard") or {}).get("class") or "not-assessed") not in HARMLESS


def _others(profile: Any) -> list[str]:
    return [contrast["from"] for contrast in profile.get("contrasts") or []]


def _cautions(world: World, id_: str) -> Iterator[Broken]:
    profile, file = world.taxa[id_], f"content/species/{id_}.yml"
    alike = {o for o in _others(profile) if o in world.taxa} | {o for o, p in world.taxa.items() if id_ in _others(p)}
    if not _is_harmful(profile) and not profile.get("care") and any(_is_harmful(world.taxa[o]) for o in alike):
        yield Broken("care-look-alike", file, ("name",))
    for number, other in enumerate(_others(profile) if _is_harmful(profile) else []):
        theirs = world.taxa.get(other)
        if theirs is not None and not _is_harmful(theirs) and id_ not in _others(theirs) and not _names(world, theirs, profile):
            yield Broken("look-alike-one-sided", file, ("contrasts", number, "from"))


def _names(world: World, profile: Any, other: Any) -> bool:
    """Whether a text of a profile names another taxon, by a name that is not part of a longer one."""
    held = [profile.get(key, "") for key in TEXTS] + [(profile.get("hazard") or {}).get("text", ""), *(profile.get("care") or [])]
    held += [form.get("text", "") for form in (profile.get("forms") or {}).values()]
    texts = [" ".join((text if isinstance(text, str) else text["text"]).lower().split()) for text in held]
    every = {name for p in world.taxa.values() for name in _names_of(p)}
    for name in _names_of(other):
        for longer in sorted((n for n in every if n != name and f" {name} " in f" {n} "), key=len, reverse=True):
            texts = [text.replace(longer, "") for text in texts]
        if any(re.search(rf"(?<![a-z-]){re.escape(name)}s?(?![a-z-])", text) for text in texts):
            return True
    return False


def _names_of(profile: Any) -> set[str]:
    listed = [names if isinstance(names, list) else [names] for names in (profile.get("common-names") or {}).values()]
    return {name.lower() for name in (" ".join(profile["name"].split()[:2]), *itertools.chain(*listed))}


# -- values --------------------------------------------------------------------------------------------------
def _values(world: World, id_: str, unread: Unread) -> Iterator[Broken]:
    profile, file = world.taxa[id_], f"content/species/{id_}.yml"
    shared = (world.groups.get(profile.get("group", ""), {}).get("values")) or {}
    for trait, raw in (profile.get("values") or {}).items():
        way = ("values", trait)
        need = world.traits[trait].get("needs", "").partition("=")[0].strip()
        if (id_, trait) in unread:
            continue
        if any(_denies_itself(world, trait, said) for said, _ in world.alternatives(trait, raw)):
            yield Broken("value-against-itself", file, way)
        if not {(id_, need), (profile.get("group"), need)} & unread and not world.needed(id_, trait)[0]:
            yield Broken("value-against-itself", file, way)
        yield from _agreeing(world, id_, trait, raw, file)
        noted = any(isinstance(e, dict) and "note" in e for e in _entries(raw))
        if trait in shared and not noted and (profile.get("group"), trait) not in unread and _apart(world, id_, trait, raw, _entries(shared[trait])):
            yield Broken("value-against-group", file, way)


def _entries(raw: Any) -> list[Any]:
    """All entries of a value, those of disagreements beside each other and undoubted."""
    items = raw if isinstance(raw, list) else [raw]
    sides = [e for item in items for e in (item["alternatives"] if isinstance(item, dict) and "alternatives" in item else [item])]
    return [{k: v for k, v in e.items() if k != "doubted"} if isinstance(e, dict) else e for e in sides]


def _denies_itself(world: World, trait: str, said: list[Said]) -> bool:
    for denial in (s for s in said if s.word == "never"):
        fellows = (s for s in said if s.word != "never" and s.where == denial.where)
        if any(world.atoms(trait, state) <= denial.states for s in fellows for state in s.names):
            return True
    return False


def _apart(world: World, id_: str, trait: str, one: Any, other: Any) -> bool:
    """Whether two values of one taxon share nothing, wherever both say something."""
    grid = world.grid(trait, [one, other])
    pairs = [
        (a, b)
        for at in world.places(trait, [one, other])
        for a, b in itertools.product(*(world.spread(id_, trait, raw, at, grid) for raw in (one, other)))
    ]
    return bool(pairs) and not any(a.all & b.all for a, b in pairs)


def _agreeing(world: World, id_: str, trait: str, raw: Any, file: str) -> Iterator[Broken]:
    """Disagreements of which one side, undoubted as the other, lies wholly inside it."""
    for number, item in enumerate(raw if isinstance(raw, list) else [raw]):
        if not (isinstance(item, dict) and "alternatives" in item):
            continue
        sides = [e for e in item["alternatives"] if not (isinstance(e, dict) and "doubted" in e)]
        if any(_inside(world, id_, trait, a, b) for a, b in itertools.permutations(sides, 2)):
            yield Broken("alternatives-agree", file, ("values", trait, number) if isinstance(raw, list) else ("values", trait))


def _inside(world: World, id_: str, trait: str, inner: Any, outer: Any) -> bool:
    where = [{k: e[k] for k in ("part", "stage", "form", "region") if k in e} if isinstance(e, dict) else {} for e in (inner, outer)]
    if where[0] != where[1]:
        return False
    grid: Set = world.grid(trait, [inner, outer])
    pairs = [
        (a, b)
        for at in world.places(trait, [inner, outer])
        for a, b in itertools.product(*(world.spread(id_, trait, raw, at, grid) for raw in (inner, outer)))
    ]
    return bool(pairs) and all(a.usual <= b.usual and a.all <= b.all for a, b in pairs)


# -- what nothing tells apart --------------------------------------------------------------------------------
def _inseparable(world: World, only: str | None, unread: Unread) -> Iterator[Broken]:
    groups: dict[str, list[str]] = {}
    for id_, profile in sorted(world.taxa.items()):
        if profile.get("group") and profile.get("values"):
            groups.setdefault(profile["group"], []).append(id_)
    for first, second in itertools.chain(*(itertools.combinations(members, 2) for members in groups.values())):
        if only in (None, first, second) and not _separated(world, first, second, unread):
            yield Broken("inseparable", f"content/species/{second}.yml", ("values",))


def _separated(world: World, first: str, second: str, unread: Unread) -> bool:
    for trait in world.traits:
        raws = [world.value(id_, trait) for id_ in (first, second)]
        needs = {trait, world.traits[trait].get("needs", "").partition("=")[0].strip()}
        read = not {(holder, n) for id_ in (first, second) for holder in (id_, world.taxa[id_].get("group")) for n in needs} & unread
        if None in raws or not read or not all(world.needed(id_, trait)[0] for id_ in (first, second)):
            continue
        grid = world.grid(trait, raws)
        for at in world.places(trait, raws):
            if any(relation(a, b) for a, b in itertools.product(*(world.tiers(id_, trait, at, grid) for id_ in (first, second)))):
                return True
    return False


# -- what nobody uses ----------------------------------------------------------------------------------------
def _unused(world: World, unread: Unread) -> Iterator[Broken]:
    """Traits without a value, and states that neither a value, nor a contrast, nor a need names, nor a kind of them."""
    named: dict[str, set[str]] = {}
    for id_, data in [*world.taxa.items(), *world.groups.items()]:
        for trait, raw in (data.get("values") or {}).items():
            own = named.setdefault(trait, set())
            if (id_, trait) in unread:
                own |= world.whole(trait) if "states" in world.traits[trait] else set()
            else:
                own |= {state for said, _ in world.alternatives(trait, raw) for s in said for state in s.names}
        for contrast in data.get("contrasts") or []:
            for ground in (g for g in contrast["by"] if isinstance(g, dict) and "states" in world.traits[g["trait"]]):
                claimed = [o for side in ("this", "other") for o in ([ground[side]] if isinstance(ground.get(side), str) else ground.get(side) or [])]
                named.setdefault(ground["trait"], set()).update(*(world.named(ground["trait"], option) for option in claimed))
    for trait in world.traits.values():
        needed, _, state = (piece.strip() for piece in trait.get("needs", "").partition("="))
        if state:
            named.setdefault(needed, set()).update(world.named(needed, state))
    valued = {trait for data in [*world.taxa.values(), *world.groups.values()] for trait in data.get("values") or {}}
    for trait, data in world.traits.items():
        if trait not in valued:
            yield Broken("trait-unused", TRAITS, (trait,))
            continue
        states = list(data.get("states") or {})
        needed_ = {s for s in states if world.atoms(trait, s) & named.get(trait, set())}
        widest = [s for s in states if "kind-of" not in data["states"][s]]
        needed_ |= set(widest) if len(widest) == 2 else set()
        if data["kind"] == "ordered" and needed_:
            held = [n for n, s in enumerate(states) if s in needed_]
            needed_ |= set(states[held[0] : held[-1]])
        yield from (Broken("state-unused", TRAITS, (trait, "states", s)) for s in states if s not in needed_)
