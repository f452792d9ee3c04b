"""A hundred false workspaces are caught at the right place, and what is only written otherwise raises nothing."""

from __future__ import annotations

import pytest
from tests.measure.mutants import Report, bench, draw, run
from tests.measure.operators import OPERATORS
from tests.measure.variations import VARIATIONS


@pytest.fixture(scope="module")
def report(tmp_path_factory: pytest.TempPathFactory) -> Report:
    return run(count=100, variations=30, seed=7, into=tmp_path_factory.mktemp("mutants"))


def test_every_false_mutant_is_caught_at_its_file_and_line(report: Report) -> None:
    assert not report.missed, "\n".join(map(str, report.missed))
    assert len(report.false) >= 60


def test_nothing_still_true_is_reported(report: Report) -> None:
    assert not report.unasked, "\n".join(map(str, report.unasked))


def test_no_intact_variation_raises_an_alarm(report: Report) -> None:
    assert not report.alarms, "\n".join(map(str, report.alarms))


def test_all_operators_and_variations_are_tried(report: Report) -> None:
    assert {o.mutant.operator for o in report.outcomes} == set(OPERATORS)
    assert {o.mutant.operator for o in report.variations} == set(VARIATIONS)


def test_the_last_line_has_its_form(report: Report) -> None:
    false, still = len(report.false), len(report.outcomes) - len(report.false)
    assert str(report).splitlines()[-1] == f"caught {false - len(report.missed)} of {false}, still true {still}, false alarms 0 of 30"


def test_the_same_seed_makes_the_same_mutants() -> None:
    with bench() as on:
        first, second = (draw(OPERATORS, on.demo, 200, seed=3) for _ in range(2))
    assert first == second
