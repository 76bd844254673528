"""The pour, as the maker writes it: the steps that put the portions into the mould.

Each step is a map with one key. `beds`, `columns`, `drops` and `plops` lay batter down,
each on top of what is already in the mould; `swirl` stirs what is there; `line`, `embeds`
and `top` dress it. A portion may come in several laying steps; `part` says how much of it
goes into one, and what is not said is split evenly.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from saponary.schema.fields import Length, Name, Part, Share
from saponary.schema.seen import Public


class Bed(Part):
    """One flat or sloping bed. `depth` is the maker's reading of the mould, checked against volume."""

    of: Public[Name]
    """The portion of this bed. Example: pour: [{beds: [{of: light}, {of: dark}]}]"""
    depth: Public[Share | None] = None
    """How much of the mould's depth you read for it. It is held against the portion's volume.
    Example: pour: [{beds: [{of: light, depth: 50 %}, {of: dark, rest: true}]}]
    """
    slope: Public[Annotated[float, Field(ge=-45, le=45)]] = 0.0
    """How the bed leans, in degrees from -45 to 45. Above zero it rises to the right.
    Example: pour: [{beds: [{of: light, slope: 8}, {of: dark, slope: -6}]}]
    """
    rest: Public[bool] = False
    """`true` for the last bed, which fills what is left.
    Example: pour: [{beds: [{of: light}, {of: dark, rest: true}]}]
    """
    part: Public[Share | None] = None
    """How much of the portion goes into this bed, where it comes in several.
    Example: pour: [{beds: [{of: light, part: 40 %}, {of: dark}, {of: light, part: 60 %}]}]
    """


class Columns(Part):
    """Portions poured side by side into columns, left to right."""

    of: Public[Annotated[list[Name], Field(min_length=2, max_length=12)]]
    """The portions, side by side from left to right, two or more."""
    count: Public[Annotated[int, Field(ge=2, le=40)] | None] = None
    """How many columns in all. Left out, each portion makes one."""
    tilt: Public[Annotated[float, Field(ge=-45, le=45)]] = 0.0
    """How the columns lean, in degrees from -45 to 45."""


class Drops(Part):
    """Batter poured into the middle of other batter, ring within ring."""

    into: Public[Name]
    """The portion that is in the mould already and takes the others in."""
    of: Public[Annotated[list[Name], Field(min_length=1, max_length=12)]]
    """The portions poured into its middle, one after the other."""
    count: Public[Annotated[int, Field(ge=1, le=12)]] = 1
    """In how many places, from 1 to 12."""


class Plops(Part):
    """Spoonfuls set down in turn."""

    of: Public[Annotated[list[Name], Field(min_length=2, max_length=12)]]
    """The portions, spoonful by spoonful in turn, two or more."""
    across: Public[Length | None] = None
    """How wide a spoonful is."""


class Swirl(Part):
    """A tool drawn through the poured batter."""

    tool: Public[Literal["hanger", "comb", "skewer"]]
    """What is drawn through the batter: `hanger` (a wire), `comb` or `skewer`."""
    passes: Public[Annotated[int, Field(ge=1, le=20)]] = 3
    """How often, from 1 to 20."""
    depth: Public[Share | None] = None
    """How deep it goes, as a share of the batter's depth."""


class Line(Part):
    """A pencil line: powder dusted over a bed before the next is poured."""

    of: Public[Name]
    """The powder, by its name among the additions or colourants."""
    over: Public[Name]
    """The portion it is dusted on, before the next is poured."""


class Embeds(Part):
    """Ready shapes of soap set into the batter."""

    of: Public[Name]
    """The ready soap that is set in, by its name among the scraps of pantry.yaml."""
    shape: Public[Literal["round", "square", "diamond", "half-round", "star"]] = "round"
    """Its shape in the cut: `round`, `square`, `diamond`, `half-round` or `star`."""
    across: Public[Length]
    """How wide it is in the cut."""
    count: Public[Annotated[int, Field(ge=1, le=24)]] = 1
    """How many stand in one cut face."""


class Top(Part):
    """The top of the loaf, and what is sprinkled on it."""

    shape: Public[Literal["flat", "peaks", "waves", "mound"]] = "flat"
    """The form of the top: `flat`, `peaks`, `waves` or `mound`."""
    sprinkle: Public[Name | None] = None
    """What is sprinkled on the top, by its name among the additions."""


class PourStep(Part):
    """One step of the pour; exactly one of its keys is given."""

    beds: Public[Annotated[list[Bed], Field(min_length=1, max_length=24)] | None] = None
    """Flat or sloping beds, one on the other. Example: pour: [{beds: [{of: light, slope: 6}, {of: dark}]}]"""
    columns: Public[Columns | None] = None
    """Portions side by side in upright columns.
    Example: pour: [{columns: {of: [light, dark], count: 6, tilt: 5}}]
    """
    drops: Public[Drops | None] = None
    """One portion poured into the middle of another: rings.
    Example: pour: [{drops: {into: light, of: [dark], count: 2}}]
    """
    plops: Public[Plops | None] = None
    """Spoonfuls set down in turn. Example: pour: [{plops: {of: [light, dark], across: 30 mm}}]"""
    swirl: Public[Swirl | None] = None
    """A tool drawn through what is in the mould.
    Example:
      pour:
      - columns:
          of: [light, dark]
          count: 6
      - swirl: {tool: hanger, passes: 3, depth: 85 %}
    """
    line: Public[Line | None] = None
    """A thin line of powder between two beds.
    Example:
      additions:
      - {what: cocoa, amount: 3 g, at: pour}
      pour:
      - beds:
        - {of: light}
      - line: {of: cocoa, over: light}
      - beds:
        - {of: dark}
    """
    embeds: Public[Embeds | None] = None
    """Ready shapes of soap set into the batter.
    Example:
      additions:
      - {what: white-scrap, amount: 80 g, at: pour}
      pour:
      - beds:
        - {of: light}
        - {of: dark}
      - embeds: {of: white-scrap, shape: square, across: 15 mm, count: 3}
    """
    top: Public[Top | None] = None
    """The top of the loaf.
    Example:
      additions:
      - {what: salt, amount: 8 g, at: pour}
      pour:
      - beds:
        - {of: light}
        - {of: dark}
      - top: {shape: peaks, sprinkle: salt}
    """

    @property
    def kind(self) -> str:
        """The key that is given; '' when none or several are (reported elsewhere)."""
        given = [name for name in type(self).model_fields if getattr(self, name) is not None]
        return given[0] if len(given) == 1 else ""
