"""Which published recipes use which colourant, and how much of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from saponary.book.computed import Computed
from saponary.book.pour_uses import pour_uses
from saponary.lye.formula import Addition, Oil
from saponary.pantry.model import Pantry
from saponary.quantity.numbers import percent, short
from saponary.quantity.totals import totals
from saponary.views import links, names
from saponary.views.prose import Prose
from saponary.views.site import RecipeInput


@dataclass(frozen=True)
class Use:
    title: str
    href: str
    much: str


def uses(recipes: Sequence[RecipeInput], shelf: Pantry, up: str) -> dict[str, tuple[Use, ...]]:
    """By colourant, recipes by title; a colourant that is in none is left out."""
    found: dict[str, list[Use]] = {}
    for recipe in sorted(recipes, key=lambda r: (r.computed.model.title.casefold(), r.slug)):
        computed = recipe.computed
        title = Prose(computed.catalogue).title(computed.model.title)
        told: dict[str, list[str]] = {}
        for name, much in (*_stirred(computed), *_infused(computed, shelf), *_dry(computed)):
            entry = shelf.additions.get(name)
            if entry is not None and entry.colour is not None:
                told.setdefault(name, []).append(much)
        for name, ways in told.items():
            href = up + links.recipe_page(recipe.slug)
            found.setdefault(name, []).append(Use(title, href, ", ".join(dict.fromkeys(ways))))
    return {name: tuple(there) for name, there in found.items()}


def _stirred(computed: Computed) -> Iterator[tuple[str, str]]:
    """Doses in grams per kilogram of the oils they colour, portion by portion."""
    if not computed.figures.portions:
        yield from _doses("", computed.resolved.formula.oils, computed.resolved.formula.stirred)
    for portion in computed.figures.portions:
        yield from _doses(f"{names.spoken(portion.name)} ", portion.oils, portion.additions)


def _doses(where: str, oils: tuple[Oil, ...], additions: tuple[Addition, ...]) -> Iterator[tuple[str, str]]:
    whole = sum(oil.grams for oil in oils)
    for name, weight in totals((part.id, part.grams) for part in additions).items():
        if whole > 0 and weight > 0:
            yield name, f"{where}{short(1000.0 * weight / whole)} g/kg"


def _infused(computed: Computed, shelf: Pantry) -> Iterator[tuple[str, str]]:
    formula = computed.resolved.formula
    for oil in formula.oils:
        stock = shelf.infusions.get(oil.infused_with) if oil.infused_with else None
        name = stock.botanical if stock else oil.infused_with
        botanical = shelf.botanical(name) if name else None
        if botanical is not None and formula.oils_grams > 0:
            yield botanical.id, f"infused in {percent(oil.grams / formula.oils_grams, 0)} of the oils"


_HOW = {"line": "as a dusted line", "embeds": "set in", "strewn": "strewn"}


def _dry(computed: Computed) -> Iterator[tuple[str, str]]:
    return ((use.what, _HOW[use.how]) for use in pour_uses(computed))
