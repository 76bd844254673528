"""A maker's own table as a grid of texts, from comma- or otherwise separated text (RFC 4180) or a workbook.

Every cell keeps its row and column, so that what is said of it can name its place.
"""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass

from saponary.reading.findings import Finding, Place

MOST_CELLS = 200_000
_DELIMITERS = ";\t|,"


@dataclass(frozen=True)
class Grid:
    """One table: the file it stands in, its name there, and its rows from the top."""

    file: str
    name: str
    rows: tuple[tuple[str, ...], ...]
    semicolons: bool = False
    """Whether its cells are parted by semicolons, as where a comma parts decimals."""

    def cell(self, row: int, column: int) -> str:
        """The text of a cell, from nought; empty beyond the end."""
        line = self.rows[row] if row < len(self.rows) else ()
        return line[column].strip() if 0 <= column < len(line) else ""

    def place(self, row: int, column: int = 0) -> Place:
        """Where a cell stands: its row and its column, from one."""
        return Place(self.file, row + 1, column + 1)


def read_grids(data: bytes, file: str, name: str) -> tuple[list[Grid], list[Finding]]:
    """The tables in a file's bytes, and what stands in the way of reading them. `name` is the file's, bare."""
    if data.startswith(b"PK\x03\x04"):
        return _workbook(data, file)
    text, found = _text(data, file)
    if text is None:
        return [], found
    delimiter = _delimiter(text)
    try:
        rows = tuple(tuple(row) for row in csv.reader(io.StringIO(text, newline=""), delimiter=delimiter))
    except csv.Error as error:
        return [], [*found, _fault(file, f"this table cannot be read: {error}", "save it as CSV anew")]
    if sum(map(len, rows)) > MOST_CELLS:
        return [], [*found, _fault(file, "this table is too large", f"at most {MOST_CELLS} cells")]
    return [Grid(file, name, rows, delimiter == ";")], found


def _text(data: bytes, file: str) -> tuple[str | None, list[Finding]]:
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        codes: tuple[str, ...] = ("utf-16",)
    elif b"\0" in data:
        return None, [
            _fault(file, "this is not a text file", "save the table as CSV, or as a workbook (.xlsx)")
        ]
    else:
        codes = ("utf-8-sig", "cp1252")
    for code in codes:
        try:
            text = data.decode(code)
        except UnicodeDecodeError:
            continue
        told = "this table is not in UTF-8; it was read as Windows-1252"
        hint = "look whether letters with accents came out right"
        return text, [Finding("reading", "warning", Place(file), told, hint)] if code == "cp1252" else []
    return None, [_fault(file, "this table is in no encoding known here", "save it as CSV in UTF-8")]


def _delimiter(text: str) -> str:
    """The mark that parts the most lines alike; of two that do, the rarer in prose."""

    def parted(mark: str) -> int:
        rows = csv.reader(io.StringIO(text, newline=""), delimiter=mark)
        try:
            widths = [len(row) for row in rows if any(cell.strip() for cell in row)]
        except csv.Error:
            return 0
        return max((widths.count(width) for width in set(widths) if width > 1), default=0)

    return max(_DELIMITERS, key=parted) if any(map(parted, _DELIMITERS)) else ","


def _workbook(data: bytes, file: str) -> tuple[list[Grid], list[Finding]]:
    try:
        import openpyxl
    except ImportError:
        hint = "run: pip install openpyxl, or save the table as CSV"
        return [], [_fault(file, "a workbook needs the library openpyxl", hint)]
    try:
        book = openpyxl.load_workbook(io.BytesIO(data), read_only=True, data_only=True)
        grids = [
            Grid(
                file,
                str(sheet.title),
                tuple(tuple(map(_said, row)) for row in sheet.iter_rows(values_only=True)),
            )
            for sheet in book.worksheets
        ]
    except Exception as error:  # the library raises whatever a broken archive makes it raise
        return [], [
            _fault(file, f"this workbook cannot be read: {type(error).__name__}", "save the table as CSV")
        ]
    return [grid for grid in grids if any(any(row) for row in grid.rows)], []


def _said(value: object) -> str:
    """A cell's value as text; a whole number without its point."""
    if value is None:
        return ""
    if isinstance(value, float):
        return repr(int(value)) if value.is_integer() else repr(round(value, 6))
    return str(value)


def _fault(file: str, message: str, hint: str) -> Finding:
    return Finding("reading", "error", Place(file), message, hint)
