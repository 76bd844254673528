"""The schema of the maker's `pantry.yaml`."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from saponary.schema.fields import (
    Colour,
    Date,
    Day,
    Density,
    IodineValue,
    Length,
    Name,
    Part,
    Rate,
    SaponificationValue,
    Share,
    ShortText,
    Volume,
    shorthand,
)
from saponary.schema.waivers import Waivers

OilKind = Literal["oil", "butter", "fat", "wax", "acid"]


def _per_kilo(value: object) -> object:
    """`8.40 / kg` is 8.40 in the book's own currency, per kilogram."""
    if isinstance(value, str):
        head, slash, unit = value.partition("/")
        if slash and unit.strip() == "kg":
            return head.strip()
    return value


Price = Annotated[float, BeforeValidator(_per_kilo), Field(ge=0, le=1e6, allow_inf_nan=False)]


class CertifiedValue(Part):
    """A saponification value from a certificate, with its range."""

    value: SaponificationValue
    range: Annotated[list[SaponificationValue], Field(min_length=2, max_length=2)] | None = None
    from_: ShortText | None = None


class OilEntry(Part):
    name: ShortText | None = None
    kind: OilKind | None = None
    latin: ShortText | None = None
    inci: ShortText | None = None
    inci_sodium_soap: ShortText | None = None
    inci_potassium_soap: ShortText | None = None
    saponification_value: Annotated[CertifiedValue, shorthand("value")] | None = None
    iodine_value: IodineValue | None = None
    fatty_acids: dict[ShortText, Share] | None = None
    unsaponifiable: Share | None = None
    density: Density | None = None
    allergen: ShortText | None = None
    price: Price | None = None
    supplier: ShortText | None = None
    note: ShortText | None = None


class LiquidEntry(Part):
    name: ShortText | None = None
    water: Share | None = None
    fat: Share | None = None
    sugar: Share | None = None
    density: Density | None = None
    latin: ShortText | None = None
    inci: ShortText | None = None
    price: Price | None = None
    supplier: ShortText | None = None
    note: ShortText | None = None


class ChipEntry(Part):
    """A colour chip: the colour of a bar at a dose, on a day of its cure."""

    dose: Rate
    day: Day
    colour: Colour
    note: ShortText | None = None


class AdditionEntry(Part):
    name: ShortText | None = None
    kind: ShortText | None = None
    density: Density | None = None
    water: Share | None = None
    usual: Annotated[list[Rate], Field(min_length=2, max_length=2)] | None = None
    stage: Literal["lye", "oils", "trace"] | None = None
    latin: ShortText | None = None
    inci: ShortText | None = None
    free_alkali: Share | None = None
    fresh: Colour | None = None
    cured: Colour | None = None
    full_depth: Rate | None = None
    stays: bool | None = None
    chips: Annotated[list[ChipEntry], Field(max_length=60)] = []
    price: Price | None = None
    supplier: ShortText | None = None
    note: ShortText | None = None


class Box(Part):
    length: Length
    width: Length
    height: Length
    top_length: Length | None = None
    top_width: Length | None = None
    liner: Length | None = None
    count: Annotated[int, Field(ge=1, le=100)] = 1


class Cylinder(Part):
    diameter: Length
    length: Length
    liner: Length | None = None
    count: Annotated[int, Field(ge=1, le=100)] = 1


class Cavities(Part):
    count: Annotated[int, Field(ge=1, le=500)]
    volume: Volume


class MouldEntry(Part):
    """One mould: exactly one of its kinds is given."""

    loaf: Box | None = None
    slab: Box | None = None
    cylinder: Cylinder | None = None
    cavities: Cavities | None = None


class InfusionEntry(Part):
    botanical: Name
    carrier: Name
    ratio: ShortText | None = None
    made: Date | None = None
    days: Annotated[int, Field(ge=0, le=2000)] | None = None


class ScrapEntry(Part):
    of: Name
    lot: ShortText | None = None


class CertificateEntry(Part):
    """The largest share of the finished product, from the supplier's certificate for this very scent."""

    maximum: Share
    category: ShortText | None = None
    from_: ShortText | None = None


class FragranceEntry(Part):
    """A scent. `composition` is the supplier's allergen sheet (may be empty); `blend` makes it of others."""

    name: ShortText | None = None
    kind: Literal["essential-oil", "fragrance-oil"] | None = None
    latin: ShortText | None = None
    inci: ShortText | None = None
    density: Density | None = None
    composition: Annotated[dict[ShortText, Share], Field(max_length=200)] | None = None
    certificate: Annotated[CertificateEntry, shorthand("maximum")] | None = None
    blend: Annotated[dict[Name, Share], Field(min_length=1, max_length=40)] | None = None
    price: Price | None = None
    supplier: ShortText | None = None
    note: ShortText | None = None


class PantryFile(Part):
    oils: dict[Name, OilEntry] = {}
    liquids: dict[Name, LiquidEntry] = {}
    additions: dict[Name, AdditionEntry] = {}
    colourants: dict[Name, AdditionEntry] = {}
    moulds: dict[Name, MouldEntry] = {}
    infusions: dict[Name, InfusionEntry] = {}
    scraps: dict[Name, ScrapEntry] = {}
    fragrances: dict[Name, FragranceEntry] = {}
    waive: Waivers = []
