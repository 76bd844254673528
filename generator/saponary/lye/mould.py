"""Moulds: volumes by closed-form geometry, in millimetres and millilitres."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import floor, pi
from typing import Literal

from saponary.quantity.roots import rising_root


@dataclass(frozen=True)
class Mould:
    """A mould by its inner measures. A loaf whose sides slope gives the measures of its
    top too; cavities give one cavity's volume and how many there are.
    """

    kind: Literal["loaf", "slab", "cylinder", "cavities"]
    length: float = 0.0
    width: float = 0.0
    height: float = 0.0
    top_length: float | None = None
    top_width: float | None = None
    diameter: float = 0.0
    cavity_ml: float = 0.0
    count: int = 1
    liner: float = 0.0


def millilitres(mould: Mould) -> float:
    """Inner volume. A liner takes its thickness from both sides, both ends and the bottom."""
    if mould.kind == "cavities":
        return mould.cavity_ml * mould.count
    t = mould.liner
    if mould.kind == "cylinder":
        radius = max(0.0, mould.diameter / 2 - t)
        return pi * radius * radius * max(0.0, mould.length - t) / 1000.0 * mould.count

    def inside(measure: float, walls: int) -> float:
        return max(0.0, measure - walls * t)

    length, width, height = inside(mould.length, 2), inside(mould.width, 2), inside(mould.height, 1)
    top_length = inside(mould.top_length or mould.length, 2)
    top_width = inside(mould.top_width or mould.width, 2)
    middle = (length + top_length) / 2 * (width + top_width) / 2
    prismatoid = height / 6 * (length * width + 4 * middle + top_length * top_width)
    return prismatoid / 1000.0 * mould.count


def fill_height(mould: Mould, volume: float) -> float | None:
    """Millimetres from the inner bottom to the batter, for so many millilitres in all of its moulds.

    A pipe stands upright. None where they do not fit, and for cavities, whose shape is not known.
    """
    if mould.kind == "cavities" or not 0.0 < volume <= millilitres(mould) * (1.0 + 1e-9):
        return None
    full = rim_height(mould)
    if mould.kind == "cylinder":
        return min(1.0, volume / millilitres(mould)) * full
    return rising_root(lambda height: _below(mould, height), 0.0, full, volume, near=1e-9, narrow=1e-9)


def rim_height(mould: Mould) -> float:
    """Millimetres from the inner bottom to the rim; of a pipe, which stands upright, its inner length."""
    return max(0.0, (mould.length if mould.kind == "cylinder" else mould.height) - mould.liner)


def _below(mould: Mould, height: float) -> float:
    """Millilitres of a loaf or slab up to an inner height."""
    full, t = max(0.0, mould.height - mould.liner), mould.liner

    def widened(bottom: float, top: float | None) -> float:
        inner, above = max(0.0, bottom - 2 * t), max(0.0, (top or bottom) - 2 * t)
        return inner + (above - inner) * (height / full if full > 0 else 0.0)

    part = Mould(
        mould.kind, max(0.0, mould.length - 2 * t), max(0.0, mould.width - 2 * t), height,
        widened(mould.length, mould.top_length) or None, widened(mould.width, mould.top_width) or None,
        count=mould.count,
    )  # fmt: skip
    return millilitres(part)


def bars(mould: Mould, along: float, across: float | None = None, kerf: float = 0.0) -> int:
    """How many whole bars a mould yields, cut every `along` mm of its length and, for a slab,
    every `across` mm of its width, losing `kerf` mm at each cut."""
    if mould.kind == "cavities":
        return mould.count

    def pieces(length: float, each: float) -> int:
        return max(0, floor((length + kerf) / (each + kerf) + 1e-9)) if each > 0 else 0

    walls = 1 if mould.kind == "cylinder" else 2
    rows = (
        pieces(mould.width - 2 * mould.liner, across)
        if across is not None and mould.kind in ("slab", "loaf")
        else 1
    )
    return pieces(mould.length - walls * mould.liner, along) * rows * mould.count


def filled_by(volume: Callable[[float], float], wanted: float) -> float | None:
    """Grams of oils whose batter is `wanted` millilitres; None where not a gram has room.

    `volume` rises with the grams of oils, nearly as a straight line.
    """
    most = _LEAST_OILS
    if volume(most) > wanted:
        return None
    while volume(most) < wanted:
        most *= 2.0
    return rising_root(volume, most / 2.0, most, wanted, near=1e-12 * wanted, narrow=1e-12 * most)


_LEAST_OILS = 1.0
"""Grams of oils, below which a mould has no room for any."""
