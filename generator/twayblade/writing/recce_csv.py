"""A recce sheet as a table to fill in on a phone: one row a plant and stop, one a trait, one for each thing noted of a stop."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping
from io import StringIO

from twayblade.knowledge.recce_columns import COLUMNS, PLACE, SEVERAL
from twayblade.writing.recce_words import Answers, PlantQuestions, Question, StopQuestions, WrittenSheet

Row = dict[str, str]
Places = Mapping[str, tuple[float, float]]
"""Latitude and longitude of stops, by their ids."""


def sheet_csv(written: WrittenSheet, places: Places | None = None) -> bytes:
    """The table, in UTF-8 with the mark by which spreadsheets know it. places: given only where coordinates are asked for."""
    columns = (*COLUMNS, *(PLACE if places is not None else ()))
    text = StringIO(newline="")
    writer = csv.DictWriter(text, columns, restval="")
    writer.writeheader()
    for stop in written.stops:
        for row in _rows(written, stop):
            writer.writerow(row | _place(stop.asked.stop.id, places))
    return text.getvalue().encode("utf-8-sig")


def _rows(written: WrittenSheet, stop: StopQuestions) -> Iterator[Row]:
    at = stop.asked
    common = {"fieldNumber": str(at.number), "locationID": at.stop.id, "locality": at.stop.title}
    for plant in stop.plants:
        yield common | _names(plant) | _plant(plant)
        for question in plant.traits:
            yield common | _names(plant) | _measurement(question, f"{plant.taxon.common_name}: ") | {"part": question.part}
    for questions in stop.topics.values():
        for question in questions:
            yield common | _measurement(question, f"{at.stop.title}: ")


def _names(plant: PlantQuestions) -> Row:
    taxon = plant.taxon
    return {"taxonID": taxon.id, "scientificName": taxon.profile.name.with_authors, "vernacularName": taxon.common_name}


def _plant(plant: PlantQuestions) -> Row:
    of_stage = f"; lifeStage: {_answers(plant.stages)}" if plant.stages.choices else ""
    asked = ", and in which stage" if of_stage else ""
    return {
        "question": " ".join(filter(None, [f"{plant.taxon.common_name}: is it there{asked}?", plant.hoped])),
        "answers": f"occurrenceStatus: present or absent{of_stage}",
    }


def _measurement(question: Question, whose: str) -> Row:
    return {
        "question": f"{whose}{question.name}. {question.text}",
        "answers": f"measurementValue: {_answers(question.answers)}",
        "measurementType": question.id,
        "measurementUnit": question.answers.unit,
    }


def _answers(answers: Answers) -> str:
    if not answers.choices:
        return f"{answers.free}{f', in {answers.unit}' if answers.unit else ''}"
    # where the printed words say more than the word to write, both are given
    return SEVERAL.join(word if printed in (word, word.replace("-", " ")) else f"{word} = {printed}" for word, printed in answers.choices)


def _place(stop: str, places: Places | None) -> Row:
    if not places or stop not in places:
        return {}
    latitude, longitude = places[stop]
    return {
        "decimalLatitude": f"{latitude:.5f}",
        "decimalLongitude": f"{longitude:.5f}",
        "geodeticDatum": "EPSG:4326",
    }
