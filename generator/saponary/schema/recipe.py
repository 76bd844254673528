"""The recipe file's front matter as one typed schema.

The models say what a maker may write; what it weighs is worked out from them in
`book/resolve.py`. They also yield the JSON Schema that editors use.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Field, GetJsonSchemaHandler, model_validator
from pydantic_core import CoreSchema

from saponary.schema.batch import Batch, PhotoRef, Text
from saponary.schema.blend import NO_OILS, Addition, Dilute, Liquid, Oils, Portion, SoapPart
from saponary.schema.fields import (
    Name,
    Part,
    PositiveMass,
    Share,
    ShortText,
    Slice,
    Superfat,
    Volume,
    problem,
    shorthand,
)
from saponary.schema.lye_written import Lye, Water
from saponary.schema.methods import BY_NAME, USUAL
from saponary.schema.methods.chosen import MethodName
from saponary.schema.methods.method import Method, StageId
from saponary.schema.pour import PourStep
from saponary.schema.seen import Private, Public, Seen
from saponary.schema.shop import Offer
from saponary.schema.stock import LyeStock
from saponary.schema.temperatures import Temperatures
from saponary.schema.waivers import Waivers


class Step(Part):
    """A step of the work in the maker's words, set into the order of hands."""

    at: Public[Literal[StageId, "portion"]]
    """The place in the order of work, as the method has it: `before`, `lye`, `oils`, `trace`, `grate`, `melt`,
    `cook`, `dilute`, `after-cook`, `split`, `portion`, `pour`, `cover`, `dry`, `rest` or `fill`.
    """
    portion: Public[Name | None] = None
    """The portion it is about, with `at: portion`.
    Example: steps: [{at: portion, portion: dark, say: Stir it first.}]
    """
    say: Public[Text]
    """The sentence itself. It may place figures."""


class Cut(Part):
    """How bars are cut: every so far along the mould and, for a slab, across it."""

    along: Public[Slice]
    """The width of a bar, measured along the mould. `cut: 25 mm` is short for it.
    Example: cut: {along: 25 mm}
    """
    across: Public[Slice | None] = None
    """For a slab: the second cut, across its width. Example: cut: {along: 25 mm, across: 45 mm}"""


class Size(Part):
    """Another size the recipe is offered in: a mould filled to a share, or so much oil."""

    mould: Public[Name | None] = None
    """A mould by its name in pantry.yaml. A bare word in the list means this.
    Example: sizes: [{mould: loaf-10, to: 90 %}]
    """
    to: Public[Share | None] = None
    """How full that mould gets. Example: sizes: [{mould: loaf-10, to: 90 %}]"""
    oils: Public[PositiveMass | None] = None
    """A weight of oils instead of a mould. A bare weight in the list means this.
    Example: sizes: [{oils: 2000 g}]
    """

    @model_validator(mode="before")
    @classmethod
    def bare(cls, value: object) -> object:
        """`loaf-10` stands for a mould, `2000 g` for so much oil."""
        if isinstance(value, str):
            return {"oils": value} if value[:1].isdigit() else {"mould": value}
        return value

    @classmethod
    def __get_pydantic_json_schema__(
        cls, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        made = super().__get_pydantic_json_schema__(schema, handler)
        return {"anyOf": [{"type": "string", "examples": ["loaf-10", "2000 g"]}, made]}

    @model_validator(mode="after")
    def one_of(self) -> Size:
        if (self.mould is None) == (self.oils is None):
            raise problem("a size is a mould or a weight of oils", "such as loaf-10, or 2000 g")
        return self


class Label(Part):
    """What the bar's label states; `lot` is the one that labels are made for, where they are for one."""

    net_weight: Public[PositiveMass | None] = None
    """The weight printed on the label. It must be reached by the cured bar."""
    lot: Public[ShortText | None] = None
    """The lot that labels are made for, where they are for one."""


class Recipe(Part):
    """Everything above the second `---` of a recipe file."""

    title: Public[Annotated[str, Field(min_length=1, max_length=120)]]
    """The name of the recipe on its page, at most 120 characters. Example: title: Plain Bar"""
    summary: Annotated[Text, Seen("summary")] = ""
    """One or two sentences for the page's head and its card in the list. It may place figures: `{oils}`.
    Example: summary: A plain white bar.
    """
    collection: Public[ShortText | None] = None
    """The group under which the recipe stands in the list of recipes. Example: collection: Kitchen"""
    editions: Private[Annotated[list[Name], Field(max_length=20)]] = []
    """The editions that show this recipe. Left out, every edition shows it. The maker's edition always does.
    Example: editions: [class, maker]
    """
    method: Public[MethodName] = USUAL.name
    """How the soap is made: `cold` (poured at trace), `hot` (cooked), `cream` or `liquid` (of potassium,
    cooked and thinned), or `rebatch` (soap of an earlier lot, melted again). Left out, cold.
    Example: method: hot
    """
    oils: Public[Oils] = NO_OILS
    """The oils, fats, butters and waxes, and how much of them in all.
    Example: oils: {total: 1000 g, parts: {olive: 70 %, coconut: 30 %}}
    """
    soap: Annotated[list[SoapPart], Field(max_length=20), Seen("full formula", "work")] = []
    """For a rebatch: the soap that is melted again.
    Example:
      method: rebatch
      soap:
      - {of: earlier-bar, lot: E1, amount: 500 g}
    """
    lye: Public[Lye | None] = None
    """Which hydroxide does the work. Left out, it is sodium hydroxide alone. `NaOH` or `KOH` alone stands for
    all of it, and both may be written for sodium and potassium.
    Example: lye: {sodium: 95 %, potassium: {share: 5 %, purity: 90 %}}
    """
    superfat: Public[Superfat | None] = None
    """The share of the oils' demand for lye that is left unmet. It may stand in book.yaml for all recipes.
    Example: superfat: 5 %
    """
    water: Public[Water | None] = None
    """The water of the lye solution, by exactly one of three ways. It may stand in book.yaml for all recipes.
    Example: water: {lye-strength: 33 %}
    """
    lye_stock: Public[Annotated[LyeStock, shorthand("strength")] | None] = None
    """A stock of lye solution that you weigh from, by its strength. The rest of the water is weighed beside
    it.
    Example: lye-stock: 50 %
    """
    dilute: Public[Annotated[Dilute, shorthand("total-fatty-matter")] | None] = None
    """A paste thinned with water until so much of it is fatty acids.
    Example:
      method: liquid
      oils:
        total: 800 g
        parts: {olive: 70 %, coconut: 30 %}
      lye:
        potassium: {share: 100 %, purity: 90 %}
      water: {to-lye: 3}
      dilute: 20 %
    """
    liquids: Public[Annotated[list[Liquid], Field(max_length=20)]] = []
    """Milk, tea, purée and the like. Their water counts as part of the recipe's water.
    Example: liquids: [{what: black-tea, amount: 100 g, at: lye}]
    """
    additions: Public[Annotated[list[Addition], Field(max_length=60)]] = []
    """What else goes into the whole batch: clays, salts, sugar, scents, petals.
    Example: additions: [{what: kaolin, amount: 10 g/kg}]
    """
    portions: Public[Annotated[list[Portion], Field(max_length=16)]] = []
    """The parts into which the batter is divided. Their shares make 100 %.
    Example: portions: [{name: light, share: 1/2}, {name: dark, share: 50 %}]
    """
    pots: Public[Literal["one", "separate"]] = "one"
    """`one`: one batter is made and divided. `separate`: each portion is made in its own pot and may have its
    own oils.
    Example: pots: separate
    """
    mould: Public[Name | None] = None
    """The mould, by its name in pantry.yaml. Not needed where `oils: fill:` names it.
    Example: mould: loaf-10
    """
    container: Public[Volume | None] = None
    """The volume of a jar or bottle, for soap that is not cut.
    Example:
      method: liquid
      oils:
        total: 800 g
        parts: {olive: 70 %, coconut: 30 %}
      lye:
        potassium: {share: 100 %, purity: 90 %}
      water: {to-lye: 3}
      dilute: 20 %
      container: 250 ml
    """
    rest: Public[Annotated[int, Field(ge=1, le=365)] | None] = None
    """For how many days a cream or liquid soap rests before it is used.
    Example:
      method: liquid
      oils:
        total: 800 g
        parts: {olive: 70 %, coconut: 30 %}
      lye:
        potassium: {share: 100 %, purity: 90 %}
      water: {to-lye: 3}
      dilute: 20 %
      rest: 14
    """
    cut: Public[Annotated[Cut, shorthand("along")] | None] = None
    """How the bars are cut: so far along the mould. Example: cut: 25 mm"""
    sizes: Annotated[list[Size], Field(max_length=20), Seen("full formula")] = []
    """Other sizes that the recipe's page gives weights for: a mould, or a weight of oils.
    Example: sizes: [loaf-10, 2000 g]
    """
    pour: Public[Annotated[list[PourStep], Field(max_length=24)]] = []
    """The steps that put the portions into the mould, from the bottom up. The drawing is made from them.
    Example: pour: [{beds: [{of: light}, {of: dark}]}]
    """
    vessel: Annotated[ShortText | None, Seen("work")] = None
    """The pot, in your words. Aluminium is refused: lye dissolves it. Example: vessel: stainless steel pot"""
    temperatures: Annotated[Temperatures | None, Seen("work")] = None
    """How warm the lye solution and the oils are when they meet, in °C or °F, and the pot of what is cooked.
    Example: temperatures: {lye: 38 °C, oils: 40 °C}
    """
    steps: Annotated[list[Step], Field(max_length=60), Seen("work")] = []
    """Your own sentences, set into the order of work at the place you name.
    Example: steps: [{at: trace, say: Stop at the thinnest trace.}]
    """
    photo: Annotated[PhotoRef | None, Seen("photos")] = None
    """The photograph at the head of the page and on the card.
    Example: photo: {file: a1-day42.jpg, day: 42, alt: a white bar}
    """
    label: Annotated[Label | None, Seen("ingredients")] = None
    """What the printed label says besides the list of ingredients.
    Example:
      label: {net-weight: 125 g}
      batches:
      - lot: A1
        poured: 2026-03-02
        formula: cfed3cbcf1e9
        weighed: {0: 141.6 g, 14: 131.2 g, 28: 127.3 g, 42: 125.9 g}
    """
    shop: Annotated[Offer | None, Seen("shop")] = None
    """What the shop says of this soap: words for buyers, scent, price, stock.
    Example: shop: {price: 7.50}
    """
    batches: Private[Annotated[list[Batch], Field(max_length=400)]] = []
    """The batches made of this recipe. `saponary record NAME` writes one; many may stand in batches/NAME.yaml
    instead.
    Example: batches: [{lot: A1, poured: 2026-03-02}]
    """
    signed: Annotated[dict[ShortText, ShortText], Seen("full formula")] = {}
    """The figures you stand for. `saponary sign NAME` writes them. A build stops when one no longer holds.
    Example: signed: {lye: 139.8 g, water: 283.9 g, superfat: 5.0 %, formula: cfed3cbcf1e9}
    """
    waive: Annotated[Waivers, Seen("waivers")] = []
    """Warnings that you set aside for this recipe, each with your reason.
    Example:
      additions:
      - {what: kaolin, amount: 100 g/kg}
      waive:
      - {rule: usual-rate, about: kaolin, because: the clay is what this bar is about}
    """
    private: Annotated[Any, Seen("private")] = None
    """Anything you like, in any form. Only the maker's edition shows it.
    Example: private: {costing: ask for the price of a whole sack}
    """

    @property
    def by(self) -> Method:
        """The method that it is made by."""
        return BY_NAME[self.method]

    @model_validator(mode="after")
    def made_of_something(self) -> Recipe:
        if self.by.weighs_lye and not self.oils.parts:
            raise problem("'oils' is missing", "add it")
        if not self.by.weighs_lye and not self.soap:
            raise problem(
                f"a {self.method} is made of soap, and 'soap' is missing",
                "such as soap: [{of: RECIPE, lot: LOT, amount: 500 g}]",
            )
        return self

    @classmethod
    def __get_pydantic_json_schema__(
        cls, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        whole = handler.resolve_ref_schema(super().__get_pydantic_json_schema__(schema, handler))
        return {**whole, "anyOf": [{"required": ["oils"]}, {"required": ["soap"]}]}
