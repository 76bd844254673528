"""What a cook boils off, told by the scale: the pot with what is in it, weighed before and after."""

from __future__ import annotations

from math import ceil
from typing import NamedTuple

from saponary.lye.figures import Figures
from saponary.quantity.rounding import steady


class Cooked(NamedTuple):
    """A pot after its cook, in grams. `lost` is below zero where the pot was heavier after the cook.

    `water` is what there was of it in the finished soap, had nothing boiled off; `left` is what is still there.
    `made` is all of the soap: what was in the pot, what was stirred in and what is set on it, less what was lost.
    """

    lost: float
    water: float
    made: float

    @property
    def left(self) -> float:
        return self.water - self.lost

    @property
    def lost_of_water(self) -> float:
        """The share of the water that is gone."""
        return self.lost / self.water if self.water > 0 else 0.0

    @property
    def water_share(self) -> float:
        """The share of the soap that is water."""
        return self.left / self.made if self.made > 0 else 0.0

    def each(self, bars: int) -> float:
        """Grams of one of so many bars, fresh from the mould."""
        return self.made / bars

    def dried(self, cured_water: float) -> float:
        """Grams of all of it once `cured_water` (a fraction of the dry soap) is water; it takes up none."""
        if cured_water >= 1.0:
            return self.made
        return min(self.made, (self.made - self.left) / (1.0 - cured_water))


ROOM = 3.0
"""A pot for a cook holds three times its batter, which climbs: common practice, no source."""
_POTS = 500.0
"""Millilitres by which pots differ."""


def pot_millilitres(figures: Figures) -> float:
    """What the pot for a cook must hold, to the next half litre."""
    return _POTS * ceil(steady(ROOM * figures.batter_ml / _POTS))


def cooked(figures: Figures, before: float, after: float) -> Cooked:
    """What was lost between two weighings of the pot (grams, the pot itself in both)."""
    lost = before - after
    return Cooked(lost, figures.fresh_water, figures.loaf - lost)
