"""The columns of a maker's own sheet: its heading, which of its columns are weights, and how they go together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Literal, NamedTuple

from saponary.book.sheet_numbers import Mark, amount, is_unit, unit_in
from saponary.book.sheet_words import column
from saponary.quantity.units import MASS
from saponary.reading.grid import Grid

NOTHING = ("-", "–", "—")
"""How a sheet says that a cell is empty."""
_ROUNDED = Fraction(1, 50)
"""How far two columns of the same weights may be apart, for rounding. Common practice, no source."""
_MOST = {("lb", "oz"): 16, ("kg", "g"): 1000}
"""So many of the smaller unit are one of the greater."""


class Columns(NamedTuple):
    """Where a table's heading stands, and its columns; `unit` is that of the weights, `others` are more columns of
    weights with their units."""

    row: int
    name: int
    weight: int | None
    share: int | None
    unit: str
    id: int | None = None
    others: tuple[tuple[int, str], ...] = ()


def heads(grid: Grid) -> Iterator[Columns]:
    """Every row that is a heading."""
    for at in range(len(grid.rows)):
        meant = [column(text) if text.strip() else None for text in grid.rows[at]]
        if "name" in meant and ("weight" in meant or "share" in meant):
            yield _columns(grid, at, meant)


def _columns(grid: Grid, at: int, meant: Sequence[str | None]) -> Columns:
    name = meant.index("name")
    weights = [i for i, what in enumerate(meant) if what == "weight"]
    units = {where: _unit(grid, at, where, name) for where in weights}
    weight = next((i for i in weights if unit_in(grid.cell(at, i)) == "g"), weights[0] if weights else None)
    return Columns(
        row=at,
        name=name,
        weight=weight,
        share=meant.index("share") if "share" in meant else None,
        unit=units[weight] if weight is not None else "g",
        id=meant.index("id") if "id" in meant else None,
        others=tuple((where, unit) for where, unit in units.items() if where != weight),
    )


def _unit(grid: Grid, at: int, where: int, name: int) -> str:
    """The unit of a column, in its heading or alone in the cell below."""
    below = unit_in(grid.cell(at + 1, where)) if not grid.cell(at + 1, name) else None
    unit = unit_in(grid.cell(at, where)) or below or "g"
    return "g" if unit == "%" else unit


def together(
    grid: Grid, columns: Columns, other: tuple[int, str], end: int, mark: Mark | None
) -> Literal["same", "parts", "apart"]:
    """How another column of weights goes with the first: the same weights in another unit, the rest of each (pounds
    and ounces), or weights of its own."""
    where, unit = other
    assert columns.weight is not None
    pairs: list[tuple[Fraction, Fraction]] = []
    for at in range(columns.row + 1, end):
        one, two = _value(grid, at, columns.weight, mark), _value(grid, at, where, mark)
        if one is not None or two is not None:
            pairs.append((one or Fraction(0), two or Fraction(0)))
    if not any(two for _, two in pairs):
        return "same"
    grams = [(one * Fraction(MASS[columns.unit]), two * Fraction(MASS[unit])) for one, two in pairs]
    if all(abs(one - two) <= _ROUNDED * max(one, two) for one, two in grams):
        return "same"
    return "parts" if _parted(columns.unit, unit, pairs) else "apart"


def _parted(unit: str, other: str, pairs: Sequence[tuple[Fraction, Fraction]]) -> bool:
    """Whether whole ones of a great unit stand in one column, and what is left in a smaller one in the other."""
    for (great, small), most in _MOST.items():
        if {unit, other} == {great, small}:
            rows = [pair if unit == great else pair[::-1] for pair in pairs]
            return all(whole.denominator == 1 and rest < most for whole, rest in rows)
    return False


def _value(grid: Grid, at: int, where: int, mark: Mark | None) -> Fraction | None:
    text = grid.cell(at, where)
    if not text or text in NOTHING or is_unit(text):
        return None
    found = amount(text, mark)
    return found.value if found is not None and found.unit != "%" else None
