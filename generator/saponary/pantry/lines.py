"""What a recipe may name, told in one line each; the standard tables are told without making their ingredients.

A table is cut down to the lines that are told before it is read as YAML, so that a list of names costs
no more than it must. `pantry/own_lines.py` tells of a pantry that has been made.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from importlib.resources import files

import yaml

from saponary.quantity.numbers import WeightUnit
from saponary.quantity.rounding import show
from saponary.reading.plain import is_list

GROUPS = ("oils", "liquids", "additions", "colourants", "infusions", "moulds")
"""The parts of a pantry, in the order in which they are told."""

Lines = dict[str, dict[str, str]]
"""By the part of the pantry, then by the id: what it is."""

_TOLD = re.compile(
    r"^(?:[a-z]+:|  [a-z0-9-]+:|    (?:name|saponification-value|water|usual|fresh|cured): .*)$", re.MULTILINE
)
"""The heads of a table and of its rows, and the values that a line tells."""

Row = dict[str, str | list[str] | dict[str, str | list[str]]]


def oil(name: str, value: float, low: float, high: float) -> str:
    """A saponification value and its published range, mg potassium hydroxide per g."""
    band = f", {show(low, 0)} to {show(high, 0)}" if high > low else ""
    return f"{name}: saponification value {show(value, 1)} mg/g{band}"


def liquid(name: str, water: float) -> str:
    """Its water, in per cent of its mass."""
    return f"{name}: {show(water, 1)} % water"


def addition(
    name: str, usual: tuple[float, float] | None, colours: Sequence[str] = (), units: WeightUnit = "g"
) -> str:
    """Its colour fresh and cured, as `#rrggbb`, and its usual rate, of g per kg of oils, where it has them."""
    shown = f", {' as poured, '.join(dict.fromkeys(colours))}{' as cured' if len(set(colours)) > 1 else ''}"
    told = name + (shown if colours else "")
    if usual is None:
        return told
    if units == "oz":
        low, high = (show(_OUNCES_IN_A_POUND * each / 1000.0, 2) for each in usual)
        return f"{told}: usually {low} to {high} oz per lb of oils"
    return f"{told}: usually {show(usual[0], 1)} to {show(usual[1], 1)} g per kg of oils"


def of_tables(units: WeightUnit = "g") -> Lines:
    """The standard tables, their rates in the units of a book."""
    rows = {name: _rows(name) for name in ("oils", "liquids", "additions", "colourants")}
    placed = {**rows["additions"], **rows["colourants"]}
    return {
        "oils": {name: _oil(row) for name, row in rows["oils"].items()},
        "liquids": {
            name: liquid(str(row["name"]), _number(row["water"])) for name, row in rows["liquids"].items()
        },
        "additions": {name: _addition(row, units) for name, row in placed.items() if not _colours(row)},
        "colourants": {name: _addition(row, units) for name, row in placed.items() if _colours(row)},
    }


def _rows(table: str) -> dict[str, Row]:
    text = files("saponary.tables").joinpath(f"{table}.yaml").read_text(encoding="utf-8")
    read: dict[str, dict[str, Row]] = yaml.load("\n".join(_TOLD.findall(text)), Loader=yaml.CBaseLoader)
    return read[table]


def _oil(row: Row) -> str:
    stated = row["saponification-value"]
    assert isinstance(stated, dict)
    low, high = _numbers(stated["range"])
    return oil(str(row["name"]), _number(stated["value"]), low, high)


def _addition(row: Row, units: WeightUnit) -> str:
    if "usual" not in row:
        return addition(str(row["name"]), None, _colours(row), units)
    low, high = _numbers(row["usual"])
    return addition(str(row["name"]), (low, high), _colours(row), units)


def _colours(row: Row) -> Sequence[str]:
    """Fresh and cured; where one is not stated it is the other."""
    stated = [str(row[key]) for key in ("fresh", "cured") if key in row]
    return stated * 2 if len(stated) == 1 else stated


_OUNCES_IN_A_POUND = 16.0


def _numbers(amounts: object) -> Iterable[float]:
    assert is_list(amounts)
    return [_number(amount) for amount in amounts]


def _number(amount: object) -> float:
    """The number of an amount such as `191 mg/g`: a table writes each value in one unit."""
    return float(str(amount).partition(" ")[0])
