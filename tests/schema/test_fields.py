"""Fields say in the JSON Schema just what their readers read."""

from __future__ import annotations

from typing import Any

import pytest
from pydantic import TypeAdapter

from saponary.quantity.units import LENGTH, MASS, VOLUME
from saponary.schema import fields


@pytest.mark.parametrize(
    ("field", "units"), [(fields.Mass, MASS), (fields.Length, LENGTH), (fields.Volume, VOLUME)]
)
def test_the_units_told_are_those_that_are_read(field: Any, units: dict[str, str]) -> None:
    adapter: TypeAdapter[Any] = TypeAdapter(field)
    told = adapter.json_schema()["description"].partition(": ")[2].split(", ")
    assert told == list(units)
    assert [adapter.validate_python(f"2 {unit}").unit for unit in told] == told


QUANTITIES = [
    name
    for name, field in vars(fields).items()
    if hasattr(field, "__metadata__") and "examples" in TypeAdapter(field).json_schema()
]


@pytest.mark.parametrize("name", QUANTITIES)
def test_the_example_told_is_read(name: str) -> None:
    adapter: TypeAdapter[Any] = TypeAdapter(getattr(fields, name))
    for example in adapter.json_schema()["examples"]:
        assert adapter.dump_python(adapter.validate_python(example)) == example


def test_every_kind_of_quantity_is_among_them() -> None:
    assert {"Mass", "Share", "Superfat", "Ratio", "AnyAmount", "Length", "Volume", "Rate"} <= set(QUANTITIES)
