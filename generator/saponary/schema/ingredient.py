"""An ingredient as it is written: by a maker in `pantry.yaml`, and in the tables of this package alike.

Every field may be left out. Over a known ingredient an entry replaces what it states; a new
one takes the rest from the ingredient that `like` names.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from saponary.schema.fields import (
    Colour,
    Date,
    Day,
    Density,
    IodineValue,
    MolarMass,
    Name,
    Part,
    Rate,
    SaponificationValue,
    Share,
    ShortText,
    Temperature,
    Uptake,
    shorthand,
)
from saponary.schema.seen import Private, Public, Seen

OilKind = Literal["oil", "butter", "fat", "wax", "acid"]
Allergen = Literal["tree-nut", "gluten", "wheat", "sesame", "soy", "peanut", "milk"]
Hazard = Literal["heat", "carbon-monoxide", "dust", "scratch", "sensitiser", "pregnancy-pets", "free-alkali"]
Origin = Literal["plant", "animal", "mineral", "synthetic", "unknown"]
How = Literal["verified", "second-hand", "memory", "computed", "common-practice", "maker"]
LyeOrder = Literal["before-alkali", "in-lye", "cooled-lye"]
"""What goes into the lye: into the water before the alkali, into the lye, or once it has cooled."""
UptakeKnown = Literal["known", "unknown"]
"""Whether all the alkali that a thing binds or brings is stated."""


def _per_kilo(value: object) -> object:
    """`8.40 / kg` is 8.40 in the book's own currency, per kilogram."""
    if isinstance(value, str):
        head, slash, unit = value.partition("/")
        if slash and unit.strip() == "kg":
            return head.strip()
    return value


Price = Annotated[float, BeforeValidator(_per_kilo), Field(ge=0, le=1e6, allow_inf_nan=False)]
LongText = Annotated[str, Field(max_length=1000)]


class SourceEntry(Part):
    """Where a group of figures comes from: how it is known, which publication, which place in it."""

    how: Public[How]
    publication: Public[ShortText | None] = None
    where: Public[LongText | None] = None


class DensityEntry(Part):
    value: Public[Density]
    at: Public[Temperature | None] = None


class IngredientEntry(Part):
    """What any ingredient may state."""

    like: Private[Name | None] = None
    name: Public[ShortText | None] = None
    latin: Public[ShortText | None] = None
    inci: Public[ShortText | None] = None
    allergens: Public[Annotated[list[Allergen], Field(max_length=10)] | None] = None
    hazards: Public[Annotated[list[Hazard], Field(max_length=10)] | None] = None
    origin: Public[Origin | None] = None
    density: Public[Annotated[DensityEntry, shorthand("value")] | None] = None
    law: Public[dict[Name, ShortText] | None] = None
    price: Annotated[Price | None, Seen("costs")] = None
    supplier: Private[ShortText | None] = None
    note: Private[LongText | None] = None
    source: Private[Annotated[dict[Name, SourceEntry], Field(max_length=40)] | None] = None


class CertifiedValue(Part):
    """A saponification value, with its published or certified range."""

    value: Public[SaponificationValue]
    range: Public[Annotated[list[SaponificationValue], Field(min_length=2, max_length=2)] | None] = None
    from_: Private[ShortText | None] = None


class IodineEntry(Part):
    value: Public[IodineValue]
    range: Public[Annotated[list[IodineValue], Field(min_length=2, max_length=2)] | None] = None


class UnsaponifiableEntry(Part):
    """What takes no alkali: the share used, and the most that is allowed."""

    value: Public[Share]
    limit: Public[Share | None] = None


class OilLot(Part):
    """One lot of an oil as bought: the day until which its supplier vouches for it."""

    best_before: Public[Date]


class OilEntry(IngredientEntry):
    kind: Public[OilKind | None] = None
    inci_sodium_soap: Public[ShortText | None] = None
    inci_potassium_soap: Public[ShortText | None] = None
    saponification_value: Public[Annotated[CertifiedValue, shorthand("value")] | None] = None
    iodine_value: Public[Annotated[IodineEntry, shorthand("value")] | None] = None
    fatty_acids: Public[dict[ShortText, Share] | None] = None
    unsaponifiable: Public[Annotated[UnsaponifiableEntry, shorthand("value")] | None] = None
    melting: Public[Annotated[list[Temperature], Field(min_length=2, max_length=2)] | None] = None
    certificate_needed: Public[bool | None] = None
    lots: Annotated[
        dict[ShortText, Annotated[OilLot, shorthand("best-before")]] | None,
        Field(max_length=200),
        Seen("people"),
    ] = None


class AcidEntry(Part):
    """The alkali a thing takes: so much a gram, or by an acid of so much strength.

    The acid is one of the pantry (`of`), or is told by its molar mass and its acid groups.
    """

    takes: Public[Uptake | None] = None
    of: Public[Name | None] = None
    molar_mass: Public[MolarMass | None] = None
    groups: Public[Annotated[int, Field(ge=1, le=10)] | None] = None
    share: Public[Share | None] = None


Acid = Annotated[AcidEntry, shorthand("takes")]


class FreeAlkaliEntry(Part):
    """The free alkali in a thing: its share, what it may be at the most, and as which hydroxide it is stated."""

    share: Public[Share | None] = None
    most: Public[Share | None] = None
    as_: Public[Literal["sodium-hydroxide", "potassium-hydroxide"] | None] = None


FreeAlkali = Annotated[FreeAlkaliEntry, shorthand("share")]


class LiquidEntry(IngredientEntry):
    water: Public[Share | None] = None
    fat: Public[Share | None] = None
    fat_saponification_value: Public[SaponificationValue | None] = None
    sugar: Public[Share | None] = None
    acid: Public[Acid | None] = None
    uptake: Public[UptakeKnown | None] = None
    inci_sodium_salt: Public[ShortText | None] = None
    inci_potassium_salt: Public[ShortText | None] = None


class ChipEntry(Part):
    """A colour chip: the colour of a bar at a dose, on a day of its cure."""

    dose: Public[Rate]
    day: Public[Day]
    colour: Public[Colour]
    note: Public[ShortText | None] = None


class AdditionEntry(IngredientEntry):
    kind: Public[ShortText | None] = None
    water: Public[Share | None] = None
    fat: Public[Share | None] = None
    fat_saponification_value: Public[SaponificationValue | None] = None
    acid: Public[Acid | None] = None
    uptake: Public[UptakeKnown | None] = None
    free_alkali: Public[FreeAlkali | None] = None
    inci_sodium_salt: Public[ShortText | None] = None
    inci_potassium_salt: Public[ShortText | None] = None
    liquid: Public[bool | None] = None
    displaces: Public[Density | None] = None
    usual: Public[Annotated[list[Rate], Field(min_length=2, max_length=2)] | None] = None
    cap: Public[Rate | None] = None
    stage: Public[Literal["lye", "oils", "trace"] | None] = None
    lye_order: Public[LyeOrder | None] = None
    ci: Public[ShortText | None] = None
    listed_colour: Public[Annotated[list[Name], Field(max_length=10)] | None] = None
    fresh: Public[Colour | None] = None
    cured: Public[Colour | None] = None
    full_depth: Public[Rate | None] = None
    lightfast: Public[Literal["good", "fair", "poor"] | None] = None
    stays: Public[bool | None] = None
    in_alkali: Public[ShortText | None] = None
    dry: Public[Colour | None] = None
    dry_cured: Public[Colour | None] = None
    chips: Annotated[list[ChipEntry], Field(max_length=60), Seen("work")] = []


class CertificateEntry(Part):
    """The largest share of the finished product, from the supplier's certificate for this very scent."""

    maximum: Public[Share]
    category: Public[ShortText | None] = None
    from_: Private[ShortText | None] = None


class FragranceEntry(IngredientEntry):
    """A scent. `composition` is the supplier's allergen sheet (may be empty); `blend` makes it of others."""

    kind: Public[Literal["essential-oil", "fragrance-oil"] | None] = None
    composition: Public[Annotated[dict[ShortText, Share], Field(max_length=200)] | None] = None
    certificate: Public[Annotated[CertificateEntry, shorthand("maximum")] | None] = None
    blend: Private[Annotated[dict[Name, Share], Field(min_length=1, max_length=40)] | None] = None
