"""A line about a lot or a colourant, and the small messages that many such lines share."""

from __future__ import annotations

from typing import NamedTuple

from saponary.book.curing import BarCure
from saponary.messages.message import Message, Value, grams, message
from saponary.quantity.numbers import WeightUnit, is_in
from saponary.quantity.units import Quantity


class Fact(NamedTuple):
    """What, the figure, and a word beside it."""

    label: Value
    text: Value
    note: Value = ""


def as_written(mass: Quantity, book: WeightUnit) -> Value:
    """A weight as its maker wrote it, where that is in the units of the book; else in those."""
    return " ".join(mass.text.split()) if is_in(mass.unit, book) else grams(mass.grams)


def days(count: int) -> Message:
    return message("days", count=count)


def of_bar(what: Value, bar: BarCure) -> Value:
    """A label with the marked bar's name, where it has one."""
    return message("lot.of-bar", what=what, bar=bar.name) if bar.name else what
