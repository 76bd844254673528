"""Which recipes use what: oils, liquids and additions of the published recipes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from saponary.lye.formula import Addition, Liquid, Oil
from saponary.pantry.model import Pantry, Range
from saponary.quantity.numbers import percent, short
from saponary.quantity.rounding import show
from saponary.quantity.totals import totals
from saponary.views import links, names
from saponary.views.prose import Prose
from saponary.views.site import RecipeInput


@dataclass(frozen=True)
class Use:
    title: str
    href: str
    much: str


@dataclass(frozen=True)
class Item:
    id: str
    name: str
    latin: str
    facts: tuple[tuple[str, str], ...]
    uses: tuple[Use, ...]


@dataclass(frozen=True)
class Shelf:
    id: str
    title: str
    about: str
    items: tuple[Item, ...]


def shelves(shelf: Pantry, recipes: Sequence[RecipeInput]) -> tuple[Shelf, ...]:
    """Only what some recipe uses, by name."""
    found = (
        Shelf(
            "oils",
            "Oils, butters and fats",
            "Shares are of the oils of each recipe.",
            _items(shelf, recipes, "oil"),
        ),
        Shelf(
            "liquids",
            "Liquids",
            "In place of part of the water; weights are for the batch as written.",
            _items(shelf, recipes, "liquid"),
        ),
        Shelf(
            "additions",
            "Additions and colourants",
            "Weights are for the batch as written.",
            _items(shelf, recipes, "addition"),
        ),
    )
    return tuple(one for one in found if one.items)


def _items(shelf: Pantry, recipes: Sequence[RecipeInput], kind: str) -> tuple[Item, ...]:
    uses: dict[str, list[Use]] = {}
    for recipe in recipes:
        for name, much in _used(recipe, kind):
            title = Prose(recipe.computed.catalogue).title(recipe.computed.model.title)
            uses.setdefault(name, []).append(Use(title, "../" + links.recipe_page(recipe.slug), much))
    made = [_item(shelf, kind, name, tuple(of)) for name, of in uses.items()]
    return tuple(sorted(made, key=lambda item: (item.name.casefold(), item.id)))


def _used(recipe: RecipeInput, kind: str) -> Iterator[tuple[str, str]]:
    formula = recipe.computed.resolved.formula
    shelves: dict[str, Sequence[Oil | Liquid | Addition]] = {
        "oil": formula.oils, "liquid": formula.liquids, "addition": formula.additions,
    }  # fmt: skip
    for name, weight in totals((part.id, part.grams) for part in shelves[kind]).items():
        yield name, percent(weight / formula.oils_grams, 0) if kind == "oil" else f"{show(weight, 1)} g"


def _item(shelf: Pantry, kind: str, name: str, uses: tuple[Use, ...]) -> Item:
    if kind == "oil":
        oil = shelf.oils.get(name)
        facts = [("Saponification value", _range(oil.saponification_value, "mg/g"))] if oil else []
        if oil and oil.iodine_value:
            facts.append(("Iodine value", _range(oil.iodine_value, "g/100 g")))
        return Item(
            f"oil-{name}", names.oil(shelf, name), (oil.latin if oil else None) or "", tuple(facts), uses
        )
    if kind == "liquid":
        liquid = shelf.liquid(name)
        made_of = [("Water", liquid.water), ("Fat", liquid.fat), ("Sugar", liquid.sugar)] if liquid else []
        facts = [(label, percent(part)) for label, part in made_of if part > 0]
        return Item(
            f"liquid-{name}",
            names.liquid(shelf, name),
            (liquid.latin if liquid else None) or "",
            tuple(facts),
            uses,
        )
    found = shelf.additions.get(name)
    facts = (
        [("Usual", f"{short(found.usual[0])} to {short(found.usual[1])} g a kg of oils")]
        if found and found.usual
        else []
    )
    return Item(
        f"addition-{name}",
        names.addition(shelf, name),
        (found.latin if found else None) or "",
        tuple(facts),
        uses,
    )


def _range(value: Range, unit: str) -> str:
    if value.low == value.high:
        return f"{short(value.value)} {unit}"
    return f"{short(value.value)} {unit} ({short(value.low)} to {short(value.high)})"
