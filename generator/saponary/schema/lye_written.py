"""Lye and water as a recipe, or a book, states them."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import GetJsonSchemaHandler, model_validator
from pydantic_core import CoreSchema

from saponary.schema.alkali_names import by_alkali
from saponary.schema.fields import Part, Ratio, Share, problem, shorthand
from saponary.schema.seen import Public


class Alkali(Part):
    """One alkali: its share of the equivalents, and its purity as weighed."""

    share: Public[Share]
    """This hydroxide's share of the work, by equivalents. Both together make 100 %.
    Example: lye: {sodium: {share: 100 %, purity: 98.5 %}}
    """
    purity: Public[Share | None] = None
    """How pure it is as weighed, from the supplier's paper. Left out, book.yaml's `purity` holds, or 100 %.
    Example: lye: {sodium: {share: 100 %, purity: 98.5 %}}
    """


class Lye(Part):
    """Which alkali does the work, by equivalents."""

    sodium: Public[Annotated[Alkali, shorthand("share")] | None] = None
    """The share of the work that sodium hydroxide does, by equivalents."""
    potassium: Public[Annotated[Alkali, shorthand("share")] | None] = None
    """The share of the work that potassium hydroxide does, by equivalents. It is seldom sold pure: state its
    purity.
    """

    @model_validator(mode="before")
    @classmethod
    def by_name(cls, value: object) -> object:
        """`NaOH` and `KOH` stand for their alkali, and one alone for all of it."""
        return by_alkali(value)

    @classmethod
    def __get_pydantic_json_schema__(
        cls, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        made = super().__get_pydantic_json_schema__(schema, handler)
        whole = handler.resolve_ref_schema(made)["properties"]
        for also, name in (("NaOH", "sodium"), ("KOH", "potassium")):
            whole[also] = {**whole[name], "x-also": name}
        return {"anyOf": [{"enum": ["NaOH", "KOH"]}, made]}


class Water(Part):
    """The water of the lye, by exactly one of three conventions."""

    lye_strength: Public[Share | None] = None
    """The lye's share of the lye solution. A higher number means less water.
    Example: water: {lye-strength: 33 %}
    """
    to_lye: Public[Ratio | None] = None
    """Parts of water to one part of lye, by weight. Example: water: {to-lye: 2.0}"""
    of_oils: Public[Share | None] = None
    """The water as a share of the weight of oils. Example: water: {of-oils: 33 %}"""

    @model_validator(mode="after")
    def exactly_one(self) -> Water:
        given = [n for n in ("lye_strength", "to_lye", "of_oils") if getattr(self, n) is not None]
        if len(given) != 1:
            wrong = "water has none of its keys" if not given else "water is given in two ways at once"
            raise problem(wrong, "give exactly one of lye-strength, to-lye, of-oils")
        strength = self.lye_strength
        if strength is not None and not 0 < strength.fraction < 1:
            raise problem("a lye strength lies between 0 % and 100 %", "such as lye-strength: 33 %")
        if self.of_oils is not None and self.of_oils.value <= 0:
            raise problem("water of the oils must be above zero", "such as of-oils: 33 %")
        return self
