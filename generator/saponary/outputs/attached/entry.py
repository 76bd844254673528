"""An entry of the schema written down again: the fields that may be shown, in the words they were stated in."""

from __future__ import annotations

from typing import Any

from saponary.quantity.units import Quantity
from saponary.reading.plain import is_list, is_map
from saponary.schema.fields import Part, kebab
from saponary.schema.seen import EVERYWHERE, marks


def written(entry: Part, base: Part | None) -> dict[str, Any]:
    """The fields of an entry that every edition may show, by their keys in YAML; without those that
    `base` states alike.
    """
    marked = marks(type(entry))
    public = {name for name, mark in marked.items() if mark.within(EVERYWHERE)}
    said: dict[str, Any] = {}
    for field in type(entry).model_fields:
        value = getattr(entry, field) if field in public else None
        if value is None or (base is not None and value == getattr(base, field, None)):
            continue
        said[kebab(field)] = _value(value)
    return said


def _value(value: object) -> Any:
    if isinstance(value, Quantity):
        return " ".join(value.text.split())
    if isinstance(value, Part):
        return written(value, None)
    if is_map(value):
        return {key: _value(inner) for key, inner in value.items()}
    if is_list(value):
        return [_value(inner) for inner in value]
    return value
