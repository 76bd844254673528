"""What is in the bar, told by the rules of each place of sale, from one mass balance."""

from __future__ import annotations

from dataclasses import dataclass

from saponary.label.ingredients import Entry, IngredientList
from saponary.label.lists import Bar
from saponary.label.tables import jurisdictions
from saponary.quantity.numbers import percent


@dataclass(frozen=True)
class Ingredient:
    name: str
    common: str
    latin: str
    share: str


@dataclass(frozen=True)
class Listing:
    """One list: its place, how it is told, the words for a label, and a row for each ingredient."""

    id: str
    place: str
    told: str
    text: str
    rows: tuple[Ingredient, ...]
    notes: tuple[str, ...]
    shares: bool


_TOLD = {
    "charged": "as charged: what was put in",
    "found": "as found: what is there after saponification, in the cured bar",
}


def listings(bar: Bar | None, *, shares: bool) -> tuple[Listing, ...]:
    """A list for each place; `shares` where the edition gives the formula in numbers."""
    if bar is None:
        return ()
    return tuple(_listing(bar.ingredients(law), shares) for law in jurisdictions().values())


def _listing(made: IngredientList, shares: bool) -> Listing:
    return Listing(
        id=made.law.id,
        place=made.law.name,
        told=_TOLD[made.way],
        text=made.text,
        rows=tuple(_row(entry, shares) for entry in made.entries),
        notes=made.notes,
        shares=shares,
    )


def _row(entry: Entry, shares: bool) -> Ingredient:
    common = ", ".join(name for name in entry.commons if name.casefold() != entry.name.casefold())
    return Ingredient(entry.name, common, entry.latin, _share(entry) if shares else "")


def _share(entry: Entry) -> str:
    if entry.share is None:
        return "not weighed"
    return percent(entry.share) if entry.share >= 0.0005 else "below 0.1 %"
