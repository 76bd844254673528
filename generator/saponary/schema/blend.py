"""What a recipe is made of: oils, lye, water, liquids, additions, and the portions they go into."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, model_validator

from saponary.schema.fields import (
    AnyAmount,
    LiquidAmount,
    Name,
    Part,
    PartSize,
    PositiveMass,
    Share,
    ShortText,
    problem,
    shorthand,
)
from saponary.schema.methods.method import AdditionStage, LiquidStage
from saponary.schema.seen import Public, Seen


class OilPart(Part):
    """One oil of the blend; an infused oil counts as its carrier."""

    share: Public[PartSize]
    """The oil's share of all oils, or its weight. `olive: 70 %` is short for `olive: {share: 70 %}`.
    Example: oils: {total: 1000 g, parts: {olive: {share: 70 %}, coconut: 30 %}}
    """
    infused_with: Public[Name | None] = None
    """The plant that was steeped in this oil. The oil counts as it was.
    Example:
      oils:
        total: 1000 g
        parts:
          olive: {share: 70 %, infused-with: calendula-petals}
          coconut: 30 %
    """


class Fill(Part):
    """Fill a mould to a share of its volume; the engine finds the oils."""

    mould: Public[Name]
    """The mould to fill, by its name in pantry.yaml."""
    to: Public[Share]
    """How full it gets, as a share of its volume."""


class Oils(Part):
    """The blend: shares of a stated total, plain weights, or as much as fills a mould.

    What is stirred in `after-cook` is not saponified, and no lye is weighed for it.
    """

    total: Public[PositiveMass | None] = None
    """The weight of all oils together. Needed where the parts are shares.
    Example: oils: {total: 1000 g, parts: {olive: 70 %, coconut: 30 %}}
    """
    fill: Public[Fill | None] = None
    """Instead of a total: a mould, and how full it gets. The weight of oils is then worked out.
    Example: oils: {fill: {mould: loaf-10, to: 95 %}, parts: {olive: 70 %, coconut: 30 %}}
    """
    parts: Public[
        Annotated[dict[Name, Annotated[OilPart, shorthand("share")]], Field(min_length=1, max_length=40)]
    ]
    """Each oil by its name (`saponary pantry oils` lists them), with its share or its weight. Shares make 100
    %.
    Example: oils: {parts: {olive: 700 g, coconut: 300 g}}
    """
    after_cook: Public[Annotated[dict[Name, AnyAmount], Field(max_length=20)]] = {}
    """Oils stirred in after the cook. They are not saponified, and no lye is weighed for them.
    Example:
      method: hot
      oils:
        total: 1000 g
        parts: {olive: 70 %, coconut: 30 %}
        after-cook: {shea-butter: 3 % of oils}
    """


NO_OILS = Oils.model_construct(total=None, fill=None, parts={}, after_cook={})
"""The oils of a recipe that has none: soap of earlier lots is melted again."""


class SoapPart(Part):
    """So much soap of an earlier lot of a recipe of this book."""

    of: Public[Name]
    """The recipe of this book that the soap was made by."""
    lot: Public[ShortText]
    """Its lot. It must have been tested and be free of alkali."""
    amount: Public[PositiveMass]
    """How much of it."""


class Liquid(Part):
    """A liquid that stands in for part of the water."""

    what: Public[Name]
    """The liquid, by its name. `saponary pantry liquids` lists them."""
    amount: Public[LiquidAmount]
    """How much: a weight, a volume, a rate on the oils, or a share of the water: `25 % of water`."""
    at: Public[LiquidStage | None] = None
    """When it goes in: `lye`, `oils`, `trace`, `melt` or `after-cook`. Left out, as the method has it; at
    trace the lye solution is the stronger.
    """


class Addition(Part):
    """Anything else that goes in, by weight, volume or rate."""

    what: Public[Name]
    """The addition, by its name. `saponary pantry additions` and `saponary pantry colourants` list them."""
    amount: Public[AnyAmount]
    """How much: a weight, a volume, or a rate on the oils it goes into."""
    at: Public[AdditionStage | None] = None
    """When it goes in: `lye`, `oils`, `trace`, `melt`, `after-cook` or `pour`. Left out, the addition's own
    usual time.
    Example: additions: [{what: sugar, amount: 1 % of oils, at: lye}]
    """
    from_: Annotated[ShortText | None, Seen("work")] = None
    """Where this lot of it came from, in your words.
    Example: additions: [{what: kaolin, amount: 10 g/kg, from: the blue tin}]
    """


class PortionOils(Part):
    """A portion's own blend, where it is made in a pot of its own."""

    parts: Public[
        Annotated[dict[Name, Annotated[OilPart, shorthand("share")]], Field(min_length=1, max_length=40)]
    ]
    """The portion's own oils as shares of its weight of oils. Only with `pots: separate`.
    Example:
      pots: separate
      portions:
      - {name: light, share: 1/2}
      - name: dark
        share: 1/2
        oils:
          parts: {olive: 60 %, coconut: 40 %}
    """


class Portion(Part):
    """A share of the batter and what makes it different."""

    name: Public[Name]
    """The portion's name in the pour, on the page and in figures such as `{portion dark batter}`."""
    share: Public[Share]
    """Its share of the batter. All portions together make 100 %."""
    note: Annotated[ShortText | None, Seen("work")] = None
    """A remark on this portion for the order of work.
    Example: portions: [{name: light, share: 1/2}, {name: dark, share: 1/2, note: Sieve it twice.}]
    """
    infused: Public[dict[Name, Name]] = {}
    """Oils of this portion that come from a jar with a plant in it: the oil, then the plant. Only with `pots:
    separate`.
    Example:
      pots: separate
      portions:
      - {name: light, share: 1/2}
      - name: dark
        share: 1/2
        infused: {olive: alkanet}
    """
    oils: Public[PortionOils | None] = None
    """A blend of its own for this portion. Only with `pots: separate`.
    Example:
      pots: separate
      portions:
      - {name: light, share: 1/2}
      - name: dark
        share: 1/2
        oils:
          parts: {olive: 60 %, coconut: 40 %}
    """
    liquids: Public[Annotated[list[Liquid], Field(max_length=20)]] = []
    """Liquids that go into this portion alone.
    Example:
      portions:
      - {name: light, share: 1/2}
      - name: dark
        share: 1/2
        liquids:
        - {what: carrot-puree, amount: 30 g, at: trace}
    """
    additions: Public[Annotated[list[Addition], Field(max_length=40)]] = []
    """Additions of this portion alone. A rate counts on the portion's own oils.
    Example:
      portions:
      - {name: light, share: 1/2}
      - name: dark
        share: 1/2
        additions:
        - {what: activated-charcoal, amount: 3 g/kg}
    """


class Dilute(Part):
    """A paste thinned to so much total fatty matter, and the acid that takes any free alkali left in it."""

    total_fatty_matter: Public[Share]
    """The share of fatty acids in the finished liquid. `dilute: 20 %` is short for it.
    Example:
      method: liquid
      oils:
        total: 800 g
        parts: {olive: 70 %, coconut: 30 %}
      lye:
        potassium: {share: 100 %, purity: 90 %}
      water: {to-lye: 3}
      dilute: {total-fatty-matter: 20 %}
    """
    acid: Public[Name | None] = None
    """The acid that takes up free alkali left in the paste, by its name in the pantry.
    Example:
      method: liquid
      oils:
        total: 800 g
        parts: {olive: 70 %, coconut: 30 %}
      lye:
        potassium: {share: 100 %, purity: 90 %}
      water: {to-lye: 3}
      dilute: {total-fatty-matter: 20 %, acid: citric-acid}
    """

    @model_validator(mode="after")
    def some_matter(self) -> Dilute:
        if self.total_fatty_matter.fraction <= 0:
            raise problem("a soap holds some fatty matter", "such as total-fatty-matter: 20 %")
        return self
