"""Colours seen: how far apart two are, and which evidence tells what a dose will look like.

Differences are CIE 1976 (`lab.py`).
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import log, sqrt

from saponary.pantry.lab import lab
from saponary.pantry.model import Chip, Colour

NEAR = 20.0
"""L*a*b* units below which a colour may be said to have stayed: this book's own reading."""

FRESH_UNTIL, CURED_FROM = 3, 28
"""Days of cure up to which a chip shows the fresh colour, and from which the cured one."""


def difference(first: str, second: str) -> float:
    """CIE 1976 colour difference."""
    return sqrt(sum((p - q) ** 2 for p, q in zip(lab(first), lab(second), strict=True)))


def near(first: str, second: str) -> bool:
    """Whether a colour may be said to have stayed the same."""
    return difference(first, second) <= NEAR


@dataclass(frozen=True)
class Seen:
    """The colour that evidence gives for a dose: fresh and cured, and the chips behind each."""

    fresh: str
    cured: str
    stays: bool
    fresh_chip: Chip | None = None
    cured_chip: Chip | None = None


def seen(colour: Colour, dose: float) -> Seen:
    """What this colourant looks like at a dose (g/kg): own chips first, then the table."""
    fresh = _closest([c for c in colour.chips if c.day <= FRESH_UNTIL], dose)
    cured = _closest([c for c in colour.chips if c.day >= CURED_FROM], dose)
    first = fresh.colour if fresh else colour.fresh
    last = cured.colour if cured else colour.cured
    stays = near(first, last) if fresh or cured else colour.stays
    return Seen(first, last, stays, fresh, cured)


def _closest(chips: list[Chip], dose: float) -> Chip | None:
    """The chip nearest in dose by ratio; of equals the one longest in cure."""
    if not chips or dose <= 0:
        return None
    return min(chips, key=lambda c: (abs(log(max(c.dose, 1e-6) / dose)), -c.day, c.lot, c.note))


def with_chip(colour: Colour, chip: Chip) -> Colour:
    """The colour with one more result of the maker's own."""
    return replace(colour, chips=(*colour.chips, chip))
