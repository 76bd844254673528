"""How much water a cured bar holds, where the book does not say.

Ingredient lists, fragrance limits and allergen thresholds all count on the finished bar, so
this one assumption stands behind all three, and every result names it.
"""

from __future__ import annotations

from typing import NamedTuple

from saponary.quantity.rounding import show
from saponary.schema.settings import Settings

ASSUMED = 0.10
"""Share of a cured bar that is water: makers' custom, from memory. The drier the bar, the
larger the share of everything else in it."""


class CuredWater(NamedTuple):
    """The share of the cured bar's mass that is water, and whether it is only assumed."""

    share: float
    assumed: bool

    @property
    def note(self) -> str:
        told = "assumed: makers' custom, from memory" if self.assumed else "as the book's settings say"
        return f"Reckoned for a cured bar of which {show(100 * self.share, 1)} % is water ({told})."


def cured_water(settings: Settings) -> CuredWater:
    """The book's own figure, or the assumption."""
    given = settings.cured_water
    return CuredWater(ASSUMED, True) if given is None else CuredWater(given.share.fraction, False)
