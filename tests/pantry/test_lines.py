"""The lines of the standard tables are those of the ingredients that are made of them."""

from __future__ import annotations

from saponary.pantry.lines import GROUPS, of_tables
from saponary.pantry.own_lines import lines_of
from saponary.pantry.standard import standard
from support import some


def test_tables_are_told_as_the_pantry_made_of_them() -> None:
    made = {group: told for group, told in lines_of(standard()).items() if told}
    assert of_tables() == made
    assert set(made) <= set(GROUPS)


def test_each_line_tells_a_name_and_figures() -> None:
    told = of_tables()
    assert told["oils"]["olive"] == "Olive oil: saponification value 191.0 mg/g, 184 to 196"
    assert all("% water" in line for line in some(told["liquids"].values()))
    assert "ultramarine-blue" in told["colourants"] and "ultramarine-blue" not in told["additions"]
