"""What materials cost, by recipe and for the whole book, in the book's own currency: for the maker alone."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from saponary.book.batch_cost import batch_cost
from saponary.book.published import Published
from saponary.lye.cost import Cost
from saponary.messages.message import Number, Value, clauses
from saponary.pantry.model import Pantry
from saponary.quantity.numbers import WeightUnit
from saponary.quantity.units import MASS
from saponary.schema.settings import Settings
from saponary.views import links, names
from saponary.views.prose import Prose


class CostRow(NamedTuple):
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
    partly: bool
    """Whether its sum leaves anything out."""


class CostsView(NamedTuple):
    """The book: its recipes, the lots of all of them, what they cost together, and its currency ('' for none)."""

    rows: tuple[CostRow, ...]
    lots: int
    poured: Number
    currency: str
    unit: WeightUnit
    partly: bool
    """Whether anything that is weighed has no price, and is in no sum."""


def cost_rows(recipe: Published, up: str) -> Iterator[CostRow]:
    """A recipe of which anything is priced."""
    found = batch_cost(recipe)
    if found.batch > 0:
        yield _row(recipe, found, up)


def costs_view(rows: Sequence[CostRow], settings: Settings) -> CostsView:
    """All recipes together."""
    return CostsView(
        rows=tuple(rows),
        lots=sum(row.lots for row in rows),
        poured=money(sum(row.poured.value for row in rows), settings),
        currency=settings.currency or "",
        unit=settings.units,
        partly=any(row.partly for row in rows),
    )


def money(amount: float, settings: Settings) -> Number:
    """An amount in the book's currency."""
    return Number(amount, 2, settings.currency or "")


def unpriced(found: Cost, shelf: Pantry) -> Value:
    """What a sum leaves out, by name."""
    return clauses(*(names.anything(shelf, name) for name in found.unpriced))


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
        partly=bool(found.unpriced),
    )
