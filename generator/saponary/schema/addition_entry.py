"""An addition or a colourant as it is written, with the colours a maker saw."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from saponary.schema.fields import (
    Colour,
    Day,
    Density,
    Name,
    Part,
    Rate,
    SaponificationValue,
    Share,
    ShortText,
)
from saponary.schema.ingredient import IngredientEntry
from saponary.schema.liquid_entry import Acid, FreeAlkali, UptakeKnown
from saponary.schema.seen import Public, Seen

LyeOrder = Literal["before-alkali", "in-lye", "cooled-lye"]
"""What goes into the lye: into the water before the alkali, into the lye, or once it has cooled."""


class ChipEntry(Part):
    """A colour chip: the colour of a bar at a dose, on a day of its cure."""

    dose: Public[Rate]
    """The dose in the batter."""
    day: Public[Day]
    """The day of the cure."""
    colour: Public[Colour]
    """The colour of the bar as you read it in even light. In quotes."""
    note: Public[ShortText | None] = None
    """A remark on it.
    Example:
      colourants:
        brick-dust:
          inci: Illite
          fresh: "#a4503c"
          cured: "#b98f86"
          chips:
          - {dose: 8 g/kg, day: 42, colour: "#b58b80", note: north window}
    """


class AdditionEntry(IngredientEntry):
    kind: Public[ShortText | None] = None
    """What it is, in a word. The cautions and the list of colours go by it.
    Example:
      colourants:
        brick-dust: {inci: Illite, fresh: "#a4503c", cured: "#b98f86", kind: mineral}
    """
    water: Public[Share | None] = None
    """The share that is water.
    Example: additions: {fruit-pulp: {like: honey, name: Fruit pulp, water: 85 %, acid: 0 mmol/g}}
    """
    fat: Public[Share | None] = None
    """The share that is fat. It raises the superfat.
    Example:
      additions:
        ground-nuts: {like: walnut-shell, name: Walnut meal, fat: 50 %, acid: 0 mmol/g}
    """
    fat_saponification_value: Public[SaponificationValue | None] = None
    """The saponification value of that fat.
    Example:
      additions:
        ground-nuts: {like: walnut-shell, name: Walnut meal, fat: 50 %, fat-saponification-value: 190 mg/g, acid: 0 mmol/g}
    """
    acid: Public[Acid | None] = None
    """The lye that its acid takes up.
    Example:
      additions:
        fruit-pulp:
          like: honey
          name: Fruit pulp
          water: 85 %
          acid: {of: citric-acid, share: 1 %}
    """
    uptake: Public[UptakeKnown | None] = None
    """`known` or `unknown`: whether all the lye it takes up or brings is stated.
    Example:
      additions:
        fruit-pulp: {like: honey, name: Fruit pulp, water: 85 %, acid: 0 mmol/g, uptake: known}
    """
    free_alkali: Public[FreeAlkali | None] = None
    """Free alkali that it brings. It lowers the superfat, and no lye is saved for it.
    Example:
      additions:
        ash-soap:
          like: soap-scrap
          name: Ash soap
          free-alkali: {share: 0.2 %, most: 0.5 %, as: sodium-hydroxide}
    """
    inci_sodium_salt: Public[ShortText | None] = None
    """The listed name of its acid's salt with sodium.
    Example:
      additions:
        fruit-pulp:
          like: honey
          name: Fruit pulp
          acid: {of: citric-acid, share: 1 %}
          inci-sodium-salt: Sodium Citrate
    """
    inci_potassium_salt: Public[ShortText | None] = None
    """The listed name of its acid's salt with potassium.
    Example:
      additions:
        fruit-pulp:
          like: honey
          name: Fruit pulp
          acid: {of: citric-acid, share: 1 %}
          inci-potassium-salt: Potassium Citrate
    """
    liquid: Public[bool | None] = None
    """`true` where it is stirred in as a liquid.
    Example:
      additions:
        fruit-syrup: {like: honey, name: Fruit syrup, liquid: true, density: 1.3 g/ml, acid: 0 mmol/g}
    """
    displaces: Public[Density | None] = None
    """The density of the stuff itself in the batter, where that is not the density of a spoonful.
    Example:
      additions:
        chalk-powder: {inci: Calcium Carbonate, name: Chalk powder, density: 0.6 g/ml, displaces: 2.7 g/ml, acid: 0 mmol/g}
    """
    usual: Public[Annotated[list[Rate], Field(min_length=2, max_length=2)] | None] = None
    """The usual doses, from the least to the most. Outside of them a warning is given.
    Example:
      colourants:
        brick-dust:
          inci: Illite
          fresh: "#a4503c"
          cured: "#b98f86"
          usual: [5 g/kg, 20 g/kg]
    """
    cap: Public[Rate | None] = None
    """A dose that must not be passed.
    Example:
      additions:
        ash-soap: {like: soap-scrap, name: Ash soap, free-alkali: 0.2 %, cap: 60 g/kg}
    """
    stage: Public[Literal["lye", "oils", "trace"] | None] = None
    """When it usually goes in: `lye`, `oils` or `trace`.
    Example:
      additions:
        fruit-syrup: {like: honey, name: Fruit syrup, liquid: true, density: 1.3 g/ml, acid: 0 mmol/g, stage: trace}
    """
    lye_order: Public[LyeOrder | None] = None
    """At the stage `lye`: `before-alkali` (into the water first), `in-lye`, or `cooled-lye` (once it is cold).
    Example:
      additions:
        fruit-syrup: {like: honey, name: Fruit syrup, liquid: true, density: 1.3 g/ml, acid: 0 mmol/g, stage: lye, lye-order: cooled-lye}
    """
    ci: Public[ShortText | None] = None
    """Its Colour Index number.
    Example:
      colourants:
        brick-dust: {inci: Illite, fresh: "#a4503c", cured: "#b98f86", ci: 77491}
    """
    listed_colour: Public[Annotated[list[Name], Field(max_length=10)] | None] = None
    """The places whose law lists it as a colour for soap: `us`, `eu`, `gb`.
    Example:
      colourants:
        brick-dust:
          inci: Illite
          fresh: "#a4503c"
          cured: "#b98f86"
          ci: 77491
          listed-colour: [eu, gb]
    """
    fresh: Public[Colour | None] = None
    """Its colour in new batter. In quotes.
    Example: colourants: {brick-dust: {inci: Illite, fresh: "#a4503c", cured: "#b98f86"}}
    """
    cured: Public[Colour | None] = None
    """Its colour after the cure. In quotes.
    Example: colourants: {brick-dust: {inci: Illite, fresh: "#a4503c", cured: "#b98f86"}}
    """
    full_depth: Public[Rate | None] = None
    """The dose at which more of it changes the colour little.
    Example:
      colourants:
        brick-dust: {inci: Illite, fresh: "#a4503c", cured: "#b98f86", full-depth: 20 g/kg}
    """
    lightfast: Public[Literal["good", "fair", "poor"] | None] = None
    """How it keeps in light: `good`, `fair` or `poor`.
    Example:
      colourants:
        brick-dust: {inci: Illite, fresh: "#a4503c", cured: "#b98f86", lightfast: good}
    """
    stays: Public[bool | None] = None
    """`false` where the colour changes so much that a drawing in the fresh colour misleads. Left out, it is
    worked out from both colours.
    Example:
      colourants:
        brick-dust: {inci: Illite, fresh: "#a4503c", cured: "#b98f86", stays: false}
    """
    in_alkali: Public[ShortText | None] = None
    """What lye does to its colour, in your words.
    Example:
      colourants:
        brick-dust: {inci: Illite, fresh: "#a4503c", cured: "#b98f86", in-alkali: Lye does not change it.}
    """
    dry: Public[Colour | None] = None
    """What it looks like when it is sprinkled on top. In quotes.
    Example: additions: {rose-petals-of-mine: {like: rose-petals, dry: "#a84a5c", acid: 0 mmol/g}}
    """
    dry_cured: Public[Colour | None] = None
    """The same after the cure. In quotes.
    Example:
      additions:
        rose-petals-of-mine: {like: rose-petals, dry: "#a84a5c", dry-cured: "#6b4a42", acid: 0 mmol/g}
    """
    chips: Annotated[list[ChipEntry], Field(max_length=60), Seen("work")] = []
    """Colours you saw yourself, each at a dose on a day. They go before the table's colours.
    Example:
      colourants:
        brick-dust:
          inci: Illite
          fresh: "#a4503c"
          cured: "#b98f86"
          chips:
          - {dose: 8 g/kg, day: 42, colour: "#b58b80"}
    """
