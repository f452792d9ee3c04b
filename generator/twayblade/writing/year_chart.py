"""The year as a chart: of each plant when it is usually, and when only perhaps, in a stage; along a line that begins with some day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from twayblade.knowledge.profile import STAGES
from twayblade.knowledge.season import WHOLE_YEAR, YEAR, day_of, month_and_day
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.plan import SHOWN_STAGE, first_month
from twayblade.reasoning.seeing import runs, seen_days
from twayblade.writing.phrases import days_words
from twayblade.writing.stages import STAGE_WORDS

Span = tuple[int, int]
"""Where something begins along a chart, and how many days it lasts."""


@dataclass(frozen=True)
class YearRow:
    """A plant in a chart. usual, perhaps: spans along the chart. words: the same in words."""

    taxon: Taxon
    usual: tuple[Span, ...]
    perhaps: tuple[Span, ...]
    words: str


@dataclass(frozen=True)
class YearChart:
    """A chart of a stage. first: the day of the circle it begins with. months: the number of each month and the day along the chart it begins on."""

    length: ClassVar[int] = YEAR

    stage: str
    first: int
    months: tuple[tuple[int, int], ...]
    rows: tuple[YearRow, ...]

    @property
    def stage_words(self) -> str:
        """The stage in words: `in flower`."""
        return STAGE_WORDS[self.stage]


def year_charts(workspace: Workspace, taxa: Sequence[Taxon], region: str | None) -> tuple[YearChart, ...]:
    """The charts of all stages on record, that of the flowers first."""
    stages = (SHOWN_STAGE, *(stage for stage in STAGES if stage != SHOWN_STAGE))
    return tuple(chart for stage in stages if (chart := year_chart(workspace, taxa, stage, region)).rows)


def year_chart(workspace: Workspace, taxa: Sequence[Taxon], stage: str, region: str | None) -> YearChart:
    """The chart of a stage: the taxa for which it is on record, by the day from which it is usual; of one day, in their order."""
    first = first_day(first_month(workspace, region))
    rows = []
    for taxon in taxa:
        usual = seen_days(workspace, taxon, (stage,), region, expected=True)
        perhaps = seen_days(workspace, taxon, (stage,), region) & ~usual
        if usual | perhaps:
            begins = along(runs(usual or perhaps)[0][0], first)
            row = YearRow(taxon, spans(usual, first), spans(perhaps, first), when_words(stage, usual, perhaps))
            rows.append((begins, row))
    return YearChart(stage, first, month_starts(first), tuple(row for _, row in sorted(rows, key=lambda found: found[0])))


def first_day(month: int) -> int:
    """The day of the circle on which a month begins."""
    return day_of(date(2024, month, 1))


def month_starts(first: int) -> tuple[tuple[int, int], ...]:
    """Each month, in the order of a chart that begins with a day, and the day along it on which it begins."""
    in_order = ((at + first) % YEAR for at in range(YEAR))
    return tuple((month_and_day(day)[0], along(day, first)) for day in in_order if month_and_day(day)[1] == 1)


def along(day: int, first: int) -> int:
    """How far along a chart that begins with a day another lies."""
    return (day - first) % YEAR


def spans(days: int, first: int) -> tuple[Span, ...]:
    """Days (bits) as spans along a chart, none of them broken by its end."""
    turned = (days >> first | days << (YEAR - first)) & WHOLE_YEAR
    found = []
    for start, end in runs(turned):
        found += [(start, end)] if start <= end else [(0, end), (start, YEAR - 1)]
    return tuple((start, end - start + 1) for start, end in sorted(found))


def when_words(stage: str, usual: int, perhaps: int) -> str:
    """When a plant is usually, and when only perhaps, in a stage (days as bits): `in flower from June to August; perhaps in May`."""
    told = [f"{STAGE_WORDS[stage]} {days_words(runs(usual))}"] if usual else []
    told += [f"perhaps {'' if usual else STAGE_WORDS[stage] + ' '}{days_words(runs(perhaps))}"] if perhaps else []
    return "; ".join(told)
