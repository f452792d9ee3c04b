"""Filled recce sheets: what was written comes back, and every answer that cannot be read is told with its place and a way out."""

from __future__ import annotations

import csv
from collections.abc import Callable
from datetime import date
from decimal import Decimal
from io import StringIO
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.making import sheet_of

from twayblade.knowledge.observation import ASPECTS, Noted, Recce
from twayblade.knowledge.problem import Problem, Severity
from twayblade.knowledge.recce_columns import ANSWERS, COLUMNS, KNOWN
from twayblade.knowledge.rules import RULES
from twayblade.knowledge.workspace import Workspace
from twayblade.reading.recce import read_recce
from twayblade.reading.workspace import load
from twayblade.writing.recce_csv import sheet_csv

often = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])
NAME = "recce-2026-12-10.csv"
HEAD = "locationID,taxonID,measurementType,part,occurrenceStatus,lifeStage,measurementValue,measurementUnit,measurementRemarks,eventDate"

Reading = Callable[[str | bytes], tuple[Recce, list[Problem]]]


@pytest.fixture(scope="module")
def sheet(penguin_workspace: Workspace) -> list[dict[str, str]]:
    """The rows of the penguins' sheet."""
    made = sheet_csv(sheet_of(penguin_workspace, penguin_workspace.trails["colony_walk"], date(2026, 12, 12)))
    return list(csv.DictReader(StringIO(made.decode("utf-8-sig"), newline="")))


@pytest.fixture
def read(penguin_workspace: Workspace, tmp_path: Path) -> Reading:
    def reading(content: str | bytes) -> tuple[Recce, list[Problem]]:
        (tmp_path / NAME).write_bytes(content if isinstance(content, bytes) else content.encode())
        return read_recce(tmp_path, NAME, penguin_workspace.trails["colony_walk"], penguin_workspace)

    return reading


def as_text(rows: list[dict[str, str]], delimiter: str = ",") -> str:
    text = StringIO(newline="")
    writer = csv.DictWriter(text, rows[0], delimiter=delimiter)
    writer.writeheader()
    writer.writerows(rows)
    return text.getvalue()


def all_seen(recce: Recce) -> list[Noted]:
    return [*recce.plants, *recce.traits, *recce.stops]


def test_an_empty_sheet_asks_and_answers_nothing(read: Reading, sheet: list[dict[str, str]]) -> None:
    recce, problems = read(as_text(sheet))
    assert problems == []
    assert all_seen(recce) == []
    assert recce.days == ()


@st.composite
def filled(draw: st.DrawFn) -> Callable[[list[dict[str, str]], Workspace], tuple[list[dict[str, str]], int]]:
    """Fills any rows of a sheet with answers that the sheet itself offers."""
    chance = draw(st.randoms(use_true_random=False))

    def fill(sheet: list[dict[str, str]], known: Workspace) -> tuple[list[dict[str, str]], int]:
        rows, answered = [dict(row) for row in sheet], 0
        for row in rows:
            if chance.random() < 0.5:
                continue
            answered += 1
            what, trait = row["measurementType"], known.traits.get(row["measurementType"])
            remark = chance.choice(["", "near the water; two pairs", 'said "there", twice', "a\nsecond line"])
            if not what:
                row |= {"occurrenceStatus": chance.choice(["present", "absent", "detected", "notDetected", "Present"]), "occurrenceRemarks": remark}
            else:
                if trait:
                    value = chance.choice(["12", "3-5", "4,5"]) if trait.kind.is_numeric else chance.choice(list(trait.states))
                else:
                    aspect = ASPECTS[what]
                    value = chance.choice(aspect.answers or ({"width": "1,5", "gradient": "8 %", "permission-until": "2026-12-31"}.get(what, "3"),))
                row |= {"measurementValue": value, "measurementRemarks": remark}
        return rows, answered

    return fill


@often
@given(fill=filled(), delimiter=st.sampled_from([",", ";", "\t"]), mark=st.booleans())
def test_every_answer_that_the_sheet_offers_comes_back(
    read: Reading,
    sheet: list[dict[str, str]],
    penguin_workspace: Workspace,
    fill: Callable[..., tuple[list[dict[str, str]], int]],
    delimiter: str,
    mark: bool,
) -> None:
    """Saved with any separator that spreadsheets use, with or without the mark of UTF-8."""
    rows, answered = fill(sheet, penguin_workspace)
    recce, problems = read(as_text(rows, delimiter).encode("utf-8-sig" if mark else "utf-8"))
    assert problems == []
    assert len(all_seen(recce)) == answered
    assert {seen.on for seen in all_seen(recce)} <= {date(2026, 12, 10)}  # the day in the file's name
    plants = {(p.stop, p.taxon): p for p in recce.plants}
    for row in rows:
        if not row["measurementType"] and row["occurrenceStatus"]:
            plant = plants[row["locationID"], row["taxonID"]]
            assert plant.found == (row["occurrenceStatus"] in ("present", "detected", "Present"))
            assert plant.note == " ".join(row["occurrenceRemarks"].split())


ODD = st.sampled_from(
    ["", "?", "present", "absent", "9" * 30, "-1", "1-0", "2026-02-30", "05/06/2026", "flower", "65", "605", "round-mark", "round-marc", "12 cm",
     "NaN", "1e5", "²", "٣", "=1+1", "\0", "a\nb", '"', ";", "no", "all", "flooded", "adelie-penguin", "cheek-mark", "upper-stones", "gentoo penguin"]
)  # fmt: skip


@often
@given(data=st.data())
def test_no_answer_is_lost_whatever_a_cell_holds(read: Reading, sheet: list[dict[str, str]], data: st.DataObject) -> None:
    """Each line that holds an answer comes back as an observation or as a problem of that line, with what to do about it."""
    rows = [dict(row) for row in sheet]
    for _ in range(data.draw(st.integers(1, 8))):
        row = rows[data.draw(st.integers(0, len(rows) - 1))]
        row[data.draw(st.sampled_from(COLUMNS))] = data.draw(ODD)
    text = as_text(rows)
    recce, problems = read(text)
    assert_sound(problems, text)
    told = {seen.line for seen in all_seen(recce)} | {p.place.line for p in problems}
    starts, line = [], 2
    for row in rows:
        starts.append(line)
        line += 1 + sum(cell.count("\n") for cell in row.values())
    answers = [column for column in ANSWERS if column not in ("eventDate", "measurementUnit")]
    for row, start in zip(rows, starts, strict=True):
        if any(" ".join(row[column].split()) not in ("", "?") for column in answers):
            span = range(start, start + 1 + sum(cell.count("\n") for cell in row.values()))
            assert told & set(span), (start, row)


def assert_sound(problems: list[Problem], text: str | None = None) -> None:
    for problem in problems:
        assert problem.rule.startswith("recce-")
        assert problem.severity is RULES[problem.rule].severity is Severity.WARNING
        assert problem.message
        assert "\n" not in problem.message
        assert problem.hints, problem
        assert problem.place.line >= 1
        if text is not None:
            assert problem.place.text == text.replace("\r\n", "\n").replace("\r", "\n").split("\n")[problem.place.line - 1]
            assert 1 <= problem.place.column <= len(problem.place.text) + 1


@often
@given(data=st.data())
def test_no_mutilated_file_makes_reading_raise(read: Reading, sheet: list[dict[str, str]], data: st.DataObject) -> None:
    whole = as_text(sheet).encode()
    for _ in range(data.draw(st.integers(1, 5))):
        start, length = data.draw(st.integers(0, len(whole))), data.draw(st.integers(0, 60))
        whole = (
            whole[:start]
            + data.draw(st.binary(max_size=8) | st.sampled_from([b'"', b",", b";", b"\n", b"\r", b"\t", b"\xff"]))
            + whole[start + length :]
        )
    recce, problems = read(whole)
    assert recce.file == NAME
    assert_sound(problems)


@often
@given(text=st.text(st.characters(exclude_categories=["Cs"])))
def test_no_text_whatsoever_makes_reading_raise(read: Reading, text: str) -> None:
    assert_sound(read(text)[1])
    assert_sound(read(f"{HEAD}\n{text}")[1])


BAD = {
    "a stop misspelt": ("uper-stones,lantern-penguin,,,present,,,,,", "recce-row", "no stop `uper-stones`", "did you mean `upper-stones`?"),
    "no stop": (",lantern-penguin,,,present,,,,,", "recce-row", "names no stop", "the stops are"),
    "a profile misspelt": (
        "upper-stones,lantern-pengin,,,present,,,,,",
        "recce-row",
        "no profile `lantern-pengin`",
        "did you mean `lantern-penguin`?",
    ),
    "a trait misspelt": (
        "upper-stones,lantern-penguin,chek-mark,,,,round-mark,,,",
        "recce-row",
        "no trait `chek-mark`",
        "did you mean `cheek-mark`?",
    ),
    "a part there is not": ("upper-stones,lantern-penguin,cheek-mark,left,,,round-mark,,,", "recce-row", "not looked at on the part `left`", ""),
    "a question there is not": ("upper-stones,,nois,,,,quiet,,,", "recce-row", "nothing called `nois`", "did you mean `noise`?"),
    "neither plant nor question": ("upper-stones,,,,present,,,,,", "recce-row", "names neither", "fill taxonID"),
    "a state misspelt": (
        "upper-stones,lantern-penguin,cheek-mark,,,,round-marc,,,",
        "recce-answer",
        "no state `round-marc`",
        "did you mean `round-mark`?",
    ),
    "words for a number": ("upper-stones,lantern-penguin,bill-depth,,,,deep,,,", "recce-answer", "cannot read `deep`", "write a number in mm"),
    "grams for millimetres": ("upper-stones,lantern-penguin,bill-depth,,,,7,g,,", "recce-answer", "`7 g` is in `g`", "write a number in mm"),
    "neither present nor absent": (
        "upper-stones,lantern-penguin,,,there,,,,,",
        "recce-answer",
        "expected present or absent, found `there`",
        "write present",
    ),
    "a stage misspelt": ("upper-stones,lantern-penguin,,,present,flowrs,,,,", "recce-answer", "no stage `flowrs`", "as the column `answers`"),
    "a stage of what is absent": ("upper-stones,lantern-penguin,,,absent,flower,,,,", "recce-answer", "noted as absent, yet", "neither is taken"),
    "an answer of another question": ("upper-stones,,noise,,,,windy,,,", "recce-answer", "expected one of quiet, some, loud", ""),
    "a trait under the plant's columns": (
        "upper-stones,lantern-penguin,cheek-mark,,present,,,,,",
        "recce-answer",
        "answered under measurementValue",
        "move",
    ),
    "a plant under the trait's column": ("upper-stones,lantern-penguin,,,,,round-mark,,,", "recce-answer", "answered under occurrenceStatus", "move"),
    "a day as spreadsheets write it": (
        "upper-stones,lantern-penguin,,,present,,,,,10/12/2026",
        "recce-answer",
        "no such day `10/12/2026`",
        "set the column to text",
    ),
    "a day there is not": ("upper-stones,lantern-penguin,,,present,,,,,2026-11-31", "recce-answer", "no such day `2026-11-31`", ""),
    "a cell too many": (
        "upper-stones,lantern-penguin,,,present,,,,,,and more",
        "recce-row",
        "`and more` stands outside the columns",
        "quotation marks",
    ),
}


@pytest.mark.parametrize(("row", "rule", "message", "hint"), BAD.values(), ids=BAD)
def test_a_bad_cell_is_told_with_line_column_and_a_way_out(read: Reading, row: str, rule: str, message: str, hint: str) -> None:
    good = "pebble-beach,gentoo-penguin,,,present,,,,,"
    recce, problems = read(f"{HEAD}\n{good}\n{row}\n")
    (problem,) = problems
    assert (problem.rule, problem.place.file, problem.place.line) == (rule, NAME, 3)
    assert problem.place.text == row
    assert message in problem.message
    assert hint in " ".join(problem.hints)
    assert recce.plants[0].taxon == "gentoo-penguin"  # the good row is read all the same


def test_the_same_question_answered_twice_keeps_the_first_and_says_so(read: Reading) -> None:
    recce, (problem,) = read(f"{HEAD}\nupper-stones,,noise,,,,quiet,,,\nupper-stones,,noise,,,,loud,,,\n")
    assert [s.answer for s in recce.stops] == ["quiet"]
    assert "first in line 2" in problem.message


def test_a_day_holds_for_the_rows_below_it(read: Reading) -> None:
    rows = [
        "pebble-beach,,noise,,,,quiet,,,",
        "pebble-beach,,wind,,,,still,,,2026-12-09T08:40Z",
        "upper-stones,,noise,,,,loud,,,",
        "upper-stones,,wind,,,,still,,,2026-12-11",
    ]
    recce, problems = read("\n".join([HEAD, *rows]))
    assert problems == []
    assert [s.on.day for s in recce.stops if s.on] == [10, 9, 9, 11]


def test_numbers_are_read_in_their_own_unit_whatever_the_comma(read: Reading) -> None:
    rows = [
        'upper-stones,lantern-penguin,bill-depth,,,,"0,7 - 0,9 cm",,,',
        "upper-stones,lantern-penguin,bill-length,,,,2.4,cm,,",
        'upper-stones,,width,,,,"1,5",,,',
    ]
    recce, problems = read("\n".join([HEAD, *rows]))
    assert problems == []
    assert [t.span.bounds()[1:3] for t in recce.traits if t.span] == [(7, 9), (24, 24)]
    assert [s.answer for s in recce.stops] == [Decimal("1.5")]


@pytest.mark.parametrize("name", ["lantern penguin", "Lantern  Penguin"])
def test_a_plant_may_be_named_by_name_alone(read: Reading, name: str) -> None:
    recce, problems = read(f"locationID,taxonID,vernacularName,measurementType,occurrenceStatus\nupper-stones,,{name},,present\n")
    assert problems == []
    assert [p.taxon for p in recce.plants] == ["lantern-penguin"]


def test_two_names_that_differ_are_not_guessed_at(read: Reading) -> None:
    recce, (problem,) = read(
        "locationID,taxonID,scientificName,measurementType,occurrenceStatus\nupper-stones,lantern-penguin,Pygoscelis papua,,present\n"
    )
    assert recce.plants == ()
    assert "`Pygoscelis papua` is not a name of `lantern-penguin`" in problem.message


def test_the_files_beside_a_trail_are_read_with_it_and_stop_nothing(copy_of: Callable[[Path], Path], penguins: Path) -> None:
    folder = copy_of(penguins)
    (folder / "colony_walk" / "recce-2026-12-09.csv").write_text(f"{HEAD}\nupper-stones,lantern-penguin,,,present,,,,,\n", encoding="utf-8")
    (folder / "colony_walk" / "recce-2026-12-10.csv").write_text(f"{HEAD}\nupper-stone,lantern-penguin,,,present,,,,,\n", encoding="utf-8")
    loaded = load(folder)
    assert loaded.workspace
    assert [r.file for r in loaded.workspace.trails["colony_walk"].recces] == [f"colony_walk/recce-2026-12-{day}.csv" for day in ("09", "10")]
    assert [(p.rule, p.place.file, p.place.line) for p in loaded.problems] == [("recce-row", "colony_walk/recce-2026-12-10.csv", 2)]


# tdwg/dwc at 4f1cb23, vocabulary/term_versions.csv: terms of Darwin Core that stand for what is asked here.
DARWIN_CORE = {
    "eventDate", "scientificName", "vernacularName", "occurrenceStatus", "lifeStage", "occurrenceRemarks", "locality", "locationID", "fieldNumber",
    "taxonID", "measurementType", "measurementValue", "measurementUnit", "measurementRemarks",
    "decimalLatitude", "decimalLongitude", "geodeticDatum", "coordinateUncertaintyInMeters",
}  # fmt: skip


def test_columns_have_the_names_of_darwin_core_where_it_has_one() -> None:
    assert set(KNOWN) - DARWIN_CORE == {"question", "answers", "part"}
    assert set(KNOWN) >= DARWIN_CORE


def test_names_in_a_sheet_carry_their_authors(sheet: list[dict[str, str]]) -> None:
    """Darwin Core: scientificName is the full name, with authorship if known."""
    assert {row["scientificName"] for row in sheet} == {
        "", "Pygoscelis adeliae (Hombron & Jacquinot)", "Pygoscelis papua (Forster)", "Pygoscelis ficta Invented",
    }  # fmt: skip
