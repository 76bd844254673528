"""What is in the bar, told by the rules of each place of sale, from one mass balance."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from saponary.label.ingredients import Entry, IngredientList
from saponary.label.lists import Bar
from saponary.label.tables import jurisdictions
from saponary.messages.message import Message, Value, message, percent

_LEAST = 0.0005
"""A smaller share would be shown as none."""


@dataclass(frozen=True)
class Ingredient:
    name: str
    common: str
    latin: str
    share: Value


class Listing(NamedTuple):
    """One list: its place, the way it is counted, the words for a label, and a row for each ingredient."""

    id: str
    place: str
    way: str
    text: str
    rows: tuple[Ingredient, ...]
    notes: tuple[str, ...]
    shares: bool

    @property
    def told(self) -> Message:
        return message(f"listing.{self.way}")

    @property
    def told_first(self) -> Message:
        """The same at the head of a sentence."""
        return message(f"listing-first.{self.way}")


KEYS_BY_ID = {"listing.": ("charged", "found"), "listing-first.": ("charged", "found")}
"""Keys that are put together here: what they start with, and the ids that may follow."""


def listings(bar: Bar | None, *, shares: bool) -> tuple[Listing, ...]:
    """A list for each place; `shares` where the edition gives the formula in numbers."""
    if bar is None:
        return ()
    return tuple(_listing(bar.ingredients(law), shares) for law in jurisdictions().values())


def _listing(made: IngredientList, shares: bool) -> Listing:
    return Listing(
        id=made.law.id,
        place=made.law.name,
        way=made.way,
        text=made.text,
        rows=tuple(_row(entry, shares) for entry in made.entries),
        notes=made.notes,
        shares=shares,
    )


def _row(entry: Entry, shares: bool) -> Ingredient:
    common = ", ".join(name for name in entry.commons if name.casefold() != entry.name.casefold())
    return Ingredient(entry.name, common, entry.latin, _share(entry) if shares else "")


def _share(entry: Entry) -> Value:
    if entry.share is None:
        return message("listing.not-weighed")
    return percent(entry.share) if entry.share >= _LEAST else message("listing.below", least=percent(0.001))
