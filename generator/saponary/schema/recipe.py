"""The recipe file's front matter as one typed schema.

The models say what a maker may write; what it weighs is worked out from them in
`book/resolve.py`. They also yield the JSON Schema that editors use.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Field, GetJsonSchemaHandler, model_validator
from pydantic_core import CoreSchema

from saponary.schema.alkali_names import by_alkali
from saponary.schema.batch import Batch, PhotoRef, Text
from saponary.schema.fields import (
    AnyAmount,
    LiquidAmount,
    Name,
    Part,
    PartSize,
    PositiveMass,
    Ratio,
    Share,
    ShortText,
    Slice,
    Superfat,
    Volume,
    problem,
    shorthand,
)
from saponary.schema.methods import BY_NAME, USUAL
from saponary.schema.methods.chosen import MethodName
from saponary.schema.methods.method import AdditionStage, LiquidStage, Method, StageId
from saponary.schema.pour import PourStep
from saponary.schema.seen import Private, Public, Seen
from saponary.schema.stock import LyeStock
from saponary.schema.waivers import Waivers


class OilPart(Part):
    """One oil of the blend; an infused oil counts as its carrier."""

    share: Public[PartSize]
    infused_with: Public[Name | None] = None


class Fill(Part):
    """Fill a mould to a share of its volume; the engine finds the oils."""

    mould: Public[Name]
    to: Public[Share]


class Oils(Part):
    """The blend: shares of a stated total, plain weights, or as much as fills a mould.

    What is stirred in `after-cook` is not saponified, and no lye is weighed for it.
    """

    total: Public[PositiveMass | None] = None
    fill: Public[Fill | None] = None
    parts: Public[
        Annotated[dict[Name, Annotated[OilPart, shorthand("share")]], Field(min_length=1, max_length=40)]
    ]
    after_cook: Public[Annotated[dict[Name, AnyAmount], Field(max_length=20)]] = {}


NO_OILS = Oils.model_construct(total=None, fill=None, parts={}, after_cook={})
"""The oils of a recipe that has none: soap of earlier lots is melted again."""


class SoapPart(Part):
    """So much soap of an earlier lot of a recipe of this book."""

    of: Public[Name]
    lot: Public[ShortText]
    amount: Public[PositiveMass]


class Alkali(Part):
    """One alkali: its share of the equivalents, and its purity as weighed."""

    share: Public[Share]
    purity: Public[Share | None] = None


class Lye(Part):
    """Which alkali does the work, by equivalents."""

    sodium: Public[Annotated[Alkali, shorthand("share")] | None] = None
    potassium: Public[Annotated[Alkali, shorthand("share")] | None] = None

    @model_validator(mode="before")
    @classmethod
    def by_name(cls, value: object) -> object:
        """`NaOH` and `KOH` stand for their alkali, and one alone for all of it."""
        return by_alkali(value)

    @classmethod
    def __get_pydantic_json_schema__(
        cls, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        made = handler(schema)
        whole = handler.resolve_ref_schema(made)["properties"]
        whole |= {"NaOH": whole["sodium"], "KOH": whole["potassium"]}
        return {"anyOf": [{"enum": ["NaOH", "KOH"]}, made]}


class Water(Part):
    """The water of the lye, by exactly one of three conventions."""

    lye_strength: Public[Share | None] = None
    to_lye: Public[Ratio | None] = None
    of_oils: Public[Share | None] = None

    @model_validator(mode="after")
    def exactly_one(self) -> Water:
        given = [n for n in ("lye_strength", "to_lye", "of_oils") if getattr(self, n) is not None]
        if len(given) != 1:
            wrong = (
                "no convention of water is given"
                if not given
                else "water is stated by two conventions at once"
            )
            raise problem(wrong, "give exactly one of lye-strength, to-lye, of-oils")
        strength = self.lye_strength
        if strength is not None and not 0 < strength.fraction < 1:
            raise problem("a lye strength lies between 0 % and 100 %", "such as lye-strength: 33 %")
        if self.of_oils is not None and self.of_oils.value <= 0:
            raise problem("water of the oils must be above zero", "such as of-oils: 33 %")
        return self


class Liquid(Part):
    """A liquid that stands in for part of the water."""

    what: Public[Name]
    amount: Public[LiquidAmount]
    at: Public[LiquidStage | None] = None


class Addition(Part):
    """Anything else that goes in, by weight, volume or rate."""

    what: Public[Name]
    amount: Public[AnyAmount]
    at: Public[AdditionStage | None] = None
    from_: Annotated[ShortText | None, Seen("work")] = None


class PortionOils(Part):
    """A portion's own blend, where it is made in a pot of its own."""

    parts: Public[
        Annotated[dict[Name, Annotated[OilPart, shorthand("share")]], Field(min_length=1, max_length=40)]
    ]


class Portion(Part):
    """A share of the batter and what makes it different."""

    name: Public[Name]
    share: Public[Share]
    note: Annotated[ShortText | None, Seen("work")] = None
    infused: Public[dict[Name, Name]] = {}
    oils: Public[PortionOils | None] = None
    liquids: Public[Annotated[list[Liquid], Field(max_length=20)]] = []
    additions: Public[Annotated[list[Addition], Field(max_length=40)]] = []


class Step(Part):
    """A step of the work in the maker's words, set into the order of hands."""

    at: Public[StageId | Literal["portion"]]
    portion: Public[Name | None] = None
    say: Public[Text]


class Cut(Part):
    """How bars are cut: every so far along the mould and, for a slab, across it."""

    along: Public[Slice]
    across: Public[Slice | None] = None


class Size(Part):
    """Another size the recipe is offered in: a mould filled to a share, or so much oil."""

    mould: Public[Name | None] = None
    to: Public[Share | None] = None
    oils: Public[PositiveMass | None] = None

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
        return {"anyOf": [{"type": "string", "examples": ["loaf-10", "2000 g"]}, handler(schema)]}

    @model_validator(mode="after")
    def one_of(self) -> Size:
        if (self.mould is None) == (self.oils is None):
            raise problem("a size is a mould or a weight of oils", "such as loaf-10, or 2000 g")
        return self


class Label(Part):
    """What the bar's label states; `lot` is the one that labels are made for, where they are for one."""

    net_weight: Public[PositiveMass | None] = None
    lot: Public[ShortText | None] = None


class Dilute(Part):
    """A paste thinned to so much total fatty matter, and the acid that takes any free alkali left in it."""

    total_fatty_matter: Public[Share]
    acid: Public[Name | None] = None

    @model_validator(mode="after")
    def some_matter(self) -> Dilute:
        if self.total_fatty_matter.fraction <= 0:
            raise problem("a soap holds some fatty matter", "such as total-fatty-matter: 20 %")
        return self


class Recipe(Part):
    """Everything above the second `---` of a recipe file."""

    title: Public[Annotated[str, Field(min_length=1, max_length=120)]]
    summary: Annotated[Text, Seen("summary")] = ""
    collection: Public[ShortText | None] = None
    editions: Private[Annotated[list[Name], Field(max_length=20)]] = []
    method: Public[MethodName] = USUAL.name
    oils: Public[Oils] = NO_OILS
    soap: Annotated[list[SoapPart], Field(max_length=20), Seen("full formula", "work")] = []
    lye: Public[Lye | None] = None
    superfat: Public[Superfat | None] = None
    water: Public[Water | None] = None
    lye_stock: Public[Annotated[LyeStock, shorthand("strength")] | None] = None
    dilute: Public[Annotated[Dilute, shorthand("total-fatty-matter")] | None] = None
    liquids: Public[Annotated[list[Liquid], Field(max_length=20)]] = []
    additions: Public[Annotated[list[Addition], Field(max_length=60)]] = []
    portions: Public[Annotated[list[Portion], Field(max_length=16)]] = []
    pots: Public[Literal["one", "separate"]] = "one"
    mould: Public[Name | None] = None
    container: Public[Volume | None] = None
    rest: Public[Annotated[int, Field(ge=1, le=365)] | None] = None
    cut: Public[Annotated[Cut, shorthand("along")] | None] = None
    sizes: Annotated[list[Size], Field(max_length=20), Seen("full formula")] = []
    pour: Public[Annotated[list[PourStep], Field(max_length=24)]] = []
    vessel: Annotated[ShortText | None, Seen("work")] = None
    steps: Annotated[list[Step], Field(max_length=60), Seen("work")] = []
    photo: Annotated[PhotoRef | None, Seen("photos")] = None
    label: Annotated[Label | None, Seen("ingredients")] = None
    batches: Private[Annotated[list[Batch], Field(max_length=400)]] = []
    signed: Annotated[dict[ShortText, ShortText], Seen("full formula")] = {}
    waive: Annotated[Waivers, Seen("waivers")] = []
    private: Annotated[Any, Seen("private")] = None

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
        whole = handler.resolve_ref_schema(handler(schema))
        return {**whole, "anyOf": [{"required": ["oils"]}, {"required": ["soap"]}]}
