"""The documented shapes of `--format json`. Fields may be added, never renamed or dropped."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from twayblade.knowledge.problem import Problem
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.clocks import Clock, Cut
from twayblade.reasoning.compare import directions
from twayblade.reasoning.key_report import KeyReport
from twayblade.reasoning.pictures import SetUp
from twayblade.reasoning.recce import Findings, Judgement, StopWay
from twayblade.reasoning.scope import LeftOut
from twayblade.reasoning.shift import in_order
from twayblade.reasoning.telling import Telling, Told
from twayblade.reasoning.times import whole
from twayblade.writing.cautions import NO_GUIDE, cautions, cautions_around
from twayblade.writing.key_ends import none_fits
from twayblade.writing.key_words import CARE, LACKING, NONE_FITS, WrittenKey, WrittenLead
from twayblade.writing.narrator import Claim
from twayblade.writing.phrases import contrast_sentence
from twayblade.writing.script import Part, Script, ScriptStop


def check_shape(problems: Sequence[Problem]) -> list[dict[str, Any]]:
    """A list of {file, line, column, rule, severity, message, hints}."""
    return [
        {
            "file": p.place.file,
            "line": p.place.line,
            "column": p.place.column,
            "rule": p.rule,
            "severity": p.severity.value,
            "message": p.message,
            "hints": list(p.hints),
        }
        for p in problems
    ]


def compare_shape(workspace: Workspace, telling: Telling) -> dict[str, Any]:
    """{taxa, on, means, traits: [{trait, part, relation, values, seen, bars, settles}]}; with more than two taxa one row a pair."""
    occasion = telling.occasion
    return {
        "taxa": list(occasion.taxa),
        "on": occasion.on.isoformat() if occasion.on else None,
        "means": sorted(m.value for m in occasion.means),
        "traits": [_told_shape(workspace, t) for t in telling.told],
        "care": [*cautions_around(workspace, occasion.taxa), NO_GUIDE],
    }


def _told_shape(workspace: Workspace, told: Told) -> dict[str, Any]:
    d = told.difference
    values = {id_: workspace.taxa[id_].values.get(d.trait) for id_ in (d.first, d.second)}
    return {
        "trait": d.trait,
        "taxa": [d.first, d.second],
        "part": d.at.part,
        "stage": d.at.stage,
        "relation": d.relation.value,
        "disputed": d.disputed,
        "verdict": told.verdict.value,
        "values": {id_: value.written if value else None for id_, value in values.items()},
        "sources": {id_: list(value.source) if value else [] for id_, value in values.items()},
        "inherited": {id_: value.origin if value and value.origin != id_ else None for id_, value in values.items()},
        "seen": {id_: phase.value if phase else None for id_, phase in told.seen.items()},
        "bars": sorted(bar.value for bar in told.bars),
        "settles": [{"state": x.state, "taxon": x.taxon, "settles": x.settles.value} for x in directions(workspace, d)],
        "text": contrast_sentence(workspace, d, region=None) if d.relation.is_contrast else None,
    }


def script_shape(script: Script) -> dict[str, Any]:
    """{trail, on, stops: [{id, taxa, parts: [{kind, text, seconds, claims}], seconds, walk_seconds}], seconds, clocks}."""
    return {
        "trail": script.trail.id,
        "on": script.on.isoformat(),
        "stops": [_stop_shape(stop) for stop in script.stops],
        "seconds": script.seconds,
        "allows_seconds": script.allows,
        "seconds_over": script.seconds_over,
        "cuts": _cuts_shape(script.cuts),
        "set_ups": script.clocks.set_ups,
        "pictures": pictures_shape(script),
        "clocks": {name.replace(" ", "_"): _clock_shape(run) for name, run in script.clocks.named},
    }


def _clock_shape(run: Clock) -> dict[str, Any]:
    made_of = {name: {"low": whole(one.low), "likely": whole(one.likely), "high": whole(one.high)} for name, one in run.made_of}
    seconds = {"low": run.low, "likely": run.likely, "high": run.high, "allows": run.allows, "over": run.over}
    return {**seconds, "made_of": made_of, "cuts": _cuts_shape(run.cuts)}


def _cuts_shape(cuts: Sequence[Cut]) -> list[dict[str, Any]]:
    return [{"stop": cut.stop, "kind": cut.kind, "taxon": cut.taxon, "seconds": cut.seconds} for cut in cuts]


def pictures_shape(script: Script) -> list[dict[str, Any]]:
    """[{stop, taxon, organ, side, distance, scale, frames, traits, must, lines: [{text, trait, taxa}], matches}], a set-up each."""
    return [_picture_shape(picture) for picture in script.pictures]


def _picture_shape(picture: SetUp) -> dict[str, Any]:
    return {
        "stop": picture.stop,
        "taxon": picture.taxon,
        "organ": picture.organ,
        "side": picture.side,
        "distance": picture.distance.value,
        "scale": picture.scale.value,
        "frames": list(picture.frames),
        "traits": list(picture.traits),
        "must": picture.must,
        "lines": [{"text": line.text, "trait": line.trait, "taxa": list(line.taxa)} for line in picture.lines],
        "matches": [{"stop": stop, "taxon": taxon} for stop, taxon in picture.matches],
    }


def _stop_shape(stop: ScriptStop) -> dict[str, Any]:
    return {
        "id": stop.stop.id,
        "taxa": list(stop.stop.taxa),
        "case": stop.case.value,
        "parts": [_part_shape(part) for part in stop.parts],
        "seconds": stop.seconds,
        "walk_seconds": stop.walk_seconds,
        "metres": stop.metres,
        "branches": [
            {
                "case": b.case.value,
                "parts": [_part_shape(part) for part in b.parts],
                "seconds": b.seconds,
                "search_seconds": b.search_seconds,
                "pictures": [_picture_shape(picture) for picture in b.pictures],
            }
            for b in stop.branches
        ],
        "questions": [{"question": q.question, "answer": q.answer, "claims": [_claim_shape(c) for c in q.claims]} for q in stop.questions],
    }


def _part_shape(part: Part) -> dict[str, Any]:
    return {
        "kind": part.kind,
        "taxon": part.taxon,
        "text": part.text,
        "seconds": part.seconds,
        "claims": [_claim_shape(claim) for claim in part.claims],
        "by_author": part.by_author,
    }


def _claim_shape(claim: Claim) -> dict[str, Any]:
    return {
        "kind": claim.kind,
        "taxa": list(claim.taxa),
        "trait": claim.trait,
        "part": claim.part,
        "verdict": claim.verdict,
        "text": claim.text,
    }


def recce_shape(workspace: Workspace, found: Findings, problems: Sequence[Problem]) -> dict[str, Any]:
    """{trail, on, file, days, stops: [{id, case, plants, rough, noted}], traits, year, problems}; days late are negative if early."""
    year = found.year
    return {
        "trail": found.trail.id,
        "on": found.on.isoformat(),
        "file": found.recce.file,
        "days": [day.isoformat() for day in found.recce.days],
        "stops": [_stop_way_shape(found, way) for way in found.stops],
        "traits": [_judgement_shape(workspace, judged) for judged in found.traits],
        "year": {
            "bounds": [{"taxon": b.taxon, "possible": in_order(b.possible), "expected": in_order(b.expected)} for b in year.bounds],
            "agree": list(year.agree),
            "against": list(year.against),
            "conflicts": [list(pair) for pair in year.conflicts],
            "possible": in_order(year.possible),
            "expected": in_order(year.expected),
            "estimate": {"lowest": e.lowest, "middle": e.middle, "highest": e.highest} if (e := year.estimate) else None,
        },
        "problems": check_shape(problems),
    }


def _stop_way_shape(found: Findings, way: StopWay) -> dict[str, Any]:
    noted = [s for s in found.recce.stops if s.stop == way.stop]
    plants = [
        {
            "taxon": p.taxon,
            "hoped": p.hoped,
            "case": p.case.value if p.case else None,
            "why": p.why.value,
            "found": p.seen.found if p.seen else None,
            "stages": [sorted(stages) for stages in p.seen.stages] if p.seen else [],
            "note": p.seen.note if p.seen else "",
        }
        for p in way.plants
    ]
    return {
        "id": way.stop,
        "case": way.case.value if way.case else None,
        "plants": plants,
        "rough": dict(way.rough),
        "noted": [{"aspect": s.aspect, "answer": str(s.answer), "note": s.note} for s in noted],
    }


def _judgement_shape(workspace: Workspace, judged: Judgement) -> dict[str, Any]:
    seen = judged.seen
    value, trait = workspace.taxa[seen.taxon].values.get(seen.trait), workspace.traits[seen.trait]
    return {
        "stop": seen.stop,
        "taxon": seen.taxon,
        "trait": seen.trait,
        "part": seen.part,
        "seen": seen.written,
        "profile": value.written if value else None,
        "sources": list(value.source) if value else [],
        "fit": judged.fit.value,
        "slight": judged.slight,
        "misread": float(trait.misread),
        "line": seen.line,
    }


def key_shape(workspace: Workspace, written: WrittenKey) -> dict[str, Any]:
    """{trail, on, covers, leaves_out, couplets: [{number, leads: [{text, traits, to}]}]}; `to` is a number or a list of taxa."""
    return {
        "trail": written.planned.id,
        "on": written.on.isoformat(),
        "covers": list(written.covers),
        "leaves_out": [_left_shape(workspace, left) for left in written.leaves_out],
        "recorded": written.recorded,
        "couplets": [
            {
                "number": c.number,
                "back": list(c.back),
                "note": c.note,
                "leads": [_lead_shape(workspace, written, lead) for lead in c.leads],
            }
            for c in written.couplets
        ],
        "inseparable": [{"taxa": list(group), "settles": [line.text for line in lines]} for group, lines in written.settles.items()],
        "care": [CARE, LACKING, NONE_FITS, *cautions(workspace, written.covers)],
        "also_harmful": list(written.also_harmful),
        "report": list(written.report),
        "measures": _measures_shape(written.measures),
    }


def _lead_shape(workspace: Workspace, written: WrittenKey, lead: WrittenLead) -> dict[str, Any]:
    end = lead.to is None
    return {
        "text": lead.text,
        "traits": [lead.trait],
        "more": list(lead.more),
        "to": list(lead.taxa) if end else lead.to,
        "against": list(lead.against),
        "against_claims": list(lead.against_claims),
        "possible": list(lead.possible),
        "none_fits": none_fits(workspace, written, (lead,)) if end else None,
    }


def _measures_shape(report: KeyReport) -> dict[str, Any]:
    return {
        "optimal": report.gap == 0,
        "gap": report.gap,
        "mean_couplets": report.length.mean,
        "longest": report.length.longest,
        "entropy_bits": report.length.entropy,
        "expected_cost": report.length.cost,
        "seed": report.seed,
        "wrong": report.arrivals.wrong,
        "harmful_wrong": report.arrivals.harmful_wrong,
        "shortest_wrong": report.shortest_arrivals.wrong,
        "shortest_harmful_wrong": report.shortest_arrivals.harmful_wrong,
    }


def _left_shape(workspace: Workspace, left: LeftOut) -> dict[str, Any]:
    if left.taxon:
        taxon = workspace.taxa[left.taxon]
        return {"taxon": left.taxon, "name": taxon.scientific_name, "common": taxon.common_name, "hazard": taxon.hazard_class.value, "why": left.why}
    assert left.recorded
    entry = left.recorded
    return {"taxon": None, "name": entry.name, "common": entry.common, "hazard": entry.hazard.value, "why": left.why}
