"""What a pantry holds, told in one line each: a maker's own, once it has been made."""

from __future__ import annotations

from saponary.lye.mould import Mould, millilitres
from saponary.pantry import lines
from saponary.pantry.lines import Lines
from saponary.pantry.model import Addition, Oil, Pantry
from saponary.quantity.numbers import WeightUnit
from saponary.quantity.rounding import show


def lines_of(pantry: Pantry, units: WeightUnit = "g") -> Lines:
    """All that a recipe may name, by the part of the pantry; rates in the units of a book."""
    placed = pantry.additions.items()
    return {
        "oils": {name: _oil(one) for name, one in pantry.oils.items()},
        "liquids": {name: lines.liquid(one.name, 100 * one.water) for name, one in pantry.liquids.items()},
        "additions": {name: _addition(one, units) for name, one in placed if one.colour is None},
        "colourants": {name: _addition(one, units) for name, one in placed if one.colour is not None},
        "infusions": {name: f"{one.botanical} in {one.carrier}" for name, one in pantry.infusions.items()},
        "moulds": {name: _mould(one) for name, one in pantry.moulds.items()},
    }


def _oil(oil: Oil) -> str:
    value = oil.saponification_value
    return lines.oil(oil.name, value.value, value.low, value.high)


def _addition(addition: Addition, units: WeightUnit) -> str:
    colour = addition.colour
    colours = () if colour is None else (colour.fresh, colour.cured)
    return lines.addition(addition.name, addition.usual, colours, units)


def _mould(mould: Mould) -> str:
    return f"{mould.kind}, {show(millilitres(mould), 0)} ml"
