"""One figure of a recipe: how it is shown in its kind's unit, and how one that somebody wrote is held against it.

Imports little, so that figures which are kept can be told without reading what computes them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import floor, log10
from typing import Literal, NamedTuple

from saponary.messages.message import Number
from saponary.quantity.numbers import WeightUnit, in_book_units
from saponary.quantity.rounding import show
from saponary.quantity.units import LENGTH, MASS, VOLUME, Quantity, QuantityError, parse, parse_ratio

FINGERPRINT = "formula"
"""The one signed entry that is no number: the formula's fingerprint."""

MAX_FIGURES = 2_000
"""Braces that one recipe's texts may open."""

Kind = Literal["mass", "volume", "length", "share", "ratio", "mg/g", "iodine", "count"]

_UNITS: Mapping[Kind, tuple[str, ...]] = {
    "mass": tuple(MASS),
    "volume": tuple(VOLUME),
    "length": tuple(LENGTH),
    "share": ("%",),
    "ratio": ("",),
    "mg/g": ("mg/g",),
    "iodine": ("g/100 g", "g/100g"),
    "count": ("",),
}
_DECIMALS: Mapping[Kind, int] = {
    "mass": 1, "volume": 0, "length": 0, "share": 1, "ratio": 2, "mg/g": 1, "iodine": 1, "count": 0,
}  # fmt: skip
_SHOWN_UNIT: Mapping[Kind, str] = {
    "mass": "g", "volume": "ml", "length": "mm", "share": "%", "ratio": "", "mg/g": "mg/g", "iodine": "g/100 g", "count": "",
}  # fmt: skip


def _exact(units: Mapping[str, str]) -> Mapping[str, Fraction]:
    return {unit: Fraction(factor) for unit, factor in units.items()}


_TABLES: Mapping[Kind, Mapping[str, Fraction]] = {
    "mass": _exact(MASS), "volume": _exact(VOLUME), "length": _exact(LENGTH),
}  # fmt: skip


@dataclass(frozen=True)
class Figure:
    """One figure: its name, its value in the engine's unit, and what kind of thing it is."""

    name: str
    value: float
    kind: Kind
    known: bool = True
    """Whether all that it rests on is known; a superfat's uptake of alkali may not be."""
    book: WeightUnit = "g"
    """What the book is kept in: a weight is shown and signed so."""

    def text(self, unit: str | None = None, decimals: int | None = None) -> str:
        """As shown on a page: number, space, unit."""
        if unit is None:
            made = self.number()
            value, places, unit = in_book_units(made.value, made.decimals, made.unit, self.book)
            return f"{show(value, places if decimals is None else decimals)} {unit}".rstrip()
        number = show(self.in_unit(unit), _DECIMALS[self.kind] if decimals is None else decimals)
        return f"{number} {unit}".rstrip()

    def number(self) -> Number:
        """The same as a figure to be said, which says a weight in the units of the book."""
        unit = _SHOWN_UNIT[self.kind]
        return Number(self.in_unit(unit), _DECIMALS[self.kind], unit)

    def in_unit(self, unit: str) -> float:
        """The value in a unit of its kind."""
        if self.kind == "share":
            return self.value * 100.0
        table = _TABLES.get(self.kind, {})
        return float(Fraction(self.value) / table[unit]) if unit in table else self.value


class Compared(NamedTuple):
    """A figure as written beside its recomputed value, at the precision written."""

    figure: Figure
    written: Quantity
    holds: bool
    recomputed: str


_FINEST = 9
"""Decimals beyond which a figure is nought."""
_ROUGHEST = 0.02
"""The part of itself that a weight, volume or length may be off by, however few its decimals: a lye that is off by
a fiftieth moves a superfat by two points. Common practice, no source."""


def compare(figure: Figure, text: str) -> Compared:
    """Hold a figure as written against the recomputed one. Raises QuantityError on bad text."""
    unit = _SHOWN_UNIT[figure.kind]
    if figure.kind == "ratio":
        written = parse_ratio(text)
    else:
        written = parse(text, units=_UNITS[figure.kind], example=f"138.7 {unit}".strip())
    if written.decimals is None:
        raise QuantityError(f"{text.strip()!r} is a fraction", "write a figure as a decimal number")
    value = figure.in_unit(written.unit)
    number = show(value, written.decimals)
    if written.value == 0 and show(value, _FINEST) != show(0.0, _FINEST):
        # A nought holds nothing to anything, however few its decimals: give it three figures.
        number = show(value, max(written.decimals, 2 - floor(log10(abs(value)))))
    return Compared(figure, written, Fraction(number) == written.value, f"{number} {written.unit}".rstrip())


def compare_quoted(figure: Figure, text: str) -> Compared:
    """The same for a figure that a reader sees: it must be about the value too, however few its decimals."""
    found = compare(figure, text)
    if figure.kind not in _TABLES:
        return found
    value, decimals = figure.in_unit(found.written.unit), found.written.decimals or 0
    number = show(value, decimals)
    while _too_rough(number, value) and decimals < _FINEST:
        decimals += 1
        number = show(value, decimals)
    if decimals == found.written.decimals:
        return found
    return Compared(figure, found.written, False, f"{number} {found.written.unit}".rstrip())


def _too_rough(number: str, value: float) -> bool:
    """Whether a number, rounded as it is, is no longer about the value."""
    return abs(float(Fraction(number)) - value) > _ROUGHEST * abs(value)
