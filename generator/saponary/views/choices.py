"""Rows of choices over a list of recipes: what may be chosen, and how many recipes bear it.

A choice that would leave every recipe, or none, is no choice and is left out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, get_args

from markupsafe import Markup

from saponary.book.status import Name as StatusName
from saponary.label.free_from import SCENT, avoided
from saponary.messages.message import Message, Value, message
from saponary.schema.methods import BY_NAME
from saponary.views.colour_family import FAMILIES
from saponary.views.traits import Traits

What = Literal["ready", "scent", "free", "colour", "oil", "status", "method", "collection"]
Kind = Literal["one", "each", "list"]
"""One of all, any number together, or one from a list that unfolds."""

_KINDS: dict[What, Kind] = {
    "ready": "each",
    "scent": "one",
    "free": "each",
    "colour": "each",
    "oil": "list",
    "status": "one",
    "method": "one",
    "collection": "list",
}

KEYS_BY_ID = {
    "choose.by.": get_args(What),
    "choose.colour.": FAMILIES,
    "choose.free.": (*(one.id for one in avoided()), SCENT),
    "choose.made.": tuple(BY_NAME),
    "status.": get_args(StatusName),
}
"""Keys that are put together here or beside it: what they start with, and the ids that may follow."""


@dataclass(frozen=True)
class Option:
    """What may be chosen: the mark that cards bear, its words, how many bear it, and a picture of it."""

    mark: str
    label: Value
    count: int
    swatch: Markup | None = None


@dataclass(frozen=True)
class Choice:
    name: What
    legend: Message
    kind: Kind
    options: tuple[Option, ...]


def choices(rows: Sequence[Traits], wanted: Sequence[What]) -> tuple[Choice, ...]:
    """What these recipes may be chosen by, each row of options where it parts them."""
    found = [
        Choice(name, message(f"choose.by.{name}"), _KINDS[name], _options(rows, name)) for name in wanted
    ]
    return tuple(choice for choice in found if choice.options)


def _options(rows: Sequence[Traits], name: What) -> tuple[Option, ...]:
    labels: dict[str, Value] = {}
    counts: dict[str, int] = {}
    for row in rows:
        for mark, label in row[name].items():
            labels.setdefault(mark, label)
            counts[mark] = counts.get(mark, 0) + 1
    if _KINDS[name] == "one" and len(counts) < 2:
        return ()
    order = sorted(counts, key=lambda mark: _place(mark, labels[mark], counts))
    parted = [m for m in order if counts[m] < len(rows) or _KINDS[name] == "one"]
    return tuple(Option(f"{name}-{mark}", labels[mark], counts[mark]) for mark in parted)


_FIRST = ("none", *FAMILIES)


def _place(mark: str, label: Value, counts: dict[str, int]) -> tuple[int, str]:
    """Colours in their own order, no scent before all scents, then by name."""
    known = _FIRST.index(mark) if mark in _FIRST else len(_FIRST)
    return known, label if isinstance(label, str) else mark


def marks(row: Traits) -> str:
    """What a card bears, in one word list."""
    return " ".join(f"{name}-{mark}" for name, found in row.items() for mark in found)
