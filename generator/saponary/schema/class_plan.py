"""What a maker may write above the text of a class: what is taught to how many, in which moulds, and when."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, model_validator

from saponary.schema.fields import Date, Name, Part, PositiveMass, Share, ShortText, problem
from saponary.schema.seen import Private, Public, Seen
from saponary.schema.waivers import Waivers


class Slot(Part):
    """A line of the timetable."""

    at: Public[Annotated[str, Field(pattern=r"^(?:[01][0-9]|2[0-3]):[0-5][0-9]$")]]
    what: Public[ShortText]


class ClassPlan(Part):
    """Everything above the second `---` of a class file."""

    title: Public[Annotated[str, Field(min_length=1, max_length=120)]]
    date: Public[Date | None] = None
    place: Public[ShortText] = ""
    teacher: Public[ShortText] = ""
    students: Public[Annotated[int, Field(ge=1, le=500)]]
    bench: Public[Annotated[int, Field(ge=1, le=100)]] = 2
    mould: Public[Name | None] = None
    to: Public[Share | None] = None
    oils: Public[PositiveMass | None] = None
    recipes: Public[Annotated[list[Name], Field(min_length=1, max_length=12)]]
    timetable: Public[Annotated[list[Slot], Field(max_length=60)]] = []
    packs: Annotated[dict[Name, PositiveMass], Field(max_length=200), Seen("people")] = {}
    spare: Annotated[Share | None, Seen("people")] = None
    emergency: Public[ShortText] = ""
    editions: Private[Annotated[list[Name], Field(max_length=20)]] = []
    waive: Private[Waivers] = []

    @model_validator(mode="after")
    def one_size(self) -> ClassPlan:
        if (self.mould is None) == (self.oils is None):
            raise problem(
                "each student fills a mould or takes a weight of oils",
                "such as mould: loaf-10, or oils: 500 g",
            )
        if self.to is not None and (self.mould is None or self.to.fraction <= 0):
            raise problem("a fill above nothing goes with a mould", "such as mould: loaf-10 and to: 95 %")
        return self

    @property
    def spare_share(self) -> float:
        return self.spare.fraction if self.spare else 0.0

    @property
    def benches(self) -> int:
        return -(-self.students // self.bench)

    @property
    def last_bench(self) -> int:
        """How many stand at the last bench."""
        return self.students - (self.benches - 1) * self.bench
