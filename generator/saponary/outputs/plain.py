"""Rows of pages as text and back: dataclasses and named tuples of ids, numbers, days and messages, and nothing else.

A row's own class says which classes it may be made of. No other is ever made of a text, whoever wrote it.
"""

from __future__ import annotations

import json
from collections.abc import Hashable, Mapping
from datetime import date
from functools import cache, partial
from types import MappingProxyType
from typing import Any, cast, get_args, get_type_hints

from markupsafe import Markup

from saponary.assets.field_names import field_names
from saponary.reading.plain import is_map, is_row

Made = Mapping[str, type[Any]]

_MAP, _DAY, _MARKUP = "", "day", "markup"


def as_text(row: object) -> str:
    """A row as text. Raises TypeError where something else is in it."""
    return json.dumps(_plain(row), ensure_ascii=False, separators=(",", ":"))


def of_text(kind: type[Any], text: str) -> Any:
    """The row of this class that a text was made of."""
    return json.loads(text, object_hook=partial(_made, _classes(cast("Hashable", kind))))


def _plain(value: object) -> object:
    if isinstance(value, Markup):
        return {_MARKUP: str(value)}
    if value is None or isinstance(value, (str, int, float)):
        return value
    kind: type[object] = type(value)
    names = field_names(cast("Hashable", kind))
    if names is not None:
        return {kind.__name__: [_plain(getattr(value, name)) for name in names]}
    if isinstance(value, date):
        return {_DAY: value.isoformat()}
    if is_map(value):
        return {_MAP: [[_plain(key), _plain(part)] for key, part in value.items()]}
    if is_row(value):
        return [_plain(part) for part in value]
    raise TypeError(f"a {type(value).__qualname__} is kept in no row")


def _made(known: Made, found: dict[str, Any]) -> object:
    ((name, value),) = found.items()
    if name == _MAP:
        return {key: _row(part) for key, part in value}
    if name == _DAY:
        return date.fromisoformat(value)
    return Markup(value) if name == _MARKUP else known[name](*map(_row, value))


def _row(value: object) -> object:
    return tuple(_row(part) for part in cast("list[object]", value)) if isinstance(value, list) else value


@cache
def _classes(kind: Hashable) -> Made:
    """The classes that a row may hold, by name. Raises TypeError where two have the same."""
    found: dict[str, type[Any]] = {}
    todo: list[object] = [kind]
    while todo:
        one = todo.pop()
        if isinstance(one, type) and field_names(one) is not None and found.get(one.__name__) is not one:
            if one.__name__ in found:
                raise TypeError(f"two classes of a row are called {one.__name__}")
            found[one.__name__] = one
            todo += get_type_hints(one).values()
        todo += get_args(one)
    return MappingProxyType(found)
