"""What goes into a batch when no lye is left: oils after the cook, and the soap of earlier lots."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from saponary.book import blend
from saponary.book.extras import addition_of
from saponary.book.soaps import soap_entry
from saponary.lye.formula import Addition, Oil
from saponary.pantry import model as shelf
from saponary.pantry.model import Pantry
from saponary.quantity.amounts import Amount
from saponary.reading.findings import suggest
from saponary.reading.reporter import Reporter
from saponary.reading.tree import Path
from saponary.schema import recipe as written

GramsOf = Callable[[Amount, float | None, Path, str], Callable[[float], float]]
"""Of an amount, given a density, where it stands and its name: grams by the grams of oil it goes into."""


def after_cook(
    recipe: written.Recipe, pantry: Pantry, grams_of: GramsOf, report: Reporter
) -> Iterator[Callable[[float], Oil]]:
    """Oils that are stirred in once the alkali is spent."""
    for name, amount in recipe.oils.after_cook.items():
        path: Path = ("oils", "after-cook", name)
        stock = pantry.infusions.get(name)
        entry = pantry.oils.get(stock.carrier if stock else name)
        if entry is None:
            hint = suggest(name, {**pantry.infusions, **pantry.oils}, "oils")
            report.add(path, f"the oil {name!r} is not in the pantry", hint, key=True)
            continue
        yield _late(entry, grams_of(amount, entry.density, path, name), stock.botanical if stock else None)


def melted(recipe: written.Recipe, pantry: Pantry, water: float) -> Iterator[Callable[[float], Addition]]:
    """Soap of earlier lots, each part its share of all of it; `water` is the share of cured soap that is water."""
    whole = sum(part.amount.grams for part in recipe.soap)
    for part in recipe.soap:
        yield _melted(soap_entry(pantry, part.of, part.of), part.amount.grams / whole, water)


def _late(entry: shelf.Oil, grams: Callable[[float], float], soaked: str | None) -> Callable[[float], Oil]:
    return lambda oils: replace(blend.oil_of(entry, grams(oils), soaked), late=True)


def _melted(entry: shelf.Addition, share: float, water: float) -> Callable[[float], Addition]:
    return lambda soap: replace(addition_of(entry, soap * share, "melt", None), remelted=True, water=water)
