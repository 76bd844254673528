"""A recipe from a maker's own sheet: a table of names and weights, wherever in the sheet it stands.

Every row with a number becomes part of the recipe, or a finding that names its cell: nothing is
dropped unsaid, and no name is guessed at.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from fractions import Fraction

from saponary.book.sheet_columns import NOTHING, Columns, heads, together
from saponary.book.sheet_list import as_table
from saponary.book.sheet_numbers import Amount, Mark, amount, decimal_mark, is_unit
from saponary.book.sheet_words import Names, column, row, superfat_said
from saponary.quantity.rounding import as_decimal
from saponary.reading.findings import Finding, suggest
from saponary.reading.grid import Grid

ALKALIS = ("sodium-hydroxide", "potassium-hydroxide")
_ENDS = 2
"""So many empty rows end a table."""
_MOST_TABLES, _MOST_TOLD = 200, 100
"""Tables of one sheet that are read, and rows of a table that are found fault with."""


@dataclass
class Sheet:
    """What a table says of one recipe, in grams; `superfat` is a share, `unit` what its weights are written in,
    `water_share` water given as a share of the oils.
    `oils` by id, in the sheet's order."""

    title: str
    at: int
    unit: str = "g"
    oils: dict[str, Fraction] = field(default_factory=dict[str, Fraction])
    shares: dict[str, Fraction] = field(default_factory=dict[str, Fraction])
    liquids: dict[str, Fraction] = field(default_factory=dict[str, Fraction])
    additions: dict[str, Fraction] = field(default_factory=dict[str, Fraction])
    alkali: dict[str, Fraction] = field(default_factory=dict[str, Fraction])
    water: Fraction | None = None
    water_share: Fraction | None = None
    superfat: Fraction | None = None
    strength: Fraction | None = None
    findings: list[Finding] = field(default_factory=list[Finding])


def sheets(grid: Grid, names: Names) -> tuple[list[Sheet], list[Finding]]:
    """Every table of a grid that can be a recipe."""
    texts = [cell for line in grid.rows for cell in line if cell]
    mark = decimal_mark(texts, grid.semicolons)
    columns = list(heads(grid))
    if not columns:
        listed = as_table(grid)
        return sheets(listed, names) if listed is not None else ([], [_none(grid, names)])
    ends = [*(head.row for head in columns[1:]), len(grid.rows)]
    told: list[Finding] = []
    if len(columns) > _MOST_TABLES:
        hint = "bring the others in by a table of their own"
        said = f"more than {_MOST_TABLES} tables stand here; from this one on none was read"
        told.append(_fault(grid, columns[_MOST_TABLES].row, 0, said, hint))
        columns = columns[:_MOST_TABLES]
    found = [_Reader(grid, names, mark, head).read(end) for head, end in zip(columns, ends, strict=False)]
    return [one for one in found if one.oils or one.shares or one.findings], told


def _none(grid: Grid, names: Names) -> Finding:
    for at, line in enumerate(grid.rows[:_LOOKED_AT]):
        named = (
            names.of(cell) is not None or row(cell) is not None for cell in line[:_LOOKED_AT] if cell.strip()
        )
        if sum(named) >= _SIDE_BY_SIDE:
            told = "the ingredients stand side by side here, and a recipe is read from one below the other"
            return _fault(
                grid, at, 0, told, "turn rows and columns round: one ingredient a row, its weight beside it"
            )
    hint = "give it a row of headings, such as: ingredient, grams"
    return _fault(grid, 0, 0, "no table of names and weights is found here", hint)


_SIDE_BY_SIDE, _LOOKED_AT = 3, 30
"""So many names in one row are its heading; rows, and cells of each, that are looked at."""
_MOST_WATER = Fraction(3, 2)
"""More water than one and a half times the oils is no share of them. Common practice, no source."""


class _Reader:
    """Reads one table, row by row."""

    def __init__(self, grid: Grid, names: Names, mark: Mark | None, columns: Columns) -> None:
        self._grid, self._names, self._columns = grid, names, columns
        self._mark: Mark | None = mark
        self._sheet = Sheet(_title(grid, columns.row), columns.row, columns.unit)
        self._rest: tuple[int, str] | None = None
        """The column that holds the rest of each weight, and its unit."""

    def read(self, end: int) -> Sheet:
        for other in self._columns.others:
            self._beside(other, end)
        self._rows(end)
        if self._sheet.superfat is None:
            self._sheet.superfat = superfat_said(self._sheet.title)
        return self._sheet

    def _beside(self, other: tuple[int, str], end: int) -> None:
        """Another column of weights."""
        how = together(self._grid, self._columns, other, end, self._mark)
        at, taken = self._columns.row, self._columns.weight or 0
        if how == "parts":
            self._rest = other
        elif how == "apart":
            told = f"the weights of {self._grid.cell(at, other[0])!r} are left out, those of {self._grid.cell(at, taken)!r} are taken"
            self._remarked(
                at, other[0], told, "where they are a recipe of their own, write that in a table of its own"
            )

    def _rows(self, end: int) -> None:
        empty = 0
        for at in range(self._columns.row + 1, end):
            if not any(cell.strip() for cell in self._grid.rows[at]):
                empty += 1
                continue
            if empty >= _ENDS and not self._grid.cell(at, self._columns.name):
                break
            empty = 0
            if len(self._sheet.findings) >= _MOST_TOLD:
                said = f"{_MOST_TOLD} rows above are found fault with; from here on none was read"
                self._told(at, 0, said, "look at those first")
                break
            self._row(at)

    def _row(self, at: int) -> None:
        name = self._grid.cell(at, self._columns.name)
        found, where = self._amount(at)
        meant = row(name) if name else None
        if meant in ("superfat", "strength"):
            self._setting(at, meant)
        elif meant in ("total", "heading") or (found is None and where is None):
            self._heading(at, name, meant)
        elif found is None:
            self._told(
                at, where, f"{self._grid.told(at, where or 0)} is not an amount", "such as 450 g, or 450"
            )
        elif not name:
            if found.value and not self._is_sum(found):
                self._told(
                    at,
                    self._columns.name,
                    "this amount has no name beside it",
                    "name the ingredient, or call it a total",
                )
        elif found.value < 0:
            self._told(at, where, "this amount is below zero", "weights are above zero")
        else:
            self._placed(at, where or 0, name, meant, found)

    def _is_sum(self, found: Amount) -> bool:
        """Whether an amount without a name is that of the oils, or of all that stands above it."""
        sheet = self._sheet
        oils = sum(sheet.oils.values(), Fraction(0))
        parts = (
            *sheet.liquids.values(),
            *sheet.additions.values(),
            *sheet.alkali.values(),
            sheet.water or Fraction(0),
        )
        grams = found.grams(self._columns.unit) if found.unit != "%" else Fraction(0)
        return any(
            whole > 0 and abs(grams - whole) <= whole / 100
            for whole in (oils, oils + sum(parts, Fraction(0)))
        )

    def _amount(self, at: int) -> tuple[Amount | None, int | None]:
        """The amount of a row, and its column; the share where there is not a weight."""
        for where in (self._columns.weight, self._columns.share):
            text = self._grid.cell(at, where) if where is not None else ""
            if text and text not in NOTHING and not is_unit(text):
                return self._with_rest(at, amount(text, self._mark), where), where
        return self._with_rest(at, None, None), self._rest[0] if self._rest else None

    def _with_rest(self, at: int, found: Amount | None, where: int | None) -> Amount | None:
        """A weight of whole pounds with the ounces that stand beside it."""
        if self._rest is None or where not in (self._columns.weight, None):
            return found
        more = amount(self._grid.cell(at, self._rest[0]), self._mark)
        if more is None or more.unit == "%":
            return found
        grams = more.grams(self._rest[1]) + (found.grams(self._columns.unit) if found is not None else 0)
        return Amount(grams, "g")

    def _heading(self, at: int, name: str, meant: str | None) -> None:
        """A row without an amount: a heading or a note, unless it names something that is weighed."""
        if meant is None and self._names.of(name) is not None and self._columns.weight is not None:
            self._told(
                at,
                self._columns.weight,
                f"{self._named(at)} has no weight",
                "give its weight, or take the row out",
            )

    def _setting(self, at: int, meant: str) -> None:
        """Superfat or strength of the lye, in whatever column of its row."""
        for where in range(self._columns.name + 1, len(self._grid.rows[at])):
            found = amount(self._grid.cell(at, where), self._mark) if self._grid.cell(at, where) else None
            if found is not None:
                share = found.value / 100 if found.unit == "%" or found.value >= 1 else found.value
                if meant == "superfat":
                    self._sheet.superfat = share
                else:
                    self._sheet.strength = share
                return
        self._told(at, self._columns.name, f"the {meant} has no number", "such as 5 %")

    def _placed(self, at: int, where: int, name: str, meant: str | None, found: Amount) -> None:
        if found.doubtful:
            digits = self._grid.told(at, where)
            plain, thousand = found.value, found.value * 1000
            either = f"{as_decimal(float(plain), 6)} or {as_decimal(float(thousand), 6)}"
            hint = f"it may be {either}; write it without the mark, or with a decimal"
            return self._told(at, where, f"{digits} can be read in two ways", hint)
        share = found.unit == "%" or (where == self._columns.share and where != self._columns.weight)
        grams = found.value / 100 if share else found.grams(self._columns.unit)
        if meant == "water" and share:
            self._water_share(at, where, grams)
        elif meant == "water":
            self._sheet.water = (self._sheet.water or 0) + grams
        elif meant in ALKALIS and share:
            self._remarked(
                at,
                where,
                f"{self._named(at)} has a share and no weight",
                "the engine works the lye out; compare it",
            )
        elif meant in ALKALIS:
            self._sheet.superfat = self._sheet.superfat or superfat_said(name)
            self._sheet.alkali[meant] = self._sheet.alkali.get(meant, Fraction(0)) + grams
        else:
            self._ingredient(at, name, grams, share=share)
        return None

    def _water_share(self, at: int, where: int, share: Fraction) -> None:
        """Sheets that give shares give them of the oils, water's too."""
        if not 0 < share < _MOST_WATER:
            hint = "give its weight, or the strength of the lye"
            return self._told(
                at, where, f"{self._grid.told(at, where)} of water is not a share of the oils", hint
            )
        self._sheet.water_share = share
        return None

    def _remarked(self, at: int, where: int, message: str, hint: str) -> None:
        self._sheet.findings.append(replace(_fault(self._grid, at, where, message, hint), severity="warning"))

    def _ingredient(self, at: int, name: str, grams: Fraction, *, share: bool) -> None:
        id = self._grid.cell(at, self._columns.id) if self._columns.id is not None else ""
        known = (self._names.by_id(id) if id else None) or self._names.of(name)
        if known is None:
            every = self._names.every()
            self._told(
                at,
                self._columns.name,
                f"{self._named(at)} is not known here",
                suggest(name, every, "ingredients"),
            )
        elif share and known[0] != "oil":
            self._told(
                at, self._columns.name, f"{self._named(at)} has a share and no weight", "give its weight"
            )
        else:
            kinds = {"oil": self._sheet.shares if share else self._sheet.oils, "liquid": self._sheet.liquids}
            into = kinds.get(known[0], self._sheet.additions)
            into[known[1]] = into.get(known[1], Fraction(0)) + grams

    def _named(self, at: int) -> str:
        """The name in a row, for a message."""
        return self._grid.told(at, self._columns.name)

    def _told(self, at: int, where: int | None, message: str, hint: str) -> None:
        self._sheet.findings.append(_fault(self._grid, at, where or 0, message, hint))


def _title(grid: Grid, head: int) -> str:
    """The words that stand alone in a row just above the table, or the table's own name."""
    for at in range(head - 1, max(head - 5, -1), -1):
        texts = [cell.strip() for cell in grid.rows[at] if cell.strip()]
        if len(texts) == 1 and any(c.isalpha() for c in texts[0]) and len(texts[0]) <= 60:
            return texts[0]
        if len(texts) > 1 and not all(column(text) or row(text) for text in texts):
            break
    return grid.name


def _fault(grid: Grid, at: int, where: int, message: str, hint: str) -> Finding:
    return Finding("reading", "error", grid.place(at, where), message, hint)
