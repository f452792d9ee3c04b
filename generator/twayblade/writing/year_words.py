"""What pages say on each day of the year: the state of a taxon, its fewest signs, what tells it from another; each with its days."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial

from markupsafe import Markup

from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.outline import stages_seen
from twayblade.reasoning.plan import SHOWN_STAGE
from twayblade.reasoning.seeing import runs, seen_days
from twayblade.reasoning.tables import PairTable, best_through_year
from twayblade.reasoning.telling import tell_apart
from twayblade.reasoning.through_year import through_year
from twayblade.writing.cautions import harm_words
from twayblade.writing.dated import days_attribute
from twayblade.writing.evidence import FewestSigns, Line, evidence_line, fewest_signs
from twayblade.writing.phrases import days_words
from twayblade.writing.stages import stage_words
from twayblade.writing.year_chart import when_words

Dated = tuple[tuple[str, Markup], ...]
"""Words, each with the attribute of its days."""


@dataclass(frozen=True)
class FloweringLine:
    """A taxon in a list by the day: days (attributes) on which it is expected in flower and perhaps so, and its state on each day."""

    taxon: Taxon
    harm: str
    days: Markup
    flowering: str
    states: Dated


def states_through_year(workspace: Workspace, taxon: Taxon, region: str | None) -> Dated:
    """The state of a taxon on each day: `in flower and already in fruit`."""
    found = through_year(workspace, region, lambda on: stage_words(stages_seen(workspace, taxon, on, region)))
    return tuple((words, days_attribute(days)) for words, days in found)


def flowering_line(workspace: Workspace, taxon: Taxon, region: str | None) -> FloweringLine:
    """A taxon as a list by the day has it."""
    expected, seen = (seen_days(workspace, taxon, (SHOWN_STAGE,), region, expected=usual) for usual in (True, False))
    attributes = days_attribute(expected) + days_attribute(seen & ~expected, "perhaps")
    return FloweringLine(
        taxon, harm_words(taxon), attributes, when_words(SHOWN_STAGE, expected, seen & ~expected), states_through_year(workspace, taxon, region)
    )


@dataclass(frozen=True)
class FewestThen:
    """The fewest signs of a taxon on some days of the year: these in words, and as an attribute."""

    signs: FewestSigns
    when: str
    days: Markup


def fewest_through_year(workspace: Workspace, taxon: Taxon, occasion: Occasion) -> tuple[FewestThen, ...]:
    """The fewest signs of a taxon on each day of the year. The date of the occasion does not matter."""
    found = through_year(workspace, occasion.region, lambda on: fewest_signs(workspace, taxon, replace(occasion, on=on)))
    return tuple(FewestThen(signs, days_words(runs(days)), days_attribute(days)) for signs, days in found)


def best_lines(workspace: Workspace, table: PairTable, occasion: Occasion, first: str) -> tuple[tuple[Line | None, Markup], ...]:
    """What tells two taxa apart best on each day, with the attribute of its days; None where nothing does by eye. first: named first."""
    told = {t.difference: t for t in tell_apart(workspace, replace(occasion, on=None, taxa=(table.first, table.second))).told}
    line = partial(evidence_line, workspace, occasion=occasion, first=first)
    return tuple((line(told[dated.difference]) if dated else None, days_attribute(days)) for dated, days in best_through_year(workspace, table))
