"""The calendar of the year is iCalendar as RFC 5545 has it, read back by the library `icalendar`, and the same whenever it is made."""

from __future__ import annotations

import re
from datetime import date
from uuid import UUID

import icalendar
import pytest
from hypothesis import given
from hypothesis import strategies as st

from twayblade.knowledge.season import day_of
from twayblade.knowledge.workspace import Workspace
from twayblade.writing.year_calendar import Turn, flowering_turns, year_ics

STAMP = date(2026, 6, 5)


@pytest.fixture(scope="module")
def made(demo_workspace: Workspace) -> bytes:
    return year_ics(flowering_turns(demo_workspace, "north-west-lowlands"), 2026, STAMP, "The year")


@pytest.fixture(scope="module")
def events(made: bytes) -> list[icalendar.Event]:
    return icalendar.Calendar.from_ical(made).events


def test_what_the_format_requires_is_there(made: bytes) -> None:
    """RFC 5545, 3.6: VERSION and PRODID; 3.6.1: UID and DTSTAMP in each event; 3.1: lines end in CR LF and have 75 octets at most."""
    calendar = icalendar.Calendar.from_ical(made)
    assert calendar["VERSION"] == "2.0"
    assert calendar["PRODID"]
    assert all("UID" in event and "DTSTAMP" in event for event in calendar.events)
    assert not any(event.errors for event in calendar.walk())
    assert made.endswith(b"END:VCALENDAR\r\n")
    assert b"\n" not in made.replace(b"\r\n", b"")
    assert max(len(line) for line in made.split(b"\r\n")) <= 75


def test_the_library_writes_it_as_it_was(made: bytes) -> None:
    """But for where it breaks long lines."""

    def unfolded(text: bytes) -> bytes:
        return text.replace(b"\r\n ", b"")

    assert unfolded(icalendar.Calendar.from_ical(made).to_ical(sorted=False)) == unfolded(made)


def test_every_flowering_begins_and_ends_every_year_on_its_usual_days(demo_workspace: Workspace, events: list[icalendar.Event]) -> None:
    begun = {(str(e["SUMMARY"]), e["DTSTART"].dt) for e in events}
    for taxon in demo_workspace.taxa.values():
        windows = demo_workspace.windows(taxon, "flower", "north-west-lowlands")
        about = [(summary, on) for summary, on in begun if re.match(f"{taxon.common_name} (begins|goes)", summary, re.I)]
        assert len(about) == 2 * len(windows)
        usual = {(w.when.start, w.when.end) for w in windows}
        assert {day for pair in usual for day in pair} == {day_of(on) for _, on in about}
    assert {e["RRULE"].to_ical() for e in events} == {b"FREQ=YEARLY"}
    assert {type(e["DTSTART"].dt) for e in events} == {date}  # whole days


def test_each_event_is_told_of_its_plant_and_cautions_and_calls_nobody_out(events: list[icalendar.Event], demo_workspace: Workspace) -> None:
    assert events
    harmful = [t.common_name for t in demo_workspace.taxa.values() if t.hazard_class.is_harmful]
    for event in events:
        assert "Look only" in event["DESCRIPTION"]
        assert not {"LOCATION", "GEO", "ATTENDEE"} & set(event)
        assert not event.subcomponents  # alarms would stand there
        assert event["TRANSP"] == "TRANSPARENT"
    (hemlock, _) = [e for e in events if str(e["SUMMARY"]).startswith("Hemlock ") and "water" not in e["SUMMARY"]]
    assert "deadly" in hemlock["DESCRIPTION"]
    assert "hemlock" in harmful


def test_ids_are_those_of_what_an_event_is_about_and_not_of_its_day(demo_workspace: Workspace) -> None:
    turns = flowering_turns(demo_workspace, "north-west-lowlands")
    assert len({turn.id for turn in turns}) == len(turns)
    assert all(UUID(turn.id).version == 5 for turn in turns)
    # a calendar that was once fetched must find its events again
    (begins,) = [turn.id for turn in turns if turn.summary == "Hemlock begins to flower (usual)"]
    assert begins == "8cbcecda-d687-5cb1-85c8-b304fb5c9883"


def test_the_last_of_february_comes_every_year() -> None:
    turn = Turn("id", day_of(date(2024, 2, 29)), "A plant goes out of flower (usual)", "")
    (event,) = icalendar.Calendar.from_ical(year_ics((turn,), 2024, STAMP, "The year")).events
    assert event["DTSTART"].dt == date(2024, 2, 28)


@given(st.text(st.characters(blacklist_categories=["Cc", "Cs"], whitelist_characters="\n")))
def test_any_text_comes_back_as_it_was(text: str) -> None:
    turn = Turn("id", 0, text, text)
    (event,) = icalendar.Calendar.from_ical(year_ics((turn,), 2026, STAMP, "The year")).events
    assert str(event["SUMMARY"]) == str(event["DESCRIPTION"]) == text
