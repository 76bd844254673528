"""What a bar is known to be free from. Every ingredient has to say where it comes from, scraps opened.

What is not known of one ingredient is not known of the bar.
"""

from __future__ import annotations

import re
from functools import cache
from typing import NamedTuple

from saponary.label.holds import entries
from saponary.label.lists import Bar
from saponary.label.tables import read_table
from saponary.pantry.model import Addition, Ingredient, Liquid, Oil


class Avoided(NamedTuple):
    """What some do without: its id, and what tells that an ingredient holds it."""

    id: str
    genera: frozenset[str] = frozenset()
    allergens: frozenset[str] = frozenset()
    origins: frozenset[str] = frozenset()


@cache
def avoided() -> tuple[Avoided, ...]:
    """What is told of, in order."""
    return tuple(
        Avoided(
            row["id"],
            frozenset(row.get("genera", ())),
            frozenset(row.get("allergens", ())),
            frozenset(row.get("origins", ())),
        )
        for row in read_table("avoided")["avoided"]
    )


SCENT = "scent"
"""The id of what a bar is free from where no scent was put in."""


def free_from(bar: Bar) -> tuple[str, ...]:
    """The ids of what a bar is free from, as far as all its ingredients say."""
    there = tuple(entries(bar))
    found = tuple(one.id for one in avoided() if all(_without(entry, one) for entry in there))
    return found if bar.scent.grams else (*found, SCENT)


def _without(entry: Ingredient | None, what: Avoided) -> bool:
    """Whether this ingredient is known not to hold it."""
    if entry is None:
        return False
    if what.id in (entry.entry.free_from or ()):
        return True
    if what.allergens & set(entry.allergens) or what.genera & set(_words(entry)):
        return False
    if entry.origin == "plant":
        return bool(entry.latin) or not what.genera
    if entry.origin == "animal":
        return "animal" not in what.origins or not _brings_fat(entry)
    return entry.origin in ("mineral", "synthetic")


def _words(entry: Ingredient) -> list[str]:
    return re.findall(r"\w+", f"{entry.latin or ''} {entry.inci or ''}")


def _brings_fat(entry: Ingredient) -> bool:
    return isinstance(entry, Oil) or (isinstance(entry, Liquid | Addition) and entry.fat > 0)
