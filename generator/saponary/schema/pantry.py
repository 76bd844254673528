"""The schema of the maker's `pantry.yaml`: ingredients, moulds, stocks of infused oil, scraps."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from saponary.schema.fields import Date, Inside, Length, Name, Part, ShortText, Volume
from saponary.schema.ingredient import AdditionEntry, FragranceEntry, LiquidEntry, OilEntry
from saponary.schema.seen import Private, Public, Seen
from saponary.schema.waivers import Waivers


class Box(Part):
    length: Public[Inside]
    width: Public[Inside]
    height: Public[Inside]
    top_length: Public[Inside | None] = None
    top_width: Public[Inside | None] = None
    liner: Public[Length | None] = None
    count: Public[Annotated[int, Field(ge=1, le=100)]] = 1


class Cylinder(Part):
    diameter: Public[Inside]
    length: Public[Inside]
    liner: Public[Length | None] = None
    count: Public[Annotated[int, Field(ge=1, le=100)]] = 1


class Cavities(Part):
    count: Public[Annotated[int, Field(ge=1, le=500)]]
    volume: Public[Volume]


class MouldEntry(Part):
    """One mould: exactly one of its kinds is given."""

    loaf: Public[Box | None] = None
    slab: Public[Box | None] = None
    cylinder: Public[Cylinder | None] = None
    cavities: Public[Cavities | None] = None


class InfusionEntry(Part):
    botanical: Public[Name]
    carrier: Public[Name]
    ratio: Private[ShortText | None] = None
    made: Private[Date | None] = None
    days: Private[Annotated[int, Field(ge=0, le=2000)] | None] = None


class ScrapEntry(Part):
    of: Public[Name]
    lot: Private[ShortText | None] = None


class PantryFile(Part):
    oils: Public[dict[Name, OilEntry]] = {}
    liquids: Public[dict[Name, LiquidEntry]] = {}
    additions: Public[dict[Name, AdditionEntry]] = {}
    colourants: Public[dict[Name, AdditionEntry]] = {}
    moulds: Public[dict[Name, MouldEntry]] = {}
    infusions: Public[dict[Name, InfusionEntry]] = {}
    scraps: Public[dict[Name, ScrapEntry]] = {}
    fragrances: Public[dict[Name, FragranceEntry]] = {}
    waive: Annotated[Waivers, Seen("waivers")] = []
