"""The schema of the maker's `pantry.yaml`: ingredients, moulds, stocks of infused oil, scraps."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from saponary.schema.fields import Date, Length, Name, Part, ShortText, Volume
from saponary.schema.ingredient import AdditionEntry, FragranceEntry, LiquidEntry, OilEntry
from saponary.schema.waivers import Waivers


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
