"""What a workspace claims and whether that is true, worked out a second time.

Nothing of twayblade is imported. A value is spread out into the single conditions an individual may show (a state, or a
number of a grid fine enough to tell all written bounds apart), and claims are judged on sets of those, as DESIGN
section 4 says. Only claims and rules about content are judged; whether names exist the operators know that misspell them.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any

from tests.measure.conditions import Broken, Said, Set, Tiers, Way, relation, speaks
from tests.measure.days import LENGTHS, YEAR, window
from tests.measure.rules import broken_rules

WORDS = ("always", "usually", "sometimes", "rarely", "never", "often")
HEDGES = {"usually", "mostly", "often", "sometimes", "rarely", "seldom", "most", "many", "few", "some", "may", "might", "can", "hardly"}
POWERS = {"mm": -3, "cm": -2, "m": 0, "µm": -6, "km": 3}
MARK = re.compile(r"\{[^{}|]*\|([^{}|]*)\}")


class World:
    """The plain data of a workspace's files (every scalar a text), and what is false in them."""

    def __init__(self, files: Mapping[str, Any]) -> None:
        self.files = files
        self.traits: dict[str, Any] = files["content/traits.yml"]
        self.taxa = {f[16:-4]: d for f, d in files.items() if f.startswith("content/species/")}
        self.groups = {f[15:-4]: d for f, d in files.items() if f.startswith("content/groups/")}
        self.trails = {f: d for f, d in files.items() if f.endswith("/trail.yml")}
        self.home = next((f[16:-4] for f, d in files.items() if f.startswith("content/regions/") and d.get("home") == "true"), "")

    # -- values: phrases, then conditions --------------------------------------------------------------------
    def atoms(self, trait: str, state: str) -> frozenset[str]:
        """The smallest conditions of a state, by any of its names."""
        states = self.traits[trait]["states"]
        name = next((s for s, d in states.items() if state == s or state in _listed(d.get("also"))), None)
        if name is None:
            raise ValueError(state)
        kinds = [self.atoms(trait, s) for s, d in states.items() if d.get("kind-of") == name]
        return frozenset({name}).union(*kinds)

    def whole(self, trait: str) -> frozenset[str]:
        return frozenset(self.traits[trait]["states"])

    def named(self, trait: str, text: str) -> frozenset[str]:
        """The states of an option by their own names, their kinds left out."""
        if " to " in text:
            return self.option(trait, text)
        return frozenset(s for s, d in self.traits[trait]["states"].items() if text == s or text in _listed(d.get("also")))

    def option(self, trait: str, text: str) -> frozenset[str]:
        """The conditions of `smooth` or `smooth to ridged`."""
        if " to " in text:
            first, last = (min(self.atoms(trait, s.strip())) for s in text.split(" to "))
            order = list(self.traits[trait]["states"])
            if self.traits[trait]["kind"] != "ordered" or order.index(last) < order.index(first):
                raise ValueError(text)
            return frozenset(order[order.index(first) : order.index(last) + 1])
        return self.atoms(trait, text)

    def said(self, trait: str, entry: Any) -> list[Said]:
        """The phrases of one entry. Raises ValueError where it cannot be read or contradicts itself."""
        entry = {"is": entry} if isinstance(entry, str) else entry
        text = re.sub(r"\s*\[[^\]]*\]\s*$", "", " ".join(entry["is"].split()))
        where = {k: entry[k] for k in ("part", "stage", "form", "region") if k in entry}
        complete, numeric = entry.get("complete") in ("true", "yes"), "states" not in self.traits[trait]
        pieces = [(p.split(" ", 1) if p.split(" ")[0] in WORDS else ["", p]) for p in re.split(r"\s*[,;]\s*", text)]
        words, found = {p[0] for p in pieces}, []
        for word, rest in pieces:
            often = word or ("usually" if words - {"", "never"} else "always")
            options = [o.strip() for o in rest.split(" or ")]
            if any(o in WORDS or not o for o in options) or (numeric and often == "never"):
                raise ValueError(text)
            if numeric:
                found += [Said(often, frozenset(), self.bounds(trait, o), where, complete) for o in options]
            else:
                names = frozenset().union(*(self.named(trait, o) for o in options))
                found.append(Said(often, frozenset().union(*(self.option(trait, o) for o in options)), None, where, complete, names))
        return found if numeric else self._rounded_off(trait, found)

    def _rounded_off(self, trait: str, found: list[Said]) -> list[Said]:
        spoken = [s for s in found if s.word != "never"]
        bare = [s for s in spoken if s.word == "always"]
        if (bare and len(spoken) > len(bare)) or any(a.names & b.names for a, b in itertools.combinations(found, 2)):
            raise ValueError("contradiction")
        if len(spoken) == 1 and spoken[0].word in ("sometimes", "rarely", "often"):
            widest = [s for s, d in self.traits[trait]["states"].items() if "kind-of" not in d]
            others = [s for s in widest if s not in spoken[0].names]
            if len(widest) != 2 or len(others) != 1 or not spoken[0].names <= set(widest) or any(s in f.names for f in found for s in others):
                raise ValueError("says nothing of the others")
            word = "sometimes" if spoken[0].word == "often" else "usually"
            found = [*found, Said(word, self.atoms(trait, others[0]), None, spoken[0].where, True)]
        return found

    def bounds(self, trait: str, text: str) -> tuple[Fraction | None, ...]:
        """Low, high, outer low and outer high of a range, in the trait's unit."""
        number = r"\d+(?:\.\d+)?|\?"
        m = re.fullmatch(rf"(?:\(({number})-\))?({number})?(-)?({number})?(?:\(-({number})\))?(?: ?([a-zµ]+))?", text.replace("–", "-"))
        unit, wanted = (m[6] or "") if m else "", self.traits[trait].get("unit", "")
        if not m or not (m[2] or m[4]) or (unit != wanted and not {unit, wanted} <= set(POWERS)) or (m[4] and not m[3]):
            raise ValueError(text)
        scale = Fraction(10) ** (POWERS[unit] - POWERS[wanted]) if unit != wanted else Fraction(1)
        low, high, least, most = (None if b in (None, "?") else Fraction(b) * scale for b in (m[2], m[4] if m[3] else m[2], m[1], m[5]))
        outer = (least if m[1] else low, most if m[5] else high)
        rising = [b for b in (outer[0] if m[1] else None, low, high, outer[1] if m[5] else None) if b is not None]
        count = self.traits[trait]["kind"] == "count"
        if rising != sorted(rising) or (least is not None and least == low) or (most is not None and most == high):
            raise ValueError(text)
        if count and any(b.denominator != 1 for b in rising):
            raise ValueError(text)
        return (low, high, *outer)

    def alternatives(self, trait: str, raw: Any) -> list[tuple[list[Said], bool]]:
        """Every way of settling the disagreements of a value, and whether it is doubted."""
        plain: list[Said] = []
        disputes: list[list[tuple[list[Said], bool]]] = []
        for item in raw if isinstance(raw, list) else [raw]:
            if isinstance(item, dict) and "alternatives" in item:
                disputes.append([(self.said(trait, e), isinstance(e, dict) and "doubted" in e) for e in item["alternatives"]])
            else:
                plain += self.said(trait, item)
        ways = itertools.product(*disputes)
        return [(plain + [s for statements, _ in way for s in statements], any(d for _, d in way)) for way in ways]

    def value(self, taxon: str, trait: str) -> Any | None:
        """A taxon's own value, else its group's."""
        profile = self.taxa[taxon]
        group = self.groups.get(profile.get("group", ""), {})
        return (profile.get("values") or {}).get(trait, (group.get("values") or {}).get(trait))

    def grid(self, trait: str, raws: list[Any]) -> Set:
        """Numbers that tell all bounds of some values apart; for states, the states."""
        if "states" in self.traits[trait]:
            return frozenset(self.whole(trait))
        said = [s for raw in raws if raw is not None for statements, _ in self.alternatives(trait, raw) for s in statements]
        ends = sorted({b for s in said for b in s.bounds or () if b is not None} | {Fraction(0)})
        if self.traits[trait]["kind"] == "count":
            return frozenset(Fraction(n) for n in range(int(ends[-1]) + 3))
        return frozenset([*ends, *((a + b) / 2 for a, b in itertools.pairwise(ends)), ends[-1] + 1])

    def tiers(self, taxon: str, trait: str, at: tuple[str | None, str | None], grid: Set) -> list[Tiers]:
        """What a taxon's value allows at a part and stage, once for each alternative that is not doubted."""
        return self.spread(taxon, trait, self.value(taxon, trait), at, grid)

    def spread(self, taxon: str, trait: str, raw: Any, at: tuple[str | None, str | None], grid: Set) -> list[Tiers]:
        """What some value would allow, were it the taxon's."""
        sides = [(self._here(statements, at), doubted) for statements, doubted in self.alternatives(trait, raw)]
        firm = [s for s, doubted in sides if not doubted] or [s for s, _ in sides]
        doubts = [s for side, doubted in sides if doubted and side not in firm for s in side]
        extra: Set = frozenset().union(*(self._points(s, grid, outer=True) for s in doubts))
        forms = self.taxa[taxon].get("forms") or {}
        return [self._tiers(trait, side, grid, extra, forms) for side in firm if side]

    def _here(self, said: list[Said], at: tuple[str | None, str | None]) -> list[Said]:
        said = [s for s in said if speaks(s, at)]
        said = [s for s in said if s.where.get("region") == self.home] or [s for s in said if "region" not in s.where]
        said = [s for s in said if s.where.get("part") == at[0]] or said
        return [s for s in said if s.where.get("stage") == at[1]] or said

    def _tiers(self, trait: str, said: list[Said], grid: Set, extra: Set, forms: Mapping[str, Any]) -> Tiers:
        tier: dict[str, Set] = {word: frozenset() for word in WORDS}
        outer: Set = frozenset()
        for s in said:
            form = forms.get(s.where.get("form", ""), {}).get("frequency", "always")
            word = max((s.word if s.word != "often" else "sometimes", form), key=WORDS.index)
            never = {n for x in said if x.word == "never" and x.where.get("form") == s.where.get("form") for n in x.names}
            hidden: Set = frozenset().union(*(self.atoms(trait, n) for n in never if any(n in self.atoms(trait, m) - {m} for m in s.names)))
            tier[word] |= self._points(s, grid) - hidden
            beyond = self._points(s, grid, outer=True) - self._points(s, grid)
            if word == "rarely":
                tier[word] |= beyond
            else:
                outer |= beyond
        usual, lesser = tier["always"] | tier["usually"], outer | tier["sometimes"]
        usual = usual or tier["sometimes"]
        words = {s.word for s in said} - {"never"}
        if not any(s.complete for s in said) and not words - {"usually"}:
            named: Set = frozenset().union(*(s.states for s in said))
            lesser |= grid - named
        return Tiers(usual or lesser or tier["rarely"], lesser, tier["rarely"] | extra)

    def _points(self, said: Said, grid: Set, outer: bool = False) -> Set:
        if said.bounds is None:
            return frozenset(said.states)
        low, high = said.bounds[2:] if outer else said.bounds[:2]
        return frozenset(p for p in grid if isinstance(p, Fraction) and (low is None or low <= p) and (high is None or p <= high))

    def places(self, trait: str, raws: list[Any]) -> list[tuple[str | None, str | None]]:
        """The parts and stages at which all the values say something."""
        said = [[s for statements, _ in self.alternatives(trait, raw) for s in statements] for raw in raws]
        parts, stages = ([None, *sorted({s.where[k] for v in said for s in v if k in s.where})] for k in ("part", "stage"))
        return [at for at in itertools.product(parts, stages) if all(any(speaks(s, at) for s in value) for value in said)]

    def needed(self, taxon: str, trait: str) -> tuple[bool, bool]:
        """Whether a trait can apply to a taxon, and whether some plants are on record without what it needs."""
        need, _, state = (p.strip() for p in self.traits[trait].get("needs", "").partition("="))
        raw = self.value(taxon, need) if need else None
        if raw is None:
            return True, False
        grid = self.grid(need, [raw])
        wanted: Set = frozenset(self.atoms(need, state)) if state else grid - {Fraction(0)}
        allowed = [t.all for at in self.places(need, [raw]) for t in self.tiers(taxon, need, at, grid)]
        return any(a & wanted for a in allowed), not allowed or not all(a <= wanted for a in allowed)

    # -- claims ----------------------------------------------------------------------------------------------
    def verdict(self, taxon: str, other: str, ground: Any) -> str:
        """The verdict of one ground of a contrast: `holds`, `holds-usually` or what is wrong with it."""
        ground = {"trait": ground} if isinstance(ground, str) else ground
        trait, part, how = ground["trait"], ground.get("part"), ground.get("how", "always")
        raws = [self.value(taxon, trait), self.value(other, trait)]
        needs = [self.needed(t, trait) for t in (taxon, other)]
        sides = list(zip((taxon, other), raws, (_listed(ground.get("this")), _listed(ground.get("other"))), strict=True))
        claims = [(t, [frozenset(self.option(trait, o)) for o in claimed], raw) for t, raw, claimed in sides if claimed and raw is not None]
        grid = self.grid(trait, raws)
        own = {t: _of_part(part, self.places(trait, [raw])) for t, _, raw in claims}
        shown = {t: [x for at in places for x in self.tiers(t, trait, at, grid)] for t, places in own.items()}
        if any(not any(o & x.all for x in shown[t]) for t, options, _ in claims for o in options if shown[t]):
            return "wrong"
        if None in raws or not all(can for can, _ in needs):
            return "no-data"
        places = _of_part(part, self.places(trait, raws))
        found = [self._told(taxon, other, trait, at, grid) for at in places]
        verdict = min(found or ["no-data"], key=("no-data", "disputed", "does-not-separate", "holds-usually", "holds").index)
        if verdict == "holds" and any(lacks for _, lacks in needs):
            verdict = "holds-usually"
        if not verdict.startswith("holds"):
            return verdict
        if how == "always" and verdict == "holds-usually":
            return "overstated"
        for t, options, _ in claims:
            if any(not (x.usual if how == "usually" else x.all) <= frozenset().union(*options) for x in shown[t]):
                return "overstated"
        return "holds-usually" if how == "usually" else verdict

    def _told(self, taxon: str, other: str, trait: str, at: tuple[str | None, str | None], grid: Set) -> str:
        pairs = list(itertools.product(self.tiers(taxon, trait, at, grid), self.tiers(other, trait, at, grid)))
        ranks = [relation(a, b) for a, b in pairs]
        if not ranks:
            return "no-data"
        if 0 in ranks and any(ranks):
            return "disputed"
        return ("does-not-separate", "holds-usually", "holds")[min(ranks)]

    def broken(self, only: str | None = None) -> Iterator[Broken]:
        """Every claim that does not hold, every value that cannot be read, every broken rule on seasons and names.

        `only`: judge what has to do with one taxon, the rest being known to be true.
        """
        unread: set[tuple[str, str]] = set()
        for id_, profile in [*self.taxa.items(), *self.groups.items()]:
            if only not in (None, id_):
                continue
            file = f"content/{'species' if id_ in self.taxa else 'groups'}/{id_}.yml"
            for trait, raw in (profile.get("values") or {}).items():
                try:
                    self.alternatives(trait, raw)
                except ValueError:
                    unread.add((id_, trait))
                    yield Broken("notation", file, ("values", trait))
        for id_, profile in self.taxa.items():
            file = f"content/species/{id_}.yml"
            yield from self._contrasts(file, id_, profile, unread, only)
            if only not in (None, id_):
                continue
            yield from self._names(file, id_, profile, unread)
            yield from self._seasons(file, profile)
        yield from broken_rules(self, only, unread)
        yield from self._stops()
        for file, data in self.files.items():
            for way, text in _texts(data, ()) if file != "content/traits.yml" else ():
                yield from (Broken("claim-refused", file, way) for claim in MARK.findall(text) if not self._stated(claim, unread))

    def _stated(self, claim: str, unread: set[tuple[str, str]]) -> bool:
        """Whether a marked claim holds that one taxon, or all of a group, are in some state. Other claims are not judged here."""
        m = re.fullmatch(r"(?:all )?([\w-]+) (?:is|are) ([\w-]+) = (.+?)(, usually)?", " ".join(claim.split()))
        if not m:
            return True
        taxa = [t for t, p in self.taxa.items() if p.get("group") == m[1]] if m[1] in self.groups else [m[1]]
        return all({(t, m[2]), (self.taxa[t].get("group"), m[2])} & unread or self._is(t, m[2], m[3], bool(m[4])) for t in taxa)

    def _is(self, taxon: str, trait: str, states: str, usually: bool) -> bool:
        raw = self.value(taxon, trait)
        if raw is None:
            return False
        grid = self.grid(trait, [raw, states])
        claimed: Set = frozenset().union(*(self._points(s, grid) for s in self.said(trait, states)))
        places = [at for at in self.places(trait, [raw]) if at[0] is None] or self.places(trait, [raw])
        return all((t.usual if usually else t.all) <= claimed for at in places for t in self.tiers(taxon, trait, at, grid))

    def _contrasts(self, file: str, id_: str, profile: Any, unread: set[tuple[str, str]], only: str | None) -> Iterator[Broken]:
        for number, contrast in enumerate(profile.get("contrasts") or []):
            if only not in (None, id_, contrast["from"]):
                continue
            found = []
            for ground in contrast["by"]:
                trait = ground if isinstance(ground, str) else ground["trait"]
                read = not {(t, n) for t in (id_, contrast["from"]) for n in (trait, self.traits[trait].get("needs", "").split(" ")[0])} & unread
                found.append(self.verdict(id_, contrast["from"], ground) if read else "holds")
            for place, (ground, verdict) in enumerate(zip(contrast["by"], found, strict=True)):
                way: Way = ("contrasts", number, "by", place)
                if contrast.get("together") == "true" and "wrong" not in found and any(v.startswith("holds") for v in found):
                    continue
                if not verdict.startswith("holds"):
                    yield Broken(f"contrast-{verdict}", file, way)
                words = ground.get("words", "").lower() if isinstance(ground, dict) else ""
                spoken = set(re.findall(r"[a-z]+", words.replace("as a rule", "usually")))
                if words and verdict == "holds-usually" and (not spoken & HEDGES or spoken & {"always", "every", "invariably"}):
                    yield Broken("contrast-words", file, way)

    def _names(self, file: str, id_: str, profile: Any, unread: set[tuple[str, str]]) -> Iterator[Broken]:
        for number, part in enumerate(profile.get("name-meaning") or []):
            if part.get("fit") != "apt" or "rests-on" not in part:
                continue
            trait, _, state = (p.strip() for p in part["rests-on"].partition("="))
            raw = self.value(id_, trait)
            if (id_, trait) in unread or "states" not in self.traits[trait]:
                continue
            grid, wanted = self.grid(trait, [raw]), frozenset(self.atoms(trait, state))
            places = self.places(trait, [raw]) if raw is not None else []
            if not any(t.usual & wanted for at in places for t in self.tiers(id_, trait, at, grid)):
                yield Broken("name-claim", file, ("name-meaning", number))

    # -- seasons ---------------------------------------------------------------------------------------------
    def windows(self, profile: Any, stage: str) -> list[tuple[str, tuple[int, ...]]]:
        """Region and (outer start, start, end, outer end) of a stage's windows."""
        pieces = (profile.get("seasons") or {}).get(stage, "").split(";")
        made = []
        for piece in pieces if pieces != [""] else []:
            when, _, region = re.sub(r"\s*\[[^\]]*\]\s*$", "", piece.strip()).partition(" in ")
            made.append((region.strip() or self.home, window(when)))
        return made

    def _seasons(self, file: str, profile: Any) -> Iterator[Broken]:
        read = {}
        for stage in profile.get("seasons") or {}:
            try:
                read[stage] = self.windows(profile, stage)
            except ValueError:
                yield Broken("date-impossible", file, ("seasons", stage))
        for stage in ("young-fruit", "ripe-fruit"):
            for (here, fruit), (there, flower) in itertools.product(read.get(stage, []), read.get("flower", [])):
                whole = any((w[2] - w[1]) % YEAR == YEAR - 1 for w in (fruit, flower))
                if here == there and not whole and 0 < (flower[1] - fruit[1]) % YEAR < YEAR // 2:
                    yield Broken("season-order", file, ("seasons", stage))

    def _stops(self) -> Iterator[Broken]:
        for file, trail in self.trails.items():
            for (n, on), stop in itertools.product(enumerate(trail["dates"]), trail["stops"]):
                month, day = int(on[5:7]), int(on[8:10])
                today = sum(LENGTHS[: month - 1]) + day - 1
                if not any(self._stands(self.taxa[t], today, trail["region"]) for t in stop["taxa"]):
                    yield Broken("stop-empty", file, ("dates", n))

    def _stands(self, profile: Any, today: int, region: str) -> bool:
        for stage in profile.get("seasons") or {}:
            try:
                windows = self.windows(profile, stage)
            except ValueError:
                return True
            here = [w for r, w in windows if r == region] or [w for r, w in windows if r == self.home]
            if any((today - w[0]) % YEAR <= (w[3] - w[0]) % YEAR for w in here):
                return True
        return not profile.get("seasons")


def _texts(data: Any, way: Way) -> Iterator[tuple[Way, str]]:
    if isinstance(data, str):
        yield way, data
    for step, item in data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ():
        yield from _texts(item, (*way, step))


def _listed(raw: Any) -> list[str]:
    return [] if raw is None else raw if isinstance(raw, list) else [raw]


def _of_part(part: str | None, places: list[tuple[str | None, str | None]]) -> list[tuple[str | None, str | None]]:
    """Where a claim about a part looks: at the part if it is told apart, else at the whole organ."""
    return places if part is None else [at for at in places if at[0] == part] or [at for at in places if at[0] is None]
