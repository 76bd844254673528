"""What a batch costs in materials, from prices per kilogram."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from saponary.lye.alkali import Weights
from saponary.lye.formula import Addition, Formula, Liquid, Oil
from saponary.quantity.totals import totals


class Cost(NamedTuple):
    """In the book's own currency. `unpriced` names what has no price and is not in the sum."""

    batch: float
    unpriced: tuple[str, ...]

    def per_bar(self, bars: int) -> float:
        return self.batch / bars if bars > 0 else 0.0


def cost(formula: Formula, weights: Weights, price_per_kg: Mapping[str, float]) -> Cost:
    """Sum of grams times price for everything weighed but plain water."""
    alkali = [
        ("sodium-hydroxide", weights.sodium_hydroxide),
        ("potassium-hydroxide", weights.potassium_hydroxide),
    ]
    parts: tuple[Oil | Liquid | Addition, ...] = (
        *formula.oils,
        *formula.after_cook,
        *formula.liquids,
        *formula.additions,
    )
    grams = totals([*alkali, *((part.id, part.grams) for part in parts)])
    used = {name: amount for name, amount in grams.items() if amount > 0}
    return Cost(
        sum(amount / 1000.0 * price_per_kg[name] for name, amount in used.items() if name in price_per_kg),
        tuple(name for name in used if name not in price_per_kg),
    )
