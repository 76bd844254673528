"""An ingredient as it is written: by a maker in `pantry.yaml`, and in the tables of this package alike.

Every field may be left out. Over a known ingredient an entry replaces what it states; a new
one takes the rest from the ingredient that `like` names.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from saponary.schema.fields import (
    Density,
    Name,
    Part,
    ShortText,
    Temperature,
    shorthand,
)
from saponary.schema.seen import Private, Public, Seen
from saponary.schema.selling import PlaceOfSale

Allergen = Literal["tree-nut", "gluten", "wheat", "sesame", "soy", "peanut", "milk"]


Hazard = Literal["heat", "carbon-monoxide", "dust", "scratch", "sensitiser", "pregnancy-pets", "free-alkali"]


FreeFrom = Literal["animal-fat", "palm-oil", "grain"]


Origin = Literal["plant", "animal", "mineral", "synthetic", "unknown"]


How = Literal["verified", "second-hand", "memory", "computed", "common-practice", "maker"]


def _per_kilo(value: object) -> object:
    """`8.40 / kg` is 8.40 in the book's own currency, per kilogram."""
    if isinstance(value, str):
        head, slash, unit = value.partition("/")
        if slash and unit.strip() == "kg":
            return head.strip()
    return value


Price = Annotated[
    float,
    BeforeValidator(_per_kilo),
    Field(ge=0, le=1e6, allow_inf_nan=False, json_schema_extra={"type": ["number", "string"]}),
]


LongText = Annotated[str, Field(max_length=1000)]


class SourceEntry(Part):
    """Where a group of figures comes from: how it is known, which publication, which place in it."""

    how: Public[How]
    """How it is known: `verified`, `second-hand`, `memory`, `computed`, `common-practice` or `maker`."""
    publication: Public[ShortText | None] = None
    """The publication, by its name in the tables.
    Example:
      oils:
        olive:
          iodine-value: 82
          source:
            iodine-value: {how: second-hand, publication: cxs-33, where: the mill's sheet}
    """
    where: Public[LongText | None] = None
    """The place in it, or the paper you have it from."""


class DensityEntry(Part):
    value: Public[Density]
    """Grams of one millilitre. `density: 0.91 g/ml` is short for it.
    Example: oils: {olive: {density: {value: 0.91 g/ml, at: 20 °C}}}
    """
    at: Public[Temperature | None] = None
    """The temperature at which it holds. Example: oils: {olive: {density: {value: 0.91 g/ml, at: 20 °C}}}"""


class IngredientEntry(Part):
    """What any ingredient may state."""

    like: Private[Name | None] = None
    """The ingredient from which the rest is taken. Price and supplier are not.
    Example: oils: {lard-of-the-butcher: {like: lard, price: 3 / kg}}
    """
    name: Public[ShortText | None] = None
    """What it is called on the pages.
    Example: oils: {lard-of-the-butcher: {like: lard, name: Lard from the butcher}}
    """
    latin: Public[ShortText | None] = None
    """The plant's or animal's botanical or zoological name.
    Example: oils: {olive-of-mine: {like: olive, latin: Olea europaea}}
    """
    inci: Public[ShortText | None] = None
    """Its name in an ingredient list. Look it up in the official list, do not make one up.
    Example: oils: {olive-of-mine: {like: olive, inci: Olea Europaea Fruit Oil}}
    """
    allergens: Public[Annotated[list[Allergen], Field(max_length=10)] | None] = None
    """Food allergens in it: `tree-nut`, `gluten`, `wheat`, `sesame`, `soy`, `peanut`, `milk`.
    Example: oils: {walnut-of-mine: {like: walnut, allergens: [tree-nut]}}
    """
    hazards: Public[Annotated[list[Hazard], Field(max_length=10)] | None] = None
    """What the pages warn of: `heat`, `carbon-monoxide`, `dust`, `scratch`, `sensitiser`, `pregnancy-pets`,
    `free-alkali`.
    Example:
      colourants:
        brick-dust:
          inci: Illite
          fresh: "#a4503c"
          cured: "#b98f86"
          hazards: [dust]
    """
    origin: Public[Origin | None] = None
    """Where it comes from: `plant`, `animal`, `mineral`, `synthetic` or `unknown`.
    Example: oils: {lard-of-the-butcher: {like: lard, origin: animal}}
    """
    free_from: Public[Annotated[list[FreeFrom], Field(max_length=10)] | None] = None
    """What the supplier says it is free from: `animal-fat`, `palm-oil`, `grain`. What is not known is never
    counted as free.
    Example: oils: {olive-of-mine: {like: olive, free-from: [animal-fat, palm-oil, grain]}}
    """
    density: Public[Annotated[DensityEntry, shorthand("value")] | None] = None
    """Its density, which turns spoons and millilitres into grams.
    Example: oils: {olive: {density: 0.91 g/ml}}
    """
    law: Public[dict[PlaceOfSale, ShortText] | None] = None
    """Remarks for a place of sale, by `us`, `eu` or `gb`.
    Example:
      colourants:
        brick-dust:
          inci: Illite
          fresh: "#a4503c"
          cured: "#b98f86"
          law: {eu: not a listed colour}
    """
    price: Annotated[Price | None, Seen("costs")] = None
    """What a kilogram costs, in your currency. Only the maker's edition shows costs.
    Example: oils: {olive: {price: 8.40 / kg}}
    """
    supplier: Private[ShortText | None] = None
    """Where you buy it. It is never published. Example: oils: {olive: {supplier: the mill on the hill}}"""
    note: Private[LongText | None] = None
    """A remark for yourself. It is never published.
    Example: oils: {olive: {note: Order before the winter.}}
    """
    source: Private[Annotated[dict[Name, SourceEntry], Field(max_length=40)] | None] = None
    """Where its figures come from, by the key they stand under.
    Example:
      oils:
        olive:
          saponification-value: 189.4 mg/g
          source:
            saponification-value: {how: maker, where: certificate of lot 4471}
    """
