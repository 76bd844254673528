"""What things cost by the kilogram, as a maker's pantry and settings state it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, TypeVar, cast

from saponary.assets.once import Once, made_once
from saponary.pantry.model import Pantry
from saponary.schema.settings import Settings

T = TypeVar("T")

_PRICE = "price_per_kg"


def price_of(entry: object) -> object:
    """The price of an entry of any table; None where it has none."""
    return getattr(entry, _PRICE, None)


def unpriced(entry: T) -> T:
    """An entry without its price, as it is used and as it was written: no figure, rule or label rests on it."""
    if price_of(entry) is None:
        return entry
    priced = cast("Any", entry)
    written = priced.entry.model_copy(update={"price": None})
    return cast("T", replace(priced, **{_PRICE: None, "entry": written}))


def shelf_unpriced(shelf: Pantry, once: Once | None = None) -> Pantry:
    """A small pantry without prices; `once` is kept for all that are of the same book."""
    return replace(
        shelf,
        oils={name: made_once(one, unpriced, once) for name, one in shelf.oils.items()},
        liquids={name: made_once(one, unpriced, once) for name, one in shelf.liquids.items()},
        additions={name: made_once(one, unpriced, once) for name, one in shelf.additions.items()},
    )


def prices(shelf: Pantry, settings: Settings) -> dict[str, float]:
    """Price of a kilogram by id, in the book's own currency, of all that has one, the alkalis included."""
    found = {
        entry.id: entry.price_per_kg
        for table in (shelf.oils, shelf.liquids, shelf.additions)
        for entry in table.values()
    }
    found |= {
        "sodium-hydroxide": settings.alkali_price.sodium,
        "potassium-hydroxide": settings.alkali_price.potassium,
    }
    return {name: price for name, price in found.items() if price is not None}
