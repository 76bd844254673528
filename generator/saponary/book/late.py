"""Values that are made when somebody asks for what is in them, and not before.

A book of a thousand recipes is read only as far as it is asked about. A late value has the type that it
stands for, and is used as one that was made at once; some of its fields may be known from the start.
"""

from __future__ import annotations

from collections.abc import Callable, Generator, Hashable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import fields
from functools import cache, partial
from typing import Any, TypeVar, cast

T = TypeVar("T")
U = TypeVar("U")

_MAKE, _STAYS = "_make_late", "_stays_late"

_MADE: list[list[Callable[[], object]]] = []
"""What lets go again of each value that was made late, within each `let_go` that is going on."""


@contextmanager
def let_go() -> Generator[None, None, None]:
    """What is made late in here is let go of at the end, and made once more where somebody asks again.

    So a process that goes through a thousand recipes, one after another, holds no more than one.
    """
    _MADE.append([])
    try:
        yield
    finally:
        for one in reversed(_MADE.pop()):
            one()


def late(kind: type[T], make: Callable[[], T], /, *, stays: bool = False, **known: object) -> T:
    """A value of a dataclass that `make` makes once, when a field is asked for that is not among those `known`.

    One that `stays` is not let go of: it is of the whole book.
    """
    value: Any = object.__new__(_late_kind(cast("Hashable", kind)))
    value.__dict__.update(known)
    if stays:
        value.__dict__[_STAYS] = True
    value.__dict__[_MAKE] = make
    return cast("T", value)


class _Field:
    """A field that is looked for in the value itself first, as Python does, and here where it is not there yet."""

    def __init__(self, name: str, names: Sequence[str]) -> None:
        self._name, self._names = name, names

    def __get__(self, value: Any, kind: type[Any]) -> object:
        if value is None:
            return self
        held: dict[str, Any] = value.__dict__
        before = dict(held)
        made = held[_MAKE]()  # where that fails, it may be asked for again
        del held[_MAKE]
        held.update({name: getattr(made, name) for name in self._names if name not in held})
        if _MADE and _STAYS not in held:
            _MADE[-1].append(partial(_as_before, held, before))
        return held[self._name]


@cache
def _late_kind(of: Hashable) -> type[Any]:
    """A dataclass whose fields are made all at once when one is asked for that is missing."""
    kind = cast("type[Any]", of)
    names = [field.name for field in fields(kind)]
    late_fields = {name: _Field(name, names) for name in names}
    return type(kind.__name__, (kind,), {"__qualname__": kind.__qualname__} | late_fields)


def _as_before(held: dict[str, Any], before: dict[str, Any]) -> None:
    held.clear()
    held.update(before)


class LateMap(Mapping[str, T]):
    """Values by name, each made once, when it is asked for: `make` makes it of what stands under its name in `of`."""

    def __init__(self, of: Mapping[str, U], make: Callable[[U], T]) -> None:
        self._of, self._make = cast("Mapping[str, Any]", of), cast("Callable[[Any], T]", make)
        self._made: dict[str, T] = {}

    def __getitem__(self, name: str) -> T:
        if name not in self._made:
            self._made[name] = self._make(self._of[name])
            if _MADE:
                _MADE[-1].append(partial(self._made.pop, name, None))
        return self._made[name]

    def __contains__(self, name: object) -> bool:
        return name in self._of

    def __iter__(self) -> Iterator[str]:
        return iter(self._of)

    def __len__(self) -> int:
        return len(self._of)


class Seen(Mapping[str, U]):
    """What `of` makes of another map's values, each when it is asked for."""

    def __init__(self, values: Mapping[str, T], of: Callable[[T], U]) -> None:
        self._values, self._of = cast("Mapping[str, Any]", values), cast("Callable[[Any], U]", of)

    def __getitem__(self, name: str) -> U:
        return self._of(self._values[name])

    def __contains__(self, name: object) -> bool:
        return name in self._values

    def __iter__(self) -> Iterator[str]:
        return iter(self._values)

    def __len__(self) -> int:
        return len(self._values)
