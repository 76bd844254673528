"""A table's rows by id, each read when it is first asked for."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import cached_property
from typing import Generic, TypeVar

T = TypeVar("T")
R = TypeVar("R")


class Rows(Mapping[str, T], Generic[T, R]):
    """A mapping whose data are read when its first row is asked for, and whose rows are made one by one.

    `read` gives the rows as data, by id; `make` makes one of them.
    """

    def __init__(self, read: Callable[[], Mapping[str, R]], make: Callable[[str, R], T]) -> None:
        self._read, self._make = read, make
        self._made: dict[str, T] = {}

    @cached_property
    def _data(self) -> Mapping[str, R]:
        return self._read()

    def __getitem__(self, name: str) -> T:
        if name not in self._made:
            self._made[name] = self._make(name, self._data[name])
        return self._made[name]

    def __contains__(self, name: object) -> bool:
        return name in self._data

    def __iter__(self) -> Iterator[str]:
        return iter(self._data)

    def __len__(self) -> int:
        return len(self._data)


class Over(Mapping[str, T]):
    """A few rows over many: those of `own` go first, in the place of the rows they replace."""

    def __init__(self, base: Mapping[str, T], own: Mapping[str, T]) -> None:
        self._base, self._own = base, own

    def __getitem__(self, name: str) -> T:
        return self._own[name] if name in self._own else self._base[name]

    def __contains__(self, name: object) -> bool:
        return name in self._own or name in self._base

    def __iter__(self) -> Iterator[str]:
        yield from self._base
        yield from (name for name in self._own if name not in self._base)

    def __len__(self) -> int:
        return sum(1 for _ in self)

    @property
    def own(self) -> Mapping[str, T]:
        """Those that are no table's: of what lies below too, but for rows of a table."""
        return {**own_rows(self._base), **self._own}

    def __eq__(self, other: object) -> bool:
        """As of mappings; of two over the same rows only the few are gone through."""
        base, own = getattr(other, "_base", None), getattr(other, "_own", None)
        if type(other) is type(self) and base is self._base and own == self._own:
            return True
        return super().__eq__(other)

    def __hash__(self) -> int:
        raise TypeError("rows may change with what they lie over, and have no hash")


def own_rows(rows: Mapping[str, T]) -> Mapping[str, T]:
    """What is not as a table has it; of a table nothing."""
    over: Over[T] | None = rows if isinstance(rows, Over) else None
    if over is not None:
        return over.own
    return {} if isinstance(rows, Rows) else rows
