"""The seconds of scripts against a synthesiser that speaks them (Debian's espeak-ng). The whole of it: `tests/measure/spoken_time.py`."""

from __future__ import annotations

import re

import pytest
from tests.measure.spoken_time import OTHERS, WALK, Said, lines, mean_error, measure, paragraphs, seconds_spoken
from tests.outside.data import program

from twayblade.knowledge.workspace import Workspace


@pytest.fixture(scope="module")
def said(demo_workspace: Workspace) -> list[Said]:
    program("espeak-ng", "espeak-ng")
    return measure(demo_workspace, paragraphs(demo_workspace, 12), rates=(140, 190))


def test_one_text_calibrates_a_voice_to_a_few_per_cent(said: list[Said]) -> None:
    absolute, lean = mean_error(said)
    assert absolute <= 5, "\n".join(lines(said))
    assert abs(lean) <= 3, "\n".join(lines(said))  # of 12 paragraphs; of 40 and more it is to be 2


def test_most_paragraphs_fall_between_their_low_and_their_high(said: list[Said]) -> None:
    assert sum(s.low <= s.spoken <= s.high for s in said) >= 0.9 * len(said), "\n".join(lines(said))


def test_the_report_ends_with_the_errors(said: list[Said]) -> None:
    *_, within, errors = lines(said)
    assert re.fullmatch(r"\d+ of 24 fall between low and high", within)
    assert re.fullmatch(r"mean absolute error \d+\.\d %, lean [+-]\d+\.\d %", errors)


def test_the_synthesiser_takes_the_same_time_again() -> None:
    program("espeak-ng", "espeak-ng")
    assert seconds_spoken(WALK, 150) == seconds_spoken.__wrapped__(WALK, 150)


def test_a_text_of_another_kind_calibrates_less_well_but_not_badly(demo_workspace: Workspace) -> None:
    program("espeak-ng", "espeak-ng")
    for text in OTHERS.values():
        absolute, _ = mean_error(measure(demo_workspace, paragraphs(demo_workspace, 12), rates=(140,), calibrated_by=text))
        assert absolute <= 8
