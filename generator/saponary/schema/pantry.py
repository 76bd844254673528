"""The schema of the maker's `pantry.yaml`: ingredients, moulds, stocks of infused oil, scraps."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from saponary.schema.addition_entry import AdditionEntry
from saponary.schema.fields import Date, Inside, Length, Name, Part, ShortText, Volume
from saponary.schema.fragrance_entry import FragranceEntry
from saponary.schema.liquid_entry import LiquidEntry
from saponary.schema.oil_entry import OilEntry
from saponary.schema.seen import Private, Public, Seen
from saponary.schema.waivers import Waivers


class Box(Part):
    length: Public[Inside]
    """Inner length, at the bottom."""
    width: Public[Inside]
    """Inner width, at the bottom."""
    height: Public[Inside]
    """Inner height."""
    top_length: Public[Inside | None] = None
    """Inner length at the top, where the ends slope.
    Example:
      moulds:
        loaf-10:
          loaf: {length: 240 mm, width: 85 mm, height: 70 mm, top-length: 250 mm, top-width: 95 mm}
    """
    top_width: Public[Inside | None] = None
    """Inner width at the top, where the sides slope.
    Example:
      moulds:
        loaf-10:
          loaf: {length: 240 mm, width: 85 mm, height: 70 mm, top-length: 250 mm, top-width: 95 mm}
    """
    liner: Public[Length | None] = None
    """Thickness of a liner. It is taken from both sides, both ends and the bottom.
    Example: moulds: {loaf-10: {loaf: {length: 250 mm, width: 90 mm, height: 70 mm, liner: 2 mm}}}
    """
    count: Public[Annotated[int, Field(ge=1, le=100)]] = 1
    """How many such moulds are filled at once.
    Example: moulds: {loaf-10: {loaf: {length: 180 mm, width: 70 mm, height: 60 mm, count: 2}}}
    """


class Cylinder(Part):
    diameter: Public[Inside]
    """Inner diameter of the pipe."""
    length: Public[Inside]
    """Inner length. The pipe stands upright."""
    liner: Public[Length | None] = None
    """Thickness of a liner.
    Example: moulds: {loaf-10: {cylinder: {diameter: 90 mm, length: 250 mm, liner: 1 mm}}}
    """
    count: Public[Annotated[int, Field(ge=1, le=100)]] = 1
    """How many such pipes are filled at once.
    Example: moulds: {loaf-10: {cylinder: {diameter: 70 mm, length: 250 mm, count: 2}}}
    """


class Cavities(Part):
    count: Public[Annotated[int, Field(ge=1, le=500)]]
    """How many cavities."""
    volume: Public[Volume]
    """What one cavity holds."""


class MouldEntry(Part):
    """One mould: exactly one of its kinds is given."""

    loaf: Public[Box | None] = None
    """A loaf that is cut into slices.
    Example: moulds: {loaf-10: {loaf: {length: 250 mm, width: 90 mm, height: 70 mm}}}
    """
    slab: Public[Box | None] = None
    """A flat tray. Example: moulds: {loaf-10: {slab: {length: 500 mm, width: 90 mm, height: 36 mm}}}"""
    cylinder: Public[Cylinder | None] = None
    """A pipe: round bars. Example: moulds: {loaf-10: {cylinder: {diameter: 90 mm, length: 250 mm}}}"""
    cavities: Public[Cavities | None] = None
    """A mould of single cavities. Example: moulds: {loaf-10: {cavities: {count: 16, volume: 95 ml}}}"""


class InfusionEntry(Part):
    botanical: Public[Name]
    """The plant, by its name among the additions or colourants."""
    carrier: Public[Name]
    """The oil it was steeped in. The jar counts as this oil."""
    ratio: Private[ShortText | None] = None
    """Plant to oil, for yourself. In quotes."""
    made: Private[Date | None] = None
    """The day it was made."""
    days: Private[Annotated[int, Field(ge=0, le=2000)] | None] = None
    """How many days it steeped."""


class ScrapEntry(Part):
    of: Public[Name]
    """The recipe it was made by, as its file is named."""
    lot: Private[ShortText | None] = None
    """The lot it comes from."""


class PantryFile(Part):
    oils: Public[dict[Name, OilEntry]] = {}
    """Your own oils, or what you know better about a standard one.
    Example: oils: {olive: {price: 8.40 / kg}}
    """
    liquids: Public[dict[Name, LiquidEntry]] = {}
    """Your own liquids.
    Example:
      liquids:
        oat-milk-of-mine: {like: oat-drink, water: 90 %, fat: 1 %, sugar: 4 %, acid: 0 mmol/g}
    """
    additions: Public[dict[Name, AdditionEntry]] = {}
    """Your own additions. Example: additions: {kaolin: {price: 12 / kg}}"""
    colourants: Public[dict[Name, AdditionEntry]] = {}
    """Your own colourants.
    Example:
      colourants:
        brick-dust:
          inci: Illite
          fresh: "#a4503c"
          cured: "#b98f86"
          usual: [5 g/kg, 20 g/kg]
    """
    moulds: Public[dict[Name, MouldEntry]] = {}
    """Your moulds, each by the name that recipes use.
    Example: moulds: {loaf-10: {loaf: {length: 250 mm, width: 90 mm, height: 70 mm}}}
    """
    infusions: Public[dict[Name, InfusionEntry]] = {}
    """Jars of oil with a plant in them. A recipe names the jar as an oil.
    Example:
      infusions:
        calendula-jar: {botanical: calendula-petals, carrier: olive, ratio: "1:8", made: 2026-01-10, days: 28}
    """
    scraps: Public[dict[Name, ScrapEntry]] = {}
    """Ready soap of an earlier recipe, to be set in or shredded.
    Example: scraps: {grey-scrap: {of: plain-bar, lot: A1}}
    """
    fragrances: Public[dict[Name, FragranceEntry]] = {}
    """Your scents with their papers: allergen sheet and certificate.
    Example:
      fragrances:
        essential-oil-lavender:
          composition: {linalool: 34 %, linalyl-acetate: 36 %}
          certificate: {maximum: 3 %, category: bar soap}
    """
    waive: Annotated[Waivers, Seen("waivers")] = []
    """Warnings about pantry.yaml that you set aside, each with your reason.
    Example:
      colourants:
        brick-dust: {name: Brick dust, fresh: "#a4503c", cured: "#b98f86"}
      waive:
      - {rule: unnamed-ingredient, about: brick-dust, because: no list has a name for it}
    """
