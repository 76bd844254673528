"""A liquid as it is written; and what a liquid or an addition takes up of lye, or brings."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from saponary.schema.fields import (
    MolarMass,
    Name,
    Part,
    SaponificationValue,
    Share,
    ShortText,
    Uptake,
    shorthand,
)
from saponary.schema.ingredient import IngredientEntry
from saponary.schema.seen import Public

UptakeKnown = Literal["known", "unknown"]
"""Whether all the alkali that a thing binds or brings is stated."""


class AcidEntry(Part):
    """The alkali a thing takes: so much a gram, or by an acid of so much strength.

    The acid is one of the pantry (`of`), or is told by its molar mass and its acid groups.
    """

    takes: Public[Uptake | None] = None
    """Hydroxide that one gram takes up. `acid: 0.83 mmol/g` is short for it.
    Example:
      liquids:
        verjuice:
          like: lemon-juice
          name: Verjuice
          water: 90 %
          acid: {takes: 0.3 mmol/g}
    """
    of: Public[Name | None] = None
    """The acid, by its name in the pantry."""
    molar_mass: Public[MolarMass | None] = None
    """The acid's molar mass, where the pantry does not have it.
    Example:
      liquids:
        verjuice:
          like: lemon-juice
          name: Verjuice
          water: 90 %
          acid: {molar-mass: 150.09 g/mol, groups: 2, share: 2 %}
    """
    groups: Public[Annotated[int, Field(ge=1, le=10)] | None] = None
    """How many hydroxides one molecule takes up.
    Example:
      liquids:
        verjuice:
          like: lemon-juice
          name: Verjuice
          water: 90 %
          acid: {molar-mass: 150.09 g/mol, groups: 2, share: 2 %}
    """
    share: Public[Share | None] = None
    """The share of the thing that is this acid."""


Acid = Annotated[AcidEntry, shorthand("takes")]


class FreeAlkaliEntry(Part):
    """The free alkali in a thing: its share, what it may be at the most, and as which hydroxide it is stated."""

    share: Public[Share | None] = None
    """The share that is free alkali."""
    most: Public[Share | None] = None
    """The most it may be. The checks count with it."""
    as_: Public[Literal["sodium-hydroxide", "potassium-hydroxide"] | None] = None
    """As which hydroxide it is stated: `sodium-hydroxide` or `potassium-hydroxide`."""


FreeAlkali = Annotated[FreeAlkaliEntry, shorthand("share")]


class LiquidEntry(IngredientEntry):
    water: Public[Share | None] = None
    """The share that is water. Only this counts as water.
    Example: liquids: {hedge-tea: {like: nettle-tea, name: Hedge tea, water: 99 %, acid: 0 mmol/g}}
    """
    fat: Public[Share | None] = None
    """The share that is fat. It raises the superfat, and no lye is added for it.
    Example: liquids: {oat-milk-of-mine: {like: oat-drink, water: 90 %, fat: 1 %, acid: 0 mmol/g}}
    """
    fat_saponification_value: Public[SaponificationValue | None] = None
    """The saponification value of that fat.
    Example: liquids: {goat-milk-of-mine: {like: goat-milk, fat-saponification-value: 230 mg/g}}
    """
    sugar: Public[Share | None] = None
    """The share that is sugar. Sugar heats the lye solution.
    Example: liquids: {oat-milk-of-mine: {like: oat-drink, water: 90 %, sugar: 4 %, acid: 0 mmol/g}}
    """
    acid: Public[Acid | None] = None
    """The lye that its acid takes up. It is added to the lye in full.
    Example:
      liquids:
        verjuice:
          like: lemon-juice
          name: Verjuice
          water: 90 %
          acid: {of: citric-acid, share: 2 %}
    """
    uptake: Public[UptakeKnown | None] = None
    """`known` or `unknown`: whether all the lye it takes up is stated. With `unknown` no superfat is given.
    Example:
      liquids:
        hedge-tea: {like: nettle-tea, name: Hedge tea, water: 99 %, acid: 0 mmol/g, uptake: known}
    """
    inci_sodium_salt: Public[ShortText | None] = None
    """The listed name of its acid's salt with sodium.
    Example:
      liquids:
        verjuice: {like: lemon-juice, name: Verjuice, water: 90 %, acid: 0.3 mmol/g, inci-sodium-salt: Sodium Tartrate}
    """
    inci_potassium_salt: Public[ShortText | None] = None
    """The listed name of its acid's salt with potassium.
    Example:
      liquids:
        verjuice: {like: lemon-juice, name: Verjuice, water: 90 %, acid: 0.3 mmol/g, inci-potassium-salt: Potassium Tartrate}
    """
