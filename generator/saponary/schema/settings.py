"""The book's own settings, `book.yaml`."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from saponary.schema.alkali_names import by_alkali
from saponary.schema.edition import EditionEntry
from saponary.schema.fields import Name, Part, PositiveMass, Share, ShortText, Superfat, problem, shorthand
from saponary.schema.ingredient import Price
from saponary.schema.label_sheets import LabelSheet
from saponary.schema.recipe import Water
from saponary.schema.seen import Private, Public, Seen
from saponary.schema.selling import ForSale, PlaceOfSale
from saponary.schema.stock import LyeStock
from saponary.schema.waivers import Waivers


class Purity(Part):
    """How pure the maker's alkalis are, where a recipe does not say."""

    sodium: Public[Share | None] = None
    potassium: Public[Share | None] = None

    @model_validator(mode="before")
    @classmethod
    def by_name(cls, value: object) -> object:
        """`NaOH` and `KOH` stand for their alkali."""
        return value if isinstance(value, str) else by_alkali(value)


class AlkaliPrice(Part):
    """What the maker's alkalis cost per kilogram."""

    sodium: Public[Price | None] = None
    potassium: Public[Price | None] = None


class CuredWater(Part):
    """The share of a cured bar that is water, where no weighings tell."""

    share: Public[Share]


class Settings(Part):
    """What holds for every recipe of the book unless the recipe says otherwise."""

    title: Public[Annotated[str, Field(min_length=1, max_length=120)]] = "A soap maker's recipe book"
    subtitle: Public[ShortText] = ""
    maker: Public[ShortText] = ""
    place: Public[ShortText] = ""
    language: Public[Annotated[str, Field(pattern=r"^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$")]] = "en"
    units: Public[Literal["g", "oz"]] = "g"
    scale_step: Public[PositiveMass | None] = None
    superfat: Public[Superfat | None] = None
    water: Public[Water | None] = None
    purity: Public[Purity] = Purity()
    lye_stock: Public[Annotated[LyeStock, shorthand("strength")] | None] = None
    free_alkali_limit: Annotated[Share | None, Seen("batches")] = None
    currency: Annotated[Annotated[str, Field(pattern=r"^[A-Z]{3}$")] | None, Seen("costs")] = None
    alkali_price: Annotated[AlkaliPrice, Seen("costs")] = AlkaliPrice()
    cure: Public[Annotated[int, Field(ge=0, le=2000)]] = 28
    cured_water: Public[Annotated[CuredWater, shorthand("share")] | None] = None
    emergency: Public[ShortText] = ""
    about: Public[Annotated[str, Field(max_length=20000)]] = ""
    editions: Private[dict[Name, EditionEntry]] = {}
    build: Private[Annotated[list[Name], Field(max_length=20)]] = []
    press: Private[Annotated[list[Name], Field(max_length=20)]] = []
    label_sheets: Public[Annotated[dict[Name, LabelSheet], Field(max_length=20)]] = {}
    sold_in: Annotated[dict[PlaceOfSale, ForSale], Seen("ingredients")] = {}
    function: Annotated[ShortText, Seen("ingredients")] = ""
    durability_months: Annotated[Annotated[int, Field(ge=1, le=30)] | None, Seen("ingredients")] = None
    after_opening_months: Annotated[Annotated[int, Field(ge=1, le=60)] | None, Seen("ingredients")] = None
    waive: Annotated[Waivers, Seen("waivers")] = []
    base_url: Public[Annotated[str, Field(pattern=r"^https?://[^\s]+$", max_length=200)] | None] = None

    @model_validator(mode="after")
    def dated_once(self) -> Settings:
        if self.durability_months is not None and self.after_opening_months is not None:
            raise problem(
                "a label carries a date of durability or a period after opening, not both",
                "durability-months for soap that keeps 30 months or less, after-opening-months for what keeps longer",
            )
        return self

    @property
    def scale_step_grams(self) -> float:
        return self.scale_step.grams if self.scale_step else 1.0
