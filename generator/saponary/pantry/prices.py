"""What the things of a pantry cost, as a maker's entries state it."""

from __future__ import annotations

from saponary.pantry.model import Pantry


def prices(shelf: Pantry) -> dict[str, float]:
    """Price of a kilogram by id, in the book's own currency, of all that has one."""
    return {
        entry.id: entry.price_per_kg
        for table in (shelf.oils, shelf.liquids, shelf.additions)
        for entry in table.values()
        if entry.price_per_kg is not None
    }
