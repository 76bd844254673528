"""Digests of values and of code: the same where a step would make the same of them, in any process.

A value is told apart by its types and fields, never by how it prints. Code is told apart by the
bytes of its files, so that no version has to be counted up by hand.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import fields, is_dataclass
from datetime import date
from decimal import Decimal
from enum import Enum
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import cast

_PACKAGE = Path(__file__).resolve().parents[1]
_DATA = frozenset({".py", ".yaml"})

Feed = Callable[[bytes], None]


def digest(value: object) -> str:
    """The SHA-256 of a value made of plain data, dataclasses and models. Raises TypeError for any other."""
    whole = hashlib.sha256()
    _feed(whole.update, value)
    return whole.hexdigest()


@cache
def code_of(*rooms: str) -> str:
    """A digest of the files of rooms of this package, such as "draw/pour": its code and its tables."""
    whole = hashlib.sha256()
    for room in rooms:
        home = _PACKAGE / room
        for path in sorted(home.rglob("*")) if home.is_dir() else [home]:
            if path.suffix in _DATA:
                _text(whole.update, path.relative_to(_PACKAGE).as_posix())
                _sized(whole.update, b"b", path.read_bytes())
    return whole.hexdigest()


def _feed(feed: Feed, value: object) -> None:
    if isinstance(value, bytes):
        _sized(feed, b"b", value)
    elif isinstance(value, Enum):
        _several(feed, type(value).__qualname__, [value.value])
    elif isinstance(value, str):
        _text(feed, value)
    elif value is None or isinstance(value, (bool, int, float, date, Decimal, Fraction)):
        _sized(feed, type(value).__name__.encode(), repr(value).encode())
    elif isinstance(value, Mapping):
        pairs = cast("Mapping[object, object]", value).items()
        _several(feed, "map", [part for pair in pairs for part in pair])
    elif isinstance(value, AbstractSet):
        _several(feed, "set", sorted(digest(one) for one in cast("AbstractSet[object]", value)))
    elif isinstance(value, Sequence):
        _several(feed, "list", cast("Sequence[object]", value))
    else:
        _several(feed, type(value).__qualname__, _parts(value))


def _parts(value: object) -> list[object]:
    """Names and values of the fields of a dataclass, or of a model of the schema."""
    if is_dataclass(value) and not isinstance(value, type):
        names = [field.name for field in fields(value)]
    elif (of_model := getattr(type(value), "model_fields", None)) is not None:
        names = list(of_model)
    else:
        raise TypeError(f"a {type(value).__qualname__} has no digest")
    return [part for name in names for part in (name, getattr(value, name))]


def _several(feed: Feed, kind: str, parts: Sequence[object]) -> None:
    _sized(feed, b"of " + kind.encode(), str(len(parts)).encode())
    for part in parts:
        _feed(feed, part)


def _text(feed: Feed, text: str) -> None:
    _sized(feed, b"s", text.encode("utf-8", "surrogatepass"))


def _sized(feed: Feed, kind: bytes, data: bytes) -> None:
    """What it is and how long, before the bytes, so that no two values run into one."""
    feed(b"%s %d:" % (kind, len(data)))
    feed(data)
