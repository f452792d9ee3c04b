"""Tables of comma-separated values, each cell with its place. RFC 4180, read as leniently as spreadsheets write it."""

from __future__ import annotations

from dataclasses import dataclass

DELIMITERS = (",", ";", "\t")
"""What stands between cells: a spreadsheet set to a language that writes 1,5 saves with semicolons."""


@dataclass(frozen=True)
class Cell:
    """A cell: its text without quotation marks, and where it begins (line and column from 0)."""

    text: str
    line: int
    column: int


@dataclass(frozen=True)
class Table:
    """The rows of a file, empty lines left out. unclosed: the cell whose quotation mark is never closed, if there is one."""

    rows: tuple[tuple[Cell, ...], ...]
    unclosed: Cell | None


class _Reader:
    """Reads a text sign by sign, keeping the place."""

    def __init__(self, text: str, delimiter: str) -> None:
        self.text, self.delimiter = text, delimiter
        self.at, self.line, self.column = 0, 0, 0
        self.unclosed: Cell | None = None

    @property
    def sign(self) -> str:
        """The sign that comes next; empty at the end."""
        return self.text[self.at : self.at + 1]

    def step(self) -> str:
        sign = self.sign
        self.at += 1
        self.line, self.column = (self.line + 1, 0) if sign == "\n" else (self.line, self.column + 1)
        return sign

    def rows(self) -> Table:
        found: list[tuple[Cell, ...]] = []
        while self.sign:
            if self.sign == "\n":
                self.step()
            else:
                found.append(self.row())
        return Table(tuple(found), self.unclosed)

    def row(self) -> tuple[Cell, ...]:
        cells = [self.cell()]
        while self.sign == self.delimiter:
            self.step()
            cells.append(self.cell())
        if self.sign:
            self.step()
        return tuple(cells)

    def cell(self) -> Cell:
        line, column = self.line, self.column
        text, is_closed = self.quoted() if self.sign == '"' else ("", True)
        while self.sign and self.sign != "\n" and self.sign != self.delimiter:
            text += self.step()
        cell = Cell(text, line, column)
        self.unclosed = self.unclosed if is_closed else cell
        return cell

    def quoted(self) -> tuple[str, bool]:
        """The text between quotation marks, of which two stand for one, and whether it is ever closed."""
        self.step()
        text = ""
        while self.sign:
            sign = self.step()
            if sign == '"':
                if self.sign != '"':
                    return text, True
                self.step()
            text += sign
        return text, False


def read_table(text: str, delimiter: str = ",") -> Table:
    """The cells of a text whose lines end in a single line feed."""
    return _Reader(text, delimiter).rows()
