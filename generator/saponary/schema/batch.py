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
    OilsTemperature,
    Part,
    PositiveMass,
    RoomTemperature,
    Share,
    ShortText,
    one_or_many,
    problem,
    shorthand,
)
from saponary.schema.seen import Private, Public, Seen
from saponary.schema.stock import LyeStock
from saponary.schema.titration_entry import TitrationEntry

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
    """The photograph, by its name in the folder `photos/`."""
    day: Public[Day]
    """The day of its cure on which it was taken. The day of the pour is 0."""
    note: Public[Text | None] = None
    """A remark that stands under the photograph.
    Example:
      batches:
      - lot: A1
        poured: 2026-03-02
        photos:
        - {file: a1-day42.jpg, day: 42, alt: a white bar, note: The edge is still soft.}
    """
    alt: Public[ShortText | None] = None
    """What it shows, for readers who do not see it."""
    colours: Public[dict[Name, Colour]] = {}
    """The colours you read off it, portion by portion. The pages then show these.
    Example:
      batches:
      - lot: A1
        poured: 2026-03-02
        photos:
        - file: a1-day42.jpg
          day: 42
          alt: a white bar
          colours: {light: "#efe7d2"}
    """


Found = Literal["none", "trace", "present"]
"""What a test for free alkali found."""


class Pot(Part):
    """The pot with what is in it, on the scale before the cook and after it."""

    before: Public[PositiveMass]
    """The pot with all that is in it, before the cook."""
    after: Public[PositiveMass]
    """The same after the cook."""


class FreeAlkali(Part):
    """A test of a bar for free alkali: what was found, or what a titration took, or both."""

    test: Public[ShortText]
    """How you tested, in your words."""
    result: Public[Found | None] = None
    """What it showed: `none`, `trace` or `present`. A lot with free alkali is held back."""
    titration: Public[TitrationEntry | None] = None
    """What a titration took. The free alkali is worked out from it.
    Example:
      batches:
      - lot: A1
        poured: 2026-03-02
        free-alkali:
          test: titration
          titration: {acid: 0.1 ml, strength: 0.1 mol/l, sample: 5 g}
          on: 2026-04-13
    """
    on: Public[Date]
    """The day of the test."""

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
    """The lot number: the name of this batch. Each is used once in a book."""
    poured: Public[Date]
    """The day it was poured."""
    formula: Public[Annotated[str, Field(pattern=r"^[0-9a-f]{6,64}$")] | None] = None
    """The fingerprint of the formula it was poured to. `saponary record` fills it in.
    Example: batches: [{lot: A1, poured: 2026-03-02, formula: cfed3cbcf1e9}]
    """
    by: Annotated[ShortText | None, Seen("people")] = None
    """Who made it. Example: batches: [{lot: A1, poured: 2026-03-02, by: Ines}]"""
    mould: Private[ShortText | None] = None
    """The mould it went into, where it is not the recipe's.
    Example: batches: [{lot: A1, poured: 2026-03-02, mould: the short loaf}]
    """
    room_temperature: Annotated[RoomTemperature | None, Seen("batches")] = None
    """The temperature of the room at the pour.
    Example: batches: [{lot: A1, poured: 2026-03-02, room-temperature: 18 °C}]
    """
    humidity: Annotated[Share | None, Seen("batches")] = None
    """The humidity of the room at the pour.
    Example: batches: [{lot: A1, poured: 2026-03-02, humidity: 60 %}]
    """
    lye_temperature: Annotated[LyeTemperature | None, Seen("batches")] = None
    """The temperature of the lye solution when it met the oils.
    Example: batches: [{lot: A1, poured: 2026-03-02, lye-temperature: 38 °C}]
    """
    oils_temperature: Annotated[OilsTemperature | None, Seen("batches")] = None
    """The temperature of the oils when the lye solution came in.
    Example: batches: [{lot: A1, poured: 2026-03-02, oils-temperature: 40 °C}]
    """
    as_weighed: Annotated[dict[ShortText, Mass | None], Seen("batches")] = {}
    """What the scale showed, ingredient by ingredient. The superfat as poured is worked out from it.
    Example:
      batches:
      - lot: A1
        poured: 2026-03-02
        as-weighed: {olive: 601 g, coconut: 250 g, sunflower-high-oleic: 150 g, sodium-hydroxide: 139.6 g, water: 285 g}
    """
    lye_stock: Annotated[Annotated[LyeStock, shorthand("strength")] | None, Seen("batches")] = None
    """The stock of lye solution that was weighed from, where it is not the recipe's.
    Example: batches: [{lot: A1, poured: 2026-03-02, lye-stock: 50 %}]
    """
    oil_lots: Annotated[dict[Name, ShortText], Seen("people")] = {}
    """The lot of each oil that went in, as pantry.yaml names it under `lots`.
    Example: batches: [{lot: A1, poured: 2026-03-02, oil-lots: {olive: L-4471}}]
    """
    trace: Annotated[ShortText | None, Seen("batches")] = None
    """How the batter behaved, in your words.
    Example: batches: [{lot: A1, poured: 2026-03-02, trace: light trace after four minutes}]
    """
    pot: Annotated[Pot | None, Seen("batches")] = None
    """The pot on the scale before and after the cook. What is missing has boiled off.
    Example:
      method: hot
      batches:
      - lot: A1
        poured: 2026-03-02
        pot: {before: 3000 g, after: 2930 g}
    """
    gel: Annotated[Literal["none", "partial", "full"] | None, Seen("batches")] = None
    """Whether it went through the gel phase: `none`, `partial` or `full`.
    Example: batches: [{lot: A1, poured: 2026-03-02, gel: full}]
    """
    unmoulded: Annotated[Date | None, Seen("batches")] = None
    """The day it came out of the mould.
    Example: batches: [{lot: A1, poured: 2026-03-02, unmoulded: 2026-03-04}]
    """
    cut: Annotated[Date | None, Seen("batches")] = None
    """The day it was cut. Example: batches: [{lot: A1, poured: 2026-03-02, cut: 2026-03-04}]"""
    weighed: Annotated[dict[Day, PositiveMass], Seen("batches")] = {}
    """Weighings of one marked bar, by days after the pour or by date. The cure curve is drawn from them.
    Example: batches: [{lot: A1, poured: 2026-03-02, weighed: {0: 141.6 g, 7: 135.3 g, 14: 131.2 g}}]
    """
    bars: Annotated[dict[ShortText, dict[Day, PositiveMass]], Seen("batches")] = {}
    """The same for several marked bars, each by a name.
    Example:
      batches:
      - lot: A1
        poured: 2026-03-02
        bars:
          left: {0: 141.6 g, 7: 135.3 g}
          right: {0: 142.4 g, 7: 136.0 g}
    """
    photos: Annotated[list[PhotoRef], Field(max_length=200), Seen("photos")] = []
    """Photographs of this batch by day of cure.
    Example:
      batches:
      - lot: A1
        poured: 2026-03-02
        photos:
        - {file: a1-day42.jpg, day: 42, alt: a white bar}
    """
    free_alkali: Annotated[list[FreeAlkali], one_or_many(), Field(max_length=20), Seen("batches")] = []
    """Tests of a bar for free alkali.
    Example:
      batches:
      - lot: A1
        poured: 2026-03-02
        free-alkali: {test: phenolphthalein on the cut face, result: none, on: 2026-04-13}
    """
    faults: Annotated[list[Fault], Field(max_length=14), Seen("batches")] = []
    """What went wrong: `ricing`, `seizing`, `false-trace`, `parting`, `soda-ash`, `cracking`, `overheating`,
    `glycerin-rivers`, `fading`, `bleeding`, `sweating`, `warping`, `rancid-spots` or `air-pockets`.
    Example: batches: [{lot: A1, poured: 2026-03-02, faults: [soda-ash]}]
    """
    shelf: Annotated[ShortText | None, Seen("people")] = None
    """Where its bars dry. Example: batches: [{lot: A1, poured: 2026-03-02, shelf: rack 2}]"""
    store: Annotated[ShortText | None, Seen("people")] = None
    """Where its bars are kept when they are ready.
    Example: batches: [{lot: A1, poured: 2026-03-02, store: box 7}]
    """
    notes: Annotated[Text | None, Seen("batches")] = None
    """What you want to know next time.
    Example: batches: [{lot: A1, poured: 2026-03-02, notes: Pour five degrees cooler.}]
    """
    editions: Private[Annotated[list[Name], Field(max_length=20)]] = []
    """The editions that show this batch. Left out, all that show batches do.
    Example: batches: [{lot: A1, poured: 2026-03-02, editions: [maker]}]
    """
    private: Annotated[object, Seen("private")] = None
    """Anything only the maker's edition shows.
    Example: batches: [{lot: A1, poured: 2026-03-02, private: {sold-to: the market}}]
    """

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
