"""Recce sheets as text for the terminal: what is to be asked, and what came back."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from twayblade.knowledge.observation import ASPECTS, Noted, StopSeen, TraitSeen
from twayblade.knowledge.text import MEMORY
from twayblade.knowledge.trail import Case
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.recce import Findings, Fit, Judgement, PlantWay, StopWay, Why
from twayblade.reasoning.shift import ENOUGH, MOST_DAYS, Shifts, YearShift, in_order
from twayblade.writing.phrases import date_words, listed, sentence
from twayblade.writing.recce_words import CARE, DEFERS, NO_PLACES, Question, WrittenSheet
from twayblade.writing.stages import STAGE_WORDS
from twayblade.writing.terminal import wrapped

TURNED_OUT = {
    Case.AS_HOPED: "as hoped",
    Case.PAST: "past it",
    Case.NOT_FOUND: "not found",
    Case.WET: "wet or windy",
    None: "left open",
}
NOT_APPLIED = "Nothing is shifted by this: every script, key and page goes by the windows on record."


def sheet_text(written: WrittenSheet) -> str:
    """The questions of a sheet, stop by stop."""
    trail = written.sheet.trail.trail
    lines = [written.heading, *([wrapped(trail.invented, "")] if trail.invented else [])]
    lines += [wrapped(words, "") for words in (CARE, DEFERS, NO_PLACES)]
    for stop in written.stops:
        lines += ["", f"Stop {stop.asked.number}  {stop.asked.stop.title}"]
        if where := f"{stop.asked.stop.place} {stop.asked.stop.access}".strip():
            lines.append(wrapped(where))
        for line in stop.cautions:
            lines.append(wrapped(f"Take care. {line}"))
        for plant in stop.plants:
            lines.append(wrapped(f"{plant.taxon.common_name}: found?{' In which stage?' if plant.stages.choices else ''} {plant.hoped}".rstrip()))
            lines += [wrapped(_question(question), "        ", "      ") for question in plant.traits]
    lines += ["", "Of every stop"]
    lines += [wrapped(_question(question), "      ", "    ") for questions in written.stops[0].topics.values() for question in questions]
    return "\n".join(lines)


def _question(question: Question) -> str:
    answers = question.answers
    unit = f", in {answers.unit}" if answers.unit else ""
    return f"{question.name}: {listed((printed for _, printed in answers.choices), 'or') if answers.choices else answers.free + unit}"


def findings_text(workspace: Workspace, found: Findings) -> str:
    """What a visit says for the walk of a date."""
    days = listed(map(date_words, found.recce.days)) or "a day that is not given"
    blocks = [wrapped(f"Recce of {found.trail.trail.title} on {days}, for the walk of {date_words(found.on)} ({found.recce.file})", "")]
    blocks += [wrapped(found.trail.trail.invented, "")] if found.trail.trail.invented else []
    blocks.append("\n".join(["Which way each stop goes", *_ways(workspace, found)]))
    if cases := [f"--case {way.stop}={way.case}" for way in found.stops if way.case not in (None, Case.AS_HOPED)]:
        by_stop = f"  twayblade script --on {found.on} {' '.join(cases)}"
        blocks.append("\n".join(["The script for that", f"  twayblade script --recce {found.recce.file}", "or, stop by stop", by_stop]))
    judged = [line for judgement in found.traits for line in _judgement(workspace, judgement)]
    judged += [wrapped(f"{_seen(workspace, t)}, and left open.{_remark(t)}", "      ", "  - ") for t in found.recce.traits if not t.is_judged]
    blocks.append("\n".join(["What the profiles do not say, or say otherwise, and remarks", *(judged or ["  Nothing."])]))
    blocks.append("\n".join(["How the year runs", *year_lines(workspace, found.year)]))
    return "\n\n".join(blocks)


def _ways(workspace: Workspace, found: Findings) -> Iterator[str]:
    titles = {stop.id: stop.title for stop in found.trail.trail.stops}
    for number, way in enumerate(found.stops, 1):
        yield wrapped(f"{number} {titles[way.stop]}: {TURNED_OUT[way.case]}{_rough(way)}")
        for plant in way.plants:
            note = _remark(plant.seen) if plant.seen else ""
            yield wrapped(f"{workspace.taxa[plant.taxon].common_name}: {plant_words(plant)}.{note}", "      ", "    ")
        if not way.plants:
            yield wrapped("none of its plants is to be seen on the day of the walk.", "      ", "    ")
        if noted := [s for s in found.recce.stops if s.stop == way.stop]:
            yield wrapped(f"noted: {'; '.join(map(_noted, noted))}", "      ", "    ")
        for seen in noted:
            if seen.aspect == "permission-until" and str(seen.answer) < found.on.isoformat() and seen.answer:
                yield wrapped(f"warning: leave to be here ends before the walk of {date_words(found.on)}", "      ", "    ")


def _rough(way: StopWay) -> str:
    told = listed(f"{ASPECTS[aspect].name} {answer}" for aspect, answer in way.rough)
    return f" ({told} at the visit; it may be otherwise on the day)" if way.rough else ""


def _noted(seen: StopSeen) -> str:
    aspect = ASPECTS[seen.aspect]
    answer = f"{aspect.name} {seen.answer}{f' {aspect.unit}' if aspect.unit else ''}" if seen.answer != "" else aspect.name
    return f"{answer} ({seen.note})" if seen.note else answer


def plant_words(plant: PlantWay) -> str:
    """What a visit found of a plant, beside what the walk hopes for."""
    hoped = f"hoped for {STAGE_WORDS[plant.hoped]}" if plant.hoped else ""
    stages = plant.seen.stages if plant.seen else ()
    seen = listed(listed((STAGE_WORDS[stage] for stage in sorted(might)), "or") for might in stages)
    told = {
        Why.SEEN_SO: f"found {seen}".rstrip(),
        Why.STAGE_OPEN: "found, its stage not noted",
        Why.NOT_YET: f"found {seen}, not yet as far as that",
        Why.OVER: f"found {seen}, past that",
        Why.ABSENT: "not found" + (f"; the place is {plant.cut}" if plant.cut else ""),
        Why.CUT: f"the place is {plant.cut}, and it was not noted as found",
        Why.OPEN: "not noted",
    }[plant.why]
    return "; ".join(filter(None, [hoped, told]))


def _judgement(workspace: Workspace, judged: Judgement) -> Iterator[str]:
    seen = judged.seen
    taxon, trait = workspace.taxa[seen.taxon], workspace.traits[seen.trait]
    value = taxon.values.get(seen.trait)
    sources = "; ".join(_source(workspace, key) for key in value.source) if value else ""
    said = f"the profile says `{value.written}` ({sources or 'no source'})" if value else ""
    slight = " It misses by no more than a misreading goes." if judged.slight else ""
    share = f"about {(trait.misread * 100).normalize():f} in 100 beginners misread this trait (project estimate)"
    told = {
        Fit.NEW: "the profile says nothing of it.",
        Fit.AGREES: "as the profile has it.",
        Fit.UNUSUAL: f"{said}, so it is allowed for, though not usual.",
        Fit.DISAGREES: f"{said}. A finding, or a slip: {share}.{slight}{_or_another(workspace, judged)} The profile stays as it is.",
    }[judged.fit]
    if judged.fit is not Fit.AGREES or seen.note:
        yield wrapped(f"{_seen(workspace, seen)} `{seen.written}`; {told}{_remark(seen)}", "      ", "  - ")


def _or_another(workspace: Workspace, judged: Judgement) -> str:
    """The harmful plants that show what was seen: it may have been one of them."""
    names = [workspace.taxa[id_].common_name for id_ in judged.others]
    return f" Or it was another plant: {listed(names, 'or')} would show this, so treat it as harmful until that is settled." if names else ""


def _seen(workspace: Workspace, seen: TraitSeen) -> str:
    trait = workspace.traits[seen.trait]
    where = f" ({trait.parts[seen.part]})" if seen.part else ""
    return f"line {seen.line}, {workspace.taxa[seen.taxon].common_name}, {trait.name}{where}: seen"


def _source(workspace: Workspace, key: str) -> str:
    known = workspace.sources.get(key)
    return "from memory" if key == MEMORY else known.title if known else key


def _remark(seen: Noted) -> str:
    return f" Remark: {sentence(seen.note)}" if seen.note else ""


def days_late(days: float) -> str:
    """A shift in words: `3 days early`, `on time`, `1 day late`."""
    size = f"{abs(days):g} {'day' if abs(days) == 1 else 'days'}"
    return "on time" if days == 0 else f"{size} {'late' if days > 0 else 'early'}"


def shifts_words(shifts: Shifts) -> str:
    """Shifts of the year in words: `from 12 days early to 3 days late`."""
    runs = in_order(shifts)
    if not runs:
        return f"no year up to {MOST_DAYS} days early or late"
    return listed((days_late(low) if low == high else f"from {days_late(low)} to {days_late(high)}" for low, high in runs), "or")


def year_lines(workspace: Workspace, year: YearShift) -> list[str]:
    """What the stages seen say of the year, and that nothing is made of it unasked."""

    def names(taxa: Iterable[str]) -> str:
        return listed(workspace.taxa[id_].common_name for id_ in taxa)

    if not year.bounds:
        return [wrapped("No stage was noted that bounds it: a stage that can be seen all the year round says nothing.")]
    lines = []
    for bound in year.bounds:
        usual = f"; as is usual {shifts_words(bound.expected)}" if bound.expected not in (bound.possible, 0) else ""
        lines.append(wrapped(f"{names([bound.taxon])}: possible {shifts_words(bound.possible)}{usual}.", "      ", "  - "))
    if year.agree:
        lines.append(wrapped(f"{names(year.agree)} {'fit' if len(year.agree) > 1 else 'fits'} a year {shifts_words(year.possible)}."))
        ordinary = "is among these" if year.possible & 1 else "is not among these"
        lines.append(wrapped(f"A year on time {ordinary}."))
    if year.against:
        why = "a stage misread, a plant cut and flowering anew, or another plant"
        lines.append(wrapped(f"{names(year.against)} cannot be explained by the same year: {why}."))
    lines += [wrapped(f"No one year explains both {names(pair)}.") for pair in year.conflicts]
    if year.estimate:
        e = year.estimate
        span = days_late(e.lowest) if e.lowest == e.highest else f"from {days_late(e.lowest)} to {days_late(e.highest)}"
        lines.append(wrapped(f"Estimate from {len(year.agree)} that agree: {span} (the middle is {days_late(e.middle)}, give or take {e.spread:g})."))
    else:
        lines.append(wrapped(f"No estimate: fewer than {ENOUGH} agree, or others agree as well."))
    return [*lines, wrapped(NOT_APPLIED)]
