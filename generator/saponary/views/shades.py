"""The colour of a batter from what is stirred into it, fresh and cured.

A table colour is that of the colourant in batter at a usual dose. How far it covers the
plain batter follows the dose by a saturating curve; several colourants mix by their
absorption (Kubelka and Munk's relation, taken for each of red, green and blue), so that a
dark one tells more than its share. These are drawings, not measurements.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import exp, sqrt
from typing import NamedTuple

from saponary.draw.pour import Shade
from saponary.pantry.colour import seen
from saponary.pantry.model import Addition
from saponary.quantity.rounding import to_decimals

PLAIN = Shade("#eadfc6", "#f2e9d6")
"""Batter without a colourant: cream on the day, ivory after the cure. An estimate."""

CREAM = Shade("#efe7d6", "#f8f4ea")
"""Cream soap: off-white when it is made, whiter once it has rested. An estimate."""

CLEAR = Shade("#d8bb86", "#c8964a")
"""Liquid soap: clouded straw when it is thinned, amber once it is clear. An estimate."""

_FULL = 3.0
"""Exponent of the saturating curve at full depth: 95 % of the way."""

_INFUSED_FULL = 0.30
"""Share of the oils at which an infused oil gives its full colour: common practice, no source."""


class Tint(NamedTuple):
    """A colourant with its dose, as a part of the dose that gives its full depth."""

    fresh: str
    cured: str
    dose: float


def tint(entry: Addition | None, grams: float, oils: float) -> Tint | None:
    """A weighed addition as a tint of the batter; None where it has no colour of its own."""
    if entry is None or entry.colour is None or oils <= 0 or grams <= 0:
        return None
    rate = 1000.0 * grams / oils
    full = entry.colour.full_depth or (entry.usual[1] if entry.usual else 10.0)
    look = seen(entry.colour, rate)
    return Tint(look.fresh, look.cured, rate / full if full > 0 else 1.0)


def infused(entry: Addition | None, share: float) -> Tint | None:
    """An infused oil as a tint, by its share of the oils."""
    if entry is None or entry.colour is None or share <= 0:
        return None
    return Tint(entry.colour.fresh, entry.colour.cured, share / _INFUSED_FULL)


def shade(tints: Iterable[Tint | None], plain: Shade = PLAIN) -> Shade:
    """Soap of a plain colour with these tints in it."""
    there = [t for t in tints if t is not None]
    return Shade(
        _mix(plain.fresh, [(t.fresh, t.dose) for t in there]),
        _mix(plain.cured, [(t.cured, t.dose) for t in there]),
    )


def blend(parts: Iterable[tuple[Shade, float]]) -> Shade:
    """Batters mixed through, by volume."""
    there = [(s, part) for s, part in parts if part > 0]
    if not there:
        return PLAIN
    whole = sum(part for _, part in there)
    return Shade(
        _absorbed([(s.fresh, part / whole) for s, part in there]),
        _absorbed([(s.cured, part / whole) for s, part in there]),
    )


def _mix(plain: str, tints: list[tuple[str, float]]) -> str:
    dose = sum(each for _, each in tints)
    if dose <= 0:
        return plain
    cover = 1.0 - exp(-_FULL * dose)
    return _absorbed([(plain, 1.0 - cover), *((colour, cover * each / dose) for colour, each in tints)])


def _absorbed(parts: list[tuple[str, float]]) -> str:
    """One colour from several by their weights, mixed by absorption over scattering."""
    out = "#"
    for channel in range(3):
        ratio = 0.0
        for colour, weight in parts:
            r = min(max(_linear(int(colour[1 + 2 * channel : 3 + 2 * channel], 16) / 255), 0.004), 0.996)
            ratio += weight * (1 - r) ** 2 / (2 * r)
        out += f"{int(to_decimals(255 * _encoded(1 + ratio - sqrt(ratio * ratio + 2 * ratio)), 0)):02x}"
    return out


def _linear(value: float) -> float:
    return value / 12.92 if value <= 0.04045 else float(((value + 0.055) / 1.055) ** 2.4)


def _encoded(value: float) -> float:
    return 12.92 * value if value <= 0.0031308 else float(1.055 * value ** (1 / 2.4) - 0.055)
