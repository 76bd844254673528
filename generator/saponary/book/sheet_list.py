"""A recipe written as a list, one ingredient a line: `450 g olive oil`, `olive oil: 450 g`."""

from __future__ import annotations

import re
from dataclasses import replace

from saponary.book.sheet_numbers import is_unit
from saponary.reading.grid import Grid

_NUMBER = r"\d[\d.,'\u2019\u00a0\u202f]*"
_BEFORE = re.compile(rf"(?P<number>{_NUMBER})\s*(?P<unit>%|[^\W\d]+)?\s+(?:of |d'|de |di )?(?P<name>[^\d].*)")
_AFTER = re.compile(rf"(?P<name>[^\d].*?)[\s:.…=–-]+(?P<number>{_NUMBER})\s*(?P<unit>%|[^\W\d]+)?")
_FEWEST, _LONGEST = 3, 120
"""So many lines with amounts make a list; letters of a line that may hold one."""


def as_table(grid: Grid) -> Grid | None:
    """The same as a table of names and weights, row by row; None where it is no such list."""
    rows = [[cell for cell in line if cell.strip()] for line in grid.rows]
    if any(len(row) > 1 for row in rows):
        return None
    parts = [_parted(row[0].strip()) if row else ("", "") for row in rows]
    first = next((at for at, (_, amount) in enumerate(parts) if amount), 0)
    if sum(bool(amount) for _, amount in parts) < _FEWEST:
        return None
    return replace(
        grid, rows=(*grid.rows[:first], ("ingredient", "weight"), *parts[first:]), listed_from=first
    )


def _parted(line: str) -> tuple[str, str]:
    """The name and the amount of a line; the whole of it as a name where it has no amount."""
    for pattern in (_BEFORE, _AFTER) if len(line) <= _LONGEST else ():
        found = pattern.fullmatch(line)
        if found and (not found["unit"] or is_unit(found["unit"])):
            return found["name"], f"{found['number']} {found['unit'] or ''}".strip()
    return line, ""
