"""What is to be said, before anybody knows in which language: a key, and the values in it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import reduce
from typing import Literal, NamedTuple


@dataclass(frozen=True)
class Message:
    """A key of the catalogue with the values its text has places for.

    A value may be text of the maker's own, a whole number (which chooses the plural, where it
    is called `count`), a `Number`, a `Day`, a `Within`, another `Message`, or a `Listed` of any of these.
    """

    key: str
    values: Mapping[str, Value] = field(default_factory=lambda: dict[str, Value]())


@dataclass(frozen=True)
class Number:
    """A figure to be shown: its value, its decimals, and its unit's symbol ('' for none).

    `decimals` is rounded to by the one rounding rule; `short` drops idle zeros after it;
    `tight` keeps number and unit on one line, `bare` leaves the unit to be said beside it. A weight in grams (`g`,
    `kg`) or grams for a kilogram (`g/kg`) is said in the units of the book. A share is shown in per cent where `unit` is `%`: its value is then already times 100.
    """

    value: float
    decimals: int = 0
    unit: str = ""
    short: bool = False
    tight: bool = False
    bare: bool = False


@dataclass(frozen=True)
class Listed:
    """Several things in one sentence: `a, b and c`."""

    items: tuple[Value, ...]


DayStyle = Literal["long", "short", "weekday", "no-year"]
"""`long` names the month in full, `short` in brief, `weekday` the day of the week too."""


class Day(NamedTuple):
    """A date, to be written as people write it."""

    on: date
    style: DayStyle = "long"


class Within(NamedTuple):
    """An ingredient's name as it stands within a sentence; the language says how."""

    name: str


Value = str | int | Number | Day | Message | Listed | Within


def message(key: str, /, **values: Value) -> Message:
    """A message, its values by keyword."""
    return Message(key, values)


def percent(fraction: float, decimals: int = 1, *, tight: bool = False) -> Number:
    """A fraction of one, to be shown in per cent."""
    return Number(100.0 * fraction, decimals, "%", tight=tight)


def short(value: float, most: int = 1, unit: str = "") -> Number:
    """A number without idle zeros: 90, 22.5."""
    return Number(value, most, unit, short=True)


def grams(value: float, decimals: int = 1, *, bare: bool = False) -> Number:
    """A weight, to be said in the units of the book."""
    return Number(value, decimals, "g", bare=bare)


def day(on: date, style: DayStyle = "long") -> Day:
    """A date to be said."""
    return Day(on, style)


def commas(*items: Value) -> Value:
    """`a, b, c`; what is empty is left out."""
    there = [item for item in items if item != ""]
    return reduce(lambda first, then: message("list.comma", first=first, then=then), there) if there else ""


def clauses(*items: Value) -> Value:
    """`a; b; c`; what is empty is left out."""
    there = [item for item in items if item != ""]
    return reduce(lambda first, then: message("list.clause", first=first, then=then), there) if there else ""
