"""The words of a pocket key: leads, ends, cautions, and what the key covers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from twayblade.knowledge.profile import HazardClass
from twayblade.knowledge.trait import Kind, Trait
from twayblade.knowledge.workspace import PlannedTrail, Workspace
from twayblade.reasoning.key import Asked, Couplet, Key, make_key
from twayblade.reasoning.key_ends import Against, contradictions, remaining_harmful
from twayblade.reasoning.key_report import KeyReport, key_report
from twayblade.reasoning.scope import LeftOut, covered, occasion_of
from twayblade.reasoning.seeing import days_to_look, runs
from twayblade.reasoning.telling import Told, tell_apart
from twayblade.writing.key_ends_words import against_words, report_words
from twayblade.writing.phrases import capital, contrast_sentence, days_words, listed, states_words, subject

CARE = (
    "Look only. Do not pick, crush, cut or taste anything to use this key. "
    "It is not a guide to eating, and no name reached here makes anything fit to eat or to handle."
)
NONE_FITS = "None of these fits? Leave it unnamed, and treat it as harmful."
LACKING = (
    "If your plant lacks the part a couplet asks about (a leafy clump without a stem, a stem without an open flower head, "
    "a fruit not yet formed), stop: leave it unnamed, and treat it as harmful."
)
HARM_MARK = "▲"


@dataclass(frozen=True)
class WrittenLead:
    """A lead in words. `to` is a couplet's number; without it the lead ends in its taxa.

    text: the first sign. more: second and third signs that make the same division, in the same order in every lead of the
    couplet. against: at an end, sentences with what would contradict the name reached; against_claims: their claims,
    `trait/taxon`. possible: at an end, the harmful taxa that remain possible if none fits.
    """

    text: str
    trait: str
    to: int | None
    taxa: tuple[str, ...]
    more: tuple[str, ...] = ()
    against: tuple[str, ...] = ()
    against_claims: tuple[str, ...] = ()
    possible: tuple[str, ...] = ()


@dataclass(frozen=True)
class WrittenCouplet:
    """A couplet in words, with where it is reached from and a note for plants on which it cannot be seen."""

    number: int
    back: tuple[int, ...]
    leads: tuple[WrittenLead, ...]
    note: str


@dataclass(frozen=True)
class Apart:
    """A sentence that tells two taxa apart that share a last lead, and the trait it rests on."""

    text: str
    trait: str
    taxa: tuple[str, str]


@dataclass(frozen=True)
class WrittenKey:
    """A key ready to be printed.

    settles: for taxa that share a last lead, what usually or later tells them apart. also_harmful: harmful plants of the
    region that have no profile and so are not in the key. report: how long and how sure the key is, in sentences.
    """

    planned: PlannedTrail
    on: date
    key: Key
    couplets: tuple[WrittenCouplet, ...]
    leaves_out: tuple[LeftOut, ...]
    settles: dict[tuple[str, ...], tuple[Apart, ...]]
    also_harmful: tuple[str, ...]
    recorded: int
    measures: KeyReport
    report: tuple[str, ...] = ()

    @property
    def covers(self) -> tuple[str, ...]:
        """The taxa the key holds."""
        return self.key.occasion.taxa


def write_key(workspace: Workspace, planned: PlannedTrail, on: date) -> WrittenKey:
    """The key for a trail on a date, in words."""
    held, left = covered(workspace, planned.trail, on)
    key = make_key(workspace, occasion_of(planned.trail, on, taxa=held), planned.trail.key)
    against, possible = contradictions(workspace, key), remaining_harmful(workspace, key)
    couplets = tuple(_couplet(workspace, c, against, possible) for c in key.couplets)
    settles = {group: _settles(workspace, key, group) for group in key.inseparable}
    measures = key_report(workspace, key)
    listed_here = workspace.regions[planned.trail.region].recorded
    return WrittenKey(planned, on, key, couplets, left, settles, also_harmful(left), len(listed_here), measures, report_words(measures))


def also_harmful(left: tuple[LeftOut, ...]) -> tuple[str, ...]:
    """The names of the harmful plants that are recorded and left out for want of a profile, the deadliest first."""
    worst_first = sorted((o.recorded for o in left if o.recorded and o.recorded.hazard.is_harmful), key=lambda r: list(HazardClass).index(r.hazard))
    return tuple(f"{r.common or r.name} ({r.name})" for r in worst_first)


def _couplet(
    workspace: Workspace,
    couplet: Couplet,
    against: Mapping[tuple[int, int], tuple[Against, ...]],
    possible: Mapping[tuple[int, int], tuple[str, ...]],
) -> WrittenCouplet:
    leads = []
    for place, lead in enumerate(couplet.leads):
        first, *more = (sign_text(workspace, couplet, asked, place) for asked in couplet.signs)
        found = against.get((couplet.number, place), ())
        doubts, claims = tuple(against_words(workspace, a) for a in found), tuple(f"{a.trait}/{a.taxon}" for a in found)
        remain = possible.get((couplet.number, place), ())
        leads.append(WrittenLead(first, couplet.question.trait, lead.to, lead.taxa, tuple(more), doubts, claims, remain))
    notes = []
    if couplet.unanswerable:
        names = listed(workspace.taxa[id_].common_name for id_ in couplet.unanswerable)
        notes.append(f"Not every plant shows this now; {names} may not, and stand{'s' if len(couplet.unanswerable) == 1 else ''} on both leads.")
    if couplet.doubtful:
        names = listed(workspace.taxa[id_].common_name for id_ in couplet.doubtful)
        notes.append(f"Ask this only of a plant that shows it; {names} may not now. If yours does not, stop here.")
    return WrittenCouplet(couplet.number, couplet.back, tuple(leads), " ".join(notes))


def sign_text(workspace: Workspace, couplet: Couplet, asked: Asked, place: int) -> str:
    """A sign of a lead in words: the organ first, then its condition; all leads of a couplet are parallel."""
    trait = workspace.traits[asked.question.trait]
    organ = capital(subject(trait, asked.question.at).removeprefix("the ").removeprefix("a ").removeprefix("each "))
    condition = _number_words(trait, couplet, asked, place) if trait.kind.is_numeric else states_words(trait, asked.states[place])
    if trait.verb in ("has", "have"):
        return f"{organ} with {condition}"
    if organ.startswith("What "):
        return f"{organ} {trait.verb} {condition}"
    return f"{organ} {condition}"


def _number_words(trait: Trait, couplet: Couplet, asked: Asked, place: int) -> str:
    spans = [side for side in asked.question.sides if isinstance(side, tuple)]
    low, high = spans[asked.sides[place]]
    if trait.kind is Kind.COUNT:
        if high == 0:
            return f"no {trait.many}"
        if low == 1 and high is None:
            return f"{trait.many}, 1 or more"
        if low is None:
            return f"{high} {trait.many} or fewer"
        return f"{low} {trait.many} or more" if high is None else f"{low} to {high} {trait.many}"
    if low is None:
        return trait.phrase.format(f"{high} {trait.unit}") + " or less"
    across = _on_several(couplet) - set(couplet.unanswerable)
    least = f"more than {max(h for _, h in spans if h is not None and h < low)}" if across else f"{low}"
    if high is not None:
        return trait.phrase.format(f"{least} {trait.unit}") + f", up to {high} {trait.unit}"
    return trait.phrase.format(f"{least} {trait.unit}") + ("" if across else " or more")


def _on_several(couplet: Couplet) -> set[str]:
    """The taxa that stand on more than one lead."""
    return {id_ for id_ in couplet.among if sum(id_ in lead.taxa for lead in couplet.leads) > 1}


def _settles(workspace: Workspace, key: Key, group: tuple[str, ...]) -> tuple[Apart, ...]:
    """What tells taxa apart that share a last lead: usually now, or surely at another time of the year."""
    occasion = key.occasion
    told = tell_apart(workspace, type(occasion)(occasion.on, occasion.means, occasion.region, group)).told
    now = [t for t in told if t.is_usable][:2]
    found = [_apart(workspace, t, occasion.region) for t in now]
    later = [t for t in told if t.verdict.is_good and not t.is_usable and set(t.bars) == {"not-then"}][: 2 - len(found)]
    for t in later:
        taxa = tuple(workspace.taxa[id_] for id_ in (t.difference.first, t.difference.second))
        when = days_words(runs(days_to_look(workspace, taxa, workspace.traits[t.difference.trait], occasion)))
        found.append(_apart(workspace, t, occasion.region, f" To be seen on both {when}."))
    return tuple(found)


def _apart(workspace: Workspace, told: Told, region: str | None, when: str = "") -> Apart:
    d = told.difference
    return Apart(contrast_sentence(workspace, d, region=region) + when, d.trait, (d.first, d.second))


def words_of(workspace: Workspace, written: WrittenKey, signs: int | None = None) -> tuple[tuple[str, str, str], ...]:
    """What the key asks to be looked at: id, name and definition of each trait it uses, in the order of its couplets.

    signs: of so many signs a couplet; of all, if not given.
    """
    traits = dict.fromkeys(asked.question.trait for c in written.key.couplets for asked in c.signs[:signs])
    return tuple((id_, capital(workspace.traits[id_].name), workspace.traits[id_].definition) for id_ in traits)


def coverage_words(written: WrittenKey) -> str:
    """What the key covers out of what is recorded."""
    return covers_words(len(written.covers), written.recorded)


def covers_words(held: int, recorded: int) -> str:
    """How many plants of how many recorded are held."""
    if not recorded:
        return f"Covers {held}. No list of what is recorded in this region is at hand, so others may stand here, harmful ones too."
    return f"Covers {held} of the {recorded} on the list for this region."


def left_out_words(workspace: Workspace, written: WrittenKey) -> str:
    """What the key does not hold: the harmful ones by name, the deadliest first; the others by number."""
    return absent_words(workspace, written.leaves_out, "in this key")


def absent_words(workspace: Workspace, leaves_out: tuple[LeftOut, ...], where: str) -> str:
    """What is left out `in this key` or elsewhere: the harmful ones by name, the deadliest first; the others by number."""
    absent = [workspace.taxa[o.taxon].common_name for o in leaves_out if o.taxon]
    listed_only = [o.recorded.hazard for o in leaves_out if o.recorded]
    unassessed, none_found = listed_only.count(HazardClass.NOT_ASSESSED), listed_only.count(HazardClass.NONE_FOUND)
    pieces = []
    if harmful := also_harmful(leaves_out):
        pieces.append(f"Harmful, recorded in the region, and not {where}: {listed(harmful)}.")
    if absent:
        pieces.append(f"Not to be seen then, or not on this trail: {listed(absent)}.")
    if unassessed or none_found:
        pieces.append(f"Of the others on the list {unassessed} were never assessed and {none_found} had no hazard found; that clears none of them.")
    return " ".join(pieces)
