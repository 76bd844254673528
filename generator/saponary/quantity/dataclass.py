"""Dataclasses that are made in a tenth of the time, since a command that has little to do makes four hundred of them.

Python's own writes and compiles six methods for every class while its module is imported: of 0.42 s that the
imports of a build took, 0.2 (measured on 2026-11-26, Python 3.11). Here all methods but `__init__` are the same
few functions for every class, and `__init__` is written when the first value is made. What a class is to
`fields`, `replace`, `asdict` and `is_dataclass` is left to Python's own; for types it is Python's own.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from dataclasses import MISSING, FrozenInstanceError
from operator import attrgetter
from reprlib import recursive_repr
from typing import TYPE_CHECKING, Any, cast

if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
else:

    def dataclass(
        cls: type[Any] | None = None, /, *, frozen: bool = False, kw_only: bool = False, **other: bool
    ) -> object:
        """The class with the methods of a dataclass. What is asked for by `other` words is left to Python's own."""

        def made(kind: type[Any]) -> type[Any]:
            if other:
                return dataclasses.dataclass(frozen=frozen, kw_only=kw_only, **other)(kind)
            return _with_methods(kind, frozen, kw_only)

        return made if cls is None else made(cls)


Method = Callable[..., Any]


def _with_methods(cls: type[Any], frozen: bool, kw_only: bool) -> type[Any]:
    own = cls.__dict__
    hashed = own.get("__hash__") is not None
    if cls.__doc__ is None:
        cls.__doc__ = cls.__name__  # else Python's own looks for the signature, which takes longest of all
    dataclasses.dataclass(init=False, repr=False, eq=False, kw_only=kw_only)(cls)
    known = dataclasses.fields(cls)
    methods: dict[str, Method | None] = {
        "__init__": _first(cls, frozen),
        "__repr__": _repr([one.name for one in known if one.repr]),
        "__eq__": _eq([one.name for one in known if one.compare]),
    }
    if frozen:
        methods |= _kept_from_change(cls, frozenset(one.name for one in known))
    if not hashed and "__eq__" not in own:
        methods["__hash__"] = _hash([one.name for one in known if one.compare]) if frozen else None
    for name, method in methods.items():
        if name not in own or name == "__hash__":
            setattr(cls, name, method)
    return cls


def _values(names: list[str]) -> Callable[[object], tuple[object, ...]]:
    """What these fields of a value hold, with its class twice before them: so it is a tuple, however few they are."""
    return cast("Callable[[object], tuple[object, ...]]", attrgetter("__class__", "__class__", *names))


def _eq(names: list[str]) -> Method:
    values = _values(names)

    def equal(self: object, other: object) -> bool:
        return values(self) == values(other) if other.__class__ is self.__class__ else NotImplemented

    return equal


def _hash(names: list[str]) -> Method:
    values = _values(names)

    def hashed(self: object) -> int:
        return hash(values(self)[2:])

    return hashed


def _repr(names: list[str]) -> Method:
    @recursive_repr()
    def told(self: object) -> str:
        parts = (f"{name}={getattr(self, name)!r}" for name in names)
        return f"{self.__class__.__qualname__}({', '.join(parts)})"

    return told


def _kept_from_change(cls: type[Any], names: frozenset[str]) -> dict[str, Method | None]:
    def put(self: object, name: str, value: object) -> None:
        if type(self) is cls or name in names:
            raise FrozenInstanceError(f"cannot assign to field {name!r}")
        super(cls, self).__setattr__(name, value)

    def take(self: object, name: str) -> None:
        if type(self) is cls or name in names:
            raise FrozenInstanceError(f"cannot delete field {name!r}")
        super(cls, self).__delattr__(name)

    return {"__setattr__": put, "__delattr__": take}


def _first(cls: type[Any], frozen: bool) -> Method:
    """An `__init__` that puts the true one in its place, which is as quick as Python's own."""

    def first(self: object, *args: object, **named: object) -> None:
        if cls.__dict__["__init__"] is first:
            cls.__init__ = _init(cls, frozen)
        cls.__init__(self, *args, **named)

    return first


def _init(cls: type[Any], frozen: bool) -> Method:
    """The `__init__` of a class, written out and compiled."""
    asked: dict[bool, list[str]] = {False: [], True: []}
    lines: list[str] = []
    known: dict[str, object] = {"_put": object.__setattr__, "_none": MISSING}
    for one in dataclasses.fields(cls):
        name, value = one.name, one.name
        if one.default_factory is not MISSING:
            known[f"_make_{name}"] = one.default_factory
            value = f"_make_{name}() if {name} is _none else {name}" if one.init else f"_make_{name}()"
        elif one.default is not MISSING:
            known[f"_of_{name}"] = one.default
        if one.init:
            default = "_none" if one.default_factory is not MISSING else f"_of_{name}"
            needed = one.default is MISSING and one.default_factory is MISSING
            asked[bool(one.kw_only)].append(name if needed else f"{name}={default}")
        elif one.default_factory is MISSING:
            continue
        lines.append(f"_put(self, {name!r}, {value})" if frozen else f"self.{name} = {value}")
    if hasattr(cls, "__post_init__"):
        lines.append("self.__post_init__()")
    given = ["self", *asked[False], *(["*", *asked[True]] if asked[True] else [])]
    made: dict[str, Method] = {}
    exec(f"def __init__({', '.join(given)}):\n  " + "\n  ".join(lines or ["pass"]), known, made)
    return made["__init__"]
