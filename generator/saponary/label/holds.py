"""What went into a bar, scraps opened, as the pantry's entries; and which allergens they name."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple, get_args

from saponary.label.lists import Bar
from saponary.pantry.model import Ingredient, Pantry
from saponary.schema.ingredient import Allergen


class Holds(NamedTuple):
    """The food allergens of a bar with the names of what brings each; `known` is False where an ingredient of
    the maker's own does not say, or a scent has no sheet."""

    allergens: tuple[tuple[Allergen, tuple[str, ...]], ...]
    known: bool


def entries(bar: Bar) -> Iterator[Ingredient | None]:
    """The entry of each thing that went into the bar; None where the pantry has none."""
    for part in bar.charged.parts:
        if part.kind == "oil":
            yield bar.pantry.oils.get(part.id)
            yield from (botanical(name, bar.pantry) for name in part.infused_with)
        elif part.kind == "liquid":
            yield bar.pantry.liquid(part.id)
        elif part.kind == "addition":
            yield bar.pantry.additions.get(part.id)
    yield from (bar.pantry.additions.get(name) for name in bar.charged.unweighed)


def botanical(name: str, pantry: Pantry) -> Ingredient | None:
    """What an oil has stood on; a stock of infused oil names it."""
    stock = pantry.infusions.get(name)
    return pantry.botanical(stock.botanical if stock is not None else name)


def holds(bar: Bar) -> Holds:
    """The food allergens of a bar, in the order of the schema."""
    there = tuple(entries(bar))
    named = {
        allergen: tuple(dict.fromkeys(e.name for e in there if e is not None and allergen in e.allergens))
        for allergen in get_args(Allergen)
    }
    told = all(entry is not None and _told(entry) for entry in there)
    return Holds(
        tuple((allergen, names) for allergen, names in named.items() if names),
        told and not bar.scent.without_sheet,
    )


def _told(entry: Ingredient) -> bool:
    """What only the maker knows of may hold anything that is not said; a stone holds none of them."""
    stands_alone = entry.own and not entry.common
    return not stands_alone or entry.entry.allergens is not None or entry.origin == "mineral"
