"""Our dataclasses against those of Python's own library: every class of the package made both ways."""

from __future__ import annotations

import copy
import dataclasses
import importlib
import pickle
from collections.abc import Iterator
from dataclasses import FrozenInstanceError, asdict, field, fields, is_dataclass, replace
from typing import Any

import pytest

from saponary.quantity.dataclass import dataclass
from source import MODULES, PACKAGE


class Plain:
    a: int
    b: list[int] = field(default_factory=list[int])
    c: str = field(default="c", compare=False)
    d: float = field(default=0.5, repr=False)
    made: list[int] = field(default_factory=list[int], init=False)

    @property
    def twice(self) -> int:
        return 2 * self.a


class AfterIt(Plain):
    e: int = 7

    def __post_init__(self) -> None:
        if self.e < 0:
            raise ValueError(self.e)


class Named:
    x: int
    y: int = 2


class OwnEqual:
    x: int

    def __eq__(self, other: object) -> bool:
        return isinstance(other, OwnEqual)

    def __hash__(self) -> int:
        return 5


class Empty:
    """Nothing in it."""


KINDS = (Plain, Named, OwnEqual, Empty)


def parts_of(kind: type) -> dict[str, object]:
    return {name: value for name, value in vars(kind).items() if name not in ("__dict__", "__weakref__")}


def both(kind: type, **how: bool) -> tuple[Any, Any]:
    """The class as ours and as Python's own."""
    parts = parts_of(kind)
    ours, theirs = type(kind.__name__, (), dict(parts)), type(kind.__name__, (), dict(parts))
    return dataclass(**how)(ours), dataclasses.dataclass(**how)(theirs)


@pytest.mark.parametrize("frozen", [False, True])
@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.__name__)
def test_a_class_is_what_pythons_own_makes_of_it(kind: type, frozen: bool) -> None:
    given = {"a": {"a": 3}, "x": {"x": 3}}.get(next(iter(kind.__annotations__), ""), {})
    seen: list[list[object]] = []
    for of in both(kind, frozen=frozen):
        one, other = of(**given), of(**given)
        told: list[object] = [repr(one), one == other, one == given, is_dataclass(of), vars(one)]
        told += [(f.name, f.type, f.default, f.repr, f.compare) for f in fields(of)]
        told += [vars(of)["__match_args__"], asdict(one), replace(one) == one, copy.deepcopy(one) == one]
        told.append(of.__hash__ is None)
        seen.append(told)
    assert seen[0] == seen[1]


def test_of_frozen_values_hashes_are_those_of_pythons_own() -> None:
    ours, theirs = both(Named, frozen=True)
    assert hash(ours(1, 3)) == hash(theirs(1, 3))


def test_what_is_asked_for_is_asked_for() -> None:
    for of in both(Plain):
        with pytest.raises(TypeError, match="missing 1 required positional argument: 'a'"):
            of()
        with pytest.raises(TypeError, match="unexpected keyword argument 'made'"):
            of(a=1, made=[])
        assert of(1, [2], "3", 4.0).b == [2]
        assert of(1).b is not of(1).b
        assert of(1, c="one") == of(1, c="other")
    for of in both(Named, kw_only=True):
        with pytest.raises(TypeError, match="positional argument"):
            of(1)
        assert of(x=1).y == 2


def test_a_frozen_value_is_not_changed() -> None:
    for of in both(Named, frozen=True):
        one = of(1)
        with pytest.raises(FrozenInstanceError, match="cannot assign to field 'x'"):
            one.x = 2
        with pytest.raises(FrozenInstanceError, match="cannot delete field 'x'"):
            del one.x
        with pytest.raises(FrozenInstanceError):
            one.other = 2
        below = type("Below", (of,), {})(1)
        below.other = 2
        with pytest.raises(FrozenInstanceError):
            below.x = 2


def test_a_class_that_derives_from_another() -> None:
    first: Any = dataclass(frozen=True)(type("First", (), parts_of(Named)))
    second: Any = dataclass(frozen=True)(
        type(
            "Second",
            (first,),
            {"__annotations__": {"e": int}, "e": 7, "__post_init__": AfterIt.__post_init__},
        )
    )
    assert vars(second(1)) == {"x": 1, "y": 2, "e": 7}
    assert first(1) != second(1) and second(1) == second(1, 2, 7)
    with pytest.raises(ValueError, match="-1"):
        second(1, e=-1)


@dataclass(frozen=True)
class Kept:
    x: int


def test_a_pickled_value_needs_no_other_before_it() -> None:
    assert pickle.loads(
        b"\x80\x03c" + Kept.__module__.encode() + b"\nKept\n)\x81}X\x01\x00\x00\x00xK\x05sb."
    ) == Kept(5)


def classes() -> Iterator[Any]:
    """Every dataclass of the package."""
    for path in MODULES:
        if path.stem in ("__main__",):
            continue
        parts = (PACKAGE.name, *path.relative_to(PACKAGE).with_suffix("").parts)
        module = importlib.import_module(".".join(part for part in parts if part != "__init__"))
        for one in vars(module).values():
            if isinstance(one, type) and one.__module__ == module.__name__ and is_dataclass(one):
                yield one


def test_every_class_of_the_package_has_an_init_that_takes_its_fields() -> None:
    found = [one for one in classes() if "__dataclass_fields__" in vars(one)]
    assert len(found) > 300
    for of in found:
        value: Any = object.__new__(of)
        given = {one.name: one.name for one in fields(of) if one.init}
        if hasattr(of, "__post_init__"):
            continue
        of.__init__(value, **given)
        assert {name: getattr(value, name) for name in given} == given, of
