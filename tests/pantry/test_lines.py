"""The lines of the standard tables are those of the ingredients that are made of them."""

from __future__ import annotations

import pytest

from saponary.pantry.lines import GROUPS, addition, of_tables
from saponary.pantry.own_lines import lines_of
from saponary.pantry.standard import standard
from saponary.quantity.numbers import WeightUnit
from support import some


@pytest.mark.parametrize("units", ["g", "oz"])
def test_tables_are_told_as_the_pantry_made_of_them(units: WeightUnit) -> None:
    made = {group: told for group, told in lines_of(standard(), units).items() if told}
    assert of_tables(units) == made
    assert set(made) <= set(GROUPS)


def test_each_line_tells_a_name_and_figures() -> None:
    told = of_tables()
    assert told["oils"]["olive"] == "Olive oil: saponification value 191.0 mg/g, 184 to 196"
    assert all("% water" in line for line in some(told["liquids"].values()))
    assert "ultramarine-blue" in told["colourants"] and "ultramarine-blue" not in told["additions"]


def test_rates_are_told_in_the_units_of_the_book() -> None:
    """A kilogram is to a gram as a pound of 16 oz is to 0.016 oz."""
    assert addition("Salt", (5.0, 20.0)).endswith("5.0 to 20.0 g per kg of oils")
    assert addition("Salt", (5.0, 20.0), (), "oz").endswith("0.08 to 0.32 oz per lb of oils")


def test_a_colourant_tells_its_colour() -> None:
    assert addition("Rust", None, ("#aa5533", "#aa5533")) == "Rust, #aa5533"
    assert addition("Leaf", None, ("#557733", "#998855")) == "Leaf, #557733 as poured, #998855 as cured"
