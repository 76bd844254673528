"""Which published recipes use which colourant, and how much of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from saponary.book.pour_uses import pour_uses
from saponary.book.published import Published
from saponary.lye.formula import Addition, Oil, shares
from saponary.messages.message import Message, Value, commas, message, percent, short
from saponary.pantry.model import Pantry
from saponary.quantity.totals import totals
from saponary.views import links, names
from saponary.views.pantry import Use
from saponary.views.prose import Prose


class Coloured(NamedTuple):
    """That a recipe uses a colourant."""

    id: str
    use: Use


def coloured(recipe: Published, shelf: Pantry, up: str) -> Iterator[Coloured]:
    """Every colourant that one recipe uses."""
    title = Prose(recipe.catalogue).title(recipe.model.title)
    amounts: dict[str, list[Value]] = {}
    for name, much in (*_stirred(recipe), *_infused(recipe, shelf), *_dry(recipe)):
        entry = shelf.additions.get(name)
        if entry is not None and entry.colour is not None:
            amounts.setdefault(name, []).append(much)
    for name, ways in amounts.items():
        yield Coloured(name, Use(title, up + links.recipe_page(recipe.slug), commas(*_once(ways))))


def by_title(recipes: Iterable[Published]) -> list[Published]:
    """Recipes in the order in which they stand below a colourant."""
    return sorted(recipes, key=lambda one: (one.glance.title.casefold(), one.slug))


def uses(everything: Iterable[Coloured]) -> dict[str, tuple[Use, ...]]:
    """By colourant, in their order; a colourant that is in none is left out."""
    found: dict[str, list[Use]] = {}
    for one in everything:
        found.setdefault(one.id, []).append(one.use)
    return {name: tuple(there) for name, there in found.items()}


def _once(ways: Iterable[Value]) -> list[Value]:
    """Each way once. Messages hold maps, so that they are compared and not hashed."""
    found: list[Value] = []
    for way in ways:
        if way not in found:
            found.append(way)
    return found


def _stirred(computed: Published) -> Iterator[tuple[str, Value]]:
    """Doses in grams per kilogram of the oils they colour, portion by portion."""
    if not computed.figures.portions:
        yield from _doses("", computed.resolved.formula.oils, computed.resolved.formula.stirred)
    for portion in computed.figures.portions:
        yield from _doses(names.spoken(portion.name), portion.oils, portion.additions)


def _doses(where: str, oils: tuple[Oil, ...], additions: tuple[Addition, ...]) -> Iterator[tuple[str, Value]]:
    for name, rate in totals((part.id, rate) for part, rate in shares(additions, oils)).items():
        if rate > 0:
            dose = short(1000.0 * rate, unit="g/kg")
            yield name, message("colours.use.in-portion", portion=where, dose=dose) if where else dose


def _infused(computed: Published, shelf: Pantry) -> Iterator[tuple[str, Message]]:
    formula = computed.resolved.formula
    for oil, share in shares(formula.oils, formula.oils):
        stock = shelf.infusions.get(oil.infused_with) if oil.infused_with else None
        name = stock.botanical if stock else oil.infused_with
        botanical = shelf.botanical(name) if name else None
        if botanical is not None and share > 0:
            yield botanical.id, message("colours.use.infused", share=percent(share, 0))


def _dry(computed: Published) -> Iterator[tuple[str, Message]]:
    return ((use.what, message(f"colours.use.{use.how}")) for use in pour_uses(computed))


KEYS_BY_ID = {"colours.use.": ("line", "embeds", "sprinkle")}
"""Keys that are put together here: what they start with, and the ids that may follow."""
