"""What stands at the ends of a key: what would contradict the name reached, and which harmful plants remain possible if none fits."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from twayblade.knowledge.numbers import Numbers
from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.profile import HazardClass
from twayblade.knowledge.season import Phase
from twayblade.knowledge.trait import Trait
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.claims import Verdict
from twayblade.reasoning.compare import surely_applies
from twayblade.reasoning.key import Couplet, Key
from twayblade.reasoning.seeing import Bar, handling_forbidden, trait_bars, trait_seen
from twayblade.reasoning.spread import Context, States, contexts, meets, spreads, union
from twayblade.reasoning.wording import speaks_of_lack

_FEW_STATES = 2
"""A contradiction of more states makes a long line (project default)."""


@dataclass(frozen=True)
class Against:
    """What no plant of a taxon shows, whichever source is right, and other plants of the key do, at the least usually.

    states: for a trait with states. above: for numbers, the highest on record; more contradicts the name. asked: whether the key asks
    of the trait on the way. shows: the taxa of the key that the sign is sure of, with the smallest states each may show. The claim
    that the taxon never shows it has the verdict `holds`: lesser and rare values, outer limits and open rests are counted in.
    """

    taxon: str
    trait: str
    at: Context
    states: tuple[str, ...]
    above: str
    asked: bool
    shows: Mapping[str, frozenset[str]]
    verdict: Verdict = Verdict.HOLDS

    @property
    def tells(self) -> tuple[str, ...]:
        """The taxa that it is sure of."""
        return tuple(self.shows)


def remaining_harmful(workspace: Workspace, key: Key) -> dict[tuple[int, int], tuple[str, ...]]:
    """For each last lead (number of couplet, place of lead) the harmful taxa that remain possible there, the deadliest first."""
    worst_first = list(HazardClass)

    def hazard(id_: str) -> HazardClass:
        return workspace.taxa[id_].hazard_class

    return {
        end: tuple(sorted((id_ for id_ in taxa if hazard(id_).is_harmful), key=lambda id_: worst_first.index(hazard(id_))))
        for end, taxa in remaining(key).items()
    }


def remaining(key: Key) -> dict[tuple[int, int], tuple[str, ...]]:
    """For each last lead the taxa on it, and those that one wrong answer on the way would have kept from it."""
    taxa = key.occasion.taxa
    rightly: dict[int, frozenset[str]] = {1: frozenset(taxa)}
    once: dict[int, frozenset[str]] = {1: frozenset(taxa)}
    found: dict[tuple[int, int], tuple[str, ...]] = {}
    for couplet in sorted(key.couplets, key=lambda c: -len(c.among)):
        for place, lead in enumerate(couplet.leads):
            takes = _takes(key, couplet, place)
            right = rightly[couplet.number] & takes
            missed_once = right | rightly[couplet.number] | (once[couplet.number] & takes)
            if lead.to is None:
                found[couplet.number, place] = tuple(id_ for id_ in taxa if id_ in missed_once)
            else:
                rightly[lead.to] = rightly.get(lead.to, frozenset()) | right
                once[lead.to] = once.get(lead.to, frozenset()) | missed_once
    return found


def _takes(key: Key, couplet: Couplet, place: int) -> frozenset[str]:
    """The taxa of the whole key that a right answer may take down a lead, whether they are still possible there or not."""
    on = couplet.question.leads[couplet.signs[0].sides[place]]
    return frozenset(id_ for n, id_ in enumerate(key.occasion.taxa) if on >> n & 1)


def contradictions(workspace: Workspace, key: Key) -> dict[tuple[int, int], tuple[Against, ...]]:
    """For each last lead (number of couplet, place of lead) what would contradict each of its names."""
    asked, possible = _asked_on_the_way(key), remaining(key)
    forbidden = handling_forbidden(workspace, key.occasion)
    known = {id_: everything_against(workspace, key.occasion, workspace.taxa[id_], forbidden) for id_ in key.occasion.taxa}
    found = {}
    for couplet in key.couplets:
        on_the_way = asked[couplet.number] | {sign.question.trait for sign in couplet.signs}
        for place, lead in enumerate(couplet.leads):
            if lead.to is None:
                others = tuple(id_ for id_ in possible[couplet.number, place] if id_ not in lead.taxa)
                chosen = (_surest(workspace, known[id_], on_the_way, others) for id_ in lead.taxa)
                found[couplet.number, place] = tuple(a for a in chosen if a)
    return found


def _asked_on_the_way(key: Key) -> Mapping[int, frozenset[str]]:
    """For each couplet the traits that may have been asked of before."""
    found: dict[int, frozenset[str]] = {c.number: frozenset() for c in key.couplets}
    for couplet in sorted(key.couplets, key=lambda c: -len(c.among)):
        for lead in couplet.leads:
            if lead.to is not None:
                found[lead.to] |= found[couplet.number] | {sign.question.trait for sign in couplet.signs}
    return found


def _surest(workspace: Workspace, found: list[Against], on_the_way: frozenset[str], possible: tuple[str, ...]) -> Against | None:
    """The best contradiction of a name: one that is sure of plants still possible, if need be one asked on the way already; of these
    the one that tells most of them, a harmful one counting twice and a declared look-alike that can kill most of all, in few words, and
    the easiest to see."""

    def order(against: Against) -> tuple[object, ...]:
        trait = workspace.traits[against.trait]
        told = [id_ for id_ in against.tells if id_ in possible]
        worth = sum(worth_of_telling(workspace, against.taxon, id_) for id_ in told)
        sureness = trait.ease.effort + 5 * float(trait.misread)
        return (not told, against.trait in on_the_way, len(against.states) > _FEW_STATES, -worth, sureness, against.trait)

    best = min((_only(workspace, against, possible) for against in found), key=order, default=None)
    return replace(best, asked=best.trait in on_the_way) if best else None


_DEADLY_LOOK_ALIKE = 10
"""What it is worth that a contradiction betrays a declared look-alike that can kill; another harmful plant is worth 2, others 1
(project defaults)."""


def worth_of_telling(workspace: Workspace, taxon: str, other: str) -> int:
    """What it is worth that a contradiction of one name betrays another plant."""
    pair = (workspace.taxa[taxon], workspace.taxa[other])
    declared = any(c.from_ == b.id for a, b in (pair, pair[::-1]) for c in a.profile.contrasts)
    if pair[1].hazard_class is HazardClass.DEADLY and declared:
        return _DEADLY_LOOK_ALIKE
    return 2 if pair[1].hazard_class.is_harmful else 1


def _only(workspace: Workspace, against: Against, possible: tuple[str, ...]) -> Against:
    """A contradiction with those states alone that the plants still possible show whom it tells."""
    trait = workspace.traits[against.trait]
    told = [id_ for id_, atoms in against.shows.items() if id_ in possible]
    shown = frozenset().union(*(against.shows[id_] for id_ in told))
    states = tuple(state for state in against.states if trait.atoms[state] & shown)
    return replace(against, states=states) if states else against


def everything_against(workspace: Workspace, occasion: Occasion, taxon: Taxon, forbidden: bool) -> list[Against]:
    """Everything that would contradict a name, and that other taxa of an occasion show, and that may be looked at then, at each part and
    stage of its organ."""
    found = []
    for id_, value in taxon.values.items():
        trait = workspace.traits[id_]
        if not surely_applies(workspace, taxon, trait, occasion.region) or trait_bars(workspace, trait, (taxon,), occasion, forbidden) - {
            Bar.TOO_FINE
        }:
            continue
        if occasion.on and trait_seen(workspace, taxon, trait, occasion.on, occasion.region) is not Phase.EXPECTED:
            continue
        for at in contexts([value], trait):
            against = _at(workspace, occasion, taxon, trait, id_, at)
            if against:
                found.append(against)
    return found


def _at(workspace: Workspace, occasion: Occasion, taxon: Taxon, trait: Trait, id_: str, at: Context) -> Against | None:
    region = occasion.region
    own = [s.all for s in spreads(workspace, taxon, taxon.values[id_], at, region)]
    if not own:
        return None
    everything = own[0]
    for extent in own[1:]:
        everything = union(everything, extent)
    others = {
        other: [s.all if trait.kind.is_numeric else s.usual for s in spreads(workspace, workspace.taxa[other], v, at, region)]
        for other in occasion.taxa
        if other != taxon.id and (v := workspace.taxa[other].values.get(id_))
    }
    clear = {other: extents for other, extents in others.items() if extents and not any(meets(e, everything) for e in extents)}
    if isinstance(everything, Numbers):
        high = everything.hull().high
        if high is None:
            return None
        above = {
            o: frozenset[str]() for o, extents in clear.items() if all(isinstance(e, Numbers) and _starts_above(e, high, trait) for e in extents)
        }
        return Against(taxon.id, id_, at, (), f"{high.normalize():f}", False, above) if above else None
    atoms = {o: frozenset[str]().union(*(e.atoms for e in extents if isinstance(e, States))) for o, extents in clear.items()}
    met = frozenset[str]().union(*atoms.values())
    free = [s for s in trait.states if trait.atoms[s] & met and not trait.atoms[s] & everything.atoms and not speaks_of_lack(trait.states[s].phrase)]
    states = tuple(s for s in free if not any(trait.atoms[s] < trait.atoms[other] for other in free))
    shown = frozenset[str]().union(*(trait.atoms[s] for s in states))
    shows = {o: a for o, a in atoms.items() if a <= shown}
    return Against(taxon.id, id_, at, states, "", False, shows) if shows else None


def _starts_above(numbers: Numbers, high: Decimal, trait: Trait) -> bool:
    """Whether numbers start above a highest one, by as much at least as a misreading goes."""
    low = numbers.hull().low
    return low is not None and low > high and low - high >= trait.blur
