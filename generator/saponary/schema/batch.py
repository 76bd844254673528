"""The record of one batch as really made.

It holds what a cosmetic batch record holds by ISO 22716: product and formula version,
lot, date and people, materials as weighed, steps with times and temperatures, in-process
results, deviations, tests, release. (Contents of that standard from memory.)
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, field_validator, model_validator

from saponary.schema.alkali_names import by_material
from saponary.schema.dated import days_for_dates
from saponary.schema.fields import (
    Colour,
    Date,
    Day,
    LyeTemperature,
    Mass,
    Name,
    Normality,
    OilsTemperature,
    Part,
    PositiveMass,
    RoomTemperature,
    Share,
    ShortText,
    Titrant,
    one_or_many,
    problem,
    shorthand,
)
from saponary.schema.seen import Private, Public, Seen
from saponary.schema.stock import LyeStock

Text = Annotated[str, Field(max_length=4000)]

Fault = Literal[
    "ricing", "seizing", "false-trace", "parting", "soda-ash", "cracking", "overheating",
    "glycerin-rivers", "fading", "bleeding", "sweating", "warping", "rancid-spots", "air-pockets",
]  # fmt: skip


class PhotoRef(Part):
    """A photograph of a batch on a day of its cure; day 0 is the pour. `colours` are those
    the maker reads off it, portion by portion, in even light.
    """

    file: Public[ShortText]
    day: Public[Day]
    note: Public[Text | None] = None
    alt: Public[ShortText | None] = None
    colours: Public[dict[Name, Colour]] = {}


Found = Literal["none", "trace", "present"]
"""What a test for free alkali found."""


class TitrationEntry(Part):
    """A titration: the acid used, its strength, the soap dissolved, and the hydroxide it is given as."""

    acid: Public[Titrant]
    strength: Public[Normality]
    sample: Public[PositiveMass]
    as_: Public[Literal["sodium-hydroxide", "potassium-hydroxide"]] = "sodium-hydroxide"


class Pot(Part):
    """The pot with what is in it, on the scale before the cook and after it."""

    before: Public[PositiveMass]
    after: Public[PositiveMass]


class FreeAlkali(Part):
    """A test of a bar for free alkali: what was found, or what a titration took, or both."""

    test: Public[ShortText]
    result: Public[Found | None] = None
    titration: Public[TitrationEntry | None] = None
    on: Public[Date]

    @model_validator(mode="after")
    def says_something(self) -> FreeAlkali:
        if self.result is None and self.titration is None:
            raise problem(
                "this test does not say what it found",
                "add result: none, trace or present, or titration: {acid: 1.2 ml, strength: 0.1 mol/l, sample: 5 g}",
            )
        return self


class Batch(Part):
    """One batch. `weighed` is one marked bar, `bars` several, in grams by days after the pour or by date."""

    lot: Public[ShortText]
    poured: Public[Date]
    formula: Public[Annotated[str, Field(pattern=r"^[0-9a-f]{6,64}$")] | None] = None
    by: Annotated[ShortText | None, Seen("people")] = None
    mould: Private[ShortText | None] = None
    room_temperature: Annotated[RoomTemperature | None, Seen("batches")] = None
    humidity: Annotated[Share | None, Seen("batches")] = None
    lye_temperature: Annotated[LyeTemperature | None, Seen("batches")] = None
    oils_temperature: Annotated[OilsTemperature | None, Seen("batches")] = None
    as_weighed: Annotated[dict[ShortText, Mass | None], Seen("batches")] = {}
    lye_stock: Annotated[Annotated[LyeStock, shorthand("strength")] | None, Seen("batches")] = None
    oil_lots: Annotated[dict[Name, ShortText], Seen("people")] = {}
    trace: Annotated[ShortText | None, Seen("batches")] = None
    pot: Annotated[Pot | None, Seen("batches")] = None
    gel: Annotated[Literal["none", "partial", "full"] | None, Seen("batches")] = None
    unmoulded: Annotated[Date | None, Seen("batches")] = None
    cut: Annotated[Date | None, Seen("batches")] = None
    weighed: Annotated[dict[Day, PositiveMass], Seen("batches")] = {}
    bars: Annotated[dict[ShortText, dict[Day, PositiveMass]], Seen("batches")] = {}
    photos: Annotated[list[PhotoRef], Field(max_length=200), Seen("photos")] = []
    free_alkali: Annotated[list[FreeAlkali], one_or_many(), Field(max_length=20), Seen("batches")] = []
    faults: Annotated[list[Fault], Field(max_length=14), Seen("batches")] = []
    shelf: Annotated[ShortText | None, Seen("people")] = None
    store: Annotated[ShortText | None, Seen("people")] = None
    notes: Annotated[Text | None, Seen("batches")] = None
    editions: Private[Annotated[list[Name], Field(max_length=20)]] = []
    private: Annotated[object, Seen("private")] = None

    @model_validator(mode="before")
    @classmethod
    def by_day(cls, value: object) -> object:
        """A date stands for so many days after the pour."""
        return days_for_dates(value)

    @field_validator("as_weighed", mode="before")
    @classmethod
    def by_material(cls, value: object) -> object:
        """`NaOH` and `KOH` stand for the long names."""
        return by_material(value)

    def last_test(self) -> FreeAlkali | None:
        """The latest free-alkali test, whatever it found."""
        return max(self.free_alkali, key=lambda test: test.on, default=None)

    def weighings(self) -> dict[str, dict[int, float]]:
        """Grams by day, for each marked bar; the one bar of `weighed` has the name ''."""
        series = {name: {day: q.grams for day, q in days.items()} for name, days in self.bars.items()}
        if self.weighed:
            series[""] = {day: q.grams for day, q in self.weighed.items()}
        return series
