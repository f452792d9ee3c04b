"""The plan of a trail as text for the terminal: the year in 80 columns, and the walk of a date."""

from __future__ import annotations

import textwrap

from twayblade.knowledge.season import YEAR, Phase, day_of, month_and_day
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.plan import DatePlan, TaxonYear, Year
from twayblade.reasoning.scope import trail_taxa
from twayblade.writing.cautions import NO_GUIDE, cautions
from twayblade.writing.choice_words import ASSUMED, ChoiceWords
from twayblade.writing.light_words import daylight_words, lacking_words, sun_words, time_words, warning_words
from twayblade.writing.phrases import capital, date_words
from twayblade.writing.plan_words import SHORT_MEANS, Plan, YearWords
from twayblade.writing.script import clock

COLUMNS = 80

EXPECTED, POSSIBLE, WALK = "#", "-", "v"
"""The marks of the chart: in flower, perhaps in flower, a date of the walk."""

CELLS = 4
"""Cells a month in the chart: days 1 to 8, 9 to 16, 17 to 24, and the rest."""

NAMES = COLUMNS - 12 * CELLS - 1
"""The width of the names, so that a line takes 80 columns."""


def year_text(workspace: Workspace, year: Year) -> str:
    """The year of a trail: its chart, its dates, its pairs."""
    words = YearWords(workspace, year)
    blocks = [f"{year.planned.trail.title}: what each date gives", "\n".join(chart(words))]
    blocks.append("\n".join(_wrapped(note, "") for note in words.notes()))
    blocks.append("\n".join(["Dates (* of the walk)", _DATES_HEAD, *(_date_line(words, found) for found in year.dates), SHORT_MEANS]))
    blocks.append(_wrapped(words.best(), "") if words.best() else "")
    if year.pairs:
        blocks.append(
            "\n".join(["Look-alikes", *(_wrapped(f"{capital(words.pair(p.pair))}: {words.compared_when(p)}", "    ", "  - ") for p in year.pairs)])
        )
    blocks += [_care(workspace, year), "The walk of one date in its time: twayblade plan --on DATE --allows MINUTES"]
    return "\n\n".join(block for block in blocks if block)


def walk_text(workspace: Workspace, plan: Plan) -> str:
    """The walk of a date within the time allowed: what is in flower, what is kept and left out and why, the light."""
    walk, year = plan.walk, YearWords(workspace, plan.year)
    words = ChoiceWords(workspace, walk)
    lines = [f"{walk.planned.trail.title}, {date_words(walk.on)}", _wrapped(words.heading(), "")]
    lines += ["", *_date_lines(year, plan.day), "", daylight_words(walk.light) if walk.light else _wrapped(lacking_words(walk.planned), "")]
    for place, stop in enumerate(walk.stops):
        there = walk.planned.trail.stops[stop.number]
        lines += ["", f"Stop {stop.number + 1}  {there.title}   [{clock(stop.comes)}]   here {clock(stop.seconds)}"]
        lines += [_wrapped(line, "      ", "    ") for line in words.kept(stop)]
        if walk.light:
            light = walk.light.stops[place]
            lines.append(f"    {time_words(light.comes)}, the sun {sun_words(light.sun)}")
            if warning := warning_words(walk.planned, light):
                lines.append(_wrapped(f"warning: {warning}", "      ", "    "))
    if walk.spared:
        lines += ["", "Left out", *(_wrapped(line, "    ", "  - ") for line in words.left_out())]
    lines += ["", *(_wrapped(line, "") for line in (words.next_words(), ASSUMED) if line), "", _care(workspace, plan.year)]
    return "\n".join(lines)


def chart(words: YearWords) -> tuple[str, ...]:
    """The year as lines of at most 80 columns: months across, a line a taxon."""
    year = words.year
    if not year.taxa:
        return ("No flowering is on record here: the dates differ only in what else is on record.",)
    walks = {_cell(year, day_of(on)) for on in year.planned.trail.dates}
    head = f"{'':<{NAMES}} {''.join(month[:3].ljust(CELLS) for month in words.months)}"
    dates = f"{'the walk':<{NAMES}} {''.join(WALK if n in walks else ' ' for n in range(12 * CELLS))}"
    lines = [head, dates, *(_chart_line(words, t) for t in year.taxa)]
    return (*(line.rstrip() for line in lines), f"{EXPECTED} in flower   {POSSIBLE} perhaps in flower   {WALK} a date of the walk")


def _chart_line(words: YearWords, taxon: TaxonYear) -> str:
    name = words.name(taxon.taxon)
    shown = name if len(name) <= NAMES else f"{name[: NAMES - 3]}..."
    cells: list[set[Phase | None]] = [set() for _ in range(12 * CELLS)]
    for day in range(YEAR):
        cells[_cell(words.year, day)].add(taxon.phase(day))
    marks = (EXPECTED if Phase.EXPECTED in c else POSSIBLE if Phase.POSSIBLE in c else " " for c in cells)
    return f"{shown:<{NAMES}} {''.join(marks)}"


def _cell(year: Year, day: int) -> int:
    month, of_month = month_and_day(day)
    return (month - year.first_month) % 12 * CELLS + min(CELLS - 1, (of_month - 1) // 8)


_DATES_HEAD = f"  {'':<18}{'in flower':>9}  {'pairs at best':>13}   not to be missed"


def _date_line(words: YearWords, found: DatePlan) -> str:
    """A date in a line: how many plants and pairs, and what must not be missed."""
    mark = "*" if found.is_of_trail else " "
    line = f"{mark} {date_words(found.on):<18}{len(found.expected):>9}  {len(found.pairs):>13}   "
    return _wrapped(words.fleeting(found.fleeting), " " * len(line), line).rstrip() if found.fleeting else line.rstrip()


def _date_lines(words: YearWords, found: DatePlan) -> list[str]:
    """What a date gives, with names."""
    said = {
        "In flower": words.names(found.expected),
        "Perhaps in flower": words.names(found.possible),
        "At their best to compare": "; ".join(words.pair(p.pair) for p in found.pairs) or "none",
        "Not to be missed": words.fleeting(found.fleeting) or "none",
    }
    return [_wrapped(f"{label}: {text}", "    ", "") for label, text in said.items()]


def _care(workspace: Workspace, year: Year) -> str:
    lines = cautions(workspace, trail_taxa(year.planned.trail))
    return "\n".join([*(["Take care", *(_wrapped(line, "    ", "  - ") for line in lines)] if lines else []), NO_GUIDE])


def _wrapped(text: str, indent: str, first: str | None = None) -> str:
    return textwrap.fill(text, COLUMNS, initial_indent=indent if first is None else first, subsequent_indent=indent, break_on_hyphens=False)
