"""What a student or a maker writes down beside the weights, by what the method of the recipe has."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from saponary.messages.message import Message, message
from saponary.schema.methods.method import Method


class RecordFields(NamedTuple):
    """A caption, and the fields two by two, in the order in which they are filled in."""

    caption: Message
    rows: tuple[tuple[Message, ...], ...]


def record_fields(method: Method, unit: str) -> RecordFields:
    """The fields of a class's record."""
    every = tuple(_class(method, unit))
    half = (len(every) + 1) // 2
    rows = tuple(every[i::half] for i in range(half))
    return RecordFields(message("handout.to-the-bar" if method.dries else "handout.to-the-jar"), rows)


def _class(method: Method, unit: str) -> Iterator[Message]:
    for name, there in (
        ("lye", "lye" in method.stages),
        ("oils", "oils" in method.stages),
        ("room", True),
        ("trace", "trace" in method.stages),
        ("pot-before", method.cooks),
        ("pot-after", method.cooks),
        ("poured", "pour" in method.stages),
        ("gel", "cover" in method.stages),
        ("unmoulded", method.dries),
        ("cut", method.dries),
        ("alkali", True),
        ("checked", True),
    ):
        if there:
            yield message(f"handout.field.{name}", unit=unit)


def sheet_fields(method: Method, unit: str) -> tuple[Blank, ...]:
    """The fields of a recipe's sheet, after lot, day, hour and maker."""
    degrees, weight = "°C", unit
    found = (
        ("lye", degrees, "lye" in method.stages),
        ("oils", degrees, "oils" in method.stages),
        ("trace", message("sheet.record.minutes"), "trace" in method.stages),
        ("pot-before", weight, method.cooks),
        ("pot-after", weight, method.cooks),
        ("unmoulded", "", method.dries),
        ("cut", "", method.dries),
        ("fresh-bar", weight, method.dries),
        ("filled", "", not method.dries),
        ("tested", "", True),
        ("found", "", True),
    )
    return tuple(Blank(message(f"sheet.record.{name}"), after) for name, after, there in found if there)


class Blank(NamedTuple):
    """A line to write on, with what stands before it and after it."""

    before: Message
    after: Message | str


KEYS_BY_ID = {
    "handout.field.": (
        "lye", "oils", "room", "trace", "pot-before", "pot-after", "poured", "gel", "unmoulded", "cut", "alkali", "checked",
    ),
    "sheet.record.": (
        "lye", "oils", "trace", "pot-before", "pot-after", "unmoulded", "cut", "fresh-bar", "filled", "tested", "found",
    ),
}  # fmt: skip
"""Keys that are put together here: what they start with, and the ids that may follow."""
