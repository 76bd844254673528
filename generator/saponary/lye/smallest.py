"""The smallest batch that a scale can weigh: how much oil there must be so that no part gets lost in its steps."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf
from typing import NamedTuple

from saponary.lye.alkali import demand
from saponary.lye.constants import KOH, NAOH
from saponary.lye.figures import Figures
from saponary.lye.formula import Formula
from saponary.lye.pots import weighed_oils
from saponary.lye.stock import from_stock

STEPS = 10
"""The fewest steps of the scale that a part may weigh: half a step is then at most a twentieth of it
(common practice, no source)."""

DRIFT = 0.01
"""By how much rounding may move the superfat, as a fraction: one percentage point."""


class Smallest(NamedTuple):
    """Grams of oils, and the weighed part that asks for so many (`SUPERFAT` where the superfat does)."""

    oils: float
    part: str


SUPERFAT = "superfat"


def smallest(formula: Formula, figures: Figures, steps: int = STEPS) -> Smallest:
    """The least oils of this very formula whose every weighed part is `steps` steps or more.

    At that size rounding also moves the superfat by no more than `DRIFT`, whichever way each weight is rounded.
    """
    if formula.oils_grams <= 0:
        return Smallest(0.0, SUPERFAT)
    wanted = steps * formula.scale_step
    part, grams = min(parts(formula, figures), key=lambda one: one[1], default=(SUPERFAT, inf))
    by_part = formula.oils_grams * wanted / grams if grams > 0 else 0.0
    by_superfat = for_superfat(formula, figures)
    return Smallest(by_part, part) if by_part >= by_superfat else Smallest(by_superfat, SUPERFAT)


def for_superfat(formula: Formula, figures: Figures) -> float:
    """The least oils at which half a step on each weight, all to one side, moves the superfat by `DRIFT`.

    The movement falls as the batch grows, so that it is scaled from the batch at hand.
    """
    asked = demand(formula.oils)
    if asked <= 0:
        return 0.0
    moles = sum(_grams_to_moles(formula, figures))
    moles += sum(abs(part.acid - part.base) for part in formula.stirred)
    moles += sum(part.acid for part in formula.liquids)
    for_oils = sum(oil.saponification_value for oil in weighed_oils(formula) if oil.grams > 0)
    moles += (1.0 - figures.superfat) * for_oils / 1000.0 / KOH
    return formula.oils_grams * moles * formula.scale_step / 2.0 / asked / DRIFT


def _grams_to_moles(formula: Formula, figures: Figures) -> Iterator[float]:
    """Moles of hydroxide in a gram of each alkali, or of its stock, as it is weighed."""
    weights, alkali, stock = figures.weights, formula.alkali, formula.stock
    if weights.sodium_hydroxide > 0:
        yield (stock.sodium or 1.0) * alkali.sodium_purity / NAOH
    if weights.potassium_hydroxide > 0:
        yield (stock.potassium or 1.0) * alkali.potassium_purity / KOH


def parts(formula: Formula, figures: Figures) -> Iterator[tuple[str, float]]:
    """Everything that goes on the scale, by its name and as often as it is weighed; nothing of no weight."""
    return ((name, grams) for name, grams in _every(formula, figures) if grams > 0)


def _every(formula: Formula, figures: Figures) -> Iterator[tuple[str, float]]:
    weights, stock = figures.weights, formula.stock
    drawn = from_stock(weights, figures.water.plain, stock)
    yield from ((oil.id, oil.grams) for oil in weighed_oils(formula))
    yield "sodium-hydroxide", drawn.sodium if stock.sodium else weights.sodium_hydroxide
    yield "potassium-hydroxide", drawn.potassium if stock.potassium else weights.potassium_hydroxide
    yield "water", drawn.beside
    yield from ((liquid.id, liquid.grams) for liquid in formula.liquids)
    yield from ((addition.id, addition.grams) for addition in formula.additions)
