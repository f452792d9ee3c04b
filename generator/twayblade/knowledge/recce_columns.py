"""The columns of a recce sheet as a table.

Names are terms of Darwin Core (tdwg/dwc at 4f1cb23, vocabulary/term_versions.csv) where it has one; those it has none for are
ours. A row with a measurementType asks for one measurement or fact, of a plant if it names one, else of the stop; any other row
asks for the plant itself.
"""

from __future__ import annotations

ANSWERS = {
    "occurrenceStatus": "present or absent: was the plant found? (detected and notDetected are read too)",
    "lifeStage": "the stages seen, several with | between them; a stage of this project or a code of the general BBCH scale",
    "measurementValue": "what was seen of the trait, or of the stop",
    "measurementUnit": "the unit of a number",
    "occurrenceRemarks": "any remark on the plant",
    "measurementRemarks": "any remark on the trait or the stop",
    "eventDate": "the day of the visit, year-month-day; an empty cell is the day of the row above",
}
"""The columns to fill in."""

GIVEN = {
    "fieldNumber": "the number of the stop on the trail",
    "locationID": "the id of the stop",
    "locality": "what the stop is called",
    "taxonID": "the id of the plant's profile",
    "scientificName": "its scientific name with authors",
    "vernacularName": "its common name",
    "measurementType": "the id of the trait, or what is noted of the stop",
}
"""The columns that say what a row is about."""

OURS = {
    "question": "the question in words",
    "answers": "what may be answered",
    "part": "the part of the organ that a trait is looked at on",
}
"""Columns for which Darwin Core has no term."""

PLACE = {
    "decimalLatitude": "degrees north",
    "decimalLongitude": "degrees east",
    "geodeticDatum": "EPSG:4326, the datum of the two",
    "coordinateUncertaintyInMeters": "the radius around the point that holds the place; empty if unknown",
}
"""Columns that a sheet has only where they are asked for: the place of a rare or protected plant is not for passing on."""

COLUMNS = ("question", "answers", *ANSWERS, *GIVEN, "part")
"""All columns of a sheet, those first that one needs on a narrow screen."""

KNOWN = (*COLUMNS, *PLACE)
"""All columns that are read without a remark."""

SEVERAL = " | "
"""Stands between several answers in one cell, as Darwin Core recommends for lists."""

FOUND = {"present": True, "detected": True, "absent": False, "notdetected": False}
"""What may be answered under occurrenceStatus, in small letters. Darwin Core recommends detected and notDetected since 2023
and had present and absent before; both are read."""
