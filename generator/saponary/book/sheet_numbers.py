"""Numbers as a maker's sheet has them: with a decimal point or a comma, with a unit in the cell or above it."""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction
from typing import Literal, NamedTuple

from saponary.book.sheet_words import folded
from saponary.quantity.units import MASS

Mark = Literal[".", ","]
_NUMBER = re.compile(r"[-+]?\d[\d.,'\u2019\u00a0\u202f ]*")
_PLAIN = re.compile(r"[-+]?\d+(\.\d*)?")
_LONGEST, _LARGEST = 30, 10**9
"""Signs of a number, and what it may come to; no weight at a bench has more."""
_UNITS = {
    "g": "g", "gr": "g", "gram": "g", "grams": "g", "gramm": "g", "gramme": "g", "grammes": "g", "gramos": "g", "gramo": "g",
    "grammi": "g", "grammo": "g", "gms": "g", "kg": "kg", "kilo": "kg", "kilos": "kg", "oz": "oz", "ounce": "oz", "ounces": "oz",
    "onces": "oz", "onzas": "oz", "unzen": "oz", "oz wt": "oz", "oz by weight": "oz", "gramas": "g", "lb": "lb", "lbs": "lb", "pounds": "lb", "pound": "lb", "mg": "mg", "%": "%",
}  # fmt: skip


class Amount(NamedTuple):
    """A number with its unit, None where none is written. `doubtful` where a comma or a point may part thousands."""

    value: Fraction
    unit: str | None
    doubtful: bool = False

    def grams(self, unit: str) -> Fraction:
        """In grams; `unit` is that of its column."""
        return self.value * Fraction(MASS[self.unit or unit])


def unit_in(text: str) -> str | None:
    """The unit that a heading or a cell names."""
    for word in re.findall(r"%|[a-z]+", folded(text)):
        if word in _UNITS:
            return _UNITS[word]
    return None


def is_unit(text: str) -> bool:
    """Whether a cell holds the name of a unit and nothing else."""
    return folded(text) in _UNITS


def decimal_mark(texts: Iterable[str], semicolons: bool) -> Mark | None:
    """The mark of decimals in a table: what some of its numbers can only mean; None if none tells.

    Where none does, semicolons between cells speak for a comma.
    """
    marks: set[Mark] = set()
    for text in texts:
        found = _NUMBER.match(text.strip())
        number = re.sub(r"[\s'\u2019]", "", found[0]) if found else ""
        last = max(number.rfind("."), number.rfind(","))
        if last < 0:
            continue
        mark: Mark = "," if number[last] == "," else "."
        both = "." in number and "," in number
        if both or (number.count(mark) == 1 and len(number) - last - 1 != 3):
            marks.add(mark)
        elif number.count(mark) > 1:
            marks.add("." if mark == "," else ",")
    if len(marks) == 1:
        return marks.pop()
    return "," if semicolons and not marks else None


def amount(text: str, mark: Mark | None) -> Amount | None:
    """The amount in a cell; None where it holds none, or more than one. `mark` is the table's mark of decimals."""
    said = text.strip()
    if said.startswith("="):
        return None
    found = _NUMBER.match(said)
    if found is None or len(found[0].strip()) > _LONGEST:
        return None
    rest = folded(said[found.end() :])
    unit = _UNITS.get(rest) if rest else None
    if rest and unit is None:
        return None
    number = re.sub(r"[\s'\u2019\u00a0\u202f]", "", found[0])
    other = "," if mark == "." else "."
    if mark is None:
        last = max(number.rfind("."), number.rfind(","))
        if last < 0:
            return _bounded(number, unit)
        three = len(number) - last - 1 == 3 and number[:last].lstrip("+-") not in ("0", "")
        plain = number.replace(",", ".")
        return _bounded(plain, unit, three)
    return _bounded(number.replace(other, "").replace(",", "."), unit)


def _bounded(number: str, unit: str | None, doubtful: bool = False) -> Amount | None:
    if not _PLAIN.fullmatch(number) or abs(Fraction(number)) > _LARGEST:
        return None
    return Amount(Fraction(number), unit, doubtful)
