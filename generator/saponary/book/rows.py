"""The rows of a batch as they are weighed, and the name under which a record gives each its weight."""

from __future__ import annotations

from dataclasses import replace

from saponary.lye.figures import Figures
from saponary.lye.formula import Addition, Formula, Liquid, Oil
from saponary.lye.poured import ALKALIS, POTASSIUM, SODIUM, STOCKS, WATER
from saponary.lye.stock import from_stock
from saponary.pantry.model import Pantry
from saponary.quantity.totals import totals

Row = Oil | Liquid | Addition


def rows(formula: Formula) -> tuple[Row, ...]:
    """What is weighed besides alkali and plain water."""
    return (*formula.oils, *formula.after_cook, *formula.liquids, *formula.additions)


def name_of(row: Row, shelf: Pantry) -> str:
    """An infused oil goes by the name of its stock in the pantry, or by botanical and carrier; all else by its id.
    What of an oil goes in after the cook is told apart from what is cooked."""
    if isinstance(row, Oil) and row.late:
        return f"after-cook-{name_of(replace(row, late=False), shelf)}"
    if not isinstance(row, Oil) or row.infused_with is None:
        return row.id
    if row.infused_with in shelf.infusions:
        return row.infused_with
    for stock in shelf.infusions.values():
        if (stock.carrier, stock.botanical) == (row.id, row.infused_with):
            return stock.id
    return f"{row.infused_with}-{row.id}"


def alkalis(formula: Formula) -> tuple[str, ...]:
    """The alkalis that a formula takes, by the names that a record gives them."""
    if not formula.weighs_lye:
        return ()
    shares = (formula.alkali.sodium, formula.alkali.potassium)
    return tuple(name for name, share in zip(ALKALIS, shares, strict=True) if share > 0)


def to_weigh(formula: Formula, figures: Figures, shelf: Pantry) -> dict[str, float]:
    """Grams by name of everything that a record may give a weight for, in the order of hands."""
    weights, drawn = figures.weights, from_stock(figures.weights, figures.water.plain, formula.stock)
    weighed = {
        SODIUM: (STOCKS[SODIUM], drawn.sodium) if drawn.sodium else (SODIUM, weights.sodium_hydroxide),
        POTASSIUM: (STOCKS[POTASSIUM], drawn.potassium)
        if drawn.potassium
        else (POTASSIUM, weights.potassium_hydroxide),
    }
    water = [(WATER, drawn.beside)] if formula.weighs_lye else []
    jug = [*water, *(weighed[name] for name in alkalis(formula))]
    return totals([*jug, *((name_of(row, shelf), row.grams) for row in rows(formula))])
