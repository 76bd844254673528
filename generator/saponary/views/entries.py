"""A figure with its label, as the panel of figures lists it."""

from __future__ import annotations

from typing import NamedTuple

from saponary.book.figure import Figure
from saponary.messages.message import Value
from saponary.quantity.rounding import as_decimal


class Entry(NamedTuple):
    """A figure with its label, its value in the unit shown, for programs, and a remark beside it."""

    name: str
    label: Value
    text: Value
    value: str
    note: Value = ""
    word: str | None = None
    """The anchor of its meaning on the page of words."""


def entry(figure: Figure, label: Value, note: Value = "", word: str | None = None) -> Entry:
    """A figure of the catalogue, with its label."""
    number = figure.number()
    return Entry(figure.name, label, number, as_decimal(number.value), note, word)
