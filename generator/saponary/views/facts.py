"""A line about a lot or a colourant, and the small messages that many such lines share."""

from __future__ import annotations

from dataclasses import dataclass

from saponary.book.curing import BarCure
from saponary.messages.message import Message, Value, message


@dataclass(frozen=True)
class Fact:
    """What, the figure, and a word beside it."""

    label: Value
    text: Value
    note: Value = ""


def days(count: int) -> Message:
    return message("days", count=count)


def of_bar(what: Value, bar: BarCure) -> Value:
    """A label with the marked bar's name, where it has one."""
    return message("lot.of-bar", what=what, bar=bar.name) if bar.name else what
