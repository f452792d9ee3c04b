"""The recce sheet as PDF, set by typst at exact sizes."""

from __future__ import annotations

import json
from importlib.resources import as_file, files
from typing import Any

import typst

from twayblade.writing.phrases import capital
from twayblade.writing.recce_words import CARE, DEFERS, HOW, LOCAL_FIRST, NO_PLACES, Question, StopQuestions, WrittenSheet


def recce_pdf(written: WrittenSheet) -> bytes:
    """The recce sheet on pages of A4 (210 by 297 mm), each stop on a page of its own, no text under 9 pt."""
    here = files("twayblade.writing")
    with as_file(here / "templates" / "recce.typ") as template, as_file(here / "fonts") as fonts:
        data = json.dumps(_recce_data(written))
        made = typst.compile(str(template), font_paths=[str(fonts)], ignore_system_fonts=True, sys_inputs={"data": data})
    assert isinstance(made, bytes)
    return made


def _recce_data(written: WrittenSheet) -> dict[str, Any]:
    trail = written.sheet.trail.trail
    return {
        "title": written.heading,
        "place_line": "An invented walk past real plants" if trail.invented else trail.place,
        "care": CARE,
        "defers": DEFERS,
        "how": HOW,
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
