"""Contrasts that published sources state, against the library: the true ones may be said, the others are refused.

The rows stand in `published_contrasts.yml`, restated, with their sources. A `true` row is never refused, and holds where no
value it rests on says `usually`; a hedged one is never a plain truth, and refused only where sources dispute it; what overlaps,
is wrong or unreliable is refused however weakly it is said.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml

from twayblade.knowledge.claim import parse_claim
from twayblade.knowledge.frequency import Frequency
from twayblade.knowledge.profile import Ground
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.claims import Verdict, judge
from twayblade.reasoning.compare import Settling, differences, excludes
from twayblade.reasoning.judging import judge_claim

ROWS: dict[str, dict[str, Any]] = yaml.safe_load(Path(__file__).with_name("published_contrasts.yml").read_text(encoding="utf-8"))
STRENGTHS = ("always", "usually")


def _ids(label: str, *fields: str) -> list[str]:
    return [id_ for id_, row in ROWS.items() if row["label"] == label and any(field in row for field in fields)]


def _pairs(workspace: Workspace, row: dict[str, Any]) -> list[tuple[str, str]]:
    first, second = row["taxa"]
    return [(first, other) for other in workspace.taxa if other != first] if second == "all" else [(first, second)]


def _verdicts(workspace: Workspace, row: dict[str, Any], field: str, how: str) -> Iterator[tuple[str, Verdict]]:
    """Each ground of a row said with some strength: with the states claimed, and as no more than that the trait tells the two apart."""
    for first, second in _pairs(workspace, row):
        for written in row.get(field, ()):
            ground = Ground.model_validate({**written, "how": how})
            yield ground.trait, judge(workspace, workspace.taxa[first], workspace.taxa[second], ground).verdict
            yield ground.trait, judge_claim(workspace, parse_claim(f"{first} from {second} by {ground.trait}, {how}"))


def _says_usually(workspace: Workspace, taxon: str, trait: str) -> bool:
    """Whether a value has a frequency word below always, or limits that are only usual."""
    said = [s for a in workspace.taxa[taxon].values[trait].alternatives for s in a.statements if s.frequency is not Frequency.NEVER]
    return any(s.frequency is not Frequency.ALWAYS or (s.span and s.span.has_extremes) for s in said)


def test_no_row_is_dropped_and_each_says_how_it_is_judged_and_where_it_stands(demo_workspace: Workspace) -> None:
    assert list(ROWS) == [f"K{number:02}" for number in range(1, 98, 2)]
    for id_, row in ROWS.items():
        assert ("unsayable" in row) != bool(row.get("by") or row.get("claims")), id_
        assert {*row["source"]} <= {*demo_workspace.sources}, id_
        assert {*row["taxa"]} - {"all"} <= {*demo_workspace.taxa}, id_


@pytest.mark.parametrize("id_", _ids("true", "by"))
def test_what_is_true_may_be_said_and_holds_where_nothing_is_only_usual(demo_workspace: Workspace, id_: str) -> None:
    row = ROWS[id_]
    assert all(verdict.is_good for _, verdict in _verdicts(demo_workspace, row, "by", "usually")), id_
    for trait, verdict in _verdicts(demo_workspace, row, "by", "always"):
        if not any(_says_usually(demo_workspace, taxon, trait) for taxon in row["taxa"]):
            assert verdict is Verdict.HOLDS, (id_, trait)
        assert verdict in (Verdict.HOLDS, Verdict.OVERSTATED), (id_, trait)


@pytest.mark.parametrize("id_", _ids("true-if-hedged", "by", "claims"))
def test_what_is_true_if_hedged_is_never_plain_and_refused_only_if_disputed(demo_workspace: Workspace, id_: str) -> None:
    row = ROWS[id_]
    plain = {verdict for _, verdict in _verdicts(demo_workspace, row, "by", "always")}
    assert plain <= {Verdict.OVERSTATED, Verdict.DISPUTED}, id_
    said = [verdict for _, verdict in _verdicts(demo_workspace, row, "by", "usually")]
    said += [judge_claim(demo_workspace, parse_claim(text)) for text in row.get("claims", ())]
    assert {*said} <= {Verdict.HOLDS_USUALLY, Verdict.DISPUTED}, id_


@pytest.mark.parametrize("id_", [*_ids("overlap", "by", "claims"), *_ids("wrong-or-unreliable", "by", "claims")])
def test_what_overlaps_or_is_wrong_is_refused_however_weakly_it_is_said(demo_workspace: Workspace, id_: str) -> None:
    row = ROWS[id_]
    for how in STRENGTHS:
        for trait, verdict in _verdicts(demo_workspace, row, "by", how):
            assert not verdict.is_good, (id_, trait, how)
    for text in row.get("claims", ()):
        assert not judge_claim(demo_workspace, parse_claim(text)).is_good, (id_, text)


@pytest.mark.parametrize("id_", [id_ for id_, row in ROWS.items() if "never-by" in row or "also-true" in row])
def test_what_the_remarks_add_is_judged_as_they_say(demo_workspace: Workspace, id_: str) -> None:
    row = ROWS[id_]
    for how in STRENGTHS:
        for trait, verdict in _verdicts(demo_workspace, row, "never-by", how):
            assert not verdict.is_good, (id_, trait, how)
    for text in row.get("also-true", ()):
        assert judge_claim(demo_workspace, parse_claim(text)).is_good, (id_, text)


def test_a_tall_plant_speaks_against_hogweed_and_a_small_one_never_clears_giant_hogweed(demo_workspace: Workspace) -> None:
    """The remark on K51 (Great Britain Non-native Species Secretariat's sheet): stunted or regrowing plants can be as small as hogweed."""
    first, second = (demo_workspace.taxa[id_] for id_ in ROWS["K51"]["taxa"])
    (difference,) = differences(demo_workspace, first, second, "height")
    assert excludes(demo_workspace, difference, second.id) is Settling.USUALLY
    assert excludes(demo_workspace, difference, first.id) is Settling.OPEN


@pytest.mark.parametrize("id_", [id_ for id_, row in ROWS.items() if "unsayable" in row])
def test_what_cannot_be_said_still_cannot(demo_workspace: Workspace, id_: str) -> None:
    row = ROWS[id_]
    words = {word for trait_id, trait in demo_workspace.traits.items() for word in f"{trait_id.replace('-', ' ')} {trait.name}".lower().split()}
    assert not words & {*row["no-trait-about"]}, "there is a trait for it now: make a claim of the row"
    if shared := row.get("said-of-both"):
        for taxon in row["taxa"]:
            habitat = demo_workspace.taxa[taxon].profile.habitat
            assert habitat
            assert shared in habitat.text.lower(), taxon
