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
    depth: Public[Share | None] = None
    slope: Public[Annotated[float, Field(ge=-45, le=45)]] = 0.0
    rest: Public[bool] = False
    part: Public[Share | None] = None


class Columns(Part):
    """Portions poured side by side into columns, left to right."""

    of: Public[Annotated[list[Name], Field(min_length=2, max_length=12)]]
    count: Public[Annotated[int, Field(ge=2, le=40)] | None] = None
    tilt: Public[Annotated[float, Field(ge=-45, le=45)]] = 0.0


class Drops(Part):
    """Batter poured into the middle of other batter, ring within ring."""

    into: Public[Name]
    of: Public[Annotated[list[Name], Field(min_length=1, max_length=12)]]
    count: Public[Annotated[int, Field(ge=1, le=12)]] = 1


class Plops(Part):
    """Spoonfuls set down in turn."""

    of: Public[Annotated[list[Name], Field(min_length=2, max_length=12)]]
    across: Public[Length | None] = None


class Swirl(Part):
    """A tool drawn through the poured batter."""

    tool: Public[Literal["hanger", "comb", "skewer"]]
    passes: Public[Annotated[int, Field(ge=1, le=20)]] = 3
    depth: Public[Share | None] = None


class Line(Part):
    """A pencil line: powder dusted over a bed before the next is poured."""

    of: Public[Name]
    over: Public[Name]


class Embeds(Part):
    """Ready shapes of soap set into the batter."""

    of: Public[Name]
    shape: Public[Literal["round", "square", "diamond", "half-round", "star"]] = "round"
    across: Public[Length]
    count: Public[Annotated[int, Field(ge=1, le=24)]] = 1


class Top(Part):
    """The top of the loaf, and what is sprinkled on it."""

    shape: Public[Literal["flat", "peaks", "waves", "mound"]] = "flat"
    sprinkle: Public[Name | None] = None


class PourStep(Part):
    """One step of the pour; exactly one of its keys is given."""

    beds: Public[Annotated[list[Bed], Field(min_length=1, max_length=24)] | None] = None
    columns: Public[Columns | None] = None
    drops: Public[Drops | None] = None
    plops: Public[Plops | None] = None
    swirl: Public[Swirl | None] = None
    line: Public[Line | None] = None
    embeds: Public[Embeds | None] = None
    top: Public[Top | None] = None

    @property
    def kind(self) -> str:
        """The key that is given; '' when none or several are (reported elsewhere)."""
        given = [name for name in type(self).model_fields if getattr(self, name) is not None]
        return given[0] if len(given) == 1 else ""
