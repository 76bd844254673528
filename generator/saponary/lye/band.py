"""The honest superfat: what nature's spread makes of the nominal figure.

Each oil's range is read as two standard deviations to either side of the value used
(the lower and the upper reach may differ). *Likely* combines the reaches by
root-sum-square, as independent oils (one oil on several lines is one oil); *worst* sets every oil to the same end at once.
So likely lies inside worst, and meets it for a single oil.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from saponary.lye.alkali import superfat
from saponary.lye.constants import KOH
from saponary.lye.formula import Oil
from saponary.quantity.totals import totals


@dataclass(frozen=True)
class Band:
    """Superfat as fractions: low is lye-heavy, high is oil-heavy."""

    low: float
    high: float


@dataclass(frozen=True)
class Bands:
    likely: Band
    worst: Band


def bands(oils: Sequence[Oil], available: float, most: float | None = None) -> Bands:
    """Likely and worst superfat for moles of hydroxide available to these oils.

    `most` is what is available at the most, where additions may bring alkali that nobody has
    measured: the low end of the worst case is reckoned with it.
    """
    middle = sum(oil.grams * oil.saponification_value for oil in oils)
    below = totals((oil.id, oil.grams * max(0.0, oil.saponification_value - oil.low)) for oil in oils)
    above = totals((oil.id, oil.grams * max(0.0, oil.high - oil.saponification_value)) for oil in oils)

    def at(total: float, moles: float = available) -> float:
        return superfat(moles, total / 1000.0 / KOH)

    likely = Band(
        at(middle - sqrt(sum(x * x for x in below.values()))),
        at(middle + sqrt(sum(x * x for x in above.values()))),
    )
    lowest = at(middle - sum(below.values()), available if most is None else most)
    return Bands(likely, Band(lowest, at(middle + sum(above.values()))))
