"""A maker's own table as a grid of texts, from comma- or otherwise separated text (RFC 4180) or a workbook.

Every cell keeps its row and column, so that what is said of it can name its place.
"""

from __future__ import annotations

import csv
import io
import warnings
import zipfile
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from saponary.reading.findings import Finding, Place

MOST_BYTES = 10_000_000
MOST_CELLS = 200_000
_MOST_GAINED = 12_000_000
"""Bytes that a workbook may grow by when it is unpacked: it is an archive, and little of it may be very much."""
_SHOWN = 60
_DELIMITERS = ";\t|,"


@dataclass(frozen=True)
class Grid:
    """One table: the file it stands in, its name there, and its rows from the top."""

    file: str
    name: str
    rows: tuple[tuple[str, ...], ...]
    listed_from: int | None = None
    """Where it was made of a list, one cell a row: the row of the heading that was put in."""
    semicolons: bool = False
    """Whether its cells are parted by semicolons, as where a comma parts decimals."""

    def cell(self, row: int, column: int) -> str:
        """The text of a cell, from nought; empty beyond the end."""
        line = self.rows[row] if row < len(self.rows) else ()
        return line[column].strip() if 0 <= column < len(line) else ""

    def told(self, row: int, column: int) -> str:
        """What a cell holds, for a message: in quotes, and no longer than a line."""
        text = self.cell(row, column)
        return repr(text if len(text) <= _SHOWN else f"{text[:_SHOWN]}…")

    def place(self, row: int, column: int = 0) -> Place:
        """Where a cell stands: its row and its column, from one."""
        if self.listed_from is not None:
            return Place(self.file, row + (row <= self.listed_from))
        return Place(self.file, row + 1, column + 1)


def read_grids(data: bytes, file: str, name: str) -> tuple[list[Grid], list[Finding]]:
    """The tables in a file's bytes, and what stands in the way of reading them. `name` is the file's, bare."""
    if len(data) > MOST_BYTES:
        return [], [_too_large(file, f"at most {MOST_BYTES // 1_000_000} MB")]
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
        return [], [*found, _too_large(file, _CELLS)]
    return [Grid(file, name, rows, semicolons=delimiter == ";")], found


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
        if _gained(data) > _MOST_GAINED:
            return [], [_too_large(file, "save the sheet with the recipes alone")]
        with warnings.catch_warnings():
            # The library prints what it makes of styles, and of parts that are lacking.
            warnings.simplefilter("ignore")
            book = openpyxl.load_workbook(io.BytesIO(data), read_only=True, data_only=True)
            grids = [Grid(file, str(sheet.title), rows) for sheet, rows in _sheets(book.worksheets)]
    except _TooManyCells:
        return [], [_too_large(file, f"{_CELLS}; delete what stands far from the table")]
    except Exception as error:  # the library raises whatever a broken archive makes it raise
        return [], [
            _fault(file, f"this workbook cannot be read: {type(error).__name__}", "save the table as CSV")
        ]
    return [grid for grid in grids if any(any(row) for row in grid.rows)], []


class _TooManyCells(Exception):
    """A workbook has more cells than are read."""


def _gained(data: bytes) -> int:
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        return sum(part.file_size - part.compress_size for part in archive.infolist())


def _sheets(worksheets: Iterable[Any]) -> Iterator[tuple[Any, tuple[tuple[str, ...], ...]]]:
    """Each sheet with its rows, as wide as what is in them: what a sheet says of its own size may be wrong."""
    cells = 0
    for sheet in worksheets:
        sheet.reset_dimensions()
        rows: list[tuple[str, ...]] = []
        for row in sheet.iter_rows(values_only=True):
            cells += max(1, len(row))
            if cells > MOST_CELLS:
                raise _TooManyCells
            rows.append(tuple(map(_said, row)))
        yield sheet, tuple(rows)


def _said(value: object) -> str:
    """A cell's value as text; a whole number without its point."""
    if value is None:
        return ""
    if isinstance(value, float):
        return repr(int(value)) if value.is_integer() else repr(round(value, 6))
    return str(value)


_CELLS = f"at most {MOST_CELLS} cells"


def _too_large(file: str, hint: str) -> Finding:
    return _fault(file, "this table is too large", hint)


def _fault(file: str, message: str, hint: str) -> Finding:
    return Finding("reading", "error", Place(file), message, hint)
