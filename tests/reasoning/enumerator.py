"""An independent judge of contrasts: it lists every individual a taxon may show and looks at nothing else.

It imports nothing of twayblade and follows DESIGN section 4 by its own reading. An individual is a condition (a smallest
state, or a number of a small grid) with a tier: usual, lesser or rare. Measures are in mm; a grid of half units from below 0
to above the highest bound decides every question about closed ranges with whole bounds.

Where the design is silent the judge reads as the code does:
- a condition said in two tiers (`usually toothed, rarely fine`) has the better one; `never fine` takes fine out of toothed;
- where nothing but `never` is said, all the rest is usual; if every alternative is doubted, none is;
- what is said of the part goes before what is said of the stage, and both before what is said in general;
- an alternative that says nothing at a place is passed over there; a place where a side says nothing is passed over if
  another place is known; a claim about a part looks at the whole organ where neither value tells the part apart;
- of several places the verdict that comes first applies; a number nobody bounds reaches below 0;
- named states of both sides that share a condition do not spoil a claim. Regions and needed organs are not covered.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from itertools import product

WEIGHTS = {"always": 4, "usually": 3, "sometimes": 2, "often": 2, "rarely": 1, "never": 0}
RELATIONS = ("separate", "usually-separate", "tendency", "overlap", "nested", "same", "unknown", "not-comparable")
GRID_END = 20

Condition = str | Fraction
Written = Sequence[Mapping[str, object]]
"""Entries {is, part, stage, form, complete}; one of them may be {alternatives: [entries, each perhaps doubted]}."""


@dataclass(frozen=True)
class SmallTrait:
    kind: str
    states: tuple[str, ...] = ()
    kind_of: Mapping[str, str] = field(default_factory=dict)
    also: Mapping[str, str] = field(default_factory=dict)

    @cached_property
    def is_numeric(self) -> bool:
        return self.kind in ("count", "measure")

    @cached_property
    def everything(self) -> set[Condition]:
        if not self.is_numeric:
            return set(self.states)
        step = 1 if self.kind == "count" else 2
        return {Fraction(n, step) for n in range(-step, GRID_END * step + 1)}

    def below(self, state: Condition) -> set[Condition]:
        """The state and all its kinds, kinds of kinds included; a number alone."""
        found: set[Condition] = {state}
        while more := {s for s, wide in self.kind_of.items() if wide in found} - found:
            found |= more
        return found

    def named(self, option: str) -> set[str]:
        """The states an option names: one, or a run of the order."""
        if " to " in option and option not in self.states:
            first, last = (self.states.index(self.also.get(name, name)) for name in option.split(" to "))
            return set(self.states[first : last + 1])
        return {self.also.get(option, option)}

    def numbers(self, option: str) -> tuple[set[Condition], set[Condition]]:
        """The grid inside the usual limits, and inside the outer ones."""
        if about := re.fullmatch(r"about (\d+)( mm)?", option):
            return {Fraction(about[1])}, self.everything
        match = re.fullmatch(r"(?:\(([\d.?]+)-\))?(?:to )?([\d.?]*)(-?)([\d.?]*)(?:\(-([\d.?]+)\))?( mm)?", option)
        assert match, option

        def bound(text: str | None) -> Fraction | None:
            return None if text in (None, "", "?") else Fraction(text or 0)

        def between(low: Fraction | None, high: Fraction | None) -> set[Condition]:
            return {n for n in self.everything if isinstance(n, Fraction) and (low is None or n >= low) and (high is None or n <= high)}

        low = None if option.startswith("to ") else bound(match[2])
        high = bound(match[4] if match[3] else match[2])
        return between(low, high), between(bound(match[1]) if match[1] else low, bound(match[5]) if match[5] else high)


@dataclass(frozen=True)
class Said:
    """One phrase of an entry: its word, the states or the grid points it names, and those between its outer limits."""

    weight: int
    names: set[Condition]
    outer: set[Condition]
    part: object
    stage: object
    form: object
    complete: bool


def phrases(entry: Mapping[str, object], trait: SmallTrait) -> list[Said]:
    """What an entry says, the implied other state of two included."""
    pieces = []
    for piece in str(entry["is"]).split(", "):
        word = piece.split(" ")[0]
        options = (piece.split(" ", 1)[1] if word in WEIGHTS else piece).split(" or ")
        pieces.append((word if word in WEIGHTS else None, options))
    beside = any(word not in (None, "never") for word, _ in pieces)
    where = (entry.get("part"), entry.get("stage"), entry.get("form"))
    said = []
    for word, options in pieces:
        weight = WEIGHTS[word] if word else (3 if beside else 4)
        named = [trait.numbers(o) if trait.is_numeric else (trait.named(o), set()) for o in options]
        names, outer = ({c for pair in named for c in pair[n]} for n in (0, 1))
        said.append(Said(weight, names, outer, *where, bool(entry.get("complete"))))
    positive = [s for s in said if s.weight]
    if len(positive) == 1 and positive[0].weight in (1, 2):
        rest = {s for s in trait.states if s not in trait.kind_of} - positive[0].names
        weight = 2 if "often" in [word for word, _ in pieces] else 3
        said.append(Said(weight, rest, set(), *where, complete=True))
    return said


def most_are_known(said: Iterable[Said], forms: Mapping[str, str]) -> bool:
    """Whether plants of no form, of a usual form, or of several forms not all rare are described."""
    weights = [4 if form is None else WEIGHTS[forms[str(form)]] for form in {s.form for s in said}]
    strongest = max(weights, default=0)
    return strongest > 2 or (strongest == 2 and len([w for w in weights if w]) > 1)


def tiers(trait: SmallTrait, said: Sequence[Said], forms: Mapping[str, str]) -> dict[Condition, str]:
    """Each condition individuals may show, with its best tier."""
    groups = {form: [s for s in said if s.form == form] for form in {s.form for s in said} if form is None or forms[str(form)] != "never"}
    frequency = {form: 4 if form is None else WEIGHTS[forms[str(form)]] for form in groups}
    of_forms = {f for form, f in frequency.items() if form is not None}
    found: list[tuple[Condition, float]] = []  # 3 and more usual, 2 sometimes, 1.5 lesser for certain, 1 rare
    for form, group in groups.items():
        words = {s.weight for s in group if s.weight}
        never = {n for s in group if not s.weight for n in s.names}
        for s in (s for s in group if s.weight):
            weight = min(s.weight, frequency[form])
            for name in s.names:
                hidden = {c for n in never - {name} if n in trait.below(name) for c in trait.below(n)}
                found += [(c, weight) for c in trait.below(name) - hidden]
            found += [(c, min(weight, 1.5)) for c in s.outer]
        beside = of_forms if form is None else set()
        if not words or (words | beside == {3} and not any(s.complete for s in group)):
            rest = trait.everything - {c for s in group for name in s.names for c in trait.below(name) if not trait.is_numeric}
            found += [(c, min(frequency[form], 1.5 if words else 3)) for c in rest]
    if of_forms and None not in groups and of_forms <= {3}:
        found += [(c, 1.5) for c in trait.everything]
    least_usual = 3 if any(weight >= 3 for _, weight in found) else 2
    best = dict(sorted(found, key=lambda pair: pair[1]))  # the last of a condition stays: its best
    return {c: "usual" if each >= least_usual else "rare" if each == 1 else "lesser" for c, each in best.items()}


@dataclass(frozen=True)
class Kind:
    """A taxon as one trait describes it."""

    trait: SmallTrait
    written: Written
    forms: Mapping[str, str] = field(default_factory=dict)

    @cached_property
    def alternatives(self) -> list[tuple[list[Said], bool]]:
        """Every way to settle the disagreement, and whether it is doubted."""
        plain = [s for item in self.written if "alternatives" not in item for s in phrases(item, self.trait)]
        sides = [side for item in self.written for side in item.get("alternatives", ())]  # type: ignore[attr-defined]
        return [(plain + phrases(side, self.trait), "doubted" in side) for side in sides] or [(plain, False)]

    def individuals(self, part: object, stage: object) -> list[dict[Condition, str]]:
        """The individuals at a place, once for each alternative that is not doubted; a doubted one counts as rarely."""
        sides = [(self.nearest(said, part, stage), doubted) for said, doubted in self.alternatives]
        if all(doubted for _, doubted in sides):
            sides = [(said, False) for said, _ in sides]
        doubts = {c for said, doubted in sides if doubted for c in tiers(self.trait, said, self.forms)}
        known = [tiers(self.trait, said, self.forms) for said, doubted in sides if not doubted and most_are_known(said, self.forms)]
        return [{**dict.fromkeys(doubts, "rare"), **shown} for shown in known if "usual" in shown.values()]

    @staticmethod
    def nearest(said: list[Said], part: object, stage: object) -> list[Said]:
        chosen = []
        for form in dict.fromkeys(s.form for s in said):
            here = [s for s in said if s.form == form and s.part in (None, part) and s.stage in (None, stage)]
            here = [s for s in here if s.part == part] or here
            chosen += [s for s in here if s.stage == stage] or here
        return chosen


def places(*kinds: Kind) -> list[tuple[object, object]]:
    """The parts and stages at which all say something."""
    said = [s for kind in kinds for alternative, _ in kind.alternatives for s in alternative]
    everywhere = product({s.part for s in said} | {None}, {s.stage for s in said} | {None})
    return [at for at in everywhere if all(any(kind.nearest(said, *at) for said, _ in kind.alternatives) for kind in kinds)]


def relation_of(a: Mapping[Condition, str], b: Mapping[Condition, str]) -> str:
    """The relation of two sets of individuals."""
    a_usual, b_usual = ({c for c, tier in x.items() if tier == "usual"} for x in (a, b))
    a_but_rare, b_but_rare = ({c for c, tier in x.items() if tier != "rare"} for x in (a, b))
    if not a_usual & b_usual:
        unclear = "tendency" if a_usual & b_but_rare and b_usual & a_but_rare else "usually-separate"
        return unclear if set(a) & set(b) else "separate"
    if a_usual == b_usual:
        return "same"
    return "nested" if a_usual <= b_usual or b_usual <= a_usual else "overlap"


def relations(a: Kind | None, b: Kind | None) -> dict[tuple[object, object], tuple[str, bool]]:
    """For each place the weakest relation under all alternatives, and whether it is good under some and bad under others."""
    if a is None or b is None:
        return {(None, None): ("unknown", False)}
    found = {at: [relation_of(x, y) for x, y in product(a.individuals(*at), b.individuals(*at))] for at in places(a, b)}
    known = {at: (max(every, key=RELATIONS.index), len({r in RELATIONS[:2] for r in every}) == 2) for at, every in found.items() if every}
    return known or dict.fromkeys(found, ("unknown", False)) or {(None, None): ("not-comparable", False)}


def looked_at(at: Iterable[tuple[object, object]], part: object) -> list[tuple[object, object]]:
    at = list(at)
    return at if part is None else [p for p in at if p[0] == part] or [p for p in at if p[0] is None]


def claimed_of(trait: SmallTrait, options: Sequence[str]) -> list[set[Condition]]:
    return [trait.numbers(o)[1] if trait.is_numeric else {c for name in trait.named(o) for c in trait.below(name)} for o in options]


def verdict(a: Kind | None, b: Kind | None, part: object = None, this: Sequence[str] = (), other: Sequence[str] = (), how: str = "always") -> str:
    """The truth verdict of the claim that a is told from b, perhaps at a part, perhaps naming the states of either."""
    covered = True
    for kind, options in ((a, this), (b, other)):
        if kind is None or not options:
            continue
        shown = [individuals for at in looked_at(places(kind), part) for individuals in kind.individuals(*at)]
        claimed = claimed_of(kind.trait, options)
        for conditions in claimed if shown else ():
            if not any(conditions <= set(i) if kind.trait.is_numeric else conditions & set(i) for i in shown):
                return "wrong"
        must = [{c for c, tier in i.items() if how == "always" or tier == "usual"} for i in shown]
        covered &= all(conditions <= set().union(*claimed) for conditions in must)
    found = relations(a, b)
    seen = [found[at] for at in looked_at(found, part)] or [("unknown", False)]
    if any(r in ("unknown", "not-comparable") for r, _ in seen):
        return "no-data"
    if any(disputed for _, disputed in seen):
        return "disputed"
    if any(r not in RELATIONS[:2] for r, _ in seen):
        return "does-not-separate"
    usually = any(r == "usually-separate" for r, _ in seen)
    if not covered or (usually and how == "always"):
        return "overstated"
    return "holds-usually" if usually or how == "usually" else "holds"
