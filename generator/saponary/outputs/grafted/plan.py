"""On which page each part of a book begins, and so on which page a link's target lies."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from saponary.outputs.grafted.fragment import Fragment
from saponary.outputs.pdf_kind import Part


@dataclass(frozen=True)
class Extent:
    """How many pages a part fills, and on which of them, counted from nought, each of its names lies."""

    pages: int
    names: Mapping[str, int]


def extent(fragment: Fragment) -> Extent:
    return Extent(len(fragment.pages), {name: place.page for name, place in fragment.anchors.items()})


UNKNOWN = Extent(1, {})
"""Of a part that has not been set yet."""


class Plan(NamedTuple):
    """The first page of each part, and the number of every name; pages are counted from one."""

    first: tuple[int, ...]
    numbers: Mapping[str, int]


def plan(parts: Sequence[Part], extents: Sequence[Extent]) -> Plan:
    """Where parts come to stand. Of parts that have the same name, the first one's counts."""
    free, first, numbers = 1, list[int](), dict[str, int]()
    for part, one in zip(parts, extents, strict=True):
        if part.opens != "next":
            free += free % 2 != (part.opens == "right")
        first.append(free)
        for name, page in one.names.items():
            numbers.setdefault(name, free + page)
        free += one.pages
    return Plan(tuple(first), numbers)
