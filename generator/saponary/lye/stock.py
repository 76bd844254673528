"""Alkali kept as a solution: how much of the stock goes on the scale, and the water beside it.

A stock's strength is the mass fraction of the hydroxide as it was weighed into it, purity
included, as all strengths of this engine are.
"""

from __future__ import annotations

from typing import NamedTuple

from saponary.lye.alkali import Weights
from saponary.lye.formula import Formula, Metal, Stock
from saponary.lye.solubility import strongest
from saponary.quantity.rounding import to_step


class FromStock(NamedTuple):
    """Grams of each stock to weigh (nought for an alkali weighed dry), the water in them, and the plain
    water to weigh beside them: below zero where the stocks bring more water than the lye is to have.
    """

    sodium: float
    potassium: float
    water: float
    beside: float


def from_stock(weights: Weights, plain_water: float, stock: Stock) -> FromStock:
    """Divide a lye into stocks and water. The sum of what is weighed stays the same."""
    sodium = _grams(weights.sodium_hydroxide, stock.sodium)
    potassium = _grams(weights.potassium_hydroxide, stock.potassium)
    water = sum(
        grams - alkali
        for grams, alkali in ((sodium, weights.sodium_hydroxide), (potassium, weights.potassium_hydroxide))
        if grams > 0
    )
    beside = plain_water - water
    return FromStock(sodium, potassium, water, beside if abs(beside) > _NOISE * abs(plain_water) else 0.0)


_NOISE = 1e-12
"""Less of the water than this is none: sums in binary miss by some 1e-16."""


def _grams(alkali: float, strength: float | None) -> float:
    return alkali / strength if strength else 0.0


def on_scale(weights: Weights, formula: Formula) -> Weights:
    """The alkali in what the scale shows, each to its step: of the dry alkali, or of its stock."""
    step, stock = formula.scale_step, formula.stock
    return Weights(
        _stepped(weights.sodium_hydroxide, stock.sodium, step),
        _stepped(weights.potassium_hydroxide, stock.potassium, step),
    )


def _stepped(alkali: float, strength: float | None, step: float) -> float:
    return to_step(alkali / strength, step) * strength if strength else to_step(alkali, step)


def holds(metal: Metal, strength: float, celsius: float) -> bool:
    """Whether a stock this strong stays dissolved where it stands at its coldest."""
    pure = Weights(1.0, 0.0) if metal == "sodium" else Weights(0.0, 1.0)
    return strength <= strongest(pure, celsius)
