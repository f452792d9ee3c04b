"""Printed matter as PDF, set by typst at exact sizes."""

from __future__ import annotations

import json
from importlib.resources import as_file, files
from typing import Any

import typst

from twayblade.knowledge.trail import Trail
from twayblade.knowledge.workspace import Workspace
from twayblade.writing.cautions import cautions, mistaken_for
from twayblade.writing.key_words import CARE, HARM_MARK, LACKING, NONE_FITS, WrittenKey, coverage_words, left_out_words, words_of
from twayblade.writing.phrases import capital, date_words, listed
from twayblade.writing.recce_words import CARE as CARE_ON_RECCE
from twayblade.writing.recce_words import DEFERS, LOCAL_FIRST, NO_PLACES, Question, StopQuestions, WrittenSheet
from twayblade.writing.recce_words import HOW as HOW_TO_TICK
from twayblade.writing.terminal import marked_name

HOW = (
    "Start at 1. Read both leads, look, choose one, and go on to the number at its end until it ends in a name. A dark triangle marks harm on record."
)


def key_pdf(workspace: Workspace, written: WrittenKey) -> bytes:
    """The pocket key on pages of A6 (105 by 148 mm), no text under 9 pt."""
    return _set("key.typ", _key_data(workspace, written))


def recce_pdf(written: WrittenSheet) -> bytes:
    """The recce sheet on pages of A4 (210 by 297 mm), each stop on a page of its own, no text under 9 pt."""
    return _set("recce.typ", _recce_data(written))


def _set(template: str, data: dict[str, Any]) -> bytes:
    with as_file(files("twayblade.writing") / "templates" / template) as file:
        made = typst.compile(str(file), sys_inputs={"data": json.dumps(data)})
    assert isinstance(made, bytes)
    return made


def _place_line(trail: Trail) -> str:
    return "An invented walk past real plants" if trail.invented else trail.place


def _key_data(workspace: Workspace, written: WrittenKey) -> dict[str, Any]:
    trail = written.planned.trail

    def names(taxa: tuple[str, ...]) -> str:
        return listed((marked_name(workspace, id_).replace(f" {HARM_MARK}", f"\N{NO-BREAK SPACE}{HARM_MARK}") for id_ in taxa), "or")

    couplets = [
        {
            "number": c.number,
            "back": ", ".join(map(str, c.back)),
            "note": c.note,
            "leads": [
                {
                    "text": lead.text,
                    "to": lead.to,
                    "ends": names(lead.taxa),
                }
                for lead in c.leads
            ],
        }
        for c in written.couplets
    ]
    return {
        "title": f"Pocket key: {trail.title}",
        "place_line": _place_line(trail),
        "date": date_words(written.on),
        "coverage": coverage_words(written),
        "care": CARE,
        "how": HOW,
        "lacking": LACKING,
        "couplets": couplets,
        "none_fits": NONE_FITS,
        "settles": [{"names": capital(names(group)), "lines": [line.text for line in lines]} for group, lines in written.settles.items()],
        "cautions": list(cautions(workspace, written.covers)),
        "mistaken": list(mistaken_for(workspace, written.covers)),
        "words": [list(pair) for pair in words_of(workspace, written)],
        "leaves_out": left_out_words(workspace, written),
    }


def _recce_data(written: WrittenSheet) -> dict[str, Any]:
    trail = written.sheet.trail.trail
    return {
        "title": written.heading,
        "place_line": _place_line(trail),
        "care": CARE_ON_RECCE,
        "defers": DEFERS,
        "how": HOW_TO_TICK,
        "no_places": NO_PLACES,
        "first": LOCAL_FIRST,
        "cautions": list(written.cautions),
        "stops": [_recce_stop(stop) for stop in written.stops],
    }


def _recce_stop(stop: StopQuestions) -> dict[str, Any]:
    return {
        "number": stop.asked.number,
        "title": stop.asked.stop.title,
        "place": stop.asked.stop.place,
        "access": stop.asked.stop.access,
        "cautions": list(stop.cautions),
        "mistaken": stop.mistaken,
        "plants": [
            {
                "name": capital(plant.taxon.common_name),
                "latin": plant.taxon.scientific_name,
                "hoped": plant.hoped,
                "stages": [printed.replace("(BBCH ", "").replace(")", "") for _, printed in plant.stages.choices],
                "traits": [_recce_question(question) for question in plant.traits],
            }
            for plant in stop.plants
        ],
        "topics": [[topic, [_recce_question(question) for question in questions]] for topic, questions in stop.topics.items()],
    }


def _recce_question(question: Question) -> dict[str, Any]:
    answers = question.answers
    is_short = answers.free != "your words"
    return {"name": question.name, "text": question.text, "choices": [p for _, p in answers.choices], "short": is_short, "unit": answers.unit}
