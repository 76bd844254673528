"""What a bar contains, in common names and in the order of its label; then the list of one place of sale."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, NamedTuple, get_args

from saponary.label.holds import botanical
from saponary.label.lists import Bar
from saponary.label.tables import Jurisdiction, jurisdictions
from saponary.lye.contents import Part
from saponary.messages.message import Value, Within, message
from saponary.pantry.model import Addition, Ingredient
from saponary.schema.settings import Settings

RowName = Literal["soap-of", "glycerine", "water", "added", "colour", "scent", "steeped", "on-top"]


@dataclass(frozen=True)
class Item:
    """One thing by its common name; `allergen` where it is a food allergen, or holds one."""

    name: Value
    allergen: bool


class Row(NamedTuple):
    """Things that are in the bar for one reason, the most by weight first."""

    key: str
    """Of the text that says what for, with a place for the names."""
    items: tuple[Item, ...]


class Legal(NamedTuple):
    """The ingredient list of the place of sale, as the label has it."""

    place: str
    text: str


KEYS_BY_ID = {"shop.in.": get_args(RowName)}
"""Keys that are put together here: what they start with, and the ids that may follow."""


def contents(bar: Bar) -> tuple[Row, ...]:
    """The rows that have anything in them."""
    rows: dict[RowName, dict[str, Item]] = {name: {} for name in get_args(RowName)}
    rows["glycerine"] = {"": Item(message("shop.glycerine"), allergen=False)}
    for part in sorted(bar.charged.parts, key=lambda part: -part.grams):
        for row, entry in _placed(part, bar):
            rows[row].setdefault(entry.id, _item(entry))
        if part.kind == "water" and part.grams > 0:
            rows["water"][""] = Item(message("shop.water"), allergen=False)
    for name in bar.charged.unweighed:
        loose = bar.pantry.additions.get(name)
        if loose is not None:
            rows["on-top"].setdefault(loose.id, _item(loose))
    return tuple(Row(f"shop.in.{name}", tuple(items.values())) for name, items in rows.items() if items)


def _placed(part: Part, bar: Bar) -> Iterator[tuple[RowName, Ingredient]]:
    pantry = bar.pantry
    if part.kind == "oil" and part.id in pantry.oils:
        yield "soap-of", pantry.oils[part.id]
        for name in part.infused_with:
            if (soaked := botanical(name, pantry)) is not None:
                yield "steeped", soaked
    elif part.kind == "liquid" and (liquid := pantry.liquid(part.id)) is not None:
        yield "water", liquid
    elif part.kind == "addition" and part.id in pantry.additions:
        addition = pantry.additions[part.id]
        yield _role(addition), addition


def _role(addition: Addition) -> RowName:
    if addition.kind == "fragrance":
        return "scent"
    coloured = addition.colour is not None and addition.kind not in _FOR_ITSELF
    return "colour" if coloured else "added"


_FOR_ITSELF = frozenset({"soap", "scrub", "botanical"})
"""Kinds of addition that go in for what they are, whatever colour they give."""


def _item(entry: Ingredient) -> Item:
    return Item(Within(entry.name), bool(entry.allergens))


def law_of(settings: Settings) -> Jurisdiction:
    """Of the shop's place; of the first place the book is sold in where the shop names none."""
    sold: list[str] = list(settings.sold_in)
    return jurisdictions()[settings.shop.place or (sold[0] if sold else "eu")]


def legal(bar: Bar, settings: Settings) -> Legal:
    """The list as a label for the place of sale has it."""
    law = law_of(settings)
    return Legal(law.name, bar.ingredients(law).text)
