"""Tables are read as Python's own csv module reads them; besides, every cell knows its place."""

from __future__ import annotations

import csv
from io import StringIO

import pytest
from hypothesis import given
from hypothesis import strategies as st

from twayblade.reading.table import DELIMITERS, read_table

SIGNS = st.text(st.sampled_from('ab ,;\t"\n=é|'), max_size=40)


def as_csv(text: str, delimiter: str) -> list[list[str]]:
    """The csv module, not strict: it knows nothing of this project."""
    return [row for row in csv.reader(StringIO(text, newline=""), delimiter=delimiter) if row]


@given(text=SIGNS, delimiter=st.sampled_from(DELIMITERS))
def test_any_heap_of_signs_is_read_as_the_csv_module_reads_it(text: str, delimiter: str) -> None:
    table = read_table(text, delimiter)
    assert [[cell.text for cell in row] for row in table.rows] == as_csv(text, delimiter)


@given(rows=st.lists(st.lists(st.text(st.characters(exclude_characters="\r\0", exclude_categories=["Cs"])), min_size=2, max_size=4), max_size=4))
def test_what_the_csv_module_writes_comes_back(rows: list[list[str]]) -> None:
    written = StringIO(newline="")
    csv.writer(written, lineterminator="\n").writerows(rows)
    table = read_table(written.getvalue())
    assert [[cell.text for cell in row] for row in table.rows] == rows
    assert table.unclosed is None


@given(text=SIGNS)
def test_a_cell_begins_where_it_says(text: str) -> None:
    """What stands there is the cell's first sign, or the quotation mark before it, or what ends an empty cell."""
    lines = text.split("\n")
    for row in read_table(text).rows:
        for cell in row:
            rest = "\n".join([lines[cell.line][cell.column :], *lines[cell.line + 1 :]])
            assert rest.startswith((cell.text, '"')) or (not cell.text and rest[:1] in ("", ",", "\n"))


def test_a_mark_that_is_never_closed_is_told() -> None:
    unclosed = read_table('a,b\nc,"d\ne,f\n').unclosed
    assert unclosed
    assert (unclosed.line, unclosed.column) == (1, 2)


@pytest.mark.parametrize("text", ["", "\n", "\n\n\n"])
def test_nothing_is_no_rows(text: str) -> None:
    assert read_table(text).rows == ()
