"""Digests of values and of code: the same where a step would make the same of them, in any process.

A value is told apart by its types and fields, never by how it prints. Code is told apart by the
bytes of its files, so that no version has to be counted up by hand.

A value is written out as text first: each part as its kind, how long it is, and what it is, so that no
two values run into one. How values of a type are written is found once for the type.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping, Sequence
from collections.abc import Set as AbstractSet
from datetime import date
from decimal import Decimal
from enum import Enum
from fractions import Fraction
from functools import cache
from operator import attrgetter
from pathlib import Path
from typing import cast

from saponary.assets.field_names import field_names

_PACKAGE = Path(__file__).resolve().parents[1]
_DATA = frozenset({".py", ".yaml"})

Put = Callable[[str], None]
Write = Callable[[Put, object], None]
"""Writes a value out, part by part."""


def digest(value: object) -> str:
    """The SHA-256 of a value made of plain data, dataclasses and models. Raises TypeError for any other."""
    if value is None:
        return _OF_NOTHING
    written: list[str] = []
    _write(written.append, value)
    return _hashed("".join(written).encode("utf-8", "surrogatepass"))


@cache
def code_of(*rooms: str) -> str:
    """A digest of the files of rooms of this package, such as "draw/pour": its code and its tables."""
    whole = hashlib.sha256()
    for room in rooms:
        home = _PACKAGE / room
        for path in sorted(home.rglob("*")) if home.is_dir() else [home]:
            if path.suffix in _DATA:
                data = path.read_bytes()
                whole.update(f"{path.relative_to(_PACKAGE).as_posix()}\n{len(data)}\n".encode())
                whole.update(data)
    return whole.hexdigest()


def _hashed(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


_OF_NOTHING = _hashed(b"n;")
"""Asked for most often: that of None, as `_WRITE` writes it."""


def _write(put: Put, value: object) -> None:
    kind = type(value)
    write = _WRITE.get(kind)
    if write is None:
        write = _WRITE[kind] = _how(kind)
    write(put, value)


def _text(put: Put, value: object) -> None:
    text = cast("str", value)
    put(f"s{len(text)}:{text}")


def _plain(put: Put, value: object) -> None:
    text = repr(value)
    put(f"{type(value).__name__}{len(text)}:{text}")


def _float(put: Put, value: object) -> None:
    put(f"f{value!r};")


def _whole(put: Put, value: object) -> None:
    put(f"i{value};")


def _fraction(put: Put, value: object) -> None:
    of = cast("Fraction", value)
    put(f"q{of.numerator}/{of.denominator};")


def _bytes(put: Put, value: object) -> None:
    put(f"b{_hashed(cast('bytes', value))};")


def _enum(put: Put, value: object) -> None:
    put(f"of {type(value).__qualname__}:")
    _write(put, cast("Enum", value).value)


def _map(put: Put, value: object) -> None:
    pairs = cast("Mapping[object, object]", value).items()
    put(f"map{len(pairs)}:")
    for key, one in pairs:
        _write(put, key)
        _write(put, one)


def _set(put: Put, value: object) -> None:
    ones = sorted(digest(one) for one in cast("AbstractSet[object]", value))
    put(f"set{len(ones)}:{' '.join(ones)}")


def _list(put: Put, value: object) -> None:
    ones = cast("Sequence[object]", value)
    put(f"list{len(ones)}:")
    for one in ones:
        _write(put, one)


_WRITE: dict[type, Write] = {
    str: _text,
    float: _float,
    int: _whole,
    type(None): lambda put, value: put("n;"),
    bool: lambda put, value: put("y;" if value else "o;"),
    Fraction: _fraction,
    dict: _map,
    list: _list,
    tuple: _list,
}
"""How values of a type are written, found so far."""

_HOW: tuple[tuple[tuple[type, ...], Write], ...] = (
    ((bytes,), _bytes),
    ((Enum,), _enum),
    ((str,), _text),
    ((int, float, date, Decimal, Fraction), _plain),
    ((Mapping,), _map),
    ((AbstractSet,), _set),
    ((Sequence,), _list),
)
"""The same for types that derive from these, in their order."""


def _how(kind: type) -> Write:
    named = field_names(kind)
    if named is not None:
        return _of_fields(kind, named)
    for of, write in _HOW:
        if issubclass(kind, of):
            return write
    of_model = cast("Mapping[str, object] | None", getattr(kind, "model_fields", None))
    if of_model is None:
        raise TypeError(f"a {kind.__qualname__} has no digest")
    return _of_fields(kind, tuple(of_model))


def _of_fields(kind: type, names: Sequence[str]) -> Write:
    """Writes a dataclass, a named tuple, or a model of the schema, by the names and values of its fields."""
    head = f"of {kind.__qualname__} {' '.join(names)}:"
    # With a name beside them it gives them as a tuple, however few they are.
    parts = cast("Callable[[object], tuple[object, ...]]", attrgetter("__class__", "__class__", *names))

    def write(put: Put, value: object) -> None:
        put(head)
        for part in parts(value)[2:]:
            _write(put, part)

    return write
