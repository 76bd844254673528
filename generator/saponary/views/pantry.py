"""Which recipes use what: oils, liquids and additions of the published recipes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from saponary.book.published import Published
from saponary.lye.formula import Addition, Liquid
from saponary.messages.message import Message, Number, Value, grams, message, percent, short
from saponary.pantry.model import Ingredient, Pantry, Range
from saponary.quantity.totals import totals
from saponary.views import links, names
from saponary.views.prose import Prose
from saponary.views.sources import Known, known


@dataclass(frozen=True)
class Use:
    title: str
    href: str
    much: Value


class Property(NamedTuple):
    """What is known of an ingredient, and from where; no source at all where a recipe names a thing
    that is on no shelf."""

    label: Value
    text: Value
    sources: tuple[Known, ...]


@dataclass(frozen=True)
class Item:
    id: str
    name: str
    latin: str
    facts: tuple[Property, ...]
    uses: tuple[Use, ...]


@dataclass(frozen=True)
class Shelf:
    """One of `SHELVES`, with what stands on it."""

    id: str
    items: tuple[Item, ...]


SHELVES = ("oils", "liquids", "additions")

KEYS_BY_ID = {"shelves.": tuple(f"{shelf}.{part}" for shelf in SHELVES for part in ("title", "about"))}
"""Keys that templates put together: what they start with, and the ids that may follow."""


class Taken(NamedTuple):
    """That a recipe takes something from a shelf."""

    shelf: str
    id: str
    use: Use


def taken(recipe: Published) -> Iterator[Taken]:
    """All that one recipe takes."""
    title = Prose(recipe.catalogue).title(recipe.model.title)
    for kind in SHELVES:
        for name, much in _used(recipe, kind):
            yield Taken(kind, name, Use(title, "../" + links.recipe_page(recipe.slug), much))


def shelves(shelf: Pantry, everything: Sequence[Taken]) -> tuple[Shelf, ...]:
    """Only what some recipe uses, by name; of each, recipes in the order in which they take it."""
    found = (Shelf(kind, _items(shelf, everything, kind)) for kind in SHELVES)
    return tuple(one for one in found if one.items)


def _items(shelf: Pantry, everything: Sequence[Taken], kind: str) -> tuple[Item, ...]:
    uses: dict[str, list[Use]] = {}
    for one in everything:
        if one.shelf == kind:
            uses.setdefault(one.id, []).append(one.use)
    made = [_ITEM[kind](shelf, name, tuple(of)) for name, of in uses.items()]
    return tuple(sorted(made, key=lambda item: (item.name.casefold(), item.id)))


def _used(recipe: Published, kind: str) -> Iterator[tuple[str, Number]]:
    formula = recipe.resolved.formula
    if kind == "oils":
        yield from ((name, percent(share, 0)) for name, share in formula.shares.items())
        return
    parts: Sequence[Liquid | Addition] = formula.liquids if kind == "liquids" else formula.additions
    weights = totals((part.id, part.grams) for part in parts)
    yield from ((name, grams(weight)) for name, weight in weights.items())


def _oil(shelf: Pantry, name: str, uses: tuple[Use, ...]) -> Item:
    oil = shelf.oils.get(name)
    facts: list[Property] = []
    if oil:
        value = _range(oil.saponification_value, "mg/g")
        facts.append(
            _property(oil, shelf, message("shelves.saponification"), value, *_value("saponification-value"))
        )
    if oil and oil.iodine_value:
        iodine = _range(oil.iodine_value, "g/100 g")
        facts.append(_property(oil, shelf, message("shelves.iodine"), iodine, *_value("iodine-value")))
    return _item("oil", name, names.oil(shelf, name), oil, shelf, facts, uses)


def _liquid(shelf: Pantry, name: str, uses: tuple[Use, ...]) -> Item:
    liquid = shelf.liquid(name)
    facts: list[Property] = []
    if liquid:
        made_of = (
            (message("shelves.water"), liquid.water),
            (message("shelves.fat"), liquid.fat),
            (message("shelves.sugar"), liquid.sugar),
        )
        facts += (
            _property(liquid, shelf, label, percent(part), "composition")
            for label, part in made_of
            if part > 0
        )
    return _item("liquid", name, names.liquid(shelf, name), liquid, shelf, facts, uses)


def _addition(shelf: Pantry, name: str, uses: tuple[Use, ...]) -> Item:
    addition = shelf.additions.get(name)
    facts: list[Property] = []
    if addition and addition.usual:
        low, high = addition.usual
        rates = message(
            "shelves.rates", low=replace(short(low, unit="g/kg"), bare=True), high=short(high, unit="g/kg")
        )
        facts.append(_property(addition, shelf, message("shelves.usual"), rates, "usual"))
    return _item("addition", name, names.addition(shelf, name), addition, shelf, facts, uses)


def _value(group: str) -> tuple[str, str]:
    """The two groups of sources of a value and of its range."""
    return group, f"{group}-range"


def _property(entry: Ingredient, shelf: Pantry, label: Message, text: Value, *groups: str) -> Property:
    return Property(label, text, tuple(known(entry, shelf, *groups)))


def _item(
    kind: str,
    name: str,
    title: str,
    entry: Ingredient | None,
    shelf: Pantry,
    facts: Sequence[Property],
    uses: tuple[Use, ...],
) -> Item:
    """The facts of its kind, with what every ingredient may have."""
    every = list(facts)
    if entry and entry.inci:
        every.append(_property(entry, shelf, message("shelves.listed"), entry.inci, "inci"))
    return Item(f"{kind}-{name}", title, (entry.latin if entry else None) or "", tuple(every), uses)


_ITEM = {"oils": _oil, "liquids": _liquid, "additions": _addition}


def _range(value: Range, unit: str) -> Value:
    best = short(value.value, unit=unit)
    if value.low == value.high:
        return best
    return message("shelves.range", best=best, low=short(value.low), high=short(value.high))
