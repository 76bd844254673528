"""A late value is as one that was made at once, and is made once, when it is asked for."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial

import pytest

from saponary.book.late import LateMap, Seen, late, let_go


@dataclass(frozen=True)
class Soap:
    name: str
    oils: tuple[str, ...] = ()

    @property
    def first(self) -> str:
        return self.oils[0]


def unasked() -> Soap:
    pytest.fail("nobody asked")


def test_what_is_known_is_told_without_making_it() -> None:
    soap = late(Soap, unasked, name="A")
    assert isinstance(soap, Soap) and soap.name == "A" and type(soap).__qualname__ == "Soap"


def test_the_rest_is_made_once_and_a_default_is_not_taken_for_it() -> None:
    made: list[int] = []

    def make() -> Soap:
        made.append(1)
        return Soap("B", ("olive", "tallow"))

    soap = late(Soap, make, name="A")
    assert soap.oils == ("olive", "tallow") and soap.first == "olive" and made == [1]
    assert soap.name == "A"
    other = replace(soap, oils=("coconut",))
    assert (other.name, other.first, soap.first) == ("A", "coconut", "olive")


def test_a_map_makes_the_values_that_are_asked_for() -> None:
    soaps = LateMap({"a": partial(Soap, "A"), "b": unasked}, lambda make: make())
    assert list(soaps) == ["a", "b"] and "b" in soaps and len(soaps) == 2
    assert soaps["a"] is soaps["a"]
    assert soaps.get("c") is None
    names = Seen(soaps, lambda soap: soap.name)
    assert names["a"] == "A" and "b" in names and len(names) == 2 and list(names) == ["a", "b"]


def test_what_is_made_within_is_let_go_of_and_made_again_when_it_is_asked_for() -> None:
    made: list[str] = []

    def make(name: str) -> Soap:
        made.append(name)
        return Soap(name, (name,))

    before, within = (late(Soap, partial(make, name), name=name) for name in ("A", "B"))
    stays = late(Soap, partial(make, "C"), stays=True)
    soaps = LateMap({"d": "D"}, make)
    assert before.first == "A"
    with let_go():
        assert (before.first, within.first, stays.first, soaps["d"].first) == ("A", "B", "C", "D")
        assert (within.oils, soaps["d"].oils) == (("B",), ("D",))
    assert made == ["A", "B", "C", "D"]
    assert (before.first, within.first, stays.first, soaps["d"].first) == ("A", "B", "C", "D")
    assert made == ["A", "B", "C", "D", "B", "D"] and within.name == "B"


def test_what_could_not_be_made_is_made_when_it_can_be() -> None:
    tries: list[int] = []

    def make() -> Soap:
        tries.append(1)
        if len(tries) == 1:
            raise OSError("the disk is away")
        return Soap("slate")

    value = late(Soap, make)
    with pytest.raises(OSError, match="away"):
        _ = value.name
    assert value.name == value.name == "slate"
    assert len(tries) == 2
