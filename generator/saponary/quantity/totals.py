"""Sums by name: of several weights of one thing, what it comes to in all."""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from typing import TypeVar

K = TypeVar("K", bound=Hashable)


def totals(pairs: Iterable[tuple[K, float]]) -> dict[K, float]:
    """The sum of each name's numbers, in any one unit, by name in the order of their first."""
    summed: dict[K, float] = {}
    for name, number in pairs:
        summed[name] = summed.get(name, 0.0) + number
    return summed
