"""Alkali that is kept as a solution, as a maker writes it in the book, in a recipe or in a batch."""

from __future__ import annotations

from pydantic import model_validator

from saponary.schema.fields import Part, RoomTemperature, Share, problem
from saponary.schema.seen import Public

_SODIUM, _POTASSIUM = 0.69, 0.757
"""The hydroxide's share of its hydrate with one water (molar masses 39.997, 56.106 and 18.015 g/mol): with less water
a stock is solid at any temperature of a room."""


class LyeStock(Part):
    """How strong the stocks are, both alike or each its own; 0 % for an alkali that is weighed dry.

    `coldest` is the lowest temperature of the place where they stand.
    """

    strength: Public[Share | None] = None
    """How strong the stock is: the lye's share of it. `lye-stock: 50 %` is short for it.
    Example: lye-stock: {strength: 45 %, coldest: 18 °C}
    """
    sodium: Public[Share | None] = None
    """The strength of the stock of sodium hydroxide, where the two differ.
    Example: lye-stock: {sodium: 50 %, potassium: 0 %}
    """
    potassium: Public[Share | None] = None
    """The strength of the stock of potassium hydroxide; 0 % where it is weighed dry.
    Example: lye-stock: {sodium: 50 %, potassium: 0 %}
    """
    coldest: Public[RoomTemperature | None] = None
    """The lowest temperature of the place where it stands. A strong stock sets in the cold.
    Example: lye-stock: {strength: 45 %, coldest: 18 °C}
    """

    @model_validator(mode="after")
    def some_strength(self) -> LyeStock:
        if self.strength is None and self.sodium is None and self.potassium is None:
            raise problem("no strength of the stock is given", "such as lye-stock: 50 %")
        bounds = ((self.sodium, _SODIUM), (self.potassium, _POTASSIUM), (self.strength, _POTASSIUM))
        if any(one is not None and one.fraction > most for one, most in bounds):
            raise problem("a stock holds water beside its alkali", "such as lye-stock: 50 %")
        return self
