"""What the page of things to print shows: everything that is made for paper, by trail and date, with its size and its pages."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from math import ceil

from twayblade.writing.addresses import key_address, recce_address, script_print_address
from twayblade.writing.fitting import PrintForm
from twayblade.writing.labels import Labels
from twayblade.writing.print import Printed
from twayblade.writing.registers import ScriptForm


@dataclass(frozen=True)
class Printable:
    """A file to print or to keep: what it is, its address, kilobytes of a thousand bytes (upwards), pages if it has any, and remarks (told)."""

    words: str
    address: str
    kilobytes: int
    pages: int | None
    remarks: str = ""


def printables(
    trail: str,
    on: date,
    keys: Mapping[PrintForm, Printed],
    scripts: Mapping[ScriptForm, bytes],
    recce: tuple[bytes, bytes],
    label: Labels,
) -> tuple[Printable, ...]:
    """Everything made for paper for a date of a trail. scripts: PDFs of its script. recce: its sheet as PDF and as a table (CSV)."""
    found = [
        _printable(label.plain(f"print.{form.value}"), key_address(trail, on, "pdf", form.marked), printed.pdf, " ".join(printed.remarks))
        for form, printed in keys.items()
    ]
    found += [
        _printable(label.plain(f"script_print.{form.value}"), script_print_address(trail, on, form.value), pdf) for form, pdf in scripts.items()
    ]
    sheet, table = recce
    found.append(_printable(label.plain("printed.recce"), recce_address(trail, on, "pdf"), sheet))
    found.append(_printable(label.plain("printed.recce_table"), recce_address(trail, on, "csv"), table))
    return tuple(found)


def _printable(words: str, address: str, content: bytes, remarks: str = "") -> Printable:
    return Printable(words, address, kilobytes(content), pages_of(content) if address.endswith(".pdf") else None, remarks)


def kilobytes(content: bytes) -> int:
    """The size of a file in kB of a thousand bytes, upwards."""
    return ceil(len(content) / 1000)


def pages_of(pdf: bytes) -> int:
    """How many pages a PDF has that typst has written, which keeps its page objects in plain sight (ISO 32000-1, 7.7.3.3)."""
    return len(re.findall(rb"/Type\s*/Page\b", pdf))
