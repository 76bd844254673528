"""An ingredient as it is written: by a maker in `pantry.yaml`, and in the tables of this package alike.

Every field may be left out. Over a known ingredient an entry replaces what it states; a new
one takes the rest from the ingredient that `like` names. `PUBLIC` of a class lists the fields
that may leave the maker's book; a field that is not in it stays private.
"""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import BeforeValidator, Field

from saponary.schema.fields import (
    Colour,
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

    how: How
    publication: ShortText | None = None
    where: LongText | None = None


class DensityEntry(Part):
    PUBLIC: ClassVar[frozenset[str]] = frozenset({"value", "at"})

    value: Density
    at: Temperature | None = None


class IngredientEntry(Part):
    """What any ingredient may state."""

    PUBLIC: ClassVar[frozenset[str]] = frozenset(
        {"name", "latin", "inci", "allergens", "hazards", "origin", "density", "law"}
    )

    like: Name | None = None
    name: ShortText | None = None
    latin: ShortText | None = None
    inci: ShortText | None = None
    allergens: Annotated[list[Allergen], Field(max_length=10)] | None = None
    hazards: Annotated[list[Hazard], Field(max_length=10)] | None = None
    origin: Origin | None = None
    density: Annotated[DensityEntry, shorthand("value")] | None = None
    law: dict[Name, ShortText] | None = None
    price: Price | None = None
    supplier: ShortText | None = None
    note: LongText | None = None
    source: Annotated[dict[Name, SourceEntry], Field(max_length=40)] | None = None


class CertifiedValue(Part):
    """A saponification value, with its published or certified range."""

    PUBLIC: ClassVar[frozenset[str]] = frozenset({"value", "range"})

    value: SaponificationValue
    range: Annotated[list[SaponificationValue], Field(min_length=2, max_length=2)] | None = None
    from_: ShortText | None = None


class IodineEntry(Part):
    PUBLIC: ClassVar[frozenset[str]] = frozenset({"value", "range"})

    value: IodineValue
    range: Annotated[list[IodineValue], Field(min_length=2, max_length=2)] | None = None


class UnsaponifiableEntry(Part):
    """What takes no alkali: the share used, and the most that is allowed."""

    PUBLIC: ClassVar[frozenset[str]] = frozenset({"value", "limit"})

    value: Share
    limit: Share | None = None


class OilEntry(IngredientEntry):
    PUBLIC: ClassVar[frozenset[str]] = IngredientEntry.PUBLIC | {
        "kind", "inci_sodium_soap", "inci_potassium_soap", "saponification_value", "iodine_value",
        "fatty_acids", "unsaponifiable", "melting", "certificate_needed",
    }  # fmt: skip

    kind: OilKind | None = None
    inci_sodium_soap: ShortText | None = None
    inci_potassium_soap: ShortText | None = None
    saponification_value: Annotated[CertifiedValue, shorthand("value")] | None = None
    iodine_value: Annotated[IodineEntry, shorthand("value")] | None = None
    fatty_acids: dict[ShortText, Share] | None = None
    unsaponifiable: Annotated[UnsaponifiableEntry, shorthand("value")] | None = None
    melting: Annotated[list[Temperature], Field(min_length=2, max_length=2)] | None = None
    certificate_needed: bool | None = None


class AcidEntry(Part):
    """The alkali a thing takes: so much a gram, or by an acid of so much strength.

    The acid is one of the pantry (`of`), or is told by its molar mass and its acid groups.
    """

    PUBLIC: ClassVar[frozenset[str]] = frozenset({"takes", "of", "molar_mass", "groups", "share"})

    takes: Uptake | None = None
    of: Name | None = None
    molar_mass: MolarMass | None = None
    groups: Annotated[int, Field(ge=1, le=10)] | None = None
    share: Share | None = None


Acid = Annotated[AcidEntry, shorthand("takes")]


class FreeAlkaliEntry(Part):
    """The free alkali in a thing: its share, what it may be at the most, and as which hydroxide it is stated."""

    PUBLIC: ClassVar[frozenset[str]] = frozenset({"share", "most", "as_"})

    share: Share | None = None
    most: Share | None = None
    as_: Literal["sodium-hydroxide", "potassium-hydroxide"] | None = None


FreeAlkali = Annotated[FreeAlkaliEntry, shorthand("share")]


class LiquidEntry(IngredientEntry):
    PUBLIC: ClassVar[frozenset[str]] = IngredientEntry.PUBLIC | {
        "water", "fat", "fat_saponification_value", "sugar", "acid", "uptake", "inci_sodium_salt",
        "inci_potassium_salt",
    }  # fmt: skip

    water: Share | None = None
    fat: Share | None = None
    fat_saponification_value: SaponificationValue | None = None
    sugar: Share | None = None
    acid: Acid | None = None
    uptake: UptakeKnown | None = None
    inci_sodium_salt: ShortText | None = None
    inci_potassium_salt: ShortText | None = None


class ChipEntry(Part):
    """A colour chip: the colour of a bar at a dose, on a day of its cure."""

    dose: Rate
    day: Day
    colour: Colour
    note: ShortText | None = None


class AdditionEntry(IngredientEntry):
    PUBLIC: ClassVar[frozenset[str]] = IngredientEntry.PUBLIC | {
        "kind", "water", "fat", "fat_saponification_value", "acid", "uptake", "free_alkali",
        "inci_sodium_salt", "inci_potassium_salt", "liquid",
        "displaces", "usual", "cap", "stage", "lye_order", "ci", "listed_colour", "fresh", "cured",
        "full_depth",
        "lightfast", "stays", "in_alkali", "dry", "dry_cured",
    }  # fmt: skip

    kind: ShortText | None = None
    water: Share | None = None
    fat: Share | None = None
    fat_saponification_value: SaponificationValue | None = None
    acid: Acid | None = None
    uptake: UptakeKnown | None = None
    free_alkali: FreeAlkali | None = None
    inci_sodium_salt: ShortText | None = None
    inci_potassium_salt: ShortText | None = None
    liquid: bool | None = None
    displaces: Density | None = None
    usual: Annotated[list[Rate], Field(min_length=2, max_length=2)] | None = None
    cap: Rate | None = None
    stage: Literal["lye", "oils", "trace"] | None = None
    lye_order: LyeOrder | None = None
    ci: ShortText | None = None
    listed_colour: Annotated[list[Name], Field(max_length=10)] | None = None
    fresh: Colour | None = None
    cured: Colour | None = None
    full_depth: Rate | None = None
    lightfast: Literal["good", "fair", "poor"] | None = None
    stays: bool | None = None
    in_alkali: ShortText | None = None
    dry: Colour | None = None
    dry_cured: Colour | None = None
    chips: Annotated[list[ChipEntry], Field(max_length=60)] = []


class CertificateEntry(Part):
    """The largest share of the finished product, from the supplier's certificate for this very scent."""

    PUBLIC: ClassVar[frozenset[str]] = frozenset({"maximum", "category"})

    maximum: Share
    category: ShortText | None = None
    from_: ShortText | None = None


class FragranceEntry(IngredientEntry):
    """A scent. `composition` is the supplier's allergen sheet (may be empty); `blend` makes it of others."""

    PUBLIC: ClassVar[frozenset[str]] = IngredientEntry.PUBLIC | {"kind", "composition", "certificate"}

    kind: Literal["essential-oil", "fragrance-oil"] | None = None
    composition: Annotated[dict[ShortText, Share], Field(max_length=200)] | None = None
    certificate: Annotated[CertificateEntry, shorthand("maximum")] | None = None
    blend: Annotated[dict[Name, Share], Field(min_length=1, max_length=40)] | None = None
