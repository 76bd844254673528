"""Jars and bottles: how many a soft or liquid soap fills, and how full each then is."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from saponary.quantity.rounding import steady

FULL = 0.95
"""A jar or bottle is filled to this at the most, since soap swells and foams: common practice, no source."""


@dataclass(frozen=True)
class Containers:
    """So many alike, each of so many `millilitres`, filled to the share `full` with so many `grams`."""

    count: int
    millilitres: float
    full: float
    grams: float


def containers(soap_ml: float, soap: float, each: float) -> Containers:
    """As few as hold so many millilitres and grams of soap, shared out evenly; `each` holds so many millilitres,
    above zero."""
    count = max(1, ceil(steady(soap_ml / (FULL * each))))
    return Containers(count, each, soap_ml / (count * each), soap / count)
