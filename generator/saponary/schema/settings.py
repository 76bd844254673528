"""The book's own settings, `book.yaml`."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from saponary.schema.alkali_names import by_alkali
from saponary.schema.edition import EditionEntry
from saponary.schema.fields import Name, Part, PositiveMass, Share, ShortText, Superfat, problem, shorthand
from saponary.schema.ingredient import Price
from saponary.schema.label_sheets import LabelSheet
from saponary.schema.look import Look
from saponary.schema.lye_written import Water
from saponary.schema.seen import Private, Public, Seen
from saponary.schema.selling import ForSale, PlaceOfSale
from saponary.schema.shop import Currency, Shop
from saponary.schema.stock import LyeStock
from saponary.schema.waivers import Waivers


class Purity(Part):
    """How pure the maker's alkalis are, where a recipe does not say."""

    sodium: Public[Share | None] = None
    """Purity of your sodium hydroxide as weighed."""
    potassium: Public[Share | None] = None
    """Purity of your potassium hydroxide as weighed. It is sold at about 90 %."""

    @model_validator(mode="before")
    @classmethod
    def by_name(cls, value: object) -> object:
        """`NaOH` and `KOH` stand for their alkali."""
        return value if isinstance(value, str) else by_alkali(value)


class AlkaliPrice(Part):
    """What the maker's alkalis cost per kilogram."""

    sodium: Public[Price | None] = None
    """What a kilogram of sodium hydroxide costs."""
    potassium: Public[Price | None] = None
    """What a kilogram of potassium hydroxide costs."""


class CuredWater(Part):
    """The share of a cured bar that is water, where no weighings tell."""

    share: Public[Share]
    """The share of a cured bar that is water. `cured-water: 10 %` is short for it.
    Example: cured-water: {share: 10 %}
    """


PdfName = Literal["recipe-sheet", "whole-book", "class-handout", "labels"]
"""The kinds of PDF, as `outputs/pdfs` lists them."""


class Settings(Part):
    """What holds for every recipe of the book unless the recipe says otherwise."""

    title: Public[Annotated[str, Field(min_length=1, max_length=120)]] = "A soap maker's recipe book"
    """The name of the book, at the head of every page. Example: title: A drawer of soap recipes"""
    subtitle: Public[ShortText] = ""
    """A line under the name. Example: subtitle: Bars from a small kitchen"""
    maker: Public[ShortText] = ""
    """Who makes the soap. It stands at the foot of each page. Example: maker: Ines Harrowgate"""
    place: Public[ShortText] = ""
    """Where it is made. Example: place: The back kitchen"""
    language: Public[Annotated[str, Field(pattern=r"^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$")]] = "en"
    """The language of the pages' own words, as a language tag: `en`, `de-AT`. Example: language: en"""
    units: Public[Literal["g", "oz"]] = "g"
    """The unit of all weights, on pages, on paper and in findings: `g` or `oz`. Example: units: g"""
    both_units: Public[bool] = False
    """Whether the tables of the work show the other unit too, beside the one in `units`: `true` or `false`.
    Example: both-units: true
    """
    scale_step: Public[PositiveMass | None] = None
    """The least your scale shows. Weights to be weighed are rounded to it. Example: scale-step: 1 g"""
    superfat: Public[Superfat | None] = None
    """The superfat of recipes that state none. Example: superfat: 5 %"""
    water: Public[Water | None] = None
    """The water of recipes that state none. Example: water: {lye-strength: 33 %}"""
    purity: Public[Purity] = Purity()
    """How pure your hydroxides are, where a recipe does not say.
    Example: purity: {sodium: 99 %, potassium: 90 %}
    """
    lye_stock: Public[Annotated[LyeStock, shorthand("strength")] | None] = None
    """The stock of lye solution that your recipes are weighed from. Example: lye-stock: 50 %"""
    free_alkali_limit: Annotated[Share | None, Seen("batches")] = None
    """The most free alkali that a test may find in a bar you sell, as a share of its weight.
    Example: free-alkali-limit: 0.05 %
    """
    currency: Annotated[Currency | None, Seen("shop", "costs")] = None
    """The currency of your prices, by its three letters. Example: currency: EUR"""
    alkali_price: Annotated[AlkaliPrice, Seen("costs")] = AlkaliPrice()
    """What a kilogram of each hydroxide costs.
    Example: alkali-price: {sodium: 6.50 / kg, potassium: 9 / kg}
    """
    shop: Annotated[Shop, Seen("shop")] = Shop()
    """The shop of the book: its first sentence, how to ask for a bar, how to keep soap.
    Example: shop: {contact: soap@example.org}
    """
    cure: Public[Annotated[int, Field(ge=0, le=2000)]] = 28
    """Days before a bar counts as cured. Example: cure: 28"""
    cured_water: Public[Annotated[CuredWater, shorthand("share")] | None] = None
    """The share of a cured bar that is water, where no weighings tell. The ingredient list of the finished bar
    rests on it.
    Example: cured-water: 10 %
    """
    emergency: Public[ShortText] = ""
    """The emergency number of your country, or a whole sentence of your own. A number is set into the standard
    sentence.
    Example: emergency: "112"
    """
    about: Public[Annotated[str, Field(max_length=20000)]] = ""
    """Some paragraphs about the book, in Markdown, for its first page.
    Example: about: Soap from a small kitchen, written down as it was made.
    """
    look: Public[Look] = Look()
    """A logo, an accent colour and a footer of your own.
    Example: look: {footer: Soap from the back kitchen.}
    """
    editions: Private[dict[Name, EditionEntry]] = {}
    """Editions of your own: what each shows. The standard ones are public, shop, class and maker.
    Example: editions: {friends: {shows: [summary, drawing, photos], formula: shares}}
    """
    build: Private[Annotated[list[Name], Field(max_length=20)]] = []
    """The editions that `saponary build` makes when none is named. Example: build: [public, shop]"""
    press: Private[Annotated[list[PdfName], Field(max_length=20)]] = []
    """The kinds of PDF that `--press` makes: `recipe-sheet`, `whole-book`, `class-handout`, `labels`. Left
    out, all.
    Example: press: [recipe-sheet, labels]
    """
    label_sheets: Public[Annotated[dict[Name, LabelSheet], Field(max_length=20)]] = {}
    """Grids of your label paper, each by a name.
    Example:
      label-sheets:
        ten-on-a4: {width: 92 mm, height: 56 mm, columns: 2, rows: 5, left: 11 mm, top: 7 mm, gap-x: 4 mm, gap-y: 0.5 mm, law: eu, page: a4}
    """
    sold_in: Annotated[dict[PlaceOfSale, ForSale], Seen("ingredients")] = {}
    """Where you sell: `us`, `eu` or `gb`, and what a label must say there.
    Example:
      sold-in:
        eu:
          responsible: {name: Ines Harrowgate, address: "1 Example Street, Nowhere"}
          origin: Nowhere
    """
    function: Annotated[ShortText, Seen("private")] = ""
    """What the soap is for, in a word, where that is not plain. Some places want it on the label.
    Example: function: Soap for washing.
    """
    durability_months: Annotated[Annotated[int, Field(ge=1, le=30)] | None, Seen("ingredients")] = None
    """How many months the soap keeps, from 1 to 30. The label's date is worked out from it.
    Example: durability-months: 24
    """
    after_opening_months: Annotated[Annotated[int, Field(ge=1, le=60)] | None, Seen("private")] = None
    """For soap that keeps longer than 30 months: months of use after it is opened.
    Example: after-opening-months: 12
    """
    waive: Annotated[Waivers, Seen("waivers")] = []
    """Warnings about book.yaml that you set aside, each with your reason.
    Example:
      subtitle: Bars that heal a dull day
      waive:
      - {rule: claims, about: heal, because: it is the day that is healed}
    """
    base_url: Public[Annotated[str, Field(pattern=r"^https?://[^\s]+$", max_length=200)] | None] = None
    """The address at which the site is published. The short codes on paper, the cards of recipes and sitemap.xml need it.
    Example: base-url: https://soap.example/book
    """

    @model_validator(mode="after")
    def dated_once(self) -> Settings:
        if self.durability_months is not None and self.after_opening_months is not None:
            raise problem(
                "a label carries a date of durability or a period after opening, not both",
                "durability-months for soap that keeps 30 months or less, after-opening-months for what keeps longer",
            )
        return self

    def law_of(self, grid: LabelSheet) -> PlaceOfSale:
        """Whose rules a sheet of labels follows: its own word, or the first place of sale."""
        if grid.law is not None:
            return grid.law
        for place in self.sold_in:
            return place
        return "eu"

    @property
    def scale_step_grams(self) -> float:
        return self.scale_step.grams if self.scale_step else 1.0
