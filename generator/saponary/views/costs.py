"""What materials cost, by recipe and for the whole book, in the book's own currency: for the maker alone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from saponary.book.batch_cost import batch_cost
from saponary.book.published import Published
from saponary.lye.cost import Cost
from saponary.messages.message import Number, Value, commas
from saponary.pantry.model import Pantry
from saponary.quantity.numbers import WeightUnit
from saponary.quantity.units import MASS
from saponary.schema.settings import Settings
from saponary.views import links, names
from saponary.views.prose import Prose


@dataclass(frozen=True)
class CostRow:
    """One recipe: what its materials cost for a batch, a bar and a kilogram of what is poured, and for all of
    its recorded lots at the size and the prices of today."""

    title: str
    href: str
    batch: Number
    bar: Value
    of_weight: Number
    """For a kilogram, or in a book kept in ounces for a pound."""
    lots: int
    poured: Number
    unpriced: Value


@dataclass(frozen=True)
class CostsView:
    """The book: its recipes, the lots of all of them, what they cost together, and its currency ('' for none)."""

    rows: tuple[CostRow, ...]
    lots: int
    poured: Number
    currency: str
    unit: WeightUnit
    partly: bool
    """Whether anything that is weighed has no price, and is in no sum."""


def costs_view(recipes: Sequence[Published], settings: Settings, up: str) -> CostsView:
    """Every recipe that anything of is priced."""
    made = [(recipe, found) for recipe in recipes if (found := batch_cost(recipe)).batch > 0]
    spent = sum(found.batch * len(recipe.batches) for recipe, found in made)
    return CostsView(
        rows=tuple(_row(recipe, found, up) for recipe, found in made),
        lots=sum(len(recipe.batches) for recipe, _ in made),
        poured=money(spent, settings),
        currency=settings.currency or "",
        unit=settings.units,
        partly=any(found.unpriced for _, found in made),
    )


def money(amount: float, settings: Settings) -> Number:
    """An amount in the book's currency."""
    return Number(amount, 2, settings.currency or "")


def unpriced(found: Cost, shelf: Pantry) -> Value:
    """What a sum leaves out, by name."""
    return commas(*(names.anything(shelf, name) for name in found.unpriced))


def _row(recipe: Published, found: Cost, up: str) -> CostRow:
    bars = recipe.resolved.bars
    loaf = recipe.figures.loaf
    much = float(MASS["kg" if recipe.settings.units == "g" else "lb"])
    return CostRow(
        title=Prose(recipe.catalogue).title(recipe.model.title),
        href=up + links.recipe_page(recipe.slug),
        batch=Number(found.batch, 2),
        bar=Number(found.per_bar(bars), 2) if bars else "",
        of_weight=Number(much * found.batch / loaf if loaf > 0 else 0.0, 2),
        lots=len(recipe.batches),
        poured=Number(found.batch * len(recipe.batches), 2),
        unpriced=unpriced(found, recipe.pantry),
    )
