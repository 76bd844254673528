"""What things cost by the kilogram, as a maker's pantry and settings state it."""

from __future__ import annotations

from saponary.pantry.model import Pantry
from saponary.schema.settings import Settings


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
